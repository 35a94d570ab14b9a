"""How the water runs from the unit to the emitters and back."""

from __future__ import annotations

from collections.abc import Iterable

from hearthbook.documents.drawings import PartKind, PartSymbol, SystemSchematic
from hearthbook.render.drawings.emitter_rails import draw_rails
from hearthbook.render.drawings.hand import (
    EDGE,
    FAINT,
    FLOW,
    INK,
    MIST,
    OUTLINE,
    QUIET,
    RETURN,
    SLATE,
    SYMBOL,
    Stroke,
)
from hearthbook.render.drawings.schematic_key import draw_key
from hearthbook.render.drawings.schematic_parts import draw_inline, draw_standing
from hearthbook.render.drawings.sheet import Layout, Sheet, sheet_width, words_height
from hearthbook.render.drawings.symbols import (
    diverter,
    fan,
    freeze_valve,
    heat_exchanger,
)

__all__ = ["system_schematic"]

_PAD = 6.0
_WALL, _WALL_OF_SPLIT = 82.0, 70.0  # x of the outside wall; nearer where a unit stands inside
_UNIT_LEFT, _UNIT_SIZE = 10.0, (50.0, 70.0)
_RISER = 28.0  # from the right edge to the flow's riser
_CYLINDER = (44.0, 94.0)
_STANDING = 48.0  # height of a part that stands on a pipe, with its number
_COIL = (38.0, 78.0)  # where the coil enters and leaves, from the cylinder's top
_COLD = 56.0  # where the cold water enters, from the cylinder's top
_REFRIGERANT = Stroke(SLATE, 1.3, dash="7 2.5 1.5 2.5")

_ON_FLOW: tuple[PartKind, ...] = (
    "backup_heater",
    "pump",
    "volumiser",
    "air_vent",
    "safety_valve",
    "pressure_gauge",
)
_ON_RETURN: tuple[PartKind, ...] = ("filter", "expansion_vessel", "filling_connection")


class _Plan:
    """Where everything stands on the sheet, worked out before anything is drawn."""

    def __init__(self, drawing: SystemSchematic, width: float) -> None:
        self.drawing = drawing
        self.parts = drawing.parts
        self.riser = width - _RISER
        words = drawing.words
        self.wall = _WALL_OF_SPLIT if self.one("indoor_unit") else _WALL
        heads = max(words_height(w, self.wall - 14.0, QUIET) for w in (words.outside, words.inside))
        self.flow = 6.0 + heads + _STANDING
        self.cylinder_right = self.riser - 32.0
        self.cylinder_left = self.cylinder_right - _CYLINDER[0]
        hot = words_height(words.hot_water, self.hot_width, QUIET)
        self.cylinder_top = self.flow + 29.0 + max(0.0, hot - 12.5)
        self.has_cylinder = self.one("cylinder") is not None
        cold = words_height(words.cold_water, self.cold_width, QUIET)
        least = self.cylinder_top + max(_COIL[1] + 22.0, _COLD + cold + 8.0 + _STANDING)
        self.back = least if self.has_cylinder else self.flow + 112.0
        self.tee = self.cylinder_right if self.has_cylinder else self.riser - 20.0
        self.has_buffer = self.one("buffer") is not None
        if self.has_buffer:
            self.tee = min(self.tee, self.riser - 76.0)
        self.home = self.back + (98.0 if self.has_buffer else 36.0)

    def one(self, kind: PartKind) -> PartSymbol | None:
        """The first part of a kind, if there is one."""
        return next((part for part in self.parts if part.kind == kind), None)

    @property
    def unit_middle(self) -> float:
        """Height of the middle of the unit."""
        return (self.flow + self.back) / 2

    @property
    def start(self) -> float:
        """Where the water's pipes begin: the x of the unit, or of its indoor half."""
        return self.wall + 20.0 if self.one("indoor_unit") else _UNIT_LEFT + 30.0

    @property
    def hot_width(self) -> float:
        """Width of the words for the hot water, left of its arrow."""
        return self.cylinder_left - 34.0 - max(self.start, self.wall)

    @property
    def cold_width(self) -> float:
        """Width of the cold supply left of the cylinder."""
        count = sum(
            part.kind in ("drinking_water_vessel", "drinking_water_safety_valve")
            for part in self.parts
        )
        room = self.cylinder_left - self.wall - 8.0
        return min(room, max(62.0, 22.0 + 26.0 * count))


