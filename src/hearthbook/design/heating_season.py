"""How many hours of the year it is how cold at this home."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hearthbook.documents.figures import KeyFigure, assumed, calculated, given
from hearthbook.physics import climate
from hearthbook.record.building import Climate
from hearthbook.record.home import Home

__all__ = ["HeatingSeason", "heating_season"]

_MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August",
           "September", "October", "November", "December")  # fmt: skip

# °C; shape of a mild maritime year (lowland England), from memory, within 1 K of a place there.
_USUAL_MEANS = (4.5, 4.8, 6.6, 9.0, 12.0, 14.9, 16.9, 16.7, 14.3, 10.9, 7.3, 4.9)
_USUAL_SOURCE = "monthly means of a mild maritime year, from memory"
_DEGREE_DAY_BASE = 15.5  # °C; what the record's degree days are counted to


@dataclass(frozen=True)
class HeatingSeason:
    """The hours below the base temperature, by whole degrees outdoors.

    Attributes:
        temperatures: middle of each bin in °C, the coldest first.
        hours: hours of the year in each.
        length: all hours below the base temperature.
    """

    temperatures: NDArray[np.float64]
    hours: NDArray[np.float64]
    length: KeyFigure

    def load_shares(self, base_temperature: float) -> NDArray[np.float64]:
        """Share of the season's heat that each bin needs; they sum to 1."""
        heat = self.hours * np.maximum(0.0, base_temperature - self.temperatures)
        shares: NDArray[np.float64] = heat / heat.sum()
        return shares


def heating_season(home: Home, base_temperature: KeyFigure) -> HeatingSeason:
    """The heating season of the home's place.

    Monthly means come from the record; where it has none, a usual year is shifted so that it meets
    the recorded degree days or annual mean.
    """
    place = home.building.climate
    means = _monthly_means(place)
    spread = _spread(place)
    year = climate.bin_hours(np.array([mean.value for mean in means]), spread.value)
    below = year.temperatures < base_temperature.value
    length = calculated(
        "season.length",
        "hours of the year cold enough for heating",
        float(year.hours[below].sum()) * 3600,
        "h",
        formula="Σ hours of the bins below the base temperature",
        inputs=(base_temperature, spread, *means),
        source="normal distribution of hourly temperatures about each month's mean",
        decimals=0,
    )
    return HeatingSeason(year.temperatures[below], year.hours[below], length)


def _spread(place: Climate) -> KeyFigure:
    name, label = "season.hourly_spread", "spread of hourly temperatures about a month's mean"
    if place.hourly_spread is not None:
        return given(name, label, place.hourly_spread, "K", place="building.climate.hourly_spread")
    return assumed(name, label, climate.USUAL_SPREAD, "K", source="Hitchin 1983, from memory")


def _monthly_means(place: Climate) -> tuple[KeyFigure, ...]:
    recorded = place.monthly_mean_temperatures
    if recorded is not None:
        return tuple(
            given(f"season.mean.{month.lower()}", f"mean of {month}", mean, "°C",
                  place=f"building.climate.monthly_mean_temperatures[{number}]")
            for number, (month, mean) in enumerate(zip(_MONTHS, recorded, strict=True), start=1)
        )  # fmt: skip
    shift, why = _shift(place)
    return tuple(
        assumed(f"season.mean.{month.lower()}", f"mean of {month}", mean + shift, "°C",
                source=_USUAL_SOURCE, note=why)
        for month, mean in zip(_MONTHS, _USUAL_MEANS, strict=True)
    )  # fmt: skip


def _shift(place: Climate) -> tuple[float, str]:
    """How far the usual year is moved to meet what is known of the place, and why."""
    usual = np.array(_USUAL_MEANS)
    if place.degree_days is not None:
        wanted = place.degree_days
        spread = place.hourly_spread or climate.USUAL_SPREAD
        low, high = -15.0, 12.0
        for _ in range(40):
            middle = (low + high) / 2
            year = climate.bin_hours(usual + middle, spread)
            found = climate.degree_days(year.temperatures, year.hours, _DEGREE_DAY_BASE)
            low, high = (middle, high) if float(found) > wanted else (low, middle)
        shift = (low + high) / 2
        return shift, f"moved by {shift:+.1f} K to meet the recorded degree days"
    if place.annual_mean_temperature is not None:
        shift = place.annual_mean_temperature - float(usual.mean())
        return shift, f"moved by {shift:+.1f} K to meet the recorded annual mean"
    return 0.0, ""
