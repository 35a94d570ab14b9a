"""The sheet a drawing is made on.

A sheet is measured in points of the printed page when its wide form is set 160 mm wide. The narrow
form is laid out anew on fewer points: set 160 mm wide, its smallest lettering is 16 point, for
large print; on a telephone it stays legible. Only plain shapes are drawn, without patterns,
markers, clips or identifiers, so that several drawings can stand in one page and every renderer
draws the same.
"""

from __future__ import annotations

import math
from html import escape
from typing import Literal

from hearthbook.render.drawings.hand import (
    FAINT_LINE,
    INK,
    LABEL,
    OUTLINE,
    PAPER,
    PLAIN,
    Lettering,
    Stroke,
)
from hearthbook.render.drawings.text_width import LINE_HEIGHT, wrapped

__all__ = [
    "NARROW",
    "WIDE",
    "Anchor",
    "Layout",
    "Point",
    "Sheet",
    "on_circle",
    "sheet_width",
    "words_height",
]

Layout = Literal["wide", "narrow"]
Anchor = Literal["start", "middle", "end"]
Point = tuple[float, float]

WIDE = 454.0  # 160 mm in points
NARROW = 284.0  # so that 10 becomes 16 point when set 160 mm wide

_ASCENT = 0.76  # of the text size, from the top of a line to its baseline


def sheet_width(layout: Layout) -> float:
    """Width of a sheet in its layout."""
    return WIDE if layout == "wide" else NARROW


def on_circle(centre: Point, radius: float, degrees: float) -> Point:
    """The point at an angle, clockwise from twelve o'clock."""
    turn = math.radians(degrees)
    return centre[0] + radius * math.sin(turn), centre[1] - radius * math.cos(turn)


def words_height(text: str, width: float, lettering: Lettering = PLAIN) -> float:
    """Height that words take when they are broken into lines of a width."""
    lines = wrapped(text, width, lettering.size, bold=lettering.bold)
    return len(lines) * lettering.size * LINE_HEIGHT


