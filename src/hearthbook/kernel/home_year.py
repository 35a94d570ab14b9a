"""One home through its weather, minute by minute."""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np
from numba.extending import register_jitable
from numpy.typing import NDArray

from hearthbook.kernel.compiled import compiled
from hearthbook.kernel.controls_step import (
    call_of_thermostat,
    choose_mode,
    flow_target,
    switch_backup,
    switch_compressor,
)
from hearthbook.kernel.cylinder_step import coil_zone, draw_hot_water, rest_cylinder, run_hygiene
from hearthbook.kernel.parameters import SLOT_SECONDS, Emitters, Links, Performance, Rooms
from hearthbook.kernel.room_step import room_after
from hearthbook.kernel.state import BIN_COUNT, COLDEST_BIN, DEFROST, DRIP, HEATING, HOT_WATER, REST, TOTALS
from hearthbook.kernel.unit_step import defrost_heat, running_heat, wanted_heat
from hearthbook.physics.cylinder_layers import heat_layers
from hearthbook.physics.emitter_step import (
    fitted_output,
    head_position,
    inlet_weight,
    lagged,
    pump_flow_share,
    valve_opening,
)
from hearthbook.physics.room_nodes import air_leakage
from hearthbook.physics.water_loop import branch_cooling, return_after, vessel_after

__all__ = ["HomeState", "HomeTotals", "Weathered", "run_home"]

Array = NDArray[np.float64]
Record = Any  # one element of a record array; the compiler knows its fields, mypy does not


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
        solar: W of the sun into each room; [K, R].
        gains: W of people and appliances; [K, R].
        wanted: °C wanted; [K, R].
        draws: kg of mixed hot water in each minute; [15 K].
    """

    slots: NDArray[Any]
    solar: Array
    gains: Array
    wanted: Array
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


class _Work(NamedTuple):
    """Scratch rows, made once: by emitter and by room."""

    flows: Array  # W/K through each emitter
    given: Array  # W each emitter gives
    air: Array  # W into each room's air
    radiant: Array  # W radiant in each room
    floor: Array  # W into each floor
    inner: Array  # W into each inner fabric
    outer: Array  # W into each outer fabric
    now: NDArray[Any]  # totals of the slot
    flat: Array  # the same memory as floats


class _Model(NamedTuple):
    """One home's unchanging part, so that it passes from function to function as one."""

    rooms: Rooms
    links: Links
    emitters: Emitters
    performance: Performance
    plants: NDArray[Any]
    weathered: Weathered
    state: HomeState
    totals: HomeTotals
    work: _Work


@compiled
def run_home(
    rooms: Rooms,
    links: Links,
    emitters: Emitters,
    performance: Performance,
    plants: NDArray[Any],
    weathered: Weathered,
    state: HomeState,
    totals: HomeTotals,
    step: float,
) -> None:
    """Run one home through all slots of its weather; `state` and `totals` are changed."""
    flat = np.zeros(totals.days.shape[1])
    work = _Work(
        np.zeros(emitters.room.size),
        np.zeros(emitters.room.size),
        np.zeros(rooms.air_capacity.size),
        np.zeros(rooms.air_capacity.size),
        np.zeros(rooms.air_capacity.size),
        np.zeros(rooms.air_capacity.size),
        np.zeros(rooms.air_capacity.size),
        flat.view(TOTALS),
        flat,
    )
    home = _Model(
        rooms, links, emitters, performance, plants, weathered, state, totals, work
    )
    steps = int(round(SLOT_SECONDS / step))
    for slot in range(weathered.slots.size - 1):
        _begin_slot(home, slot)
        for number in range(steps):
            _step(home, slot, number, steps, step)
        _end_slot(home, slot)


@register_jitable
def _begin_slot(home: Any, slot: int) -> None:
    """What holds for a quarter of an hour: the cylinder's standing loss, a hygiene run that is due."""
    home.work.flat[:] = 0.0
    plant, state = home.plants[0], home.state.plant[0]
    driver, now = home.weathered.slots[slot], home.work.now[0]
    state.mean_air = np.mean(home.state.rooms[0])
    if plant.has_cylinder > 0.0:
        room = driver.outdoor
        if plant.cylinder_room >= 0:
            room = home.state.rooms[0, plant.cylinder_room]
        rest_cylinder(plant, state, now, home.state.layers, room, SLOT_SECONDS)
        if driver.hygiene_due > 0.0:
            state.hygiene, state.hygiene_seconds, state.hygiene_held = 1.0, 0.0, 0.0


