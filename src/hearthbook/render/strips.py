"""A drawing too tall for a page in large print, cut into strips where least is cut through."""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import pairwise

from hearthbook.render.pictures import Drawn

__all__ = ["strips"]

_ELEMENT = re.compile(r"<(?P<tag>\w+)\b[^>]*?(?:/>|>[^<]*</(?P=tag)>)")
_ATTRIBUTE = re.compile(r'([\w-]+)="([^"]*)"')
_POINT = re.compile(r"-?[\d.]+,(-?[\d.]+)")
_CORNER = re.compile(r"(?:[ML]|[01] [01] )-?[\d.]+ (-?[\d.]+)")
_STEP = 2.0  # between two heights at which a cut is tried


@dataclass(frozen=True)
class _Piece:
    """One element of a drawing, and the heights between which it lies."""

    written: str
    top: float
    bottom: float


def strips(drawing: Drawn, most: float) -> tuple[Drawn, ...]:
    """The drawing in strips no higher than asked for, from the top down.

    Args:
        drawing: flat, as the sheet gives it: no groups, no transforms.
        most: height of a strip, in the drawing's own points.

    Assumes:
        Lines longer than half a strip, such as pipes and frames, may be cut; they go on below.
    """
    if drawing.height <= most:
        return (drawing,)
    head, _, rest = drawing.svg.partition(">")
    pieces = [_piece(found) for found in _ELEMENT.finditer(rest)]
    whole = [piece for piece in pieces if piece.bottom - piece.top < most / 2]
    cuts = [0.0]
    while drawing.height - cuts[-1] > most:
        cuts.append(_cut(whole, cuts[-1], most))
    cuts.append(drawing.height)
    return tuple(
        _strip(head, pieces, drawing.width, (top, bottom)) for top, bottom in pairwise(cuts)
    )


def _cut(pieces: list[_Piece], start: float, most: float) -> float:
    """The middle of the widest gap in the strip's lower half; of equal ones, the lowest."""
    count = int(most / 2 / _STEP)
    heights = [start + most - _STEP * index for index in range(count)]
    crossed = [sum(one.top < at < one.bottom for one in pieces) for at in heights]
    gaps: list[list[float]] = [[]]
    for at, number in zip(heights, crossed, strict=True):
        if number == min(crossed):
            gaps[-1].append(at)
        elif gaps[-1]:
            gaps.append([])
    widest = max(gaps, key=len)
    return widest[len(widest) // 2]


def _strip(head: str, pieces: list[_Piece], width: float, edges: tuple[float, float]) -> Drawn:
    """What lies between two heights, as a drawing of its own."""
    top, bottom = edges
    height = bottom - top
    view = f'viewBox="0 {top:.2f} {width:.2f} {height:.2f}"'
    opened = re.sub(r'viewBox="[^"]*"', view, head)
    opened = re.sub(r' height="[\d.]+pt"', f' height="{height:.2f}pt"', opened)
    kept = "".join(one.written for one in pieces if one.bottom >= top and one.top <= bottom)
    return Drawn(f"{opened}>{kept}</svg>", width, height)


def _piece(found: re.Match[str]) -> _Piece:
    """An element with its heights; one whose heights are unknown is taken to be everywhere."""
    said = dict(_ATTRIBUTE.findall(found[0]))
    heights = _heights(found["tag"], said)
    if not heights:
        return _Piece(found[0], 0.0, float("inf"))
    return _Piece(found[0], min(heights), max(heights))


def _heights(tag: str, said: dict[str, str]) -> list[float]:
    """Heights that an element reaches."""
    if tag == "text":
        baseline, size = float(said["y"]), float(said["font-size"])
        return [baseline - size, baseline + 0.3 * size]
    if tag == "circle":
        centre, radius = float(said["cy"]), float(said["r"])
        return [centre - radius, centre + radius]
    if tag == "rect":
        return [float(said["y"]), float(said["y"]) + float(said["height"])]
    pattern = _POINT if tag in {"polyline", "polygon"} else _CORNER
    return [float(one) for one in pattern.findall(said.get("points", said.get("d", "")))]
