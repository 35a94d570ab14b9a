"""Hot water drawn in each minute of a run, by a published day or by the household's own habits.

Water is counted as it leaves the taps, mixed to 40 °C.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hearthbook.errors import check_between
from hearthbook.kernel.parameters import SLOT_SECONDS
from hearthbook.physics.hot_water import MIXED_TEMPERATURE, Profile, draw_energy
from hearthbook.physics.tapping_profiles import TIMED_DRAWS
from hearthbook.simulate.calendar_time import CivilTime

__all__ = ["DailyHabits", "household_draws", "profile_draws"]

_Array = NDArray[np.float64]
_Whole = NDArray[np.int64]

_DAY_MINUTES = 1440
_SLOT_MINUTES = int(SLOT_SECONDS) // 60
_PROFILE_COLD = 10.0  # °C; cold water of the European profiles, EU 814/2013
_BATH_FLOW = 10.0  # kg/min; EU 814/2013, of the baths in its profiles
_SMALL_FLOW = 3.0  # kg/min; EU 814/2013, of its smallest draws
_PAUSE = 4  # min between two people in the bathroom; common practice, no source
_SMALL_SHARE = 0.25  # least share of a day's water at basin and sink; common practice, no source
_LARGE_SPREAD = 20  # min a shower or bath is earlier or later from day to day; likewise
_SMALL_SPREAD = 12  # min, likewise
_PEAK, _LATE_PEAK = 405, 495  # minute of the day; 06:45, at weekends 08:15; likewise
_OUT = (540, 990)  # from 09:00 to 16:30 nobody is in, where the household is out by day
_SATURDAY = 5


@dataclass(frozen=True)
class DailyHabits:
    """How a household draws hot water on a usual day.

    Attributes:
        showers: taken one after the other in the busiest hour.
        shower_mass: kg of mixed water in one.
        shower_flow: kg/min.
        baths: run in the busiest hour.
        bath_mass: kg of mixed water in one.
        is_out_by_day: whether nobody is in on working days from 09:00 to 16:30.
    """

    showers: int = 1
    shower_mass: float = 64.0
    shower_flow: float = 8.0
    baths: int = 0
    bath_mass: float = 120.0
    is_out_by_day: bool = False


@dataclass(frozen=True)
class _Draws:
    """Draws one by one: minute of the run they begin, kg, kg/min."""

    minute: _Whole
    mass: _Array
    flow: _Array


def profile_draws(
    profile: Profile, clock: CivilTime, cold_temperature: float = _PROFILE_COLD
) -> _Array:
    """The draws of a European profile on every day of a run.

    Args:
        profile: S, M, L, XL or XXL.
        clock: of the run.
        cold_temperature: of the incoming water, at which the heat of each draw is that published.

    Returns:
        kg of water at 40 °C in each minute.

    Raises:
        OutOfRange: the cold water is not colder than the tap's by 1 K or more.

    Source:
        Commission Regulation (EU) No 814/2013, Annex III, table 1. The least flow stands for the
        flow.
    """
    check_between("cold water coming in", cold_temperature, 0.1, MIXED_TEMPERATURE - 1.0, "°C")
    minute, energy, flow = np.array(TIMED_DRAWS[profile]).T
    mass = energy * 3.6e6 / float(draw_energy(1e-3, MIXED_TEMPERATURE, cold_temperature))
    days = clock.day_count
    day = np.repeat(np.arange(days), minute.size)
    begins = clock.run_minutes(day, np.tile(minute.astype(np.int64), days))
    return _by_minute(_Draws(begins, np.tile(mass, days), np.tile(flow, days)), clock.slots)


def household_draws(
    habits: DailyHabits, energy_per_day: _Array, cold_water: _Array, clock: CivilTime, seed: int
) -> _Array:
    """The draws of a household, no two days alike, with a stated heat in each month.

    Args:
        habits: of the household.
        energy_per_day: J drawn in a mean day of each month, January first; 0 or more.
        cold_water: °C of the incoming water in each slot.
        clock: of the run.
        seed: the same seed gives the same draws.

    Returns:
        kg of water at 40 °C in each minute. Over the part of each month that is run, their heat
        above the cold water is that month's mean day times the days run.

    Assumes:
        Showers and baths come one after the other in one hour of the morning, later at weekends;
        where they would leave less than a quarter of the water for basin and sink, some days go
        without. Small draws come at the times of the European profile M. All times shift from day
        to day.

    Source:
        Flows and small draws by EU 814/2013; the rest is common practice, no source.
    """
    check_between("heat of hot water drawn in a day", energy_per_day, 0.0, 1e9, "J")
    check_between("cold water coming in", cold_water, 0.1, MIXED_TEMPERATURE - 1.0, "°C")
    random = np.random.default_rng([seed, 814])
    usual = energy_per_day.mean() / float(draw_energy(1e-3, MIXED_TEMPERATURE, cold_water.mean()))
    large, share = _large_draws(habits, usual, clock, random)
    small = _small_draws(habits, usual * (1.0 - share), clock, random)
    drawn = _by_minute(large, clock.slots) + _by_minute(small, clock.slots)
    return _scaled_by_month(drawn, energy_per_day, cold_water, clock)


def _large_draws(
    habits: DailyHabits, usual: float, clock: CivilTime, random: np.random.Generator
) -> tuple[_Draws, float]:
    """Showers and baths of all days, and their share of the water."""
    mass = np.array([habits.shower_mass] * habits.showers + [habits.bath_mass] * habits.baths)
    flow = np.array([habits.shower_flow] * habits.showers + [_BATH_FLOW] * habits.baths)
    most = (1.0 - _SMALL_SHARE) * usual
    chance = min(1.0, most / mass.sum()) if mass.size else 0.0
    after = np.concatenate(([0.0], np.cumsum(mass / flow + _PAUSE)[:-1])) if mass.size else mass
    days = clock.day_count
    late = _weekday_of_days(clock) >= _SATURDAY
    shift = random.integers(-_LARGE_SPREAD, _LARGE_SPREAD + 1, days)
    begins = np.where(late, _LATE_PEAK, _PEAK) + shift
    takes_place = random.random((days, mass.size)) < chance
    minute = (begins[:, None] + np.round(after)[None, :]).astype(np.int64)
    day, which = np.nonzero(takes_place)
    share = chance * float(mass.sum()) / usual if usual > 0.0 else 0.0
    run_minute = clock.run_minutes(day, minute[day, which] % _DAY_MINUTES)
    return _Draws(run_minute, mass[which], flow[which]), share


def _small_draws(
    habits: DailyHabits, mass_per_day: float, clock: CivilTime, random: np.random.Generator
) -> _Draws:
    times = np.array([minute for minute, _, flow in TIMED_DRAWS["M"] if flow <= _SMALL_FLOW])
    days = clock.day_count
    minute = times + random.integers(-_SMALL_SPREAD, _SMALL_SPREAD + 1, (days, times.size))
    weight = random.uniform(0.4, 1.6, (days, times.size))
    if habits.is_out_by_day:
        works = _weekday_of_days(clock) < _SATURDAY
        away = (times >= _OUT[0]) & (times < _OUT[1])
        weight[np.ix_(works, away)] = 0.0
    mass = weight * mass_per_day / np.maximum(weight.sum(axis=1, keepdims=True), 1e-9)
    day = np.repeat(np.arange(days), times.size)
    begins = clock.run_minutes(day, minute.ravel().astype(np.int64))
    return _Draws(begins, mass.ravel(), np.full(mass.size, _SMALL_FLOW))


def _weekday_of_days(clock: CivilTime) -> _Whole:
    return clock.weekday[clock.first_slots()]


def _by_minute(draws: _Draws, slots: int) -> _Array:
    """The draws spread over the minutes they last; what lies outside the run is left out."""
    inside = (draws.minute >= 0) & (draws.mass > 0.0)
    minute, mass, flow = draws.minute[inside], draws.mass[inside], draws.flow[inside]
    lasts = np.maximum(np.ceil(mass / flow - 1e-9).astype(np.int64), 1)
    ends = np.cumsum(lasts)
    nth = np.arange(int(ends[-1]) if ends.size else 0) - np.repeat(ends - lasts, lasts)
    amount = np.minimum(np.repeat(mass, lasts) - nth * np.repeat(flow, lasts),
                        np.repeat(flow, lasts))  # fmt: skip
    minutes = slots * _SLOT_MINUTES
    at = np.repeat(minute, lasts) + nth
    drawn = np.bincount(at, np.maximum(amount, 0.0), minlength=minutes)
    return drawn[:minutes].astype(float)


def _scaled_by_month(
    drawn: _Array, energy_per_day: _Array, cold_water: _Array, clock: CivilTime
) -> _Array:
    heat = drawn.reshape(clock.slots, _SLOT_MINUTES).sum(axis=1) * np.asarray(
        draw_energy(1e-3, MIXED_TEMPERATURE, cold_water)
    )
    got = np.bincount(clock.month, heat, minlength=12)
    asked = energy_per_day * np.bincount(
        clock.month[clock.first_slots()], _days_run(clock), minlength=12
    )
    factor = np.where(got > 0.0, asked / np.maximum(got, 1e-9), 0.0)
    scaled: _Array = drawn * np.repeat(factor[clock.month], _SLOT_MINUTES)
    return scaled


def _days_run(clock: CivilTime) -> _Array:
    """1 for each day run from midnight to midnight, of 23 or 25 hours too; else the share run."""
    first = clock.first_slots()
    after = np.append(first[1:], clock.slots)
    is_whole = (clock.minute[first] == 0) & (
        clock.minute[after - 1] == _DAY_MINUTES - _SLOT_MINUTES
    )
    days: _Array = np.where(is_whole, 1.0, (after - first) * _SLOT_MINUTES / _DAY_MINUTES)
    return days
