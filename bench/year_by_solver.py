"""The year's equations by a general solver: what a loop made for them is worth, and its error."""

from __future__ import annotations

import time
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray
from scipy.integrate import solve_ivp  # type: ignore[import-untyped]  # ships no types

from hearthbook.kernel.state import TRACE
from hearthbook.physics.emitter_step import fitted_output, inlet_weight
from hearthbook.physics.room_nodes import air_leakage
from hearthbook.simulate.drivers import Drivers
from hearthbook.simulate.home_model import HomeModel
from hearthbook.simulate.run import run_year, start_state

__all__ = ["Solved", "by_solver", "first_days"]

Array = NDArray[np.float64]
_TOLERANCES = (1e-3, 1e-4)
_FINE = 1e-6


@dataclass(frozen=True)
class Solved:
    """A stretch by a general solver.

    Attributes:
        seconds: of the processor.
        error: largest error of a room's air at the end against a far finer solution, K.
        loop_error: the same of the loop in steps of a minute.
        tolerance: relative, of the solver.
    """

    seconds: float
    error: float
    loop_error: float
    tolerance: float


def first_days(drivers: Drivers, days: int) -> Drivers:
    """The first days of drivers."""
    count = days * 96
    slots = drivers.slots[: count + 1].copy()
    slots["day"] = np.minimum(slots["day"], days - 1)
    return replace(
        drivers, slots=slots, solar=drivers.solar[:count], gains=drivers.gains[:count],
        wanted=drivers.wanted[:count], draws=drivers.draws[: count * 15],
    )  # fmt: skip


def by_solver(model: HomeModel, drivers: Drivers, hours: int) -> Solved:
    """The first hours of a day by `solve_ivp`, as loosely as matches the loop's own error.

    Switches are frozen as the loop threw them: the unit's heat and the flow in each minute are
    taken from it. Valves stand open and no hot water is made.
    """
    model, drivers = _heating_alone(model, first_days(drivers, 1))
    start = start_state(model)
    run = run_year(model, drivers, start=start, trace_days=(0, 1))
    assert run.trace is not None
    rates = _Rates(model, drivers, run.trace.values)
    water = [float(start.plant[node][0]) for node in ("unit", "flow", "back")]
    first = np.concatenate([start.rooms.ravel(), start.emitters[0], water])
    rooms = len(model.room_ids)
    fine = _solve(rates, first, hours, _FINE)[0][:rooms]
    by_loop = run.trace.values[hours * 60 - 1, len(TRACE) :]
    loop_error = float(np.max(np.abs(by_loop - fine)))
    for tolerance in _TOLERANCES:
        found, seconds = _solve(rates, first, hours, tolerance)
        error = float(np.max(np.abs(found[:rooms] - fine)))
        if error <= loop_error:
            break
    return Solved(seconds, error, loop_error, tolerance)


def _heating_alone(model: HomeModel, drivers: Drivers) -> tuple[HomeModel, Drivers]:
    emitters = model.emitters._replace(least_opening=np.ones_like(model.emitters.least_opening))
    plant = model.plant.copy()
    plant["has_cylinder"] = 0.0
    return replace(model, emitters=emitters, plant=plant), drivers


def _solve(rates: _Rates, first: Array, hours: int, tolerance: float) -> tuple[Array, float]:
    begun = time.process_time()
    found = solve_ivp(
        rates, (0.0, hours * 3600.0), first, method="LSODA", rtol=tolerance, atol=tolerance,
        max_step=60.0, t_eval=[hours * 3600.0],
    )  # fmt: skip
    return np.asarray(found.y[:, -1]), time.process_time() - begun


