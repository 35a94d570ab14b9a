"""A place's twelve monthly normals, and what is taken where some are not known."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from hearthbook.errors import Incomplete, OutOfRange, check_between
from hearthbook.physics.climate import USUAL_SPREAD
from hearthbook.physics.sun_gains import monthly_irradiance
from hearthbook.record.building import Climate
from hearthbook.units import Array

__all__ = [
    "Normals",
    "check_hemisphere",
    "completed",
    "normals_of",
    "seasons_against_latitude",
    "usual_humidity",
]

_Months = tuple[float, ...]

_LEVEL = 1.0  # K between January and July that says nothing of the hemisphere
_TROPIC = 23.44  # °; nearer the equator, months say nothing of the hemisphere

# Twelve months of a mild maritime climate of the north, January first. Common practice, no source
_USUAL_HUMIDITY = (0.87, 0.85, 0.82, 0.80, 0.80, 0.80, 0.80, 0.81, 0.83, 0.86, 0.88, 0.88)
_USUAL_WIND = (4.0,) * 12  # m/s; common practice, no source
_USUAL_DAILY_RANGE = (5.0, 5.8, 7.2, 8.5, 8.8, 8.8, 8.8, 8.6, 8.0, 6.6, 5.5, 5.0)  # K; from memory
_LATITUDE_OF_USUAL_SUN = 53.0  # °; middle of what `sun_gains.monthly_irradiance` stands for
_MIDDLE_OF_MONTH = np.array([17, 47, 75, 105, 135, 162, 198, 228, 258, 288, 318, 344.0])
_SOLAR_CONSTANT = 1367.0  # W/m²; as in the formula used; from memory

_RANGES = {
    "mean_temperature": ("mean temperature", -45.0, 45.0, "°C"),
    "daily_range": ("daily range of temperature", 1.0, 25.0, "K"),
    "relative_humidity": ("relative humidity", 0.1, 0.98, "of 1"),
    "global_horizontal": ("global radiation", 0.0, 400.0, "W/m²"),
    "wind_speed": ("wind speed", 0.3, 12.0, "m/s"),
}


@dataclass(frozen=True)
class Normals:
    """Means of each month over many years, January first; None where not known.

    Attributes:
        mean_temperature: °C.
        daily_range: K between the warmest and the coldest of a day.
        relative_humidity: 0 to 1.
        global_horizontal: W/m², night counted.
        wind_speed: m/s.
        spread: K, standard deviation of hourly temperatures about the month's mean.
    """

    mean_temperature: _Months
    daily_range: _Months | None = None
    relative_humidity: _Months | None = None
    global_horizontal: _Months | None = None
    wind_speed: _Months | None = None
    spread: float = USUAL_SPREAD

    def __post_init__(self) -> None:
        """Refuse what no place has.

        Raises:
            OutOfRange: not twelve months, or a value outside its range.
        """
        for field, (name, low, high, unit) in _RANGES.items():
            months = getattr(self, field)
            if months is None:
                continue
            if len(months) != 12:
                raise OutOfRange(
                    f"monthly {name} has {len(months)} values; it must have twelve, January first."
                )
            check_between(f"monthly {name}", np.array(months, dtype=float), low, high, unit)
        check_between("spread of hourly temperatures", self.spread, 0.5, 15.0, "K")


def normals_of(climate: Climate, mean_temperature: Sequence[float] | None = None) -> Normals:
    """What a record says of its place's months.

    Args:
        climate: of the record.
        mean_temperature: twelve, taken where the record has none; January first.

    Raises:
        Incomplete: neither the record nor the caller has twelve mean temperatures.
    """
    months = climate.monthly_mean_temperatures or mean_temperature
    if months is None:
        raise Incomplete(
            "building.climate.monthly_mean_temperatures is missing; a year of weather is made "
            "from twelve of them. Give them, or a weather_file."
        )
    return Normals(
        tuple(months),
        relative_humidity=climate.monthly_relative_humidity,
        global_horizontal=climate.monthly_global_radiation,
        wind_speed=climate.monthly_wind_speed,
        spread=USUAL_SPREAD if climate.hourly_spread is None else climate.hourly_spread,
    )


def completed(normals: Normals, latitude: float) -> tuple[Normals, tuple[str, ...]]:
    """The normals with nothing missing, and the names of what was taken without a source.

    Args:
        normals: of the place.
        latitude: of the place; a southern place gets its usual months half a year later.

    Assumes:
        The usual humidity, wind and daily range are those of a mild maritime climate. The usual
        radiation is that of such a climate at 53° over what reaches the top of the air there,
        times what reaches it here.

    Source:
        Common practice, no source; radiation SAP 2012 table U3, from memory.
    """
    usual = {
        "daily_range": _in_season(_USUAL_DAILY_RANGE, latitude),
        "relative_humidity": usual_humidity(latitude),
        "global_horizontal": _usual_sun(latitude),
        "wind_speed": _USUAL_WIND,
    }
    missing = tuple(name for name in usual if getattr(normals, name) is None)
    full = Normals(
        normals.mean_temperature,
        normals.daily_range or usual["daily_range"],
        normals.relative_humidity or usual["relative_humidity"],
        normals.global_horizontal or usual["global_horizontal"],
        normals.wind_speed or usual["wind_speed"],
        normals.spread,
    )
    return full, tuple(_RANGES[name][0] for name in missing)


def seasons_against_latitude(months: Sequence[float], latitude: float) -> str | None:
    """Why twelve mean temperatures cannot belong to a latitude; None where they can.

    Args:
        months: °C, January first.
        latitude: degrees north.

    Example:
        >>> seasons_against_latitude((16,) * 5 + (5,) * 4 + (14,) * 3, latitude=52.0)
        'July (5 °C) is colder than January (16 °C) at a latitude of 52° north: wrong hemisphere'
        >>> seasons_against_latitude((16,) * 5 + (5,) * 4 + (14,) * 3, latitude=-40.0)
    """
    january, july = months[0], months[6]
    if abs(latitude) <= _TROPIC or (january - july) * np.sign(latitude) <= _LEVEL:
        return None
    than, where = ("colder", "north") if latitude > 0.0 else ("warmer", "south")
    return (
        f"July ({round(july)} °C) is {than} than January ({round(january)} °C) at a latitude of "
        f"{abs(latitude):g}° {where}: wrong hemisphere"
    )


def check_hemisphere(months: Sequence[float], latitude: float) -> None:
    """Refuse months of the other half of the Earth.

    Raises:
        OutOfRange: north of the tropics July is colder than January, or south of them warmer.
    """
    fault = seasons_against_latitude(months, latitude)
    if fault is not None:
        raise OutOfRange(
            f"{fault}. A southern latitude is negative, and the months begin with January: "
            "check both."
        )


def usual_humidity(latitude: float) -> _Months:
    """Relative humidity of each month in a mild maritime climate, January first.

    Source:
        Common practice, no source.

    Example:
        >>> usual_humidity(52.0)[0], usual_humidity(-40.0)[0]
        (0.87, 0.8)
    """
    return _in_season(_USUAL_HUMIDITY, latitude)


def _in_season(months: _Months, latitude: float) -> _Months:
    return months if latitude >= 0.0 else (*months[6:], *months[:6])


def _usual_sun(latitude: float) -> _Months:
    clearness = np.asarray(monthly_irradiance("horizontal")) / _above_air(_LATITUDE_OF_USUAL_SUN)
    here = np.array(_in_season(tuple(clearness.tolist()), latitude)) * _above_air(latitude)
    return tuple(here.tolist())


def _above_air(latitude: float) -> Array:
    """Mean of day and night on a level plane above the air, W/m², middle of each month.

    Source:
        Duffie and Beckman, "Solar engineering of thermal processes", extraterrestrial radiation
        on a horizontal surface; from memory.
    """
    north = np.radians(latitude)
    tilt = np.radians(23.45) * np.sin(2 * np.pi * (284 + _MIDDLE_OF_MONTH) / 365)
    sunset = np.arccos(np.clip(-np.tan(north) * np.tan(tilt), -1.0, 1.0))
    distance = 1.0 + 0.033 * np.cos(2 * np.pi * _MIDDLE_OF_MONTH / 365)
    level = np.cos(north) * np.cos(tilt) * np.sin(sunset) + sunset * np.sin(north) * np.sin(tilt)
    radiation: Array = np.maximum(_SOLAR_CONSTANT / np.pi * distance * level, 0.0)
    return radiation
