"""What must hold of a home's year, whatever the numbers are."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from numpy.typing import NDArray

from hearthbook.design.results import design_home
from hearthbook.errors import HearthbookError
from hearthbook.kernel.state import TOTALS, TRACE
from hearthbook.record.home import Home
from hearthbook.simulate.home_model import HomeModel
from hearthbook.simulate.run import Run, run_year
from hearthbook.year.changes import Changes
from hearthbook.year.home_year import home_year
from hearthbook.year.model import year_model
from hearthbook.year.room_masses import RADIANT_HEAT
from hearthbook.year.schedules import build_drivers
from hearthbook.year.weather_of_home import weather_of_home
from tests.strategies import homes
from tests.year.demo_years import DEMOS, ready, steady_drivers, year_of
from tests.year.test_room_network import ground_of_design

Array = NDArray[np.float64]


def _all_heat(run: Run) -> float:
    """Heat of a year for rooms and hot water, J."""
    return run.total(
        "heat_rooms", "heat_cylinder", "heat_backup", "heat_immersion"
    ) - run.total("heat_defrost")  # fmt: skip


def _insulated(model: HomeModel, factor: float) -> HomeModel:
    """The same home, its walls, roof, floors and windows passing a share of what they pass."""
    rooms = model.rooms
    return replace(
        model,
        rooms=rooms._replace(
            outer_outside=rooms.outer_outside * factor, air_outside=rooms.air_outside * factor,
            floor_ground=rooms.floor_ground * factor,
        ),
    )  # fmt: skip


@pytest.mark.parametrize("name", DEMOS)
def test_the_year_balances_far_better_than_promised(name: str) -> None:
    assert year_of(name).balance.worst < 1e-12  # promised: 1e-6 of what goes through


@pytest.mark.parametrize("name", DEMOS)
def test_more_insulation_never_needs_more_heat(name: str) -> None:
    home = ready(name)
    heat = [
        run_year(_insulated(home.model, factor), home.drivers).total("heat_emitted")
        for factor in (1.0, 0.9, 0.75, 0.5, 0.25)
    ]
    assert heat == sorted(heat, reverse=True)
    assert heat[-1] < 0.7 * heat[0]


@pytest.mark.parametrize("name", DEMOS)
def test_a_higher_curve_never_gives_better_efficiency(name: str) -> None:
    """Wanted temperatures stay; heads and thermostat hold the rooms."""
    home = ready(name)
    efficiencies = []
    for shift in (0.0, 3.0, 6.0, 10.0):
        run = home_year(home.design, home.weather, changes=Changes(curve_shift=shift)).run
        efficiencies.append(run.total("heat_rooms") / run.total("electricity_rooms"))
    assert efficiencies == sorted(efficiencies, reverse=True)


@pytest.mark.parametrize("name", DEMOS)
def test_warmer_rooms_need_more_heat(name: str) -> None:
    home = ready(name)
    heat = [
        home_year(home.design, home.weather, changes=Changes(wanted_shift=shift)).run.total(
            "heat_emitted"
        )
        for shift in (-2.0, -1.0, 0.0, 1.0)
    ]
    assert heat == sorted(heat)


def _ideal(name: str) -> tuple[HomeModel, Array, float]:
    """A demo home whose emitters give just their rooms' loss at 40 °C and -3 °C outdoors."""
    home = ready(name)
    loss = home.design.heat_loss
    wanted = np.array([room.temperature.value for room in loss.rooms])
    outdoor = loss.outdoor_temperature.value
    model = home.model
    count = len(wanted)
    share = loss.ventilation.value / sum(room.ventilation.value for room in loss.rooms)
    lost = np.array(
        [room.transmission.value + share * room.ventilation.value for room in loss.rooms]
    )
    through = 0.05 * float(model.plant["heat_capacity"][0])  # W/K of water in each
    conductance = lost / (40.0 - 0.5 * lost / through - wanted)
    names = {
        "room": np.arange(count), "linear": conductance, "quarter": np.zeros(count),
        "half": np.zeros(count), "conductance": np.full(count, 1.0),
        "capacity": np.full(count, 2e4), "radiant": np.full(count, RADIANT_HEAT),
        "into_floor": np.zeros(count),
        "design_flow": np.full(count, 0.05), "least_opening": np.ones(count),
        "valve_shift": np.zeros(count), "valve_band": np.full(count, 2.0),
        "valve_hysteresis": np.zeros(count), "valve_lag": np.full(count, 60.0),
        "fan_power": np.zeros(count),
    }  # fmt: skip
    plant = model.plant.copy()
    for field, value in {
        "flow_loss": 0.0, "return_loss": 0.0, "outdoor_loss": 0.0, "has_cylinder": 0.0,
        "thermostat_room": -1, "design_flow": 0.05 * count, "common_resistance": 0.0,
        "least_flow": 0.0, "start_loss": 0.0, "frost_to_defrost": 1e9, "frost_capacity_loss": 0.0,
        "lowest_outdoor": -40.0, "curve_least": 20.0, "curve_most": 60.0, "backup_power": 0.0,
        "heating_limit": 40.0, "room_influence": 0.0, "flow_hysteresis": 1.0,
        "leak_stack": 0.0, "leak_wind": 1.0 / 16.0,
    }.items():  # fmt: skip
        plant[field] = value
    performance = model.performance._replace(
        most=np.full_like(model.performance.most, 40e3),
        least=np.full_like(model.performance.least, 100.0),
    )
    emitters = type(model.emitters)(**names)
    ideal = replace(model, emitters=emitters, plant=plant, performance=performance)
    return ideal, wanted, outdoor


