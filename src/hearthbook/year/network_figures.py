"""What the network of rooms rests on, as figures a person can look up."""

from __future__ import annotations

from hearthbook.design.heat_loss import HeatLoss
from hearthbook.documents.figures import KeyFigure, assumed, calculated, given
from hearthbook.kernel.parameters import Rooms
from hearthbook.record.home import Home
from hearthbook.year.room_surfaces import RoomFabric, mass_class

__all__ = ["DOOR", "GAIN_RADIANT", "STAIRS", "network_figures"]

DOOR = 28.0  # W/K; an open door passes some 140 W/K at 2 K between rooms, and stands open a fifth
STAIRS = 100.0  # W/K; a stairwell is an opening that never shuts
GAIN_RADIANT = 0.5  # share of people's and appliances' warmth
_PRACTICE = "common practice, no source"


def network_figures(
    home: Home, loss: HeatLoss, fabric: tuple[RoomFabric, ...], rooms: Rooms
) -> tuple[KeyFigure, ...]:
    """What the network of rooms rests on beyond the heat-loss calculation."""
    stand_ins = sorted(set().union(*(each.stand_ins for each in fabric)))
    return (
        *_stored(home, loss, rooms, stand_ins),
        calculated(
            "year.rooms.unlisted_surfaces", "inside surfaces the record does not list",
            sum(each.unlisted for each in fabric), "m²",
            formula="4.5 · floor area − surfaces listed, at least 0", inputs=(loss.floor_area,),
            source="ISO 13790:2008, simple hourly method; from memory",
            note="partitions as is usual for the home's weight",
        ),
        assumed(
            "year.rooms.door", "air through a door, averaged over how long it stands open", DOOR,
            "W/K", source=_PRACTICE, note="some 140 W/K while open, open a fifth of the time; "
            "every room opens to the passage of its storey",
        ),
        assumed(
            "year.rooms.stairs", "air up and down the stairs", STAIRS, "W/K", source=_PRACTICE,
        ),
        assumed(
            "year.rooms.gain_radiant", "radiant share of people's and appliances' warmth",
            GAIN_RADIANT, "%", source=_PRACTICE,
        ),
    )  # fmt: skip


def _stored(
    home: Home, loss: HeatLoss, rooms: Rooms, stand_ins: list[str]
) -> tuple[KeyFigure, ...]:
    mass, place = mass_class(home), "building.thermal_mass"
    label = "weight of the build: 0 light, 1 medium, 2 heavy"
    level = float(["light", "medium", "heavy"].index(mass.value))
    weight = (
        assumed("year.rooms.weight", label, level, "", source=_PRACTICE,
                note=f"not answered: {place}")
        if home.building.thermal_mass is None
        else given("year.rooms.weight", label, level, "", place=place)
    )  # fmt: skip
    inner = float((rooms.air_capacity + rooms.inner_capacity + rooms.floor_capacity).sum())
    usual = (
        f"leaves as usual for this weight where layers are not recorded: {', '.join(stand_ins)}"
        if stand_ins
        else ""
    )
    return (
        weight,
        calculated(
            "year.rooms.stored_inside", "heat that air, inner walls and floors hold",
            inner, "kWh/K", formula="Σ areas · capacity of the reduced layers",
            inputs=(loss.floor_area, weight),
            source="ISO 13786:2017; densities by material, ISO 10456:2007, from memory", note=usual,
        ),
        calculated(
            "year.rooms.stored_outside", "heat that the outer part of walls and roof holds",
            float(rooms.outer_capacity.sum()), "kWh/K",
            formula="Σ areas · capacity of the reduced layers", inputs=(loss.floor_area, weight),
            source="ISO 13786:2017; densities by material, ISO 10456:2007, from memory",
        ),
    )  # fmt: skip
