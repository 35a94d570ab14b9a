"""How warm the radiators feel at each outdoor temperature."""

from __future__ import annotations

from hearthbook.documents.drawings import FeelPoint, HandFeelStrip
from hearthbook.render.drawings.hand import (
    COOL,
    FAINT_LINE,
    LABEL,
    PLAIN,
    QUIET,
    WARM,
    WARM_PALE,
    Lettering,
    Stroke,
)
from hearthbook.render.drawings.sheet import Layout, Sheet, sheet_width, words_height

__all__ = ["hand_feel_strip"]

_PAD = 6.0
_COLDEST = 18.0  # °C of flow at which a bar would vanish: a radiator as warm as its room
_LEAST_COLUMN = 72.0  # wide enough for the longest word a hand would say
_BAR = Stroke(WARM, 1.3, WARM_PALE)
_OUTDOOR = Lettering(bold=True, colour=COOL)


def hand_feel_strip(drawing: HandFeelStrip, layout: Layout = "wide") -> str:
    """A bar for each outdoor temperature, with the flow temperature and what the hand feels."""
    width = sheet_width(layout)
    each = (width - 2 * _PAD) / max(len(drawing.points), 1)
    if each >= _LEAST_COLUMN:
        return _as_columns(drawing, width, each)
    return _as_rows(drawing, width)


def _shares(points: tuple[FeelPoint, ...]) -> list[float]:
    """How far each bar grows, as a share of the longest."""
    hottest = max((point.flow_celsius for point in points), default=_COLDEST)
    span = max(hottest - _COLDEST, 1.0)
    return [max((point.flow_celsius - _COLDEST) / span, 0.06) for point in points]


def _as_columns(drawing: HandFeelStrip, width: float, each: float) -> str:
    sheet = Sheet(width)
    inner, tallest, words = width - 2 * _PAD, 62.0, each - 8.0
    top = sheet.words((_PAD, 4.0), drawing.title_flow, inner, QUIET) + 4.0
    top += max((words_height(p.flow, words, LABEL) for p in drawing.points), default=0.0)
    base = top + tallest
    sheet.line((_PAD, base), (width - _PAD, base), stroke=FAINT_LINE)
    names = sheet.words((_PAD, base + 4.0), drawing.title_outdoor, inner, QUIET) + 1.5
    feels = names + 4.0
    feels += max((words_height(p.outdoor, words, LABEL) for p in drawing.points), default=0.0)
    words_top = sheet.words((_PAD, feels), drawing.title_feel, inner, QUIET) + 1.5
    bottom, shares = words_top, _shares(drawing.points)
    for index, (point, share) in enumerate(zip(drawing.points, shares, strict=True)):
        middle = _PAD + each * (index + 0.5)
        height = tallest * share
        bar = min(each - 14.0, 46.0)
        sheet.rect((middle - bar / 2, base - height), (bar, height), _BAR)
        for line in range(1, int(height // 7)):
            y = base - line * 7.0
            ends = (middle - bar / 2 + 4.0, middle + bar / 2 - 4.0)
            sheet.line((ends[0], y), (ends[1], y), stroke=Stroke(WARM, 0.8))
        over = base - height - 3.0 - words_height(point.flow, words, LABEL)
        sheet.words((middle, over), point.flow, words, LABEL, "middle")
        sheet.words((middle, names), point.outdoor, words, _OUTDOOR, "middle")
        below = sheet.words((middle, words_top), point.feel, words, PLAIN, "middle")
        bottom = max(bottom, below)
    return sheet.svg(bottom + 4.0)


def _as_rows(drawing: HandFeelStrip, width: float) -> str:
    sheet = Sheet(width)
    inner = width - 2 * _PAD
    first, longest = inner * 0.2, inner * 0.26
    flows = _PAD + first + longest + 6.0
    feels = flows + inner * 0.18
    heads = (
        (_PAD, first - 6.0, drawing.title_outdoor),
        (_PAD + first, longest + inner * 0.18, drawing.title_flow),
        (feels, width - _PAD - feels, drawing.title_feel),
    )
    top = max(sheet.words((x, 4.0), title, room, QUIET) for x, room, title in heads) + 4.0
    for point, share in zip(drawing.points, _shares(drawing.points), strict=True):
        sheet.line((_PAD, top), (width - _PAD, top), stroke=FAINT_LINE)
        y = top + 5.0
        sheet.rect((_PAD + first, y), (longest * share, 12.0), _BAR)
        ends = [
            sheet.words((_PAD, y), point.outdoor, first - 6.0, _OUTDOOR),
            sheet.words((flows, y), point.flow, inner * 0.18 - 6.0, LABEL),
            sheet.words((feels, y), point.feel, width - _PAD - feels, PLAIN),
        ]
        top = max(*ends, y + 14.0) + 4.0
    return sheet.svg(top + 2.0)
