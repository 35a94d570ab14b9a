"""A home as the compiled loop needs it: rooms, emitters, plant and glass, in arrays."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hearthbook.kernel.parameters import Emitters, Links, Performance, Rooms

__all__ = ["Glazing", "HomeModel"]


@dataclass(frozen=True)
class Glazing:
    """All glass of a home that looks one way.

    Attributes:
        azimuth: degrees clockwise from north that it looks to.
        tilt: degrees from horizontal; 90 is upright.
        areas: m² for each room, as open to the sun: area · (1 - frame) · g · shading.
    """

    azimuth: float
    tilt: float
    areas: NDArray[np.float64]


@dataclass(frozen=True)
class HomeModel:
    """One home in arrays.

    Attributes:
        rooms: air and fabric.
        links: ways between rooms.
        emitters: with their valves.
        performance: the unit's map.
        plant: one record of `PLANT`.
        glazing: the glass.
        room_ids: of the record, in the order of the arrays.
        room_names: as the household calls them.
        emitter_ids: of the record, in the order of the arrays.
    """

    rooms: Rooms
    links: Links
    emitters: Emitters
    performance: Performance
    plant: NDArray[np.void]
    glazing: tuple[Glazing, ...]
    room_ids: tuple[str, ...]
    room_names: tuple[str, ...]
    emitter_ids: tuple[str, ...]
