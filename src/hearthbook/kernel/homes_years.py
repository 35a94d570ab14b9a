"""Many homes through their weather, minute by minute: as `home_year`, homes innermost."""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np
from numba.extending import register_jitable
from numpy.typing import NDArray

from hearthbook.kernel.block import WIDTH
from hearthbook.kernel.block_emitters import (
    emit_block,
    follow_block_flow,
    move_block_valves,
    set_block_branches,
    warm_masses,
)
from hearthbook.kernel.block_plants import (
    count_block,
    give_heat,
    move_water,
    pass_time,
    steer_home,
)
from hearthbook.kernel.block_rooms import (
    begin_block_rooms,
    exchange_air,
    look_into_block,
    move_masses,
    warm_air,
)
from hearthbook.kernel.compiled import compiled
from hearthbook.kernel.controls_step import switch_backup
from hearthbook.kernel.cylinder_step import rest_cylinder, tap
from hearthbook.kernel.home_year import GAINS, SLOT_MINUTES, SOLAR, VALVE_STEPS, WANTED
from hearthbook.kernel.loop_step import circulate_coil
from hearthbook.kernel.parameters import SLOT_SECONDS
from hearthbook.kernel.state import BIN_COUNT, COLDEST_BIN, Record
from hearthbook.units import Array

__all__ = ["Block", "run_homes"]


class Block(NamedTuple):
    """`WIDTH` homes of one shape and one calendar; B weathers, M units' maps, Q quantities.

    Attributes:
        rooms: R records of `block.ROOMS`, with the temperatures of the nodes.
        links: L records of `block.LINKS`.
        emitters: E records of `block.EMITTERS`, with their water and valves.
        homes: one record of `block.HOMES`.
        plants: a record of `PLANT` for each home.
        states: a record of `PLANT_STATE` for each home.
        layers: °C of each home's cylinder from the bottom; [WIDTH, 8].
        performance: M records of `block.MAPS`.
        map_of_home: which of them is each home's.
        slots: records of `DRIVER`; [B, K + 1].
        told: W of the sun, W of people and appliances, °C wanted; [B, 3, K, R].
        draws: kg of mixed hot water in each minute; [B, 15 K].
        weather_of_home: which of the B is each home's.
        now: what is seldom counted in a slot, a record of `TOTALS` for each home.
        flat: the same memory as floats; [WIDTH, Q].
        sums: what is always counted in a slot, one record of `block.SUMS`.
        flat_sums: the same memory as floats; [Q, WIDTH].
        days: sums of each day; [days, Q, WIDTH].
        bins: sums by whole degrees outdoors; [bins, Q, WIDTH].
        figures: R records of `block.FIGURES`.
    """

    rooms: NDArray[Any]
    links: NDArray[Any]
    emitters: NDArray[Any]
    homes: NDArray[Any]
    plants: NDArray[Any]
    states: NDArray[Any]
    layers: Array
    performance: NDArray[Any]
    map_of_home: NDArray[np.int64]
    slots: NDArray[Any]
    told: Array
    draws: Array
    weather_of_home: NDArray[np.int64]
    now: NDArray[Any]
    flat: Array
    sums: NDArray[Any]
    flat_sums: Array
    days: Array
    bins: Array
    figures: NDArray[Any]


@compiled
def run_homes(block: Block, slots: int, step: float) -> None:
    """Run a block of homes through the first slots of their weather; the block is changed.

    Args:
        block: the homes; sums are added to.
        slots: how many of them, from the first.
        step: s; the one its rooms were laid out for.
    """
    steps = round(SLOT_SECONDS / step)
    _take_states(block)
    for slot in range(slots):
        _begin_rooms(block, slot)
        for h in range(WIDTH):
            _begin_home(block, h, slot)
        _run_slot(block, slot, steps, step)
        _end_slot(block, slot)
    _leave_states(block)


@register_jitable
def _take_states(block: Any) -> None:
    """Begin with the plants' states and the rooms' masses as they stand."""
    homes = block.homes[0]
    for h in range(WIDTH):
        state = block.states[h]
        homes.unit[h], homes.flow[h], homes.back[h] = state.unit, state.flow, state.back
        homes.frost[h], homes.start_debt[h] = state.frost, state.start_debt
    for number in range(block.rooms.size):
        room = block.rooms[number]
        for h in range(WIDTH):
            room.from_fabric[h] = (
                room.air_inner[h] * room.inner[h]
                + room.air_outer[h] * room.outer[h]
                + room.air_floor[h] * room.floor[h]
            )


