"""Where the sun stands, and how much of it falls on a plane and gets through glass.

Sky diffuse radiation is spread by the model of Perez and others (1990, all sites) rather than
evenly: an even sky misses the brightness about the sun and at the horizon, and on a south wall in
winter that is a sixth of the sun.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from hearthbook.errors import check_between
from hearthbook.simulate.weather import SLOTS_PER_HOUR, Weather, shared_out
from hearthbook.units import Degrees, Ratio, Seconds, WattsPerSquareMetre

__all__ = [
    "GROUND_REFLECTANCE",
    "OnPlane",
    "Position",
    "Sun",
    "above_air",
    "diffuse_share",
    "glass_modifier",
    "glass_modifier_diffuse",
    "incidence_angle",
    "irradiance_on",
    "irradiance_through_glass",
    "mid_slots",
    "on_plane",
    "position",
    "position_by_slot",
    "sun_of",
]

Array = NDArray[np.float64]

GROUND_REFLECTANCE = 0.2  # grass and paving; the usual figure, common practice, no source

_CLOCK_LEAD = 69.0  # s, terrestrial time ahead of universal in the 2010s and 2020s; from memory
_REFRACTION = 0.5667  # °, of the air at sunrise and sunset; Reda and Andreas 2004
_PRESSURE, _AIR = 1013.25, 12.0  # hPa and °C, for refraction; pvlib's defaults

# Angular shape of the sun through clear double glazing: Karlsson and Roos 2000, "Modelling the
# angular behaviour of the total solar energy transmittance of windows"; panes 2, category 4.
# From memory
_PANES, _CATEGORY = 2.0, 4.0


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
class OnPlane:
    """Sunshine on a plane by where it comes from, W/m².

    Attributes:
        direct: straight from the sun.
        circumsolar: from the bright sky about the sun.
        sky: from the rest of the sky.
        ground: from the ground before it.
    """

    direct: Array
    circumsolar: Array
    sky: Array
    ground: Array

    @property
    def total(self) -> Array:
        """All of it together."""
        return self.direct + self.circumsolar + self.sky + self.ground


@dataclass(frozen=True, eq=False)
class Sun:
    """The sun of a weather by the quarter-hour, computed once; arrays [K].

    Attributes:
        zenith: degrees from straight up at mid-slot, as seen through the air.
        azimuth: degrees clockwise from north at mid-slot.
        day: of the year, 1 for the first of January.
        global_horizontal: W/m², mean of the slot.
        diffuse_horizontal: W/m².
        direct_normal: W/m².
    """

    zenith: Array
    azimuth: Array
    day: Array
    global_horizontal: Array
    diffuse_horizontal: Array
    direct_normal: Array


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

    found = spa.solar_position_numpy(
        np.atleast_1d(np.asarray(unix_time, dtype=float)), latitude, longitude, 0.0,
        _PRESSURE, _AIR, _CLOCK_LEAD, _REFRACTION, 1,
    )  # fmt: skip
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

    above: Array = irradiance.get_extra_radiation(_day_of_year(np.asarray(unix_time)))
    return above


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


def incidence_angle(
    plane_azimuth: Degrees, tilt: Degrees, zenith: Degrees, solar_azimuth: Degrees
) -> Degrees:
    """Angle between the sun and what stands at right angles to a plane.

    Args:
        plane_azimuth: where the plane looks, clockwise from north.
        tilt: of the plane from the horizontal; 90 upright.
        zenith: of the sun from straight up.
        solar_azimuth: of the sun, clockwise from north.

    Source:
        Geometry.

    Example:
        >>> round(float(incidence_angle(180.0, 90.0, 72.7, 177.65)), 1)
        17.5
    """
    angle: Array = np.degrees(np.arccos(_alignment(plane_azimuth, tilt, zenith, solar_azimuth)))
    return angle


def glass_modifier(incidence: Degrees) -> Ratio:
    """Sun let through clear double glazing at an angle, over that at right angles to it.

    Args:
        incidence: between the sun and what stands at right angles to the glass; 90 and more
            lets nothing through.

    Source:
        Karlsson and Roos 2000, two panes, category 4; from memory.

    Example:
        >>> [round(float(glass_modifier(angle)), 2) for angle in (0.0, 60.0, 90.0)]
        [1.0, 0.87, 0.0]
    """
    share = np.minimum(np.abs(np.asarray(incidence, dtype=float)) / 90.0, 1.0)
    square = 0.25 / _CATEGORY
    first = 5.2 + 0.7 * _CATEGORY
    last = (5.26 + 0.06 * _PANES) + (0.73 + 0.04 * _PANES) * _CATEGORY
    lost = 8.0 * share**first + square * share**2 + (1.0 - 8.0 - square) * share**last
    kept: Array = np.clip(1.0 - lost, 0.0, 1.0)
    return kept


def glass_modifier_diffuse() -> float:
    """Light of an even half-sphere let through clear double glazing, over that at right angles.

    Source:
        The modifier of `glass_modifier` averaged over the half-sphere; own derivation.

    Example:
        >>> round(glass_modifier_diffuse(), 2)
        0.89
    """
    angles: Array = (np.arange(900, dtype=float) + 0.5) / 10.0
    weights = np.sin(2.0 * np.radians(angles))
    return float(np.sum(glass_modifier(angles) * weights) / np.sum(weights))


def on_plane(
    direct_normal: WattsPerSquareMetre,
    diffuse_horizontal: WattsPerSquareMetre,
    zenith: Degrees,
    solar_azimuth: Degrees,
    day: Ratio,
    plane: tuple[float, float],
) -> OnPlane:
    """Sunshine on a plane, by where it comes from.

    Args:
        direct_normal: on a plane that faces the sun.
        diffuse_horizontal: from the sky on the level ground.
        zenith: of the sun, as seen through the air; below the horizon only diffuse light counts.
        solar_azimuth: of the sun, clockwise from north.
        day: of the year.
        plane: azimuth, clockwise from north, and tilt from the horizontal.

    Source:
        Perez and others 1990, all sites, as pvlib has it; the ground reflects a fifth.

    Example:
        >>> south = on_plane(500.0, 80.0, 72.64, 177.65, 15.0, (180.0, 90.0))
        >>> round(float(south.total[0]))
        637
    """
    from pvlib import atmosphere, irradiance

    azimuth, tilt = (float(part) for part in plane)
    check_between("tilt of a plane", tilt, 0.0, 180.0, "°")
    diffuse = np.atleast_1d(np.asarray(diffuse_horizontal, dtype=float))
    is_up = np.atleast_1d(np.asarray(zenith, dtype=float)) < 90.0
    high = np.where(is_up, zenith, 89.9)
    beam = np.where(is_up, direct_normal, 0.0)
    above = irradiance.get_extra_radiation(np.asarray(day, dtype=float))
    air_mass = atmosphere.get_relative_airmass(high)
    with np.errstate(invalid="ignore", divide="ignore"):
        sky = irradiance.perez(
            tilt, azimuth, diffuse, beam, above, high, solar_azimuth, air_mass,
            return_components=True,
        )  # fmt: skip
    parts = {name: np.nan_to_num(np.asarray(sky[name])) for name in sky}
    level = diffuse + beam * np.cos(np.radians(high))
    return OnPlane(
        direct=beam * np.maximum(_alignment(azimuth, tilt, high, solar_azimuth), 0.0),
        circumsolar=np.minimum(parts["poa_circumsolar"], parts["poa_sky_diffuse"]),
        sky=np.maximum(parts["poa_sky_diffuse"] - parts["poa_circumsolar"], 0.0),
        ground=level * GROUND_REFLECTANCE * (1.0 - np.cos(np.radians(tilt))) / 2.0,
    )


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


@lru_cache(maxsize=8)
def sun_of(weather: Weather) -> Sun:
    """The sun of a weather by the quarter-hour; asked again for the same weather, the same answer.

    Assumes:
        Within an hour global and diffuse radiation follow the height of the sun at mid-slot and
        direct radiation is even while the sun is up, so that every hour keeps its mean. In an hour
        in which the sun is never up at mid-slot there is none.
    """
    seconds = mid_slots(weather.start, weather.hours)
    place = (weather.latitude, weather.longitude)
    stand = position_by_slot(weather.start, weather.hours, place)
    height = np.maximum(np.cos(np.radians(stand.apparent_zenith)), 0.0)
    is_up = (height > 0.0).astype(float)
    return Sun(
        zenith=stand.apparent_zenith,
        azimuth=stand.azimuth,
        day=_day_of_year(seconds),
        global_horizontal=shared_out(weather.global_horizontal, height),
        diffuse_horizontal=shared_out(weather.diffuse_horizontal, height),
        direct_normal=shared_out(weather.direct_normal, is_up),
    )


def irradiance_on(weather: Weather, azimuth: float, tilt: float) -> Array:
    """Sunshine on a plane in each quarter-hour, W/m².

    Args:
        weather: hourly.
        azimuth: where the plane looks, degrees clockwise from north.
        tilt: degrees from the horizontal; 90 upright.
    """
    sun = sun_of(weather)
    return _at_all_hours(sun, _falling(sun, azimuth, tilt).total)


def irradiance_through_glass(weather: Weather, azimuth: float, tilt: float) -> Array:
    """Sunshine that gets through glass of transmittance 1 at right angles, each quarter-hour, W/m².

    Args:
        weather: hourly.
        azimuth: where the glass looks, degrees clockwise from north.
        tilt: degrees from the horizontal; 90 upright.

    Assumes:
        Clear double glazing: see `glass_modifier`. The light about the sun passes as the sun's
        own does; that of sky and ground as the light of an even half-sphere.
    """
    sun = sun_of(weather)
    is_lit = _is_lit(sun)
    falling = _falling(sun, azimuth, tilt)
    angle = incidence_angle(azimuth, tilt, sun.zenith[is_lit], sun.azimuth[is_lit])
    straight = (falling.direct + falling.circumsolar) * glass_modifier(angle)
    spread = (falling.sky + falling.ground) * glass_modifier_diffuse()
    return _at_all_hours(sun, straight + spread)


def _day_of_year(unix_time: Array) -> Array:
    days = unix_time.astype("datetime64[s]").astype("datetime64[D]")
    day: Array = (days - days.astype("datetime64[Y]")).astype(float) + 1.0
    return day


def _alignment(plane_azimuth: Degrees, tilt: Degrees, zenith: Degrees, azimuth: Degrees) -> Array:
    """Cosine of the angle of incidence."""
    lean, high = np.radians(tilt), np.radians(zenith)
    around = np.radians(np.asarray(azimuth) - plane_azimuth)
    cosine = np.cos(lean) * np.cos(high) + np.sin(lean) * np.sin(high) * np.cos(around)
    alignment: Array = np.clip(cosine, -1.0, 1.0)
    return alignment


def _is_lit(sun: Sun) -> NDArray[np.bool_]:
    lit: NDArray[np.bool_] = (sun.global_horizontal > 0.0) | (sun.direct_normal > 0.0)
    return lit


def _falling(sun: Sun, azimuth: float, tilt: float) -> OnPlane:
    """On a plane, in the quarter-hours that have light."""
    lit = _is_lit(sun)
    return on_plane(
        sun.direct_normal[lit],
        sun.diffuse_horizontal[lit],
        sun.zenith[lit],
        sun.azimuth[lit],
        sun.day[lit],
        (azimuth, tilt),
    )


def _at_all_hours(sun: Sun, lit: Array) -> Array:
    """Values of the quarter-hours that have light, with 0 for the others."""
    everywhere = np.zeros(len(sun.zenith))
    everywhere[_is_lit(sun)] = lit
    return everywhere
