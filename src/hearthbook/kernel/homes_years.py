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
)
from hearthbook.kernel.block_rooms import (
    begin_block_rooms,
    copy_block_rooms,
    exchange_block,
    warm_block_rooms,
)
from hearthbook.kernel.compiled import compiled
from hearthbook.kernel.controls_step import between, decide, switch_backup, switch_compressor
from hearthbook.kernel.counting import count_rooms, count_step
from hearthbook.kernel.cylinder_step import rest_cylinder, tap
from hearthbook.kernel.emitters_step import choose_flow
from hearthbook.kernel.home_year import GAINS, SLOT_MINUTES, SOLAR, VALVE_STEPS, WANTED
from hearthbook.kernel.loop_step import circulate
from hearthbook.kernel.parameters import SLOT_SECONDS
from hearthbook.kernel.rooms_step import look_into_room
from hearthbook.kernel.state import BIN_COUNT, COLDEST_BIN
from hearthbook.kernel.unit_step import unit_heat
from hearthbook.physics.room_nodes import air_leakage

__all__ = ["Block", "run_homes"]

Array = NDArray[np.float64]
Record = Any  # one element of a record array; the compiler knows its fields, mypy does not


class Block(NamedTuple):
    """`WIDTH` homes of one shape; B weathers, M units' maps.

    Attributes:
        rooms: R records of `block.ROOMS`, with the temperatures of the nodes.
        links: L records of `block.LINKS`.
        emitters: E records of `block.EMITTERS`, with their water and valves.
        lanes: one record of `block.LANES`.
        plants: a record of `PLANT` for each home.
        states: a record of `PLANT_STATE` for each home.
        layers: °C of each home's cylinder from the bottom; [WIDTH, 8].
        performance: `packing.maps` of the units; [M, 4, 76, 12].
        map_of_home: which of them is each home's.
        slots: records of `DRIVER`; [B, K + 1].
        told: W of the sun, W of people and appliances, °C wanted; [B, 3, K, R].
        draws: kg of mixed hot water in each minute; [B, 15 K].
        weather_of_home: which of the B is each home's.
        now: totals of the slot, a record of `TOTALS` for each home.
        flat: the same memory as floats; [WIDTH, quantities].
        days: sums of each day; [WIDTH, days, quantities].
        bins: sums by whole degrees outdoors; [WIDTH, bins, quantities].
        figures: records of `ROOM_FIGURES`; [WIDTH, R].
    """

    rooms: NDArray[Any]
    links: NDArray[Any]
    emitters: NDArray[Any]
    lanes: NDArray[Any]
    plants: NDArray[Any]
    states: NDArray[Any]
    layers: Array
    performance: Array
    map_of_home: NDArray[np.int64]
    slots: NDArray[Any]
    told: Array
    draws: Array
    weather_of_home: NDArray[np.int64]
    now: NDArray[Any]
    flat: Array
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
    for slot in range(slots):
        _begin_slot(block, slot)
        for number in range(steps):
            _run_step(block, slot, number, steps, step)
        _end_slot(block, slot)


@register_jitable
def _begin_slot(block: Any, slot: int) -> None:
    """What holds for a slot: sums at nothing, the cylinder's loss, hygiene when due."""
    for number in range(block.rooms.size):
        room = block.rooms[number]
        for h in range(WIDTH):
            weather = block.weather_of_home[h]
            room.sun[h] = block.told[weather, SOLAR, slot, number]
            room.gains[h] = block.told[weather, GAINS, slot, number]
            room.wanted[h] = block.told[weather, WANTED, slot, number] + room.wanted_shift[h]
    begin_block_rooms(block.rooms, block.lanes[0], block.plants.size)
    for h in range(WIDTH):
        for quantity in range(block.flat.shape[1]):
            block.flat[h, quantity] = 0.0
        plant, state, now = block.plants[h], block.states[h], block.now[h]
        driver = block.slots[block.weather_of_home[h], slot]
        state.mean_air = block.lanes[0].mean_air[h]
        block.lanes[0].ground[h] = driver.ground
        if plant.has_cylinder > 0.0:
            around = driver.outdoor
            if plant.cylinder_room >= 0:
                around = block.rooms[plant.cylinder_room].air[h]
            rest_cylinder(plant, state, now, block.layers[h], around, SLOT_SECONDS)
            if driver.hygiene_due > 0.0:
                state.hygiene, state.hygiene_seconds, state.hygiene_held = 1.0, 0.0, 0.0


@register_jitable
def _run_step(block: Any, slot: int, number: int, steps: int, step: float) -> None:
    """A step of every home, in the order of `home_year`."""
    rooms, emitters, lanes = block.rooms, block.emitters, block.lanes[0]
    width = block.plants.size
    is_moving = number % VALVE_STEPS == 0
    if is_moving:
        move_block_valves(emitters, rooms, lanes, VALVE_STEPS * step, width)
    is_changed = is_moving
    for h in range(WIDTH):
        is_changed |= _run_unit(block, h, slot, number, steps, step)
    if is_changed:
        set_block_branches(emitters, lanes, step, width)
    copy_block_rooms(rooms, width)
    emit_block(emitters, rooms, lanes, width)
    for h in range(WIDTH):
        _move_water(block, h, slot, number, steps, step)
    follow_block_flow(emitters, lanes, width)
    exchange_block(block.links, rooms, width)
    warm_block_rooms(rooms, lanes, step, width)
    for h in range(WIDTH):
        _count(block, h, slot, step)


