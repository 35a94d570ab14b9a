"""A plausible year of weather made from a place's twelve monthly normals.

Warm and cold days follow one another as they do: each day keeps most of the day before. Clear
winter days are cold, wide and dry, mild ones damp and windy. Every month's means are those of the
normals. The persistence, the spreads and the ties between temperature, cloud, damp and wind are
usual figures of a temperate climate: common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

import numpy as np
from numpy.typing import NDArray

from hearthbook.errors import OutOfRange, check_between
from hearthbook.physics.moist_air import saturation_pressure
from hearthbook.simulate.monthly_normals import Normals, check_hemisphere, completed
from hearthbook.simulate.sky import parted, sun_by_hour
from hearthbook.simulate.weather import Weather
from hearthbook.units import Array

__all__ = ["FIRST_YEAR", "MOST_YEARS", "Normals", "generate"]

FIRST_YEAR = 2001  # any year without a 29 February
MOST_YEARS = 30

_TEMPERATURE_KEPT = 0.72  # from one day to the next
_CLEARNESS_KEPT = 0.35  # from one day to the next, besides what comes with the temperature
_WIND_KEPT = 0.55  # from one day to the next
_HOUR_KEPT = 0.88  # from one hour to the next
_CLEAREST = 0.78  # share of the sun above the air that gets down on the clearest hour
_LEAST_DAY_SPREAD = 1.8  # K, of daily means about the month's
_COLD_TAIL = 0.12  # skew of winter's daily means: cold spells reach further than mild ones
_HOUR_SPREAD = 0.35  # K, of an hour about its day's wave
_DAMP_PER_COOLING = 3.6  # logit of humidity per unit of the logarithm of saturation pressure
_WEIBULL = 1.9  # shape of hourly wind speeds
_CLOSE = 1e-12  # share of the most a month could have, by which it may miss its normal
_MOST_ROUNDS = 100  # some 20 do


@dataclass(frozen=True)
class _Calendar:
    """Which month, day and hour each hour belongs to, by local standard time."""

    start: datetime
    utc_offset: float
    months: NDArray[np.int64]
    hour_of_day: Array
    month_position: Array
    summer: Array

    @property
    def hours(self) -> int:
        return len(self.months)


@dataclass(frozen=True)
class _Sky:
    """What makes a day what it is, each with mean 0 and spread 1, by the hour."""

    warmth: Array
    clearness: Array
    wind: Array


def generate(
    normals: Normals,
    latitude: float,
    longitude: float,
    altitude: float,
    seed: int,
    years: int = 1,
) -> Weather:
    """A plausible weather whose monthly means are the normals.

    Args:
        normals: of the place; what is missing is taken as usual and named in the source.
        latitude: degrees north.
        longitude: degrees east; local time is that of the nearest quarter-hour's zone of 15°.
        altitude: m above the sea.
        seed: the same seed makes the same weather.
        years: 1 to 30; a single year has every month at its normal, several years have their
            warm and cold Januaries, and only all of them together have the normals.

    Raises:
        OutOfRange: a place or number of years outside its range, months of the other hemisphere,
            or more sun than the sky can give.
    """
    check_between("latitude", latitude, -66.0, 66.0, "°")
    check_between("longitude", longitude, -180.0, 180.0, "°")
    check_between("years of weather to make", years, 1, MOST_YEARS, "years")
    check_hemisphere(normals.mean_temperature, latitude)
    full, assumed = completed(normals, latitude)
    calendar = _calendar(latitude, longitude, years)
    random = np.random.default_rng(seed)
    sky = _sky(random, calendar)
    temperature, daily = _temperature(random, full, calendar, sky)
    sun = _radiation(random, full, calendar, sky, (latitude, longitude))
    return Weather(
        source=_words(assumed),
        is_generated=True,
        latitude=latitude,
        longitude=longitude,
        altitude=altitude,
        utc_offset=calendar.utc_offset,
        start=calendar.start,
        outdoor_temperature=temperature,
        relative_humidity=_humidity(full, calendar, sky, (temperature, daily)),
        wind_speed=_wind(random, full, calendar, sky),
        global_horizontal=sun[0],
        diffuse_horizontal=sun[1],
        direct_normal=sun[2],
    )


def _words(assumed: tuple[str, ...]) -> str:
    words = "generated from twelve monthly normals"
    if not assumed:
        return words
    return f"{words}; usual for a mild climate, without a source: {', '.join(assumed)}"


def _calendar(latitude: float, longitude: float, years: int) -> _Calendar:
    offset = float(round(longitude / 15.0))
    first = np.datetime64(f"{FIRST_YEAR}-01-01", "h")
    hours = np.arange(first, np.datetime64(f"{FIRST_YEAR + years}-01-01", "h"))
    month = hours.astype("datetime64[M]")
    length = ((month + 1).astype("datetime64[h]") - month.astype("datetime64[h]")).astype(float)
    into = (hours - month.astype("datetime64[h]")).astype(float) + 0.5
    months = month.astype(np.int64) % 12
    within: Array = months + into / length
    summer: Array = -np.cos(2 * np.pi * (within - 0.6) / 12)  # coldest about 18 January
    return _Calendar(
        start=datetime(FIRST_YEAR, 1, 1, tzinfo=UTC) - timedelta(hours=offset),
        utc_offset=offset,
        months=months,
        hour_of_day=np.arange(len(hours), dtype=float) % 24.0 + 0.5,
        month_position=within,
        summer=summer if latitude >= 0.0 else -summer,
    )


def _persistent(random: np.random.Generator, count: int, kept: float) -> Array:
    """A series of mean 0 and spread 1 that keeps a share of each value in the next."""
    fresh = random.standard_normal(count)
    fresh[1:] *= np.sqrt(1.0 - kept * kept)
    value, series = 0.0, []
    for one in fresh.tolist():
        value = kept * value + one
        series.append(value)
    return np.array(series)


def _by_hour(days: Array) -> Array:
    """Daily values at noon, straight from one to the next."""
    hours = np.arange(len(days) * 24) / 24 + 1 / 48
    between: Array = np.interp(hours, np.arange(len(days)) + 0.5, days)
    return between


def _sky(random: np.random.Generator, calendar: _Calendar) -> _Sky:
    days = calendar.hours // 24
    summer = calendar.summer.reshape(-1, 24).mean(axis=1)
    warmth = _persistent(random, days, _TEMPERATURE_KEPT)
    tie = 0.4 * summer - 0.1  # a clear winter day is cold, a clear summer day warm
    clearness = tie * warmth + np.sqrt(1 - tie**2) * _persistent(random, days, _CLEARNESS_KEPT)
    tie = 0.2 - 0.25 * summer  # mild winter air comes with wind
    wind = tie * warmth + np.sqrt(1 - tie**2) * _persistent(random, days, _WIND_KEPT)
    return _Sky(_by_hour(warmth), _by_hour(clearness), _by_hour(wind))


def _monthly(calendar: _Calendar, values: Array) -> Array:
    """Mean of each of the twelve months."""
    sums = np.bincount(calendar.months, values, 12)
    means: Array = sums / np.bincount(calendar.months, minlength=12)
    return means


def _joined(calendar: _Calendar, knots: Array) -> Array:
    """Values at mid-month, straight from one to the next, round the year."""
    line: Array = np.interp(calendar.month_position, np.arange(12) + 0.5, knots, period=12)
    return line


def _temperature(
    random: np.random.Generator, normals: Normals, calendar: _Calendar, sky: _Sky
) -> tuple[Array, Array]:
    """Hourly temperature, and without the wave of the day."""
    ranges = _joined(calendar, np.array(normals.daily_range))
    spread = np.sqrt(np.maximum(normals.spread**2 - ranges**2 / 8, _LEAST_DAY_SPREAD**2))
    skew = _COLD_TAIL * calendar.summer
    daily = spread * (sky.warmth + skew * (sky.warmth**2 - 1.0))
    about = daily - _monthly(calendar, daily)[calendar.months]
    daily *= np.sqrt(np.mean(spread**2) / np.mean(about**2))  # a month's own mean took some away
    wave = ranges / 2 * (0.25 + 1.5 * _between(sky.clearness)) * _day_wave(calendar.hour_of_day)
    fine = _HOUR_SPREAD * _persistent(random, calendar.hours, _HOUR_KEPT)
    departure = daily + wave + fine
    hats = np.array([_monthly(calendar, _joined(calendar, one)) for one in np.eye(12)]).T
    short = np.array(normals.mean_temperature) - _monthly(calendar, departure)
    course = _joined(calendar, np.linalg.solve(hats, short))
    return course + departure, course + daily


def _day_wave(hour: Array) -> Array:
    """Coldest before sunrise, warmest in the afternoon; 2 from the one to the other."""
    first = np.cos(2 * np.pi * (hour - 14.5) / 24)
    second = 0.15 * np.cos(4 * np.pi * (hour - 13.0) / 24)
    shape = first + second
    wave: Array = 2 * shape / np.ptp(shape)
    return wave


def _radiation(
    random: np.random.Generator,
    normals: Normals,
    calendar: _Calendar,
    sky: _Sky,
    place: tuple[float, float],
) -> tuple[Array, Array, Array]:
    """Global, diffuse and direct normal radiation."""
    sun = sun_by_hour(calendar.start, calendar.hours, place)
    target = np.array(normals.global_horizontal)
    _check_sun(target, _monthly(calendar, sun.above), place[0])
    cloud = 1.1 * sky.clearness + 0.5 * _persistent(random, calendar.hours, _HOUR_KEPT)
    radiation = _reaching(calendar, target, sun.above * _CLEAREST, cloud)
    return radiation, *parted(radiation, sun)


def _check_sun(target: Array, above: Array, latitude: float) -> None:
    most = 0.95 * _CLEAREST * above
    if np.any(target > most):
        month = int(np.argmax(target - most))
        raise OutOfRange(
            f"global radiation of month {month + 1} is {target[month]:.0f} W/m², mean of day and "
            f"night; at a latitude of {latitude:g}° it cannot be more than {most[month]:.0f} W/m². "
            "Check its unit: 1 kWh/m² a day is 42 W/m²."
        )


def _reaching(calendar: _Calendar, target: Array, factor: Array, tilt: Array) -> Array:
    """A factor times a logistic curve of a tilt, shifted so that each month's mean is its target.

    The shift that is missing shows nearly in full in the logit of the mean, so adding it again and
    again closes in on it.
    """
    most = np.maximum(_monthly(calendar, factor), 1e-12)
    shift = np.zeros(12)
    for _ in range(_MOST_ROUNDS):
        made: Array = factor * _between(shift[calendar.months] + tilt)
        mean = _monthly(calendar, made)
        if np.all(np.abs(mean - target) <= _CLOSE * most):
            break
        shift += _logit(target / most) - _logit(mean / most)
    return made


def _humidity(
    normals: Normals, calendar: _Calendar, sky: _Sky, temperatures: tuple[Array, Array]
) -> Array:
    """Damp in mild winter air, dry in clear frost and on warm afternoons, fog near 0 °C."""
    temperature, daily = temperatures
    warming = np.log(saturation_pressure(temperature)) - np.log(saturation_pressure(daily))
    winter = np.maximum(-calendar.summer, 0.0)
    fog = 0.8 * np.exp(-((daily / 3.0) ** 2)) * (sky.wind < 0.0)
    damp = 0.3 * winter * sky.warmth - 0.6 * sky.clearness + fog - _DAMP_PER_COOLING * warming
    return _reaching(calendar, np.array(normals.relative_humidity), np.ones(calendar.hours), damp)


def _wind(random: np.random.Generator, normals: Normals, calendar: _Calendar, sky: _Sky) -> Array:
    """Gusty days follow one another; a tenth more by day than by night."""
    strength = 0.75 * sky.wind + 0.66 * _persistent(random, calendar.hours, _HOUR_KEPT)
    # share of the normal distribution below; logistic form, within 0.01 of it
    share = np.clip(_between(1.702 * strength), 1e-6, 1.0 - 1e-5)
    speed = (-np.log(1.0 - share)) ** (1.0 / _WEIBULL)
    speed *= 1.0 + 0.1 * np.cos(2 * np.pi * (calendar.hour_of_day - 14.0) / 24)
    factor = np.array(normals.wind_speed) / _monthly(calendar, speed)
    wind: Array = speed * factor[calendar.months]
    return wind


def _between(value: Array) -> Array:
    """The logistic curve: from 0 to 1."""
    curve: Array = 1.0 / (1.0 + np.exp(-value))
    return curve


def _logit(share: Array) -> Array:
    """The logistic curve backwards."""
    inside = np.clip(share, 1e-15, 1.0 - 1e-15)
    logit: Array = np.log(inside / (1.0 - inside))
    return logit
