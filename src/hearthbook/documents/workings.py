"""A working laid out line by line, each figure worked out once."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from hearthbook.documents.figures import KeyFigure

__all__ = ["WorkingLine", "working_lines"]


@dataclass(frozen=True)
class WorkingLine:
    """One figure of a working.

    Attributes:
        depth: how many figures it serves above it; 0 for the figure asked about.
        figure: the figure.
        is_repeated: whether its own working was laid out before, and is not again.
    """

    depth: int
    figure: KeyFigure
    is_repeated: bool


def working_lines(figure: KeyFigure, seen: set[str] | None = None) -> Iterator[WorkingLine]:
    """The figure and all that it rests on, depth first.

    Args:
        figure: what is explained.
        seen: names already worked out; added to as the lines are made.
    """
    yield from _lines(figure, 0, set() if seen is None else seen)


def _lines(figure: KeyFigure, depth: int, seen: set[str]) -> Iterator[WorkingLine]:
    """The lines from one figure down."""
    repeated = bool(figure.working.inputs) and figure.name in seen
    yield WorkingLine(depth, figure, repeated)
    if repeated:
        return
    seen.add(figure.name)
    for part in figure.working.inputs:
        yield from _lines(part, depth + 1, seen)
