"""A room's air and masses through their steps, against the exponentials they stand for."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.physics.room_nodes import air_after, air_leakage, mass_after, stored_heat


def test_one_node_covers_the_published_share_of_a_step_in_ten_hours() -> None:
    hours, capacity = 50.0, 18e6
    conductance = capacity / (hours * 3600.0)
    temperature = 0.0
    for _ in range(600):
        inflow = conductance * (1.0 - temperature)
        temperature = float(mass_after(temperature, capacity, inflow, 60.0))
    # 1 - exp(-10/50) = 18.127 %; a minute against fifty hours errs by 3e-5 of it. Derived.
    assert temperature == pytest.approx(1.0 - math.exp(-0.2), abs=1e-5 * 4)


def test_air_between_two_steps_is_the_exponential_as_steps_grow_short() -> None:
    errors = []
    for steps in (60, 120):
        air = 0.0
        for _ in range(steps):
            air = float(air_after(air, 60e3, 50.0, 50.0, 1200.0 / steps))
        errors.append(abs(air - (1.0 - math.exp(-1.0))))
    assert errors[0] < 0.004
    assert errors[0] / errors[1] == pytest.approx(2.0, abs=0.05)  # a backward difference


def test_light_air_never_oscillates() -> None:
    warmth = [float(air_after(20.0, capacity, 200.0, 0.0, 60.0)) for capacity in (1.0, 1e3, 1e5)]
    assert warmth == sorted(warmth)
    assert warmth[0] > 0.0


@given(st.floats(-30.0, 40.0), st.floats(0.0, 500.0), st.floats(1e3, 1e6))
def test_air_in_balance_stays(temperature: float, conductance: float, capacity: float) -> None:
    inflow = conductance * temperature
    after = float(air_after(temperature, capacity, conductance, inflow, 60.0))
    assert after == pytest.approx(temperature, abs=1e-9)


def test_masses_hold_what_is_put_in() -> None:
    after = float(mass_after(20.0, 3e6, 1500.0, 60.0))
    put_in = float(stored_heat(3e6, after)) - float(stored_heat(3e6, 20.0))
    assert put_in == pytest.approx(1500.0 * 60.0)


def test_leaks_blow_with_either_drive_and_rest_without() -> None:
    assert float(air_leakage(20.0, 20.0, 0.0, 0.02, 0.04)) == 0.0
    assert float(air_leakage(20.0, 0.0, 0.0, 0.02, 0.04)) == pytest.approx(math.sqrt(0.4))
    assert float(air_leakage(20.0, 20.0, 5.0, 0.02, 0.04)) == pytest.approx(1.0)
    both = np.asarray(air_leakage(20.0, np.array([10.0, 0.0, -10.0]), 3.0, 0.02, 0.04))
    assert np.all(np.diff(both) > 0.0)
    assert float(air_leakage(10.0, 20.0, 0.0, 0.02, 0.04)) > 0.0  # a cool room in summer
