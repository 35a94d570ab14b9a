"""The loop over a block of homes against the loop over one: the same year in any place."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from hearthbook.errors import OutOfRange
from hearthbook.kernel.block import MOST_MASS_STEPS, mass_steps
from hearthbook.simulate.batch import Variant, run_batch
from hearthbook.simulate.drivers import Drivers
from hearthbook.simulate.home_model import HomeModel
from hearthbook.simulate.run import Run, run_year
from tests.kernel.synthetic_home import synthetic_drivers, synthetic_home
from tests.year.demo_years import DEMOS, ready, year_of

DAYS = 30
ELECTRICITY = ("electricity_rooms", "electricity_cylinder", "electricity_defrost")
HEAT = ("heat_rooms", "heat_cylinder")


@pytest.fixture(scope="module")
def drivers() -> Drivers:
    return synthetic_drivers(4, DAYS)


def varied(number: int, rooms: int = 4) -> HomeModel:
    """Homes of one shape, no two alike."""
    home = synthetic_home(rooms)
    share = 0.8 + 0.4 * (number * 0.37 % 1.0)
    plant = home.plant.copy()
    plant["draw_factor"], plant["flow_shift"] = share, 4.0 * (share - 1.0)
    return replace(
        home,
        plant=plant,
        rooms=home.rooms._replace(
            infiltration=home.rooms.infiltration * share,
            solar_factor=home.rooms.solar_factor / share,
            gain_factor=home.rooms.gain_factor * share,
            wanted_shift=home.rooms.wanted_shift + (share - 1.0),
        ),
    )


def same(run: Run, other: Run) -> bool:
    return bool(
        np.array_equal(run.days, other.days)
        and np.array_equal(run.bins, other.bins)
        and np.array_equal(run.rooms, other.rooms)
        and np.array_equal(run.end.rooms, other.end.rooms)
    )


def test_a_block_gives_each_home_the_energy_of_the_loop_over_one(drivers: Drivers) -> None:
    """A year must agree within 0.2 %; a cold month is held to the same."""
    homes = [varied(number) for number in range(3)]
    for home, run in zip(homes, run_batch([Variant(home, drivers) for home in homes]), strict=True):
        alone = run_year(home, drivers)
        for quantities in (ELECTRICITY, HEAT, ("heat_lost",), ("heat_drawn",), ("frost",)):
            assert run.total(*quantities) == pytest.approx(alone.total(*quantities), rel=2e-3)
        assert run.end.rooms == pytest.approx(alone.end.rooms, abs=0.1)


@pytest.mark.parametrize("name", DEMOS)
def test_the_demo_homes_have_the_year_they_have_alone(name: str) -> None:
    """A year's energy must agree within 0.2 %."""
    home, alone = ready(name), year_of(name)
    (run,) = run_batch([Variant(home.model, home.drivers)])
    for quantities in (ELECTRICITY, HEAT, ("heat_lost",), ("heat_drawn",)):
        assert run.total(*quantities) == pytest.approx(alone.total(*quantities), rel=2e-3)
    mean = run.rooms["temperature"] / run.rooms["seconds"]
    assert mean == pytest.approx(alone.rooms["temperature"] / alone.rooms["seconds"], abs=0.02)


def test_a_skin_that_follows_in_two_minutes_is_moved_each_minute(drivers: Drivers) -> None:
    """Held for longer it would tremble: a time constant of 57 W/K and 7 kJ/K is two minutes."""
    home = varied(0)
    home = replace(home, rooms=home.rooms._replace(outer_capacity=np.full(4, 7e3)))
    assert mass_steps(home.rooms, home.links, 60.0) == 1
    assert mass_steps(varied(0).rooms, varied(0).links, 60.0) == MOST_MASS_STEPS
    alone, (run,) = run_year(home, drivers), run_batch([Variant(home, drivers)])
    assert run.total(*HEAT) == pytest.approx(alone.total(*HEAT), rel=2e-3)
    assert run.rooms["coldest"] == pytest.approx(alone.rooms["coldest"], abs=0.1)


def test_every_home_balances(drivers: Drivers) -> None:
    runs = run_batch([Variant(varied(number), drivers) for number in range(5)])
    assert max(run.balance.worst for run in runs) < 1e-9


def test_a_home_is_the_same_in_every_place_and_beside_any_other(drivers: Drivers) -> None:
    variants = [Variant(varied(number), drivers) for number in range(5)]
    forward = run_batch(variants)
    backward = run_batch(variants[::-1])[::-1]
    alone = run_batch(variants[3:4])
    assert all(same(one, other) for one, other in zip(forward, backward, strict=True))
    assert same(forward[3], alone[0])


def test_homes_of_unlike_shape_and_weather_come_back_in_their_order() -> None:
    colder = synthetic_drivers(4, 12, colder=4.0)
    usual, of_three = synthetic_drivers(4, 12), synthetic_drivers(3, 12)
    variants = [
        Variant(varied(0), usual),
        Variant(varied(1, rooms=3), of_three),
        Variant(varied(0), colder),
        Variant(varied(0), usual),
    ]
    first, small, cold, again = run_batch(variants, threads=2)
    assert same(first, again)
    assert small.rooms.size == 3
    assert cold.total("heat_lost") > first.total("heat_lost")
    assert cold.total(*HEAT) == pytest.approx(run_year(varied(0), colder).total(*HEAT), rel=2e-3)


def test_progress_counts_up_to_all(drivers: Drivers) -> None:
    told: list[tuple[int, int]] = []
    few = synthetic_drivers(4, 3)
    run_batch(
        [Variant(varied(number), few) for number in range(20)],
        progress=lambda done, of: told.append((done, of)),
    )
    assert told[-1] == (20, 20)
    assert [done for done, _ in told] == sorted(done for done, _ in told)


def test_drivers_with_a_hole_are_refused(drivers: Drivers) -> None:
    slots = drivers.slots.copy()
    slots["outdoor"][40] = np.nan
    with pytest.raises(OutOfRange, match="outdoor temperature 10 h 00 min into the run is missing"):
        run_batch([Variant(varied(0), replace(drivers, slots=slots))])
