"""What a step adds to the sums of its slot."""

from __future__ import annotations

from numba.extending import register_jitable

from hearthbook.kernel.state import DEFROST, HEATING, HOT_WATER, Record

__all__ = ["beside_compressor", "count_rooms", "count_step"]


@register_jitable
def count_rooms(now: Record, emitted: float, lost: float, is_start: bool, step: float) -> None:
    """Add what emitters gave and rooms lost, and a start."""
    now.heat_emitted += emitted * step
    now.heat_lost += lost * step
    if is_start:
        now.starts += 1.0


@register_jitable
def beside_compressor(
    compressor: float,
    pumping: float,
    outdoor: float,
    fan_power: float,
    standby_power: float,
    crankcase_power: float,
    crankcase_below: float,
    pump_power: float,
) -> tuple[float, float, float]:
    """W of the unit's fan, of standby with crankcase heat, and of the pump; flags are 0 or 1."""
    is_cold = 1.0 if outdoor < crankcase_below else 0.0
    crankcase = crankcase_power * (1.0 - compressor) * is_cold
    return fan_power * compressor, standby_power + crankcase, pump_power * pumping


@register_jitable
def count_step(
    plant: Record,
    state: Record,
    now: Record,
    outdoor: float,
    heat: float,
    electricity: float,
    backup: float,
    price: float,
    is_pumping: bool,
    is_flow_enough: bool,
    step: float,
) -> None:
    """Add the step's heat, electricity and seconds."""
    running = state.compressor > 0.0
    fan, standby, pump = beside_compressor(
        state.compressor, 1.0 if is_pumping else 0.0, outdoor, plant.fan_power,
        plant.standby_power, plant.crankcase_power, plant.crankcase_below, plant.pump_power,
    )  # fmt: skip
    if state.mode == DEFROST:
        now.heat_defrost -= heat * step
        now.electricity_defrost += (electricity + fan) * step
        now.defrost_seconds += step
    elif state.mode == HOT_WATER:
        now.heat_cylinder += heat * step
        now.electricity_cylinder += (electricity + fan) * step
        now.hot_water_seconds += step
    else:
        now.heat_rooms += heat * step
        now.electricity_rooms += (electricity + fan) * step
        if running and state.mode == HEATING:
            now.heating_seconds += step
            now.flow_temperature += state.unit * step
            now.target_temperature += state.target * step
    if running:
        now.run_seconds += step
    now.heat_backup += backup * step
    now.backup_seconds += state.backup * step
    now.electricity_pump += pump * step
    now.electricity_standby += standby * step
    now.cost += price * (electricity + fan + pump + standby + backup) * step
    if state.mode == HEATING and not is_flow_enough:
        now.low_flow_seconds += step
    state.mode_seconds += step
    state.since_hot_water += step
