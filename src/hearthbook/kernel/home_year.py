"""One home through its weather, minute by minute."""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np
from numba.extending import register_jitable
from numpy.typing import NDArray

from hearthbook.kernel.compiled import compiled
from hearthbook.kernel.controls_step import between, decide
from hearthbook.kernel.counting import count_rooms, count_step
from hearthbook.kernel.cylinder_step import rest_cylinder, tap
from hearthbook.kernel.emitters_step import (
    choose_flow,
    emit,
    follow_flow,
    move_valves,
    set_branches,
)
from hearthbook.kernel.loop_step import circulate
from hearthbook.kernel.parameters import SLOT_SECONDS
from hearthbook.kernel.plant_step import run_unit
from hearthbook.kernel.rooms_step import (
    AIR,
    begin_rooms,
    copy_rooms,
    exchange,
    leaking,
    look_into_room,
    short_in_reference_room,
    warm_rooms,
)
from hearthbook.kernel.state import BIN_COUNT, COLDEST_BIN, HOT_WATER, TOTALS
from hearthbook.units import Array

__all__ = [
    "GAINS",
    "SLOT_MINUTES",
    "SOLAR",
    "VALVE_STEPS",
    "WANTED",
    "HomeState",
    "HomeTotals",
    "Scratch",
    "Weathered",
    "run_home",
    "scratch",
]


# of `Weathered.rooms`
SOLAR = 0
GAINS = 1
WANTED = 2
SLOT_MINUTES = int(SLOT_SECONDS / 60.0)
VALVE_STEPS = 5  # between movements of the valves, which take some twenty minutes to follow


class HomeState(NamedTuple):
    """One home between two steps.

    Attributes:
        rooms: °C, rows air, inner, outer, floor mass; [4, R].
        emitters: rows water °C, valve opening, temperature its head acts on; [3, E].
        plant: one record of `PLANT_STATE`.
        layers: °C of the cylinder from the bottom; [8].
    """

    rooms: Array
    emitters: Array
    plant: NDArray[Any]
    layers: Array


class Weathered(NamedTuple):
    """What the loop is told from outside; see `simulate.drivers`.

    Attributes:
        slots: K + 1 records of `DRIVER`.
        rooms: W of the sun, W of people and appliances, °C wanted; [3, K, R].
        draws: kg of mixed hot water in each minute; [15 K].
    """

    slots: NDArray[Any]
    rooms: Array
    draws: Array


class HomeTotals(NamedTuple):
    """What the loop adds up.

    Attributes:
        days: `TOTALS` as floats, one row a day; [days, quantities].
        bins: the same by whole degrees outdoors; [bins, quantities].
        rooms: R records of `ROOM_FIGURES`.
        trace: rows of `TRACE` and rooms' air, one for each step from `trace_from`; may be empty.
        trace_from: first step that is traced.
    """

    days: Array
    bins: Array
    rooms: NDArray[Any]
    trace: Array
    trace_from: int


class Scratch(NamedTuple):
    """Rows the loop works on, made once outside it.

    Attributes:
        branches: what flow does to each emitter, see `set_branches`; [4, E].
        given: W each emitter gives; [E].
        base: W by sun and people in this slot, rows as the next; [5, R].
        inflow: W into air, inner, outer and floor mass of each room, and radiant; [5, R].
        now: totals of the slot, one record of `TOTALS`.
        flat: the same memory as floats.
    """

    branches: Array
    given: Array
    base: Array
    inflow: Array
    now: NDArray[Any]
    flat: Array


class _Home(NamedTuple):
    """Everything of one home, so that it passes from function to function as one."""

    rooms: NDArray[Any]
    links: NDArray[Any]
    emitters: NDArray[Any]
    performance: Array
    plants: NDArray[Any]
    weathered: Weathered
    state: HomeState
    totals: HomeTotals
    branches: Array  # what flow does to each emitter
    given: Array  # W each emitter gives
    base: Array  # W into each room by sun and people, as below
    inflow: Array  # W into air, inner, outer, floor of each room, and radiant; [5, R]
    now: NDArray[Any]  # totals of the slot
    flat: Array  # the same memory as floats


