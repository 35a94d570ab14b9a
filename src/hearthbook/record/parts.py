"""What every part of a record shares: strictness, identifiers, evidence."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import BaseModel, ConfigDict, StringConstraints

__all__ = ["Evidence", "Id", "Orientation", "Part", "Words"]

Id = Annotated[str, StringConstraints(pattern=r"^[a-z][a-z0-9_]*$", max_length=60)]
Words = Annotated[str, StringConstraints(min_length=1, max_length=2000, strip_whitespace=True)]


class Part(BaseModel):
    """A part of a record: frozen, and refusing keys it does not know."""

    model_config = ConfigDict(
        frozen=True,
        extra="forbid",
        use_attribute_docstrings=True,
        str_max_length=4000,
        defer_build=True,
    )


class Evidence(StrEnum):
    """How an answer is known."""

    SEEN = "seen"
    """Somebody of the firm saw or measured it."""
    DOCUMENTED = "documented"
    """A drawing, certificate or maker's sheet says so."""
    ASSUMED = "assumed"
    """Nobody knows; a usual value stands in."""


class Orientation(StrEnum):
    """Which way a wall or an opening looks."""

    NORTH = "north"
    NORTH_EAST = "north_east"
    EAST = "east"
    SOUTH_EAST = "south_east"
    SOUTH = "south"
    SOUTH_WEST = "south_west"
    WEST = "west"
    NORTH_WEST = "north_west"
    HORIZONTAL = "horizontal"
