"""Valves, hoses and their like as one sees them, for pictures of what a hand does."""

from __future__ import annotations

from hearthbook.render.drawings.hand import (
    EDGE,
    FAINT,
    INK,
    LABEL,
    MIST,
    OUTLINE,
    PAPER,
    SLATE,
    SOLID,
    SYMBOL,
    Lettering,
    Stroke,
)
from hearthbook.render.drawings.sheet import Point, Sheet, on_circle
from hearthbook.render.drawings.text_width import text_width

__all__ = [
    "PIPE",
    "cap",
    "hose",
    "key_block",
    "lever_valve",
    "lockshield",
    "motorised_valve",
    "pipe",
    "thermostatic_head",
]

PIPE = 9.0  # width of a pipe as drawn
_METAL = SYMBOL.filled(MIST)


def pipe(sheet: Sheet, start: Point, end: Point) -> None:
    """A straight pipe, seen from the side."""
    sheet.line(start, end, stroke=Stroke(INK, PIPE))
    sheet.line(start, end, stroke=Stroke(MIST, PIPE - 2.6))


def lever_valve(sheet: Sheet, centre: Point, lever: float) -> None:
    """A ball valve with its lever at an angle, clockwise from twelve o'clock."""
    x, y = centre
    sheet.rect((x - 8.5, y - 8.0), (17.0, 16.0), _METAL, 3.0)
    sheet.line(centre, on_circle(centre, 24.0, lever), stroke=Stroke(INK, 5.0))
    sheet.circle(centre, 4.6, SYMBOL)


def lockshield(sheet: Sheet, centre: Point) -> None:
    """A balancing valve under its smooth cap, which has nothing to turn."""
    x, y = centre
    sheet.rect((x - 9.0, y - 7.5), (18.0, 15.0), _METAL, 3.0)
    sheet.rect((x - 7.5, y - 30.0), (15.0, 22.5), SYMBOL, 5.0)
    sheet.line((x - 7.5, y - 13.0), (x + 7.5, y - 13.0), stroke=Stroke(INK, 0.8))


def thermostatic_head(sheet: Sheet, centre: Point, number: str) -> None:
    """A thermostatic head seen from its end, with the number under its mark."""
    size = 22.0 if text_width(number, 22.0, bold=True) <= 30.0 else 11.0
    sheet.circle(centre, 24.0, EDGE.filled(PAPER))
    for index in range(24):
        ends = (on_circle(centre, 20.5, index * 15.0), on_circle(centre, 24.0, index * 15.0))
        sheet.line(*ends, stroke=Stroke(SLATE, 0.8))
    x, y = centre
    sheet.line((x, y - 25.0), (x - 4.5, y - 32.0), (x + 4.5, y - 32.0), stroke=SOLID, closed=True)
    sheet.text((x, y + size * 0.34), number, Lettering(size, bold=True), "middle")


def motorised_valve(sheet: Sheet, centre: Point, letter: str) -> None:
    """A valve with its motor on top."""
    x, y = centre
    sheet.rect((x - 9.0, y - 7.5), (18.0, 15.0), _METAL, 3.0)
    sheet.line((x, y - 7.5), (x, y - 14.0), stroke=EDGE)
    sheet.rect((x - 14.0, y - 34.0), (28.0, 20.0), SYMBOL, 3.0)
    sheet.circle((x, y - 24.0), 7.6, Stroke(INK, 0.8, PAPER))
    sheet.text((x, y - 20.6), letter, LABEL, "middle")


def hose(sheet: Sheet, start: Point, end: Point, sag: float) -> None:
    """A braided hose with its nuts, hanging between two points."""
    (x0, y0), (x1, y1) = start, end
    path = f"M{x0:.1f} {y0:.1f}C{x0:.1f} {y0 + sag:.1f} {x1:.1f} {y1 + sag:.1f} {x1:.1f} {y1:.1f}"
    sheet.curve(path, Stroke(INK, 8.0))
    sheet.curve(path, Stroke(MIST, 5.4))
    sheet.curve(path, Stroke(FAINT, 5.0, dash="0.6 3.6"))
    for x, y in (start, end):
        sheet.rect((x - 6.5, y - 1.0), (13.0, 8.0), SYMBOL, 1.5)


def cap(sheet: Sheet, centre: Point) -> None:
    """A cap screwed on an open end, seen from the side."""
    x, y = centre
    sheet.rect((x - 7.0, y - 3.5), (14.0, 9.0), OUTLINE.filled(SLATE), 2.0)


def key_block(sheet: Sheet, centre: Point, lift: float) -> None:
    """The block of a keyed link, with its key lifted by so much; 0 has it in place."""
    x, y = centre
    sheet.rect((x - 22.0, y - 9.0), (44.0, 18.0), _METAL, 3.0)
    base = y - 9.0 - lift
    sheet.rect((x - 4.0, base - 4.0), (8.0, 12.0), SYMBOL, 1.5)
    sheet.rect((x - 9.0, base - 16.0), (18.0, 13.0), SYMBOL, 4.0)
