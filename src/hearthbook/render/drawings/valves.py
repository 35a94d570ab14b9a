"""How the valves of this home are to stand."""

from __future__ import annotations

from collections.abc import Callable

from hearthbook.documents.drawings import ValvePicture, ValvePosition, ValvePositions
from hearthbook.render.drawings.fittings import (
    cap,
    hose,
    key_block,
    lever_valve,
    lockshield,
    motorised_valve,
    pipe,
    thermostatic_head,
)
from hearthbook.render.drawings.hand import FAINT_LINE, LABEL, QUIET
from hearthbook.render.drawings.placing import columns
from hearthbook.render.drawings.sheet import Layout, Point, Sheet, sheet_width

__all__ = ["CLOSED", "HALF_PAIR", "filling_pair", "valve_positions"]

_PAD, _GAP = 6.0, 12.0
_LEAST = 98.0
_PICTURE = 82.0

CLOSED = (270.0, 90.0)  # levers of a filling loop across their pipes, pointing away
HALF_PAIR = 19.0  # from the middle of a filling loop to each of its valves


def valve_positions(drawing: ValvePositions, layout: Layout = "wide") -> str:
    """The valves side by side, each over its words, in as many rows as it takes."""
    width = sheet_width(layout)
    sheet = Sheet(width)
    count = max(len(drawing.positions), 1)
    lefts, each = columns(count, width - 2 * _PAD, _LEAST, _GAP)
    top = 4.0
    for start in range(0, len(drawing.positions), len(lefts)):
        row = drawing.positions[start : start + len(lefts)]
        bottoms = [
            _draw_position(sheet, position, (_PAD + left, top), each)
            for left, position in zip(lefts, row, strict=False)
        ]
        top = max(bottoms) + _GAP
    return sheet.svg(top)


def _draw_position(sheet: Sheet, position: ValvePosition, corner: Point, width: float) -> float:
    x, y = corner
    sheet.rect(corner, (width, _PICTURE), FAINT_LINE, 4.0)
    centre = (x + width / 2, y + _PICTURE / 2)
    _PICTURES[position.picture](sheet, centre, position.number)
    bottom = sheet.words((x, y + _PICTURE + 5.0), position.label, width, LABEL)
    if position.detail:
        bottom = sheet.words((x, bottom + 1.0), position.detail, width, QUIET)
    return bottom


def _lever(lever: float) -> Callable[[Sheet, Point, str], None]:
    def draw(sheet: Sheet, centre: Point, _number: str) -> None:
        _on_pipe(sheet, centre)
        lever_valve(sheet, centre, lever)

    return draw


def _head(sheet: Sheet, centre: Point, number: str) -> None:
    thermostatic_head(sheet, (centre[0], centre[1] + 4.0), number)


def _lockshield(sheet: Sheet, centre: Point, _number: str) -> None:
    low = (centre[0], centre[1] + 14.0)
    _on_pipe(sheet, low)
    lockshield(sheet, low)


def _motorised(sheet: Sheet, centre: Point, number: str) -> None:
    low = (centre[0], centre[1] + 14.0)
    _on_pipe(sheet, low)
    motorised_valve(sheet, low, number or "M")


def _filling_shut(sheet: Sheet, centre: Point, _number: str) -> None:
    filling_pair(sheet, centre, levers=CLOSED, hose_gap=0.0)


def _filling_off(sheet: Sheet, centre: Point, _number: str) -> None:
    filling_pair(sheet, (centre[0], centre[1] + 12.0), levers=CLOSED, hose_gap=None)


def _key_out(sheet: Sheet, centre: Point, _number: str) -> None:
    low = (centre[0], centre[1] + 20.0)
    _on_pipe(sheet, low)
    key_block(sheet, low, 20.0)


_PICTURES: dict[ValvePicture, Callable[[Sheet, Point, str], None]] = {
    "lever_open": _lever(90.0),
    "lever_closed": _lever(0.0),
    "lockshield": _lockshield,
    "thermostatic_head": _head,
    "motorised": _motorised,
    "filling_valves_closed": _filling_shut,
    "filling_hose_removed": _filling_off,
    "filling_key_removed": _key_out,
}


def _on_pipe(sheet: Sheet, centre: Point) -> None:
    x, y = centre
    pipe(sheet, (x - 34.0, y), (x + 34.0, y))


def filling_pair(
    sheet: Sheet, centre: Point, *, levers: tuple[float, float], hose_gap: float | None
) -> None:
    """The two valves of a filling loop.

    Args:
        sheet: the sheet.
        centre: between the two.
        levers: their angles, clockwise from twelve o'clock.
        hose_gap: how far the hose hangs under their ends; None for caps instead of a hose.
    """
    x, y = centre
    for side, lever in zip((-HALF_PAIR, HALF_PAIR), levers, strict=True):
        pipe(sheet, (x + side, y - 34.0), (x + side, y + 2.0))
        if hose_gap is None:
            cap(sheet, (x + side, y + 5.0))
        lever_valve(sheet, (x + side, y - 14.0), lever)
    if hose_gap is not None:
        level = y + 3.0 + hose_gap
        hose(sheet, (x - HALF_PAIR, level), (x + HALF_PAIR, level), 34.0)
