"""A figure of many simulated years with its range."""

from __future__ import annotations

from dataclasses import dataclass

from hearthbook.documents.figures import KeyFigure

__all__ = ["Band"]


@dataclass(frozen=True)
class Band:
    """A number of the year with its range.

    Attributes:
        low: one draw in ten lies below.
        middle: half of them do.
        high: one in ten lies above.
    """

    low: KeyFigure
    middle: KeyFigure
    high: KeyFigure