@register_jitable
def _run_unit(block: Any, h: int, slot: int, number: int, steps: int, step: float) -> bool:
    """One home's controls and unit; True where the emitters' flow changes."""
    plant, state, now, lanes = block.plants[h], block.states[h], block.now[h], block.lanes[0]
    weather = block.weather_of_home[h]
    driver, later = block.slots[weather, slot], block.slots[weather, slot + 1]
    outdoor, humidity = between(driver, later, (number + 0.5) / steps)
    short = 0.0
    if plant.thermostat_room >= 0:
        room = block.rooms[plant.thermostat_room]
        short = room.wanted[h] - room.air[h]
    sensor = block.layers[h, plant.sensor_layer]
    decide(plant, state, driver, short, sensor)
    state.open_flow = lanes.open_flow[h]
    flow_rate, past, scale, is_flow_enough = choose_flow(plant, state)
    is_changed = scale != lanes.scale[h]
    lanes.scale[h] = scale
    is_start = switch_compressor(plant, state, outdoor, is_flow_enough, step)
    heat, electricity, is_at_most = unit_heat(
        plant, state, now, block.performance[block.map_of_home[h]], sensor, outdoor, humidity,
        driver.quiet > 0.0, flow_rate, step,
    )  # fmt: skip
    backup = switch_backup(plant, state, outdoor, is_at_most, step)
    lanes.outdoor[h], lanes.flow[h], lanes.flow_rate[h], lanes.past[h] = (
        outdoor, state.flow, flow_rate, past,
    )  # fmt: skip
    lanes.heat[h], lanes.electricity[h], lanes.backup[h] = heat, electricity, backup
    lanes.starts[h] = 1.0 if is_start else 0.0
    lanes.is_flow_enough[h] = 1.0 if is_flow_enough else 0.0
    lanes.force[h] = air_leakage(
        state.mean_air, outdoor, driver.wind, plant.leak_stack, plant.leak_wind
    )
    return is_changed


@register_jitable
def _move_water(block: Any, h: int, slot: int, number: int, steps: int, step: float) -> None:
    """One home's water round its loop or its coil, and what is drawn."""
    plant, state, now, lanes = block.plants[h], block.states[h], block.now[h], block.lanes[0]
    layers, room = block.layers[h], block.rooms[plant.pipe_room]
    state.branch_slope = lanes.slope[h]
    room.heat[h] += circulate(
        plant, state, now, layers, room.air[h], lanes.heat[h], lanes.backup[h], lanes.outdoor[h],
        lanes.flow_rate[h], lanes.past[h], lanes.constant[h], step,
    )  # fmt: skip
    lanes.flow[h] = state.flow
    if plant.cylinder_room >= 0:
        block.rooms[plant.cylinder_room].heat[h] += state.cylinder_loss
    weather = block.weather_of_home[h]
    drawn = block.draws[weather, slot * SLOT_MINUTES + number * SLOT_MINUTES // steps]
    tap(plant, state, now, layers, drawn, block.slots[weather, slot].cold_water, step)


@register_jitable
def _count(block: Any, h: int, slot: int, step: float) -> None:
    """Add one home's step to the sums of its slot."""
    now, lanes = block.now[h], block.lanes[0]
    count_rooms(now, lanes.emitted[h], lanes.lost[h], lanes.starts[h] > 0.0, step)
    count_step(
        block.plants[h], block.states[h], now, lanes.outdoor[h], lanes.heat[h],
        lanes.electricity[h], lanes.backup[h], block.slots[block.weather_of_home[h], slot].price,
        lanes.flow_rate[h] > 0.0, lanes.is_flow_enough[h] > 0.0, step,
    )  # fmt: skip


@register_jitable
def _end_slot(block: Any, slot: int) -> None:
    """Add the slot to its day and its degree outdoors, and look into each room."""
    for h in range(WIDTH):
        weather = block.weather_of_home[h]
        driver, later = block.slots[weather, slot], block.slots[weather, slot + 1]
        now = block.now[h]
        gains, sun = 0.0, 0.0
        for number in range(block.rooms.size):
            room = block.rooms[number]
            gains += room.gains[h] * room.gain_factor[h]
            sun += room.sun[h] * room.solar_factor[h]
        now.heat_gains += gains * SLOT_SECONDS
        now.heat_sun += sun * SLOT_SECONDS
        now.seconds = SLOT_SECONDS
        mean = 0.5 * (driver.outdoor + later.outdoor)
        now.outdoor = mean * SLOT_SECONDS
        now.cost += now.heat_immersion * driver.price
        degree = min(max(int(np.floor(mean + 0.5)) - COLDEST_BIN, 0), BIN_COUNT - 1)
        for quantity in range(block.flat.shape[1]):
            block.days[h, driver.day, quantity] += block.flat[h, quantity]
            block.bins[h, degree, quantity] += block.flat[h, quantity]
        is_season = driver.outdoor_mean < block.plants[h].heating_limit
        for number in range(block.rooms.size):
            room = block.rooms[number]
            look_into_room(block.figures[h, number], room.air[h], room.wanted[h], is_season)