class _Rates:
    """How fast every temperature changes, K/s, with the switches of each minute given."""

    def __init__(self, model: HomeModel, drivers: Drivers, trace: Array) -> None:
        self.model, self.drivers, self.plant = model, drivers, model.plant[0]
        self.heat, self.backup, self.rate, self.outdoor = (
            trace[:, TRACE.index(name)] for name in ("heat", "backup", "water_flow", "outdoor")
        )
        flows = model.emitters.design_flow
        self.shares = np.asarray(flows / flows.sum())

    def __call__(self, when: float, temperatures: Array) -> Array:
        minute = min(int(when / 60.0), self.heat.size - 1)
        count = self.model.rooms.air_capacity.size
        nodes = temperatures[: 4 * count].reshape(4, count)
        water, ring = temperatures[4 * count : -3], temperatures[-3:]
        given, cooling = self._emitters(minute, nodes, water, ring[1])
        pipes = self._pipes(nodes, ring)
        changes = np.empty_like(temperatures)
        changes[: 4 * count] = self._rooms(minute, nodes, given, sum(pipes)).ravel()
        changes[4 * count : -3] = cooling
        changes[-3:] = self._ring(minute, water, ring, pipes)
        return changes

    def _pipes(self, nodes: Array, ring: Array) -> tuple[float, float]:
        """W that flow and return pipes lose into their room."""
        air = nodes[0, self.plant["pipe_room"]]
        lost = (
            self.plant["flow_loss"] * (ring[1] - air),
            self.plant["return_loss"] * (ring[2] - air),
        )
        return float(lost[0]), float(lost[1])

    def _emitters(
        self, minute: int, nodes: Array, water: Array, flow: float
    ) -> tuple[Array, Array]:
        """W each emitter gives, and how fast its water changes."""
        emitters = self.model.emitters
        through = self.rate[minute] * self.shares
        mean = water + inlet_weight(through, emitters.conductance) * (flow - water)
        air, floor = nodes[0, emitters.room], nodes[3, emitters.room]
        sink = air + emitters.into_floor * (floor - air)
        given = np.asarray(
            fitted_output(mean - sink, emitters.linear, emitters.quarter, emitters.half)
        )
        return given, np.asarray((through * (flow - water) - given) / emitters.capacity)

    def _ring(self, minute: int, water: Array, ring: Array, pipes: tuple[float, float]) -> Array:
        plant, (unit, flow, back), rate = self.plant, ring, self.rate[minute]
        outside = plant["outdoor_loss"] * (unit - self.outdoor[minute])
        into = [
            rate * (back - unit) + self.heat[minute] - outside,
            rate * (unit - flow) + self.backup[minute] - pipes[0],
            rate * (self.shares @ water - back) - pipes[1],
        ]
        capacities = [plant[f"{part}_capacity"] for part in ("unit", "flow", "return")]
        return np.asarray(np.array(into) / np.array(capacities))

    def _inflow(self, minute: int, nodes: Array, given: Array, pipes: float) -> Array:
        """W into air, inner, outer and floor masses by sun, people, emitters and other rooms."""
        rooms, emitters, links = self.model.rooms, self.model.emitters, self.model.links
        people = self.drivers.gains[minute // 15] * rooms.gain_factor
        sun = self.drivers.solar[minute // 15] * rooms.solar_factor
        radiant = people * rooms.gain_radiant
        air, floor = people - radiant, np.zeros_like(people)
        above = given * (1.0 - emitters.into_floor)
        np.add.at(radiant, emitters.room, above * emitters.radiant)
        np.add.at(air, emitters.room, above * (1.0 - emitters.radiant))
        np.add.at(floor, emitters.room, given * emitters.into_floor)
        air[self.plant["pipe_room"]] += pipes
        found = np.stack([
            air + sun * rooms.solar_air + radiant * rooms.radiant_air,
            sun * rooms.solar_inner + radiant * rooms.radiant_inner,
            sun * rooms.solar_outer + radiant * rooms.radiant_outer,
            floor + sun * rooms.solar_floor + radiant * rooms.radiant_floor,
        ])  # fmt: skip
        for row, conductance in ((0, links.air), (1, links.wall)):
            passed = conductance * (nodes[row, links.first] - nodes[row, links.second])
            np.add.at(found[row], links.first, -passed)
            np.add.at(found[row], links.second, passed)
        return found

    def _rooms(self, minute: int, nodes: Array, given: Array, pipes: float) -> Array:
        rooms, plant = self.model.rooms, self.plant
        air, inner, outer, floor = nodes
        outdoor, driver = self.outdoor[minute], self.drivers.slots[minute // 15]
        force = air_leakage(
            air.mean(), outdoor, driver["wind"], plant["leak_stack"], plant["leak_wind"]
        )
        out = rooms.air_outside + rooms.ventilation + force * rooms.infiltration
        to_outer, to_floor = (
            rooms.inner_outer * (inner - outer),
            rooms.inner_floor * (inner - floor),
        )
        by_air = [rooms.air_inner * (air - inner), rooms.air_outer * (air - outer),
                  rooms.air_floor * (air - floor)]  # fmt: skip
        to_neighbour = rooms.inner_neighbour * (inner - rooms.neighbour_temperature)
        passed = np.stack([
            out * (outdoor - air) - by_air[0] - by_air[1] - by_air[2],
            by_air[0] - to_outer - to_floor - to_neighbour,
            by_air[1] + to_outer - rooms.outer_outside * (outer - outdoor),
            by_air[2] + to_floor - rooms.floor_ground * (floor - driver["ground"]),
        ])  # fmt: skip
        capacities = np.stack(
            [rooms.air_capacity, rooms.inner_capacity, rooms.outer_capacity, rooms.floor_capacity]
        )
        return np.asarray((passed + self._inflow(minute, nodes, given, pipes)) / capacities)
