"""What passes through each surface of a room, and what lies beyond it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from hearthbook.design.design_conditions import Conditions
from hearthbook.design.fabric import construction_u_value
from hearthbook.design.room_surfaces import (
    Surface,
    measured,
    mirrored,
    outside_surfaces,
    surfaces,
    unheated_space,
)
from hearthbook.documents.figures import KeyFigure, calculated, given
from hearthbook.errors import NotFound
from hearthbook.physics import heat_loss as physics
from hearthbook.record.building import Room
from hearthbook.record.home import Home
from hearthbook.survey import answers

__all__ = ["ElementLoss", "element_losses"]

_STANDARD = "EN 12831-1:2017"


@dataclass(frozen=True)
class ElementLoss:
    """What passes through one surface of a room at design.

    Attributes:
        room_id: the room that loses it.
        name: what it is and where it leads.
        kind: wall, roof, floor, ground_floor, window, door, neighbour, between_rooms or
            thermal_bridges.
        adjacent: outside, ground, neighbour, or the id of a room or an unheated space.
        area: net of openings; the length for a listed thermal bridge.
        u_value: of the surface.
        coefficient: W/K, referred to the difference between the room and outside.
        loss: W; negative where a warmer room gives heat.
    """

    room_id: str
    name: str
    kind: str
    adjacent: str
    area: KeyFigure
    u_value: KeyFigure
    coefficient: KeyFigure
    loss: KeyFigure


def element_losses(home: Home, room: Room, conditions: Conditions) -> tuple[ElementLoss, ...]:
    """What passes through each surface of a room.

    A wall between two rooms that only the other room lists counts here too, so that what one room
    gains another loses.

    Raises:
        Conflict: openings are larger than the element they are in.
        Incomplete: an element has no area.
    """
    found = (*surfaces(home, room), *mirrored(home, room))
    listed = tuple(_loss(home, room, surface, conditions) for surface in found)
    return (*listed, *_linear_bridges(home, room, conditions))


def _loss(home: Home, room: Room, surface: Surface, conditions: Conditions) -> ElementLoss:
    name = f"heat_loss.rooms.{room.id}.elements.{surface.slug}"
    words = f"{surface.construction.name}, {_towards(home, surface.beyond)}"
    is_outside = surface.beyond in {"outside", "ground"}
    u_value = construction_u_value(
        home, surface.construction, "outside" if is_outside else "inside"
    )
    has_supplement = is_outside or unheated_space(home, surface.beyond) is not None
    supplement = conditions.supplement if has_supplement else None
    factor = _factor(home, room, surface.beyond, conditions)
    coefficient = calculated(
        f"{name}.coefficient",
        f"{words}: heat for each kelvin to outside",
        float(
            physics.transmission_coefficient(
                surface.area.value,
                u_value.value,
                supplement.value if supplement else 0.0,
                factor.value if factor else 1.0,
            )
        ),
        "W/K",
        formula=_coefficient_formula(supplement, factor),
        inputs=tuple(f for f in (surface.area, u_value, supplement, factor) if f is not None),
        source=f"{_STANDARD}, transmission",
        note=surface.note,
    )
    return ElementLoss(
        room_id=room.id,
        name=words,
        kind=_kind(home, surface),
        adjacent=surface.beyond,
        area=surface.area,
        u_value=u_value,
        coefficient=coefficient,
        loss=_flow(name, words, coefficient, room, conditions),
    )


def _coefficient_formula(supplement: KeyFigure | None, factor: KeyFigure | None) -> str:
    transmittance = "(U + ΔU)" if supplement else "U"
    return f"A · {transmittance}" + (" · f" if factor else "")


def _flow(
    name: str, words: str, coefficient: KeyFigure, room: Room, conditions: Conditions
) -> KeyFigure:
    inside = conditions.rooms[room.id]
    return calculated(
        f"{name}.loss",
        f"{words}: loss",
        float(physics.heat_flow(coefficient.value, inside.value, conditions.outdoor.value)),
        "W",
        formula="H · (room − outside)",
        inputs=(coefficient, inside, conditions.outdoor),
        source=f"{_STANDARD}, transmission",
    )


def _towards(home: Home, beyond: str) -> str:
    fixed = {"outside": "to outside", "ground": "to the ground", "neighbour": "to the neighbour"}
    if beyond in fixed:
        return fixed[beyond]
    space = unheated_space(home, beyond)
    if space is not None:
        return f"to {space.name}"
    names = {room.id: room.name for room in home.building.rooms}
    return f"to the {names.get(beyond, beyond)}"


def _kind(home: Home, surface: Surface) -> str:
    if surface.beyond == "neighbour":
        return "neighbour"
    if any(room.id == surface.beyond for room in home.building.rooms):
        return "between_rooms"
    kind = surface.construction.kind.value
    return "roof" if kind == "ceiling" else kind


def _factor(home: Home, room: Room, beyond: str, conditions: Conditions) -> KeyFigure | None:
    """The share of the difference to outside that acts; None to outside, where it is one."""
    if beyond == "outside":
        return None
    if beyond == "ground":
        return _ground_factor(room, conditions)
    space = unheated_space(home, beyond)
    if space is not None and space.temperature is None:
        return answers.unheated_factor(space)
    there = _temperature_beyond(home, room, beyond, conditions)
    return _factor_to(room, beyond, there, conditions)


def _temperature_beyond(home: Home, room: Room, beyond: str, conditions: Conditions) -> KeyFigure:
    space = unheated_space(home, beyond)
    if space is not None and space.temperature is not None:
        place = f"building.unheated_spaces.{space.id}.temperature"
        return given(place, f"temperature of {space.name}", space.temperature, "°C", place=place)
    if beyond == "neighbour":
        return conditions.neighbour
    if beyond not in conditions.rooms:
        raise NotFound(f"the {room.name} borders on '{beyond}', which is not in the record.")
    return conditions.rooms[beyond]


def _factor_to(room: Room, beyond: str, there: KeyFigure, conditions: Conditions) -> KeyFigure:
    inside, outside = conditions.rooms[room.id], conditions.outdoor
    return calculated(
        f"heat_loss.rooms.{room.id}.factor_to_{beyond}",
        f"share of the full difference that acts, {room.name} to {beyond.replace('_', ' ')}",
        float(physics.temperature_factor(inside.value, there.value, outside.value)),
        "",
        formula="(room − beyond) / (room − outside)",
        inputs=(inside, there, outside),
        source=f"{_STANDARD}, temperature adjustment",
        decimals=3,
    )


def _ground_factor(room: Room, conditions: Conditions) -> KeyFigure:
    inside, outside = conditions.rooms[room.id], conditions.outdoor
    mean, variation = conditions.annual_mean, conditions.annual_variation
    value = physics.ground_temperature_factor(
        inside.value, mean.value, outside.value, variation.value
    )
    return calculated(
        f"heat_loss.rooms.{room.id}.factor_to_ground",
        f"share of the full difference that acts, {room.name} to the ground",
        float(value),
        "",
        formula="f_g1 · (room − mean of the year) / (room − outside)",
        inputs=(variation, inside, mean, outside),
        source=f"{_STANDARD}, ground",
        decimals=3,
    )


def _linear_bridges(home: Home, room: Room, conditions: Conditions) -> Iterator[ElementLoss]:
    """Bridges listed one by one for the dwelling, shared out by the rooms' outside surfaces."""
    bridges = home.building.thermal_bridges
    if not bridges or not outside_surfaces(home, room):
        return
    share = _bridge_share(home, room)
    for number, bridge in enumerate(bridges, start=1):
        place = f"building.thermal_bridges.{number}"
        name = f"heat_loss.rooms.{room.id}.elements.bridge_{number}"
        words = f"thermal bridge, {bridge.name}"
        length = measured(f"{place}.length", f"length of {bridge.name}", bridge.length, "m")
        transmittance = given(
            f"{place}.transmittance",
            f"Ψ of {bridge.name}",
            bridge.transmittance,
            "W/(m·K)",
            place=f"{place}.transmittance",
        )
        coefficient = calculated(
            f"{name}.coefficient",
            f"{words}: heat for each kelvin to outside",
            bridge.length * bridge.transmittance * share.value,
            "W/K",
            formula="length · Ψ · share",
            inputs=(length, transmittance, share),
            source=f"{_STANDARD}, linear thermal bridges",
        )
        loss = _flow(name, words, coefficient, room, conditions)
        yield ElementLoss(
            room.id, words, "thermal_bridges", "outside", length, transmittance, coefficient, loss
        )


def _bridge_share(home: Home, room: Room) -> KeyFigure:
    own = tuple(surface.area for surface in outside_surfaces(home, room))
    whole = tuple(
        surface.area for each in home.building.rooms for surface in outside_surfaces(home, each)
    )
    return calculated(
        f"heat_loss.rooms.{room.id}.bridge_share",
        f"the {room.name}'s share of the outside surfaces",
        sum(area.value for area in own) / sum(area.value for area in whole),
        "%",
        formula="outside surfaces of the room / of the dwelling",
        inputs=whole,
        source="common practice, no source",
    )