@register_jitable
def _leave_states(block: Any) -> None:
    """Put back into the plants' states what the loop keeps beside them."""
    homes = block.homes[0]
    for h in range(WIDTH):
        state = block.states[h]
        state.unit, state.flow, state.back = homes.unit[h], homes.flow[h], homes.back[h]
        state.frost, state.start_debt = homes.frost[h], homes.start_debt[h]
        state.open_flow, state.branch_scale = homes.open_flow[h], homes.scale[h]
        state.branch_slope = homes.slope[h]


@register_jitable
def _begin_rooms(block: Any, slot: int) -> None:
    """What is told for a slot, room by room."""
    for number in range(block.rooms.size):
        room = block.rooms[number]
        for h in range(WIDTH):
            weather = block.weather_of_home[h]
            room.sun[h] = block.told[weather, SOLAR, slot, number]
            room.gains[h] = block.told[weather, GAINS, slot, number]
            room.wanted[h] = block.told[weather, WANTED, slot, number] + room.wanted_shift[h]
    begin_block_rooms(block.rooms, block.homes[0])


@register_jitable
def _begin_home(block: Any, h: int, slot: int) -> None:
    """What holds for a slot in one home: weather, the cylinder's loss, a hygiene run when due."""
    plant, state, homes = block.plants[h], block.states[h], block.homes[0]
    weather = block.weather_of_home[h]
    driver, later = block.slots[weather, slot], block.slots[weather, slot + 1]
    homes.outdoor_start[h] = driver.outdoor
    homes.outdoor_change[h] = later.outdoor - driver.outdoor
    homes.humidity_start[h] = driver.humidity
    homes.humidity_change[h] = later.humidity - driver.humidity
    homes.wind[h], homes.price[h], homes.ground[h] = driver.wind, driver.price, driver.ground
    homes.quiet[h] = plant.quiet_share if driver.quiet > 0.0 else 1.0
    homes.season[h] = 1.0 if driver.outdoor_mean < plant.heating_limit else 0.0
    state.mean_air = homes.mean_air[h]
    if plant.has_cylinder == 0.0:
        return
    around = driver.outdoor
    if homes.cylinder_room >= 0:
        around = block.rooms[homes.cylinder_room].air[h]
    rest_cylinder(plant, state, block.now[h], block.layers[h], around, SLOT_SECONDS)
    if homes.cylinder_room >= 0:
        block.rooms[homes.cylinder_room].base_heat[h] += state.cylinder_loss
    if driver.hygiene_due > 0.0:
        state.hygiene, state.hygiene_seconds, state.hygiene_held = 1.0, 0.0, 0.0


@register_jitable
def _run_slot(block: Any, slot: int, steps: int, step: float) -> None:
    """A quarter of an hour of every home, each step in the order of `home_year`.

    Few functions are given the whole block: its arrays would be copied at every call.
    """
    rooms, links, emitters = block.rooms, block.links, block.emitters
    homes, sums = block.homes[0], block.sums[0]
    has_hygiene = _has_hygiene(block.states)
    held, is_still = 0, False
    for number in range(steps):
        is_moving = number % VALVE_STEPS == 0
        if is_moving:
            move_block_valves(emitters, rooms, homes, VALVE_STEPS * step)
        pass_time(homes, (number + 0.5) / steps)
        is_changed, is_working = _steer(block, slot, step)
        if is_changed or is_moving:
            set_block_branches(emitters, homes, step)
            is_still = False
        give_heat(homes, sums, is_working, step)
        _switch_backups(block.plants, block.states, homes, step)
        emit_block(emitters, rooms, homes, is_still)
        move_water(rooms, homes, sums, step)
        _feed_coils(block.plants, block.states, block.now, block.layers, homes, step)
        is_still = follow_block_flow(emitters, homes, is_still)
        exchange_air(links, rooms)
        warm_air(rooms, homes, sums, step)
        held += 1
        if held == homes.mass_steps or number == steps - 1:
            warm_masses(emitters, rooms)
            move_masses(rooms, links, homes, sums, held, step)
            held = 0
        minute = slot * SLOT_MINUTES + number * SLOT_MINUTES // steps
        if has_hygiene or _has_draws(block.draws, minute):
            _tap(block, slot, minute, step)
        count_block(homes, sums, step)


