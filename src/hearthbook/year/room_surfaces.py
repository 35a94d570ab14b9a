"""The surfaces of each room as the year's model needs them: build, area, loss, what lies beyond."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from hearthbook.design.heat_loss import ElementLoss, RoomLoss
from hearthbook.design.room_surfaces import Surface, mirrored, surfaces, unheated_space
from hearthbook.record.building import Construction, ConstructionKind, Room, ThermalMass
from hearthbook.record.home import Home
from hearthbook.survey import answers
from hearthbook.year.builds import Build, half_of, layered_build, partition_build, usual_build
from hearthbook.year.room_masses import Part, RoomSurface

__all__ = ["RoomFabric", "fabric_of_rooms", "mass_class"]

_SURFACES_FOR_FLOOR = 4.5  # m² of inside surface for each m² of floor; ISO 13790:2008, 7.2.2.2
_MASSLESS = {ConstructionKind.WINDOW, ConstructionKind.DOOR}
_LIGHT_WORDS = ("stud", "timber frame", "timber-frame")
_OVERHEAD = {ConstructionKind.ROOF, ConstructionKind.CEILING}


@dataclass(frozen=True)
class RoomFabric:
    """What encloses one room.

    Attributes:
        surfaces: that store heat.
        air_outside: W/K that passes no mass: windows, doors, thermal bridges.
        walls_to: W/K to each other room, by its id.
        stand_ins: the constructions whose leaves were assumed.
        unlisted: m² of inside surface that the record does not list.
    """

    surfaces: tuple[RoomSurface, ...]
    air_outside: float
    walls_to: dict[str, float]
    stand_ins: frozenset[str]
    unlisted: float


def mass_class(home: Home) -> ThermalMass:
    """How heavily the home is built; medium where nobody said."""
    return home.building.thermal_mass or ThermalMass.MEDIUM


def fabric_of_rooms(home: Home, rooms: tuple[RoomLoss, ...]) -> tuple[RoomFabric, ...]:
    """The fabric of each room, from the same surfaces and U-values as its heat loss."""
    return tuple(_fabric(home, room) for room in rooms)


def _fabric(home: Home, room: RoomLoss) -> RoomFabric:
    air_outside, walls_to = 0.0, dict[str, float]()
    massive: list[RoomSurface] = []
    stand_ins: set[str] = set()
    for surface, element in _pairs(home, room):
        if surface is None:  # a thermal bridge listed by its length
            air_outside += element.coefficient.value
            continue
        if element.kind == "between_rooms":
            through = element.area.value * element.u_value.value
            walls_to[surface.beyond] = walls_to.get(surface.beyond, 0.0) + through
        if surface.construction.kind in _MASSLESS:
            air_outside += 0.0 if element.kind == "between_rooms" else element.coefficient.value
            continue
        if not element.area.value > 0:  # a wall that is all window
            continue
        one, bridges = _massive(home, surface, element)
        massive.append(one)
        air_outside += bridges
        if one.build.is_usual:
            stand_ins.add(surface.construction.name)
    within, unlisted = _within(home, room, massive)
    return RoomFabric(
        surfaces=(*massive, *within),
        air_outside=air_outside,
        walls_to=walls_to,
        stand_ins=frozenset(stand_ins),
        unlisted=unlisted,
    )


def _pairs(home: Home, room: RoomLoss) -> Iterator[tuple[Surface | None, ElementLoss]]:
    """Each surface with its loss; the loss calculation lists them in this order."""
    found: list[Surface | None] = [*surfaces(home, room.room), *mirrored(home, room.room)]
    found += [None] * (len(room.elements) - len(found))
    return zip(found, room.elements, strict=True)


def _massive(home: Home, surface: Surface, element: ElementLoss) -> tuple[RoomSurface, float]:
    """A surface that stores heat, and what its thermal bridges pass beside it, W/K."""
    area, u_value = element.area.value, element.u_value.value
    build = _build(home, surface.construction, u_value)
    if element.kind == "neighbour":
        return RoomSurface("neighbour", area, half_of(build), area * u_value), 0.0
    if element.kind == "between_rooms":
        return RoomSurface("inside", area, half_of(build)), 0.0
    if element.adjacent == "ground":
        return _on_ground(home, surface, area, build, u_value), 0.0
    return _to_cold(home, element, area, build)


def _on_ground(
    home: Home, surface: Surface, area: float, build: Build, u_value: float
) -> RoomSurface:
    """A floor on the ground: it loses with its bridges, as the heat-loss calculation has it."""
    supplement = answers.thermal_bridge_supplement(home).value
    floor = surface.construction.ground
    part: Part = "suspended" if floor is not None and floor.is_suspended else "ground"
    return RoomSurface(part, area, build, area * (u_value + supplement))


def _to_cold(
    home: Home, element: ElementLoss, area: float, build: Build
) -> tuple[RoomSurface, float]:
    """A surface to outdoors or an unheated space, and what its bridges pass beside it."""
    u_value = element.u_value.value
    supplement = answers.thermal_bridge_supplement(home).value
    through = element.coefficient.value * u_value / (u_value + supplement)
    has_bridges = element.adjacent == "outside" or unheated_space(home, element.adjacent)
    if not has_bridges:
        through = element.coefficient.value
    if not through > 0:  # an unheated space as warm as the room
        return RoomSurface("inside", area, build), 0.0
    return RoomSurface("outside", area, build, through), element.coefficient.value - through


def _build(home: Home, construction: Construction, u_value: float) -> Build:
    recorded = layered_build(construction)
    if recorded is not None:
        return recorded
    is_light = any(word in construction.name.casefold() for word in _LIGHT_WORDS)
    mass = ThermalMass.LIGHT if is_light else mass_class(home)
    is_suspended = construction.ground is not None and construction.ground.is_suspended
    if is_suspended:
        mass = ThermalMass.LIGHT
    return usual_build(construction.kind, mass, u_value)


def _within(
    home: Home, room: RoomLoss, massive: list[RoomSurface]
) -> tuple[list[RoomSurface], float]:
    """What lies inside the home and nobody lists: floors between storeys, partitions."""
    mass, floor = mass_class(home), room.floor_area.value
    kinds = [
        (surface.construction.kind, surface.beyond)
        for surface in surfaces(home, room.room)
        if surface.beyond != room.room.id
    ]
    found: list[RoomSurface] = []
    below = {ConstructionKind.FLOOR, ConstructionKind.GROUND_FLOOR}
    if not any(kind in below for kind, _ in kinds):
        found.append(RoomSurface("floor_inside", floor, partition_build(mass, is_floor=True)))
    if not any(kind in _OVERHEAD for kind, _ in kinds) and _has_storey_above(home, room.room):
        found.append(RoomSurface("inside", floor, partition_build(mass, is_ceiling=True)))
    listed = sum(one.area for one in (*massive, *found))
    unlisted = max(_SURFACES_FOR_FLOOR * floor - listed, 0.0)
    if unlisted > 0:
        found.append(RoomSurface("inside", unlisted, partition_build(mass)))
    return found, unlisted


def _has_storey_above(home: Home, room: Room) -> bool:
    return room.storey != home.building.storeys[-1].id
