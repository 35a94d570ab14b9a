"""Frost as the compiled year counts it, against an independent psychrometrics library."""

from __future__ import annotations

import numpy as np
import psychrolib  # type: ignore[import-untyped]
import pytest

from hearthbook.physics.frost import water_per_heat
from hearthbook.physics.frost_growth import coil_surface, saturated_humidity, water_from_air
from hearthbook.physics.moist_air import saturation_humidity_ratio

psychrolib.SetUnitSystem(psychrolib.SI)

_PRESSURE = 101_325.0  # Pa


@pytest.mark.parametrize(
    "temperature", [-35.0, -20.0, -10.0, -3.0, -0.1, 0.1, 5.0, 12.0, 20.0, 35.0]
)
def test_saturated_air_holds_what_the_library_says(temperature: float) -> None:
    library = psychrolib.GetSatHumRatio(temperature, _PRESSURE)
    assert float(saturated_humidity(temperature)) == pytest.approx(library, rel=0.0006)


def test_saturated_air_follows_the_full_formula_as_closely_as_claimed() -> None:
    temperature = np.linspace(-35.0, 35.0, 1401)
    full = np.asarray(saturation_humidity_ratio(temperature))
    assert np.max(np.abs(np.asarray(saturated_humidity(temperature)) / full - 1.0)) < 0.0004


@pytest.mark.parametrize(
    ("air", "humid", "coil"),
    [
        (2.0, 0.838, -6.0),
        (0.0, 1.0, -6.0),
        (-7.0, 0.746, -13.0),
        (7.0, 0.868, 0.5),
        (-15.0, 0.9, -20.0),
    ],
)
def test_frost_is_what_a_balance_of_the_library_gives(
    air: float, humid: float, coil: float
) -> None:
    entering = psychrolib.GetHumRatioFromRelHum(air, humid, _PRESSURE)
    leaving = psychrolib.GetSatHumRatio(coil, _PRESSURE)
    enthalpies = (
        psychrolib.GetMoistAirEnthalpy(air, entering),
        psychrolib.GetMoistAirEnthalpy(coil, leaving),
    )
    water = entering - leaving
    fusion = 333e3 if coil < 0.0 else 0.0  # J/kg that freezing sets free, 2.834 - 2.501 MJ/kg
    heat = enthalpies[0] - enthalpies[1] + water * fusion
    # The loop leaves out how warm the vapour is, some per mille of the balance.
    assert float(water_from_air(air, entering, coil)) == pytest.approx(water / heat, rel=0.02)


@pytest.mark.parametrize("air", [-15.0, -7.0, -3.0, 0.0, 2.0, 5.0, 7.0, 12.0])
@pytest.mark.parametrize("humid", [0.7, 0.85, 1.0])
@pytest.mark.parametrize("below", [5.0, 8.0, 12.0])
def test_the_loops_form_agrees_with_the_full_one(air: float, humid: float, below: float) -> None:
    entering = psychrolib.GetHumRatioFromRelHum(air, humid, _PRESSURE)
    full = float(np.sum(water_per_heat(air, humid, air - below)))
    assert float(water_from_air(air, entering, air - below)) == pytest.approx(
        full, rel=0.02, abs=1e-10
    )


def test_damper_air_and_colder_coils_give_more() -> None:
    damp = np.asarray(water_from_air(2.0, np.array([0.003, 0.0035, 0.004, 0.0044]), -6.0))
    assert np.all(np.diff(damp) > 0.0)
    assert float(water_from_air(-15.0, 0.0009, -20.0)) < float(water_from_air(2.0, 0.0040, -3.0))


def test_dry_air_gives_nothing() -> None:
    assert float(water_from_air(2.0, 0.0015, -6.0)) == 0.0
    assert float(water_from_air(2.0, 0.0, -30.0)) == 0.0


def test_a_resting_coil_is_as_warm_as_the_air_and_frost_lowers_it() -> None:
    assert float(coil_surface(2.0, 0.0, 4000.0, 8.0, 0.0, 3.0)) == 2.0
    assert float(coil_surface(2.0, 4000.0, 4000.0, 8.0, 0.0, 3.0)) == -6.0
    assert float(coil_surface(2.0, 4000.0, 4000.0, 8.0, 1.0, 3.0)) == -9.0
