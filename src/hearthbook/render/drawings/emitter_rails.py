"""The emitters of a schematic between their flow and return, storey by storey."""

from __future__ import annotations

from hearthbook.documents.drawings import EmitterSymbol, StoreyOfEmitters, SystemSchematic
from hearthbook.render.drawings.hand import FLOW, LABEL, OUTLINE, RETURN, SYMBOL
from hearthbook.render.drawings.sheet import Point, Sheet
from hearthbook.render.drawings.symbols import EMITTER_SIZE, emitter, emitter_valve, kept_open_mark

__all__ = ["draw_rails"]

_LEFT = 14.0  # x of the return's riser
_FIRST = 44.0  # x of the first emitter's pipe
_LEAST_SLOT, _MOST_SLOT = 38.0, 54.0  # from one emitter to the next
_ROW = 53.0


def draw_rails(sheet: Sheet, drawing: SystemSchematic, top: float, risers: Point) -> float:
    """Draw the storeys, the highest first.

    Args:
        sheet: the sheet.
        drawing: the schematic.
        top: where the first storey begins.
        risers: where the return's riser starts (y), and the x of the flow's riser.

    Returns:
        The bottom of the last storey.
    """
    return_top, riser = risers
    manifold = next((p.number for p in drawing.parts if p.kind == "underfloor_manifold"), None)
    slot = _slot(drawing, riser - _FIRST - 40.0)
    y, flow_end, return_end = top, top, return_top
    for storey in reversed(drawing.storeys):
        if not storey.emitters:
            continue
        number = manifold if any(e.kind == "underfloor" for e in storey.emitters) else None
        y = sheet.words((_LEFT + 12.0, y), storey.name, riser - _LEFT - 24.0, LABEL) + 5.0
        for row in _rows(storey, riser - _FIRST - 40.0, slot):
            _draw_row(sheet, row, (y, slot), riser)
            if number:
                _draw_manifold(sheet, (riser - 24.0, y), number)
                number = manifold = None
            flow_end, return_end = y, y + 47.0
            y += _ROW
        y += 2.0
    sheet.line((riser, top), (riser, flow_end), stroke=FLOW)
    sheet.line((_LEFT, return_end), (_LEFT, return_top), stroke=RETURN)
    return y


def _slot(drawing: SystemSchematic, room: float) -> float:
    """Distance between emitters: wide where there are few, never too narrow for one."""
    most = max((len(storey.emitters) for storey in drawing.storeys), default=1)
    return min(max(room / max(most, 1), _LEAST_SLOT), _MOST_SLOT)


def _rows(storey: StoreyOfEmitters, room: float, slot: float) -> list[tuple[EmitterSymbol, ...]]:
    most = max(1, int(room / slot + 0.01))
    emitters = storey.emitters
    return [emitters[start : start + most] for start in range(0, len(emitters), most)]


def _draw_row(sheet: Sheet, row: tuple[EmitterSymbol, ...], place: Point, riser: float) -> None:
    """One row of emitters under its flow pipe and over its return pipe."""
    y, slot = place
    foot = y + 47.0
    last = _FIRST + slot * (len(row) - 1)
    sheet.line((riser, y), (_FIRST, y), stroke=FLOW)
    sheet.line((last, foot), (_LEFT, foot), stroke=RETURN)
    for index, item in enumerate(row):
        x = _FIRST + slot * index
        corner = (x - EMITTER_SIZE[0] / 2, y + 22.0)
        sheet.line((x, y), (x, y + 22.0), stroke=OUTLINE)
        sheet.line((x, y + 39.0), (x, foot), stroke=OUTLINE)
        emitter_valve(sheet, (x, y + 12.0), item.valve)
        emitter(sheet, corner, item.kind, item.tag)
        if item.is_kept_open:
            kept_open_mark(sheet, (corner[0] - 1.0, corner[1] - 1.0))


def _draw_manifold(sheet: Sheet, centre: Point, number: int) -> None:
    x, y = centre
    sheet.rect((x - 10.0, y - 4.0), (20.0, 8.0), SYMBOL, 2.0)
    for offset in (-5.0, 0.0, 5.0):
        sheet.line((x + offset, y + 4.0), (x + offset, y + 8.0), stroke=OUTLINE)
    sheet.number((x, y + 19.0), number)
