"""The hot-water test: temperature reached, time, approach, taps."""

from __future__ import annotations

from collections.abc import Iterator

from hearthbook.commissioning.judging import Subject, judge, judge_together
from hearthbook.commissioning.measured import Measured, measured, measured_all
from hearthbook.commissioning.verdicts import Band, Judgement
from hearthbook.design.hot_water import HotWater
from hearthbook.design.results import Design
from hearthbook.documents.figures import KeyFigure, calculated, given
from hearthbook.physics.hot_water import reheat_energy
from hearthbook.record.commissioning import ReadingKind
from hearthbook.record.plant import Cylinder

__all__ = ["judge_hot_water"]

_PRACTICE = "common practice, no source"
_REACHED = 2.0  # K about the set temperature; common practice, no source
_TIME_SPREAD = 1.25  # over the computed reheat time; common practice, no source
_APPROACH_LOW, _APPROACH_HIGH = 1.0, 8.0  # K; 4 to 8 K is good, above 10 a fault; common practice
_TAP_HOT = 50.0  # °C within a minute; HSE HSG274 part 2 (2014)
_TAP_LOSS = 5.0  # K between a cylinder stored cooler and its taps; common practice, no source
_TAP_SCALD = 60.0  # °C; above it a tap without mixing valve scalds within seconds
_LEAST_RISE, _MOST_RISE = 1.0, 90.0  # K a reheat can warm a cylinder by; beyond, a reading is wrong
_STATES = ("steady", "hot_water")


def judge_hot_water(design: Design) -> Iterator[Judgement]:
    """The judgements on hot water; none where there is no cylinder."""
    cylinder = design.home.plant.cylinder
    if cylinder is None:
        return
    place = design.home.places.get("cylinder", "")
    setting = given(
        "plant.cylinder.set_temperature",
        "Set temperature of the cylinder",
        cylinder.set_temperature,
        "°C",
        place="plant.cylinder.set_temperature",
    )
    reached = _read(design, ReadingKind.CYLINDER_TEMPERATURE)
    band = Band(
        cylinder.set_temperature - _REACHED, cylinder.set_temperature + _REACHED, "°C", _PRACTICE
    )
    yield judge(Subject("cylinder_temperature", place), reached, setting, band, _STATES)
    yield _time(design, cylinder, place)
    yield _approach(design, place, reached)
    yield from _taps(design, cylinder)


def _read(design: Design, kind: ReadingKind) -> Measured | None:
    return measured(design.home.commissioning, kind)


def _time(design: Design, cylinder: Cylinder, place: str) -> Judgement:
    water = design.hot_water
    reading = _read(design, ReadingKind.REHEAT_TIME)
    start = _read(design, ReadingKind.REHEAT_START_TEMPERATURE)
    end = _read(design, ReadingKind.CYLINDER_TEMPERATURE)
    expected = None if water is None else water.reheat_time
    if start is not None and end is not None and water is not None:
        is_possible = _LEAST_RISE <= end.value - start.value <= _MOST_RISE
        expected = _time_as_tested(water, cylinder.volume, start, end) if is_possible else expected
    high = None if expected is None else expected.value * _TIME_SPREAD
    band = Band(None, high, "min", f"computed time + 25 %, {_PRACTICE}")
    return judge(Subject("reheat_time", place), reading, expected, band, _STATES)


def _time_as_tested(water: HotWater, volume: float, start: Measured, end: Measured) -> KeyFigure:
    """The time this test should have taken, at the output the design reckons with."""
    output = water.reheat_energy.value / water.reheat_time.value
    energy = float(reheat_energy(volume, start.value, max(end.value, start.value)))
    return calculated(
        "readings.reheat_time_expected",
        "Time this reheat should take",
        energy / output,
        "min",
        formula="t = V · ρ · c · (θ_end − θ_start) / Φ",
        inputs=(start.figure, end.figure, water.reheat_energy, water.reheat_time),
        source="energy balance, at the design's mean output of a reheat",
    )


def _approach(design: Design, place: str, reached: Measured | None) -> Judgement:
    flow = _read(design, ReadingKind.REHEAT_END_FLOW_TEMPERATURE)
    band = Band(_APPROACH_LOW, _APPROACH_HIGH, "K", _PRACTICE)
    subject = Subject("end_approach", place)
    return judge_together(subject, (flow, reached), _above, None, band, _STATES)


def _above(known: tuple[Measured, ...]) -> KeyFigure:
    flow, reached = known
    return calculated(
        "readings.end_approach",
        "Flow above cylinder at the end of the reheat",
        flow.value - reached.value,
        "K",
        formula="Δθ = θ_flow − θ_cylinder",
        inputs=(flow.figure, reached.figure),
        source="definition",
        uncertainty=flow.error + reached.error,
    )


def _taps(design: Design, cylinder: Cylinder) -> Iterator[Judgement]:
    mixing = cylinder.mixing_valve_temperature
    wanted = _TAP_HOT if cylinder.set_temperature >= 60.0 else cylinder.set_temperature - _TAP_LOSS
    source = "HSE HSG274 part 2 (2014); below 60 °C stored the recorded hygiene decision governs"
    low, high = wanted, _TAP_SCALD
    if mixing is not None:
        low, high, source = (
            min(wanted, mixing - _TAP_LOSS),
            mixing + 1.0,
            f"mixing valve, {_PRACTICE}",
        )
    taps = measured_all(design.home.commissioning, ReadingKind.TAP_TEMPERATURE)
    for number, tap in enumerate(taps or (None,), start=1):
        part = "" if tap is None else str(number)
        note = "" if tap is None else tap.reading.note
        subject = Subject("tap_temperature", note, part)
        yield judge(subject, tap, None, Band(low, high, "°C", source), _STATES)
