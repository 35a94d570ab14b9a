"""The temperatures a home is designed for: outside at its altitude, in the ground, in each room."""

from __future__ import annotations

from dataclasses import dataclass

from hearthbook.documents.figures import KeyFigure, calculated, given
from hearthbook.errors import check_between
from hearthbook.physics import heat_loss as physics
from hearthbook.record.home import Home
from hearthbook.survey import answers

__all__ = ["Conditions", "design_conditions", "outdoor_temperature"]

_STANDARD = "EN 12831-1:2017"


@dataclass(frozen=True)
class Conditions:
    """The temperatures all rooms share at design.

    Attributes:
        outdoor: outside at this home.
        annual_mean: mean of the year outside.
        annual_variation: f_g1 of the ground.
        neighbour: on the other side of shared walls.
        supplement: for thermal bridges.
        rooms: each room's temperature, by id.
    """

    outdoor: KeyFigure
    annual_mean: KeyFigure
    annual_variation: KeyFigure
    neighbour: KeyFigure
    supplement: KeyFigure
    rooms: dict[str, KeyFigure]


def outdoor_temperature(home: Home) -> KeyFigure:
    """The design temperature outside at this home, corrected for altitude where asked.

    Raises:
        Incomplete: the record names no design temperature.
    """
    table = answers.design_outdoor_temperature(home)
    building, climate = home.building, home.building.climate
    name, label = "heat_loss.outdoor_temperature", "design temperature outside at this home"
    if (
        not climate.correct_for_altitude
        or building.altitude is None
        or climate.reference_altitude is None
    ):
        return calculated(
            name,
            label,
            table.value,
            "°C",
            formula="as in the table; not corrected for altitude",
            inputs=(table,),
            source=_STANDARD,
        )
    place = "building.altitude"
    here = given(place, "altitude of the home", building.altitude, "m", place=place)
    place = "building.climate.reference_altitude"
    station = given(
        place, "altitude of the weather station", climate.reference_altitude, "m", place=place
    )
    lapse = answers.altitude_lapse()
    value = physics.outdoor_temperature_at_altitude(
        table.value, here.value, station.value, lapse.value / 100
    )
    return calculated(
        name,
        label,
        float(value),
        "°C",
        formula="table − lapse / 100 m · (altitude − altitude of the station)",
        inputs=(table, lapse, here, station),
        source=lapse.working.source,
    )


def design_conditions(home: Home) -> Conditions:
    """The temperatures of a home at design.

    Raises:
        Incomplete: the record names no design temperature outside.
        OutOfRange: a room is not warmer than outside.
    """
    outdoor = outdoor_temperature(home)
    rooms = {room.id: answers.room_temperature(room) for room in home.building.rooms}
    for room in home.building.rooms:
        above = rooms[room.id].value - outdoor.value
        check_between(f"{room.name} above the design temperature outside", above, 1.0, 90.0, "K")
    return Conditions(
        outdoor=outdoor,
        annual_mean=answers.annual_mean_temperature(home),
        annual_variation=answers.annual_variation(),
        neighbour=answers.neighbour_temperature(home),
        supplement=answers.thermal_bridge_supplement(home),
        rooms=rooms,
    )
