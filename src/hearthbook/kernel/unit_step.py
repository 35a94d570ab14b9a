"""What one home's heat pump gives and takes in a step, and the frost that grows or melts on it.

Functions on single numbers and on one home's records, called by every compiled loop.
"""

from __future__ import annotations

from typing import Any

from numba.extending import register_jitable

from hearthbook.kernel.parameters import PERFORMANCE_FLOW, PERFORMANCE_OUTDOOR
from hearthbook.kernel.state import DEFROST, DRIP, HOT_WATER, Record
from hearthbook.physics.frost_growth import coil_surface, water_from_air
from hearthbook.physics.heat_pump import working_efficiency

__all__ = [
    "asked_heat",
    "frost_after",
    "is_at_most",
    "look_up",
    "melting_heat",
    "paid_debt",
    "running_heat",
    "thaw_at_rest",
    "unit_heat",
]

_MELTING_HEAT = 334e3  # J/kg; Song and others, Defrosting for Air Source Heat Pump, ch. 9
_SETTLING_TIME = 300.0  # s in which the controls bring the flow to its target; derived
_FIRST_OUTDOOR = float(PERFORMANCE_OUTDOOR[0])
_FIRST_FLOW = float(PERFORMANCE_FLOW[0])
_FLOW_STEP = float(PERFORMANCE_FLOW[1] - PERFORMANCE_FLOW[0])
_LAST_ROW = PERFORMANCE_OUTDOOR.size - 2
_LAST_COLUMN = PERFORMANCE_FLOW.size - 2
_DEBT_SHARE = 0.7  # of the heat that a start's loss may take in one step; derived
_TO_FROST = 0.1  # of the heat that mild air brings, into what is left of frost; common practice,
#                 no source
_STILL_AIR = 0.1  # of the exchange with the fan on; common practice, no source
_LEAST_LIFT = 12.0  # K of flow above outdoor air for which an efficiency is worked out


@register_jitable
def unit_heat(
    plant: Record,
    state: Record,
    totals: Record,
    performance: Any,
    sensor: float,
    outdoor: float,
    humidity: float,
    is_quiet: bool,
    flow_rate: float,
    step: float,
) -> tuple[float, float, bool]:
    """Heat into the unit's water, electricity of the compressor, whether it runs at its most."""
    if state.mode == DEFROST:
        if state.mode_seconds == 0.0:
            totals.defrosts += 1.0
        taken, electricity = melting_heat(plant, state, totals, step)
        return -taken, electricity, False
    if state.compressor == 0.0 or state.mode == DRIP:
        thaw_at_rest(plant, state, totals, outdoor, step)
        return 0.0, 0.0, outdoor < plant.lowest_outdoor
    wanted = asked_heat(plant, state, sensor, flow_rate)
    most, most_share, least, least_share = look_up(performance, outdoor, state.unit)
    frost_share = state.frost / plant.frost_to_defrost
    heat, electricity, able = running_heat(
        most, most_share, least, least_share, wanted, outdoor, state.unit, frost_share,
        plant.frost_capacity_loss, plant.quiet_share if is_quiet else 1.0, plant.frost_lift,
        plant.efficiency_factor,
    )  # fmt: skip
    state.frost, grown, condensate, melted = frost_after(
        state.frost, frost_share, outdoor, humidity, heat - electricity, plant.reference_heat,
        plant.coil_below_air, plant.frost_lift, step,
    )  # fmt: skip
    totals.frost += grown
    totals.condensate += condensate
    totals.meltwater += melted
    paid = paid_debt(state.start_debt, heat, step)
    state.start_debt -= paid
    return heat - paid / step, electricity, is_at_most(heat, able)


@register_jitable
def asked_heat(plant: Record, state: Record, sensor: float, flow_rate: float) -> float:
    """Heat that brings the unit's water to its target and holds it there."""
    target, inlet = state.target, state.back
    if state.mode == HOT_WATER:
        target = min(sensor + plant.hot_water_flow_excess, plant.highest_flow)
        inlet = state.coil_loop
    settling: float = plant.unit_capacity * (target - state.unit) / _SETTLING_TIME
    return flow_rate * (target - inlet) + settling


