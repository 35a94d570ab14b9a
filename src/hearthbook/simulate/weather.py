"""Weather by the hour, and what a loop that steps through quarter-hours needs of it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

import numpy as np
from numpy.typing import NDArray

from hearthbook.errors import OutOfRange, check_between
from hearthbook.physics.moist_air import humidity_ratio, saturation_humidity_ratio
from hearthbook.units import Array

__all__ = [
    "HOURLY_RANGES",
    "SLOTS_PER_HOUR",
    "Slots",
    "Weather",
    "averaged",
    "local_time",
    "month_of_hours",
    "months_of",
    "shared_out",
    "slots_of",
]

SLOTS_PER_HOUR = 4  # a slot is a quarter of an hour; kernel/parameters.py

# Name as the trade calls it, least, most and unit. The coldest and hottest air and the strongest
# hourly wind ever measured where people live lie inside, and so does the sun with bright clouds
# beside it. From memory.
HOURLY_RANGES: dict[str, tuple[str, float, float, str]] = {
    "outdoor_temperature": ("outdoor temperature", -60.0, 60.0, "°C"),
    "relative_humidity": ("relative humidity", 0.0, 1.0, "of 1"),
    "wind_speed": ("wind speed", 0.0, 60.0, "m/s"),
    "global_horizontal": ("global radiation", 0.0, 1500.0, "W/m²"),
    "diffuse_horizontal": ("diffuse radiation", 0.0, 1500.0, "W/m²"),
    "direct_normal": ("direct radiation", 0.0, 1500.0, "W/m²"),
}


@dataclass(frozen=True, eq=False)
class Weather:
    """Hourly weather; each value is the mean of the hour that begins at its time.

    The temperature is the value at mid-hour. Two weathers are the same only if they are one object.

    Attributes:
        source: words for a person: which file, or "generated from twelve monthly normals".
        is_generated: made by us, not measured.
        latitude: degrees north.
        longitude: degrees east.
        altitude: m above the sea.
        utc_offset: hours by which local standard time is ahead of UTC.
        start: when the first hour begins; aware, UTC.
        outdoor_temperature: °C.
        relative_humidity: 0 to 1.
        wind_speed: m/s.
        global_horizontal: W/m².
        diffuse_horizontal: W/m².
        direct_normal: W/m².
    """

    source: str
    is_generated: bool
    latitude: float
    longitude: float
    altitude: float
    utc_offset: float
    start: datetime
    outdoor_temperature: Array
    relative_humidity: Array
    wind_speed: Array
    global_horizontal: Array
    diffuse_horizontal: Array
    direct_normal: Array

    def __post_init__(self) -> None:
        """Refuse what no weather can be, and keep the arrays from being written to.

        Raises:
            OutOfRange: a value is not a number or lies outside its range, the arrays differ in
                length, or the hours are not whole days from a whole quarter-hour of UTC.
        """
        check_between("latitude", self.latitude, -90.0, 90.0, "°")
        check_between("longitude", self.longitude, -180.0, 180.0, "°")
        check_between("altitude", self.altitude, -450.0, 6000.0, "m")
        check_between("offset from UTC", self.utc_offset, -12.0, 14.0, "h")
        _check_start(self.start)
        for field in HOURLY_RANGES:
            values = np.array(getattr(self, field), dtype=float)
            _check_hours(self, field, values)
            values.setflags(write=False)
            object.__setattr__(self, field, values)

    @property
    def hours(self) -> int:
        """How many hours it has."""
        return len(self.outdoor_temperature)

    @property
    def days(self) -> int:
        """How many days it has."""
        return self.hours // 24


@dataclass(frozen=True)
class Slots:
    """Weather by the quarter-hour: K slots have K + 1 edges.

    Attributes:
        outdoor: °C at the edges.
        humidity: kg of vapour in a kg of dry air at the edges.
        wind: m/s, mean of each slot.
    """

    outdoor: Array
    humidity: Array
    wind: Array


def slots_of(weather: Weather) -> Slots:
    """Temperature, humidity and wind by the quarter-hour.

    Assumes:
        Temperature and humidity go straight from one mid-hour to the next, and stay level in the
        first and the last half-hour; the wind of an hour holds all through it. Humidity is that of
        air at sea-level pressure, and never more than the air can hold. Below
        freezing the relative humidity is taken over ice, as ASHRAE has it; where it was measured
        over water there is up to a twentieth more vapour at -5 °C.

    Source:
        Own derivation.
    """
    mids = np.arange(weather.hours) + 0.5
    edges = np.arange(weather.hours * SLOTS_PER_HOUR + 1) / SLOTS_PER_HOUR
    moisture = humidity_ratio(weather.outdoor_temperature, weather.relative_humidity)
    outdoor = np.interp(edges, mids, weather.outdoor_temperature)
    humidity = np.minimum(np.interp(edges, mids, moisture), saturation_humidity_ratio(outdoor))
    return Slots(outdoor, humidity, np.repeat(weather.wind_speed, SLOTS_PER_HOUR))


def shared_out(hourly: Array, weights: Array) -> Array:
    """An hourly mean over the hour's quarters in proportion to weights; the hour's mean stays.

    Args:
        hourly: means of the hours; not negative.
        weights: of each quarter-hour; not negative. An hour whose four weights are 0 gets 0.

    Shapes:
        Hours [n] and quarters [4 n] give quarters [4 n].

    Source:
        Definition of the mean.

    Example:
        >>> shared_out(np.array([100.0]), np.array([0.0, 1.0, 1.0, 2.0])).tolist()
        [0.0, 100.0, 100.0, 200.0]
    """
    quarters = np.maximum(weights, 0.0).reshape(-1, SLOTS_PER_HOUR)
    total = quarters.sum(axis=1)
    factor = np.divide(SLOTS_PER_HOUR * hourly, total, out=np.zeros_like(total), where=total > 0.0)
    shared: Array = (quarters * factor[:, None]).ravel()
    return shared


def averaged(outdoor: Array, hours: float) -> Array:
    """The outdoor temperature damped as a controller damps it: a running exponential mean.

    Args:
        outdoor: °C at the edges of quarter-hours.
        hours: time constant, 0 to 240; 0 leaves it as it is.

    Raises:
        OutOfRange: the time constant is outside that range.

    Assumes:
        Before the first edge it had been as warm as the mean of the first `hours`.

    Source:
        Definition of the first-order lag, exact for an input held over each quarter-hour.

    Example:
        >>> damped = averaged(np.array([0.0, 10.0, 10.0, 10.0, 10.0]), hours=0.25)
        >>> [round(float(one), 2) for one in damped]
        [0.0, 6.32, 8.65, 9.5, 9.82]
    """
    check_between("time constant of the outdoor mean", hours, 0.0, 240.0, "h")
    if hours == 0.0:
        return outdoor.copy()
    kept = float(np.exp(-1.0 / (SLOTS_PER_HOUR * hours)))
    mean = float(np.mean(outdoor[: max(1, round(SLOTS_PER_HOUR * hours))]))
    damped = [mean]
    for value in outdoor[1:].tolist():
        mean = kept * mean + (1.0 - kept) * value
        damped.append(mean)
    return np.array(damped)


def local_time(weather: Weather) -> datetime:
    """Local standard time at the start; it carries no zone.

    Example:
        >>> from hearthbook.simulate.weather_generator import Normals, generate
        >>> made = generate(Normals((9.0,) * 12), 52.0, 15.0, 100.0, seed=1)
        >>> str(local_time(made))
        '2001-01-01 00:00:00'
    """
    return (weather.start + timedelta(hours=weather.utc_offset)).replace(tzinfo=None)


def month_of_hours(weather: Weather) -> NDArray[np.int64]:
    """The month of each hour by local standard time, 0 for January."""
    return months_of(local_time(weather), weather.hours)


def months_of(first: datetime, hours: int) -> NDArray[np.int64]:
    """The month of each hour from a first one on, 0 for January.

    Args:
        first: when the first hour begins; whether it has a zone makes no difference.
        hours: how many.
    """
    times = np.datetime64(first.replace(tzinfo=None), "h") + np.arange(hours)
    months: NDArray[np.int64] = times.astype("datetime64[M]").astype(np.int64) % 12
    return months


def _check_start(start: datetime) -> None:
    if start.tzinfo is None or start.utcoffset() != timedelta(0):
        raise OutOfRange(f"The weather's start is {start}; it must be in UTC and say so.")
    if start.minute % 15 or start.second or start.microsecond:
        raise OutOfRange(
            f"The weather's start is {start:%Y-%m-%d %H:%M:%S} UTC; it must be a whole "
            "quarter-hour. Shift the times to the nearest."
        )


def _check_hours(weather: Weather, field: str, values: Array) -> None:
    name, low, high, unit = HOURLY_RANGES[field]
    if values.ndim != 1 or len(values) == 0 or len(values) % 24:
        raise OutOfRange(
            f"The weather's {name} has {values.size:,} hours; it must have 24 for each day, "
            "so give whole days."
        )
    if len(values) != np.size(weather.outdoor_temperature):
        raise OutOfRange(
            f"The weather's {name} has {len(values):,} hours and its outdoor temperature has "
            f"{np.size(weather.outdoor_temperature):,}; they must be the same hours."
        )
    wrong = ~((values >= low) & (values <= high))
    if wrong.any():
        first = int(np.argmax(wrong))
        when = weather.start + timedelta(hours=first)
        raise OutOfRange(
            f"The weather's {name} at {when:%Y-%m-%d %H:%M} UTC is {values[first]:.6g} {unit}; "
            f"it must lie between {low:g} and {high:g} {unit}. Mend the hour or use another source."
        )
