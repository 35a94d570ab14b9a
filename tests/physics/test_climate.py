"""Hours by outdoor temperature."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.errors import OutOfRange
from hearthbook.physics.climate import (
    BinHours,
    bin_hours,
    degree_days,
    monthly_bin_hours,
    reference_bins,
)

MILD_PLACE = [4.0, 4.2, 5.9, 8.1, 11.2, 13.9, 15.8, 15.6, 13.3, 10.0, 6.7, 4.4]


def _degree_days(bins: BinHours, base: float) -> float:
    return float(np.sum(degree_days(bins.temperatures, bins.hours, base)))


means = st.lists(st.floats(-20, 25), min_size=12, max_size=12)
spreads = st.floats(1.0, 8.0)


@given(means, spreads)
def test_every_hour_of_the_year_is_counted_once(monthly: list[float], spread: float) -> None:
    year = bin_hours(np.array(monthly), spread)
    assert float(year.hours.sum()) == pytest.approx(8760.0)
    assert np.all(year.hours >= 0.0)
    assert np.all(np.diff(year.temperatures) == 1.0)


@given(means, spreads)
def test_the_bins_have_the_mean_of_the_months(monthly: list[float], spread: float) -> None:
    months = monthly_bin_hours(np.array(monthly), spread)
    mean = (months.hours * months.temperatures).sum(axis=1) / months.hours.sum(axis=1)
    np.testing.assert_allclose(mean, monthly, atol=0.02)


@given(means, spreads, st.floats(0.5, 5.0))
def test_a_colder_place_has_more_degree_days(
    monthly: list[float], spread: float, colder: float
) -> None:
    here, there = (bin_hours(np.array(monthly) - shift, spread) for shift in (0.0, colder))
    assert _degree_days(there, 16.0) > _degree_days(here, 16.0)


def test_a_narrow_spread_keeps_a_month_near_its_mean() -> None:
    months = monthly_bin_hours(np.full(12, 5.0), 1.0)
    near = np.abs(months.temperatures - 5.0) <= 3.0
    assert months.hours[0, near].sum() > 0.999 * 744


def test_bins_unpack_into_temperatures_and_hours() -> None:
    temperatures, hours = bin_hours(np.array(MILD_PLACE))
    assert temperatures.shape == hours.shape


def test_no_degree_days_where_it_is_never_colder_than_the_base() -> None:
    assert degree_days(np.array([16.0, 20.0]), np.array([10.0, 10.0]), 16.0) == 0.0


@pytest.mark.parametrize(
    ("mean", "expected"), [(5.0, 315.2), (10.0, 168.4), (15.0, 50.2), (15.5, 42.25)]
)
def test_degree_days_agree_with_hitchins_formula(mean: float, expected: float) -> None:
    # Hitchin 1983, N (b - tm) / (1 - exp(-k (b - tm))), k 0.71 per K, base 15.5 °C, 30 days
    # (April); from memory. Another distribution stands behind it: 1.5 % of it or 0.5 K·d.
    temperatures, hours = monthly_bin_hours(np.full(12, mean), 3.5)
    assert degree_days(temperatures, hours[3], 15.5) == pytest.approx(expected, rel=0.015, abs=0.5)


def test_reference_seasons_lie_in_the_order_of_their_names() -> None:
    warmer, average, colder = (
        _degree_days(season, 16.0)
        for season in (
            reference_bins("warmer"),
            reference_bins("average"),
            reference_bins("colder"),
        )
    )
    assert warmer < average < colder


def test_eleven_months_are_refused() -> None:
    with pytest.raises(OutOfRange, match="number of monthly means is 11"):
        bin_hours(np.array(MILD_PLACE[:11]))


def test_a_spread_of_nothing_is_refused() -> None:
    with pytest.raises(OutOfRange, match="spread of outdoor temperatures about their mean is 0 K"):
        bin_hours(np.array(MILD_PLACE), 0.0)
