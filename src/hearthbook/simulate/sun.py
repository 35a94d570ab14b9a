"""How much sun falls on a plane and gets through glass.

Sky diffuse radiation is spread by the model of Perez and others (1990, all sites) rather than
evenly: an even sky misses the brightness about the sun and at the horizon, and on a south wall in
winter that is a sixth of the sun.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from hearthbook.errors import check_between
from hearthbook.simulate.sky import day_of_year, mid_slots, position_by_slot
from hearthbook.simulate.weather import Weather, shared_out
from hearthbook.units import Array, Degrees, Ratio, WattsPerSquareMetre

__all__ = [
    "GROUND_REFLECTANCE",
    "OnPlane",
    "Sun",
    "glass_modifier",
    "glass_modifier_diffuse",
    "incidence_angle",
    "irradiance_on",
    "irradiance_through_glass",
    "on_plane",
    "sun_of",
]

GROUND_REFLECTANCE = 0.2  # grass and paving; the usual figure, common practice, no source


# Angular shape of the sun through clear double glazing: Karlsson and Roos 2000, "Modelling the
# angular behaviour of the total solar energy transmittance of windows"; panes 2, category 4.
# From memory
_PANES, _CATEGORY = 2.0, 4.0


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
    from pvlib import atmosphere, irradiance  # type: ignore[import-untyped]  # it carries no types

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
        day=day_of_year(seconds),
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
