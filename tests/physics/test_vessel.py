"""The expansion vessel: its relations invert, point the right way and meet their limits."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from hearthbook.errors import OutOfRange
from hearthbook.physics import vessel

BAR = 1e5
nominals = st.floats(0.008, 0.08)
precharges = st.floats(0.5, 1.5).map(lambda bar: bar * BAR)
rises = st.floats(0.1, 1.0).map(lambda bar: bar * BAR)
grown = st.floats(1e-5, 2e-3)


@given(nominals, precharges, rises, grown)
def test_pressures_cold_and_hot_invert(
    nominal: float, precharge: float, rise: float, expansion: float
) -> None:
    cold = precharge + rise
    hot = vessel.hot_pressure(nominal, precharge, cold, expansion)
    assume(math.isfinite(hot) and hot < 20 * BAR)
    assert vessel.cold_pressure_from_hot(nominal, precharge, hot, expansion) == pytest.approx(cold)
    back = vessel.expansion_from_pressures(nominal, precharge, cold, hot)
    assert back == pytest.approx(expansion, rel=1e-6)
    found = vessel.precharge_from_pressures(nominal, cold, hot, expansion)
    assert found == pytest.approx(precharge, rel=1e-6)


@given(nominals, precharges, rises, grown, st.floats(1.05, 2.0))
def test_more_growth_means_more_pressure_and_a_larger_vessel_less(
    nominal: float, precharge: float, rise: float, expansion: float, factor: float
) -> None:
    cold = precharge + rise
    hot = vessel.hot_pressure(nominal, precharge, cold, expansion)
    assume(math.isfinite(hot))
    assert vessel.hot_pressure(nominal, precharge, cold, expansion * factor) > hot
    assert vessel.hot_pressure(nominal * factor, precharge, cold, expansion) < hot


@given(nominals, precharges, rises, grown)
def test_a_flat_vessel_swings_further(
    nominal: float, precharge: float, rise: float, expansion: float
) -> None:
    cold = precharge + rise
    healthy = vessel.hot_pressure(nominal, precharge, cold, expansion)
    assert vessel.hot_pressure(nominal, 0.0, cold, expansion) >= healthy


@given(precharges, rises, st.floats(0.05, 0.5), st.floats(1.01, 3.0))
def test_more_water_asks_for_a_larger_vessel(
    precharge: float, rise: float, volume: float, factor: float
) -> None:
    def needed(water: float) -> float:
        expansion = vessel.expansion_volume(water, 0.0168)
        reserve = vessel.water_reserve(water)
        return float(vessel.nominal_vessel(expansion, reserve, precharge, precharge + 2 * rise))

    assert needed(volume * factor) > needed(volume)


def test_a_vessel_of_the_needed_size_just_reaches_the_pressure_allowed() -> None:
    # By the standard's own meaning: with the reserve in it when cold, growth ends at pe.
    expansion, reserve, precharge, final = 3.87e-3, 3e-3, 1.0 * BAR, 2.5 * BAR
    nominal = float(vessel.nominal_vessel(expansion, reserve, precharge, final))
    cold = (precharge + BAR) * nominal / (nominal - reserve) - BAR
    assert vessel.hot_pressure(nominal, precharge, cold, expansion) == pytest.approx(final)


def test_growth_without_room_has_no_finite_pressure() -> None:
    assert vessel.hot_pressure(0.008, 0.0, 1.5 * BAR, 0.0040) == math.inf


def test_no_growth_leaves_the_cold_pressure() -> None:
    assert vessel.hot_pressure(0.018, BAR, 1.3 * BAR, 0.0) == pytest.approx(1.3 * BAR)


def test_below_its_precharge_a_vessel_has_no_water_left_to_give() -> None:
    assert vessel.water_between(0.018, BAR, 0.9 * BAR, 0.5 * BAR) == 0.0
    assert vessel.gas_volume(0.018, BAR, 0.5 * BAR) == 0.018


def test_a_small_drop_by_the_slope_is_the_drop_by_boyle() -> None:
    slope = vessel.water_per_pressure(0.018, BAR, 1.3 * BAR, 10.0)
    exact = vessel.water_between(0.018, BAR, 1.3 * BAR, 1.3 * BAR - 10.0)
    assert slope == pytest.approx(exact, rel=1e-3)


def test_a_column_of_water_of_ten_metres_weighs_about_a_bar() -> None:
    # 10.2 m of water is 1 bar: any handbook.
    assert vessel.static_pressure(10.2) == pytest.approx(BAR, rel=0.001)


@pytest.mark.parametrize("final", [1.0 * BAR, 0.5 * BAR])
def test_a_precharge_that_leaves_no_room_is_refused(final: float) -> None:
    with pytest.raises(OutOfRange, match="highest pressure less precharge is"):
        vessel.nominal_vessel(2e-3, 3e-3, BAR, final)
    with pytest.raises(OutOfRange, match="highest pressure less precharge is"):
        vessel.classic_vessel(0.1, 0.04, BAR, final)


def test_arrays_give_what_single_numbers_give() -> None:
    precharge = np.array([0.0, 0.5, 1.0]) * BAR
    together = vessel.hot_pressure(0.018, precharge, 1.3 * BAR, 1.9e-3)
    single = [float(vessel.hot_pressure(0.018, float(p), 1.3 * BAR, 1.9e-3)) for p in precharge]
    np.testing.assert_allclose(np.asarray(together), single)
