"""Water and heat through the unit: flow rate, flow–return difference, heat balance, sensor zero."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from hearthbook.commissioning.judging import (
    Subject,
    judge,
    judge_together,
    judged_without_target,
)
from hearthbook.commissioning.measured import Measured, measured
from hearthbook.commissioning.verdicts import Band, Judgement
from hearthbook.design.results import Design
from hearthbook.documents.figures import KeyFigure, calculated, given
from hearthbook.physics import heat_pump, water
from hearthbook.record.commissioning import ReadingKind

__all__ = ["judge_flow"]

_PRACTICE = "common practice, no source"
_FLOW_LOW, _FLOW_HIGH = 0.95, 1.20  # of the design flow; common practice, no source
_NAMED_FLOW_HIGH = 1.05  # of the flow the unit's maker names; common practice, no source
_MINIMUM_FLOW_MARGIN = 1.2  # over the unit's minimum; common practice, no source
_DIFFERENCE_SPREAD = 1.0  # K about the design difference at full load; common practice, no source
_LEAST_DIFFERENCE = 3.0  # K at part load; common practice, no source
_FULL_LOAD_WITHIN = 3.0  # K above the design outdoor temperature that still counts as full load
_BALANCE = 0.10  # of the heat; common practice, no source
_COLDEST_WATER, _HOTTEST_WATER = 0.0, 100.0  # °C; limits of the properties
_ZERO = 0.3  # K between the two sensors; common practice, no source


def judge_flow(design: Design) -> Iterator[Judgement]:
    """The judgements on water and heat through the unit."""
    yield from _flow_rate(design)
    yield _difference(design)
    yield from _heat(design)
    yield _zero(design)


def _read(design: Design, kind: ReadingKind) -> Measured | None:
    return measured(design.home.commissioning, kind)


def _place(design: Design) -> str:
    return design.home.places.get("heat_pump_controller") or design.home.siting.place


def _flow_rate(design: Design) -> Iterator[Judgement]:
    reading = _read(design, ReadingKind.FLOW_RATE)
    target = design.hydraulics.system_flow
    named = design.home.plant.heat_pump.nominal_flow or 0.0
    high = max(target.value * _FLOW_HIGH, named * _NAMED_FLOW_HIGH)
    band = Band(target.value * _FLOW_LOW, high, "L/min", _PRACTICE)
    yield judge(Subject("flow_rate", _place(design)), reading, target, band)
    minimum = design.home.plant.heat_pump.minimum_flow
    subject = Subject("minimum_flow", _place(design))
    if minimum is None:
        why = "the unit's minimum flow is not in the record (plant.heat_pump.minimum_flow)."
        yield judged_without_target(subject, why, reading)
        return
    least = given(
        "plant.minimum_flow",
        "Least flow of the unit",
        minimum,
        "L/min",
        place="plant.heat_pump.minimum_flow",
    )
    band = Band(minimum * _MINIMUM_FLOW_MARGIN, None, "L/min", f"unit's minimum × 1.2, {_PRACTICE}")
    yield judge(subject, reading, least, band)


def _pair(design: Design) -> tuple[Measured | None, Measured | None]:
    kinds = (ReadingKind.FLOW_TEMPERATURE, ReadingKind.RETURN_TEMPERATURE)
    return _read(design, kinds[0]), _read(design, kinds[1])


def _difference_of(design: Design, flow: Measured, back: Measured) -> KeyFigure:
    return calculated(
        "readings.flow_return_difference",
        "Flow–return difference",
        flow.value - back.value,
        "K",
        formula="ΔT = θ_flow − θ_return",
        inputs=(flow.figure, back.figure),
        source="definition",
        uncertainty=_pair_error(design, flow.error, back.error),
    )


def _pair_error(design: Design, flow_error: float, return_error: float) -> float:
    """A pair that was zeroed agrees far better than its single errors say."""
    zero = _read(design, ReadingKind.ZERO_OFFSET)
    if zero is not None:
        return abs(zero.value) + zero.error
    return float(np.hypot(flow_error, return_error))


def _outdoor(design: Design) -> float | None:
    readings = (_read(design, ReadingKind.FLOW_TEMPERATURE), _read(design, ReadingKind.FLOW_RATE))
    found = [r.reading.outdoor_temperature for r in readings if r is not None]
    return next((value for value in found if value is not None), None)


def _difference(design: Design) -> Judgement:
    subject = Subject("flow_return_difference", _place(design))
    drop, outdoor = design.emitters.drop, _outdoor(design)
    design_outdoor = design.heat_loss.outdoor_temperature.value
    is_full_load = outdoor is not None and outdoor <= design_outdoor + _FULL_LOAD_WITHIN
    low = drop.value - _DIFFERENCE_SPREAD if is_full_load else min(_LEAST_DIFFERENCE, drop.value)
    band = Band(low, drop.value + _DIFFERENCE_SPREAD, "K", _PRACTICE)
    return judge_together(
        subject, _pair(design), lambda known: _difference_of(design, *known), drop, band
    )


def _carried(design: Design, rate: Measured, flow: Measured, back: Measured) -> KeyFigure:
    """Heat the water carries, from flow rate and flow–return difference."""
    difference = _difference_of(design, flow, back)
    share = design.home.plant.freeze_protection
    glycol = share.glycol_share if share is not None and share.glycol_share else 0.0
    density, heat = _properties(back.value, glycol)
    error = np.hypot(rate.error * difference.value, rate.value * (difference.uncertainty or 0.0))
    return calculated(
        "readings.carried_heat",
        "Heat carried by the water",
        density * heat * rate.value * difference.value,
        "kW",
        formula="Φ = ρ · c · q · ΔT",
        inputs=(rate.figure, difference),
        source="energy balance; density Kell 1975, specific heat of water or glycol mixture",
        uncertainty=float(density * heat * error),
    )


def _properties(reading: float, glycol: float) -> tuple[float, float]:
    """Density and specific heat; a thermometer read wrong by far must not stop the verdicts."""
    temperature = min(max(reading, _COLDEST_WATER), _HOTTEST_WATER)
    if glycol <= 0:
        return float(water.density(temperature)), float(water.specific_heat(temperature))
    share = water.glycol_mass_share(glycol)
    return (
        float(water.glycol_density(temperature, share)),
        float(water.glycol_specific_heat(temperature, share)),
    )


def _heat(design: Design) -> Iterator[Judgement]:
    water_side = (_read(design, ReadingKind.FLOW_RATE), *_pair(design))
    claimed = _read(design, ReadingKind.HEAT_OUTPUT)
    subject = Subject("heat_balance", _place(design))
    if claimed is not None and claimed.value <= 0:
        yield judged_without_target(subject, "the unit showed no heat output.", claimed)
    else:
        band = Band(1 - _BALANCE, 1 + _BALANCE, "%", _PRACTICE)
        readings = (claimed, *water_side)
        yield judge_together(subject, readings, lambda known: _balance(design, *known), None, band)
    yield _possible(design, water_side)


def _balance(
    design: Design, claimed: Measured, rate: Measured, flow: Measured, back: Measured
) -> KeyFigure:
    carried = _carried(design, rate, flow, back)
    ratio = carried.value / claimed.value
    error = np.hypot((carried.uncertainty or 0.0), ratio * claimed.error) / claimed.value
    return calculated(
        "readings.heat_balance",
        "Heat by the water over heat by the unit",
        ratio,
        "%",
        formula="ratio = Φ_water / Φ_unit",
        inputs=(carried, claimed.figure),
        source="energy balance",
        uncertainty=float(error),
    )


def _possible(design: Design, water_side: tuple[Measured | None, ...]) -> Judgement:
    subject = Subject("possible_output", design.home.siting.place)
    outdoor, flow = _outdoor(design), _read(design, ReadingKind.FLOW_TEMPERATURE)
    if outdoor is None and flow is not None:
        why = "no outdoor temperature was noted with the readings."
        return judged_without_target(subject, why, flow)
    band = Band(None, None, "kW", "")
    if outdoor is not None and flow is not None:
        band = _possible_band(design, outdoor, flow.value)
    return judge_together(subject, water_side, lambda known: _carried(design, *known), None, band)


def _possible_band(design: Design, outdoor: float, flow: float) -> Band:
    low = _output(design, "minimum", outdoor, flow)
    high = _output(design, "maximum", outdoor, flow)
    return Band(
        None if low is None else low * (1 - _BALANCE),
        None if high is None else high * (1 + _BALANCE),
        "kW",
        f"unit's tested points ± 10 %, {_PRACTICE}",
    )


def _output(design: Design, load: str, outdoor: float, flow: float) -> float | None:
    points = [p for p in design.home.plant.heat_pump.points if p.load == load]
    if not points:
        return None
    return float(
        heat_pump.capacity(
            outdoor_temperature=outdoor,
            flow_temperature=flow,
            point_outdoor=np.array([p.outdoor_temperature for p in points]),
            point_flow=np.array([p.flow_temperature for p in points]),
            point_output=np.array([p.output for p in points]),
        )
    )


def _zero(design: Design) -> Judgement:
    band = Band(-_ZERO, _ZERO, "K", _PRACTICE)
    subject = Subject("sensor_zero", _place(design))
    return judge(
        subject, _read(design, ReadingKind.ZERO_OFFSET), None, band, states=("steady", "standstill")
    )
