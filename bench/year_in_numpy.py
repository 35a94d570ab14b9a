"""The loop of a year in plain NumPy, rooms and emitters as arrays: what compiling is worth."""

from __future__ import annotations

import time
from types import SimpleNamespace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from hearthbook.kernel.controls_step import between, decide, switch_backup, switch_compressor
from hearthbook.kernel.counting import count_rooms, count_step
from hearthbook.kernel.cylinder_step import rest_cylinder, tap
from hearthbook.kernel.emitters_step import choose_flow
from hearthbook.kernel.home_year import VALVE_STEPS
from hearthbook.kernel.loop_step import circulate
from hearthbook.kernel.packing import maps
from hearthbook.kernel.parameters import SLOT_SECONDS
from hearthbook.kernel.room_step import room_air, room_masses
from hearthbook.kernel.state import TOTALS
from hearthbook.kernel.unit_step import unit_heat
from hearthbook.physics.emitter_step import (
    fitted_output,
    head_position,
    inlet_weight,
    lagged,
    valve_opening,
)
from hearthbook.physics.room_nodes import air_leakage, mass_after
from hearthbook.physics.water_loop import branch_after, kept_share
from hearthbook.simulate.drivers import Drivers
from hearthbook.simulate.home_model import HomeModel
from hearthbook.simulate.run import State

__all__ = ["by_numpy"]

Array = NDArray[np.float64]
_STEP = 60.0  # s
_MINUTES = round(SLOT_SECONDS / _STEP)


def by_numpy(model: HomeModel, drivers: Drivers, start: State) -> tuple[float, float]:
    """Heat given by emitters in J, and the seconds of the processor that the loop took."""
    loop = _Loop(model, drivers, start)
    begun = time.process_time()
    for slot in range(drivers.slots.size - 1):
        loop.begin(slot)
        for minute in range(_MINUTES):
            loop.run(slot, minute)
    return float(loop.totals.heat_emitted), time.process_time() - begun


def _plain(record: Any) -> SimpleNamespace:
    """A record as a plain object: NumPy's own records are slow to read one by one."""
    return SimpleNamespace(**{name: record[name].item() for name in record.dtype.names})


