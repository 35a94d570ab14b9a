"""Hot water by the minute: published days, and the household's own."""

from __future__ import annotations

from datetime import UTC, datetime

import numpy as np
import pytest
from numpy.typing import NDArray

from hearthbook.errors import OutOfRange
from hearthbook.physics.hot_water import Profile, draw_energy
from hearthbook.physics.tapping_profiles import TIMED_DRAWS
from hearthbook.simulate.calendar_time import CivilTime, civil_time
from hearthbook.simulate.hot_water_draws import DailyHabits, household_draws, profile_draws

YEAR = civil_time(datetime(2025, 1, 1, tzinfo=UTC), 365 * 96, 0.0, "england")
PER_DAY = np.linspace(4.0, 6.0, 12) * 3.6e6
MAIN = 10.0 - 3.0 * np.cos(2 * np.pi * YEAR.day_of_year / 365)
DAYS = np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])


def _heat(draws: NDArray[np.float64], main: NDArray[np.float64]) -> NDArray[np.float64]:
    mass = draws.reshape(-1, 15).sum(axis=1)
    return np.asarray(mass * draw_energy(1e-3, 40.0, main))


# Source: Commission Regulation (EU) No 814/2013, Annex III, table 1: Qref and number of draws
@pytest.mark.parametrize(
    ("profile", "energy", "draws"),
    [("S", 2.1, 11), ("M", 5.845, 23), ("L", 11.655, 24), ("XL", 19.07, 30), ("XXL", 24.53, 30)],
)
def test_each_day_of_a_profile_holds_the_published_heat(
    profile: Profile, energy: float, draws: int
) -> None:
    water = profile_draws(profile, YEAR)
    heat = _heat(water, np.full(YEAR.slots, 10.0)) / 3.6e6
    assert np.bincount(YEAR.day, heat) == pytest.approx(np.full(365, energy), abs=1e-9)
    assert len(TIMED_DRAWS[profile]) == draws


def test_a_bath_of_a_profile_is_run_at_its_published_time_and_flow() -> None:
    # Source: EU 814/2013, profile L: 3.605 kWh at 10 L/min from 08:05; 103.5 L from energy / 30 K
    water = profile_draws("L", YEAR)
    bath = water[485:496]
    assert bath[:10] == pytest.approx(np.full(10, 10.0))
    assert bath.sum() == pytest.approx(103.3, rel=0.005)


def test_draws_follow_the_households_clock_into_summer() -> None:
    water = profile_draws("M", YEAR)
    day = water[180 * 1440 : 181 * 1440]
    assert day[6 * 60] > 0.0, "07:00 by the clock is 06:00 UTC"
    assert day[7 * 60 + 40] == 0.0


def test_a_profile_with_warmer_mains_needs_more_water_for_its_heat() -> None:
    assert profile_draws("M", YEAR, 20.0).sum() > profile_draws("M", YEAR).sum()
    with pytest.raises(OutOfRange, match="cold water coming in is 40 °C"):
        profile_draws("M", YEAR, 40.0)


@pytest.mark.parametrize(
    "habits",
    [
        DailyHabits(),
        DailyHabits(showers=3, baths=1),
        DailyHabits(showers=0, baths=0),
        DailyHabits(showers=0, baths=2, is_out_by_day=True),
    ],
)
def test_each_month_holds_exactly_the_heat_asked(habits: DailyHabits) -> None:
    water = household_draws(habits, PER_DAY, MAIN, YEAR, seed=7)
    by_month = np.bincount(YEAR.month, _heat(water, MAIN))
    assert by_month == pytest.approx(PER_DAY * DAYS, rel=1e-12)
    assert water.min() >= 0.0
    assert water.size == 525_600


def test_the_same_seed_gives_the_same_water_and_another_one_other_water() -> None:
    first = household_draws(DailyHabits(), PER_DAY, MAIN, YEAR, seed=1)
    assert np.array_equal(first, household_draws(DailyHabits(), PER_DAY, MAIN, YEAR, seed=1))
    assert not np.array_equal(first, household_draws(DailyHabits(), PER_DAY, MAIN, YEAR, seed=2))


def test_no_two_days_are_alike() -> None:
    water = household_draws(DailyHabits(), PER_DAY, MAIN, YEAR, seed=1)
    days = water[: 60 * 1440].reshape(60, 1440)
    assert len({day.tobytes() for day in days}) == 60


def test_nobody_draws_on_a_working_day_while_all_are_out() -> None:
    habits = DailyHabits(is_out_by_day=True)
    water = household_draws(habits, PER_DAY, MAIN, YEAR, seed=1)[: 28 * 1440]
    days = water.reshape(28, 1440)
    works = YEAR.weekday[YEAR.first_slots()][:28] < 5
    midday = days[:, 9 * 60 + 15 : 16 * 60]
    assert midday[works].sum() == 0.0
    assert midday[~works].sum() > 0.0


def test_a_large_demand_of_little_heat_leaves_some_days_without_a_bath() -> None:
    little = np.full(12, 3.0 * 3.6e6)
    habits = DailyHabits(showers=0, baths=1)
    water = household_draws(habits, little, MAIN, YEAR, seed=1)[: 59 * 1440].reshape(59, 1440)
    mornings = water[:, 6 * 60 : 9 * 60].max(axis=1)
    assert 10 < int((mornings > 6.0).sum()) < 55


def test_no_hot_water_is_no_water() -> None:
    assert household_draws(DailyHabits(), np.zeros(12), MAIN, YEAR, seed=1).sum() == 0.0


def test_a_part_of_a_day_holds_its_share_of_the_months_heat() -> None:
    clock: CivilTime = civil_time(datetime(2025, 1, 1, tzinfo=UTC), 10 * 96, 1.0, "germany")
    main = np.full(clock.slots, 10.0)
    water = household_draws(DailyHabits(), PER_DAY, main, clock, seed=1)
    assert _heat(water, main).sum() == pytest.approx(10 * PER_DAY[0])


def test_what_is_not_a_number_is_refused() -> None:
    with pytest.raises(OutOfRange, match="heat of hot water drawn in a day is nan"):
        household_draws(DailyHabits(), np.full(12, np.nan), MAIN, YEAR, seed=1)
    with pytest.raises(OutOfRange, match="cold water coming in is nan"):
        household_draws(DailyHabits(), PER_DAY, np.full(YEAR.slots, np.nan), YEAR, seed=1)
