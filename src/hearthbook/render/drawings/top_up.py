"""Adding water to the heating, in four pictures."""

from __future__ import annotations

from typing import assert_never

from hearthbook.documents.drawings import TopUpSteps
from hearthbook.render.drawings.fittings import key_block, lever_valve, pipe
from hearthbook.render.drawings.gauge import dial_angle, draw_dial, draw_needle
from hearthbook.render.drawings.hand import COOL, FAINT_LINE, LABEL, PLAIN, WARM, Stroke
from hearthbook.render.drawings.placing import columns
from hearthbook.render.drawings.sheet import Layout, Point, Sheet, on_circle, sheet_width
from hearthbook.render.drawings.valves import CLOSED, HALF_PAIR, filling_pair

__all__ = ["top_up_steps"]

_PAD, _GAP = 6.0, 10.0
_PICTURE = 112.0
_MOVE = Stroke(WARM, 1.6)
_OPEN = (0.0, 52.0)  # the heating side along its pipe, the supply side only a little way


def top_up_steps(drawing: TopUpSteps, layout: Layout = "wide") -> str:
    """Four pictures in a row, or two by two, each numbered over its words."""
    width = sheet_width(layout)
    sheet = Sheet(width)
    lefts, each = columns(4, width - 2 * _PAD, 96.0, _GAP)
    per_row = 4 if len(lefts) == 4 else 2
    lefts, each = columns(per_row, width - 2 * _PAD, 40.0, _GAP)
    top = 4.0
    for start in range(0, 4, per_row):
        bottoms = []
        for left, step in zip(lefts, range(start, start + per_row), strict=True):
            corner = (_PAD + left, top)
            sheet.rect(corner, (each, _PICTURE), FAINT_LINE, 4.0)
            sheet.number((corner[0] + 12.0, top + 12.0), step + 1)
            _draw_step(sheet, drawing, step, (corner[0] + each / 2, top + _PICTURE / 2))
            words = (corner[0], top + _PICTURE + 5.0)
            bottoms.append(sheet.words(words, drawing.captions[step], each, PLAIN))
        top = max(bottoms) + _GAP
    return sheet.svg(top)


def _draw_step(sheet: Sheet, drawing: TopUpSteps, step: int, centre: Point) -> None:
    if step == 2:
        _draw_gauge(sheet, drawing, centre)
        return
    match drawing.filling:
        case "removable_hose":
            _draw_hose_step(sheet, step, centre, hangs=14.0)
        case "fixed_loop_two_valves":
            _draw_hose_step(sheet, step, centre, hangs=0.0)
        case "keyed_link":
            _draw_key_step(sheet, step, centre)
        case _:
            assert_never(drawing.filling)


def _draw_hose_step(sheet: Sheet, step: int, centre: Point, *, hangs: float) -> None:
    """A loop at the start, open and at the end; `hangs` is how far off it is at the start."""
    x, y = centre
    gap = {0: hangs, 1: 0.0}.get(step)
    levers = _OPEN if step == 1 else CLOSED
    filling_pair(sheet, (x, y + (14.0 if gap is None else 9.0)), levers=levers, hose_gap=gap)
    if gap:
        for side in (-HALF_PAIR - 15.0, HALF_PAIR + 15.0):
            sheet.arrow((x + side, y + 41.0), (x + side, y + 21.0), _MOVE)
    if step == 1:
        _turn(sheet, (x - HALF_PAIR, y - 5.0), (285.0, 335.0))
        _turn(sheet, (x + HALF_PAIR, y - 5.0), (92.0, 66.0))


def _turn(sheet: Sheet, centre: Point, angles: Point) -> None:
    """A bent arrow beside a lever, from one angle to another."""
    start, end = angles
    back = -14.0 if end > start else 14.0
    sheet.arc(centre, 27.0, (min(start, end + back), max(start, end + back)), _MOVE)
    sheet.arrow(on_circle(centre, 27.0, end + back), on_circle(centre, 27.0, end), _MOVE)


def _draw_key_step(sheet: Sheet, step: int, centre: Point) -> None:
    """The link's key goes in, the small valve beside it opens, the key comes out."""
    x, y = centre[0], centre[1] + 24.0
    key = (x - 12.0, y)
    pipe(sheet, (x - 40.0, y), (x + 42.0, y))
    key_block(sheet, key, 22.0 if step == 3 else 0.0)
    lever_valve(sheet, (x + 28.0, y), 52.0 if step == 1 else 0.0)
    if step == 1:
        _turn(sheet, (x + 28.0, y), (12.0, 40.0))
    else:
        ends = ((key[0] - 20.0, y - 42.0), (key[0] - 20.0, y - 18.0))
        sheet.arrow(*(ends if step == 0 else ends[::-1]), _MOVE)


def _draw_gauge(sheet: Sheet, drawing: TopUpSteps, centre: Point) -> None:
    x, y = centre[0], centre[1] - 4.0
    radius = 36.0
    angle = dial_angle(drawing.stop_at_bar, drawing.full_scale_bar)
    draw_dial(sheet, (x, y), radius, drawing.full_scale_bar, lettered=False)
    sheet.arc((x, y), radius * 0.62, (max(angle - 60.0, -135.0), angle - 10.0), Stroke(COOL, 2.0))
    draw_needle(sheet, (x, y), radius, angle)
    sheet.line(
        on_circle((x, y), radius + 1.0, angle),
        on_circle((x, y), radius + 7.0, angle),
        stroke=Stroke(WARM, 3.0),
    )
    sheet.words((x, y + radius + 5.0), drawing.stop_label, 90.0, LABEL, "middle")
