"""A season of bins."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.errors import OutOfRange
from hearthbook.physics import seasonal
from hearthbook.physics.climate import ReferenceClimate, reference_bins

bins = st.lists(
    st.tuples(
        st.floats(1.0, 500.0), st.floats(10.0, 9000.0), st.floats(0.0, 9000.0), st.floats(1.0, 7.0)
    ),
    min_size=1,
    max_size=12,
)


def _season(rows: list[tuple[float, float, float, float]]) -> seasonal.SeasonalResult:
    hours, load, most, cop = (np.array(column) for column in zip(*rows, strict=True))
    return seasonal.seasonal_efficiency(hours, load, most, cop)


@given(bins)
def test_the_season_lies_between_its_worst_and_its_best_bin(
    rows: list[tuple[float, float, float, float]],
) -> None:
    result = _season([(hours, load, load, cop) for hours, load, _, cop in rows])
    cops = [row[3] for row in rows]
    assert min(cops) - 1e-9 <= np.sum(result.efficiency) <= max(cops) + 1e-9


@given(bins)
def test_backup_never_helps(rows: list[tuple[float, float, float, float]]) -> None:
    result = _season(rows)
    assert np.sum(result.efficiency) <= np.sum(result.efficiency_without_backup) + 1e-9
    assert result.backup >= 0.0
    assert result.heat == pytest.approx(result.efficiency * result.electricity)


@pytest.mark.parametrize("climate", ["average", "colder", "warmer"])
def test_a_constant_efficiency_is_the_seasons(climate: ReferenceClimate) -> None:
    season = reference_bins(climate)
    load = np.maximum(16.0 - season.temperatures, 0.0) * 300.0
    result = seasonal.seasonal_efficiency(season.hours, load, load, np.full(load.size, 3.0))
    assert result.efficiency == pytest.approx(3.0, abs=1e-6)
    assert result.backup == 0.0


def test_a_higher_curve_never_makes_a_better_season() -> None:
    outdoor = np.arange(-10.0, 16.0)
    low, medium = (
        np.asarray(seasonal.flow_temperature_of_application(outdoor, application))
        for application in (35, 55)
    )
    assert np.all(medium > low)


def test_standby_lowers_the_season() -> None:
    assert seasonal.seasonal_efficiency_with_standby(4.0, 1e10, 1e8) < 4.0


def test_without_any_output_the_backup_does_it_all() -> None:
    result = _season([(10.0, 5000.0, 0.0, 3.0)])
    assert result.efficiency == 1.0
    assert result.backup == result.heat


def test_a_season_without_heat_is_refused() -> None:
    with pytest.raises(OutOfRange, match="heat of the season is 0 J"):
        _season([(10.0, 0.0, 5000.0, 3.0)])


def test_an_efficiency_of_nothing_is_refused() -> None:
    with pytest.raises(OutOfRange, match="efficiency in a bin is 0"):
        _season([(10.0, 100.0, 5000.0, 0.0)])
