"""Weather for a home whose record names no file: made from what the record says of the place."""

from __future__ import annotations

from hearthbook.design.heating_season import monthly_means
from hearthbook.documents.figures import KeyFigure, assumed
from hearthbook.record.home import Home
from hearthbook.simulate.monthly_normals import normals_of
from hearthbook.simulate.weather import Weather
from hearthbook.simulate.weather_generator import generate

__all__ = ["weather_figures", "weather_of_home"]

_LATITUDE = 53.0  # °; middle of what the usual monthly means stand for, from memory
_LONGITUDE = 0.0  # °; places the sun's noon only
_MEMORY = "mild maritime climate, from memory"


def weather_of_home(home: Home, *, seed: int = 1, years: int = 1) -> Weather:
    """A plausible weather of the home's place, marked as generated.

    Args:
        home: its climate's monthly values, where recorded.
        seed: the same seed makes the same weather.
        years: how many.

    Raises:
        OutOfRange: months that cannot belong to the latitude.
    """
    building = home.building
    means = [month.value for month in monthly_means(building.climate)]
    return generate(
        normals_of(building.climate, means),
        _LATITUDE if building.latitude is None else building.latitude,
        _LONGITUDE if building.longitude is None else building.longitude,
        building.altitude or 0.0,
        seed,
        years,
    )


def weather_figures(home: Home) -> tuple[KeyFigure, ...]:
    """What stood in for unanswered questions about the place."""
    building = home.building
    found = []
    if building.latitude is None:
        found.append(assumed("year.assumed.latitude", "latitude", _LATITUDE, "°", source=_MEMORY,
                             note="not answered: building.latitude"))  # fmt: skip
    if building.longitude is None:
        found.append(assumed("year.assumed.longitude", "longitude", _LONGITUDE, "°",
                             source=_MEMORY, note="not answered: building.longitude"))  # fmt: skip
    return tuple(found)
