"""The parts on a schematic's pipes, each with its number."""

from __future__ import annotations

from collections.abc import Callable

from hearthbook.documents.drawings import PartKind, PartSymbol
from hearthbook.render.drawings import symbols
from hearthbook.render.drawings.sheet import Point, Sheet

__all__ = ["draw_inline", "draw_standing"]

_STANDING: dict[PartKind, Callable[[Sheet, Point], None]] = {
    "air_vent": symbols.vent,
    "safety_valve": symbols.safety_valve,
    "pressure_gauge": symbols.pressure_gauge,
    "expansion_vessel": symbols.expansion_vessel,
    "filling_connection": symbols.filling,
    "drinking_water_vessel": symbols.expansion_vessel,
    "drinking_water_safety_valve": symbols.safety_valve,
}
_INLINE: dict[PartKind, Callable[[Sheet, Point], None]] = {
    "backup_heater": symbols.backup_heater,
    "pump": symbols.pump,
    "volumiser": symbols.volumiser,
    "filter": symbols.filter_,
}
_TOP = {"expansion_vessel": 39.0, "drinking_water_vessel": 39.0, "filling_connection": 42.0}


def draw_standing(sheet: Sheet, part: PartSymbol, foot: Point) -> bool:
    """Draw a part that stands on a pipe, its number above it; gives back whether it is one."""
    draw = _STANDING.get(part.kind)
    if draw is None:
        return False
    draw(sheet, foot)
    rise = _TOP.get(part.kind, 36.0)
    sheet.number((foot[0], foot[1] - rise), part.number)
    return True


def draw_inline(sheet: Sheet, part: PartSymbol, centre: Point, side: float) -> None:
    """Draw a part the water runs through, its number above (side −1) or under it (side 1)."""
    _INLINE[part.kind](sheet, centre)
    sheet.number((centre[0], centre[1] + side * 20.5), part.number)
