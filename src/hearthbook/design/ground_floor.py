"""The U-value of a floor on the ground, soil included, from the record."""

from __future__ import annotations

from hearthbook.documents.figures import Basis, KeyFigure, calculated, given
from hearthbook.errors import Incomplete
from hearthbook.physics import fabric, ground
from hearthbook.record.building import Construction, Room
from hearthbook.record.home import Home
from hearthbook.survey.answers import basis_of, room_height, soil_conductivity
from hearthbook.survey.typical import answered, typical_value

__all__ = ["ground_floor_u_value"]

_STANDARD = "ISO 13370:2017"


def ground_floor_u_value(
    home: Home, construction: Construction, name: str, layers: tuple[KeyFigure, ...]
) -> KeyFigure:
    """The U-value of a slab or a suspended floor, the ground below included.

    Args:
        home: whose rooms tell area and edge where they were not written down.
        construction: of kind ground floor.
        name: of the figure.
        layers: resistances of the floor's layers.
    """
    resistance = calculated(
        f"{name}.resistance",
        f"resistance of the layers of {construction.name}",
        sum(layer.value for layer in layers),
        "m²·K/W",
        formula="Σ R of the layers",
        inputs=layers,
        source="ISO 6946:2017",
    )
    area, edge = _area(home, construction), _edge(home, construction)
    wall, soil = _wall_thickness(construction), soil_conductivity(home, construction.id)
    if construction.ground is not None and construction.ground.is_suspended:
        return _suspended(construction, name, resistance, (area, edge, wall, soil))
    value = ground.slab_u_value(
        area=area.value,
        exposed_perimeter=edge.value,
        wall_thickness=wall.value,
        soil_conductivity=soil.value,
        floor_resistance=resistance.value,
    )
    return calculated(
        name,
        f"U-value of {construction.name}, soil included",
        float(value),
        "W/(m²·K)",
        formula="2λ / (πB′ + d) · ln(πB′/d + 1), or λ / (0.457 B′ + d) where d ≥ B′; "
        "B′ = A / (P/2), d = w + λ (0.17 + R + 0.04)",
        inputs=(area, edge, wall, soil, resistance),
        source=f"{_STANDARD}, slab-on-ground floors",
    )


def _suspended(
    construction: Construction,
    name: str,
    resistance: KeyFigure,
    ground_figures: tuple[KeyFigure, ...],
) -> KeyFigure:
    area, edge, wall, soil = ground_figures
    usual = tuple(
        typical_value(subject, name=f"assumptions.{subject}", label=label)
        for subject, label in (
            ("suspended_floor_height", "height of the floor above the ground outside"),
            ("suspended_floor_wall_u_value", "U-value of the walls below the floor"),
            ("suspended_floor_vents", "vent area over the length of the edge"),
            ("wind_speed", "mean wind"),
            ("wind_shielding", "wind shielding factor"),
        )
    )
    floor = 1 / (resistance.value + 2 * fabric.INSIDE_DOWNWARD)
    value = ground.suspended_floor_u_value(
        floor, area.value, edge.value, wall.value, soil.value, *(figure.value for figure in usual)
    )
    return calculated(
        name,
        f"U-value of {construction.name}, vented space and soil included",
        float(value),
        "W/(m²·K)",
        formula="1 / (1/Uf + 1/(Ug + Ux)); Uf = 1 / (R + 2 · 0.17), "
        "Ug = 2λ / (πB′ + d) · ln(πB′/d + 1), Ux = 2 h Uw/B′ + 1450 ε v f/B′",
        inputs=(area, edge, wall, soil, resistance, *usual),
        source=f"{_STANDARD}, suspended floors",
    )


def _rooms_on(home: Home, construction: Construction) -> tuple[Room, ...]:
    return tuple(
        room
        for room in home.building.rooms
        if any(
            element.construction == construction.id and element.beyond == "ground"
            for element in room.elements
        )
    )


def _area(home: Home, construction: Construction) -> KeyFigure:
    name = f"building.constructions.{construction.id}.ground.area"
    label = f"area of {construction.name}"
    if construction.ground is not None and construction.ground.area is not None:
        basis = basis_of(construction.evidence)
        return given(name, label, construction.ground.area, "m²", place=name, basis=basis)
    parts = tuple(
        given(
            f"building.rooms.{room.id}.elements.{number}.area",
            f"floor of the {room.name}",
            element.area
            if element.area is not None
            else (element.width or 0) * (element.height or 0),
            "m²",
            place=f"building.rooms.{room.id}.elements[{number}]",
            basis=Basis.MEASURED,
        )
        for room in _rooms_on(home, construction)
        for number, element in enumerate(room.elements, start=1)
        if element.construction == construction.id
    )
    total = sum(part.value for part in parts)
    return calculated(
        name, label, total, "m²", formula="Σ rooms' floors", inputs=parts, source="geometry"
    )


def _edge(home: Home, construction: Construction) -> KeyFigure:
    """The exposed edge: as written down, or the outside walls of the rooms on this floor."""
    name = f"building.constructions.{construction.id}.ground.exposed_perimeter"
    label = f"exposed edge of {construction.name}"
    if construction.ground is not None:
        basis = basis_of(construction.evidence)
        value = construction.ground.exposed_perimeter
        return given(name, label, value, "m", place=name, basis=basis)
    walls = tuple(
        _wall_length(home, room, number)
        for room in _rooms_on(home, construction)
        for number, element in enumerate(room.elements, start=1)
        if element.beyond == "outside" and home.construction(element.construction).kind == "wall"
    )
    total = sum(wall.value for wall in walls)
    if total <= 0:
        raise Incomplete(
            f"{construction.name} has no exposed edge. Give ground.exposed_perimeter, or its "
            "U-value."
        )
    return calculated(
        name,
        label,
        total,
        "m",
        formula="Σ lengths of the outside walls of the rooms on it",
        inputs=walls,
        source="geometry",
    )


def _wall_length(home: Home, room: Room, number: int) -> KeyFigure:
    element = room.elements[number - 1]
    height = element.height or room_height(home, room).value
    length = element.width if element.width is not None else (element.area or 0.0) / height
    return given(
        f"building.rooms.{room.id}.elements.{number}.width",
        f"outside wall {number} of the {room.name}",
        length,
        "m",
        place=f"building.rooms.{room.id}.elements[{number}]",
        basis=Basis.MEASURED,
    )


def _wall_thickness(construction: Construction) -> KeyFigure:
    return answered(
        construction.ground.wall_thickness if construction.ground is not None else None,
        "wall_thickness",
        name=f"building.constructions.{construction.id}.ground.wall_thickness",
        label="thickness of the outside wall",
        basis=basis_of(construction.evidence),
    )
