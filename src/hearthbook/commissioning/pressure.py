"""Pressures, vessel and volumes of the heating water."""

from __future__ import annotations

from collections.abc import Iterator

from hearthbook.commissioning.judging import (
    Subject,
    judge,
    judge_by_rule_of_thumb,
    judge_figure,
    judge_together,
    judged_without_reading,
    judged_without_target,
)
from hearthbook.commissioning.measured import Measured, measured
from hearthbook.commissioning.verdicts import Band, Judgement
from hearthbook.design.results import Design
from hearthbook.documents.figures import Basis, KeyFigure, calculated
from hearthbook.record.commissioning import ReadingKind

__all__ = ["judge_pressure"]

_PRACTICE = "common practice, no source"
# Pa below and above the cold fill; at 0.2 bar below it stands at its own top-up mark. No source
_COLD_BELOW, _COLD_ABOVE = 0.1e5, 0.2e5
_HOT_SPREAD = 0.2e5  # Pa about the predicted hot pressure; common practice, no source
_PRECHARGE_SPREAD = 0.1e5  # Pa; common practice, no source
_FILL_SPREAD = 0.15  # of the volume; common practice, no source
_TEST_FACTOR = 1.3  # times the highest working pressure; EN 14336, from memory
_TEST_LENGTH = 30 * 60.0  # s; common practice, no source
_RESTING = ("steady", "standstill")
_WARM = ("steady", "hot_water", "warming_up")


def judge_pressure(design: Design) -> Iterator[Judgement]:
    """The judgements on pressures, vessel and volumes."""
    expansion = design.expansion
    places = design.home.places
    gauge, vessel = places.get("pressure_gauge", ""), places.get("expansion_vessel", "")
    cold = expansion.cold_fill
    yield judge(
        Subject("cold_pressure", gauge),
        _read(design, ReadingKind.COLD_PRESSURE),
        cold,
        Band(cold.value - _COLD_BELOW, cold.value + _COLD_ABOVE, "bar", _PRACTICE),
        _RESTING,
    )
    yield _hot(design, gauge)
    yield judge(
        Subject("vessel_precharge", vessel),
        _precharge(design),
        expansion.precharge_wanted,
        _around(expansion.precharge_wanted, _PRECHARGE_SPREAD),
        _RESTING,
    )
    yield _vessel_size(design, vessel)
    yield from _volumes(design)
    yield _pressure_test(design)
    yield from _pressure_test_level(design)
    yield from _pressure_test_length(design)


def _vessel_size(design: Design, place: str) -> Judgement:
    installed, needed = design.expansion.vessel_installed, design.expansion.nominal_vessel_needed
    subject = Subject("vessel_size", place)
    if installed.basis is Basis.ASSUMED:
        why = "no expansion vessel is recorded (plant.expansion_vessels)."
        return judged_without_target(subject, why)
    return judge_figure(subject, installed, needed, Band(needed.value, None, "L", "EN 12828"))


def _read(design: Design, kind: ReadingKind) -> Measured | None:
    return measured(design.home.commissioning, kind)


def _precharge(design: Design) -> Measured | None:
    heating = [v.id for v in design.home.plant.expansion_vessels if v.circuit == "heating"]
    named = [
        found
        for vessel in heating
        if (found := measured(design.home.commissioning, ReadingKind.VESSEL_PRECHARGE, vessel))
    ]
    if named:
        return named[-1]
    anonymous = _read(design, ReadingKind.VESSEL_PRECHARGE)
    return anonymous if anonymous is not None and anonymous.reading.of is None else None


def _around(target: KeyFigure, spread: float) -> Band:
    return Band(target.value - spread, target.value + spread, "bar", _PRACTICE)


def _hot(design: Design, gauge: str) -> Judgement:
    """The hot pressure held against a vessel with its right gas charge."""
    reading = _read(design, ReadingKind.HOT_PRESSURE)
    target = design.expansion.normal_hot
    band = Band(
        design.expansion.normal_cold_low.value,
        target.value + _HOT_SPREAD,
        "bar",
        f"prediction for a healthy vessel + 0.2 bar, {_PRACTICE}",
    )
    return judge(Subject("hot_pressure", gauge), reading, target, band, _WARM)


def _volumes(design: Design) -> Iterator[Judgement]:
    volume = design.volume
    needed = volume.needed
    place = design.home.places.get("volumiser", "")
    band = Band(needed.value, None, "L", needed.working.source)
    yield judge_figure(Subject("open_volume", place), volume.open, needed, band)
    filled = _read(design, ReadingKind.FILL_VOLUME)
    if filled is not None:
        total = volume.total
        spread = Band(
            total.value * (1 - _FILL_SPREAD), total.value * (1 + _FILL_SPREAD), "L", _PRACTICE
        )
        yield judge(Subject("fill_volume", ""), filled, total, spread, (*_RESTING, "warming_up"))


def _pressure_test(design: Design) -> Judgement:
    kinds = (ReadingKind.PRESSURE_TEST, ReadingKind.PRESSURE_TEST_END)
    readings = (_read(design, kinds[0]), _read(design, kinds[1]))
    band = Band(-0.05e5, 0.05e5, "bar", f"no lasting fall, {_PRACTICE}")
    return judge_together(Subject("pressure_test", ""), readings, _change, None, band, _RESTING)


def _pressure_test_level(design: Design) -> Iterator[Judgement]:
    """A test proves nothing unless it goes beyond the pressure the system can reach."""
    reading = _read(design, ReadingKind.PRESSURE_TEST)
    if reading is None:
        return
    least = _TEST_FACTOR * design.expansion.safety_valve.value
    source = "1.3 times the highest working pressure, EN 14336, from memory"
    band = Band(least, None, "bar", source)
    yield judge(Subject("pressure_test_level", ""), reading, None, band, _RESTING)


def _pressure_test_length(design: Design) -> Iterator[Judgement]:
    """A test that ends as soon as it has begun shows no leak."""
    start, end = (
        _read(design, kind) for kind in (ReadingKind.PRESSURE_TEST, ReadingKind.PRESSURE_TEST_END)
    )
    if start is None or end is None:
        return
    subject = Subject("pressure_test_length", "")
    if start.reading.at is None or end.reading.at is None:
        yield judged_without_reading(subject)
        return
    length = calculated(
        "readings.pressure_test_length",
        "Length of the pressure test",
        (end.reading.at - start.reading.at).total_seconds(),
        "min",
        formula="t = t_end − t_start",
        inputs=(start.figure, end.figure),
        source="times of the two readings",
    )
    yield judge_by_rule_of_thumb(subject, length, Band(_TEST_LENGTH, None, "min", _PRACTICE))


def _change(known: tuple[Measured, ...]) -> KeyFigure:
    start, end = known
    return calculated(
        "readings.pressure_test_change",
        "Change of pressure over the test",
        end.value - start.value,
        "bar",
        formula="Δp = p_end − p_start",
        inputs=(start.figure, end.figure),
        source="definition",
        uncertainty=start.error,
        note="one gauge at both ends: its error counts once",
    )
