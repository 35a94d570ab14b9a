"""Single years out of several, so that each can be met by a home of its own."""

from __future__ import annotations

from dataclasses import replace

from hearthbook.record.home import Home
from hearthbook.simulate.weather import HOURLY_RANGES, Weather
from hearthbook.year.weather_of_home import weather_of_home

__all__ = ["YEARS", "generated_years", "single_years"]

YEARS = 5
"""Weather years that a range is drawn over."""

_HOURS = 8760


def single_years(weather: Weather) -> tuple[Weather, ...]:
    """Each whole year of a weather as one of its own; itself where it has no more than one.

    Every year begins on the date the first one does. Hours beyond the last whole year are left out.
    """
    count = weather.hours // _HOURS
    if count < 2:
        return (weather,)
    return tuple(
        replace(
            weather,
            **{
                field: getattr(weather, field)[year * _HOURS : (year + 1) * _HOURS]
                for field in HOURLY_RANGES
            },
        )
        for year in range(count)
    )


def generated_years(home: Home, seed: int, count: int = YEARS) -> tuple[Weather, ...]:
    """Years of the home's place, with their warm and cold Januaries.

    Args:
        home: its climate's monthly values, where recorded.
        seed: the same seed makes the same years.
        count: how many.
    """
    return single_years(weather_of_home(home, seed=seed, years=count))
