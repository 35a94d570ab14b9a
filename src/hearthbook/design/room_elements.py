"""What passes through each surface of a room, and what lies beyond it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from hearthbook.design.fabric import construction_u_value
from hearthbook.documents.figures import Basis, KeyFigure, calculated, given
from hearthbook.errors import Conflict, Incomplete, NotFound
from hearthbook.physics import heat_loss as physics
from hearthbook.record.building import Construction, Element, Opening, Room, UnheatedSpace
from hearthbook.record.home import Home
from hearthbook.survey import answers

__all__ = ["Conditions", "ElementLoss", "element_losses"]

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


@dataclass(frozen=True)
class _Surface:
    """A surface of a room before temperatures: its stable name, build, net area and far side."""

    slug: str
    construction: Construction
    area: KeyFigure
    beyond: str
    note: str = ""


def element_losses(home: Home, room: Room, conditions: Conditions) -> tuple[ElementLoss, ...]:
    """What passes through each surface of a room.

    A wall between two rooms that only the other room lists counts here too, so that what one room
    gains another loses.

    Raises:
        Conflict: openings are larger than the element they are in.
        Incomplete: an element has no area.
    """
    surfaces = (*_surfaces(home, room), *_mirrored(home, room))
    listed = tuple(_loss(home, room, surface, conditions) for surface in surfaces)
    return (*listed, *_linear_bridges(home, room, conditions))


def _surfaces(home: Home, room: Room) -> Iterator[_Surface]:
    for number, element in enumerate(room.elements, start=1):
        slug = f"{number}_{element.construction}"
        gross = _gross_area(home, room, number)
        openings = tuple(
            _opening_area(room, number, place, opening)
            for place, opening in enumerate(element.openings, start=1)
        )
        construction = home.construction(element.construction)
        net = _net_area(room, slug, gross, openings)
        yield _Surface(slug, construction, net, element.beyond)
        for place, (opening, area) in enumerate(
            zip(element.openings, openings, strict=True), start=1
        ):
            yield _Surface(
                f"{number}_{opening.construction}_{place}",
                home.construction(opening.construction),
                area,
                element.beyond,
            )


def _mirrored(home: Home, room: Room) -> Iterator[_Surface]:
    """Surfaces to this room that only the room beyond lists."""
    known = {element.beyond for element in room.elements}
    for other in home.building.rooms:
        if other.id == room.id or other.id in known:
            continue
        for surface in _surfaces(home, other):
            if surface.beyond == room.id:
                yield _Surface(
                    f"from_{other.id}_{surface.slug}",
                    surface.construction,
                    surface.area,
                    other.id,
                    note=f"listed under the {other.name} only",
                )


def _gross_area(home: Home, room: Room, number: int) -> KeyFigure:
    element = room.elements[number - 1]
    place = f"building.rooms.{room.id}.elements.{number}"
    label = f"surface {number} of the {room.name}"
    if element.area is not None:
        return _measured(f"{place}.area", label, element.area, "m²")
    if element.width is None:
        raise Incomplete(f"{label} has no area. Give area, or width and height, in {place}.")
    width = _measured(f"{place}.width", f"width of {label}", element.width, "m")
    height = _height(home, room, element, place, label)
    return calculated(
        f"{place}.area",
        label,
        width.value * height.value,
        "m²",
        formula="width × height",
        inputs=(width, height),
        source="geometry",
    )


def _height(home: Home, room: Room, element: Element, place: str, label: str) -> KeyFigure:
    if element.height is None:
        return answers.room_height(home, room)
    return _measured(f"{place}.height", f"height of {label}", element.height, "m")


def _opening_area(room: Room, number: int, place: int, opening: Opening) -> KeyFigure:
    name = f"building.rooms.{room.id}.elements.{number}.openings.{place}"
    label = f"opening {place} in surface {number} of the {room.name}"
    inputs = (
        _measured(f"{name}.width", f"width of {label}", opening.width, "m"),
        _measured(f"{name}.height", f"height of {label}", opening.height, "m"),
        _measured(f"{name}.count", f"how many of {label}", float(opening.count), ""),
    )
    return calculated(
        f"{name}.area",
        label,
        opening.width * opening.height * opening.count,
        "m²",
        formula="width × height × count",
        inputs=inputs,
        source="geometry",
    )


def _net_area(
    room: Room, slug: str, gross: KeyFigure, openings: tuple[KeyFigure, ...]
) -> KeyFigure:
    if not openings:
        return gross
    net = gross.value - sum(opening.value for opening in openings)
    if net < 0:
        taken = gross.value - net
        raise Conflict(
            f"{gross.label} is {gross.value:.2f} m², but its openings take {taken:.2f} m². "
            "Check their sizes."
        )
    return calculated(
        f"heat_loss.rooms.{room.id}.elements.{slug}.area",
        f"{gross.label}, without openings",
        net,
        "m²",
        formula="gross area − Σ openings",
        inputs=(gross, *openings),
        source="geometry",
    )


def _measured(place: str, label: str, value: float, unit: str) -> KeyFigure:
    return given(place, label, value, unit, place=place, basis=Basis.MEASURED)


def _loss(home: Home, room: Room, surface: _Surface, conditions: Conditions) -> ElementLoss:
    name = f"heat_loss.rooms.{room.id}.elements.{surface.slug}"
    words = f"{surface.construction.name}, {_towards(home, surface.beyond)}"
    is_outside = surface.beyond in {"outside", "ground"}
    u_value = construction_u_value(
        home, surface.construction, "outside" if is_outside else "inside"
    )
    has_supplement = is_outside or _is_unheated(home, surface.beyond)
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


def _unheated_space(home: Home, beyond: str) -> UnheatedSpace | None:
    return next((space for space in home.building.unheated_spaces if space.id == beyond), None)


def _is_unheated(home: Home, beyond: str) -> bool:
    return _unheated_space(home, beyond) is not None


def _towards(home: Home, beyond: str) -> str:
    fixed = {"outside": "to outside", "ground": "to the ground", "neighbour": "to the neighbour"}
    if beyond in fixed:
        return fixed[beyond]
    space = _unheated_space(home, beyond)
    if space is not None:
        return f"to {space.name}"
    names = {room.id: room.name for room in home.building.rooms}
    return f"to the {names.get(beyond, beyond)}"


def _kind(home: Home, surface: _Surface) -> str:
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
    space = _unheated_space(home, beyond)
    if space is not None and space.temperature is None:
        return answers.unheated_factor(space)
    there = _temperature_beyond(home, room, beyond, conditions)
    return _factor_to(room, beyond, there, conditions)


def _temperature_beyond(home: Home, room: Room, beyond: str, conditions: Conditions) -> KeyFigure:
    space = _unheated_space(home, beyond)
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


def _outside_area(home: Home, room: Room) -> float:
    return sum(
        surface.area.value
        for surface in _surfaces(home, room)
        if surface.beyond == "outside" or _is_unheated(home, surface.beyond)
    )


def _linear_bridges(home: Home, room: Room, conditions: Conditions) -> Iterator[ElementLoss]:
    """Bridges listed one by one for the dwelling, shared out by the rooms' outside surfaces."""
    if _outside_area(home, room) <= 0:
        return
    share = _bridge_share(home, room)
    for number, bridge in enumerate(home.building.thermal_bridges, start=1):
        place = f"building.thermal_bridges.{number}"
        name = f"heat_loss.rooms.{room.id}.elements.bridge_{number}"
        words = f"thermal bridge, {bridge.name}"
        length = _measured(f"{place}.length", f"length of {bridge.name}", bridge.length, "m")
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
    whole = sum(_outside_area(home, each) for each in home.building.rooms)
    return calculated(
        f"heat_loss.rooms.{room.id}.bridge_share",
        f"the {room.name}'s share of the outside surfaces",
        _outside_area(home, room) / whole,
        "%",
        formula="outside surfaces of the room / of the dwelling",
        inputs=tuple(
            surface.area
            for each in home.building.rooms
            for surface in _surfaces(home, each)
            if surface.beyond == "outside" or _is_unheated(home, surface.beyond)
        ),
        source="common practice, no source",
    )
