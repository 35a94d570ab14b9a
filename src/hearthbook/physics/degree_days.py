"""Degree days: how much cold a season holds, and what a year's fuel says about a home."""

from __future__ import annotations

import numpy as np

from hearthbook.errors import check_between
from hearthbook.units import (
    Celsius,
    DegreeDaysKelvin,
    Joules,
    Ratio,
    Watts,
    WattsPerKelvin,
)

__all__ = [
    "HITCHIN",
    "SECONDS_PER_DAY",
    "base_temperature",
    "coefficient_from_fuel",
    "daily_degree_days",
    "degree_days_from_means",
    "degree_days_to_other_base",
    "monthly_degree_days",
    "monthly_mean_from_degree_days",
]

SECONDS_PER_DAY = 86_400.0  # s
HITCHIN = 0.71  # 1/K; Hitchin 1983, constant for Britain, from memory


def base_temperature(
    indoor_temperature: Celsius, gains: Watts, coefficient: WattsPerKelvin
) -> Celsius:
    """The outdoor temperature at which gains alone keep the home warm.

    Args:
        indoor_temperature: mean of the rooms.
        gains: mean heat from people, lights, appliances and, if wished, sun.
        coefficient: heat the home loses for each kelvin; above 0.

    Raises:
        OutOfRange: the coefficient is not positive.

    Source:
        Balance of gains and losses; derived.

    Example:
        >>> base_temperature(20.0, 450.0, 250.0)
        18.2
    """
    check_between("heat loss for each kelvin", coefficient, 1e-6, 1e6, "W/K")
    return indoor_temperature - gains / coefficient


def degree_days_from_means(daily_means: Celsius, base: Celsius = 15.5) -> DegreeDaysKelvin:
    """Degree days by the mean-temperature method: each day's mean below the base.

    Args:
        daily_means: mean outdoor temperature of each day.
        base: outdoor temperature above which no heat is wanted.

    Shapes:
        An array of days gives one number.

    Source:
        Mean-temperature method, a public worked example.

    Example:
        >>> degree_days_from_means(np.array([6.0, 9.5, 14.0, 16.5]))
        17.0
    """
    short = base - np.asarray(daily_means, dtype=float)
    return float(np.sum(np.maximum(short, 0.0)))


def daily_degree_days(minimum: Celsius, maximum: Celsius, base: Celsius = 15.5) -> DegreeDaysKelvin:
    """Degree days of one day from its lowest and highest temperature.

    Args:
        minimum: of the day.
        maximum: of the day, not below the minimum.
        base: outdoor temperature above which no heat is wanted.

    Source:
        British formula for daily degree days from minimum and maximum, as printed on a British
        reference page of degree days.

    Example:
        >>> daily_degree_days(7.0, 12.0), daily_degree_days(11.0, 17.0)
        (6.0, 1.875)
    """
    low = np.asarray(minimum, dtype=float)
    high = np.asarray(maximum, dtype=float)
    mean = (low + high) / 2
    colder = (base - low) / 2 - (high - base) / 4
    warmer = (base - low) / 4
    found = np.select(
        [high <= base, (mean <= base) & (high > base), (mean > base) & (low < base)],
        [base - mean, colder, warmer],
        0.0,
    )
    return found if found.ndim else float(found)


def monthly_degree_days(
    mean: Celsius, base: Celsius = 15.5, days: Ratio = 30.0, constant: Ratio = HITCHIN
) -> DegreeDaysKelvin:
    """Degree days of a month from its mean temperature.

    Args:
        mean: mean outdoor temperature of the month.
        base: outdoor temperature above which no heat is wanted.
        days: in the month.
        constant: of the place, 1/K.

    Source:
        Hitchin 1983, formula for monthly degree days.

    Example:
        >>> round(monthly_degree_days(10.0), 1)
        168.4
    """
    short = np.asarray(base - mean, dtype=float)
    is_equal = np.abs(short) < 1e-9
    safe = np.where(is_equal, 1.0, short)
    found = days * np.where(is_equal, 1 / constant, safe / -np.expm1(-constant * safe))
    return found if found.ndim else float(found)


def monthly_mean_from_degree_days(
    degree_days: DegreeDaysKelvin,
    base: Celsius = 15.5,
    days: Ratio = 30.0,
    constant: Ratio = HITCHIN,
) -> Celsius:
    """The mean temperature of a month that had so many degree days.

    Args:
        degree_days: of the month, above 0.
        base: they were counted to.
        days: in the month.
        constant: of the place, 1/K.

    Raises:
        OutOfRange: there are no degree days, or more than 60 K a day.

    Source:
        Hitchin 1983, solved backwards by halving.

    Example:
        >>> round(monthly_mean_from_degree_days(168.4), 1)
        10.0
    """
    wanted = np.asarray(degree_days, dtype=float)
    check_between("degree days for each day", wanted / days, 1e-6, 60.0, "K")
    low = np.full(wanted.shape, base - 61.0)
    high = np.full(wanted.shape, base + 60.0)
    for _ in range(60):
        middle = (low + high) / 2
        is_too_warm = np.asarray(monthly_degree_days(middle, base, days, constant)) < wanted
        high = np.where(is_too_warm, middle, high)
        low = np.where(is_too_warm, low, middle)
    found = (low + high) / 2
    return found if found.ndim else float(found)


def degree_days_to_other_base(
    degree_days: DegreeDaysKelvin, base: Celsius, other_base: Celsius, days: Ratio = 30.0
) -> DegreeDaysKelvin:
    """A month's degree days counted to another base.

    Args:
        degree_days: of the month.
        base: they were counted to.
        other_base: the base wanted.
        days: in the month.

    Raises:
        OutOfRange: there are no degree days to start from.

    Source:
        Hitchin 1983, once backwards and once forwards.

    Example:
        >>> round(degree_days_to_other_base(395.0, 15.5, 18.5, 31.0))
        488
    """
    mean = monthly_mean_from_degree_days(degree_days, base, days)
    return monthly_degree_days(mean, other_base, days)


def coefficient_from_fuel(
    energy: Joules, efficiency: Ratio, heating_share: Ratio, degree_days: DegreeDaysKelvin
) -> WattsPerKelvin:
    """Heat a home loses for each kelvin, from a year's fuel.

    Args:
        energy: fuel used in the year.
        efficiency: of the old heating over the year.
        heating_share: share of the fuel that heated rooms.
        degree_days: of that year, to the base at which the heating stopped; above 0.

    Raises:
        OutOfRange: there are no degree days.

    Source:
        H = E · η · share / (24 h · degree days), energy-signature practice; derived.

    Example:
        >>> round(coefficient_from_fuel(15_000 * 3.6e6, 0.85, 0.8, 2200.0), 1)
        193.2
    """
    check_between("degree days", degree_days, 1e-6, 20_000.0, "K·d")
    return energy * efficiency * heating_share / (degree_days * SECONDS_PER_DAY)
