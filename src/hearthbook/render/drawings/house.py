"""The house cut open, with each room's emitters and the numbers of their valves."""

from __future__ import annotations

from collections.abc import Sequence

from hearthbook.documents.drawings import (
    HouseMark,
    HouseSection,
    RadiatorTag,
    RoomDrawn,
    StoreyDrawn,
)
from hearthbook.render.drawings.hand import (
    EDGE,
    FAINT_LINE,
    HEADING,
    INK,
    LABEL,
    MIST,
    OUTLINE,
    PAPER,
    PLAIN,
    QUIET,
    SYMBOL,
    Stroke,
)
from hearthbook.render.drawings.sheet import Layout, Point, Sheet, sheet_width, words_height
from hearthbook.render.drawings.symbols import EMITTER_SIZE, emitter, fan, kept_open_mark
from hearthbook.render.drawings.text_width import text_width

__all__ = ["house_section"]

_PAD = 6.0
_INSET = 6.0  # between a room's walls and what stands in it
_LEAST_ROOM = 84.0
_ROOF = 34.0
_UNIT = 50.0  # width of the outdoor unit's place beside the house
_RADIATOR_LINE = EMITTER_SIZE[1] + 5.0
_MARK_LINE = 19.0


def house_section(drawing: HouseSection, layout: Layout = "wide") -> str:
    """The storeys one over another under a roof, the outdoor unit beside them, and a key."""
    width = sheet_width(layout)
    sheet = Sheet(width)
    left, right = _PAD + 4.0, width - _PAD - _UNIT - 8.0
    top = _ROOF + 6.0
    y = top
    for storey in reversed(drawing.storeys):
        y = _draw_storey(sheet, storey, (left, right), y)
    sheet.line((left, top), (left, y), (right, y), (right, top), stroke=EDGE)
    eaves = ((left - 6.0, top), ((left + right) / 2, 6.0), (right + 6.0, top))
    sheet.line(*eaves, stroke=EDGE, closed=True)
    ground = _draw_outdoors(sheet, drawing, right, y)
    return sheet.svg(_draw_key(sheet, drawing, ground + 10.0) + 2.0)


