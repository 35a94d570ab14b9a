"""Hot water: what a cylinder holds for the taps, what it takes to heat, what it loses."""

from __future__ import annotations

from typing import Literal

import numpy as np

from hearthbook.errors import check_between
from hearthbook.physics.climate import DAYS_IN_MONTH
from hearthbook.physics.tapping_profiles import DRAWS, MIXED_WATER_AT_40
from hearthbook.units import (
    Celsius,
    CubicMetres,
    CubicMetresPerSecond,
    HeatTransferCoefficient,
    Joules,
    Kelvin,
    Ratio,
    Seconds,
    SquareMetres,
    Watts,
    WattsPerKelvin,
)

__all__ = [
    "COIL_TRANSFER",
    "MIXED_TEMPERATURE",
    "MONTH_FACTORS",
    "STRATIFICATION",
    "Profile",
    "coil_approach",
    "coil_conductance",
    "daily_volume",
    "draw_energy",
    "draws_in_profile",
    "equal_month_energies",
    "hygiene_energy",
    "largest_profile_served",
    "least_mixed_volume",
    "mixed_volume",
    "monthly_energy",
    "profile_energy",
    "reheat_energy",
    "reheat_time",
    "reheated_volume",
    "volume_of_energy",
]

Profile = Literal["S", "M", "L", "XL", "XXL"]

MIXED_TEMPERATURE = 40.0  # °C at shower and bath; EU 814/2013 Annex II 1.3
STRATIFICATION = 0.9  # share of a full cylinder that leaves hot; common practice, no source
COIL_TRANSFER = (400.0, 700.0)  # W/(m²·K) of a plain coil in still water; common practice,
#                                 no source

# Use in each month against the year's mean, and rise of temperature in K from cold main to tap;
# SAP 2012 tables 1c and 1d, from memory
MONTH_FACTORS = np.array([1.10, 1.06, 1.02, 0.98, 0.94, 0.90, 0.90, 0.94, 0.98, 1.02, 1.06, 1.10])
_MONTH_RISES = np.array([41.2, 41.4, 40.1, 37.6, 36.4, 33.9, 30.4, 33.4, 33.5, 36.3, 39.4, 39.9])

_WATER_HEAT_CAPACITY = 4.1868e6  # J/(m³·K); 1.163 Wh/(L·K), 1 kg/L; 1 to 2 % high above 50 °C
_SAP_WATER_HEAT_CAPACITY = 4.19e6  # J/(m³·K); as SAP 2012 counts it


def mixed_volume(
    stored_volume: CubicMetres,
    stored_temperature: Celsius,
    cold_temperature: Celsius,
    use_temperature: Celsius = MIXED_TEMPERATURE,
    stratification: Ratio = STRATIFICATION,
) -> CubicMetres:
    """Water at the temperature of use that a full cylinder gives, mixed with cold.

    Args:
        stored_volume: of the cylinder.
        stored_temperature: not below the temperature of use.
        cold_temperature: of the incoming water, below the temperature of use.
        use_temperature: at the tap.
        stratification: share of the cylinder that leaves hot, 0 to 1.

    Raises:
        OutOfRange: the store is colder than the water wanted, or the cold water warmer.

    Source:
        Heat balance of mixing.

    Example:
        >>> round(mixed_volume(0.200, 50.0, 10.0) * 1000)
        240
    """
    check_between(
        "stored above wanted temperature", stored_temperature - use_temperature, 0, 60, "K"
    )
    check_between("wanted above cold temperature", use_temperature - cold_temperature, 1, 60, "K")
    share = (stored_temperature - cold_temperature) / (use_temperature - cold_temperature)
    return stratification * stored_volume * share


def draw_energy(volume: CubicMetres, use_temperature: Celsius, cold_temperature: Celsius) -> Joules:
    """Heat in water drawn at a temperature.

    Args:
        volume: drawn, mixed.
        use_temperature: at the tap.
        cold_temperature: of the incoming water.

    Source:
        Heat balance; water at 4.1868 kJ/(kg·K) and 1 kg/L.

    Example:
        >>> round(draw_energy(0.040, 40.0, 10.0) / 3.6e6, 2)
        1.4
    """
    return volume * _WATER_HEAT_CAPACITY * (use_temperature - cold_temperature)