@register_jitable
def _step(home: Any, slot: int, number: int, steps: int, step: float) -> None:
    plant, state, now = home.plants[0], home.state.plant[0], home.work.now[0]
    driver, later = home.weathered.slots[slot], home.weathered.slots[slot + 1]
    part = (number + 0.5) / steps
    outdoor = driver.outdoor + part * (later.outdoor - driver.outdoor)
    humidity = driver.humidity + part * (later.humidity - driver.humidity)
    _decide(home, driver, slot)
    is_pumping = state.mode == HEATING or state.mode == DEFROST or state.mode == DRIP
    flow_rate, bypassed, is_flow_enough = _set_flows(home, slot, is_pumping, step)
    if state.mode == HOT_WATER:
        flow_rate, bypassed = plant.coil_flow * plant.heat_capacity, 0.0
        is_flow_enough = True
    elif state.mode == HEATING and not is_flow_enough:
        now.low_flow_seconds += step
    if switch_compressor(plant, state, outdoor, is_flow_enough, step):
        now.starts += 1.0
    heat, electricity, is_at_most = _unit(home, outdoor, humidity, driver.quiet, flow_rate, step)
    backup = switch_backup(plant, state, outdoor, is_at_most, step)
    _clear(home, slot)
    _emit(home, step)
    if state.mode == HOT_WATER:
        _circulate_coil(home, heat, outdoor, flow_rate, step)
    else:
        _circulate_rooms(home, heat, backup, outdoor, flow_rate, bypassed, step)
    _warm_rooms(home, outdoor, driver.ground, driver.wind, step)
    _tap(home, driver, slot, number, steps, step)
    _count(home, outdoor, heat, electricity, backup, driver.price, flow_rate > 0.0, step)
    state.mode_seconds += step
    state.since_hot_water += step
    row = slot * steps + number - home.totals.trace_from
    if 0 <= row < home.totals.trace.shape[0]:
        _trace(home, row, outdoor, heat, electricity, flow_rate, backup)


@register_jitable
def _decide(home: Any, driver: Record, slot: int) -> None:
    """Thermostat, target and mode at the start of a step."""
    plant, state = home.plants[0], home.state.plant[0]
    short = 0.0
    if plant.thermostat_room >= 0:
        room = plant.thermostat_room
        wanted = home.weathered.wanted[slot, room] + home.rooms.wanted_shift[room]
        air = home.state.rooms[0, room]
        call_of_thermostat(plant, state, air, wanted)
        short = wanted - air
    state.target = flow_target(plant, driver, short)
    sensor = home.state.layers[plant.sensor_layer]
    is_full = state.frost >= plant.frost_to_defrost
    choose_mode(plant, state, driver, sensor, is_full)


@register_jitable
def _set_flows(home: Any, slot: int, is_pumping: bool, step: float) -> tuple[float, float, bool]:
    """Valves follow their rooms; then the flow through each emitter, in all, and past them."""
    plant, emitters, rooms = home.plants[0], home.emitters, home.rooms
    flows, valves = home.work.flows, home.state.emitters
    total = 0.0
    for emitter in range(flows.size):
        room = emitters.room[emitter]
        wanted = home.weathered.wanted[slot, room] + rooms.wanted_shift[room]
        acting = head_position(
            home.state.rooms[0, room], valves[2, emitter], emitters.valve_hysteresis[emitter]
        )
        goal = valve_opening(
            acting,
            wanted + emitters.valve_shift[emitter],
            emitters.valve_band[emitter],
            emitters.least_opening[emitter],
        )
        opening = lagged(valves[1, emitter], goal, emitters.valve_lag[emitter], step)
        valves[1, emitter] = opening
        valves[2, emitter] = acting
        flows[emitter] = opening * emitters.design_flow[emitter]
        total += flows[emitter]
    return share_flow(plant, flows, total, is_pumping)


