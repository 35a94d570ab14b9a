"""What one home's controls decide at the start of a step.

Functions on single numbers and on one home's records, called by every compiled loop.
"""

from __future__ import annotations

from numba.extending import register_jitable

from hearthbook.kernel.state import DEFROST, DRIP, HEATING, HOT_WATER, REST, Record

__all__ = ["between", "decide", "hot_water_target", "switch_backup", "switch_compressor"]

_FREEZING_WATER = 5.0  # °C; below it the water is kept moving and warm; common practice, no source


@register_jitable
def _call_of_thermostat(plant: Record, state: Record, short: float) -> None:
    """Let the room thermostat stop or release heating."""
    above = -short - plant.thermostat_shift
    half = 0.5 * plant.thermostat_hysteresis
    if above > half:
        state.room_calls = 0.0
    elif above < -half:
        state.room_calls = 1.0


@register_jitable
def between(driver: Record, later: Record, part: float) -> tuple[float, float]:
    """Outdoor temperature and humidity within a slot."""
    outdoor = driver.outdoor + part * (later.outdoor - driver.outdoor)
    return outdoor, driver.humidity + part * (later.humidity - driver.humidity)


@register_jitable
def decide(plant: Record, state: Record, driver: Record, short: float, sensor: float) -> None:
    """Thermostat, target and mode at the start of a step; `short` is K the room is too cold."""
    if plant.thermostat_room >= 0:
        _call_of_thermostat(plant, state, short)
    state.target = _flow_target(plant, driver, short)
    _choose_mode(plant, state, driver, sensor, state.frost >= plant.frost_to_defrost)


@register_jitable
def _flow_target(plant: Record, driver: Record, room_short: float) -> float:
    """Flow temperature the controls ask for while heating."""
    target = driver.curve_flow + plant.flow_shift + plant.room_influence * room_short
    return min(max(target, plant.curve_least), plant.curve_most)


@register_jitable
def _choose_mode(
    plant: Record, state: Record, driver: Record, sensor: float, is_frost_full: bool
) -> None:
    """Set what the unit does next: rest, heat, make hot water, defrost or drip."""
    if state.mode == DEFROST:
        gives_up = (
            state.mode_seconds >= plant.defrost_longest or state.unit < plant.defrost_lowest_flow
        )
        if state.frost <= 0.0 or gives_up:
            _enter(state, DRIP)
        return
    if state.mode == DRIP and state.mode_seconds < plant.drip_time:
        return
    if is_frost_full and state.compressor > 0.0 and state.mode != DRIP:
        _enter(state, DEFROST)
        return
    if _wants_hot_water(plant, state, driver, sensor):
        _enter(state, HOT_WATER)
    elif _wants_heating(plant, state, driver):
        _enter(state, HEATING)
    else:
        _enter(state, REST)


@register_jitable
def _enter(state: Record, mode: int) -> None:
    if state.mode != mode:
        if state.mode == HOT_WATER:
            state.since_hot_water = 0.0
        state.mode = mode
        state.mode_seconds = 0.0


@register_jitable
def _wants_heating(plant: Record, state: Record, driver: Record) -> bool:
    if min(state.unit, state.flow, state.back) < _FREEZING_WATER:
        return True
    return (
        driver.heating_allowed > 0.0
        and driver.outdoor_mean < plant.heating_limit
        and state.room_calls > 0.0
    )


@register_jitable
def _wants_hot_water(plant: Record, state: Record, driver: Record, sensor: float) -> bool:
    if plant.has_cylinder == 0.0 or driver.outdoor < plant.lowest_outdoor:
        return False  # too cold for the compressor: the backup heater's warmth is the rooms'
    target = hot_water_target(plant, state)
    if state.mode == HOT_WATER:
        return sensor < target and state.mode_seconds < plant.hot_water_longest
    if state.since_hot_water < plant.hot_water_rest:
        return False
    if state.hygiene > 0.0:
        return sensor < target - 1.0
    return driver.hot_water_allowed > 0.0 and sensor < target - plant.hot_water_hysteresis


@register_jitable
def hot_water_target(plant: Record, state: Record) -> float:
    """Temperature at the cylinder's sensor up to which the unit heats."""
    if state.hygiene > 0.0:
        return max(min(plant.hygiene_temperature, plant.hygiene_by_unit_up_to), plant.hot_water_set)
    return plant.hot_water_set


@register_jitable
def switch_compressor(
    plant: Record, state: Record, outdoor: float, is_flow_enough: bool, step: float
) -> bool:
    """Start or stop the compressor; True where it starts."""
    was_running = state.compressor > 0.0
    wanted = _compressor_wanted(plant, state, outdoor, is_flow_enough)
    if was_running and not wanted:
        state.compressor = 0.0
        state.since_stop = 0.0
    starts = wanted and not was_running
    if starts:
        state.compressor = 1.0
        state.since_start = 0.0
        state.start_debt = plant.start_loss
    state.since_start += step
    state.since_stop += step
    return starts


@register_jitable
def _compressor_wanted(plant: Record, state: Record, outdoor: float, is_flow_enough: bool) -> bool:
    if state.mode == DEFROST or state.mode == DRIP:
        return state.compressor > 0.0  # reversed, then waiting; it starts again without a loss
    if state.mode == REST or outdoor < plant.lowest_outdoor or not is_flow_enough:
        return False
    if state.compressor > 0.0:
        too_hot = state.unit > plant.highest_flow + 1.0
        if state.mode == HOT_WATER:
            return not too_hot
        # water left over from a hot-water run is ridden over: it soon mixes with the rooms' own
        has_run = min(state.since_start, state.mode_seconds) >= plant.least_run
        is_done = has_run and state.unit > state.target + plant.flow_hysteresis
        return not (is_done or too_hot)
    if state.since_stop < plant.least_rest:
        return False
    if state.mode == HOT_WATER:
        return state.unit < plant.highest_flow - 2.0
    return state.unit < state.target - plant.flow_hysteresis


@register_jitable
def switch_backup(
    plant: Record, state: Record, outdoor: float, is_at_most: bool, step: float
) -> float:
    """Heat of the backup heater: on after the flow has long been short, off at its target."""
    if plant.backup_power <= 0.0 or state.mode != HEATING or outdoor > plant.backup_locked_above:
        state.backup = 0.0
        state.short_seconds = 0.0
        return 0.0
    is_short = state.flow < state.target - plant.backup_shortfall
    state.short_seconds = state.short_seconds + step if is_short and is_at_most else 0.0
    if state.short_seconds >= plant.backup_after:
        state.backup = 1.0
    if state.flow >= state.target:
        state.backup = 0.0
    return plant.backup_power * state.backup
