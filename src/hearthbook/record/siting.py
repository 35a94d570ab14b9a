"""Where the outdoor unit stands, and what lies around it."""

from __future__ import annotations

from typing import Literal

from hearthbook.record.parts import Id, Part, Words
from hearthbook.record.quantities import Distance, Duration, SmallLength, SoundLevel

__all__ = ["Clearance", "Drain", "NearbyOpening", "NeighbourWindow", "Siting", "Soakaway"]


class Clearance(Part):
    """Free space on one side of the unit."""

    side: Literal["front", "back", "left", "right", "above"]
    """Which side, seen from in front of the fan."""
    required: SmallLength
    """What the maker's instructions ask."""
    found: SmallLength
    """What was measured on site."""


class Soakaway(Part):
    """A pit of gravel for the meltwater."""

    length: SmallLength
    """Length."""
    width: SmallLength
    """Width."""
    depth: SmallLength
    """Depth of gravel."""
    percolation_time: Duration | None = None
    """Time for 100 mm of water to sink away in a test hole."""


class Drain(Part):
    """Where condensate and meltwater go."""

    kind: Literal["soakaway", "gully", "gravel_bed", "foul_drain_with_trap", "open_ground"]
    """How they leave."""
    place: Words
    """Where, in the household's words."""
    soakaway: Soakaway | None = None
    """The pit's size."""
    crosses_path: bool = False
    """Whether water can reach a path, where ice would be slippery."""
    distance: Distance | None = None
    """From the unit to the nearest opening of the drain."""
    has_trap: bool | None = None
    """Whether water in a trap closes the drain against gas, as seen on site."""


class NearbyOpening(Part):
    """Where gas could enter a building or a drain, or where a spark could light it."""

    name: Words
    """Which one, in the household's words."""
    kind: Literal[
        "door", "window", "air_brick", "light_well", "cellar_hatch", "flue",
        "socket", "switch", "light", "other_ignition_source",
    ]  # fmt: skip
    """What it is."""
    distance: Distance
    """From the unit to its nearest edge."""


class NeighbourWindow(Part):
    """A neighbour's window at which sound is assessed."""

    id: Id
    """Referred to by readings."""
    name: Words
    """Which window."""
    distance: Distance
    """From the unit to the assessment position."""
    reflecting_surfaces: Literal[1, 2, 3]
    """Ground alone 1, ground and a wall 2, a corner 3."""
    barrier: Literal["none", "partial", "full"] = "none"
    """How far a solid barrier hides the unit."""
    limit: SoundLevel | None = None
    """The limit that applies here."""
    limit_source: str = ""
    """Where the limit comes from."""


class Siting(Part):
    """The siting's chapter of the record."""

    place: Words
    """Where the outdoor unit stands, in the household's words."""
    clearances: tuple[Clearance, ...] = ()
    """Free space required and found."""
    protective_zone: SmallLength | None = None
    """Distance kept free of openings and ignition sources, from the maker's instructions."""
    height_above_ground: SmallLength | None = None
    """Height of the unit's base above the ground."""
    openings: tuple[NearbyOpening, ...] | None = None
    """Openings and ignition sources found near the unit; an empty list where none was found."""
    drain: Drain | None = None
    """Where meltwater goes."""
    neighbours: tuple[NeighbourWindow, ...] = ()
    """Windows at which sound is assessed."""