class Sheet:
    """A sheet that is drawn on, and then given out as SVG."""

    def __init__(self, width: float) -> None:
        """Begin an empty sheet."""
        self.width = width
        self._elements: list[str] = []

    def line(self, *points: Point, stroke: Stroke = OUTLINE, closed: bool = False) -> None:
        """A line through the points, with rounded joins and ends."""
        tag = "polygon" if closed else "polyline"
        at = " ".join(f"{_n(x)},{_n(y)}" for x, y in points)
        self._elements.append(f'<{tag} points="{at}" {_style(stroke)}/>')

    def rect(
        self, corner: Point, size: Point, stroke: Stroke = OUTLINE, radius: float = 2.0
    ) -> None:
        """A box with slightly rounded corners, from its top left."""
        self._elements.append(
            f'<rect x="{_n(corner[0])}" y="{_n(corner[1])}" width="{_n(size[0])}" '
            f'height="{_n(size[1])}" rx="{_n(radius)}" {_style(stroke)}/>'
        )

    def circle(self, centre: Point, radius: float, stroke: Stroke = OUTLINE) -> None:
        """A circle."""
        self._elements.append(
            f'<circle cx="{_n(centre[0])}" cy="{_n(centre[1])}" r="{_n(radius)}" {_style(stroke)}/>'
        )

    def arc(self, centre: Point, radius: float, angles: Point, stroke: Stroke = OUTLINE) -> None:
        """Part of a circle, clockwise between two angles counted from twelve o'clock."""
        (x0, y0), (x1, y1) = (on_circle(centre, radius, angle) for angle in angles)
        large = 1 if angles[1] - angles[0] > 180 else 0
        r = _n(radius)
        self.curve(f"M{_n(x0)} {_n(y0)}A{r} {r} 0 {large} 1 {_n(x1)} {_n(y1)}", stroke)

    def sector(self, centre: Point, radii: Point, angles: Point, stroke: Stroke) -> None:
        """A stretch of a ring between two radii, clockwise between two angles."""
        large = 1 if angles[1] - angles[0] > 180 else 0
        inner, outer = (_n(radius) for radius in radii)
        a, b = (on_circle(centre, radii[1], angle) for angle in angles)
        d, c = (on_circle(centre, radii[0], angle) for angle in angles)
        self.curve(
            f"M{_n(a[0])} {_n(a[1])}A{outer} {outer} 0 {large} 1 {_n(b[0])} {_n(b[1])}"
            f"L{_n(c[0])} {_n(c[1])}A{inner} {inner} 0 {large} 0 {_n(d[0])} {_n(d[1])}Z",
            stroke,
        )

    def curve(self, path: str, stroke: Stroke = OUTLINE) -> None:
        """A free curve, given as the path of an SVG."""
        self._elements.append(f'<path d="{path}" {_style(stroke)}/>')

    def hatch(
        self, corner: Point, size: Point, stroke: Stroke = FAINT_LINE, step: float = 5.0
    ) -> None:
        """Slanting lines across a box, cut at its edges."""
        (x, y), (width, height) = corner, size
        for index in range(1, math.ceil((width + height) / step)):
            along = index * step
            start = (x + min(along, width), y + max(0.0, along - width))
            end = (x + max(0.0, along - height), y + min(along, height))
            self.line(start, end, stroke=stroke)

    def arrow(self, start: Point, end: Point, stroke: Stroke = OUTLINE, size: float = 6.0) -> None:
        """A line with a filled head at its end."""
        length = math.dist(start, end) or 1.0
        ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
        base = (end[0] - ux * size, end[1] - uy * size)
        half = size * 0.42
        if length > size:
            self.line(start, base, stroke=stroke)
        self.line(
            (base[0] - uy * half, base[1] + ux * half),
            end,
            (base[0] + uy * half, base[1] - ux * half),
            stroke=Stroke(stroke.colour, 0.8, stroke.colour),
            closed=True,
        )

    def text(
        self, at: Point, text: str, lettering: Lettering = PLAIN, anchor: Anchor = "start"
    ) -> None:
        """One line of lettering on its baseline."""
        shown = escape("".join(c for c in text if c.isprintable() or c == "\N{NO-BREAK SPACE}"))
        weight = ' font-weight="600"' if lettering.bold else ""
        self._elements.append(
            f'<text x="{_n(at[0])}" y="{_n(at[1])}" font-size="{_n(lettering.size)}"{weight} '
            f'fill="{lettering.colour}" text-anchor="{anchor}">{shown}</text>'
        )

    def words(
        self,
        top: Point,
        text: str,
        width: float,
        lettering: Lettering = PLAIN,
        anchor: Anchor = "start",
    ) -> float:
        """Lettering in lines no wider than the width; gives back where the next may begin."""
        size = lettering.size
        for index, line in enumerate(wrapped(text, width, size, bold=lettering.bold)):
            baseline = top[1] + size * (_ASCENT + LINE_HEIGHT * index)
            self.text((top[0], baseline), line, lettering, anchor)
        return top[1] + words_height(text, width, lettering)

    def number(self, centre: Point, number: int) -> None:
        """A number in a ring, as in a key."""
        self.circle(centre, 7.6, Stroke(INK, 0.8, PAPER))
        self.text((centre[0], centre[1] + 3.4), str(number), LABEL, "middle")

    def svg(self, height: float) -> str:
        """The sheet as a picture; its natural size is its printed size."""
        box = f'viewBox="0 0 {_n(self.width)} {_n(height)}"'
        size = f'width="{_n(self.width)}pt" height="{_n(height)}pt"'
        paper = f'<rect x="0" y="0" width="{_n(self.width)}" height="{_n(height)}" fill="{PAPER}"/>'
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" {box} {size} '
            f"font-family=\"'Source Sans Pro', sans-serif\">{paper}"
            f"{''.join(self._elements)}</svg>"
        )


def _n(value: float) -> str:
    """A coordinate, short and the same on every machine."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _style(stroke: Stroke) -> str:
    if stroke.colour == "none":
        return f'fill="{stroke.fill}" stroke="none"'
    dashed = f' stroke-dasharray="{stroke.dash}"' if stroke.dash else ""
    return (
        f'fill="{stroke.fill}" stroke="{stroke.colour}" stroke-width="{_n(stroke.weight)}" '
        f'stroke-linejoin="round" stroke-linecap="round"{dashed}'
    )
