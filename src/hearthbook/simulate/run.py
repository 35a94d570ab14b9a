"""One home through one weather: the compiled loop started, its sums read, its balances checked."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from hearthbook.errors import OutOfRange
from hearthbook.kernel.parameters import CYLINDER_LAYERS, SLOT_SECONDS
from hearthbook.kernel.state import BIN_COUNT, PLANT_STATE, ROOM_FIGURES, TOTALS, TRACE
from hearthbook.simulate.drivers import Drivers, check_drivers
from hearthbook.simulate.home_model import HomeModel

__all__ = [
    "SPIN_UP_SLOTS",
    "STEP",
    "Balance",
    "Run",
    "State",
    "Trace",
    "balance_of",
    "check_run",
    "run_year",
    "start_state",
    "stored",
]

STEP = 60.0  # s
_CLOSED = 1e-6  # of the throughput; a run that does not balance so well is refused
SPIN_UP_SLOTS = 10 * 96  # run first, not counted, so that walls begin as the season left them
_FIRST_AIR = 19.0  # °C; before the days that are not counted
_FIRST_WATER = 30.0  # °C; likewise

_Array = NDArray[np.float64]


@dataclass(frozen=True)
class Balance:
    """How well heat and water balance in a run, as shares of what went through.

    Attributes:
        rooms: heat of the rooms.
        water: heat of the heating water.
        cylinder: heat of the cylinder; 0 without one.
        frost: frost grown against meltwater and frost left; 0 where none grew.
    """

    rooms: float
    water: float
    cylinder: float
    frost: float

    @property
    def worst(self) -> float:
        """The largest of them."""
        return max(self.rooms, self.water, self.cylinder, self.frost)


@dataclass(frozen=True)
class Trace:
    """Step by step, for a stretch of a run.

    Attributes:
        names: of the columns: those of `TRACE`, then each room's id.
        values: one row for each step.
        first_step: number of the first row's step in the run.
        step: s.
    """

    names: tuple[str, ...]
    values: _Array
    first_step: int
    step: float

    def column(self, name: str) -> _Array:
        """One column by its name."""
        return np.asarray(self.values[:, self.names.index(name)])


@dataclass(frozen=True)
class State:
    """A home between two steps, to go on from.

    Attributes:
        rooms: °C of air, inner, outer and floor mass; [4, R].
        emitters: water °C, valve opening, temperature its head acts on; [3, E].
        plant: one record of `PLANT_STATE`.
        layers: °C of the cylinder from the bottom.
    """

    rooms: _Array
    emitters: _Array
    plant: NDArray[Any]
    layers: _Array

    def copy(self) -> State:
        """The same, in memory of its own."""
        return State(self.rooms.copy(), self.emitters.copy(), self.plant.copy(), self.layers.copy())


@dataclass(frozen=True)
class Run:
    """What a home did in its weather.

    Attributes:
        days: sums of each day; records of `TOTALS`.
        bins: sums by whole degrees outdoors, the coldest first; records of `TOTALS`.
        rooms: records of `ROOM_FIGURES`.
        balance: how well it closes.
        end: the state it ended in.
        trace: step by step, where asked for.
    """

    days: NDArray[Any]
    bins: NDArray[Any]
    rooms: NDArray[Any]
    balance: Balance
    end: State
    trace: Trace | None = None

    def total(self, *quantities: str) -> float:
        """Sum over the run of one quantity or several."""
        return float(sum(self.days[quantity].sum() for quantity in quantities))


def start_state(model: HomeModel, air: float = _FIRST_AIR, water: float = _FIRST_WATER) -> State:
    """A home at rest, all of it at one temperature.

    Args:
        model: the home.
        air: °C of rooms and fabric.
        water: °C of heating water.
    """
    rooms, emitters = len(model.room_ids), model.emitters.room.size
    plant = np.zeros(1, PLANT_STATE)
    for part in ("unit", "flow", "back", "coil_loop"):
        plant[part] = water
    plant["since_stop"] = plant["since_start"] = plant["since_hot_water"] = 1e6
    plant["room_calls"], plant["mean_air"] = 1.0, air
    valves = np.stack([np.full(emitters, water), np.ones(emitters), np.full(emitters, air)])
    layers = np.full(CYLINDER_LAYERS, float(model.plant["hot_water_set"][0]) or water)
    return State(np.full((4, rooms), air), valves, plant, layers)


def run_year(
    model: HomeModel,
    drivers: Drivers,
    *,
    step: float = STEP,
    start: State | None = None,
    trace_days: tuple[int, int] | None = None,
) -> Run:
    """Run one home through its weather.

    Args:
        model: the home.
        drivers: its weather, people and clocks.
        step: s; 60 or a part of it.
        start: to go on from; without it the first days are run once to warm the walls.
        trace_days: first day and number of days to be traced step by step.

    Raises:
        OutOfRange: drivers the loop cannot run on, or sums that do not balance.
    """
    check_drivers(drivers, len(model.room_ids))
    if start is None:
        slots = min(SPIN_UP_SLOTS, drivers.solar.shape[0])
        start = _once(model, _first(drivers, slots), start_state(model), step, None).end
    run = _once(model, drivers, start.copy(), step, trace_days)
    check_run(run)
    return run


def check_run(run: Run) -> None:
    """Refuse a run whose sums are not numbers or do not balance.

    Raises:
        OutOfRange: with how far it is out.
    """
    sums = [float(run.days[name].sum()) for name in TOTALS.names or ()]
    if not np.all(np.isfinite(sums)) or not np.all(np.isfinite(run.end.rooms)):
        raise OutOfRange(
            "the simulated year did not come out as numbers. This is a fault of the program: "
            "report it with the home's record."
        )
    if run.balance.worst > _CLOSED:
        raise OutOfRange(
            f"heat in the simulated year balances to {run.balance.worst:.1e} of what went "
            f"through; it must be within {_CLOSED:.0e}. This is a fault of the program: report it "
            "with the home's record."
        )


def _first(drivers: Drivers, slots: int) -> Drivers:
    """The first slots of drivers."""
    return Drivers(
        slots=drivers.slots[: slots + 1],
        solar=drivers.solar[:slots],
        gains=drivers.gains[:slots],
        wanted=drivers.wanted[:slots],
        draws=drivers.draws[: slots * int(SLOT_SECONDS / 60.0)],
        has_prices=drivers.has_prices,
    )


def _once(
    model: HomeModel,
    drivers: Drivers,
    state: State,
    step: float,
    trace_days: tuple[int, int] | None,
) -> Run:
    from hearthbook.kernel import home_year as loop  # here, because it brings the compiler with it
    from hearthbook.kernel.packing import maps, records

    rooms, quantities = len(model.room_ids), len(TOTALS.names or ())
    day_count = int(drivers.slots["day"][:-1].max()) + 1
    first, count = _traced(drivers, trace_days, step)
    totals = loop.HomeTotals(
        days=np.zeros((day_count, quantities)),
        bins=np.zeros((BIN_COUNT, quantities)),
        rooms=_unseen(rooms),
        trace=np.zeros((count, len(TRACE) + rooms)),
        trace_from=first,
    )
    before = stored(model, state)
    loop.run_home(
        records(model.rooms),
        records(model.links),
        records(model.emitters),
        maps(model.performance),
        model.plant,
        loop.Weathered(
            np.ascontiguousarray(drivers.slots),
            np.stack([drivers.solar, drivers.gains, drivers.wanted]),
            np.ascontiguousarray(drivers.draws),
        ),
        loop.HomeState(state.rooms, state.emitters, state.plant, state.layers),
        totals,
        loop.scratch(rooms, model.emitters.room.size, quantities),
        step,
    )
    days, bins = totals.days.view(TOTALS)[:, 0], totals.bins.view(TOTALS)[:, 0]
    names = (*TRACE, *model.room_ids)
    trace = Trace(names, totals.trace, first, step) if count else None
    balance = balance_of(days, before, stored(model, state))
    return Run(days, bins, totals.rooms, balance, state, trace)


def _unseen(rooms: int) -> NDArray[Any]:
    """Figures of rooms nobody has looked into yet."""
    figures = np.zeros(rooms, ROOM_FIGURES)
    figures["coldest"], figures["warmest"] = np.inf, -np.inf
    return figures


def _traced(drivers: Drivers, trace_days: tuple[int, int] | None, step: float) -> tuple[int, int]:
    """First step to be traced, and how many."""
    if trace_days is None:
        return 0, 0
    first, count = trace_days
    of_day = np.flatnonzero(
        (drivers.slots["day"][:-1] >= first) & (drivers.slots["day"][:-1] < first + count)
    )
    if of_day.size == 0:
        raise OutOfRange(
            f"days {first} to {first + count - 1} are not in the weather, which has "
            f"{int(drivers.slots['day'].max()) + 1} days. Ask for days within it."
        )
    steps = round(SLOT_SECONDS / step)
    return int(of_day[0]) * steps, int(of_day.size) * steps


def stored(model: HomeModel, state: State) -> tuple[float, float, float, float]:
    """Heat above 0 °C in rooms, heating water and cylinder, J, and frost, kg."""
    rooms, plant, now = model.rooms, model.plant[0], state.plant[0]
    masses = np.stack(
        [rooms.air_capacity, rooms.inner_capacity, rooms.outer_capacity, rooms.floor_capacity]
    )
    water = sum(
        float(plant[f"{capacity}_capacity"]) * float(now[node])
        for capacity, node in (
            ("unit", "unit"),
            ("flow", "flow"),
            ("return", "back"),
            ("coil_loop", "coil_loop"),
        )
    )
    water += float(np.sum(model.emitters.capacity * state.emitters[0]))
    cylinder = float(plant["layer_capacity"]) * float(np.sum(state.layers))
    return float(np.sum(masses * state.rooms)), water, cylinder, float(now["frost"])


def balance_of(
    days: NDArray[Any],
    before: tuple[float, float, float, float],
    after: tuple[float, float, float, float],
) -> Balance:
    """Shares of the throughput by which rooms, water, cylinder and frost do not balance.

    Args:
        days: records of `TOTALS`.
        before: stored in rooms, heating water and cylinder, J, and frost in kg, at the start.
        after: the same at the end.
    """
    total = {name: float(days[name].sum()) for name in TOTALS.names or ()}

    def out_of(change: float, into: tuple[str, ...], out: tuple[str, ...]) -> float:
        gained, lost = (sum(total[name] for name in names) for names in (into, out))
        through = sum(abs(total[name]) for name in (*into, *out))
        return abs(gained - lost - change) / through if through else 0.0

    change = [late - early for early, late in zip(before, after, strict=True)]
    return Balance(
        rooms=out_of(
            change[0],
            ("heat_emitted", "heat_sun", "heat_gains", "heat_pipes", "heat_standing_inside"),
            ("heat_lost",),
        ),
        water=out_of(
            change[1],
            ("heat_rooms", "heat_cylinder", "heat_backup"),
            ("heat_defrost", "heat_emitted", "heat_coil", "heat_pipes", "heat_pipes_outdoors"),
        ),
        cylinder=out_of(
            change[2], ("heat_coil", "heat_immersion"), ("heat_drawn", "heat_standing")
        ),
        frost=out_of(change[3], ("frost",), ("meltwater",)),
    )
