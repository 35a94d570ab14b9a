"""The plants of a block of homes through a step: controls one by one, physics homes innermost."""

from __future__ import annotations

from typing import Any

from numba.extending import register_jitable
from numpy.typing import NDArray

from hearthbook.kernel.block import WIDTH
from hearthbook.kernel.controls_step import decide, switch_compressor
from hearthbook.kernel.counting import beside_compressor
from hearthbook.kernel.emitters_step import flow_of_mode
from hearthbook.kernel.loop_step import ring_after
from hearthbook.kernel.state import DEFROST, DRIP, HEATING, HOT_WATER, Record
from hearthbook.kernel.unit_step import (
    asked_heat,
    frost_after,
    is_at_most,
    look_up,
    melting_heat,
    paid_debt,
    running_heat,
    thaw_at_rest,
)
from hearthbook.physics.room_nodes import air_leakage

__all__ = ["count_block", "give_heat", "move_water", "pass_time", "steer_home"]


@register_jitable
def pass_time(homes: Record, part: float) -> None:
    """Weather at a place within the slot, and how hard it drives leaks."""
    for h in range(WIDTH):
        outdoor = homes.outdoor_start[h] + part * homes.outdoor_change[h]
        homes.outdoor[h] = outdoor
        homes.humidity[h] = homes.humidity_start[h] + part * homes.humidity_change[h]
        homes.force[h] = air_leakage(
            homes.mean_air[h], outdoor, homes.wind[h], homes.leak_stack[h], homes.leak_wind[h]
        )


@register_jitable
def steer_home(
    plant: Record,
    state: Record,
    now: Record,
    driver: Record,
    homes: Record,
    h: int,
    short: float,
    sensor: float,
    performance: Record,
    step: float,
) -> bool:
    """One home's controls, and what its unit is asked; True where the emitters' flow changes."""
    state.unit, state.flow = homes.unit[h], homes.flow[h]
    state.back, state.frost = homes.back[h], homes.frost[h]
    decide(plant, state, driver, short, sensor)
    rate, past, scale, is_enough = flow_of_mode(plant, state.mode, homes.pumped[h], homes.each[h])
    outdoor, mode = homes.outdoor[h], state.mode
    if switch_compressor(plant, state, outdoor, is_enough, step):
        homes.start_debt[h] = state.start_debt
        now.starts += 1.0
    on, is_coil = state.compressor, mode == HOT_WATER
    running, taken, electricity = 0.0, 0.0, 0.0
    if mode == DEFROST:
        if state.mode_seconds == 0.0:
            now.defrosts += 1.0
        taken, electricity = melting_heat(plant, state, now, step)
        homes.frost[h] = state.frost
    elif on == 0.0 or mode == DRIP:
        thaw_at_rest(plant, state, now, outdoor, step)
        homes.frost[h] = state.frost
    else:
        running = 1.0
        homes.wanted_heat[h] = asked_heat(plant, state, sensor, rate)
        homes.most[h], homes.most_share[h], homes.least[h], homes.least_share[h] = look_up(
            performance.values, outdoor, state.unit
        )
    homes.taken_heat[h], homes.taken_electricity[h] = taken, electricity
    homes.running[h], homes.compressor[h] = running, on
    homes.heating[h] = on if mode == HEATING else 0.0
    homes.making_hot_water[h] = 1.0 if is_coil else 0.0
    homes.defrosting[h] = 1.0 if mode == DEFROST else 0.0
    homes.short_of_flow[h] = 1.0 if mode == HEATING and not is_enough else 0.0
    homes.pumping[h] = 1.0 if rate > 0.0 else 0.0
    homes.flow_rate[h] = 0.0 if is_coil else rate
    homes.coil_rate[h], homes.past[h], homes.target[h] = rate, past, state.target
    state.mode_seconds += step
    state.since_hot_water += step
    is_changed = scale != homes.scale[h]
    homes.scale[h] = scale
    return is_changed


