"""Where the sun stands, what it sends above the air, and how cloud parts what comes down."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from functools import lru_cache

import numpy as np

from hearthbook.simulate.weather import SLOTS_PER_HOUR
from hearthbook.units import Array, Degrees, Ratio, Seconds, WattsPerSquareMetre

__all__ = [
    "Position",
    "SunByHour",
    "above_air",
    "day_of_year",
    "diffuse_share",
    "direct_from",
    "mid_slots",
    "parted",
    "position",
    "position_by_slot",
    "sun_by_hour",
]

_CLOCK_LEAD = 69.0  # s, terrestrial time ahead of universal in the 2010s and 2020s; from memory
_AT_ONCE = 8000  # times whose working fits a processor's near memory; twice as fast as a decade
_REFRACTION = 0.5667  # °, of the air at sunrise and sunset; Reda and Andreas 2004
_PRESSURE, _AIR = 1013.25, 12.0  # hPa and °C, for refraction; pvlib's defaults


@dataclass(frozen=True)
class Position:
    """Where the sun stands, degrees.

    Attributes:
        zenith: from straight up, as geometry has it.
        apparent_zenith: from straight up, as seen through the air.
        azimuth: clockwise from north.
    """

    zenith: Array
    apparent_zenith: Array
    azimuth: Array


@dataclass(frozen=True)
class SunByHour:
    """The sun over each hour.

    Attributes:
        above: W/m² on the level above the air.
        height: mean cosine of the angle from straight up, night counted as 0.
        up: share of the hour that the sun is up.
    """

    above: Array
    height: Array
    up: Array


def position(unix_time: Seconds, latitude: Degrees, longitude: Degrees) -> Position:
    """Where the sun stands.

    Args:
        unix_time: seconds since the beginning of 1970, UTC.
        latitude: north.
        longitude: east.

    Source:
        Reda and Andreas 2004, "Solar position algorithm for solar radiation applications", as
        pvlib has it.

    Example:
        >>> noon = position(1705320000.0, latitude=51.5, longitude=-0.1)
        >>> round(float(noon.zenith[0]), 1), round(float(noon.azimuth[0]), 1)
        (72.7, 177.6)
    """
    from pvlib import spa  # type: ignore[import-untyped]  # it carries no types

    times = np.atleast_1d(np.asarray(unix_time, dtype=float))
    parts = [
        spa.solar_position_numpy(
            part, latitude, longitude, 0.0, _PRESSURE, _AIR, _CLOCK_LEAD, _REFRACTION, 1
        )
        for part in np.array_split(times, max(1, len(times) // _AT_ONCE))
    ]
    found = [np.concatenate(one) for one in zip(*parts, strict=True)]
    return Position(found[1], found[0], found[4])


def above_air(unix_time: Seconds) -> WattsPerSquareMetre:
    """Sunshine above the air on a plane that faces the sun.

    Args:
        unix_time: seconds since the beginning of 1970, UTC.

    Source:
        Spencer 1971, as pvlib has it.

    Example:
        >>> round(float(above_air(np.array([1705320000.0]))[0]))
        1413
    """
    from pvlib import irradiance

    above: Array = irradiance.get_extra_radiation(day_of_year(np.asarray(unix_time)))
    return above


def day_of_year(unix_time: Array) -> Array:
    """The day of the year, 1 for the first of January, UTC."""
    days = unix_time.astype("datetime64[s]").astype("datetime64[D]")
    day: Array = (days - days.astype("datetime64[Y]")).astype(float) + 1.0
    return day


def mid_slots(start: datetime, hours: int) -> Array:
    """The middle of each quarter-hour, seconds since the beginning of 1970, UTC."""
    slots = np.arange(hours * SLOTS_PER_HOUR, dtype=float) + 0.5
    middles: Array = start.timestamp() + slots * (3600.0 / SLOTS_PER_HOUR)
    return middles


@lru_cache(maxsize=4)
def position_by_slot(start: datetime, hours: int, place: tuple[float, float]) -> Position:
    """Where the sun stands at the middle of each quarter-hour; kept, as weathers share it.

    Args:
        start: when the first hour begins.
        hours: how many.
        place: latitude and longitude, degrees north and east.
    """
    stand = position(mid_slots(start, hours), *place)
    for values in (stand.zenith, stand.apparent_zenith, stand.azimuth):
        values.setflags(write=False)
    return stand


def sun_by_hour(start: datetime, hours: int, place: tuple[float, float]) -> SunByHour:
    """The sun over each hour, from its four quarters.

    Args:
        start: when the first hour begins.
        hours: how many.
        place: latitude and longitude, degrees north and east.
    """
    zenith = position_by_slot(start, hours, place).apparent_zenith
    height = np.maximum(np.cos(np.radians(zenith)), 0.0)
    above = height * above_air(mid_slots(start, hours))
    return SunByHour(*(_by_hour(part) for part in (above, height, (height > 0.0).astype(float))))


def diffuse_share(clearness: Ratio) -> Ratio:
    """Share of global radiation that comes from the sky and not straight from the sun.

    Args:
        clearness: global radiation over that above the air on the level, 0 to 1.

    Source:
        Erbs, Klein and Duffie 1982.

    Example:
        >>> [round(float(diffuse_share(clear)), 2) for clear in (0.1, 0.5, 0.9)]
        [0.99, 0.66, 0.17]
    """
    clear = np.asarray(clearness, dtype=float)
    middle = 0.9511 - 0.1604 * clear + 4.388 * clear**2 - 16.638 * clear**3 + 12.336 * clear**4
    share: Array = np.select([clear <= 0.22, clear <= 0.8], [1.0 - 0.09 * clear, middle], 0.165)
    return share


def parted(global_horizontal: Array, sun: SunByHour) -> tuple[Array, Array]:
    """Hourly global radiation parted into diffuse and direct normal, by how clear it is.

    Args:
        global_horizontal: W/m².
        sun: over the same hours.
    """
    clear = np.divide(
        global_horizontal, sun.above, out=np.zeros_like(sun.above), where=sun.above > 0.0
    )
    diffuse: Array = global_horizontal * np.asarray(diffuse_share(clear))
    return diffuse, direct_from(global_horizontal - diffuse, sun)


def direct_from(beam: Array, sun: SunByHour) -> Array:
    """Direct normal radiation of each hour that puts a beam on the level.

    Args:
        beam: W/m² on the level, global less diffuse.
        sun: over the same hours; while it is not up there is none.

    Assumes:
        No more than above the air: a beam that a very low sun cannot give is left out.
    """
    direct = np.divide(beam * sun.up, sun.height, out=np.zeros_like(beam), where=sun.height > 0.0)
    most = np.divide(
        sun.above * sun.up, sun.height, out=np.zeros_like(beam), where=sun.height > 0.0
    )
    held: Array = np.clip(direct, 0.0, most)
    return held


def _by_hour(quarters: Array) -> Array:
    hourly: Array = quarters.reshape(-1, SLOTS_PER_HOUR).mean(axis=1)
    return hourly