@register_jitable
def running_heat(
    most: float,
    most_share: float,
    least: float,
    least_share: float,
    wanted: float,
    outdoor: float,
    unit: float,
    frost_share: float,
    capacity_loss: float,
    quiet: float,
    lift: float,
    factor: float,
) -> tuple[float, float, float]:
    """Heat and electricity of a running compressor, and the most it could give now."""
    able = most * quiet * max(1.0 - capacity_loss * frost_share, 0.3)
    lowest = min(least, able)
    heat = min(max(wanted, lowest), able)
    load = (heat - lowest) / max(able - lowest, 1.0)
    share = least_share + load * (most_share - least_share)
    lowered = min(outdoor, unit - _LEAST_LIFT) - lift * frost_share
    efficiency: Any = share * working_efficiency(lowered, unit) * factor
    return heat, heat / max(efficiency, 1.0), able


@register_jitable
def is_at_most(heat: float, able: float) -> bool:
    """Whether a compressor gives what it can."""
    return heat >= 0.98 * able


@register_jitable
def paid_debt(debt: float, heat: float, step: float) -> float:
    """What a start's loss takes of the heat in a step."""
    return min(debt, _DEBT_SHARE * heat * step)


@register_jitable
def frost_after(
    frost: float,
    frost_share: float,
    outdoor: float,
    humidity: float,
    air_heat: float,
    reference_heat: float,
    below_air: float,
    lift: float,
    step: float,
) -> tuple[float, float, float, float]:
    """Frost after a step in kg, and what grew, what dripped as dew, and what thawed.

    Frost that is left melts away from a coil that has become warmer than freezing.
    """
    coil: Any = coil_surface(outdoor, air_heat, reference_heat, below_air, frost_share, lift)
    water: Any = water_from_air(outdoor, humidity, coil) * air_heat * step
    is_cold = 1.0 if coil < 0.0 else 0.0
    is_thawing = (1.0 - is_cold) * (1.0 if outdoor > 0.0 else 0.0)
    melted = is_thawing * min(frost, _TO_FROST * air_heat * step / _MELTING_HEAT)
    grown = is_cold * water
    return frost + grown - melted, grown, water - grown, melted


@register_jitable
def thaw_at_rest(plant: Record, state: Record, totals: Record, outdoor: float, step: float) -> None:
    """Let frost melt off a coil that stands still in air above freezing."""
    if state.frost > 0.0 and outdoor > 0.0:
        still = _STILL_AIR * plant.reference_heat / plant.coil_below_air
        melted = min(state.frost, still * outdoor * step / _MELTING_HEAT)
        state.frost -= melted
        totals.meltwater += melted


@register_jitable
def melting_heat(plant: Record, state: Record, totals: Record, step: float) -> tuple[float, float]:
    """Heat taken from the water and electricity of a defrost in a step."""
    melts = plant.defrost_power * plant.defrost_efficiency * step / _MELTING_HEAT
    share = min(state.frost / melts, 1.0)
    melted = share * melts
    state.frost = max(state.frost - melted, 0.0)
    totals.meltwater += melted
    power = plant.defrost_power * share
    return power * plant.defrost_from_water, power * (1.0 - plant.defrost_from_water)


@register_jitable
def look_up(performance: Any, outdoor: float, flow: float) -> tuple[float, float, float, float]:
    """Most output and its share of Carnot, least output and its share."""
    row, column, down, across = _place_on_map(outdoor, flow)
    return (
        _on_map(performance[0], row, column, down, across),
        _on_map(performance[1], row, column, down, across),
        _on_map(performance[2], row, column, down, across),
        _on_map(performance[3], row, column, down, across),
    )


@register_jitable
def _place_on_map(outdoor: float, flow: float) -> tuple[int, int, float, float]:
    """Cell of the unit's map, and where in it."""
    row = min(max(outdoor - _FIRST_OUTDOOR, 0.0), _LAST_ROW + 0.999)
    column = min(max((flow - _FIRST_FLOW) / _FLOW_STEP, 0.0), _LAST_COLUMN + 0.999)
    return int(row), int(column), row - int(row), column - int(column)


@register_jitable
def _on_map(values: Any, row: int, column: int, down: float, across: float) -> float:
    """Straight between the four corners of a cell; the map itself is finely made."""
    upper = values[row, column] + across * (values[row, column + 1] - values[row, column])
    lower = values[row + 1, column] + across * (
        values[row + 1, column + 1] - values[row + 1, column]
    )
    return upper + down * (lower - upper)
