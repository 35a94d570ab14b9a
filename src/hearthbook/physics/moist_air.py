"""Moist air: how much water it holds, when it drops it, how warm a wet thermometer is."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from hearthbook.errors import check_between
from hearthbook.units import (
    Celsius,
    JoulesPerKilogram,
    KilogramsPerKilogram,
    Metres,
    Pascals,
    Ratio,
)

__all__ = [
    "SEA_LEVEL_PRESSURE",
    "dew_point",
    "enthalpy",
    "humidity_ratio",
    "relative_humidity",
    "relative_humidity_from_wet_bulb",
    "saturation_humidity_ratio",
    "saturation_pressure",
    "standard_pressure",
    "wet_bulb",
]

SEA_LEVEL_PRESSURE = 101_325.0  # Pa; standard atmosphere

_MASS_RATIO = 0.621945  # kg/kg; water vapour to dry air, ASHRAE Fundamentals 2017 ch. 1
_KELVIN = 273.15  # °C to K
_TRIPLE_POINT = 0.01  # °C; ice below, water above
_HALVINGS = 50  # bisections; 150 K over 2^50 is far below any rounding


def saturation_pressure(temperature: Celsius) -> Pascals:
    """Pressure of water vapour over ice below the triple point, over water above it.

    Args:
        temperature: -100 to 200 °C.

    Raises:
        OutOfRange: the temperature is outside that range.

    Source:
        ASHRAE Fundamentals 2017, ch. 1, equations 5 and 6 (Hyland and Wexler 1983).

    Example:
        >>> round(saturation_pressure(5.0), 1), round(saturation_pressure(-20.0), 2)
        (872.5, 103.26)
    """
    check_between("air temperature", temperature, -100.0, 200.0, "°C")
    kelvin = np.asarray(temperature, dtype=float) + _KELVIN
    over_ice = kelvin <= _KELVIN + _TRIPLE_POINT
    pressure = np.exp(np.where(over_ice, _log_over_ice(kelvin), _log_over_water(kelvin)))
    return _plain(pressure)


def saturation_humidity_ratio(
    temperature: Celsius, pressure: Pascals = SEA_LEVEL_PRESSURE
) -> KilogramsPerKilogram:
    """Water that a kilogram of dry air holds at most.

    Args:
        temperature: of the air; below its boiling point at the pressure.
        pressure: of the air.

    Source:
        ASHRAE Fundamentals 2017, ch. 1, equation 23; no enhancement factor, 0.5 % low.

    Example:
        >>> round(saturation_humidity_ratio(5.0), 5)
        0.0054
    """
    return humidity_ratio(temperature, 1.0, pressure)


def humidity_ratio(
    temperature: Celsius, relative_humidity: Ratio, pressure: Pascals = SEA_LEVEL_PRESSURE
) -> KilogramsPerKilogram:
    """Water in a kilogram of dry air.

    Args:
        temperature: of the air.
        relative_humidity: 0 to 1, over ice below the triple point.
        pressure: of the air.

    Raises:
        OutOfRange: the humidity is not between 0 and 1.

    Source:
        ASHRAE Fundamentals 2017, ch. 1, equation 20.

    Example:
        >>> round(humidity_ratio(20.0, 0.5), 5)
        0.00726
    """
    check_between("relative humidity", relative_humidity, 0.0, 1.0, "")
    vapour = relative_humidity * saturation_pressure(temperature)
    ratio: KilogramsPerKilogram = _MASS_RATIO * vapour / (pressure - vapour)
    return ratio


def relative_humidity(
    temperature: Celsius,
    humidity_ratio: KilogramsPerKilogram,
    pressure: Pascals = SEA_LEVEL_PRESSURE,
) -> Ratio:
    """Share of the vapour that the air could hold at its temperature.

    Args:
        temperature: of the air.
        humidity_ratio: water in a kilogram of dry air.
        pressure: of the air.

    Returns:
        Above 1 where the air holds fog.

    Source:
        ASHRAE Fundamentals 2017, ch. 1, equations 20 and 22.

    Example:
        >>> round(relative_humidity(20.0, 0.00726), 2)
        0.5
    """
    vapour = pressure * humidity_ratio / (_MASS_RATIO + humidity_ratio)
    return vapour / saturation_pressure(temperature)


def enthalpy(temperature: Celsius, humidity_ratio: KilogramsPerKilogram) -> JoulesPerKilogram:
    """Heat in a kilogram of dry air and the vapour it holds, counted from dry air at 0 °C.

    Args:
        temperature: of the air.
        humidity_ratio: water vapour in a kilogram of dry air.

    Source:
        ASHRAE Fundamentals 2017, ch. 1, equation 30.

    Example:
        >>> round(enthalpy(25.0, 0.0))
        25150
    """
    return 1006.0 * temperature + humidity_ratio * (2.501e6 + 1860.0 * temperature)


def dew_point(temperature: Celsius, relative_humidity: Ratio) -> Celsius:
    """Temperature at which the air begins to drop water, or frost below 0 °C.

    Args:
        temperature: of the air, -60 to 60 °C.
        relative_humidity: above 0, to 1.

    Raises:
        OutOfRange: the humidity is not above 0 and at most 1.

    Source:
        ASHRAE Fundamentals 2017, ch. 1: saturation pressure equal to the vapour's own, solved by
        halving.

    Example:
        >>> round(dew_point(20.0, 0.5), 1)
        9.3
    """
    check_between("relative humidity", relative_humidity, 1e-3, 1.0, "")
    vapour = np.asarray(relative_humidity * saturation_pressure(temperature), dtype=float)
    low, high = np.full(vapour.shape, -100.0), np.full(vapour.shape, 100.0)
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        is_below = np.asarray(saturation_pressure(middle)) < vapour
        low, high = np.where(is_below, middle, low), np.where(is_below, high, middle)
    return _plain((low + high) / 2)


def wet_bulb(
    temperature: Celsius, relative_humidity: Ratio, pressure: Pascals = SEA_LEVEL_PRESSURE
) -> Celsius:
    """Temperature of a thermometer kept wet in the moving air.

    Args:
        temperature: of the air, -40 to 60 °C.
        relative_humidity: 0 to 1.
        pressure: of the air.

    Raises:
        OutOfRange: the humidity is not between 0 and 1.

    Source:
        ASHRAE Fundamentals 2017, ch. 1, equations 33 and 35, solved by halving.

    Example:
        >>> round(wet_bulb(7.0, 0.868), 1)
        6.0
    """
    held = np.asarray(humidity_ratio(temperature, relative_humidity, pressure), dtype=float)
    air = np.broadcast_to(np.asarray(temperature, dtype=float), held.shape)
    low, high = air - 60.0, air.copy()
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        is_below = np.asarray(_ratio_at_wet_bulb(air, middle, pressure)) < held
        low, high = np.where(is_below, middle, low), np.where(is_below, high, middle)
    return _plain((low + high) / 2)


def relative_humidity_from_wet_bulb(
    temperature: Celsius, wet_bulb: Celsius, pressure: Pascals = SEA_LEVEL_PRESSURE
) -> Ratio:
    """Relative humidity of air whose dry and wet thermometer are known, as test points state it.

    Args:
        temperature: dry thermometer.
        wet_bulb: wet thermometer; not above the dry one.
        pressure: of the air.

    Raises:
        OutOfRange: the wet thermometer is warmer than the dry one.

    Source:
        ASHRAE Fundamentals 2017, ch. 1, equations 33 and 35.

    Example:
        >>> round(relative_humidity_from_wet_bulb(2.0, 1.0), 3)
        0.838
    """
    depression = np.asarray(temperature, dtype=float) - np.asarray(wet_bulb, dtype=float)
    check_between("dry thermometer above the wet one", depression, 0.0, 60.0, "K")
    ratio = _ratio_at_wet_bulb(temperature, wet_bulb, pressure)
    return relative_humidity(temperature, ratio, pressure)


def standard_pressure(altitude: Metres) -> Pascals:
    """Air pressure at a height in the standard atmosphere.

    Args:
        altitude: above the sea, -1,000 to 11,000 m.

    Raises:
        OutOfRange: the altitude is outside that range.

    Source:
        ASHRAE Fundamentals 2017, ch. 1, equation 3.

    Example:
        >>> round(standard_pressure(500.0))
        95461
    """
    check_between("altitude", altitude, -1000.0, 11_000.0, "m")
    pressure: Pascals = SEA_LEVEL_PRESSURE * (1.0 - 2.25577e-5 * altitude) ** 5.2559
    return pressure


def _log_over_ice(kelvin: NDArray[np.float64]) -> NDArray[np.float64]:
    """ASHRAE equation 5."""
    return (
        -5.6745359e3 / kelvin
        + 6.3925247
        - 9.677843e-3 * kelvin
        + 6.2215701e-7 * kelvin**2
        + 2.0747825e-9 * kelvin**3
        - 9.484024e-13 * kelvin**4
        + 4.1635019 * np.log(kelvin)
    )


def _log_over_water(kelvin: NDArray[np.float64]) -> NDArray[np.float64]:
    """ASHRAE equation 6."""
    return (
        -5.8002206e3 / kelvin
        + 1.3914993
        - 4.8640239e-2 * kelvin
        + 4.1764768e-5 * kelvin**2
        - 1.4452093e-8 * kelvin**3
        + 6.5459673 * np.log(kelvin)
    )


def _ratio_at_wet_bulb(
    temperature: Celsius, wet_bulb: Celsius, pressure: Pascals
) -> KilogramsPerKilogram:
    """Water in the air from its two thermometers: ASHRAE equations 33 (water) and 35 (ice)."""
    wet = np.asarray(wet_bulb, dtype=float)
    saturated = np.asarray(saturation_humidity_ratio(wet, pressure), dtype=float)
    sensible = 1.006 * (temperature - wet)
    over_water = ((2501.0 - 2.326 * wet) * saturated - sensible) / (
        2501.0 + 1.86 * temperature - 4.186 * wet
    )
    over_ice = ((2830.0 - 0.24 * wet) * saturated - sensible) / (
        2830.0 + 1.86 * temperature - 2.1 * wet
    )
    return _plain(np.where(wet >= 0.0, over_water, over_ice))


def _plain(value: NDArray[np.float64]) -> float | NDArray[np.float64]:
    """A plain number where a single one was asked for."""
    return value if np.ndim(value) else float(value)
