"""The surfaces of a room as the record describes them: build, net area and what lies beyond."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from hearthbook.documents.figures import Basis, KeyFigure, calculated, given
from hearthbook.errors import Conflict, Incomplete
from hearthbook.record.building import Construction, Element, Opening, Room, UnheatedSpace
from hearthbook.record.home import Home
from hearthbook.survey import answers

__all__ = ["Surface", "measured", "mirrored", "outside_surfaces", "surfaces", "unheated_space"]


@dataclass(frozen=True)
class Surface:
    """A surface of a room before temperatures.

    Attributes:
        slug: its stable name within the room.
        construction: what it is made of.
        area: net of openings.
        beyond: outside, ground, neighbour, or the id of a room or an unheated space.
        note: where it was taken from, if not from the room itself.
    """

    slug: str
    construction: Construction
    area: KeyFigure
    beyond: str
    note: str = ""


def surfaces(home: Home, room: Room) -> Iterator[Surface]:
    """A room's surfaces, each opening after the element it is in.

    Raises:
        Conflict: openings are larger than the element they are in.
        Incomplete: an element has no area.
    """
    for number, element in enumerate(room.elements, start=1):
        slug = f"{number}_{element.construction}"
        gross = _gross_area(home, room, number)
        openings = tuple(
            _opening_area(room, number, place, opening)
            for place, opening in enumerate(element.openings, start=1)
        )
        construction = home.construction(element.construction)
        net = _net_area(room, slug, gross, openings)
        yield Surface(slug, construction, net, element.beyond)
        for place, (opening, area) in enumerate(
            zip(element.openings, openings, strict=True), start=1
        ):
            yield Surface(
                f"{number}_{opening.construction}_{place}",
                home.construction(opening.construction),
                area,
                element.beyond,
            )


def mirrored(home: Home, room: Room) -> Iterator[Surface]:
    """Surfaces to this room that only the room beyond lists."""
    known = {element.beyond for element in room.elements}
    for other in home.building.rooms:
        if other.id == room.id or other.id in known:
            continue
        for surface in surfaces(home, other):
            if surface.beyond == room.id:
                yield Surface(
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
        return measured(f"{place}.area", label, element.area, "m²")
    if element.width is None:
        raise Incomplete(f"{label} has no area. Give area, or width and height, in {place}.")
    width = measured(f"{place}.width", f"width of {label}", element.width, "m")
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
    return measured(f"{place}.height", f"height of {label}", element.height, "m")


def _opening_area(room: Room, number: int, place: int, opening: Opening) -> KeyFigure:
    name = f"building.rooms.{room.id}.elements.{number}.openings.{place}"
    label = f"opening {place} in surface {number} of the {room.name}"
    inputs = (
        measured(f"{name}.width", f"width of {label}", opening.width, "m"),
        measured(f"{name}.height", f"height of {label}", opening.height, "m"),
        measured(f"{name}.count", f"how many of {label}", float(opening.count), ""),
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


def measured(place: str, label: str, value: float, unit: str) -> KeyFigure:
    """A figure somebody measured on the survey."""
    return given(place, label, value, unit, place=place, basis=Basis.MEASURED)


def unheated_space(home: Home, beyond: str) -> UnheatedSpace | None:
    """The unheated space with this id; None where it is something else."""
    return next((space for space in home.building.unheated_spaces if space.id == beyond), None)


def outside_surfaces(home: Home, room: Room) -> tuple[Surface, ...]:
    """A room's surfaces to outdoor air and to unheated spaces."""
    return tuple(
        surface
        for surface in surfaces(home, room)
        if surface.beyond == "outside" or unheated_space(home, surface.beyond) is not None
    )
