"""The pressure gauge with this home's own marks."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from hearthbook.documents.drawings import GaugeBand, GaugeMark, PressureGauge
from hearthbook.render.drawings.hand import (
    COOL,
    COOL_PALE,
    EDGE,
    INK,
    LABEL,
    LEADER,
    PAPER,
    PLAIN,
    QUIET,
    SOLID,
    WARM,
    WARM_PALE,
    Stroke,
)
from hearthbook.render.drawings.placing import spread
from hearthbook.render.drawings.sheet import (
    Layout,
    Point,
    Sheet,
    on_circle,
    sheet_width,
    words_height,
)

__all__ = ["dial_angle", "draw_dial", "draw_needle", "pressure_gauge"]

_SWEEP = 270.0  # degrees from empty to full, as on most round gauges
_MARGIN = 6.0
_GAP = 5.0  # between two labels


@dataclass(frozen=True)
class _Label:
    """Words beside the dial, the angle they belong to, and how far out their line ends.

    Attributes:
        text: the words.
        angle: where on the dial they belong.
        beyond: how far outside the dial the line ends; None where it ends in a band.
        share: of the radius at which it ends in a band.
    """

    text: str
    angle: float
    beyond: float | None
    share: float = 1.0


def dial_angle(at_bar: float, full_scale_bar: float) -> float:
    """Angle of a pressure on the dial, clockwise from twelve o'clock.

    Example:
        >>> dial_angle(2.0, 4.0), dial_angle(0.0, 4.0)
        (0.0, -135.0)
    """
    share = min(max(at_bar / full_scale_bar, 0.0), 1.0)
    return (share - 0.5) * _SWEEP


def draw_dial(
    sheet: Sheet, centre: Point, radius: float, full_scale_bar: float, *, lettered: bool = True
) -> None:
    """An empty dial: ring, ticks and, where there is room, the numbers of whole bars."""
    sheet.circle(centre, radius, EDGE.filled(PAPER))
    step = 0.5 if full_scale_bar <= 6 else 1.0
    count = round(full_scale_bar / step)
    for index in range(count + 1):
        angle = dial_angle(index * step, full_scale_bar)
        whole = index * step == int(index * step)
        inner = radius * (0.89 if whole else 0.92)
        sheet.line(
            on_circle(centre, inner, angle),
            on_circle(centre, radius * 0.96, angle),
            stroke=Stroke(INK, 1.3 if whole else 0.8),
        )
        if whole and lettered:
            x, y = on_circle(centre, radius * 0.79, angle)
            sheet.text((x, y + 3.5), f"{index * step:.0f}", LABEL, "middle")


def draw_needle(sheet: Sheet, centre: Point, radius: float, angle: float) -> None:
    """The needle."""
    tip = on_circle(centre, radius * 0.7, angle)
    left, right = (on_circle(centre, 2.4, angle + side) for side in (-90, 90))
    sheet.line(left, tip, right, stroke=SOLID, closed=True)
    sheet.circle(centre, 4.0, SOLID)


def pressure_gauge(drawing: PressureGauge, layout: Layout = "wide") -> str:
    """The gauge: bands and marks on the dial, and each one's words beside it or under it."""
    return _with_key(drawing) if layout == "narrow" else _with_leaders(drawing)


def _with_leaders(drawing: PressureGauge) -> str:
    width, radius = sheet_width("wide"), 78.0
    column = width / 2 - radius - 22.0 - _MARGIN
    sides = _sides(drawing)
    heights = [_column_height(side, column) for side in sides]
    height = max(2 * radius + 24.0, *(h + 12.0 for h in heights))
    sheet = Sheet(width)
    centre = (width / 2, height / 2)
    _draw_marked_dial(sheet, drawing, centre, radius)
    for side in sides:
        _draw_labels(sheet, side, (centre, radius), (column, height))
    return sheet.svg(height)


