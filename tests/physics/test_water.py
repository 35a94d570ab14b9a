"""Water and its mixtures, against IAPWS-97 and CoolProp, which we did not write."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st
from iapws import IAPWS97  # type: ignore[import-untyped]  # ships no types

from hearthbook.errors import OutOfRange
from hearthbook.physics import water

TEMPERATURES = (1.0, 4.0, 10.0, 20.0, 35.0, 45.0, 55.0, 65.0, 75.0, 90.0)
SHARES = (0.1, 0.2, 0.25, 0.3, 0.4, 0.5)


def _iapws(temperature: float) -> IAPWS97:
    return IAPWS97(T=temperature + 273.15, P=0.1)


def _mixture(what: str, temperature: float, share: float) -> float:
    return float(PropsSI(what, "T", temperature + 273.15, "P", 3e5, f"INCOMP::MPG[{share}]"))


@pytest.mark.parametrize("temperature", TEMPERATURES)
def test_density_agrees_with_iapws_to_a_fiftieth_of_a_kilogram(temperature: float) -> None:
    assert water.density(temperature) == pytest.approx(_iapws(temperature).rho, abs=0.02)


@pytest.mark.parametrize("temperature", TEMPERATURES)
def test_specific_heat_agrees_with_iapws_to_a_quarter_of_a_per_cent(temperature: float) -> None:
    assert water.specific_heat(temperature) == pytest.approx(
        _iapws(temperature).cp * 1000, rel=0.0025
    )


@pytest.mark.parametrize("temperature", TEMPERATURES)
def test_viscosity_agrees_with_iapws_to_half_a_per_cent(temperature: float) -> None:
    assert water.viscosity(temperature) == pytest.approx(_iapws(temperature).mu, rel=0.005)


@pytest.mark.parametrize("share", SHARES)
@pytest.mark.parametrize("temperature", [0.0, 20.0, 40.0, 60.0, 80.0])
def test_the_mixture_agrees_with_coolprop(temperature: float, share: float) -> None:
    density = water.glycol_density(temperature, share)
    assert density == pytest.approx(_mixture("D", temperature, share), rel=0.0015)
    heat = water.glycol_specific_heat(temperature, share)
    assert heat == pytest.approx(_mixture("C", temperature, share), rel=0.01)
    viscosity = water.glycol_viscosity(temperature, share)
    assert viscosity == pytest.approx(_mixture("V", temperature, share), rel=0.05)


@pytest.mark.parametrize("share", [0.1, 0.2, 0.3, 0.4, 0.5])
def test_the_handbook_freezes_within_a_kelvin_and_a_half_of_coolprop(share: float) -> None:
    # Lange gives parts by volume, CoolProp by mass; makers' mixtures spread as much.
    mass = float(water.glycol_mass_share(share))
    expected = PropsSI("T_freeze", "T", 293.15, "P", 1e5, f"INCOMP::MPG[{mass}]") - 273.15
    assert water.glycol_freezing_point(share) == pytest.approx(expected, abs=1.5)


@pytest.mark.parametrize("temperature", [5.0, 30.0, 70.0])
def test_a_mixture_without_glycol_is_water(temperature: float) -> None:
    assert water.glycol_density(temperature, 0.0) == water.density(temperature)
    assert water.glycol_specific_heat(temperature, 0.0) == water.specific_heat(temperature)
    assert water.glycol_viscosity(temperature, 0.0) == water.viscosity(temperature)


def test_water_is_densest_at_four_degrees() -> None:
    temperatures = np.arange(0.0, 12.0, 0.1)
    densest = temperatures[np.argmax(water.density(temperatures))]
    assert densest == pytest.approx(4.0, abs=0.15)


def test_water_does_not_grow_between_equal_temperatures() -> None:
    assert water.expansion_fraction(35.0, 35.0) == 0.0


@given(st.floats(5.0, 95.0), st.floats(0.1, 4.9))
def test_growth_rises_with_temperature(temperature: float, more: float) -> None:
    cooler = water.expansion_fraction(5.0, temperature)
    assert water.expansion_fraction(5.0, temperature + more) > cooler


@given(st.floats(20.0, 60.0), st.floats(0.1, 0.5))
def test_glycol_makes_water_grow_more_and_flow_harder(temperature: float, share: float) -> None:
    plain = water.expansion_fraction(10.0, temperature)
    assert water.glycol_expansion_fraction(10.0, temperature, share) > plain
    assert water.glycol_viscosity(temperature, share) > water.viscosity(temperature)
    assert water.glycol_specific_heat(temperature, share) < water.specific_heat(temperature)


def test_arrays_give_what_single_numbers_give() -> None:
    temperatures = np.array([10.0, 45.0, 80.0])
    for function in (water.density, water.specific_heat, water.viscosity):
        single = [float(function(float(t))) for t in temperatures]
        np.testing.assert_allclose(np.asarray(function(temperatures)), single)


@pytest.mark.parametrize("function", [water.density, water.specific_heat, water.viscosity])
def test_steam_is_refused(function: Callable[[float], object]) -> None:
    with pytest.raises(OutOfRange, match="water temperature is 101 °C; it must lie between 0"):
        function(101.0)


def test_a_mixture_stronger_than_half_is_refused() -> None:
    with pytest.raises(
        OutOfRange, match=r"share of glycol is 0\.6; it must lie between 0 and 0\.5"
    ):
        water.glycol_density(20.0, 0.6)
