"""The errors a caller may meet, in one small tree.

HearthbookError
├── OutOfRange     a value lies outside what the method or the trade allows
├── Incomplete     a fact without a defensible default is missing
├── NotFound       a name points at nothing in the record
├── Unreadable     a file cannot be understood; carries every fault found in it
└── Conflict       two statements of the record contradict each other

A message says which thing, the value with its unit, what is allowed and what to do next.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from hearthbook.units import Number

__all__ = [
    "Conflict",
    "Fault",
    "HearthbookError",
    "Incomplete",
    "NotFound",
    "OutOfRange",
    "Unreadable",
    "check_between",
]


class HearthbookError(Exception):
    """Anything Hearthbook refuses, in words for the person who asked."""


class OutOfRange(HearthbookError):
    """A value lies outside what the method or the trade allows."""


class Incomplete(HearthbookError):
    """A fact without a defensible default is missing."""


class NotFound(HearthbookError):
    """A name points at nothing in the record."""


class Conflict(HearthbookError):
    """Two statements of the record contradict each other."""


@dataclass(frozen=True)
class Fault:
    """One thing wrong in a file.

    Attributes:
        place: the path of the value as the user knows it, such as `property.rooms[2].height`.
        message: what is wrong, with the value, what is allowed and what to do.
        line: the line in the file, counted from 1; None when the place has no line.
    """

    place: str
    message: str
    line: int | None = None

    def __str__(self) -> str:
        """The fault as one line for a person."""
        where = f"line {self.line}, " if self.line is not None else ""
        return f"{where}{self.place}: {self.message}"


class Unreadable(HearthbookError):
    """A file cannot be understood; carries every fault found in it."""

    def __init__(self, source: str, faults: Sequence[Fault]) -> None:
        """Keep the faults, ordered by line."""
        self.source = source
        self.faults = tuple(sorted(faults, key=lambda fault: (fault.line or 0, fault.place)))
        count = len(self.faults)
        noun = "fault" if count == 1 else "faults"
        lines = "\n".join(f"  {fault}" for fault in self.faults)
        super().__init__(f"{source} has {count} {noun}:\n{lines}")


def check_between(name: str, value: Number, low: float, high: float, unit: str) -> None:
    """Refuse a value outside its range, saying what is allowed.

    Args:
        name: the thing as the trade calls it.
        value: a number or array, in the unit given.
        low: the smallest value allowed.
        high: the largest value allowed.
        unit: the unit's symbol, printed beside the numbers.

    Raises:
        OutOfRange: any element is not a number, or lies outside.

    Example:
        >>> check_between("flow temperature", 90.0, 20.0, 75.0, "°C")
        Traceback (most recent call last):
        hearthbook.errors.OutOfRange: flow temperature is 90 °C; it must lie between 20 and 75 °C.
    """
    if isinstance(value, float) and low <= value <= high:
        return  # by far the most frequent case, and quick without an array
    values = np.asarray(value, dtype=float)
    wrong = ~((values >= low) & (values <= high))
    if np.any(wrong):
        worst = float(values[wrong].flat[0]) if values.ndim else float(values)
        message = (
            f"{name} is {worst:.6g} {unit}; it must lie between {low:.6g} and {high:.6g} {unit}."
        )
        raise OutOfRange(message.replace(" ;", ";").replace(" .", "."))
