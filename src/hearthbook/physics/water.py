"""Heating water: density, heat capacity, viscosity, expansion, and what glycol changes."""

from __future__ import annotations

import numpy as np

from hearthbook.errors import check_between
from hearthbook.units import (
    Celsius,
    JoulesPerKilogramKelvin,
    KilogramsPerCubicMetre,
    PascalSeconds,
    Ratio,
)

__all__ = [
    "TRADE_HEAT_CAPACITY",
    "density",
    "expansion_fraction",
    "glycol_density",
    "glycol_expansion_fraction",
    "glycol_freezing_point",
    "glycol_mass_share",
    "glycol_specific_heat",
    "glycol_viscosity",
    "specific_heat",
    "viscosity",
]

# J/(m³·K); 4.186 kJ/(kg·K) and 1 kg per litre, as the trade reckons (14.33 · kW / K = L/min)
TRADE_HEAT_CAPACITY = 4.186e6

_ZERO_CELSIUS = 273.15  # K, by definition
_WATER_MOLAR_MASS = 18.015  # kg/kmol; IUPAC
_GLYCOL_DENSITY = 1036.0  # kg/m³ at 20 °C, propylene glycol, handbooks of chemistry; from memory
_WATER_DENSITY_20 = 998.2  # kg/m³ at 20 °C, IAPWS
_GLYCOL_SHARES = np.array([0.0, 0.10, 0.20, 0.30, 0.40, 0.50])  # by volume
_GLYCOL_FREEZING = np.array([0.0, -2.2, -6.7, -12.8, -20.6, -33.3])  # °C; Lange, table 5.13


def density(temperature: Celsius) -> KilogramsPerCubicMetre:
    """Density of pure water at atmospheric pressure.

    Args:
        temperature: 0 to 100 °C.

    Raises:
        OutOfRange: the temperature lies outside.

    Assumes:
        One atmosphere; at 3 bar water is 0.01 % denser, which nothing here can feel.

    Source:
        Kell, J. Chem. Eng. Data 20 (1975) 97-105, equation for 0 to 150 °C.

    Example:
        >>> round(density(40.0), 2)
        992.21
    """
    check_between("water temperature", temperature, 0.0, 100.0, "°C")
    t = temperature
    above = 999.83952 + t * (
        16.945176
        + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12)))
    )
    return above / (1 + 16.879850e-3 * t)


def specific_heat(temperature: Celsius) -> JoulesPerKilogramKelvin:
    """Heat one kilogram of pure water takes up per kelvin.

    Args:
        temperature: 0 to 100 °C.

    Raises:
        OutOfRange: the temperature lies outside.

    Source:
        Perry's Chemical Engineers' Handbook, 8th edition, table 2-153, liquid water, with
        coefficients from memory; within 0.25 % of IAPWS-97.

    Example:
        >>> round(specific_heat(40.0))
        4177
    """
    check_between("water temperature", temperature, 0.0, 100.0, "°C")
    t = temperature + _ZERO_CELSIUS
    molar = 276370.0 + t * (-2090.1 + t * (8.125 + t * (-0.014116 + t * 9.3701e-6)))
    return molar / _WATER_MOLAR_MASS


def viscosity(temperature: Celsius) -> PascalSeconds:
    """Dynamic viscosity of pure water at atmospheric pressure.

    Args:
        temperature: 0 to 100 °C.

    Raises:
        OutOfRange: the temperature lies outside.

    Source:
        IAPWS SR6-08(2011), liquid water at 0.1 MPa, equation for the viscosity.

    Example:
        >>> round(float(viscosity(50.0) * 1000), 4)
        0.5465
    """
    check_between("water temperature", temperature, 0.0, 100.0, "°C")
    t = (temperature + _ZERO_CELSIUS) / 300.0
    return 1e-6 * (280.68 * t**-1.9 + 511.45 * t**-7.7 + 61.131 * t**-19.6 + 0.45903 * t**-40.0)


def expansion_fraction(cold_temperature: Celsius, hot_temperature: Celsius) -> Ratio:
    """How much of its cold volume water grows by when it is heated.

    Args:
        cold_temperature: 0 to 100 °C.
        hot_temperature: 0 to 100 °C.

    Returns:
        Positive where the hot water is lighter.

    Assumes:
        The pipes' own growth (about a tenth of the water's) is left out, on the safe side.

    Source:
        Ratio of the densities of `density`.

    Example:
        >>> round(expansion_fraction(10.0, 60.0) * 100, 2)
        1.68
    """
    return density(cold_temperature) / density(hot_temperature) - 1


def glycol_mass_share(volume_share: Ratio) -> Ratio:
    """Propylene glycol by mass, from its share by volume.

    Args:
        volume_share: before mixing, at 20 °C; 0 to 0.5.

    Raises:
        OutOfRange: the share lies outside.

    Source:
        Own derivation from the densities of the two liquids at 20 °C.

    Example:
        >>> round(glycol_mass_share(0.25), 3)
        0.257
    """
    check_between("share of glycol", volume_share, 0.0, 0.5, "")
    glycol = volume_share * _GLYCOL_DENSITY
    return glycol / (glycol + (1 - volume_share) * _WATER_DENSITY_20)


