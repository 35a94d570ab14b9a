"""Formulas as text, with what is written below the line."""

from __future__ import annotations

import re
from dataclasses import dataclass

__all__ = ["Piece", "pieces"]

_BELOW = re.compile(r"_(?:\{([^}]*)\}|([^\W_]+(?:,[^\W_]+)*))")


@dataclass(frozen=True)
class Piece:
    """A run of characters, on the line or below it."""

    text: str
    sub: bool = False


def pieces(formula: str) -> tuple[Piece, ...]:
    """A formula in runs; `_word` and `_{words}` stand below the line.

    Example:
        >>> [(piece.text, piece.sub) for piece in pieces("θ_int − θ_e")]
        [('θ', False), ('int', True), (' − θ', False), ('e', True)]
    """
    found: list[Piece] = []
    position = 0
    for match in _BELOW.finditer(formula):
        found.append(Piece(formula[position : match.start()]))
        found.append(Piece(match[1] if match[1] is not None else match[2], sub=True))
        position = match.end()
    found.append(Piece(formula[position:]))
    return tuple(piece for piece in found if piece.text)