def _with_key(drawing: PressureGauge) -> str:
    width, radius = sheet_width("narrow"), 78.0
    sheet = Sheet(width)
    _draw_marked_dial(sheet, drawing, (width / 2, radius + 14.0), radius)
    top = 2 * radius + 32.0
    items: list[GaugeBand | GaugeMark] = [*drawing.bands, *drawing.marks]
    for item in sorted(items, key=_start):
        if isinstance(item, GaugeBand):
            _band_swatch(sheet, (_MARGIN, top), item.tone)
        else:
            _mark_swatch(sheet, (_MARGIN, top), item.kind)
        top = sheet.words((_MARGIN + 28.0, top), item.label, width - 2 * _MARGIN - 28.0) + _GAP
    return sheet.svg(top)


def _start(item: GaugeBand | GaugeMark) -> float:
    return item.low_bar if isinstance(item, GaugeBand) else item.at_bar


def _draw_marked_dial(sheet: Sheet, drawing: PressureGauge, centre: Point, radius: float) -> None:
    draw_dial(sheet, centre, radius, drawing.full_scale_bar)
    _draw_bands(sheet, drawing, centre, radius)
    for mark in drawing.marks:
        _draw_mark(sheet, mark, centre, radius, drawing.full_scale_bar)
    sheet.text((centre[0], centre[1] + radius * 0.6), drawing.unit, QUIET, "middle")
    if drawing.needle_bar is not None:
        draw_needle(sheet, centre, radius, dial_angle(drawing.needle_bar, drawing.full_scale_bar))


def _band_swatch(sheet: Sheet, corner: Point, tone: Literal["cold", "hot"]) -> None:
    (x, y), is_cold = corner, tone == "cold"
    colour, pale = (COOL, COOL_PALE) if is_cold else (WARM, WARM_PALE)
    sheet.rect((x, y + 1.5), (20.0, 9.0), Stroke(colour, 0.8, pale), radius=0.0)
    for index in range(1, 7 if is_cold else 3):
        if is_cold:
            along = x + index * 20.0 / 7
            sheet.line((along, y + 1.5), (along, y + 10.5), stroke=Stroke(colour, 0.8))
        else:
            along = y + 1.5 + index * 3.0
            sheet.line((x, along), (x + 20.0, along), stroke=Stroke(colour, 0.8))


def _mark_swatch(sheet: Sheet, corner: Point, kind: Literal["top_up", "call", "safety"]) -> None:
    x, y = corner[0] + 10.0, corner[1] + 6.0
    if kind == "safety":
        sheet.line((x, y - 6.0), (x, y + 6.0), stroke=Stroke(INK, 3.0))
        return
    colour = COOL if kind == "top_up" else WARM
    triangle = ((x, y + 4.5), (x - 4.5, y - 4.0), (x + 4.5, y - 4.0))
    fill = PAPER if kind == "top_up" else colour
    sheet.line(*triangle, stroke=Stroke(colour, 1.3, fill), closed=True)


def _sides(drawing: PressureGauge) -> tuple[list[_Label], list[_Label]]:
    """Labels left and right of the dial, each from top to bottom."""
    full = drawing.full_scale_bar
    labels = [
        _Label(m.label, dial_angle(m.at_bar, full), 5.5 if m.kind == "safety" else 9.5)
        for m in drawing.marks
    ]
    labels += [
        _Label(b.label, dial_angle(_anchor(b), full), None, _ring(b.tone, 1.0)[1])
        for b in drawing.bands
    ]
    left = sorted((e for e in labels if e.angle < 0), key=lambda e: -e.angle)
    right = sorted((e for e in labels if e.angle >= 0), key=lambda e: e.angle)
    return left, right


def _anchor(band: GaugeBand) -> float:
    """Where a band's line ends: low in a cold one, high in a hot one, clear of the needle."""
    share = 0.25 if band.tone == "cold" else 0.75
    return band.low_bar + share * (band.high_bar - band.low_bar)


def _column_height(labels: list[_Label], column: float) -> float:
    return sum(words_height(label.text, column) + _GAP for label in labels)