@register_jitable
def share_flow(
    plant: Record, flows: Array, total: float, is_pumping: bool
) -> tuple[float, float, bool]:
    """Scale open flows (kg/s) to heat-capacity rates through the pump; total, bypass, enough."""
    if not is_pumping:
        flows[:] = 0.0
        return 0.0, 0.0, total >= plant.least_flow or plant.has_bypass > 0.0
    pumped = plant.design_flow * pump_flow_share(
        total / plant.design_flow, plant.common_resistance
    )
    scale = plant.heat_capacity * pumped / max(total, 1e-9)
    flows *= scale
    past = 0.0
    if pumped < plant.least_flow and plant.has_bypass > 0.0:
        past = plant.least_flow - pumped
    is_enough = pumped + past >= plant.least_flow
    return (pumped + past) * plant.heat_capacity, past * plant.heat_capacity, is_enough


@register_jitable
def _unit(
    home: Any, outdoor: float, humidity: float, quiet: float, flow_rate: float, step: float
) -> tuple[float, float, bool]:
    """Heat into the unit's water, electricity of the compressor, whether it runs at its most."""
    plant, state, now = home.plants[0], home.state.plant[0], home.work.now[0]
    if state.mode == DEFROST:
        if state.mode_seconds == 0.0:
            now.defrosts += 1.0
        taken, electricity = defrost_heat(plant, state, now, step)
        return -taken, electricity, False
    if state.compressor == 0.0 or state.mode == DRIP or state.mode == REST:
        return 0.0, 0.0, outdoor < plant.lowest_outdoor
    if state.mode == HOT_WATER:
        sensor = home.state.layers[plant.sensor_layer]
        target = min(sensor + plant.hot_water_flow_excess, plant.highest_flow)
        inlet = state.coil_loop
    else:
        target, inlet = state.target, state.back
    wanted = wanted_heat(state, target, inlet, flow_rate, plant.unit_capacity)
    return running_heat(
        plant, home.performance, state, now, outdoor, humidity, quiet > 0.0, wanted, step
    )


@register_jitable
def _clear(home: Any, slot: int) -> None:
    """Begin each room's sums with people, appliances and sun; the sun is added later by share."""
    rooms, work = home.rooms, home.work
    for room in range(work.air.size):
        gains = home.weathered.gains[slot, room] * rooms.gain_factor[room]
        sun = home.weathered.solar[slot, room] * rooms.solar_factor[room]
        radiant = gains * rooms.gain_radiant[room]
        work.radiant[room] = radiant
        work.air[room] = gains - radiant + sun * rooms.solar_air[room]
        work.inner[room] = sun * rooms.solar_inner[room]
        work.outer[room] = sun * rooms.solar_outer[room]
        work.floor[room] = sun * rooms.solar_floor[room]


@register_jitable
def _emit(home: Any, step: float) -> None:
    """What each emitter gives, from the temperatures at the start of the step."""
    emitters, work = home.emitters, home.work
    state, now = home.state.plant[0], home.work.now[0]
    given_in_all = 0.0
    for emitter in range(work.flows.size):
        room, into_floor = emitters.room[emitter], emitters.into_floor[emitter]
        water = home.state.emitters[0, emitter]
        weight = inlet_weight(work.flows[emitter], emitters.conductance[emitter])
        mean = water + weight * (state.flow - water)
        air, floor = home.state.rooms[0, room], home.state.rooms[3, room]
        sink = air + into_floor * (floor - air)
        given = fitted_output(
            mean - sink, emitters.linear[emitter], emitters.quarter[emitter], emitters.half[emitter]
        )
        work.given[emitter] = given
        above = given * (1.0 - into_floor)
        radiant = above * emitters.radiant[emitter]
        work.radiant[room] += radiant
        work.air[room] += above - radiant
        work.floor[room] += given * into_floor
        given_in_all += given
    now.heat_emitted += given_in_all * step


@register_jitable
def _circulate_coil(
    home: Any, heat: float, outdoor: float, flow_rate: float, step: float
) -> None:
    """Water round the unit and the cylinder's coil; the heating circuit stands still."""
    plant, state, now = home.plants[0], home.state.plant[0], home.work.now[0]
    zone = coil_zone(plant, home.state.layers)
    kept = 1.0 - plant.coil_effectiveness
    outside = plant.outdoor_loss * (state.unit - outdoor)
    unit_rate, loop_rate = plant.unit_capacity / step, plant.coil_loop_capacity / step
    constant = (unit_rate * state.unit + heat - outside) / (unit_rate + flow_rate)
    slope = flow_rate / (unit_rate + flow_rate)
    top = loop_rate * state.coil_loop + flow_rate * (
        kept * constant + plant.coil_effectiveness * zone
    )
    state.coil_loop = top / (loop_rate + flow_rate * (1.0 - kept * slope))
    state.unit = constant + slope * state.coil_loop
    given = flow_rate * plant.coil_effectiveness * (state.unit - zone) * step
    heat_layers(home.state.layers, given, plant.layer_capacity, plant.coil_layers)
    now.heat_coil += given
    now.heat_pipes_outdoors += outside * step
    _stand_still(home, step)


