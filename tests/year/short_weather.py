"""A fortnight of generated weather, so that tests of a year's answers take a moment."""

from __future__ import annotations

from dataclasses import replace

from hearthbook.record.home import Home
from hearthbook.simulate.weather import HOURLY_RANGES, Weather
from hearthbook.year.weather_of_home import weather_of_home

__all__ = ["fortnight"]


def fortnight(home: Home, days: int = 14, first: int = 0) -> Weather:
    """Some days of a home's generated year from 1 January on, as if the year began with them."""
    whole = weather_of_home(home)
    hours = slice(24 * first, 24 * (first + days))
    return replace(whole, **{field: getattr(whole, field)[hours] for field in HOURLY_RANGES})