def glycol_freezing_point(volume_share: Ratio) -> Celsius:
    """Temperature at which the first ice appears in a propylene-glycol mixture.

    Args:
        volume_share: 0 to 0.5.

    Raises:
        OutOfRange: the share lies outside.

    Assumes:
        Straight lines between the points of the table. A sold antifreeze has its own table, which
        decides.

    Source:
        Lange's Handbook of Chemistry, table 5.13.

    Example:
        >>> round(float(glycol_freezing_point(0.25)), 2)
        -9.75
    """
    check_between("share of glycol", volume_share, 0.0, 0.5, "")
    freezing: Celsius = np.interp(volume_share, _GLYCOL_SHARES, _GLYCOL_FREEZING)
    return freezing


def glycol_density(temperature: Celsius, mass_share: Ratio) -> KilogramsPerCubicMetre:
    """Density of water with propylene glycol.

    Args:
        temperature: 0 to 90 °C.
        mass_share: 0 to 0.5 by mass; 0 gives pure water.

    Raises:
        OutOfRange: temperature or share lies outside.

    Source:
        Fitted here to CoolProp's incompressible mixture MPG (Melinder, IIR 2010), 10 to 50 % by
        mass, 0 to 90 °C; largest error 0.12 %.

    Example:
        >>> round(glycol_density(40.0, 0.25))
        1010
    """
    _check_mixture(temperature, mass_share)
    x, t = mass_share, temperature
    shift = 0.10183057 + t * (-8.5843253e-4 + t * 5.1507927e-6)
    return density(t) * (1 + x * (shift + x * (4.5826507e-3 - 5.2442827e-4 * t)))


def glycol_specific_heat(temperature: Celsius, mass_share: Ratio) -> JoulesPerKilogramKelvin:
    """Heat one kilogram of water with propylene glycol takes up per kelvin.

    Args:
        temperature: 0 to 90 °C.
        mass_share: 0 to 0.5 by mass; 0 gives pure water.

    Raises:
        OutOfRange: temperature or share lies outside.

    Source:
        Fitted here to CoolProp's incompressible mixture MPG (Melinder, IIR 2010), 10 to 50 % by
        mass, 0 to 90 °C; largest error 0.9 %.

    Example:
        >>> round(glycol_specific_heat(40.0, 0.25), -1)
        3960.0
    """
    _check_mixture(temperature, mass_share)
    x, t = mass_share, temperature
    shift = -0.29735605 + t * (4.2080712e-3 - t * 1.2714882e-5)
    return specific_heat(t) * (1 + x * (shift + x * (-0.13394468 - 2.5486935e-3 * t)))


def glycol_viscosity(temperature: Celsius, mass_share: Ratio) -> PascalSeconds:
    """Dynamic viscosity of water with propylene glycol.

    Args:
        temperature: 0 to 90 °C.
        mass_share: 0 to 0.5 by mass; 0 gives pure water.

    Raises:
        OutOfRange: temperature or share lies outside.

    Source:
        Fitted here to CoolProp's incompressible mixture MPG (Melinder, IIR 2010), 10 to 50 % by
        mass, 0 to 90 °C; largest error 4 %.

    Example:
        >>> round(float(glycol_viscosity(40.0, 0.25) * 1000), 1)
        1.3
    """
    _check_mixture(temperature, mass_share)
    x, t = mass_share, temperature
    shift = 4.2384971 + t * (-4.3622999e-2 + t * 2.6426461e-4)
    more = 1.0141519 + t * (-2.3791644e-2 + t * 7.3935833e-5)
    return viscosity(t) * np.exp(x * (shift + x * more))


def glycol_expansion_fraction(
    cold_temperature: Celsius, hot_temperature: Celsius, mass_share: Ratio
) -> Ratio:
    """How much of its cold volume water with propylene glycol grows by when it is heated.

    Args:
        cold_temperature: 0 to 90 °C.
        hot_temperature: 0 to 90 °C.
        mass_share: 0 to 0.5 by mass; 0 gives pure water.

    Source:
        Ratio of the densities of `glycol_density`.

    Example:
        >>> round(glycol_expansion_fraction(10.0, 60.0, 0.25) * 100, 1)
        2.5
    """
    return (
        glycol_density(cold_temperature, mass_share) / (glycol_density(hot_temperature, mass_share))
        - 1
    )


def _check_mixture(temperature: Celsius, mass_share: Ratio) -> None:
    """Refuse what the fits do not cover."""
    check_between("water temperature", temperature, 0.0, 90.0, "°C")
    check_between("share of glycol", mass_share, 0.0, 0.5, "")