def volume_of_energy(
    energy: Joules, use_temperature: Celsius, cold_temperature: Celsius
) -> CubicMetres:
    """Water at a temperature that holds an amount of heat above the cold main.

    Args:
        energy: of the draw.
        use_temperature: above the cold temperature.
        cold_temperature: of the incoming water.

    Source:
        `draw_energy` solved for the volume.

    Example:
        >>> round(volume_of_energy(1.4 * 3.6e6, 40.0, 10.0) * 1000, 1)
        40.1
    """
    return energy / (_WATER_HEAT_CAPACITY * (use_temperature - cold_temperature))


def reheat_energy(
    volume: CubicMetres, start_temperature: Celsius, end_temperature: Celsius
) -> Joules:
    """Heat that warms a cylinder.

    Args:
        volume: of the cylinder.
        start_temperature: mean of the cylinder before.
        end_temperature: after; not below the start.

    Raises:
        OutOfRange: the end is colder than the start.

    Source:
        Heat balance; water at 4.1868 kJ/(kg·K) and 1 kg/L.

    Example:
        >>> round(reheat_energy(0.200, 15.0, 50.0) / 3.6e6, 2)
        8.14
    """
    rise = end_temperature - start_temperature
    check_between("rise of the cylinder's temperature", rise, 0.0, 90.0, "K")
    return volume * _WATER_HEAT_CAPACITY * rise


def reheat_time(energy: Joules, output: Watts) -> Seconds:
    """Time that a reheat takes.

    Args:
        energy: into the cylinder.
        output: of the heat pump while it heats the cylinder, above 0.

    Source:
        Energy over power.

    Example:
        >>> round(reheat_time(8.14 * 3.6e6, 6000.0) / 60)
        81
    """
    return energy / output


def reheated_volume(
    output: Watts, duration: Seconds, use_temperature: Celsius, cold_temperature: Celsius
) -> CubicMetres:
    """Mixed water that reheating adds while water is being drawn.

    Args:
        output: of the heat pump while it heats the cylinder.
        duration: of the draw.
        use_temperature: at the tap.
        cold_temperature: of the incoming water.

    Assumes:
        All the heat reaches the hot part of the cylinder: the most that can be hoped for.

    Source:
        Heat balance.

    Example:
        >>> round(reheated_volume(6000.0, 1800.0, 40.0, 10.0) * 1000)
        86
    """
    return volume_of_energy(output * duration, use_temperature, cold_temperature)


def coil_conductance(
    area: SquareMetres, transfer: HeatTransferCoefficient = 550.0
) -> WattsPerKelvin:
    """Heat a coil passes for each kelvin between its two waters.

    Args:
        area: of the coil.
        transfer: 400 to 700 W/(m²·K) for a plain coil in still water.

    Source:
        Common practice, no source.

    Example:
        >>> coil_conductance(3.0)
        1650.0
    """
    return area * transfer


def coil_approach(heat: Watts, conductance: WattsPerKelvin, flow: CubicMetresPerSecond) -> Kelvin:
    """How far the flow into a coil must lie above the water round it.

    Args:
        heat: passed by the coil.
        conductance: of the coil, above 0.
        flow: of heating water through the coil, above 0.

    Assumes:
        The water round the coil has one temperature, as it has near the end of a reheat.

    Source:
        UA times logarithmic mean difference equals the heat, solved for the flow temperature:
        drop / (1 - exp(-UA / (flow heat capacity))). Derived.

    Example:
        >>> round(coil_approach(6000.0, 1650.0, 16e-3 / 60), 1)
        7.0
    """
    carried = np.asarray(flow, dtype=float) * _WATER_HEAT_CAPACITY
    approach = np.asarray(heat / carried / -np.expm1(-conductance / carried))
    return approach if approach.ndim else float(approach)


