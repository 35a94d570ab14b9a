"""Cold water and ground over the year, and the hot water a household draws in each minute."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from hearthbook.design.hot_water import HotWater
from hearthbook.physics.climate import DAYS_IN_MONTH
from hearthbook.record.home import Home
from hearthbook.record.household import Occupancy
from hearthbook.simulate.calendar_time import CivilTime
from hearthbook.simulate.hot_water_draws import DailyHabits, household_draws

__all__ = [
    "cold_water",
    "daily_habits",
    "drawn_per_day",
    "ground_temperature",
    "hot_water_drawn",
    "place_wave",
    "yearly_wave",
]

_Array = NDArray[np.float64]

_YEAR = 365.25  # days
_COLDEST_MAIN = 45.0  # day of the year; mid-February, a month after the air, from memory
_MOST_SWING = 8.0  # K of the main either side of its mean; from memory of British mains
_GROUND_SHARE = 0.6  # of the air's yearly wave that reaches a floor on the ground, and
_GROUND_LAG = 365.25 / 12  # days by which it comes later: ISO 13370 for slabs, from memory; the
#                            share is 0.5 to 1, less where the slab is insulated
_FULL_YEAR = 350  # days of weather that show a year's wave


def yearly_wave(values: _Array, day_of_year: NDArray[np.int64]) -> tuple[float, float, float]:
    """Mean, amplitude and warmest day of the yearly wave in values spread over whole years.

    Source:
        First harmonic by least squares.
    """
    angle = 2.0 * np.pi * day_of_year / _YEAR
    shape = np.stack((np.ones(angle.size), np.cos(angle), np.sin(angle)), axis=1)
    mean, cosine, sine = np.linalg.solve(shape.T @ shape, shape.T @ values)
    warmest = np.arctan2(sine, cosine) % (2.0 * np.pi) * _YEAR / (2.0 * np.pi)
    return float(mean), float(np.hypot(cosine, sine)), float(warmest)


def place_wave(
    outdoor: _Array, clock: CivilTime, monthly_means: _Array
) -> tuple[float, float, float]:
    """The yearly wave of the air: by the weather where it lasts a year, else by monthly means."""
    if clock.slots >= _FULL_YEAR * 96:
        return yearly_wave(outdoor, clock.day_of_year)
    middles = np.cumsum(DAYS_IN_MONTH) - DAYS_IN_MONTH / 2
    return yearly_wave(monthly_means, middles.astype(np.int64))


def ground_temperature(wave: tuple[float, float, float], clock: CivilTime) -> _Array:
    """Temperature the ground below a floor acts with: the air's yearly wave, damped and late.

    Source:
        ISO 13370, heat flow over the year, from memory.
    """
    mean, amplitude, warmest = wave
    angle = 2.0 * np.pi * (clock.day_of_year - warmest - _GROUND_LAG) / _YEAR
    ground: _Array = mean + _GROUND_SHARE * amplitude * np.cos(angle)
    return ground


def cold_water(winter: float, annual_mean: float, clock: CivilTime) -> _Array:
    """Temperature of the main: the winter's value in February, the air's yearly mean on average.

    Args:
        winter: °C of the coldest main, as recorded or as the design takes it.
        annual_mean: °C outdoors.
        clock: of the run.

    Returns:
        °C in each slot; the same all year where the main is no colder in winter than the mean.

    Source:
        Common practice, no source: a buried main follows the ground.
    """
    swing = min(max(annual_mean - winter, 0.0), _MOST_SWING)
    angle = 2.0 * np.pi * (clock.day_of_year - _COLDEST_MAIN) / _YEAR
    main: _Array = np.clip(winter + swing * (1.0 - np.cos(angle)), 0.5, 30.0)
    return main


def daily_habits(home: Home, water: HotWater) -> DailyHabits:
    """The household's busiest hour as the design took it."""
    peak = water.peak
    showers, baths = peak.total.working.inputs[:2]
    return DailyHabits(
        showers=round(showers.value),
        shower_mass=peak.shower_litres.value * 1e3,
        shower_flow=peak.shower_flow.value * 60e3,
        baths=round(baths.value),
        bath_mass=peak.bath_litres.value * 1e3,
        is_out_by_day=home.household.occupancy is Occupancy.OUT_BY_DAY,
    )


def drawn_per_day(water: HotWater) -> _Array:
    """J drawn at the taps in a mean day of each month, January first, as the design counts it."""
    standing = DAYS_IN_MONTH * 86_400.0 * water.demand.standing_loss.value
    drawn: _Array = np.maximum(water.demand.by_month - standing, 0.0) / DAYS_IN_MONTH
    return drawn


def hot_water_drawn(
    home: Home, water: HotWater, main: _Array, clock: CivilTime, seed: int
) -> _Array:
    """Mixed water drawn in each minute, kg; over a year its heat is the design's."""
    return household_draws(daily_habits(home, water), drawn_per_day(water), main, clock, seed)
