"""A run of one home: balances, order, cuts, refusals, and homes at the edge of what there is."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from hearthbook.errors import OutOfRange
from hearthbook.kernel.state import DEFROST, HOT_WATER, TOTALS
from hearthbook.physics.emitter_step import emitter_fit
from hearthbook.simulate.drivers import Drivers
from hearthbook.simulate.home_model import HomeModel
from hearthbook.simulate.run import Run, balance_of, check_run, run_year, start_state
from tests.kernel.synthetic_home import synthetic_drivers, synthetic_home

ROOMS = 4
DAY = 96  # slots


@pytest.fixture(scope="module")
def winter() -> tuple[HomeModel, Drivers, Run]:
    """Three weeks from the first of January, traced."""
    model, drivers = synthetic_home(ROOMS), synthetic_drivers(ROOMS, 21, colder=3.0)
    return model, drivers, run_year(model, drivers, trace_days=(0, 21))


def _sums(run: Run) -> dict[str, float]:
    return {name: run.total(name) for name in TOTALS.names or ()}


def _part(drivers: Drivers, first: int, last: int) -> Drivers:
    """Slots of some days, their days counted from nothing."""
    slots = drivers.slots[first * DAY : last * DAY + 1].copy()
    slots["day"] = np.minimum(slots["day"] - first, last - first - 1)
    rows = slice(first * DAY, last * DAY)
    draws = drivers.draws[first * DAY * 15 : last * DAY * 15]
    return replace(
        drivers, slots=slots, solar=drivers.solar[rows], gains=drivers.gains[rows],
        wanted=drivers.wanted[rows], draws=draws,
    )  # fmt: skip


# --- balances -------------------------------------------------------------------------------------


def test_heat_water_and_frost_balance(winter: tuple[HomeModel, Drivers, Run]) -> None:
    run = winter[2]
    assert run.total("frost") > 0.0
    assert run.balance.worst < 1e-12


def test_a_sum_that_is_out_is_refused(winter: tuple[HomeModel, Drivers, Run]) -> None:
    run = winter[2]
    with pytest.raises(OutOfRange, match=r"balances to 1\.0e-03 .* fault of the program"):
        check_run(replace(run, balance=replace(run.balance, water=1e-3)))


def test_a_sum_that_is_no_number_is_refused(winter: tuple[HomeModel, Drivers, Run]) -> None:
    run = winter[2]
    days = run.days.copy()
    days["heat_lost"][3] = np.nan
    with pytest.raises(OutOfRange, match="did not come out as numbers"):
        check_run(replace(run, days=days))


def test_a_balance_without_throughput_is_closed() -> None:
    nothing = balance_of(np.zeros(3, TOTALS), (1.0, 2.0, 3.0, 0.0), (1.0, 2.0, 3.0, 0.0))
    assert nothing.worst == 0.0


def test_days_and_degrees_outdoors_hold_the_same_sums(
    winter: tuple[HomeModel, Drivers, Run],
) -> None:
    run = winter[2]
    for name in TOTALS.names or ():
        assert run.bins[name].sum() == pytest.approx(run.total(name), rel=1e-9, abs=1e-6), name


def test_what_is_traced_is_what_is_summed(winter: tuple[HomeModel, Drivers, Run]) -> None:
    _, _, run = winter
    trace = run.trace
    assert trace is not None
    heat, mode = trace.column("heat"), trace.column("mode")
    made = heat[(mode != DEFROST) & (mode != HOT_WATER)].sum() * 60.0
    assert made == pytest.approx(run.total("heat_rooms"), rel=1e-9)
    assert -heat[mode == DEFROST].sum() * 60.0 == pytest.approx(run.total("heat_defrost"))
    assert trace.column("outdoor").mean() == pytest.approx(run.total("outdoor") / 21 / 86_400)


def test_tracing_changes_nothing(winter: tuple[HomeModel, Drivers, Run]) -> None:
    model, drivers, run = winter
    assert _sums(run_year(model, drivers)) == _sums(run)
    assert _sums(run_year(model, drivers, trace_days=(5, 2))) == _sums(run)


def test_days_outside_the_weather_cannot_be_traced(winter: tuple[HomeModel, Drivers, Run]) -> None:
    model, drivers, _ = winter
    with pytest.raises(OutOfRange, match="days 30 to 31 are not in the weather, which has 21 days"):
        run_year(model, drivers, trace_days=(30, 2))


# --- the same run another way ---------------------------------------------------------------------


def test_a_run_cut_in_two_and_joined_is_the_whole() -> None:
    model, drivers = synthetic_home(ROOMS), synthetic_drivers(ROOMS, 14, colder=3.0)
    start = start_state(model)
    whole = run_year(model, drivers, start=start)
    first = run_year(model, _part(drivers, 0, 5), start=start)
    second = run_year(model, _part(drivers, 5, 14), start=first.end)
    assert np.array_equal(np.concatenate([first.days, second.days]), whole.days)
    assert np.array_equal(second.end.rooms, whole.end.rooms)
    assert np.array_equal(second.end.layers, whole.end.layers)
    assert np.array_equal(second.end.plant, whole.end.plant)


def test_a_start_is_not_changed_by_the_run_from_it() -> None:
    model, drivers = synthetic_home(ROOMS), synthetic_drivers(ROOMS, 2)
    start = start_state(model)
    before = start.copy()
    run_year(model, drivers, start=start)
    assert np.array_equal(start.rooms, before.rooms)
    assert np.array_equal(start.plant, before.plant)


def test_the_same_run_twice_is_the_same() -> None:
    model, drivers = synthetic_home(ROOMS), synthetic_drivers(ROOMS, 7)
    assert _sums(run_year(model, drivers)) == _sums(run_year(model, drivers))


def _varied(rooms: int) -> tuple[HomeModel, Drivers]:
    """The invented home with no two rooms alike."""
    model, drivers = synthetic_home(rooms), synthetic_drivers(rooms, 14, colder=3.0)
    shares = np.linspace(0.7, 1.4, rooms)
    varied = model.rooms._replace(
        air_inner=model.rooms.air_inner * shares, air_outside=model.rooms.air_outside * shares[::-1]
    )
    fits = [emitter_fit(1200.0 * share, 1.3) for share in shares]
    emitters = model.emitters._replace(
        linear=np.array([fit.linear for fit in fits]),
        quarter=np.array([fit.quarter for fit in fits]),
        half=np.array([fit.half for fit in fits]),
    )
    sun = drivers.solar * shares
    return replace(model, rooms=varied, emitters=emitters), replace(drivers, solar=sun)


def test_the_order_of_rooms_emitters_and_links_does_not_matter() -> None:
    model, drivers = _varied(ROOMS)
    order, links, pipes = np.array([2, 0, 3, 1]), np.array([1, 2, 0]), np.array([3, 1, 0, 2])
    place = np.argsort(order)  # where each room has gone
    plant = model.plant.copy()
    for field in ("pipe_room", "cylinder_room", "thermostat_room"):
        plant[field] = place[plant[field]]
    emitters = model.emitters._replace(room=place[model.emitters.room])
    mixed = replace(
        model,
        rooms=type(model.rooms)(*(values[order] for values in model.rooms)),
        links=model.links._replace(
            first=place[model.links.second][links], second=place[model.links.first][links],
            wall=model.links.wall[links], air=model.links.air[links],
        ),
        emitters=type(emitters)(*(values[pipes] for values in emitters)),
        plant=plant,
    )  # fmt: skip
    as_told, as_mixed = (
        run_year(model, drivers),
        run_year(
            mixed,
            replace(
                drivers, solar=drivers.solar[:, order], gains=drivers.gains[:, order],
                wanted=drivers.wanted[:, order],
            ),
        ),
    )  # fmt: skip
    for name, value in _sums(as_told).items():
        assert as_mixed.total(name) == pytest.approx(value, rel=1e-6, abs=1e-6), name
    assert as_mixed.end.rooms == pytest.approx(as_told.end.rooms[:, order], abs=1e-6)


# --- refusals -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("where", "name"),
    [
        ("outdoor", "outdoor temperature"),
        ("humidity", "water in the air"),
        ("wind", "wind"),
        ("ground", "ground below the floor"),
        ("curve_flow", "flow temperature asked by the curve"),
        ("cold_water", "cold water coming in"),
        ("price", "price of electricity"),
        ("solar", "sun through the windows"),
        ("gains", "warmth of people"),
        ("wanted", "wanted temperature"),
        ("draws", "water drawn"),
    ],
)
@pytest.mark.parametrize("value", [np.nan, np.inf])
def test_nothing_runs_on_a_value_that_is_no_number(where: str, name: str, value: float) -> None:
    drivers = synthetic_drivers(ROOMS, 2)
    slots = drivers.slots.copy()
    arrays = {part: getattr(drivers, part).copy() for part in ("solar", "gains", "wanted", "draws")}
    (slots[where] if where in (slots.dtype.names or ()) else arrays[where]).flat[77] = value
    shown = "missing" if np.isnan(value) else "inf"
    with pytest.raises(OutOfRange, match=f"{name}.*is {shown}"):
        run_year(synthetic_home(ROOMS), replace(drivers, slots=slots, **arrays))


# --- what the plant may never do ------------------------------------------------------------------


def _shortest(running: Any, step: float) -> tuple[float, float]:
    """The shortest whole run and the shortest whole rest, s."""
    edges = np.flatnonzero(np.diff(running.astype(int)))
    lengths = np.diff(edges) * step
    is_run = running[edges[:-1] + 1]
    return float(lengths[is_run].min()), float(lengths[~is_run].min())


def test_no_defrost_grows_negative_frost_and_water_stays_water(
    winter: tuple[HomeModel, Drivers, Run],
) -> None:
    trace = winter[2].trace
    assert trace is not None
    assert trace.column("frost").min() >= 0.0
    for column in ("flow", "back", "cylinder_top", "cylinder_sensor"):
        assert trace.column(column).min() > 0.0, column
        assert trace.column(column).max() < 75.0, column


def test_the_compressor_starts_no_more_often_than_its_least_run_and_rest_allow() -> None:
    # No hot water, no frost, hardly any throttling: only the flow's temperature switches it.
    model = synthetic_home(ROOMS, has_cylinder=0, least_run=480, least_rest=360, curve_most=35)
    least = model.performance.most * 0.9
    drivers = synthetic_drivers(ROOMS, 14)
    drivers.slots["humidity"] = 0.0
    model = replace(model, performance=model.performance._replace(least=least))
    run = run_year(model, drivers, trace_days=(0, 14))
    trace = run.trace
    assert trace is not None
    assert run.total("starts") > 20
    assert run.days["starts"].max() <= 86_400 / (480 + 360) + 1
    running = trace.column("electricity") > 0.0
    ran, rested = _shortest(running, 60.0)
    assert ran >= 480.0
    assert rested >= 360.0


def test_a_defrost_takes_from_the_water_what_melts_its_frost() -> None:
    drivers = synthetic_drivers(ROOMS, 10, colder=14.0)
    assert drivers.slots["outdoor"].max() < 0.0  # or frost would melt by itself
    run = run_year(synthetic_home(ROOMS, lowest_outdoor=-30), drivers)
    # Dong and others 2012: 399.0 kJ from the water for each kilogram. Derived.
    assert run.total("heat_defrost") / 399.0e3 == pytest.approx(run.total("meltwater"), rel=1e-3)
    assert run.total("electricity_defrost") == pytest.approx(
        run.total("heat_defrost") * (1 - 0.718) / 0.718, rel=1e-6
    )


def test_quiet_hours_hold_the_output_down() -> None:
    model, drivers = synthetic_home(ROOMS, quiet_share=0.6), synthetic_drivers(ROOMS, 5, colder=6.0)
    drivers.slots["quiet"] = 1.0
    quiet = run_year(model, drivers, trace_days=(0, 5)).trace
    assert quiet is not None
    assert quiet.column("heat").max() <= 0.6 * model.performance.most.max() + 1.0


def test_the_backup_heater_stays_off_above_its_lock() -> None:
    weak = synthetic_home(ROOMS, backup_locked_above=-3, backup_after=600)
    performance = weak.performance._replace(most=weak.performance.most * 0.4)
    drivers = synthetic_drivers(ROOMS, 10, colder=8.0)
    run = run_year(replace(weak, performance=performance), drivers, trace_days=(0, 10))
    trace = run.trace
    assert trace is not None
    assert run.total("heat_backup") > 0.0
    assert trace.column("outdoor")[trace.column("backup") > 0.0].max() <= -3.0
    assert trace.column("backup").max() == 3000.0


def test_a_cylinder_too_small_leaves_taps_short() -> None:
    drivers = synthetic_drivers(ROOMS, 7)
    large = run_year(synthetic_home(ROOMS), drivers)
    small = run_year(synthetic_home(ROOMS, layer_mass=4, layer_capacity=4 * 4186.0), drivers)
    assert large.total("short_water") == 0.0
    assert small.total("short_water") > 0.0
    assert small.total("heat_drawn") < large.total("heat_drawn")
    assert small.balance.worst < 1e-12


def test_a_hygiene_run_reaches_its_temperature_once_a_week() -> None:
    model, drivers = synthetic_home(ROOMS), synthetic_drivers(ROOMS, 14)
    run = run_year(model, drivers, trace_days=(0, 14))
    trace = run.trace
    assert trace is not None
    top = trace.column("cylinder_top").reshape(14, -1).max(axis=1)
    assert np.flatnonzero(top >= 60.0).tolist() == [0, 7]
    assert run.days["heat_immersion"].nonzero()[0].tolist() == [0, 7]


def test_water_of_a_home_let_go_cold_does_not_freeze() -> None:
    model = synthetic_home(ROOMS, heating_limit=-50, lowest_outdoor=-30, backup_power=0)
    drivers = synthetic_drivers(ROOMS, 30, colder=20.0)
    drivers.slots["hot_water_allowed"] = 0.0
    run = run_year(model, drivers, trace_days=(0, 30))
    trace = run.trace
    assert trace is not None
    assert run.total("heat_rooms") > 0.0
    for column in ("flow", "back"):
        assert trace.column(column).min() > 0.5, column


EITHER_SIGN = {
    "outdoor", "heat_lost", "heat_drawn", "heat_pipes", "heat_pipes_outdoors", "heat_emitted",
    "heat_standing", "heat_standing_inside", "heat_coil", "flow_temperature", "cost",
    "target_temperature",
}  # fmt: skip


# --- homes at the edge ----------------------------------------------------------------------------

EDGES: dict[str, dict[str, Any]] = {
    "tiny": {"rooms": 1},
    "huge": {"rooms": 40},
    "no cylinder": {"has_cylinder": 0},
    "cylinder in the cold": {"cylinder_room": -1},
    "buffer": {"has_bypass": 1, "flow_capacity": 2e6},
    "hardly any water": {"unit_capacity": 4e3, "flow_capacity": 4e3, "return_capacity": 4e3},
    "no thermostat": {"thermostat_room": -1},
    "a coat of frost at once": {"frost_to_defrost": 0.05},
    "a defrost given up": {"defrost_longest": 60, "defrost_power": 500},
    "no drip": {"drip_time": 0},
    "room influence": {"room_influence": 10},
    "no hygiene hold": {"hygiene_hold": 0},
    "no rest": {"least_run": 0, "least_rest": 0},
    "a great loss at each start": {"start_loss": 5e6},
}


@pytest.mark.parametrize("name", list(EDGES))
def test_any_home_comes_out_as_numbers_and_balances(name: str) -> None:
    fields = dict(EDGES[name])
    rooms = int(fields.pop("rooms", ROOMS))
    run = run_year(synthetic_home(rooms, **fields), synthetic_drivers(rooms, 14, colder=4.0))
    _check(run)


@pytest.mark.parametrize(("outdoor", "humidity"), [(-30.0, 0.0002), (-60.0, 0.0), (40.0, 0.03)])
def test_any_weather_comes_out_as_numbers_and_balances(outdoor: float, humidity: float) -> None:
    drivers = synthetic_drivers(ROOMS, 10)
    drivers.slots["outdoor"], drivers.slots["humidity"] = outdoor, humidity
    drivers.slots["outdoor_mean"] = outdoor
    _check(run_year(synthetic_home(ROOMS), drivers))


def test_a_home_of_heated_floors_alone_runs() -> None:
    model = synthetic_home(ROOMS)
    emitters = model.emitters._replace(
        into_floor=np.ones(ROOMS), linear=np.full(ROOMS, 90.0), quarter=np.zeros(ROOMS),
        half=np.zeros(ROOMS), conductance=np.full(ROOMS, 90.0), capacity=np.full(ROOMS, 3e4),
    )  # fmt: skip
    run = run_year(replace(model, emitters=emitters), synthetic_drivers(ROOMS, 14, colder=4.0))
    _check(run)
    assert run.total("heat_emitted") > 0.0


def test_a_tiny_flow_stops_the_unit_and_says_for_how_long() -> None:
    model = synthetic_home(ROOMS, least_flow=0.2)  # of 0.1 kg/s with all valves open
    run = run_year(model, synthetic_drivers(ROOMS, 7, colder=4.0))
    _check(run)
    assert run.total("heat_rooms") == 0.0
    assert run.total("low_flow_seconds") > 5 * 86_400.0


def _check(run: Run) -> None:
    assert all(np.isfinite(value) for value in _sums(run).values())
    assert np.all(np.isfinite(run.end.rooms))
    assert np.all(np.isfinite(run.end.layers))
    assert run.balance.worst < 1e-9
    assert float(run.end.plant["frost"][0]) >= 0.0
    for name in TOTALS.names or ():
        if name not in EITHER_SIGN:
            assert run.days[name].min() >= -1e-6, name
