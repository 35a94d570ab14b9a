"""A colder night against a steady one."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hearthbook.errors import OutOfRange
from hearthbook.physics.setback import SetbackNight, setback_night


def _night(
    coefficient: float, stored: float, outdoor: float, setback: float, boost: float
) -> SetbackNight:
    """A home of 45 °C design flow at -3 °C; heat stored in kWh/K, coefficient in kW/K."""
    return setback_night(
        coefficient=coefficient * 1e3,
        capacity=stored * 3.6e6,
        outdoor_temperature=outdoor,
        base_temperature=20.0,
        room_temperature=20.0,
        design_excess=22.5,
        design_output=coefficient * 23e3,
        flow_above_mean=2.5,
        relative_efficiency=0.5,
        setback=setback,
        boost=boost,
    )


@settings(max_examples=20, deadline=None)
@given(st.floats(0.08, 0.4), st.floats(3.0, 15.0), st.floats(-5.0, 12.0), st.floats(0.5, 5.0))
def test_heat_always_falls_and_rooms_stay_above_the_setback(
    coefficient: float, stored: float, outdoor: float, setback: float
) -> None:
    night = _night(coefficient, stored, outdoor, setback, 5.0)
    assert night.heat <= night.steady_heat + 1.0
    assert 20.0 - setback - 0.3 <= np.sum(night.lowest_temperature) <= 20.0


def test_heat_given_is_heat_lost_over_a_repeating_day() -> None:
    night = _night(0.2, 7.0, 5.0, 0.0, 0.0)
    assert night.steady_heat == pytest.approx(200.0 * 15.0 * 86_400.0, rel=1e-6)


def test_no_setback_changes_nothing() -> None:
    night = _night(0.2, 7.0, 5.0, 0.0, 6.0)
    assert night.electricity == pytest.approx(night.steady_electricity)
    assert night.hours_to_recover == 0.0


def test_a_harder_boost_warms_sooner_and_costs_more() -> None:
    gentle, hard = (_night(0.2, 7.0, 5.0, 3.0, boost) for boost in (3.0, 10.0))
    assert hard.hours_to_recover < gentle.hours_to_recover
    assert hard.electricity > gentle.electricity


def test_the_hours_make_the_day() -> None:
    night = _night(0.2, 7.0, 5.0, 3.0, 6.0)
    assert night.electricity_by_hour.shape == (24,)
    assert night.electricity_by_hour.sum() == pytest.approx(night.electricity)
    assert night.steady_by_hour.sum() == pytest.approx(night.steady_electricity)


def test_nothing_runs_in_the_first_hour_of_the_setback() -> None:
    night = _night(0.2, 7.0, 5.0, 3.0, 6.0)
    assert night.electricity_by_hour[22] == 0.0


def test_a_day_that_needs_no_heat_is_refused() -> None:
    with pytest.raises(OutOfRange, match="base temperature above outdoor temperature is -5 K"):
        _night(0.2, 7.0, 25.0, 3.0, 6.0)


def test_a_setback_of_ten_kelvin_is_refused() -> None:
    with pytest.raises(OutOfRange, match="setback is 10 K"):
        _night(0.2, 7.0, 5.0, 10.0, 6.0)
