"""The general warning sign.

Source: ISO 7010, W001, general warning sign: a triangle with an exclamation mark; drawn by us after
its description, from memory.
"""

from __future__ import annotations

from hearthbook.render.drawings.hand import INK, Stroke
from hearthbook.render.drawings.sheet import Sheet

__all__ = ["warning_sign"]

_YELLOW = "#f2b51c"  # near the safety yellow of ISO 3864; the form alone says it in grey print


def warning_sign(size: float = 28.0) -> str:
    """A triangle with an exclamation mark, as wide as the size in points.

    Example:
        >>> warning_sign(20.0).startswith("<svg")
        True
    """
    sheet = Sheet(size)
    height = size * 0.9
    edge = size * 0.075
    top, foot = edge * 0.9, height - edge * 0.8
    corners = ((size / 2, top), (size - edge, foot), (edge, foot))
    sheet.line(*corners, stroke=Stroke(INK, edge * 1.4, _YELLOW), closed=True)
    middle = size / 2
    stem = (
        (middle - size * 0.055, height * 0.36),
        (middle + size * 0.055, height * 0.36),
        (middle + size * 0.022, height * 0.64),
        (middle - size * 0.022, height * 0.64),
    )
    sheet.line(*stem, stroke=Stroke(INK, size * 0.03, INK), closed=True)
    sheet.circle((middle, height * 0.765), size * 0.052, Stroke(INK, 0.2, INK))
    return sheet.svg(height)
