"""How many hours of a year it is how cold: reference seasons and the home's own place."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Annotated, Literal

import numpy as np
from numpy.typing import NDArray

from hearthbook.errors import check_between
from hearthbook.physics.reference_climates import DESIGN_TEMPERATURE, FIRST_BIN, HOURS
from hearthbook.units import Celsius, Hours, Kelvin, KelvinDays, Unit

__all__ = [
    "DAYS_IN_MONTH",
    "USUAL_SPREAD",
    "BinHours",
    "MonthlyBinHours",
    "ReferenceClimate",
    "bin_hours",
    "degree_days",
    "equivalent_hours",
    "monthly_bin_hours",
    "reference_bins",
    "reference_design_temperature",
    "reference_season_hours",
]

DAYS_IN_MONTH = np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31], dtype=float)

# K; Hitchin's constant of degree days is 2.5 over the spread and 0.71 per K suits most of the
# British Isles: 2.5 / 0.71. From memory of Hitchin 1983.
USUAL_SPREAD = 3.5

_REACH = 5.0  # spreads beyond the coldest and mildest month; what lies outside joins the end bins


ReferenceClimate = Literal["average", "colder", "warmer"]


@dataclass(frozen=True)
class BinHours:
    """A year or season sorted by outdoor temperature; unpacks into its two arrays.

    Attributes:
        temperatures: middle of each bin, 1 K wide, the coldest first.
        hours: hours spent in each.
    """

    temperatures: Annotated[NDArray[np.float64], Unit("°C")]
    hours: Annotated[NDArray[np.float64], Unit("h")]

    def __iter__(self) -> Iterator[NDArray[np.float64]]:
        """Temperatures, then hours."""
        return iter((self.temperatures, self.hours))


@dataclass(frozen=True)
class MonthlyBinHours:
    """A year sorted by outdoor temperature, month by month; unpacks into its two arrays.

    Attributes:
        temperatures: middle of each bin, 1 K wide, the coldest first.
        hours: hours spent in each; twelve rows, January first.
    """

    temperatures: Annotated[NDArray[np.float64], Unit("°C")]
    hours: Annotated[NDArray[np.float64], Unit("h")]

    def __iter__(self) -> Iterator[NDArray[np.float64]]:
        """Temperatures, then hours."""
        return iter((self.temperatures, self.hours))


def reference_bins(climate: ReferenceClimate) -> BinHours:
    """The hours of a reference heating season.

    Args:
        climate: `average`, `colder` or `warmer`.

    Source:
        Commission Delegated Regulation (EU) No 811/2013, Annex VII, table 12; EN 14825 Annex B.

    Example:
        >>> float(reference_bins("average").hours.sum())
        4910.0
    """
    counts = np.array(HOURS[climate], dtype=float)
    return BinHours(FIRST_BIN + np.arange(counts.size, dtype=float), counts)


def reference_design_temperature(climate: ReferenceClimate) -> Celsius:
    """The design outdoor temperature of a reference heating season.

    Args:
        climate: `average`, `colder` or `warmer`.

    Source:
        Commission Delegated Regulation (EU) No 811/2013, Annex VII, table 10.

    Example:
        >>> reference_design_temperature("average")
        -10.0
    """
    return DESIGN_TEMPERATURE[climate]


def reference_season_hours(climate: ReferenceClimate) -> Hours:
    """The length of a reference heating season.

    Args:
        climate: `average`, `colder` or `warmer`.

    Source:
        Commission Delegated Regulation (EU) No 811/2013, Annex VII, table 12.

    Example:
        >>> reference_season_hours("colder")
        6446.0
    """
    return float(reference_bins(climate).hours.sum())


def equivalent_hours(climate: ReferenceClimate) -> Hours:
    """The hours at design load that need as much heat as a reference heating season.

    Args:
        climate: `average`, `colder` or `warmer`.

    Source:
        EN 14825; Commission Delegated Regulation (EU) No 811/2013, Annex VII 4(c).

    Example:
        >>> round(equivalent_hours("average"))
        2066
    """
    season = reference_bins(climate)
    share = (season.temperatures - 16.0) / (reference_design_temperature(climate) - 16.0)
    return float(np.sum(season.hours * share))


def bin_hours(monthly_means: Celsius, spread: Kelvin = USUAL_SPREAD) -> BinHours:
    """The hours of a year at a place, by whole degrees outside.

    Args:
        monthly_means: twelve monthly mean outdoor temperatures, January first.
        spread: standard deviation of hourly temperatures about the month's mean; 1 to 12 K.

    Returns:
        Bins 1 K wide whose hours sum to 8,760.

    Raises:
        OutOfRange: the spread or a mean is out of range, or there are not twelve means.

    Assumes:
        Hourly temperatures of a month lie normally about its mean, with the same spread in
        every month. Frosty high-pressure spells are colder than that in some winters.

    Source:
        Normal distribution of temperatures as in Hitchin's and Thom's work on degree days, from
        memory; the sum over bins is derived.

    Example:
        >>> year = bin_hours([4, 4, 6, 8, 11, 14, 16, 16, 13, 10, 7, 4], 3.5)
        >>> round(float(year.hours.sum()), 3), round(float(year.hours[year.temperatures < 0].sum()))
        (8760.0, 256)
    """
    temperatures, hours = monthly_bin_hours(monthly_means, spread)
    return BinHours(temperatures, hours.sum(axis=0))


def monthly_bin_hours(monthly_means: Celsius, spread: Kelvin = USUAL_SPREAD) -> MonthlyBinHours:
    """The hours of a year at a place, by month and by whole degrees outside.

    Args:
        monthly_means: twelve monthly mean outdoor temperatures, January first.
        spread: standard deviation of hourly temperatures, or of days' means, about the month's
            mean; 0.5 to 12 K, one or twelve.

    Shapes:
        Hours have twelve rows, one column for each bin.

    Raises:
        OutOfRange: the spread or a mean is out of range, or there are not twelve means.

    Assumes:
        As `bin_hours`; what lies beyond five spreads is counted in the end bins.

    Source:
        As `bin_hours`.

    Example:
        >>> months = monthly_bin_hours([4, 4, 6, 8, 11, 14, 16, 16, 13, 10, 7, 4], 3.5)
        >>> [round(float(hours)) for hours in months.hours.sum(axis=1)[:3]]
        [744, 672, 744]
    """
    means = np.asarray(monthly_means, dtype=float)
    check_between("number of monthly means", float(means.size), 12, 12, "")
    check_between("monthly mean temperature", means, -50.0, 50.0, "°C")
    spreads = np.broadcast_to(np.asarray(spread, dtype=float), means.shape)
    check_between("spread of outdoor temperatures about their mean", spreads, 0.5, 12.0, "K")
    reach = _REACH * float(spreads.max())
    first, last = math.floor(means.min() - reach), math.ceil(means.max() + reach)
    temperatures = np.arange(first, last + 1, dtype=float)
    edges = (temperatures[:-1] + 0.5 - means[:, np.newaxis]) / spreads[:, np.newaxis]
    below = np.column_stack([np.zeros(12), _share_below(edges), np.ones(12)])
    return MonthlyBinHours(
        temperatures, np.diff(below, axis=1) * DAYS_IN_MONTH[:, np.newaxis] * 24.0
    )


def degree_days(temperatures: Celsius, hours: Hours, base_temperature: Celsius) -> KelvinDays:
    """Heating degree days of a year or season sorted into bins.

    Args:
        temperatures: middle of each bin.
        hours: hours spent in each.
        base_temperature: outdoor temperature above which no heat is needed.

    Source:
        Definition of heating degree days, from hourly rather than daily temperatures.

    Example:
        >>> season = reference_bins("average")
        >>> round(float(degree_days(season.temperatures, season.hours, 16.0)))
        2238
    """
    below = np.maximum(0.0, base_temperature - np.asarray(temperatures, dtype=float))
    return float(np.sum(below * np.asarray(hours, dtype=float)) / 24.0)


def _share_below(deviation: NDArray[np.float64]) -> NDArray[np.float64]:
    """Share of a normal distribution below a deviation counted in spreads."""
    shares = [0.5 * (1.0 + math.erf(value / math.sqrt(2.0))) for value in deviation.flat]
    return np.array(shares).reshape(deviation.shape)
