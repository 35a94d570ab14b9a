"""How many hours of the year have a day of which mean at this home.

Rooms and controllers answer to the mean of a day: walls and floors carry the warmth of noon over a
cool night, so a night of July below the heating limit starts no heating.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hearthbook.design.sun import Sun, sun_through_windows
from hearthbook.documents.figures import KeyFigure, assumed, calculated, given
from hearthbook.errors import OutOfRange
from hearthbook.physics import climate
from hearthbook.record.building import Climate
from hearthbook.record.home import Home

__all__ = [
    "HeatingSeason",
    "advised_heating_limit",
    "heating_limit",
    "heating_season",
    "monthly_means",
]

_MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August",
           "September", "October", "November", "December")  # fmt: skip

# °C; shape of a mild maritime year (lowland England), from memory, within 1 K of a place there.
_USUAL_MEANS = (4.5, 4.8, 6.6, 9.0, 12.0, 14.9, 16.9, 16.7, 14.3, 10.9, 7.3, 4.9)
_USUAL_SOURCE = "monthly means of a mild maritime year, from memory"
_LIMIT_LOW, _LIMIT_HIGH = 14.0, 17.0  # °C; usual range of the heating limit, common practice
# Spread of the days' means over that of the hours; the swing of a day makes the rest. From memory
# of British hourly records: day and night differ little in dull winters and much in summer.
_DAY_SHARE_WINTER, _DAY_SHARE_SUMMER = 0.90, 0.65
_WINTER = np.array([1, 1, 0.5, 0, 0, 0, 0, 0, 0, 0.5, 1, 1])  # share of winter in each month
_DEGREE_DAY_BASE = 15.5  # °C; what the record's degree days are counted to


@dataclass(frozen=True)
class HeatingSeason:
    """The hours of days whose mean lies below the base temperature, by whole degrees of that mean.

    Attributes:
        temperatures: middle of each bin in °C, the coldest first.
        hours: hours of the year in each.
        length: all hours of days below the base temperature.
        monthly_means: of the place, January first.
        spread: of hourly temperatures about each.
        day_shares: spread of the days' means over that, in winter and in summer.
        day_spreads: of the days' means about each month's, January first, K.
        monthly_hours: hours of each month in each bin, January first; they sum to `hours`.
        sun: warmth from the sun through the windows.
        limit: outdoor temperature above which heating rests.
    """

    temperatures: NDArray[np.float64]
    hours: NDArray[np.float64]
    length: KeyFigure
    monthly_means: tuple[KeyFigure, ...]
    spread: KeyFigure
    day_shares: tuple[KeyFigure, KeyFigure]
    day_spreads: NDArray[np.float64]
    monthly_hours: NDArray[np.float64]
    sun: Sun
    limit: KeyFigure

    def load(self, coefficient: float, base_temperature: float) -> NDArray[np.float64]:
        """Heat the rooms take in each bin in W, the mean of its hours, with the sun taken off."""
        sun = self.sun.by_month[:, np.newaxis]
        need = np.maximum(0.0, coefficient * (base_temperature - self.temperatures) - sun)
        need = np.where(self.temperatures < self.limit.value, need, 0.0)
        heat: NDArray[np.float64] = np.sum(self.monthly_hours * need, axis=0)
        return heat / np.maximum(self.hours, 1e-9)

    def load_shares(self, base_temperature: float) -> NDArray[np.float64]:
        """Share of the season's heat that each bin needs; they sum to 1."""
        heat = self.hours * np.maximum(0.0, base_temperature - self.temperatures)
        shares: NDArray[np.float64] = heat / heat.sum()
        return shares


def heating_season(home: Home, base_temperature: KeyFigure) -> HeatingSeason:
    """The heating season of the home's place.

    Monthly means come from the record; where it has none, a usual year is shifted so that it meets
    the recorded degree days or annual mean.

    Raises:
        OutOfRange: the heating limit lies below every day of the year.
    """
    place = home.building.climate
    means = monthly_means(place)
    spread, shares = _spread(place), _day_shares()
    day_spreads = spread.value * (_WINTER * shares[0].value + (1.0 - _WINTER) * shares[1].value)
    year = climate.monthly_bin_hours(np.array([mean.value for mean in means]), day_spreads)
    hours = year.hours.sum(axis=0)
    below = year.temperatures < base_temperature.value
    length = calculated(
        "season.length",
        "hours of days cold enough for heating",
        float(hours[below].sum()) * 3600,
        "h",
        formula="Σ hours of the bins below the base temperature",
        inputs=(base_temperature, spread, *shares, *means),
        source="normal distribution of the days' means about each month's mean",
        decimals=0,
    )
    limit = heating_limit(home, base_temperature)
    _check_limit(limit, year.temperatures[below & (hours > 0)])
    return HeatingSeason(
        temperatures=year.temperatures[below],
        hours=hours[below],
        length=length,
        monthly_means=means,
        spread=spread,
        day_shares=shares,
        day_spreads=day_spreads,
        monthly_hours=year.hours[:, below],
        sun=sun_through_windows(home),
        limit=limit,
    )


