"""Degree days: limits, directions and inverses beside the published values."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.errors import OutOfRange
from hearthbook.physics import degree_days


@given(st.floats(-10.0, 14.0))
def test_the_mean_of_a_month_comes_back_from_its_degree_days(mean: float) -> None:
    counted = degree_days.monthly_degree_days(mean, 15.5, 31.0)
    assert degree_days.monthly_mean_from_degree_days(counted, 15.5, 31.0) == pytest.approx(
        mean, abs=1e-6
    )


@given(st.floats(-30.0, 0.0))
def test_a_deeply_cold_month_counts_every_kelvin(mean: float) -> None:
    assert degree_days.monthly_degree_days(mean, 15.5, 30.0) == pytest.approx(
        30 * (15.5 - mean), rel=1e-4
    )


@given(st.floats(-15.0, 30.0), st.floats(0.0, 15.0))
def test_a_day_with_a_swing_never_counts_less_than_nothing(low: float, swing: float) -> None:
    assert float(degree_days.daily_degree_days(low, low + swing)) >= -1e-9


@given(st.floats(-15.0, 20.0), st.floats(0.0, 15.0), st.floats(0.1, 5.0))
def test_a_colder_day_never_counts_less(low: float, swing: float, colder: float) -> None:
    mild = float(degree_days.daily_degree_days(low, low + swing))
    cold = float(degree_days.daily_degree_days(low - colder, low + swing - colder))
    assert cold >= mild - 1e-9


def test_without_a_swing_both_methods_agree() -> None:
    days = np.array([3.0, 9.0, 20.0])
    by_swing = degree_days.daily_degree_days(days, days)
    assert np.sum(by_swing) == pytest.approx(degree_days.degree_days_from_means(days))


@given(st.floats(50.0, 500.0))
def test_a_base_turned_there_and_back_is_the_same(counted: float) -> None:
    there = degree_days.degree_days_to_other_base(counted, 15.5, 18.0)
    assert degree_days.degree_days_to_other_base(there, 18.0, 15.5) == pytest.approx(counted)


def test_gains_lower_the_base_and_none_leave_it_at_the_room() -> None:
    assert degree_days.base_temperature(20.0, 0.0, 200.0) == 20.0
    assert float(degree_days.base_temperature(20.0, 400.0, 200.0)) == 18.0


def test_a_home_of_known_loss_gives_its_own_coefficient_back() -> None:
    fuel = 210.0 * 2300.0 * degree_days.SECONDS_PER_DAY / (0.85 * 0.75)
    assert degree_days.coefficient_from_fuel(fuel, 0.85, 0.75, 2300.0) == pytest.approx(210.0)


def test_a_month_without_degree_days_tells_no_mean() -> None:
    with pytest.raises(OutOfRange, match="degree days for each day is 0 K"):
        degree_days.monthly_mean_from_degree_days(0.0)


def test_a_home_that_loses_nothing_has_no_base_temperature() -> None:
    with pytest.raises(OutOfRange, match="heat loss for each kelvin is 0 W/K"):
        degree_days.base_temperature(20.0, 300.0, 0.0)


def test_a_year_without_degree_days_tells_nothing() -> None:
    with pytest.raises(OutOfRange, match="degree days is 0 K·d"):
        degree_days.coefficient_from_fuel(1e10, 0.8, 0.8, 0.0)
