"""Water to defrost and to run: inverses, directions, limits."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.physics import water_volume

powers = st.floats(500.0, 12_000.0)
times = st.floats(60.0, 1200.0)
kelvins = st.floats(1.0, 15.0)


@given(powers, times, kelvins)
def test_the_defrost_volume_cools_by_just_what_is_allowed(
    power: float, time: float, fall: float
) -> None:
    volume = water_volume.defrost_volume(power, time, fall)
    assert water_volume.temperature_fall(power * time, volume) == pytest.approx(fall)


@given(powers, st.floats(0.0, 0.95), times, kelvins)
def test_run_and_volume_invert(power: float, share: float, time: float, rise: float) -> None:
    volume = water_volume.minimum_run_volume(power, share * power, time, rise)
    run = water_volume.run_time(volume, power, share * power, rise)
    assert run == pytest.approx(time)


@given(powers, times, kelvins)
def test_a_home_that_takes_all_the_unit_gives_needs_no_water(
    power: float, time: float, rise: float
) -> None:
    assert water_volume.minimum_run_volume(power, power, time, rise) == 0.0


def test_more_frost_takes_more_heat() -> None:
    one, two = (water_volume.defrost_heat_from_water(kg) for kg in (1.0, 2.0))
    assert two == pytest.approx(2 * one)


def test_matched_flows_lose_no_temperature() -> None:
    assert water_volume.separator_flow_temperature(2e-4, 2e-4, 45.0, 38.0) == pytest.approx(45.0)


@given(st.floats(1.01, 3.0))
def test_more_secondary_flow_makes_the_rooms_water_cooler(factor: float) -> None:
    mixed = water_volume.separator_flow_temperature(2e-4, 2e-4 * factor, 45.0, 38.0)
    assert 38.0 < mixed < 45.0
