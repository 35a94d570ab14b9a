"""Cooling and warming of a home."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.physics import thermal_mass

HOUR = 3600.0


def test_a_tenth_of_a_time_constant_in_ten_steps_is_one_step_of_ten() -> None:
    at_once = thermal_mass.temperature_after(10 * HOUR, 20.0, 5.0, 35 * HOUR)
    room = 20.0
    for _ in range(10):
        room = float(np.sum(thermal_mass.temperature_after(HOUR, room, 5.0, 35 * HOUR)))
    assert room == pytest.approx(at_once)


@given(st.floats(0.0, 100.0), st.floats(10.0, 100.0))
def test_an_unheated_home_stays_between_start_and_outdoors(hours: float, constant: float) -> None:
    room = thermal_mass.temperature_after(hours * HOUR, 20.0, 5.0, constant * HOUR)
    assert 5.0 <= np.sum(room) <= 20.0


def test_no_time_no_cooling_and_long_time_outdoors() -> None:
    assert thermal_mass.temperature_after(0.0, 20.0, 5.0, HOUR) == 20.0
    assert thermal_mass.temperature_after(1000 * HOUR, 20.0, 5.0, HOUR) == pytest.approx(5.0)


def test_a_heavier_home_cools_more_slowly() -> None:
    light = thermal_mass.time_constant(thermal_mass.heat_capacity(100.0, "light"), 200.0)
    medium = thermal_mass.time_constant(thermal_mass.heat_capacity(100.0, "medium"), 200.0)
    heavy = thermal_mass.time_constant(thermal_mass.heat_capacity(100.0, "heavy"), 200.0)
    assert light < medium < heavy


def test_twice_the_spare_heat_warms_in_half_the_time() -> None:
    slow, fast = (thermal_mass.recovery_time(25e6, 2.0, spare) for spare in (1000.0, 2000.0))
    assert slow == 2.0 * fast