def scratch(rooms: int, emitters: int, quantities: int) -> Scratch:
    """Rows to work on, for a home of a size.

    Args:
        rooms: number of rooms.
        emitters: number of emitters.
        quantities: number of fields of `TOTALS`.
    """
    flat = np.zeros(quantities)
    return Scratch(
        np.zeros((4, emitters)),
        np.zeros(emitters),
        np.zeros((5, rooms)),
        np.zeros((5, rooms)),
        flat.view(TOTALS),
        flat,
    )


@compiled
def run_home(
    rooms: NDArray[Any],
    links: NDArray[Any],
    emitters: NDArray[Any],
    performance: Array,
    plants: NDArray[Any],
    weathered: Weathered,
    state: HomeState,
    totals: HomeTotals,
    rows: Scratch,
    step: float,
) -> None:
    """Run one home through all slots of its weather; `state` and `totals` are changed.

    Args:
        rooms: records of `packing.ROOM`.
        links: records of `packing.LINK`.
        emitters: records of `packing.EMITTER`.
        performance: `packing.maps` of the unit.
        plants: one record of `PLANT`.
        weathered: what is told from outside.
        state: at the start; at the end when done.
        totals: zeros, to be added to.
        rows: scratch of the home's size.
        step: s; a whole number of them makes a minute, or is a minute.
    """
    home = _Home(
        rooms, links, emitters, performance, plants, weathered, state, totals,
        rows.branches, rows.given, rows.base, rows.inflow, rows.now, rows.flat,
    )  # fmt: skip
    steps = round(SLOT_SECONDS / step)
    for slot in range(weathered.slots.size - 1):
        _begin_slot(home, slot)
        _run_slot(home, slot, steps, step)
        _end_slot(home, slot)


@register_jitable
def _begin_slot(home: Any, slot: int) -> None:
    """What holds for a slot: sums at nothing, the cylinder's loss, a hygiene run when due."""
    for quantity in range(home.flat.size):
        home.flat[quantity] = 0.0
    plant, state, nodes = home.plants[0], home.state.plant[0], home.state.rooms
    begin_rooms(
        home.rooms, home.weathered.rooms[GAINS, slot], home.weathered.rooms[SOLAR, slot], home.base
    )
    driver, now = home.weathered.slots[slot], home.now[0]
    state.mean_air = 0.0
    for room in range(home.rooms.size):
        state.mean_air += nodes[AIR, room] / home.rooms.size
    if plant.has_cylinder > 0.0:
        around = driver.outdoor
        if plant.cylinder_room >= 0:
            around = nodes[AIR, plant.cylinder_room]
        rest_cylinder(plant, state, now, home.state.layers, around, SLOT_SECONDS)
        if driver.hygiene_due > 0.0:
            state.hygiene, state.hygiene_seconds, state.hygiene_held = 1.0, 0.0, 0.0