class _Loop:
    """One home between two minutes; the plant's steps are those of the compiled loop, as Python."""

    def __init__(self, model: HomeModel, drivers: Drivers, start: State) -> None:
        self.rooms, self.emitters, self.links = model.rooms, model.emitters, model.links
        self.plant, self.state = _plain(model.plant[0]), _plain(start.plant[0])
        self.totals: Any = _plain(np.zeros(1, TOTALS)[0])
        self.nodes, self.layers = start.rooms.copy(), start.layers.copy()
        self.water, self.opening, self.held = start.emitters.copy()
        self.maps, self.drivers = maps(model.performance), drivers
        self.slots = [_plain(slot) for slot in drivers.slots]

    def begin(self, slot: int) -> None:
        plant, state, driver, rooms = self.plant, self.state, self.slots[slot], self.rooms
        self.wanted = self.drivers.wanted[slot] + rooms.wanted_shift
        people = self.drivers.gains[slot] * rooms.gain_factor
        sun = self.drivers.solar[slot] * rooms.solar_factor
        radiant = people * rooms.gain_radiant
        self.base = np.stack([
            people - radiant + sun * rooms.solar_air, sun * rooms.solar_inner,
            sun * rooms.solar_outer, sun * rooms.solar_floor, radiant,
        ])  # fmt: skip
        state.mean_air = float(self.nodes[0].mean())
        if plant.has_cylinder > 0.0:
            room = plant.cylinder_room
            around = float(self.nodes[0, room]) if room >= 0 else driver.outdoor
            rest_cylinder(plant, state, self.totals, self.layers, around, SLOT_SECONDS)
            if driver.hygiene_due > 0.0:
                state.hygiene, state.hygiene_seconds, state.hygiene_held = 1.0, 0.0, 0.0

    def run(self, slot: int, minute: int) -> None:
        plant, state, totals, driver = self.plant, self.state, self.totals, self.slots[slot]
        part = (minute + 0.5) / _MINUTES
        outdoor, humidity = between(driver, self.slots[slot + 1], part)
        place = plant.thermostat_room
        short = float(self.wanted[place] - self.nodes[0, place]) if place >= 0 else 0.0
        sensor = float(self.layers[plant.sensor_layer])
        decide(plant, state, driver, short, sensor)
        is_moving = minute % VALVE_STEPS == 0
        if is_moving:
            self._move_valves()
        rate, past, scale, is_enough = choose_flow(plant, state)
        if is_moving or scale != state.branch_scale:
            self._set_branches(scale)
        is_start = switch_compressor(plant, state, outdoor, is_enough, _STEP)
        heat, electricity, is_at_most = unit_heat(
            plant, state, totals, self.maps, sensor, outdoor, humidity, driver.quiet > 0.0, rate,
            _STEP,
        )  # fmt: skip
        backup = switch_backup(plant, state, outdoor, is_at_most, _STEP)
        inflow = self.base.copy()
        given = self._emit(inflow)
        constant = float(
            self.through @ branch_after(self.water, self.kept, self.warming, given, 0.0)
        )
        inflow[0, plant.pipe_room] += circulate(
            plant, state, totals, self.layers, float(self.nodes[0, plant.pipe_room]), heat, backup,
            outdoor, rate, past, constant, _STEP,
        )  # fmt: skip
        if plant.cylinder_room >= 0:
            inflow[0, plant.cylinder_room] += state.cylinder_loss
        self.water = branch_after(self.water, self.kept, self.warming, given, state.flow)
        lost = self._warm_rooms(driver, outdoor, inflow)
        drawn = float(self.drivers.draws[slot * _MINUTES + minute])
        tap(plant, state, totals, self.layers, drawn, driver.cold_water, _STEP)
        count_rooms(totals, float(given.sum()), lost, is_start, _STEP)
        count_step(
            plant, state, totals, outdoor, heat, electricity, backup, driver.price, rate > 0.0,
            is_enough, _STEP,
        )  # fmt: skip

    def _move_valves(self) -> None:
        emitters, where = self.emitters, self.emitters.room
        air, middle = self.nodes[0, where], self.wanted[where] + emitters.valve_shift
        self.held = head_position(air, self.held, emitters.valve_hysteresis)
        goal = valve_opening(self.held, middle, emitters.valve_band, emitters.least_opening)
        self.opening = lagged(self.opening, goal, emitters.valve_lag, VALVE_STEPS * _STEP)
        self.state.open_flow = float(self.opening @ emitters.design_flow)

    def _set_branches(self, scale: float) -> None:
        self.through = self.opening * self.emitters.design_flow * scale
        self.weight = inlet_weight(self.through, self.emitters.conductance)
        self.kept = kept_share(self.emitters.capacity, self.through, _STEP)
        self.warming = self.kept * _STEP / self.emitters.capacity
        self.state.branch_scale = scale
        self.state.branch_slope = float(self.through @ (1.0 - self.kept))

    def _emit(self, inflow: Array) -> Array:
        emitters, where = self.emitters, self.emitters.room
        mean = self.water + self.weight * (self.state.flow - self.water)
        air, floor = self.nodes[0, where], self.nodes[3, where]
        sink = air + emitters.into_floor * (floor - air)
        given = np.asarray(
            fitted_output(mean - sink, emitters.linear, emitters.quarter, emitters.half)
        )
        above = given * (1.0 - emitters.into_floor)
        np.add.at(inflow[4], where, above * emitters.radiant)
        np.add.at(inflow[0], where, above * (1.0 - emitters.radiant))
        np.add.at(inflow[3], where, given * emitters.into_floor)
        return given

    def _exchange(self, inflow: Array) -> None:
        links = self.links
        for row, conductance in ((0, links.air), (1, links.wall)):
            passed = conductance * (self.nodes[row, links.first] - self.nodes[row, links.second])
            np.add.at(inflow[row], links.first, -passed)
            np.add.at(inflow[row], links.second, passed)

    def _warm_rooms(self, driver: Any, outdoor: float, inflow: Array) -> float:
        """Rooms at the end of the minute; W they lost."""
        rooms, plant = self.rooms, self.plant
        radiant: Any = inflow[4]
        self._exchange(inflow)
        force = air_leakage(
            self.state.mean_air, outdoor, driver.wind, plant.leak_stack, plant.leak_wind
        )
        out: Any = rooms.air_outside + rooms.ventilation + force * rooms.infiltration
        nodes: Any = self.nodes
        air, inner, outer, floor = nodes
        to_fabric: Any = rooms.air_inner + rooms.air_outer + rooms.air_floor
        from_fabric = rooms.air_inner * inner + rooms.air_outer * outer + rooms.air_floor * floor
        told: Any = rooms  # arrays where a loop has numbers; the same sums do for both
        new = room_air(
            air, told.air_capacity, to_fabric, from_fabric, out, outdoor,
            inflow[0] + radiant * told.radiant_air, _STEP,
        )  # fmt: skip
        into = room_masses(
            new, inner, outer, floor, told.air_inner, told.air_outer, told.air_floor,
            told.inner_outer, told.inner_floor, told.outer_outside, told.floor_ground,
            told.inner_neighbour, outdoor, driver.ground, told.neighbour_temperature,
            inflow[1] + radiant * told.radiant_inner, inflow[2] + radiant * told.radiant_outer,
            inflow[3] + radiant * told.radiant_floor,
        )  # fmt: skip
        capacities = (rooms.inner_capacity, rooms.outer_capacity, rooms.floor_capacity)
        masses = [
            mass_after(node, capacity, heat, _STEP)
            for node, capacity, heat in zip((inner, outer, floor), capacities, into, strict=False)
        ]
        self.nodes = np.stack([new, *masses])
        return float(np.sum(into[3] + out * (new - outdoor)))