def _draw_bands(sheet: Sheet, drawing: PressureGauge, centre: Point, radius: float) -> None:
    for band in drawing.bands:
        radii = _ring(band.tone, radius)
        angles = (
            dial_angle(band.low_bar, drawing.full_scale_bar),
            dial_angle(band.high_bar, drawing.full_scale_bar),
        )
        is_cold = band.tone == "cold"
        colour, pale = (COOL, COOL_PALE) if is_cold else (WARM, WARM_PALE)
        sheet.sector(centre, radii, angles, Stroke(colour, 0.8, pale))
        _hatch_band(sheet, centre, radii, angles, band.tone)


def _ring(tone: Literal["cold", "hot"], radius: float) -> Point:
    """Cold bands lie inside hot ones, for the two may share part of the scale."""
    inner, outer = (0.45, 0.56) if tone == "cold" else (0.58, 0.69)
    return inner * radius, outer * radius


def _hatch_band(
    sheet: Sheet, centre: Point, radii: Point, angles: Point, tone: Literal["cold", "hot"]
) -> None:
    """Cold bands are hatched across, hot ones along, so that grey print keeps them apart."""
    inner, outer = radii
    if tone == "hot":
        for share in (1 / 3, 2 / 3):
            sheet.arc(centre, inner + (outer - inner) * share, angles, Stroke(WARM, 0.8))
        return
    step = 3.0
    for index in range(1, int((angles[1] - angles[0]) / step) + 1):
        angle = angles[0] + index * step
        if angle < angles[1]:
            ends = (on_circle(centre, inner, angle), on_circle(centre, outer, angle))
            sheet.line(*ends, stroke=Stroke(COOL, 0.8))


def _draw_mark(
    sheet: Sheet, mark: GaugeMark, centre: Point, radius: float, full_scale_bar: float
) -> None:
    angle = dial_angle(mark.at_bar, full_scale_bar)
    if mark.kind == "safety":
        ends = (on_circle(centre, radius * 0.42, angle), on_circle(centre, radius * 0.71, angle))
        sheet.line(*ends, stroke=Stroke(INK, 3.0))
        outside = (on_circle(centre, radius - 1.0, angle), on_circle(centre, radius + 6.0, angle))
        sheet.line(*outside, stroke=Stroke(INK, 3.0))
        return
    colour = COOL if mark.kind == "top_up" else WARM
    sheet.line(
        on_circle(centre, radius * 0.42, angle),
        on_circle(centre, radius * 0.71, angle),
        stroke=Stroke(colour, 2.0, dash="" if mark.kind == "top_up" else "2 3"),
    )
    half = 4.2 / radius * 57.3
    tip = on_circle(centre, radius + 1.5, angle)
    base = [on_circle(centre, radius + 9.0, angle + side) for side in (-half, half)]
    fill = PAPER if mark.kind == "top_up" else colour
    sheet.line(tip, *base, stroke=Stroke(colour, 1.3, fill), closed=True)


def _draw_labels(
    sheet: Sheet, labels: list[_Label], dial: tuple[Point, float], room: Point
) -> None:
    """One column of words, each tied to its place by a fine line.

    Args:
        sheet: the sheet.
        labels: from top to bottom, all on one side.
        dial: its centre and radius.
        room: width of the column and height of the sheet.
    """
    (centre, radius), (column, height) = dial, room
    heights = [words_height(label.text, column) for label in labels]
    wanted = [on_circle(centre, radius + 14.0, label.angle)[1] - 6.0 for label in labels]
    tops = spread(wanted, heights, _GAP, (_MARGIN, height - _MARGIN))
    for label, top in zip(labels, tops, strict=True):
        is_left = label.angle < 0
        edge = _MARGIN + column if is_left else sheet.width - _MARGIN - column
        out = radius * label.share if label.beyond is None else radius + label.beyond
        end = on_circle(centre, out, label.angle)
        sheet.line((edge + (4.0 if is_left else -4.0), top + 6.0), end, stroke=LEADER)
        if label.beyond is None:
            sheet.circle(end, 1.6, SOLID)
        sheet.words((edge, top), label.text, column, PLAIN, "end" if is_left else "start")
