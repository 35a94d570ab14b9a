"""Frost on the outdoor coil through one time step, as the compiled year counts it.

Written so that the same text runs on floats, on arrays and compiled.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from hearthbook.units import (
    Celsius,
    Kelvin,
    KilogramsPerJoule,
    KilogramsPerKilogram,
    Ratio,
    Watts,
)

__all__ = ["coil_surface", "saturated_humidity", "water_from_air"]

_AIR_HEAT = 1006.0  # J/(kg·K); dry air, ASHRAE Fundamentals 2017 ch. 1
_SUBLIMATION_HEAT = 2.834e6  # J/kg; vapour to ice at 0 °C
_CONDENSATION_HEAT = 2.501e6  # J/kg; vapour to water at 0 °C


def coil_surface(
    air_temperature: Celsius,
    air_heat: Watts,
    reference_heat: Watts,
    below_air: Kelvin,
    frost_share: Ratio,
    frost_lift: Kelvin,
) -> Celsius:
    """Temperature of the outdoor coil's surface while the unit runs.

    Args:
        air_temperature: of the air drawn in.
        air_heat: taken from the air.
        reference_heat: taken from the air at the unit's most, above 0.
        below_air: coil below air at that heat, clear of frost.
        frost_share: frost on it over what calls for a defrost, at least 0.
        frost_lift: by how much the coil falls further when that much has grown.

    Assumes:
        The difference grows with the heat taken, and in a straight line with the frost.

    Source:
        Own derivation; the differences are common practice, no source.

    Example:
        >>> coil_surface(2.0, 4000.0, 4000.0, 8.0, 0.5, 4.0)
        -8.0
    """
    return air_temperature - below_air * air_heat / reference_heat - frost_lift * frost_share


def saturated_humidity(temperature: Celsius) -> KilogramsPerKilogram:
    """Water that a kilogram of dry air holds at most at sea level, without exponentials.

    Args:
        temperature: -35 to 35 °C; over ice below 0 °C, over water above.

    Assumes:
        A cubic to the eighth power, within 0.03 % of the full formula over that range.

    Source:
        Fitted to ASHRAE Fundamentals 2017, ch. 1, equations 5, 6 and 23
        (`moist_air.saturation_humidity_ratio`).

    Example:
        >>> round(float(saturated_humidity(-6.0)), 5), round(float(saturated_humidity(5.0)), 5)
        (0.00227, 0.0054)
    """
    ice = 0.49784753 + temperature * (
        5.1519008e-3 + temperature * (8.3768230e-6 - 2.7741588e-8 * temperature)
    )
    water = 0.49784078 + temperature * (
        4.5587564e-3 + temperature * (1.8284131e-6 + 3.8297350e-8 * temperature)
    )
    root: Any = water + (temperature < 0.0) * (
        ice - water
    )  # a choice that arrays and loops can make
    squared = root * root
    fourth = squared * squared
    held: KilogramsPerKilogram = fourth * fourth
    return held


def water_from_air(
    air_temperature: Celsius, humidity: KilogramsPerKilogram, coil_temperature: Celsius
) -> KilogramsPerJoule:
    """Water or frost the coil takes out of the air for each joule of heat it takes.

    Args:
        air_temperature: of the air drawn in, above the coil.
        humidity: kilograms of vapour in a kilogram of its dry air.
        coil_temperature: of the coil's surface.

    Returns:
        Frost where the coil is below 0 °C, dew above; nothing where the air stays unsaturated.

    Assumes:
        The air leaves saturated at the coil's temperature, at sea-level pressure.

    Source:
        Own derivation from the heat and water balance of the air, as `frost.water_per_heat`.

    Example:
        >>> round(float(water_from_air(2.0, 0.00365, -6.0)) * 3.6e6, 2)
        0.4
    """
    water = np.maximum(humidity - saturated_humidity(coil_temperature), 0.0)
    latent = _CONDENSATION_HEAT + (coil_temperature < 0.0) * (
        _SUBLIMATION_HEAT - _CONDENSATION_HEAT
    )
    cooled = np.maximum(air_temperature - coil_temperature, 0.1)
    rate: KilogramsPerJoule = water / (_AIR_HEAT * cooled + water * latent)
    return rate
