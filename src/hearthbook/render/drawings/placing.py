"""Where things go so that none lies on another."""

from __future__ import annotations

from collections.abc import Sequence

__all__ = ["columns", "spread"]


def columns(count: int, width: float, least: float, gap: float) -> tuple[tuple[float, ...], float]:
    """Left edges of as many equal columns as fit, no more than wanted; and their width.

    Example:
        >>> columns(4, 100.0, 45.0, 10.0)
        ((0.0, 55.0), 45.0)
    """
    fitting = max(1, min(count, int((width + gap) // (least + gap))))
    each = (width - gap * (fitting - 1)) / fitting
    return tuple(index * (each + gap) for index in range(fitting)), each


def spread(
    wanted: Sequence[float], heights: Sequence[float], gap: float, room: tuple[float, float]
) -> list[float]:
    """Tops of blocks one under another, each as near to where it is wanted as the others let it.

    Args:
        wanted: the top each block would take on its own, in rising order.
        heights: of the blocks.
        gap: kept between two blocks.
        room: top and bottom of the space they share; blocks too many for it run out below.

    Example:
        >>> spread([0.0, 4.0, 30.0], [10.0, 10.0, 10.0], 2.0, (0.0, 100.0))
        [0.0, 12.0, 30.0]
        >>> spread([80.0, 95.0], [10.0, 10.0], 2.0, (0.0, 100.0))
        [78.0, 90.0]
    """
    tops = list(wanted)
    floor = room[1]
    for index in reversed(range(len(tops))):
        tops[index] = min(tops[index], floor - heights[index])
        floor = tops[index] - gap
    ceiling = room[0]
    for index, height in enumerate(heights):
        tops[index] = max(tops[index], ceiling)
        ceiling = tops[index] + height + gap
    return tops