@register_jitable
def _steer(block: Any, slot: int, step: float) -> tuple[bool, bool]:
    """Controls of every home; whether any flow through emitters changes, and any unit works."""
    plants, states, now, rooms = block.plants, block.states, block.now, block.rooms
    slots, layers, performance = block.slots, block.layers, block.performance
    weather_of_home, map_of_home, homes = block.weather_of_home, block.map_of_home, block.homes[0]
    is_changed, is_working = False, False
    for h in range(WIDTH):
        plant = plants[h]
        short = 0.0
        if plant.thermostat_room >= 0:
            room = rooms[plant.thermostat_room]
            short = room.wanted[h] - room.air[h]
        is_changed |= steer_home(
            plant, states[h], now[h], slots[weather_of_home[h], slot], homes, h, short,
            layers[h, plant.sensor_layer], performance[map_of_home[h]], step,
        )  # fmt: skip
        is_working |= homes.running[h] + homes.defrosting[h] > 0.0
    return is_changed, is_working


@register_jitable
def _switch_backups(plants: NDArray[Any], states: NDArray[Any], homes: Record, step: float) -> None:
    """Backup heater of every home."""
    if homes.has_backup == 0:
        return
    for h in range(WIDTH):
        plant, outdoor = plants[h], homes.outdoor[h]
        is_at_most = homes.at_most[h] > 0.0
        if homes.running[h] == 0.0 and homes.defrosting[h] == 0.0:
            is_at_most = outdoor < plant.lowest_outdoor
        homes.backup[h] = switch_backup(plant, states[h], outdoor, is_at_most, step)
        homes.backup_on[h] = states[h].backup


@register_jitable
def _feed_coils(
    plants: NDArray[Any],
    states: NDArray[Any],
    now: NDArray[Any],
    layers: Array,
    homes: Record,
    step: float,
) -> None:
    """Water round unit and coil in the homes that make hot water."""
    for h in range(WIDTH):
        if homes.making_hot_water[h] > 0.0:
            circulate_coil(
                plants[h], states[h], now[h], layers[h], homes.heat[h], homes.outdoor[h],
                homes.coil_rate[h], step,
            )  # fmt: skip
            homes.unit[h] = states[h].unit


@register_jitable
def _has_hygiene(states: NDArray[Any]) -> bool:
    """Whether a hygiene run is under way in any home."""
    found = False
    for h in range(WIDTH):
        found |= states[h].hygiene > 0.0
    return found


@register_jitable
def _has_draws(draws: Array, minute: int) -> bool:
    """Whether hot water is drawn in a minute in any weather."""
    found = False
    for weather in range(draws.shape[0]):
        found |= draws[weather, minute] > 0.0
    return found


@register_jitable
def _tap(block: Any, slot: int, minute: int, step: float) -> None:
    """Hot water drawn in every home."""
    for h in range(WIDTH):
        weather = block.weather_of_home[h]
        tap(
            block.plants[h], block.states[h], block.now[h], block.layers[h],
            block.draws[weather, minute], block.slots[weather, slot].cold_water, step,
        )  # fmt: skip


@register_jitable
def _end_slot(block: Any, slot: int) -> None:
    """Add the slot to its day and its degrees outdoors, and look into each room."""
    sums, homes, flat_sums = block.sums[0], block.homes[0], block.flat_sums
    for number in range(block.rooms.size):
        room = block.rooms[number]
        for h in range(WIDTH):
            sums.heat_gains[h] += room.gains[h] * room.gain_factor[h] * SLOT_SECONDS
            sums.heat_sun[h] += room.sun[h] * room.solar_factor[h] * SLOT_SECONDS
    for h in range(WIDTH):
        sums.seconds[h] = SLOT_SECONDS
        mean = homes.outdoor_start[h] + 0.5 * homes.outdoor_change[h]
        sums.outdoor[h] = mean * SLOT_SECONDS
        sums.cost[h] += block.now[h].heat_immersion * homes.price[h]
        homes.degree[h] = min(max(np.floor(mean + 0.5) - COLDEST_BIN, 0.0), BIN_COUNT - 1.0)
    _add_up(homes, block.flat, flat_sums, block.days[block.slots[0, slot].day], block.bins)
    look_into_block(block.rooms, block.figures, homes)


@register_jitable
def _add_up(homes: Record, flat: Array, flat_sums: Array, day: Array, bins: Array) -> None:
    """Add the sums of a slot to those of its day and its degrees, and begin them anew."""
    for quantity in range(flat_sums.shape[0]):
        for h in range(WIDTH):
            flat_sums[quantity, h] += flat[h, quantity]
            flat[h, quantity] = 0.0
        for h in range(WIDTH):
            day[quantity, h] += flat_sums[quantity, h]
        for h in range(WIDTH):
            bins[int(homes.degree[h]), quantity, h] += flat_sums[quantity, h]
        for h in range(WIDTH):
            flat_sums[quantity, h] = 0.0