def hygiene_energy(
    volume: CubicMetres, set_temperature: Celsius, hygiene_temperature: Celsius
) -> Joules:
    """Heat of one hygiene run above the temperature the cylinder has anyway.

    Args:
        volume: of the cylinder.
        set_temperature: it is heated to on other days.
        hygiene_temperature: of the run.

    Returns:
        Nothing where the cylinder is that hot anyway.

    Source:
        Heat balance; water at 4.1868 kJ/(kg·K) and 1 kg/L.

    Example:
        >>> round(hygiene_energy(0.200, 50.0, 60.0) / 3.6e6, 2)
        2.33
    """
    rise = np.maximum(np.asarray(hygiene_temperature, dtype=float) - set_temperature, 0.0)
    energy = volume * _WATER_HEAT_CAPACITY * rise
    return energy if np.ndim(energy) else float(energy)


def daily_volume(people: Ratio) -> CubicMetres:
    """Hot water a household of a size uses in a day, at the taps' usual temperatures.

    Args:
        people: who live there, 0.5 or more.

    Raises:
        OutOfRange: fewer than half a person.

    Source:
        SAP 2012, 25 L a person and 36 L a household. From memory. A study of 120 metered homes
        found 40 + 28 N litres (Energy Saving Trust 2008, from memory).

    Example:
        >>> round(daily_volume(3.0) * 1000)
        111
    """
    check_between("people", people, 0.5, 30.0, "")
    return (25.0 * people + 36.0) * 1e-3


def monthly_energy(daily_volume: CubicMetres, month_factors: Ratio = MONTH_FACTORS) -> Joules:
    """Heat drawn at the taps in each month of a year.

    Args:
        daily_volume: mean of the year, see `daily_volume`.
        month_factors: use in each month against the year's mean, twelve.

    Shapes:
        Twelve months, January first.

    Source:
        SAP 2012, tables 1c and 1d. From memory.

    Example:
        >>> round(float(monthly_energy(0.111).sum()) / 3.6e6)
        1751
    """
    days = DAYS_IN_MONTH * np.asarray(month_factors, dtype=float)
    energy: Joules = daily_volume * _SAP_WATER_HEAT_CAPACITY * days * _MONTH_RISES
    return energy


def equal_month_energies(energy_per_day: Joules) -> Joules:
    """The same heat every day of the year, month by month.

    Args:
        energy_per_day: of a day.

    Shapes:
        Twelve months, January first.

    Source:
        Days of the months.

    Example:
        >>> float(equal_month_energies(1.0)[1])
        28.0
    """
    return energy_per_day * DAYS_IN_MONTH


def draws_in_profile(profile: Profile) -> int:
    """How many draws a European profile has in a day.

    Args:
        profile: S, M, L, XL or XXL.

    Source:
        Commission Regulation (EU) No 814/2013, Annex III, table 1.

    Example:
        >>> draws_in_profile("M")
        23
    """
    return len(DRAWS[profile])


def profile_energy(profile: Profile) -> Joules:
    """The heat drawn in a day of a European profile.

    Args:
        profile: S, M, L, XL or XXL.

    Source:
        Commission Regulation (EU) No 814/2013, Annex III, table 1.

    Example:
        >>> round(profile_energy("M") / 3.6e6, 3)
        5.845
    """
    return sum(DRAWS[profile]) * 3.6e6


def least_mixed_volume(profile: Profile) -> CubicMetres:
    """The mixed water at 40 °C that a storage heater of a profile must give at once.

    Args:
        profile: M, L, XL or XXL.

    Raises:
        OutOfRange: nothing is asked of the profile S.

    Source:
        Commission Regulation (EU) No 814/2013, Annex II 1.3.

    Example:
        >>> least_mixed_volume("L")
        0.13
    """
    litres = MIXED_WATER_AT_40.get(profile, 0.0)
    check_between(f"mixed water of profile {profile}", litres, 1.0, 2000.0, "L")
    return litres * 1e-3


def largest_profile_served(mixed_volume: CubicMetres) -> Profile:
    """The largest European profile whose mixed water a cylinder gives at once.

    Args:
        mixed_volume: at 40 °C.

    Returns:
        S where not even M is served.

    Source:
        Commission Regulation (EU) No 814/2013, Annex II 1.3.

    Example:
        >>> largest_profile_served(0.240)
        'XL'
    """
    served: Profile = "S"
    names: tuple[Profile, ...] = ("M", "L", "XL", "XXL")
    for name in names:
        if mixed_volume >= MIXED_WATER_AT_40[name] * 1e-3:
            served = name
    return served
