from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from hearthbook.design.heating_season import HeatingSeason, heating_season
from hearthbook.documents.figures import Basis
from hearthbook.physics import climate, degree_days
from tests.design.small_home import figure, panel, small_home

BASE = figure("base", 15.5, "°C")
MEANS = (4, 4, 6, 8, 11, 14, 16, 16, 13, 10, 7, 4)


def _season(**known: Any) -> HeatingSeason:
    home = small_home([panel("rad", "lounge", 1000)])
    nothing = {
        "monthly_mean_temperatures": None, "annual_mean_temperature": None,
        "degree_days": None, "hourly_spread": None,
    }  # fmt: skip
    place = home.building.climate.model_copy(update={**nothing, **known})
    building = home.building.model_copy(update={"climate": place})
    return heating_season(home.model_copy(update={"building": building}), BASE)


def _degree_days(season: HeatingSeason) -> float:
    return float(np.sum(season.hours * (15.5 - season.temperatures))) / 24


def test_recorded_monthly_means_are_taken_as_they_are() -> None:
    season = _season(monthly_mean_temperatures=MEANS, hourly_spread=3.5)
    assert tuple(mean.value for mean in season.monthly_means) == MEANS
    assert season.monthly_means[0].basis is Basis.DOCUMENTED
    # by hand: twelve months of (15.5 − mean) × days for the months under 15.5 °C give 2,240;
    # the spread adds what the mild months' cold hours need
    assert 2240 < _degree_days(season) < 2450


@pytest.mark.parametrize("recorded", [1900.0, 2600.0])
def test_a_usual_year_is_moved_to_the_recorded_degree_days(recorded: float) -> None:
    season = _season(degree_days=recorded)
    means = [mean.value for mean in season.monthly_means]
    year = climate.bin_hours(np.array(means), season.spread.value)
    counted = climate.degree_days(year.temperatures, year.hours, 15.5)
    assert counted == pytest.approx(recorded, abs=1)
    # Hitchin's formula month by month, an outside check: 2.5 over the spread is its constant
    monthly = [
        degree_days.monthly_degree_days(mean, 15.5, days, 0.71)
        for mean, days in zip(means, climate.DAYS_IN_MONTH, strict=True)
    ]
    assert sum(monthly) == pytest.approx(recorded, rel=0.03)
    # by days' means a little is lost in the mild months, where nights alone are cold
    assert 0.95 * recorded < _degree_days(season) < recorded


def test_a_usual_year_is_moved_to_the_recorded_annual_mean() -> None:
    season = _season(annual_mean_temperature=8.5)
    assert np.mean([mean.value for mean in season.monthly_means]) == pytest.approx(8.5)


def test_where_nothing_is_known_one_assumption_is_recorded() -> None:
    season = _season()
    usual, shift = season.monthly_means[0].working.inputs
    assert usual.basis is Basis.ASSUMED
    assert "not answered" in usual.working.note
    assert shift.value == 0.0


def test_a_colder_place_needs_more_hours_and_more_of_its_heat_in_frost() -> None:
    mild, cold = _season(degree_days=1900.0), _season(degree_days=2900.0)
    assert cold.length.value > mild.length.value
    frost = [
        float(season.load_shares(15.5)[season.temperatures < 0].sum()) for season in (mild, cold)
    ]
    assert frost[1] > frost[0]


def test_days_are_less_spread_than_hours_and_most_alike_in_summer() -> None:
    season = _season(monthly_mean_temperatures=MEANS, hourly_spread=4.0)
    assert season.day_spreads[0] == pytest.approx(0.90 * 4.0)
    assert season.day_spreads[6] == pytest.approx(0.65 * 4.0)
    assert season.day_spreads[2] == pytest.approx(0.775 * 4.0)
    assert all(share.basis is Basis.ASSUMED for share in season.day_shares)


def test_no_day_of_a_warm_month_is_heated_for_its_cool_nights() -> None:
    means = (4, 4, 6, 8, 11, 14, 22, 22, 13, 10, 7, 4)
    season = _season(monthly_mean_temperatures=means, hourly_spread=3.5)
    july = season.monthly_hours[6]
    # by the hours 3 % would lie below 15.5 °C; by the days' means one in 500 does
    assert july.sum() / 744 < 0.003