@register_jitable
def give_heat(homes: Record, sums: Record, is_working: bool, step: float) -> None:
    """Heat and electricity of the units, and their frost; nothing where none of them works."""
    if not is_working:
        for h in range(WIDTH):
            homes.heat[h], homes.electricity[h], homes.at_most[h] = 0.0, 0.0, 0.0
        return
    for h in range(WIDTH):
        outdoor, unit, running = homes.outdoor[h], homes.unit[h], homes.running[h]
        frost_share = homes.frost[h] / homes.frost_to_defrost[h]
        heat, electricity, able = running_heat(
            homes.most[h], homes.most_share[h], homes.least[h], homes.least_share[h],
            homes.wanted_heat[h], outdoor, unit, frost_share, homes.frost_capacity_loss[h],
            homes.quiet[h], homes.frost_lift[h], homes.efficiency_factor[h],
        )  # fmt: skip
        homes.at_most[h] = running if is_at_most(heat, able) else 0.0
        heat *= running
        electricity *= running
        frost, grown, condensate, melted = frost_after(
            homes.frost[h], frost_share, outdoor, homes.humidity[h], heat - electricity,
            homes.reference_heat[h], homes.coil_below_air[h], homes.frost_lift[h], step,
        )  # fmt: skip
        paid = paid_debt(homes.start_debt[h], heat, step)
        homes.start_debt[h] -= paid
        homes.frost[h] = frost
        homes.heat[h] = heat - paid / step - homes.taken_heat[h]
        homes.electricity[h] = electricity + homes.taken_electricity[h]
        sums.frost[h] += grown
        sums.condensate[h] += condensate
        sums.meltwater[h] += melted


@register_jitable
def move_water(rooms: NDArray[Any], homes: Record, sums: Record, step: float) -> None:
    """Water round unit, pipes and emitters; it stands still where the unit feeds the coil."""
    room = rooms[homes.pipe_room]
    for h in range(WIDTH):
        air, before = room.air[h], homes.unit[h]
        is_coil = homes.making_hot_water[h]
        flow_loss = homes.flow_loss[h] * (homes.flow[h] - air)
        back_loss = homes.return_loss[h] * (homes.back[h] - air)
        outside = homes.outdoor_loss[h] * (before - homes.outdoor[h])
        unit, flow, back = ring_after(
            before, homes.flow[h], homes.back[h], homes.unit_capacity[h], homes.flow_capacity[h],
            homes.return_capacity[h], homes.heat[h] - outside, homes.backup[h] - flow_loss,
            -back_loss, homes.flow_rate[h], homes.constant[h], homes.slope[h] + homes.past[h],
            step,
        )  # fmt: skip
        homes.unit[h] = unit + is_coil * (before - unit)
        homes.flow[h] = flow
        homes.back[h] = back
        room.heat[h] += flow_loss + back_loss
        sums.heat_pipes[h] += (flow_loss + back_loss) * step
        sums.heat_pipes_outdoors[h] += outside * (1.0 - is_coil) * step


@register_jitable
def count_block(homes: Record, sums: Record, step: float) -> None:
    """Add the step's heat, electricity and seconds, as `count_step`."""
    for h in range(WIDTH):
        fan, standby, pump = beside_compressor(
            homes.compressor[h], homes.pumping[h], homes.outdoor[h], homes.fan_power[h],
            homes.standby_power[h], homes.crankcase_power[h], homes.crankcase_below[h],
            homes.pump_power[h],
        )  # fmt: skip
        defrosting, is_coil = homes.defrosting[h], homes.making_hot_water[h]
        for_rooms = 1.0 - defrosting - is_coil
        heat, power = homes.heat[h] * step, (homes.electricity[h] + fan) * step
        sums.heat_defrost[h] -= heat * defrosting
        sums.heat_cylinder[h] += heat * is_coil
        sums.heat_rooms[h] += heat * for_rooms
        sums.electricity_defrost[h] += power * defrosting
        sums.electricity_cylinder[h] += power * is_coil
        sums.electricity_rooms[h] += power * for_rooms
        sums.electricity_pump[h] += pump * step
        sums.electricity_standby[h] += standby * step
        sums.cost[h] += homes.price[h] * (power + (pump + standby + homes.backup[h]) * step)
    for h in range(WIDTH):
        heating = homes.heating[h] * step
        sums.heat_emitted[h] += homes.emitted[h] * step
        sums.defrost_seconds[h] += homes.defrosting[h] * step
        sums.hot_water_seconds[h] += homes.making_hot_water[h] * step
        sums.heating_seconds[h] += heating
        sums.flow_temperature[h] += homes.unit[h] * heating
        sums.target_temperature[h] += homes.target[h] * heating
        sums.run_seconds[h] += homes.compressor[h] * step
        sums.heat_backup[h] += homes.backup[h] * step
        sums.backup_seconds[h] += homes.backup_on[h] * step
        sums.low_flow_seconds[h] += homes.short_of_flow[h] * step