@register_jitable
def _stand_still(home: Any, step: float) -> None:
    """Heating pipes and emitters cool without flow."""
    plant, state, now = home.plants[0], home.state.plant[0], home.work.now[0]
    air = home.state.rooms[0, plant.pipe_room]
    flow_loss, back_loss = plant.flow_loss * (state.flow - air), plant.return_loss * (state.back - air)
    state.flow -= flow_loss * step / plant.flow_capacity
    state.back -= back_loss * step / plant.return_capacity
    home.work.air[plant.pipe_room] += flow_loss + back_loss
    now.heat_pipes += (flow_loss + back_loss) * step
    for emitter in range(home.work.given.size):
        home.state.emitters[0, emitter] -= (
            home.work.given[emitter] * step / home.emitters.capacity[emitter]
        )


@register_jitable
def _circulate_rooms(
    home: Any,
    heat: float,
    backup: float,
    outdoor: float,
    flow_rate: float,
    bypassed: float,
    step: float,
) -> None:
    """Water round the unit, the flow pipes, the emitters and the return pipes."""
    plant, state, now, work = home.plants[0], home.state.plant[0], home.work.now[0], home.work
    air = home.state.rooms[0, plant.pipe_room]
    flow_loss, back_loss = plant.flow_loss * (state.flow - air), plant.return_loss * (state.back - air)
    outside = plant.outdoor_loss * (state.unit - outdoor)
    constant, slope = 0.0, bypassed
    for emitter in range(work.flows.size):
        rate, through = home.emitters.capacity[emitter] / step, work.flows[emitter]
        water = home.state.emitters[0, emitter]
        constant += through * branch_cooling(
            water, home.emitters.capacity[emitter], through, work.given[emitter], step
        )
        slope += through * through / (rate + through)
    old_unit, old_flow = state.unit, state.flow
    state.back = return_after(
        old_unit, old_flow, state.back, plant.unit_capacity, plant.flow_capacity,
        plant.return_capacity, heat - outside, backup - flow_loss, -back_loss, flow_rate,
        constant, slope, step,
    )  # fmt: skip
    state.unit = vessel_after(
        old_unit, plant.unit_capacity, flow_rate, state.back, heat - outside, step
    )
    state.flow = vessel_after(
        old_flow, plant.flow_capacity, flow_rate, state.unit, backup - flow_loss, step
    )
    for emitter in range(work.flows.size):
        home.state.emitters[0, emitter] = vessel_after(
            home.state.emitters[0, emitter], home.emitters.capacity[emitter], work.flows[emitter],
            state.flow, -work.given[emitter], step,
        )  # fmt: skip
    work.air[plant.pipe_room] += flow_loss + back_loss
    now.heat_pipes += (flow_loss + back_loss) * step
    now.heat_pipes_outdoors += outside * step