def _check_limit(limit: KeyFigure, days: NDArray[np.float64]) -> None:
    if days.size and limit.value <= days.min():
        raise OutOfRange(
            f"controls.heating_limit: is {limit.shown()}, and no day of the year is that cold, so "
            f"nothing would ever be heated. It is mostly {_LIMIT_LOW:g} to {_LIMIT_HIGH:g} °C; "
            "check it."
        )


def heating_limit(home: Home, base_temperature: KeyFigure) -> KeyFigure:
    """Outdoor temperature above which heating rests: as set, or as advised."""
    place = "controls.heating_limit"
    if home.controls.heating_limit is None:
        return advised_heating_limit(base_temperature)
    return given(
        place, "outdoor mean above which heating rests", home.controls.heating_limit, "°C",
        place=place,
    )  # fmt: skip


def advised_heating_limit(base_temperature: KeyFigure) -> KeyFigure:
    """The heating limit advised for a home that keeps itself warm above a base temperature."""
    value = min(max(base_temperature.value, _LIMIT_LOW), _LIMIT_HIGH)
    return calculated(
        "weather_curve.heating_limit", "outdoor mean of a day above which heating rests",
        float(round(value)), "°C", formula="base temperature, within 14 to 17 °C",
        inputs=(base_temperature,), source="common practice, no source", decimals=0,
    )  # fmt: skip


def _spread(place: Climate) -> KeyFigure:
    name, label = "season.hourly_spread", "spread of hourly temperatures about a month's mean"
    if place.hourly_spread is not None:
        return given(name, label, place.hourly_spread, "K", place="building.climate.hourly_spread")
    return assumed(name, label, climate.USUAL_SPREAD, "K", source="Hitchin 1983, from memory",
                   note="not answered: building.climate.hourly_spread")  # fmt: skip


def _day_shares() -> tuple[KeyFigure, KeyFigure]:
    what = "spread of the days' means over that of the hours"
    source = "from memory of British hourly records"
    return (
        assumed("season.day_share_winter", f"{what}, November to February", _DAY_SHARE_WINTER,
                "%", source=source),
        assumed("season.day_share_summer", f"{what}, April to September", _DAY_SHARE_SUMMER, "%",
                source=source, note="halfway between in March and October"),
    )  # fmt: skip


def monthly_means(place: Climate) -> tuple[KeyFigure, ...]:
    """Mean outdoor temperature of each month, January first: as recorded, or a usual year's."""
    recorded = place.monthly_mean_temperatures
    if recorded is not None:
        return tuple(
            given(f"season.mean.{month.lower()}", f"mean of {month}", mean, "°C",
                  place=f"building.climate.monthly_mean_temperatures[{number}]")
            for number, (month, mean) in enumerate(zip(_MONTHS, recorded, strict=True), start=1)
        )  # fmt: skip
    usual = assumed(
        "season.usual_year", "mean of a mild maritime year, whose monthly means stand in",
        float(np.mean(_USUAL_MEANS)), "°C", source=_USUAL_SOURCE,
        note="not answered: building.climate.monthly_mean_temperatures",
    )  # fmt: skip
    shift = _shift(place, usual)
    return tuple(
        calculated(f"season.mean.{month.lower()}", f"mean of {month}", mean + shift.value, "°C",
                   formula="usual mean of the month + shift", inputs=(usual, shift),
                   source=_USUAL_SOURCE, note=f"usual mean {mean:.1f} °C")
        for month, mean in zip(_MONTHS, _USUAL_MEANS, strict=True)
    )  # fmt: skip


def _shift(place: Climate, usual: KeyFigure) -> KeyFigure:
    """How far the usual year is moved to meet what is known of the place."""
    inputs: tuple[KeyFigure, ...] = (usual,)
    value, formula = 0.0, "none: nothing is known of the place"
    if place.degree_days is not None:
        days = given("season.degree_days", "degree days to 15.5 °C", place.degree_days, "K·d",
                     place="building.climate.degree_days")  # fmt: skip
        value = _shift_to_degree_days(days.value, place.hourly_spread or climate.USUAL_SPREAD)
        inputs, formula = (usual, days), "until the year has the recorded degree days"
    elif place.annual_mean_temperature is not None:
        mean = given("season.annual_mean", "mean of the year", place.annual_mean_temperature, "°C",
                     place="building.climate.annual_mean_temperature")  # fmt: skip
        value = mean.value - usual.value
        inputs, formula = (usual, mean), "recorded mean of the year − usual mean"
    return calculated(
        "season.shift", "moved from the usual year", value, "K", formula=formula, inputs=inputs,
        source="derived",
    )  # fmt: skip


def _shift_to_degree_days(wanted: float, spread: float) -> float:
    usual = np.array(_USUAL_MEANS)
    low, high = -15.0, 12.0
    for _ in range(40):
        middle = (low + high) / 2
        year = climate.bin_hours(usual + middle, spread)
        found = climate.degree_days(year.temperatures, year.hours, _DEGREE_DAY_BASE)
        low, high = (middle, high) if float(found) > wanted else (low, middle)
    return (low + high) / 2
