"""Heat loss of rooms: limits, directions and the whole building of an exercise."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.errors import OutOfRange
from hearthbook.physics import heat_loss

TEMPERATURES = st.floats(-20.0, 15.0)


def test_the_whole_building_of_the_exercise_loses_11_129_watts() -> None:
    # inputs from a public problem page; the sum is independent arithmetic
    inside, outside = 18.0, 2.0
    fabric = sum(
        float(heat_loss.heat_flow(heat_loss.transmission_coefficient(area, u), inside, outside))
        for area, u in ((96.0, 0.3), (181.84, 0.4), (2.16, 2.8), (120.0, 0.5))
    )
    air = heat_loss.ventilation_coefficient(528.0, 3.0, 1200.0)
    ventilation = float(heat_loss.heat_flow(air, inside, outside))
    assert fabric == pytest.approx(2681.3, abs=1.0)
    assert ventilation == pytest.approx(8448.0, abs=1.0)
    assert fabric + ventilation == pytest.approx(11_129.0, abs=1.0)


@given(TEMPERATURES, st.floats(16.0, 25.0))
def test_all_of_the_difference_acts_to_outside_and_none_between_equals(
    outside: float, inside: float
) -> None:
    assert heat_loss.temperature_factor(inside, outside, outside) == pytest.approx(1.0)
    assert heat_loss.temperature_factor(inside, inside, outside) == 0.0


def test_a_warmer_room_beyond_gives_heat() -> None:
    assert float(heat_loss.temperature_factor(18.0, 21.0, -3.0)) < 0.0


def test_a_room_no_warmer_than_outside_is_refused() -> None:
    with pytest.raises(OutOfRange, match="room above outside is 0 K"):
        heat_loss.temperature_factor(5.0, 5.0, 5.0)


@given(st.floats(0.0, 2.0), st.floats(0.0, 2.0), st.floats(0.0, 1.0))
def test_heat_recovery_never_makes_air_dearer_nor_free_beyond_what_it_carries(
    rate: float, supplied: float, recovery: float
) -> None:
    left = float(heat_loss.air_changes_after_recovery(rate, supplied, recovery))
    assert max(0.0, rate - supplied) - 1e-12 <= left <= rate


def test_a_recovery_above_one_is_refused() -> None:
    with pytest.raises(OutOfRange, match=r"heat recovery is 1\.1"):
        heat_loss.air_changes_after_recovery(0.5, 0.5, 1.1)


def test_a_fan_is_the_least_that_a_room_with_extract_takes() -> None:
    assert heat_loss.air_changes_with_extract(0.0, 0.5) == 0.5
    assert heat_loss.air_changes_with_extract(0.25, 0.5) == pytest.approx(0.5)
    assert heat_loss.air_changes_with_extract(0.8, 0.0) == pytest.approx(0.8)


def test_a_windward_room_leaks_twice_as_much_as_the_dwelling() -> None:
    whole = float(heat_loss.infiltration(6.0, 0.06))
    assert heat_loss.room_infiltration(6.0, 0.06) == pytest.approx(2 * whole)


def test_a_home_at_the_height_of_its_station_needs_no_correction() -> None:
    assert heat_loss.outdoor_temperature_at_altitude(-3.0, 80.0, 80.0) == -3.0
    assert heat_loss.outdoor_temperature_at_altitude(-3.0, 0.0, 100.0) == pytest.approx(-2.4)
