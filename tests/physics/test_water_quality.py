"""The hardness the filling water may have."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from hearthbook.physics import water_quality


@given(st.floats(2_000.0, 40_000.0), st.floats(0.02, 2.0), st.floats(1.0, 5.0))
def test_more_water_per_kilowatt_asks_for_softer_water(
    power: float, volume: float, factor: float
) -> None:
    limit = water_quality.hardness_limit(power, volume, 0.0)
    assert water_quality.hardness_limit(power, volume * factor, 0.0) <= limit


@given(st.floats(2_000.0, 40_000.0), st.floats(0.02, 2.0))
def test_a_unit_with_more_water_is_never_asked_for_softer_water(
    power: float, volume: float
) -> None:
    small = water_quality.hardness_limit(power, volume, 0.0)
    assert water_quality.hardness_limit(power, volume, power * 1e-6) >= small