def _rows(rooms: Sequence[RoomDrawn], width: float) -> list[list[RoomDrawn]]:
    """The rooms of a storey in as few rows as give each room its words, evenly filled."""
    if not rooms:
        return []
    most = max(1, int(width // _LEAST_ROOM))
    count = -(-len(rooms) // most)
    size, extra = divmod(len(rooms), count)
    rows, start = [], 0
    for index in range(count):
        end = start + size + (1 if index < extra else 0)
        rows.append(list(rooms[start:end]))
        start = end
    return rows


def _widths(rooms: Sequence[RoomDrawn], width: float) -> list[float]:
    """Widths of a row's rooms: in proportion to floor area, as far as the words allow."""
    least = min(_LEAST_ROOM, width / len(rooms))
    spare = width - least * len(rooms)
    total = sum(room.floor_area for room in rooms) or 1.0
    wanted = [max(width * room.floor_area / total - least, 0.0) for room in rooms]
    scale = spare / sum(wanted) if sum(wanted) else 0.0
    even = 0.0 if scale else spare / len(rooms)
    return [least + extra * scale + even for extra in wanted]


def _draw_storey(sheet: Sheet, storey: StoreyDrawn, walls: Point, top: float) -> float:
    left, right = walls
    band = words_height(storey.name, right - left - 2 * _INSET, HEADING) + 6.0
    sheet.rect((left, top), (right - left, band), Stroke("none", fill=MIST), 0.0)
    y = sheet.words((left + _INSET, top + 3.0), storey.name, right - left - 2 * _INSET, HEADING)
    y += 3.0
    for row in _rows(storey.rooms, right - left):
        widths = _widths(row, right - left)
        height = max(_room_height(r, w) for r, w in zip(row, widths, strict=True))
        x = left
        for room, width in zip(row, widths, strict=True):
            sheet.rect((x, y), (width, height), Stroke(INK, 1.0, PAPER), 0.0)
            _draw_room(sheet, room, (x + _INSET, y + _INSET), width - 2 * _INSET)
            x += width
        y += height
    sheet.line((left, y), (right, y), stroke=EDGE)
    return y


def _room_height(room: RoomDrawn, width: float) -> float:
    """Height its words, emitters and marks take."""
    inner = width - 2 * _INSET
    height = words_height(room.name, inner, LABEL) + words_height(room.temperature, inner, QUIET)
    height += sum(_radiator_height(radiator, inner) for radiator in room.radiators)
    height += sum(_mark_height(mark, inner) for mark in room.marks)
    return max(height + 2 * _INSET + 4.0, 46.0)


def _draw_room(sheet: Sheet, room: RoomDrawn, corner: Point, inner: float) -> None:
    x, y = corner
    y = sheet.words((x, y), room.name, inner, LABEL)
    y = sheet.words((x, y), room.temperature, inner, QUIET) + 4.0
    for mark in room.marks:
        _draw_mark(sheet, mark, (x, y))
        sheet.words((x + 20.0, y + 2.0), mark.label, inner - 20.0, PLAIN)
        y += _mark_height(mark, inner)
    for radiator in room.radiators:
        _draw_radiator(sheet, radiator, (x, y), inner)
        y += _radiator_height(radiator, inner)


def _setting_room(inner: float) -> float:
    return max(inner - EMITTER_SIZE[0] - 19.0, 12.0)


def _radiator_height(radiator: RadiatorTag, inner: float) -> float:
    words = words_height(radiator.setting, _setting_room(inner), LABEL)
    return max(_RADIATOR_LINE, words + 7.0)


def _mark_height(mark: HouseMark, inner: float) -> float:
    return max(_MARK_LINE, words_height(mark.label, inner - 20.0) + 5.0)


def _draw_radiator(sheet: Sheet, radiator: RadiatorTag, corner: Point, inner: float) -> None:
    """The box with its tag, then the number of its valve in a ring, or the mark and its words."""
    x, y = corner
    emitter(sheet, corner, radiator.kind, radiator.tag)
    start = x + EMITTER_SIZE[0] + 5.0
    if radiator.is_kept_open:
        kept_open_mark(sheet, (start + 5.0, y + 8.5))
        sheet.words((start + 13.0, y + 2.4), radiator.setting, _setting_room(inner), LABEL)
        return
    span = text_width(radiator.setting, 10.0, bold=True) + 9.0
    if span <= _setting_room(inner) + 13.0:
        sheet.rect((start, y + 0.8), (max(span, 15.4), 15.4), Stroke(INK, 0.8, PAPER), 7.7)
        middle = start + max(span, 15.4) / 2
        sheet.text((middle, y + 12.0), radiator.setting, LABEL, "middle")
    else:
        sheet.words((start + 2.0, y + 2.4), radiator.setting, _setting_room(inner), LABEL)


def _draw_mark(sheet: Sheet, mark: HouseMark, corner: Point) -> None:
    x, y = corner
    if mark.kind == "cylinder":
        sheet.rect((x + 2.0, y), (11.0, 16.0), SYMBOL.filled(MIST), 4.0)
    else:
        sheet.rect((x + 1.0, y + 1.0), (13.0, 13.0), SYMBOL, 3.0)
        sheet.line((x + 7.5, y + 4.0), (x + 7.5, y + 8.0), stroke=OUTLINE)
        sheet.circle((x + 7.5, y + 10.0), 1.6, SYMBOL)


def _draw_outdoors(sheet: Sheet, drawing: HouseSection, wall: float, floor: float) -> float:
    """The outdoor unit beside the wall, and the ground; gives back the bottom of its words."""
    x = wall + 12.0
    unit = (38.0, 32.0)
    sheet.rect((x, floor - unit[1] - 6.0), unit, SYMBOL, 3.0)
    fan(sheet, (x + 15.0, floor - 22.0), 11.0)
    for foot in (6.0, 32.0):
        sheet.line((x + foot, floor - 6.0), (x + foot, floor), stroke=OUTLINE)
    sheet.line((_PAD - 4.0, floor), (sheet.width - 2.0, floor), stroke=EDGE)
    room = _UNIT + 8.0
    return sheet.words((sheet.width - _PAD, floor + 5.0), drawing.outdoor_unit, room, LABEL, "end")


def _draw_key(sheet: Sheet, drawing: HouseSection, top: float) -> float:
    inner = sheet.width - 2 * _PAD
    room = inner - 40.0
    sheet.line((_PAD, top - 4.0), (sheet.width - _PAD, top - 4.0), stroke=FAINT_LINE)
    y = top + 2.0
    emitter(sheet, (_PAD, y), "panel_radiator", "1")
    y = max(sheet.words((_PAD + 40.0, y + 2.4), drawing.key_radiator, room), y + _RADIATOR_LINE)
    sheet.rect((_PAD + 5.5, y), (15.4, 15.4), Stroke(INK, 0.8, PAPER), 7.7)
    sheet.text((_PAD + 13.2, y + 11.2), "3", LABEL, "middle")
    y = max(sheet.words((_PAD + 40.0, y + 2.0), drawing.key_setting, room) + 3.0, y + 20.0)
    if drawing.key_kept_open:
        kept_open_mark(sheet, (_PAD + 13.2, y + 7.0))
        y = sheet.words((_PAD + 40.0, y + 1.0), drawing.key_kept_open, room) + 5.0
    for note in drawing.notes:
        y = sheet.words((_PAD, y), note, inner, PLAIN) + 2.0
    return y
