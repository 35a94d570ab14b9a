"""What the numbers on the thermostatic heads mean."""

from __future__ import annotations

from hearthbook.documents.drawings import HeadScale
from hearthbook.render.drawings.hand import (
    FAINT_LINE,
    LABEL,
    MIST,
    PLAIN,
    QUIET,
    WARM,
    Lettering,
    Stroke,
)
from hearthbook.render.drawings.placing import columns
from hearthbook.render.drawings.sheet import Layout, Sheet, sheet_width, words_height
from hearthbook.render.drawings.text_width import text_width

__all__ = ["head_scale"]

_PAD = 6.0
_NUMBERS = Lettering(15.0, bold=True)


def head_scale(drawing: HeadScale, layout: Layout = "wide") -> str:
    """The numbers in a row over the temperatures they stand for, in as many rows as it takes."""
    width = sheet_width(layout)
    sheet = Sheet(width)
    inner = width - 2 * _PAD
    least = max(
        34.0,
        *(text_width(m.number, _NUMBERS.size, bold=True) + 10.0 for m in drawing.marks),
        *(text_width(m.temperature, 10.0, bold=True) + 10.0 for m in drawing.marks),
        0.0,
    )
    lefts, each = columns(len(drawing.marks) or 1, inner, min(least, inner), 0.0)
    y = sheet.words((_PAD, 4.0), drawing.title_number, inner, QUIET) + 2.0
    for start in range(0, len(drawing.marks), len(lefts)):
        y = _draw_row(sheet, drawing, (start, len(lefts)), (each, y))
    y = sheet.words((_PAD, y), drawing.title_temperature, inner, QUIET) + 2.0
    if drawing.note:
        y = sheet.words((_PAD, y + 2.0), drawing.note, inner, PLAIN)
    return sheet.svg(y + 4.0)


def _draw_row(
    sheet: Sheet, drawing: HeadScale, part: tuple[int, int], place: tuple[float, float]
) -> float:
    """A band of numbers that grows thicker towards the warm end; gives back its bottom."""
    (start, count), (each, top) = part, place
    marks = drawing.marks[start : start + count]
    total = max(len(drawing.marks), 1)
    numbers = max(words_height(mark.number, each - 4.0, _NUMBERS) for mark in marks)
    sheet.rect((_PAD, top), (each * len(marks), numbers + 14.0), FAINT_LINE.filled(MIST), 5.0)
    bottom = top
    for index, mark in enumerate(marks):
        middle = _PAD + each * (index + 0.5)
        sheet.words((middle, top + 4.0), mark.number, each - 4.0, _NUMBERS, "middle")
        thick = 1.0 + 4.0 * (start + index) / total
        y = top + numbers + 8.0
        ends = (middle - each / 2 + 5.0, middle + each / 2 - 5.0)
        sheet.line((ends[0], y), (ends[1], y), stroke=Stroke(WARM, thick))
        below = sheet.words(
            (middle, top + numbers + 18.0), mark.temperature, each - 4.0, LABEL, "middle"
        )
        bottom = max(bottom, below)
    return bottom + 4.0
