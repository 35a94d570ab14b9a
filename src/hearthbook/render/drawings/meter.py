"""The face of a meter, and which of its digits count."""

from __future__ import annotations

from hearthbook.documents.drawings import MeterDisplay
from hearthbook.render.drawings.hand import (
    DIMENSION,
    EDGE,
    FAINT_LINE,
    HEADING,
    INK,
    LABEL,
    MIST,
    PAPER,
    PLAIN,
    QUIET,
    SLATE,
    SOLID,
    Lettering,
    Stroke,
)
from hearthbook.render.drawings.sheet import Layout, Sheet, sheet_width
from hearthbook.render.drawings.text_width import text_width

__all__ = ["meter_display"]

_PAD = 8.0
_CELL_HEIGHT = 27.0
_POINT = 9.0  # room for the point between the two groups


def meter_display(drawing: MeterDisplay, layout: Layout = "wide") -> str:
    """The digits in their windows: those that count framed, the others hatched where left out."""
    width = sheet_width(layout)
    sheet = Sheet(width)
    top = sheet.words((_PAD, 4.0), drawing.name, width - 2 * _PAD, HEADING) + 4.0
    edges = _draw_face(sheet, drawing, top)
    below = top + _CELL_HEIGHT + 24.0
    bottom = _draw_labels(sheet, drawing, edges, below)
    bottom = sheet.words((_PAD, bottom + 6.0), drawing.result, width - 2 * _PAD, LABEL)
    return sheet.svg(bottom + 4.0)


def _cell(sheet: Sheet, drawing: MeterDisplay) -> float:
    count = len(drawing.before) + len(drawing.after)
    unit = min(text_width(drawing.unit, 12.0, bold=True), 60.0) + 12.0
    point = _POINT if drawing.after else 0.0
    return min(21.0, (sheet.width - 4 * _PAD - unit - point) / max(count, 1))


def _draw_face(sheet: Sheet, drawing: MeterDisplay, top: float) -> tuple[float, float, float]:
    """The case with its windows; gives back left, middle and right edge of the digits."""
    cell = _cell(sheet, drawing)
    left = 2 * _PAD
    middle = left + cell * len(drawing.before)
    start_after = middle + (_POINT if drawing.after else 0.0)
    right = start_after + cell * len(drawing.after)
    unit = text_width(drawing.unit, 12.0, bold=True)
    case = right + unit + 2 * _PAD - left + 2.0
    sheet.rect((_PAD, top), (case, _CELL_HEIGHT + 16.0), Stroke(INK, 1.3, MIST), radius=5.0)
    _draw_digits(sheet, drawing.before, (left, top + 8.0), cell, counts=True)
    _draw_digits(sheet, drawing.after, (start_after, top + 8.0), cell, counts=drawing.writes_after)
    if drawing.after:
        sheet.circle(((middle + start_after) / 2, top + 8.0 + _CELL_HEIGHT - 4.0), 2.0, SOLID)
    baseline = top + 8.0 + _CELL_HEIGHT - 8.0
    sheet.text((right + 8.0, baseline), drawing.unit, Lettering(12.0, bold=True))
    return left, middle, right


def _draw_digits(
    sheet: Sheet, digits: str, corner: tuple[float, float], cell: float, *, counts: bool
) -> None:
    for index, digit in enumerate(digits):
        at = (corner[0] + index * cell, corner[1])
        size = (cell, _CELL_HEIGHT)
        if counts:
            sheet.rect(at, size, FAINT_LINE.filled(PAPER), radius=0.0)
        else:
            sheet.rect(at, size, FAINT_LINE.filled(PAPER), radius=0.0)
            sheet.hatch(at, size, step=4.5)
            sheet.circle((at[0] + cell / 2, at[1] + 13.4), 7.0, Stroke("none", fill=PAPER))
        lettering = Lettering(16.0, bold=True) if counts else Lettering(14.0, colour=SLATE)
        sheet.text((at[0] + cell / 2, at[1] + 19.0), digit, lettering, "middle")
    if counts and digits:
        sheet.rect(corner, (cell * len(digits), _CELL_HEIGHT), EDGE, radius=2.0)


def _draw_labels(
    sheet: Sheet, drawing: MeterDisplay, edges: tuple[float, float, float], top: float
) -> float:
    """A bracket under each group of digits and its words under that."""
    left, middle, right = edges
    span = sheet.width - 2 * _PAD
    if not drawing.after:
        _bracket(sheet, left, right, top - 5.0)
        return sheet.words((left, top), drawing.before_label, span - _PAD, PLAIN)
    start_after = middle + _POINT
    split = min(max(start_after, sheet.width * 0.34), sheet.width * 0.6)
    _bracket(sheet, left, middle, top - 5.0)
    _bracket(sheet, start_after, right, top - 5.0)
    first = sheet.words((left, top), drawing.before_label, split - left - 12.0, PLAIN)
    room = sheet.width - _PAD - split
    words = PLAIN if drawing.writes_after else QUIET
    second = sheet.words((split, top), drawing.after_label, room, words)
    return max(first, second)


def _bracket(sheet: Sheet, left: float, right: float, y: float) -> None:
    ends = (left + 1.5, right - 1.5)
    sheet.line((ends[0], y - 3.0), (ends[0], y), (ends[1], y), (ends[1], y - 3.0), stroke=DIMENSION)
