"""The outdoor unit from the side: what stays free above it, its height, the snow, the drain."""

from __future__ import annotations

from hearthbook.documents.drawings import ClearSpace
from hearthbook.render.drawings.hand import (
    COOL,
    COOL_PALE,
    DIMENSION,
    EDGE,
    FAINT_LINE,
    HEADING,
    MIST,
    OUTLINE,
    PLAIN,
    QUIET,
    SLATE,
    WARM,
    Lettering,
    Stroke,
)
from hearthbook.render.drawings.sheet import Point, Sheet, words_height

__all__ = ["side_view"]

_UNIT = (38.0, 56.0)
_ABOVE = 26.0
_LEGS = 30.0  # from the ground to the unit's base, as drawn; the drawing is not to scale
_SNOW = 15.0
_AIR = Stroke(SLATE, 2.0)
_PIT = (54.0, 20.0)


def side_view(sheet: Sheet, drawing: ClearSpace, corner: Point, width: float) -> float:
    """Draw the view in a column; gives back its bottom."""
    x, middle = corner[0], corner[0] + width / 2
    column = (width - _UNIT[0]) / 2 - 12.0
    y = sheet.words(corner, drawing.side_title, width, HEADING) + 6.0
    y = _above(sheet, drawing, (middle, y), width)
    base = y + _UNIT[1]
    heights = (
        words_height(drawing.height, column),
        words_height(drawing.snow, column, QUIET) + 22.0,
    )
    floor = base + max(_LEGS, max(heights) - 26.0)
    _unit(sheet, (middle, base), floor)
    sheet.line((x, floor), (x + width, floor), stroke=EDGE)
    _measures(sheet, drawing, (x, middle), (base, floor))
    bottom = floor + 6.0
    if drawing.drain:
        draw = _pit if drawing.drains_into_gravel else _pipe
        draw(sheet, (middle, base), floor)
        bottom = floor + _PIT[1] + 4.0
    ground = sheet.words((x, floor + 5.0), drawing.ground, width / 2 - _PIT[0] / 2 - 6.0, QUIET)
    return max(bottom, ground)


def _above(sheet: Sheet, drawing: ClearSpace, top: Point, width: float) -> float:
    """The free space over the unit, where the record has it; gives back the unit's top."""
    middle, y = top
    for clearance in drawing.clearances:
        if clearance.side == "above":
            short = clearance.found < clearance.required
            words = Lettering(bold=True, colour=WARM) if short else PLAIN
            y = sheet.words((middle, y), clearance.label, width, words, "middle") + 3.0
            edge = (middle - _UNIT[0], y), (middle + _UNIT[0], y)
            sheet.line(*edge, stroke=Stroke(COOL, 1.0, dash="4 3"))
            half = (middle, y + _ABOVE / 2)
            sheet.arrow(half, (middle, y), DIMENSION, size=5.0)
            sheet.arrow(half, (middle, y + _ABOVE), DIMENSION, size=5.0)
            return y + _ABOVE
    return y


def _unit(sheet: Sheet, base: Point, floor: float) -> None:
    (x, y), (width, height) = base, _UNIT
    sheet.rect((x - width / 2, y - height), _UNIT, EDGE.filled(MIST), 3.0)
    for rise in (14.0, 20.0, 26.0, 32.0, 38.0):
        ends = ((x + width / 2 - 9.0, y - rise), (x + width / 2 - 3.0, y - rise))
        sheet.line(*ends, stroke=FAINT_LINE)
    left, right = x - width / 2, x + width / 2
    for rise in (33.0, 46.0):
        sheet.arrow((right + 4.0, y - rise), (right + 22.0, y - rise), _AIR)
        sheet.arrow((left - 22.0, y - rise), (left - 4.0, y - rise), _AIR)
    for foot in (-12.0, 12.0):
        sheet.line((x + foot, y), (x + foot, floor), stroke=OUTLINE)
        sheet.line((x + foot - 5.0, floor - 1.0), (x + foot + 5.0, floor - 1.0), stroke=OUTLINE)


def _measures(sheet: Sheet, drawing: ClearSpace, xs: Point, ys: Point) -> None:
    """The height of the base on the left, the snow line on the right."""
    (x, middle), (base, floor) = xs, ys
    column = middle - _UNIT[0] / 2 - 12.0 - x
    if drawing.height:
        along = middle - _UNIT[0] / 2 - 4.0
        half = (along, (base + floor) / 2)
        sheet.arrow(half, (along, base), DIMENSION, size=5.0)
        sheet.arrow(half, (along, floor - 1.0), DIMENSION, size=5.0)
        rise = words_height(drawing.height, column)
        sheet.words((along - 6.0, floor - 4.0 - rise), drawing.height, column, PLAIN, "end")
    if drawing.snow:
        level, right = floor - _SNOW, middle + _UNIT[0] / 2 + 4.0
        sheet.line(
            (middle - 8.0, level), (right + column, level), stroke=Stroke(COOL, 1.0, dash="1 3")
        )
        rise = words_height(drawing.snow, column, QUIET)
        sheet.words((right + 8.0, level - 2.0 - rise), drawing.snow, column, QUIET)


def _pit(sheet: Sheet, base: Point, floor: float) -> None:
    """Gravel under the unit that takes the meltwater."""
    (x, y), (width, depth) = base, _PIT
    corners = (
        (x - width / 2, floor + 1.2),
        (x + width / 2, floor + 1.2),
        (x + width / 2 - 6.0, floor + depth),
        (x - width / 2 + 6.0, floor + depth),
    )
    sheet.line(*corners, stroke=OUTLINE.filled(COOL_PALE), closed=True)
    for index in range(7):
        at = (x - 18.0 + index * 6.0, floor + (7.0 if index % 2 else 13.0))
        sheet.circle(at, 2.0, FAINT_LINE)
    sheet.arrow((x, y + 4.0), (x, floor - 2.0), Stroke(COOL, 1.3), size=5.0)


def _pipe(sheet: Sheet, base: Point, floor: float) -> None:
    """A pipe under the unit that carries the meltwater away."""
    x, y = base
    sheet.line((x - 6.0, y + 6.0), (x, y + 9.0), (x + 6.0, y + 6.0), stroke=OUTLINE)
    run = (x, y + 9.0), (x, floor + 12.0), (x + 28.0, floor + 12.0)
    sheet.line(*run, stroke=Stroke(COOL, 1.6))
    sheet.arrow((x + 28.0, floor + 12.0), (x + 38.0, floor + 12.0), Stroke(COOL, 1.6), size=5.0)
