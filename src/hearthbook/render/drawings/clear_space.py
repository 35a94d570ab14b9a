"""The outdoor unit from above and from the side, and what must stay free round it."""

from __future__ import annotations

from hearthbook.documents.drawings import ClearanceDrawn, ClearSpace, OutdoorSide
from hearthbook.render.drawings.hand import (
    COOL,
    COOL_PALE,
    DIMENSION,
    EDGE,
    FAINT_LINE,
    HEADING,
    LABEL,
    MIST,
    PLAIN,
    QUIET,
    SLATE,
    WARM,
    Lettering,
    Stroke,
)
from hearthbook.render.drawings.sheet import Layout, Point, Sheet, sheet_width, words_height
from hearthbook.render.drawings.side_view import side_view

__all__ = ["clear_space"]

_PAD = 6.0
_UNIT_WIDTH = 88.0  # as drawn from above; the drawing is not to scale
_SIDE_GAP = 26.0
_ZONE_GAP = 7.0  # from the edge of the clear space to the outline of the protective zone
_FREE = Stroke(COOL, 1.0, COOL_PALE, dash="4 3")
_ZONE = Stroke(WARM, 1.3, dash="8 3 1.5 3")
_AIR = Stroke(SLATE, 2.0)
_SHORT = Lettering(bold=True, colour=WARM)  # a clearance that falls short


def clear_space(drawing: ClearSpace, layout: Layout = "wide") -> str:
    """The plan, the side view beside or under it, and a key for what needs more words."""
    width = sheet_width(layout)
    sheet = Sheet(width)
    if not drawing.side_title:
        plan = min(width - 2 * _PAD, 300.0)
        bottom = _plan(sheet, drawing, ((width - plan) / 2, 4.0), plan)
    elif layout == "wide":
        plan, gap = 262.0, 14.0
        side = width - 2 * _PAD - plan - gap
        bottom = max(
            _plan(sheet, drawing, (_PAD, 4.0), plan),
            side_view(sheet, drawing, (_PAD + plan + gap, 4.0), side),
        )
    else:
        inner = width - 2 * _PAD
        bottom = _plan(sheet, drawing, (_PAD, 4.0), inner)
        bottom = side_view(sheet, drawing, (_PAD, bottom + 12.0), min(inner, 230.0))
    return sheet.svg(_key(sheet, drawing, bottom + 8.0))


def _by_side(drawing: ClearSpace) -> dict[OutdoorSide, ClearanceDrawn]:
    return {clearance.side: clearance for clearance in drawing.clearances}


def _lettering(clearance: ClearanceDrawn) -> Lettering:
    return _SHORT if clearance.found < clearance.required else PLAIN


def _plan(sheet: Sheet, drawing: ClearSpace, corner: Point, width: float) -> float:
    """The view from above, the fan towards the reader; gives back its bottom."""
    sides = _by_side(drawing)
    middle = corner[0] + width / 2
    free_width = _UNIT_WIDTH + 2 * _SIDE_GAP
    words = free_width / 2 - 16.0
    y = sheet.words(corner, drawing.plan_title, width, HEADING) + 4.0
    if back := sides.get("back"):
        y = sheet.words((middle, y), back.label, free_width, _lettering(back), "middle") + 3.0
        sheet.rect((middle - free_width / 2 - 20.0, y), (free_width + 40.0, 9.0), EDGE.filled(MIST))
        sheet.hatch((middle - free_width / 2 - 20.0, y), (free_width + 40.0, 9.0))
        y += 9.0
    else:
        y += _ZONE_GAP + 2.0
    above = max(30.0, words_height(drawing.air_in, words, QUIET) + 10.0)
    below = max(40.0, words_height(drawing.air_out, words, QUIET) + 12.0)
    depth = _unit_depth(drawing)
    height = above + depth + below
    free = (middle - free_width / 2, y)
    sheet.rect(free, (free_width, height), _FREE, 0.0)
    if drawing.zone:
        _zone_outline(sheet, free, (free_width, height), touches_wall="back" in sides)
    unit = (middle - _UNIT_WIDTH / 2, y + above)
    _unit_from_above(sheet, unit, drawing)
    _air(sheet, drawing, (middle, y), (above, below), words)
    _dimensions(sheet, sides, (unit, depth), (free, (free_width, height)))
    bottom = _side_labels(sheet, sides, (corner[0], unit[1] - 4.0), (width, free_width))
    y += height + (_ZONE_GAP if drawing.zone else 0.0) + 4.0
    if front := sides.get("front"):
        y = sheet.words((middle, y), front.label, free_width, _lettering(front), "middle")
    return max(y, bottom)