@register_jitable
def _warm_rooms(home: Any, outdoor: float, ground: float, wind: float, step: float) -> None:
    """Air, fabric and floors of all rooms, and what passes between them."""
    rooms, links, work, nodes = home.rooms, home.links, home.work, home.state.rooms
    plant, state, now = home.plants[0], home.state.plant[0], home.work.now[0]
    if plant.cylinder_room >= 0:
        work.air[plant.cylinder_room] += state.cylinder_loss
    for link in range(links.first.size):
        one, other = links.first[link], links.second[link]
        by_air = links.air[link] * (nodes[0, one] - nodes[0, other])
        by_wall = links.wall[link] * (nodes[1, one] - nodes[1, other])
        work.air[one] -= by_air
        work.air[other] += by_air
        work.inner[one] -= by_wall
        work.inner[other] += by_wall
    force = air_leakage(state.mean_air, outdoor, wind, plant.leak_stack, plant.leak_wind)
    lost = 0.0
    for room in range(work.air.size):
        radiant = work.radiant[room]
        air, inner, outer, floor, away = room_after(
            nodes[0, room], nodes[1, room], nodes[2, room], nodes[3, room],
            rooms.air_capacity[room], rooms.inner_capacity[room], rooms.outer_capacity[room],
            rooms.floor_capacity[room], rooms.air_inner[room], rooms.air_outer[room],
            rooms.air_floor[room], rooms.inner_outer[room], rooms.inner_floor[room],
            rooms.outer_outside[room], rooms.floor_ground[room], rooms.inner_neighbour[room],
            rooms.air_outside[room] + rooms.ventilation[room] + force * rooms.infiltration[room],
            outdoor, ground, rooms.neighbour_temperature[room],
            work.air[room] + radiant * rooms.radiant_air[room],
            work.inner[room] + radiant * rooms.radiant_inner[room],
            work.outer[room] + radiant * rooms.radiant_outer[room],
            work.floor[room] + radiant * rooms.radiant_floor[room], step,
        )  # fmt: skip
        nodes[0, room], nodes[1, room], nodes[2, room], nodes[3, room] = air, inner, outer, floor
        lost += away
    now.heat_lost += lost * step


@register_jitable
def _tap(home: Any, driver: Record, slot: int, number: int, steps: int, step: float) -> None:
    """Hot water drawn, and the hygiene run."""
    plant, state, now = home.plants[0], home.state.plant[0], home.work.now[0]
    if plant.has_cylinder == 0.0:
        return
    minutes = int(SLOT_SECONDS / 60.0)
    drawn = home.weathered.draws[slot * minutes + number * minutes // steps]
    if drawn > 0.0:
        mixed = drawn * plant.draw_factor * step / 60.0
        draw_hot_water(plant, now, home.state.layers, mixed, driver.cold_water)
    if state.hygiene > 0.0:
        sensor = home.state.layers[plant.sensor_layer]
        run_hygiene(plant, state, now, home.state.layers, sensor, step)


@register_jitable
def _count(
    home: Any,
    outdoor: float,
    heat: float,
    electricity: float,
    backup: float,
    price: float,
    is_pumping: bool,
    step: float,
) -> None:
    """Add the step's heat, electricity and seconds."""
    plant, state, now = home.plants[0], home.state.plant[0], home.work.now[0]
    running = state.compressor > 0.0
    fan = plant.fan_power if running else 0.0
    standby = plant.standby_power
    if not running and outdoor < plant.crankcase_below:
        standby += plant.crankcase_power
    pump = plant.pump_power if is_pumping else 0.0
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
    """One row of the trace, in the order of `TRACE`."""
    state, layers = home.state.plant[0], home.state.layers
    trace = home.totals.trace
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
        trace[row, 12 + room] = home.state.rooms[0, room]


@register_jitable
def _end_slot(home: Any, slot: int) -> None:
    """Add the slot to its day and its degree outdoors, and look into each room."""
    driver, now, flat = home.weathered.slots[slot], home.work.now[0], home.work.flat
    gains, sun = 0.0, 0.0
    for room in range(home.work.air.size):
        gains += home.weathered.gains[slot, room] * home.rooms.gain_factor[room]
        sun += home.weathered.solar[slot, room] * home.rooms.solar_factor[room]
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
    _look_into_rooms(home, slot, driver.outdoor_mean < home.plants[0].heating_limit)


@register_jitable
def _look_into_rooms(home: Any, slot: int, is_season: bool) -> None:
    for room in range(home.work.air.size):
        air = home.state.rooms[0, room]
        wanted = home.weathered.wanted[slot, room] + home.rooms.wanted_shift[room]
        look_into_room(home.totals.rooms[room], air, wanted, is_season)


@register_jitable
def look_into_room(figures: Record, air: float, wanted: float, is_season: bool) -> None:
    """Add a quarter of an hour in one room to its figures."""
    figures.seconds += SLOT_SECONDS
    figures.temperature += air * SLOT_SECONDS
    figures.coldest = min(figures.coldest, air)
    figures.warmest = max(figures.warmest, air)
    if is_season and air < wanted - 0.5:
        figures.below_seconds += SLOT_SECONDS
        figures.below += (wanted - 0.5 - air) * SLOT_SECONDS
    if air > wanted + 2.0:
        figures.above_seconds += SLOT_SECONDS