@pytest.mark.parametrize("name", DEMOS)
def test_at_the_design_temperature_the_home_takes_what_the_heat_loss_calculation_says(
    name: str,
) -> None:
    """Weather that never changes, no sun, nobody in, valves open, water at 40 °C throughout."""
    home = ready(name)
    model, wanted, outdoor = _ideal(name)
    drivers = steady_drivers(home, 120, outdoor, 0.0, 40.0)
    drivers.slots["ground"] = ground_of_design(home.design.home, home.design.heat_loss)
    run = run_year(model, drivers)
    loss = home.design.heat_loss
    said = loss.transmission.value + loss.ventilation.value
    lost = float(run.days["heat_lost"][-1]) / 86_400.0
    given = float(run.days["heat_emitted"][-1]) / 86_400.0
    assert given == pytest.approx(lost, rel=1e-6)  # steady at last
    # each room's radiator gives what the room was said to lose; the whole settles at that
    assert lost == pytest.approx(said, rel=0.01)
    assert float(np.mean(run.end.rooms[0] - wanted)) == pytest.approx(0.0, abs=0.5)


@pytest.mark.parametrize(("name", "emitted"), [("well_done", 1e-3), ("with_faults", 2e-3)])
def test_half_the_step_changes_neither_the_years_heat_nor_its_warmest_room(
    name: str, emitted: float
) -> None:
    """Within 0.1 % and 0.05 K, but for one sum: the home with faults misses them by a little.

    It stops and starts some 7,000 times a year, and its emitters' heat alone changes by 0.14 %;
    0.2 % is what is held of it, not what is wanted.
    """
    minute, half = year_of(name), year_of(name, 30.0)
    assert _all_heat(half) == pytest.approx(_all_heat(minute), rel=1e-3)
    assert half.total("heat_emitted") == pytest.approx(minute.total("heat_emitted"), rel=emitted)
    assert half.total("heat_lost") == pytest.approx(minute.total("heat_lost"), rel=1e-3)
    means = [run.rooms["temperature"] / run.rooms["seconds"] for run in (minute, half)]
    assert means[1] == pytest.approx(means[0], abs=0.02)
    assert _hottest_hour(name, 30.0) == pytest.approx(_hottest_hour(name, 60.0), abs=0.05)


def _hottest_hour(name: str, step: float) -> Array:
    """Temperature that each room passes in one hour of the year.

    A single highest minute hangs on when the bathroom's hot water ran: a tenth of a millikelvin at
    the start moves it by 0.1 K at any step, as switches do.
    """
    home = ready(name)
    run = run_year(home.model, home.drivers, step=step, trace_days=(0, 365))
    assert run.trace is not None
    rooms = run.trace.values[:, len(TRACE) :]
    hour = round(3600.0 / step)
    return np.asarray(np.partition(rooms, rooms.shape[0] - hour, axis=0)[rooms.shape[0] - hour])


@settings(max_examples=15)
@given(homes())
def test_any_home_runs_a_fortnight_or_says_why_not(home: Home) -> None:
    try:
        design = design_home(home)
        model = year_model(design).home
        weather = weather_of_home(home)
    except HearthbookError:
        return
    drivers = build_drivers(design, weather, model.glazing)
    count = 14 * 96
    fortnight = replace(
        drivers, slots=drivers.slots[: count + 1], solar=drivers.solar[:count],
        gains=drivers.gains[:count], wanted=drivers.wanted[:count],
        draws=drivers.draws[: count * 15],
    )  # fmt: skip
    fortnight.slots["day"][-1] = 13
    run = run_year(model, fortnight)
    assert run.balance.worst < 1e-9
    assert all(np.isfinite(run.total(quantity)) for quantity in TOTALS.names or ())
    assert run.rooms["coldest"].min() > -40.0
    assert run.rooms["warmest"].max() < 60.0
