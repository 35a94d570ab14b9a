"""What one home's heat pump gives and takes in a step, and the frost that grows or melts on it.

Functions on single numbers and on one home's records, called by every compiled loop.
"""

from __future__ import annotations

from typing import Any

from numba.extending import register_jitable

from hearthbook.kernel.parameters import PERFORMANCE_FLOW, PERFORMANCE_OUTDOOR
from hearthbook.kernel.state import DEFROST, DRIP, HOT_WATER
from hearthbook.physics.frost_growth import coil_surface, water_from_air
from hearthbook.physics.heat_pump import working_efficiency

__all__ = ["unit_heat"]

Record = Any  # one element of a record array; the compiler knows its fields, mypy does not

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
        taken, electricity = _defrost_heat(plant, state, totals, step)
        return -taken, electricity, False
    if state.compressor == 0.0 or state.mode == DRIP:
        if state.frost > 0.0 and outdoor > 0.0:
            still = _STILL_AIR * plant.reference_heat / plant.coil_below_air
            _thaw(state, totals, still * outdoor * step)
        return 0.0, 0.0, outdoor < plant.lowest_outdoor
    target, inlet = state.target, state.back
    if state.mode == HOT_WATER:
        target = min(sensor + plant.hot_water_flow_excess, plant.highest_flow)
        inlet = state.coil_loop
    wanted = _wanted_heat(state, target, inlet, flow_rate, plant.unit_capacity)
    return _running_heat(
        plant, performance, state, totals, outdoor, humidity, is_quiet, wanted, step
    )


@register_jitable
def _wanted_heat(
    state: Record, target: float, inlet: float, flow_rate: float, capacity: float
) -> float:
    """Heat that brings the unit's water to its target and holds it there."""
    return flow_rate * (target - inlet) + capacity * (target - state.unit) / _SETTLING_TIME


@register_jitable
def _running_heat(
    plant: Record,
    performance: Any,
    state: Record,
    totals: Record,
    outdoor: float,
    humidity: float,
    is_quiet: bool,
    wanted: float,
    step: float,
) -> tuple[float, float, bool]:
    """Heat and electricity of a running compressor, and whether it runs at its most."""
    row, column, down, across = _place_on_map(outdoor, state.unit)
    frost_share = state.frost / plant.frost_to_defrost
    most = _on_map(performance[0], row, column, down, across)
    most *= max(1.0 - plant.frost_capacity_loss * frost_share, 0.3)
    if is_quiet:
        most *= plant.quiet_share
    least = min(_on_map(performance[2], row, column, down, across), most)
    heat = min(max(wanted, least), most)
    load = (heat - least) / max(most - least, 1.0)
    most_share = _on_map(performance[1], row, column, down, across)
    least_share = _on_map(performance[3], row, column, down, across)
    share = least_share + load * (most_share - least_share)
    lowered = min(outdoor, state.unit - _LEAST_LIFT) - plant.frost_lift * frost_share
    efficiency = share * working_efficiency(lowered, state.unit) * plant.efficiency_factor
    electricity = heat / max(efficiency, 1.0)
    _grow_frost(plant, state, totals, outdoor, humidity, heat - electricity, step)
    paid = min(state.start_debt, _DEBT_SHARE * heat * step)
    state.start_debt -= paid
    return heat - paid / step, electricity, heat >= 0.98 * most


@register_jitable
def _grow_frost(
    plant: Record,
    state: Record,
    totals: Record,
    outdoor: float,
    humidity: float,
    air_heat: float,
    step: float,
) -> None:
    frost_share = state.frost / plant.frost_to_defrost
    coil = coil_surface(
        outdoor,
        air_heat,
        plant.reference_heat,
        plant.coil_below_air,
        frost_share,
        plant.frost_lift,
    )
    water = water_from_air(outdoor, humidity, coil) * air_heat * step
    if coil < 0.0:
        state.frost += water
        totals.frost += water
    else:
        totals.condensate += water
        if outdoor > 0.0 and state.frost > 0.0:
            _thaw(state, totals, _TO_FROST * air_heat * step)


@register_jitable
def _thaw(state: Record, totals: Record, heat: float) -> None:
    """Frost that is left melts away from a coil that has become warmer than freezing."""
    melted = min(state.frost, heat / _MELTING_HEAT)
    state.frost -= melted
    totals.meltwater += melted


@register_jitable
def _defrost_heat(plant: Record, state: Record, totals: Record, step: float) -> tuple[float, float]:
    """Heat taken from the water and electricity of a defrost in a step."""
    melts = plant.defrost_power * plant.defrost_efficiency * step / _MELTING_HEAT
    share = min(state.frost / melts, 1.0)
    melted = share * melts
    state.frost = max(state.frost - melted, 0.0)
    totals.meltwater += melted
    power = plant.defrost_power * share
    return power * plant.defrost_from_water, power * (1.0 - plant.defrost_from_water)


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