def _zone_outline(sheet: Sheet, corner: Point, size: Point, *, touches_wall: bool) -> None:
    (x, y), (width, height) = corner, size
    left, right, foot = x - _ZONE_GAP, x + width + _ZONE_GAP, y + height + _ZONE_GAP
    if touches_wall:
        sheet.line((left, y + 2.0), (left, foot), (right, foot), (right, y + 2.0), stroke=_ZONE)
    else:
        top = y - _ZONE_GAP
        sheet.line(
            (left, top), (left, foot), (right, foot), (right, top), stroke=_ZONE, closed=True
        )


def _unit_depth(drawing: ClearSpace) -> float:
    return max(34.0, words_height(drawing.unit, _UNIT_WIDTH - 12.0, LABEL) + 17.0)


def _unit_from_above(sheet: Sheet, corner: Point, drawing: ClearSpace) -> None:
    (x, y), depth = corner, _unit_depth(drawing)
    sheet.rect(corner, (_UNIT_WIDTH, depth), EDGE.filled(MIST), 3.0)
    sheet.words((x + _UNIT_WIDTH / 2, y + 6.0), drawing.unit, _UNIT_WIDTH - 12.0, LABEL, "middle")
    for rise in (4.0, 7.0):
        ends = (x + 10.0, y + depth - rise), (x + _UNIT_WIDTH - 10.0, y + depth - rise)
        sheet.line(*ends, stroke=FAINT_LINE)


def _air(sheet: Sheet, drawing: ClearSpace, top: Point, gaps: Point, words: float) -> None:
    """Arrows of the air, in behind and out in front, with their words to the right of them."""
    (x, y), (above, below) = top, gaps
    out = y + above + _unit_depth(drawing)
    for offset in (-16.0, 0.0):
        sheet.arrow((x + offset, y + 5.0), (x + offset, y + above - 4.0), _AIR)
        sheet.arrow((x + offset, out + 4.0), (x + offset, out + below - 5.0), _AIR)
    sheet.words((x + 10.0, y + 5.0), drawing.air_in, words, QUIET)
    sheet.words((x + 10.0, out + 6.0), drawing.air_out, words, QUIET)


def _double(sheet: Sheet, start: Point, end: Point) -> None:
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    sheet.arrow(middle, start, DIMENSION, size=5.0)
    sheet.arrow(middle, end, DIMENSION, size=5.0)


def _dimensions(
    sheet: Sheet,
    sides: dict[OutdoorSide, ClearanceDrawn],
    unit: tuple[Point, float],
    free: tuple[Point, Point],
) -> None:
    """Measuring lines from the unit's faces to the edge of the clear space."""
    ((x, y), depth), ((left, top), (width, height)) = unit, free
    level, along = y + depth / 2, x + 14.0
    ends: dict[OutdoorSide, tuple[Point, Point]] = {
        "left": ((left, level), (x, level)),
        "right": ((x + _UNIT_WIDTH, level), (left + width, level)),
        "back": ((along, top), (along, y)),
        "front": ((along, y + depth), (along, top + height)),
    }
    for side in sides:
        if side in ends:
            _double(sheet, *ends[side])


def _side_labels(
    sheet: Sheet, sides: dict[OutdoorSide, ClearanceDrawn], corner: Point, widths: Point
) -> float:
    """What is asked and found left and right; gives back the lower bottom."""
    (x, y), (width, free_width) = corner, widths
    room = (width - free_width) / 2 - _ZONE_GAP - 4.0
    bottom = y
    if left := sides.get("left"):
        end = sheet.words((x + room, y), left.label, room, _lettering(left), "end")
        bottom = max(bottom, end)
    if right := sides.get("right"):
        at = (x + width - room, y)
        bottom = max(bottom, sheet.words(at, right.label, room, _lettering(right)))
    return bottom


def _key(sheet: Sheet, drawing: ClearSpace, top: float) -> float:
    inner, indent = sheet.width - 2 * _PAD, 30.0
    y = top
    if drawing.zone:
        sheet.line((_PAD, y + 6.0), (_PAD + 22.0, y + 6.0), stroke=_ZONE)
        y = sheet.words((_PAD + indent, y), drawing.zone, inner - indent) + 3.0
    if drawing.drain:
        sheet.curve(f"M{_PAD + 11:.1f} {y:.1f}q7 8 0 11q-7 -3 0 -11Z", Stroke(COOL, 1.0, COOL_PALE))
        y = sheet.words((_PAD + indent, y), drawing.drain, inner - indent) + 3.0
    above = _by_side(drawing).get("above")
    if above and not drawing.side_title:
        y = sheet.words((_PAD, y), above.label, inner, _lettering(above)) + 3.0
    return y + 2.0
