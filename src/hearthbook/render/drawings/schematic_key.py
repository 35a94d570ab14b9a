"""The key of a schematic: pipes, valves and emitters by their symbols, parts by their numbers."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from hearthbook.documents.drawings import EmitterKind, PartSymbol, SystemSchematic, ValveKind
from hearthbook.render.drawings.hand import (
    FAINT_LINE,
    FLOW,
    LABEL,
    OUTLINE,
    PLAIN,
    QUIET,
    RETURN,
    SLATE,
    Stroke,
)
from hearthbook.render.drawings.placing import columns
from hearthbook.render.drawings.sheet import Point, Sheet
from hearthbook.render.drawings.symbols import emitter, emitter_valve, kept_open_mark
from hearthbook.render.drawings.text_width import text_width, wrapped

__all__ = ["draw_key"]

_PAD, _GAP = 6.0, 14.0
_INDENT = 36.0
_NUMBER_INDENT = 24.0
_SPACE = 3.0  # between a name and its place
_LINE = 12.5
_REFRIGERANT = Stroke(SLATE, 1.3, dash="7 2.5 1.5 2.5")


@dataclass(frozen=True)
class _Item:
    """One entry of the key."""

    draw: Callable[[Sheet, Point], None]
    text: str


def draw_key(sheet: Sheet, drawing: SystemSchematic, top: float) -> float:
    """Symbols first, then, where wanted, the numbered parts; gives back the bottom."""
    rule = (_PAD, top), (sheet.width - _PAD, top)
    sheet.line(*rule, stroke=FAINT_LINE)
    bottom = _draw_symbols(sheet, _items(drawing), top + 8.0)
    if not drawing.shows_key:
        return bottom
    sheet.line((_PAD, bottom), (sheet.width - _PAD, bottom), stroke=FAINT_LINE)
    return _draw_parts(sheet, drawing.parts, bottom + 8.0)


def _items(drawing: SystemSchematic) -> list[_Item]:
    words = drawing.words
    items = [_Item(_pipe(FLOW), words.flow), _Item(_pipe(RETURN), words.return_)]
    if words.refrigerant:
        items.append(_Item(_pipe(_REFRIGERANT), words.refrigerant))
    items += [_Item(_valve(kind), text) for kind, text in words.valves]
    items += [_Item(_emitter(kind), text) for kind, text in words.emitters]
    storeys = drawing.storeys
    if any(item.is_kept_open for storey in storeys for item in storey.emitters):
        items.append(_Item(_kept_open, words.kept_open))
    return items


def _pipe(stroke: Stroke) -> Callable[[Sheet, Point], None]:
    def draw(sheet: Sheet, corner: Point) -> None:
        x, y = corner
        sheet.line((x, y + 8.0), (x + 27.0, y + 8.0), stroke=stroke)

    return draw


def _valve(kind: ValveKind) -> Callable[[Sheet, Point], None]:
    def draw(sheet: Sheet, corner: Point) -> None:
        x, y = corner[0] + 9.0, corner[1] + 8.5
        sheet.line((x, y - 8.0), (x, y + 8.0), stroke=OUTLINE)
        emitter_valve(sheet, (x, y), kind)

    return draw


def _emitter(kind: EmitterKind) -> Callable[[Sheet, Point], None]:
    def draw(sheet: Sheet, corner: Point) -> None:
        emitter(sheet, corner, kind, "")

    return draw


def _kept_open(sheet: Sheet, corner: Point) -> None:
    kept_open_mark(sheet, (corner[0] + 13.0, corner[1] + 8.5))


def _draw_symbols(sheet: Sheet, items: Sequence[_Item], top: float) -> float:
    lefts, each = columns(len(items), sheet.width - 2 * _PAD, 128.0, _GAP)
    rows = -(-len(items) // len(lefts))
    bottom = top
    for column, left in enumerate(lefts):
        y = top
        for item in items[column * rows : (column + 1) * rows]:
            item.draw(sheet, (_PAD + left, y))
            words = sheet.words((_PAD + left + _INDENT, y + 2.2), item.text, each - _INDENT, PLAIN)
            y = max(words, y + 17.0) + 4.0
        bottom = max(bottom, y)
    return bottom + 2.0


def _runs(part: PartSymbol, width: float) -> list[tuple[str, str]]:
    """The part's name and, after it, its place, in lines: what is bold and what is quiet."""
    lines = [(line, "") for line in wrapped(part.name, width, LABEL.size, bold=True)]
    if not part.place:
        return lines
    last = lines[-1][0] if lines else ""
    room = width - text_width(last, LABEL.size, bold=True) - _SPACE
    first = next(iter(wrapped(part.place, max(room, 1.0), QUIET.size)), "")
    whole_words = part.place == first or part.place.startswith(f"{first} ")
    if whole_words and text_width(first, QUIET.size) <= room:
        rest = part.place[len(first) :].strip()
        joined = [*lines[:-1], (last, first)]
    else:
        rest, joined = part.place, lines
    return joined + [("", line) for line in wrapped(rest, width, QUIET.size)]


def _part_height(part: PartSymbol, width: float) -> float:
    return max(len(_runs(part, width)) * _LINE + 5.0, 19.0)


def _draw_parts(sheet: Sheet, parts: Sequence[PartSymbol], top: float) -> float:
    ordered = sorted(parts, key=lambda part: part.number)
    lefts, each = columns(len(ordered), sheet.width - 2 * _PAD, 190.0, _GAP)
    width = each - _NUMBER_INDENT
    share = sum(_part_height(part, width) for part in ordered) / len(lefts)
    column, y, bottom = 0, top, top
    for part in ordered:
        if y - top >= share - 1.0 and column < len(lefts) - 1:
            column, y = column + 1, top
        left = _PAD + lefts[column]
        sheet.number((left + 8.0, y + 7.0), part.number)
        _draw_part(sheet, part, (left + _NUMBER_INDENT, y + 1.0), width)
        y += _part_height(part, width)
        bottom = max(bottom, y)
    return bottom


def _draw_part(sheet: Sheet, part: PartSymbol, corner: Point, width: float) -> None:
    x, y = corner
    for name, place in _runs(part, width):
        baseline = y + 0.76 * LABEL.size
        if name:
            sheet.text((x, baseline), name, LABEL)
        if place:
            start = text_width(name, LABEL.size, bold=True) + _SPACE if name else 0.0
            sheet.text((x + start, baseline), place, QUIET)
        y += _LINE
