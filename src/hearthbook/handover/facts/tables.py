"""Tables in the notation of the texts, filled with this home's facts."""

from __future__ import annotations

from collections.abc import Sequence

from hearthbook.documents.inline import escaped
from hearthbook.handover.wording import Ready

__all__ = ["listed", "table"]


def table(
    caption: str, heads: Sequence[str], rows: Sequence[Sequence[str]], numeric: Sequence[int] = ()
) -> Ready:
    """A table as it stands in a text file; every cell is text from a record or a figure.

    Example:
        >>> print(table("Rooms", ["Room", "°C"], [["hall", "18"]], numeric=[1]))
        Table: Rooms
        | Room | °C |
        |---|--:|
        | hall | 18 |
    """
    rule = "|".join("--:" if index in numeric else "---" for index in range(len(heads)))
    lines = [f"Table: {escaped(caption)}", _line(heads), f"|{rule}|", *map(_line, rows)]
    return Ready("\n".join(lines))


def _line(cells: Sequence[str]) -> str:
    return "| " + " | ".join(escaped(cell) for cell in cells) + " |"


def listed(items: Sequence[str], conjunction: str) -> str:
    """Items as one reads them aloud.

    Example:
        >>> listed(["hall", "kitchen", "bath"], "and")
        'hall, kitchen and bath'
    """
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])} {conjunction} {items[-1]}"
