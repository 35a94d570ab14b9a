"""A statement of the record that contradicts another, or the world."""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass

from hearthbook.units import to_trade

__all__ = ["Contradiction", "Path", "nearest", "spelled"]

Path = tuple[str | int, ...]


@dataclass(frozen=True)
class Contradiction:
    """One statement that cannot stand beside the others.

    Attributes:
        path: keys and positions that lead to the value, from the record's top.
        message: what is wrong, what is allowed and what to do.
        is_reference: a name that points at nothing, or at two things.
    """

    path: Path
    message: str
    is_reference: bool = False


def nearest(word: str, known: Iterable[str]) -> str:
    """The sentence that offers the known word most like this one; empty where none is like it.

    Example:
        >>> nearest("kitchn", ["kitchen", "hall"])
        " Did you mean 'kitchen'?"
    """
    close = difflib.get_close_matches(word, sorted(known), n=1, cutoff=0.6)
    return f" Did you mean '{close[0]}'?" if close else ""


def spelled(value: float, symbol: str) -> str:
    """An SI value as it would be written in a record.

    Example:
        >>> spelled(0.0125, "mm"), spelled(300_000.0, "bar"), spelled(0.4, "")
        ('12.5 mm', '3 bar', '0.4')
    """
    return f"{to_trade(value, symbol):.6g} {symbol}".strip()
