"""The windows of a home by the way they look, as open to the sun."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from hearthbook.documents.figures import KeyFigure, assumed
from hearthbook.record.building import ConstructionKind, Element, Opening
from hearthbook.record.home import Home
from hearthbook.record.parts import Orientation
from hearthbook.simulate.home_model import Glazing

__all__ = ["glazing", "glazing_figures"]

_TRANSMITTANCE = 0.63  # double glazing, soft low-emission coat; SAP 2012 table 6b, from memory
_FRAME = 0.3  # SAP 2012 table 6c, from memory
_SHADING = 0.77  # average overshading; SAP 2012 table 6d, from memory
_UPRIGHT = 90.0
_AZIMUTH = {
    Orientation.NORTH: 0.0,
    Orientation.NORTH_EAST: 45.0,
    Orientation.EAST: 90.0,
    Orientation.SOUTH_EAST: 135.0,
    Orientation.SOUTH: 180.0,
    Orientation.SOUTH_WEST: 225.0,
    Orientation.WEST: 270.0,
    Orientation.NORTH_WEST: 315.0,
}
_ALL_ROUND = (0.0, 90.0, 180.0, 270.0)


def glazing(home: Home) -> tuple[Glazing, ...]:
    """The glass of a home: one entry for each way some of it looks.

    A window of which nobody wrote down which way it looks counts a quarter to each side.
    """
    count = len(home.building.rooms)
    areas: dict[tuple[float, float], np.ndarray[tuple[int], np.dtype[np.float64]]] = {}
    for room, element, opening in _windows(home):
        ways = _ways(opening.orientation or element.orientation)
        for way in ways:
            areas.setdefault(way, np.zeros(count))[room] += _open(opening) / len(ways)
    return tuple(Glazing(azimuth, tilt, areas[azimuth, tilt]) for azimuth, tilt in sorted(areas))


def _windows(home: Home) -> Iterator[tuple[int, Element, Opening]]:
    kinds = {each.id: each.kind for each in home.building.constructions}
    for number, room in enumerate(home.building.rooms):
        for element in room.elements:
            if element.beyond != "outside":
                continue
            for opening in element.openings:
                if kinds.get(opening.construction) is ConstructionKind.WINDOW:
                    yield number, element, opening


def _ways(orientation: Orientation | None) -> tuple[tuple[float, float], ...]:
    if orientation is None:
        return tuple((azimuth, _UPRIGHT) for azimuth in _ALL_ROUND)
    if orientation is Orientation.HORIZONTAL:
        return ((180.0, 0.0),)
    return ((_AZIMUTH[orientation], _UPRIGHT),)


def _open(opening: Opening) -> float:
    def or_usual(value: float | None, usual: float) -> float:
        return usual if value is None else value

    area = opening.width * opening.height * opening.count
    through = or_usual(opening.solar_transmittance, _TRANSMITTANCE)
    past = or_usual(opening.shading, _SHADING)
    return area * (1.0 - or_usual(opening.frame_fraction, _FRAME)) * through * past


def glazing_figures(home: Home) -> tuple[KeyFigure, ...]:
    """What was assumed of windows of which the record does not say it."""
    openings = [opening for _, _, opening in _windows(home)]
    usual = (
        ("glass_transmittance", "sun that glass lets through", _TRANSMITTANCE,
         any(one.solar_transmittance is None for one in openings)),
        ("frame_share", "window taken by its frame", _FRAME,
         any(one.frame_fraction is None for one in openings)),
        ("shading", "sun that gets past trees and neighbours", _SHADING,
         any(one.shading is None for one in openings)),
    )  # fmt: skip
    return tuple(
        assumed(f"year.rooms.{name}", label, value, "%", source="SAP 2012, from memory",
                note="where a window's own is not recorded")
        for name, label, value, is_used in usual if is_used
    )  # fmt: skip