@register_jitable
def _run_slot(home: Any, slot: int, steps: int, step: float) -> None:
    """A quarter of an hour: in each step decide, set the valves, run the unit, move heat, count."""
    plant, state, now, layers = home.plants[0], home.state.plant[0], home.now[0], home.state.layers
    nodes, valves, inflow = home.state.rooms, home.state.emitters, home.inflow
    driver, later = home.weathered.slots[slot], home.weathered.slots[slot + 1]
    wanted, branches = home.weathered.rooms[WANTED, slot], home.branches
    for number in range(steps):
        outdoor, humidity = between(driver, later, (number + 0.5) / steps)
        sensor = layers[plant.sensor_layer]
        short = short_in_reference_room(plant, home.rooms, nodes, wanted)
        decide(plant, state, driver, short, sensor)
        if number % VALVE_STEPS == 0:
            move_valves(home.emitters, home.rooms, nodes, valves, wanted, state, VALVE_STEPS * step)
        flow_rate, past, scale, is_enough = choose_flow(plant, state)
        if number % VALVE_STEPS == 0 or scale != state.branch_scale:
            set_branches(home.emitters, valves, branches, state, scale, step)
        heat, electricity, backup = run_unit(
            plant, state, now, driver, home.performance, sensor, outdoor, humidity, flow_rate,
            is_enough, step,
        )  # fmt: skip
        copy_rooms(home.base, inflow)
        emitted, constant = emit(
            home.emitters, nodes, valves, state.flow, branches, home.given, inflow
        )
        inflow[AIR, plant.pipe_room] += circulate(
            plant, state, now, layers, nodes[AIR, plant.pipe_room], heat, backup, outdoor,
            flow_rate, past, constant, step,
        )  # fmt: skip
        if plant.cylinder_room >= 0:
            inflow[AIR, plant.cylinder_room] += state.cylinder_loss
        follow_flow(valves, branches, home.given, state.flow)
        exchange(home.links, nodes, inflow)
        force = leaking(plant, state, driver, outdoor)
        lost = warm_rooms(home.rooms, nodes, inflow, force, outdoor, driver.ground, step)
        drawn = home.weathered.draws[slot * SLOT_MINUTES + number * SLOT_MINUTES // steps]
        tap(plant, state, now, layers, drawn, driver.cold_water, step)
        count_rooms(now, emitted, lost, False, step)
        count_step(
            plant, state, now, outdoor, heat, electricity, backup, driver.price, flow_rate > 0.0,
            is_enough, step,
        )  # fmt: skip
        _trace(home, slot * steps + number, outdoor, heat, electricity, flow_rate, backup)


@register_jitable
def _trace(
    home: Any,
    row: int,
    outdoor: float,
    heat: float,
    electricity: float,
    flow_rate: float,
    backup: float,
) -> None:
    """One row of the trace, in the order of `TRACE`, where this step is traced."""
    trace = home.totals.trace
    row -= home.totals.trace_from
    if row < 0 or row >= trace.shape[0]:
        return
    state, layers = home.state.plant[0], home.state.layers
    trace[row, 0] = outdoor
    trace[row, 1] = state.unit
    trace[row, 2] = state.coil_loop if state.mode == HOT_WATER else state.back
    trace[row, 3] = state.target
    trace[row, 4] = heat
    trace[row, 5] = electricity
    trace[row, 6] = state.mode
    trace[row, 7] = state.frost
    trace[row, 8] = layers[layers.size - 1]
    trace[row, 9] = layers[home.plants[0].sensor_layer]
    trace[row, 10] = flow_rate
    trace[row, 11] = backup
    for room in range(home.state.rooms.shape[1]):
        trace[row, 12 + room] = home.state.rooms[AIR, room]


@register_jitable
def _end_slot(home: Any, slot: int) -> None:
    """Add the slot to its day and its degree outdoors, and look into each room."""
    driver, now, flat = home.weathered.slots[slot], home.now[0], home.flat
    gains, sun = 0.0, 0.0
    for room in range(home.rooms.size):
        gains += home.weathered.rooms[GAINS, slot, room] * home.rooms[room].gain_factor
        sun += home.weathered.rooms[SOLAR, slot, room] * home.rooms[room].solar_factor
    now.heat_gains += gains * SLOT_SECONDS
    now.heat_sun += sun * SLOT_SECONDS
    now.seconds = SLOT_SECONDS
    later = home.weathered.slots[slot + 1]
    mean = 0.5 * (driver.outdoor + later.outdoor)
    now.outdoor = mean * SLOT_SECONDS
    now.cost += now.heat_immersion * driver.price
    degree = min(max(int(np.floor(mean + 0.5)) - COLDEST_BIN, 0), BIN_COUNT - 1)
    for quantity in range(flat.size):
        home.totals.days[driver.day, quantity] += flat[quantity]
        home.totals.bins[degree, quantity] += flat[quantity]
    is_season = driver.outdoor_mean < home.plants[0].heating_limit
    for room in range(home.rooms.size):
        wanted = home.weathered.rooms[WANTED, slot, room] + home.rooms[room].wanted_shift
        look_into_room(home.totals.rooms[room], home.state.rooms[AIR, room], wanted, is_season)