def system_schematic(drawing: SystemSchematic, layout: Layout = "wide") -> str:
    """The unit, the plant and the emitters by storey, with a key of the numbered parts."""
    width = sheet_width(layout)
    sheet = Sheet(width)
    plan = _Plan(drawing, width)
    _draw_wall(sheet, plan)
    _draw_main_pipes(sheet, plan)
    _draw_unit(sheet, plan)
    _draw_on_flow(sheet, plan)
    _draw_on_return(sheet, plan)
    if plan.has_cylinder:
        _draw_cylinder(sheet, plan)
    _draw_diverter(sheet, plan)
    if plan.has_buffer:
        _draw_buffer(sheet, plan)
    bottom = draw_rails(sheet, drawing, plan.home + 14.0, (plan.home, plan.riser))
    return sheet.svg(draw_key(sheet, drawing, bottom + 4.0) + 4.0)


def _draw_wall(sheet: Sheet, plan: _Plan) -> None:
    words = plan.drawing.words
    foot = plan.home - (62.0 if plan.has_buffer else 6.0)
    sheet.line((plan.wall, 6.0), (plan.wall, foot), stroke=Stroke(FAINT, 2.4, dash="7 5"))
    sheet.words((plan.wall - 6.0, 5.0), words.outside, plan.wall - 14.0, QUIET, "end")
    sheet.words((plan.wall + 6.0, 5.0), words.inside, plan.wall - 14.0, QUIET)


def _draw_main_pipes(sheet: Sheet, plan: _Plan) -> None:
    """Flow along the top and down the right; return along the foot to the unit."""
    flow_end = plan.home + 14.0 if not plan.has_buffer else plan.back + 50.0
    points = ((plan.start, plan.unit_middle), (plan.start, plan.flow), (plan.riser, plan.flow))
    sheet.line(*points, (plan.riser, flow_end), stroke=FLOW)
    sheet.arrow((plan.riser - 26.0, plan.flow), (plan.riser - 12.0, plan.flow), FLOW)
    joint = (plan.tee, plan.back + (50.0 if plan.has_buffer else 36.0))
    sheet.line(joint, (plan.tee, plan.back), (plan.start, plan.back), stroke=RETURN)
    sheet.line((plan.start, plan.back), (plan.start, plan.unit_middle), stroke=RETURN)
    sheet.arrow((plan.wall + 20.0, plan.back), (plan.wall + 6.0, plan.back), RETURN.dashed(""))
    if not plan.has_buffer:
        sheet.line((plan.tee, plan.home), (14.0, plan.home), stroke=RETURN)


def _draw_unit(sheet: Sheet, plan: _Plan) -> None:
    corner = (_UNIT_LEFT, plan.unit_middle - _UNIT_SIZE[1] / 2)
    sheet.rect(corner, _UNIT_SIZE, EDGE.filled(MIST), 4.0)
    fan(sheet, (_UNIT_LEFT + _UNIT_SIZE[0] / 2, corner[1] + 24.0), 15.0)
    if unit := plan.one("outdoor_unit"):
        sheet.number((_UNIT_LEFT + _UNIT_SIZE[0] / 2, corner[1] + 56.0), unit.number)
    if indoor := plan.one("indoor_unit"):
        for rise in (-16.0, 16.0):
            y = plan.unit_middle + rise
            ends = (_UNIT_LEFT + _UNIT_SIZE[0], y), (plan.start - 13.0, y)
            sheet.line(*ends, stroke=_REFRIGERANT)
        heat_exchanger(sheet, (plan.start - 13.0, plan.unit_middle - 28.0), (26.0, 56.0))
        sheet.number((plan.start, plan.unit_middle), indoor.number)
    elif freeze := plan.one("freeze_valves"):
        for level in (plan.flow, plan.back):
            freeze_valve(sheet, (plan.start + 25.0, level))
        sheet.number((plan.start + 25.0, plan.flow - 13.0), freeze.number)
        sheet.number((plan.start + 25.0, plan.back - 13.0), freeze.number)


def _spread(
    parts: Iterable[PartSymbol], left: float, right: float
) -> list[tuple[float, PartSymbol]]:
    """The parts at equal distances along a pipe."""
    row = list(parts)
    step = (right - left) / max(len(row), 1)
    return [(left + step * (index + 0.5), part) for index, part in enumerate(row)]


def _draw_on_flow(sheet: Sheet, plan: _Plan) -> None:
    row = [
        part
        for kind in _ON_FLOW
        for part in plan.parts
        if part.kind == kind and (kind != "volumiser" or part.on == "flow")
    ]
    left = max(plan.start, plan.wall) + 6.0
    for x, part in _spread(row, left, plan.riser - 26.0):
        if not draw_standing(sheet, part, (x, plan.flow)):
            draw_inline(sheet, part, (x, plan.flow), -1.0)


