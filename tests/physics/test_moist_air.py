"""Moist air against tables and an open library."""

from typing import Any

import numpy as np
import psychrolib  # type: ignore[import-untyped]  # ships no types
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.errors import OutOfRange
from hearthbook.physics import moist_air

temperatures = st.floats(-25.0, 40.0)
humidities = st.floats(0.05, 1.0)


@pytest.fixture(autouse=True, scope="module")
def _si_units() -> None:
    psychrolib.SetUnitSystem(psychrolib.SI)


def _library(name: str, *inputs: float) -> float:
    function: Any = getattr(psychrolib, name)
    return float(function(*inputs))


@given(temperatures)
def test_saturation_pressure_agrees_with_the_library(temperature: float) -> None:
    ours = moist_air.saturation_pressure(temperature)
    assert ours == pytest.approx(_library("GetSatVapPres", temperature), rel=1e-6)


@given(temperatures, humidities)
def test_humidity_ratio_agrees_with_the_library(temperature: float, humidity: float) -> None:
    theirs = _library("GetHumRatioFromRelHum", temperature, humidity, 101_325.0)
    ours = moist_air.humidity_ratio(temperature, humidity)
    assert ours == pytest.approx(max(theirs, 1e-7), rel=1e-4, abs=1e-7)


@given(temperatures, humidities)
def test_dew_point_agrees_with_the_library(temperature: float, humidity: float) -> None:
    theirs = _library("GetTDewPointFromRelHum", temperature, humidity)
    assert moist_air.dew_point(temperature, humidity) == pytest.approx(theirs, abs=0.02)


@given(temperatures, st.floats(0.3, 1.0))
def test_wet_bulb_agrees_with_the_library(temperature: float, humidity: float) -> None:
    theirs = _library("GetTWetBulbFromRelHum", temperature, humidity, 101_325.0)
    assert moist_air.wet_bulb(temperature, humidity) == pytest.approx(theirs, abs=0.02)


@given(temperatures, humidities)
def test_enthalpy_agrees_with_the_library(temperature: float, humidity: float) -> None:
    ratio = float(np.sum(moist_air.humidity_ratio(temperature, humidity)))
    theirs = _library("GetMoistAirEnthalpy", temperature, max(ratio, 1e-7))
    assert moist_air.enthalpy(temperature, ratio) == pytest.approx(theirs, rel=1e-4, abs=2.0)


@given(temperatures, humidities)
def test_relative_humidity_undoes_humidity_ratio(temperature: float, humidity: float) -> None:
    ratio = moist_air.humidity_ratio(temperature, humidity)
    assert moist_air.relative_humidity(temperature, ratio) == pytest.approx(humidity)


@given(st.floats(-20.0, 40.0), st.floats(0.3, 0.99))
def test_the_wet_bulb_gives_the_humidity_back(temperature: float, humidity: float) -> None:
    wet = moist_air.wet_bulb(temperature, humidity)
    back = moist_air.relative_humidity_from_wet_bulb(temperature, wet)
    assert back == pytest.approx(humidity, abs=0.006)  # the equations for ice and water differ


@given(temperatures)
def test_saturated_air_is_at_its_dew_point(temperature: float) -> None:
    assert moist_air.dew_point(temperature, 1.0) == pytest.approx(temperature, abs=0.01)


def test_saturation_pressure_at_the_triple_point() -> None:
    # IAPWS release on the triple point of water: 611.657 Pa at 0.01 °C
    assert moist_air.saturation_pressure(0.01) == pytest.approx(611.657, rel=3e-4)


def test_warmer_air_holds_more_water() -> None:
    ratios = moist_air.saturation_humidity_ratio(np.arange(-30.0, 60.0))
    assert np.all(np.diff(ratios) > 0.0)


def test_saturated_enthalpy_agrees_with_the_handbook() -> None:
    # ASHRAE Fundamentals 2017 ch. 1 table 2, as quoted in an open library's tests; 1 %, 3 % at -5
    for temperature, printed, share in ((-5.0, 1164.0, 0.03), (25.0, 76_504.0, 0.01)):
        ratio = moist_air.saturation_humidity_ratio(temperature)
        assert moist_air.enthalpy(temperature, ratio) == pytest.approx(printed, rel=share)


def test_air_above_saturation_is_refused() -> None:
    with pytest.raises(OutOfRange, match=r"relative humidity is 1\.2"):
        moist_air.humidity_ratio(10.0, 1.2)


def test_a_wet_thermometer_warmer_than_the_dry_one_is_refused() -> None:
    with pytest.raises(OutOfRange, match="dry thermometer above the wet one is -1 K"):
        moist_air.relative_humidity_from_wet_bulb(5.0, 6.0)


def test_a_mountain_in_space_is_refused() -> None:
    with pytest.raises(OutOfRange, match="altitude is 20000 m"):
        moist_air.standard_pressure(20_000.0)


def test_air_hotter_than_the_equations_is_refused() -> None:
    with pytest.raises(OutOfRange, match="air temperature is 300 °C"):
        moist_air.saturation_pressure(300.0)


def test_dry_air_has_no_dew_point() -> None:
    with pytest.raises(OutOfRange, match="relative humidity is 0"):
        moist_air.dew_point(10.0, 0.0)
