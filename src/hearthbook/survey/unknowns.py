"""What is still to be found out: answers that nobody may assume, and assumptions that weigh."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from hearthbook.record.base import Evidence
from hearthbook.record.building import Construction, ConstructionKind, Layer
from hearthbook.record.home import Home

__all__ = ["Unknown", "unknowns"]


@dataclass(frozen=True)
class Unknown:
    """An answer still to be found out.

    Attributes:
        place: where in the record it belongs.
        question: what to ask or measure.
        why: what it decides.
        is_needed: whether the design stops without it; otherwise a usual value stands in.
    """

    place: str
    question: str
    why: str
    is_needed: bool = False


def unknowns(home: Home) -> tuple[Unknown, ...]:
    """Everything still to be found out about a home, what stops the design first."""
    found = [unknown for ask in _QUESTIONS for unknown in ask(home)]
    return tuple(sorted(found, key=lambda unknown: not unknown.is_needed))


def _climate(home: Home) -> Iterator[Unknown]:
    building, climate = home.building, home.building.climate
    if climate.design_outdoor_temperature is None:
        yield Unknown(
            "building.climate.design_outdoor_temperature",
            "Which design temperature outside holds for this place, and on which percentile?",
            "It sets every room's loss and the size of the heat pump.",
            is_needed=True,
        )
    elif not climate.design_basis:
        yield Unknown(
            "building.climate.design_basis",
            "Which table and percentile does the design temperature outside come from?",
            "A figure without its percentile cannot be checked by anybody else.",
        )
    if not climate.correct_for_altitude:
        return
    for value, place, question in (
        (building.altitude, "building.altitude", "How high above the sea does the home stand?"),
        (
            climate.reference_altitude,
            "building.climate.reference_altitude",
            "How high above the sea is the weather station of the design temperature?",
        ),
    ):
        if value is None:
            why = "Each 100 m of height makes it 0.6 K colder; until then nothing is taken off."
            yield Unknown(place, question, why)


def _constructions(home: Home) -> Iterator[Unknown]:
    for construction in home.building.constructions:
        place = f"building.constructions.{construction.id}"
        if not _is_described(construction):
            yield Unknown(
                place,
                f"What is the {construction.name} made of, or what is its U-value?",
                "Without it the loss through it rests on the age of the home alone.",
                is_needed=home.building.built is None,
            )
        elif construction.evidence is Evidence.ASSUMED:
            yield Unknown(
                place,
                f"How is it really built: {construction.name}?",
                "Its U-value is assumed; measure it, or look, before a heat pump is ordered.",
            )
        yield from _layers(construction, place)


def _is_described(construction: Construction) -> bool:
    return (
        construction.u_value is not None
        or bool(construction.layers)
        or construction.typical is not None
        or (construction.kind is ConstructionKind.GROUND_FLOOR and construction.ground is not None)
    )


def _layers(construction: Construction, place: str) -> Iterator[Unknown]:
    if construction.u_value is not None:
        return
    for number, layer in enumerate(construction.layers, start=1):
        missing = _missing_of(layer)
        if missing:
            yield Unknown(
                f"{place}.layers.{number}.{missing}",
                f"What is the {missing} of the {layer.material} in the {construction.name}?",
                "The U-value of the whole construction cannot be computed without it.",
                is_needed=True,
            )


def _missing_of(layer: Layer) -> str | None:
    if layer.thickness is None and (layer.resistance is None or layer.bridge is not None):
        return "thickness"
    if layer.resistance is None and layer.conductivity is None and not layer.is_air:
        return "conductivity"
    return None


def _rooms(home: Home) -> Iterator[Unknown]:
    for room in home.building.rooms:
        place = f"building.rooms.{room.id}"
        if room.floor_area is None and (room.length is None or room.width is None):
            yield Unknown(
                f"{place}.floor_area",
                f"How large is the floor of the {room.name}?",
                "Its air, its share of the mean temperature and its heat for each m² rest on it.",
                is_needed=True,
            )
        for number, element in enumerate(room.elements, start=1):
            if element.area is None and element.width is None:
                yield Unknown(
                    f"{place}.elements.{number}.area",
                    f"How large is surface {number} of the {room.name}?",
                    "Its loss cannot be computed without it.",
                    is_needed=True,
                )


def _two_sided(home: Home) -> Iterator[Unknown]:
    """Walls between two rooms that measure differently from each side."""
    rooms = home.building.rooms
    sizes = {
        (room.id, other.id): sum(
            (element.area or 0.0)
            if element.area is not None
            else (element.width or 0.0)
            * (element.height or room.height or home.storey(room.storey).height)
            for element in room.elements
            if element.beyond == other.id
        )
        for room in rooms
        for other in rooms
    }
    for first, room in enumerate(rooms):
        for other in rooms[first + 1 :]:
            one, two = sizes[room.id, other.id], sizes[other.id, room.id]
            if one > 0 and two > 0 and abs(one - two) > 0.05 * max(one, two):
                yield Unknown(
                    f"building.rooms.{room.id}.elements",
                    f"Is what lies between the {room.name} and the {other.name} {one:.1f} m² or "
                    f"{two:.1f} m²?",
                    "Seen from its two rooms it has two sizes, so heat between them does not "
                    "cancel.",
                )


def _ventilation(home: Home) -> Iterator[Unknown]:
    building = home.building
    ventilation = building.ventilation
    is_rated = all(room.air_changes is not None for room in building.rooms)
    if ventilation.air_changes_at_50_pascals is None and not is_rated:
        yield Unknown(
            "building.ventilation.air_changes_at_50_pascals",
            "How tight is the home? Is there a pressure test, or can one be made?",
            "Usual air changes often overstate the loss of a home that has been tightened.",
        )


_QUESTIONS: tuple[Callable[[Home], Iterator[Unknown]], ...] = (
    _climate,
    _rooms,
    _constructions,
    _two_sided,
    _ventilation,
)
