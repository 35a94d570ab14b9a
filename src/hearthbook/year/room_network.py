"""The rooms of a home as air and masses, joined by walls and doors, for the year's model.

With every room at its wanted temperature, steady weather, and the ground as the heat-loss
calculation has it, the network loses what that calculation says.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations, pairwise

import numpy as np
from numpy.typing import NDArray

from hearthbook.design.heat_loss import HeatLoss, RoomLoss
from hearthbook.design.results import Design
from hearthbook.documents.figures import KeyFigure
from hearthbook.kernel.parameters import Links, Rooms
from hearthbook.physics.heat_loss import ground_temperature_factor, temperature_factor
from hearthbook.record.building import Room, RoomUse
from hearthbook.record.home import Home
from hearthbook.simulate.home_model import Glazing
from hearthbook.survey.answers import annual_variation, neighbour_temperature
from hearthbook.year.glazing import glazing, glazing_figures
from hearthbook.year.leakage import room_leakage
from hearthbook.year.network_checks import check_network
from hearthbook.year.network_figures import DOOR, GAIN_RADIANT, STAIRS, network_figures
from hearthbook.year.room_masses import room_masses
from hearthbook.year.room_surfaces import RoomFabric, fabric_of_rooms

__all__ = ["RoomNetwork", "network_of", "room_network"]

_PASSAGES = {RoomUse.HALL, RoomUse.LANDING}


@dataclass(frozen=True)
class RoomNetwork:
    """The rooms of a home as the compiled loop needs them.

    Attributes:
        rooms: air and fabric.
        links: walls and doors between them.
        glazing: the glass.
        assumptions: what the network rests on beyond the heat-loss calculation.
        room_ids: of the record, in the order of the arrays.
        room_names: as the household calls them.
    """

    rooms: Rooms
    links: Links
    glazing: tuple[Glazing, ...]
    assumptions: tuple[KeyFigure, ...]
    room_ids: tuple[str, ...]
    room_names: tuple[str, ...]


def room_network(design: Design) -> RoomNetwork:
    """The rooms of a designed home.

    Raises:
        Incomplete: a room has no way to lose heat.
        OutOfRange: a room is too light, or too well joined to others, for steps of a minute.
    """
    return network_of(design.home, design.heat_loss)


def network_of(home: Home, loss: HeatLoss) -> RoomNetwork:
    """The same from record and heat loss alone."""
    fabric = fabric_of_rooms(home, loss.rooms)
    air = room_leakage(home, loss)
    neighbour = float(neighbour_temperature(home).value)
    columns = [
        room_masses(
            each.surfaces,
            room.floor_area.value,
            _warmth(loss, room),
            _drives(loss, room, neighbour),
        )
        for each, room in zip(fabric, loss.rooms, strict=True)
    ]
    count = len(columns)
    rooms = Rooms(
        **{name: np.array([column[name] for column in columns]) for name in columns[0]},
        air_outer=np.zeros(count),
        air_outside=np.array([each.air_outside for each in fabric]),
        neighbour_temperature=np.full(count, neighbour),
        infiltration=air.leakage,
        ventilation=air.fans,
        gain_radiant=np.full(count, GAIN_RADIANT),
        solar_factor=np.ones(count),
        gain_factor=np.ones(count),
        wanted_shift=np.zeros(count),
    )
    names = tuple(room.room.name for room in loss.rooms)
    links = _links(home, fabric, rooms)
    check_network(rooms, links, names)
    return RoomNetwork(
        rooms=rooms,
        links=links,
        glazing=glazing(home),
        assumptions=(
            *air.figures,
            *glazing_figures(home),
            *network_figures(home, loss, fabric, rooms),
        ),
        room_ids=tuple(room.room.id for room in loss.rooms),
        room_names=names,
    )


def _warmth(loss: HeatLoss, room: RoomLoss) -> float:
    """W/K a room takes at design, with its part of the dwelling's air."""
    air = loss.ventilation.value / sum(one.ventilation.value for one in loss.rooms)
    heat = room.transmission.value + air * room.ventilation.value
    return float(heat / (room.temperature.value - loss.outdoor_temperature.value))


def _drives(loss: HeatLoss, room: RoomLoss, neighbour: float) -> tuple[float, float]:
    """Shares of the full difference to outdoors that act to the neighbour and to the ground."""
    inside, outdoor = room.temperature.value, loss.outdoor_temperature.value
    mean, variation = loss.annual_mean_temperature.value, annual_variation().value
    to_ground = ground_temperature_factor(inside, mean, outdoor, variation)
    return float(temperature_factor(inside, neighbour, outdoor)), float(to_ground)


def _links(home: Home, fabric: tuple[RoomFabric, ...], rooms: Rooms) -> Links:
    """Walls as listed, and the doors a home must have to be walked through."""
    listed = home.building.rooms
    walls: dict[tuple[int, int], float] = {}
    for (one, first), (other, second) in combinations(enumerate(listed), 2):
        sides = [fabric[one].walls_to.get(second.id), fabric[other].walls_to.get(first.id)]
        known = [side for side in sides if side is not None]
        if known:
            walls[one, other] = _between_masses(sum(known) / len(known), rooms, one, other)
    doors = _doors(home)
    pairs = sorted({*walls, *doors})
    return Links(
        first=np.array([pair[0] for pair in pairs], dtype=np.int64),
        second=np.array([pair[1] for pair in pairs], dtype=np.int64),
        wall=np.array([walls.get(pair, 0.0) for pair in pairs], dtype=float),
        air=np.array([doors.get(pair, 0.0) for pair in pairs], dtype=float),
    )


def _between_masses(through: float, rooms: Rooms, one: int, other: int) -> float:
    """W/K between two rooms' inner masses that lets `through` pass between their airs."""
    way = sum(1.0 / _from_air(rooms)[room] for room in (one, other))
    return float(1.0 / max(1.0 / through - way, 0.2 / through))


def _from_air(rooms: Rooms) -> NDArray[np.float64]:
    """W/K from a room's air to its inner mass, straight and by way of the floor."""
    by_floor = rooms.air_floor + rooms.inner_floor
    return np.asarray(rooms.air_inner + rooms.air_floor * rooms.inner_floor / by_floor)


def _doors(home: Home) -> dict[tuple[int, int], float]:
    """Each room opens to the passage of its storey, and the passages to one another."""
    rooms = home.building.rooms
    hubs = {storey.id: _hub(rooms, storey.id) for storey in home.building.storeys}
    doors: dict[tuple[int, int], float] = {}
    for number, room in enumerate(rooms):
        hub = hubs[room.storey]
        if hub is not None and hub != number:
            doors[min(hub, number), max(hub, number)] = DOOR
    levels = [hub for hub in hubs.values() if hub is not None]
    for lower, upper in pairwise(levels):
        doors[min(lower, upper), max(lower, upper)] = STAIRS
    return doors


def _hub(rooms: tuple[Room, ...], storey: str) -> int | None:
    """The passage of a storey, else its first room."""
    here = [number for number, room in enumerate(rooms) if room.storey == storey]
    passages = [number for number in here if rooms[number].use in _PASSAGES]
    return next(iter((*passages, *here)), None)