def _draw_on_return(sheet: Sheet, plan: _Plan) -> None:
    """Filter, then what stands on the pipe left of the cylinder, then a vessel under it."""
    row = [part for kind in _ON_RETURN for part in plan.parts if part.kind == kind]
    vessels = [p for p in plan.parts if p.kind == "volumiser" and p.on == "return"]
    left = max(plan.start, plan.wall) + 20.0
    right = plan.tee - 6.0
    if plan.has_cylinder:
        right = min(right, plan.cylinder_left - 6.0)
        placed = _spread(row, left, right) + _spread(vessels, right, plan.tee)
    else:
        placed = _spread([*row, *vessels], left, right)
    for x, part in placed:
        if not draw_standing(sheet, part, (x, plan.back)):
            draw_inline(sheet, part, (x, plan.back), 1.0)


def _draw_cylinder(sheet: Sheet, plan: _Plan) -> None:
    left, right, top = plan.cylinder_left, plan.cylinder_right, plan.cylinder_top
    into, out = top + _COIL[0], top + _COIL[1]
    sheet.line((plan.riser, into), (right - 6.0, into), stroke=FLOW)
    corner = (right + 12.0, out), (right + 12.0, plan.back), (plan.tee, plan.back)
    sheet.line((right - 6.0, out), *corner, stroke=RETURN)
    sheet.rect((left, top), _CYLINDER, EDGE.filled(MIST), 12.0)
    turns = [(right, into), (right - 8.0, into)]
    steps = 6
    for index in range(1, steps):
        x = left + 12.0 if index % 2 else right - 10.0
        turns.append((x, into + (out - into) * index / steps))
    sheet.line(*turns, (right - 8.0, out), (right, out), stroke=OUTLINE)
    if cylinder := plan.one("cylinder"):
        sheet.number(((left + right) / 2, top + 18.0), cylinder.number)
    _draw_drinking_water(sheet, plan)


def _draw_drinking_water(sheet: Sheet, plan: _Plan) -> None:
    """Hot water out of the cylinder's top, cold water in on its left with what stands on it."""
    words, left, top = plan.drawing.words, plan.cylinder_left, plan.cylinder_top
    middle = left + _CYLINDER[0] / 2
    if words.hot_water:
        points = (middle, top), (middle, top - 12.0)
        sheet.line(*points, stroke=OUTLINE)
        sheet.arrow((middle, top - 12.0), (left - 10.0, top - 12.0), OUTLINE)
        rise = words_height(words.hot_water, plan.hot_width, QUIET)
        foot = (left - 14.0, top - 6.0 - rise)
        sheet.words(foot, words.hot_water, plan.hot_width, QUIET, "end")
    row = [
        part
        for part in plan.parts
        if part.kind in ("drinking_water_safety_valve", "drinking_water_vessel")
    ]
    if not (words.cold_water or row):
        return
    cold = top + _COLD
    sheet.arrow((left - plan.cold_width, cold), (left, cold), OUTLINE)
    sheet.words((left - plan.cold_width, cold + 3.0), words.cold_water, plan.cold_width, QUIET)
    for x, part in _spread(row, left - plan.cold_width, left - 6.0):
        draw_standing(sheet, part, (x, cold))


def _draw_diverter(sheet: Sheet, plan: _Plan) -> None:
    if part := plan.one("diverter_valve"):
        level = plan.cylinder_top + _COIL[0]
        diverter(sheet, (plan.riser, level))
        sheet.number((plan.riser + 15.0, level - 20.0), part.number)


def _draw_buffer(sheet: Sheet, plan: _Plan) -> None:
    """A vessel with four pipes between the unit's circuit and the rooms'."""
    left, top = plan.riser - 58.0, plan.back + 38.0
    width, high, low = 36.0, plan.back + 50.0, plan.back + 98.0
    sheet.line((plan.riser, high), (left + width, high), stroke=FLOW)
    sheet.line((left + width, low), (plan.riser, low), (plan.riser, plan.home + 14.0), stroke=FLOW)
    sheet.line((left, high), (plan.tee, high), stroke=RETURN)
    sheet.line((14.0, low), (left, low), stroke=RETURN)
    sheet.rect((left, top), (width, 72.0), SYMBOL.filled(MIST), 10.0)
    sheet.rect((left, top), (width, 72.0), Stroke(INK, 2.4), 10.0)
    if part := plan.one("buffer"):
        sheet.number((left + width / 2, top + 36.0), part.number)
