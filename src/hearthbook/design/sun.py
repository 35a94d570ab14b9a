"""Warmth from the sun through this home's windows, as far as its record says."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hearthbook.documents.figures import KeyFigure, assumed, calculated, given
from hearthbook.physics import sun_gains as physics
from hearthbook.record.building import ConstructionKind, Element, Opening
from hearthbook.record.home import Home
from hearthbook.record.parts import Orientation

__all__ = ["Sun", "sun_through_windows"]

_TRANSMITTANCE = (
    0.63  # double glazing with a soft low-emission coat; SAP 2012 table 6b, from memory
)
_FRAME = 0.3  # SAP 2012 table 6c, from memory
_SHADING = 0.77  # average overshading; SAP 2012 table 6d, from memory

_FACING: dict[Orientation | None, physics.Facing] = {
    None: "any",
    Orientation.NORTH: "north",
    Orientation.NORTH_EAST: "north",
    Orientation.NORTH_WEST: "north",
    Orientation.EAST: "east_or_west",
    Orientation.WEST: "east_or_west",
    Orientation.SOUTH: "south",
    Orientation.SOUTH_EAST: "south",
    Orientation.SOUTH_WEST: "south",
    Orientation.HORIZONTAL: "horizontal",
}


@dataclass(frozen=True)
class Sun:
    """Warmth from the sun.

    Attributes:
        by_month: mean warmth in W, January first.
        heating_season: mean of October to April.
    """

    by_month: NDArray[np.float64]
    heating_season: KeyFigure


def sun_through_windows(home: Home) -> Sun:
    """The mean warmth of each month."""
    by_month = np.zeros(12)
    windows = []
    for figure, area, facing in _windows(home):
        windows.append(figure)
        gain = physics.solar_gain(area, physics.monthly_irradiance(facing))
        by_month += np.asarray(gain, dtype=float)
    season = float(np.mean(by_month[[9, 10, 11, 0, 1, 2, 3]]))
    months = calculated(
        "energy.sun", "warmth from the sun, mean of October to April", season, "W",
        formula="Σ 0.9 · window · g · (1 - frame) · shading · sunshine on its side",
        inputs=(*_usual(), *windows), uncertainty=0.4 * season,
        source="SAP 2012, solar gains; sunshine of a mild maritime climate; from memory",
    )  # fmt: skip
    return Sun(by_month, months)


def _usual() -> tuple[KeyFigure, ...]:
    memory, note = "SAP 2012, from memory", "where a window's own is not recorded"
    return (
        assumed("energy.glass_transmittance", "sun that glass lets through", _TRANSMITTANCE, "%",
                source=memory, note=note),
        assumed("energy.frame_share", "window taken by its frame", _FRAME, "%", source=memory,
                note=note),
        assumed("energy.shading", "sun that gets past trees and neighbours", _SHADING, "%",
                source=memory, note=note),
    )  # fmt: skip


def _windows(home: Home) -> Iterator[tuple[KeyFigure, float, physics.Facing]]:
    """Each window as a figure, its area open to the sun, and where it looks."""
    kinds = {each.id: each.kind for each in home.building.constructions}
    for room in home.building.rooms:
        for number, element in enumerate(room.elements, start=1):
            for place, opening in enumerate(element.openings, start=1):
                if kinds.get(opening.construction) is not ConstructionKind.WINDOW:
                    continue
                name = f"building.rooms.{room.id}.elements.{number}.openings.{place}.area"
                area = opening.width * opening.height * opening.count
                figure = given(name, f"window of the {room.name}", area, "m²",
                               place=name.removesuffix(".area"))  # fmt: skip
                yield figure, _open(opening, area), _facing(element, opening)


def _open(opening: Opening, area: float) -> float:
    def or_usual(value: float | None, usual: float) -> float:
        return usual if value is None else value

    return float(
        physics.open_area(
            area,
            or_usual(opening.solar_transmittance, _TRANSMITTANCE),
            or_usual(opening.frame_fraction, _FRAME),
            or_usual(opening.shading, _SHADING),
        )
    )


def _facing(element: Element, opening: Opening) -> physics.Facing:
    return _FACING[opening.orientation or element.orientation]
