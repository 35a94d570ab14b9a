"""Symbols of parts on a schematic.

Source: ISO 14617 (graphical symbols for diagrams), parts for valves, pumps, filters, vessels and
measuring instruments; from memory. Where we know no standard symbol the shape is our own.
"""

from __future__ import annotations

from hearthbook.documents.drawings import EmitterKind, ValveKind
from hearthbook.render.drawings.hand import (
    EDGE,
    INK,
    MIST,
    OUTLINE,
    PAPER,
    SOLID,
    SYMBOL,
    Lettering,
    Stroke,
)
from hearthbook.render.drawings.sheet import Point, Sheet, on_circle

__all__ = [
    "EMITTER_SIZE",
    "backup_heater",
    "diverter",
    "emitter",
    "emitter_valve",
    "expansion_vessel",
    "fan",
    "filling",
    "filter_",
    "freeze_valve",
    "heat_exchanger",
    "kept_open_mark",
    "pressure_gauge",
    "pump",
    "safety_valve",
    "valve",
    "vent",
    "volumiser",
]

EMITTER_SIZE = (27.0, 17.0)
_FINE = Stroke(INK, 0.8)
_LETTER = Lettering(10.0, bold=True)


def valve(sheet: Sheet, centre: Point, *, upright: bool = False, size: float = 7.0) -> None:
    """A valve: two triangles that meet at their points."""
    x, y = centre
    half = size * 0.72
    if upright:
        corners = ((x - half, y - size), (x + half, y - size), (x, y))
        others = ((x - half, y + size), (x + half, y + size), (x, y))
    else:
        corners = ((x - size, y - half), (x - size, y + half), (x, y))
        others = ((x + size, y - half), (x + size, y + half), (x, y))
    for triangle in (corners, others):
        sheet.line(*triangle, stroke=SYMBOL, closed=True)


def diverter(sheet: Sheet, centre: Point) -> None:
    """A motorised three-way valve on an upright pipe, with its branch to the left."""
    x, y = centre
    sheet.line((x, y), (x + 9.0, y), stroke=OUTLINE)
    valve(sheet, centre, upright=True)
    sheet.line((x - 7.0, y - 5.0), (x - 7.0, y + 5.0), (x, y), stroke=SYMBOL, closed=True)
    sheet.circle((x + 15.5, y), 6.5, SYMBOL)
    sheet.text((x + 15.5, y + 3.5), "M", _LETTER, "middle")


def freeze_valve(sheet: Sheet, centre: Point) -> None:
    """A valve on a branch downwards that lets water out when it is near freezing."""
    x, y = centre
    sheet.line((x, y), (x, y + 8.0), stroke=OUTLINE)
    valve(sheet, (x, y + 13.0), upright=True, size=5.5)
    sheet.arrow((x, y + 18.5), (x, y + 26.0), _FINE, size=4.5)


def pump(sheet: Sheet, centre: Point) -> None:
    """A pump: a circle with a triangle that points the way the water goes."""
    x, y = centre
    sheet.circle(centre, 9.0, SYMBOL)
    sheet.line((x - 4.5, y - 7.5), (x + 8.5, y), (x - 4.5, y + 7.5), stroke=OUTLINE)


def backup_heater(sheet: Sheet, centre: Point) -> None:
    """An electric heater: a box with the bars of a heating element."""
    x, y = centre
    sheet.rect((x - 10.0, y - 6.5), (20.0, 13.0), SYMBOL, 1.0)
    for offset in (-5.0, 0.0, 5.0):
        sheet.line((x + offset, y - 6.5), (x + offset, y + 6.5), stroke=_FINE)


def filter_(sheet: Sheet, centre: Point) -> None:
    """A filter: a box with a broken line across the way of the water."""
    x, y = centre
    sheet.rect((x - 8.0, y - 8.0), (16.0, 16.0), SYMBOL, 1.0)
    sheet.line((x, y - 7.0), (x, y + 7.0), stroke=OUTLINE.dashed("2.4 2.6"))


def safety_valve(sheet: Sheet, foot: Point) -> None:
    """A spring-loaded safety valve standing on a pipe, its outlet to the right."""
    x, y = foot
    sheet.line((x, y), (x, y - 8.0), stroke=OUTLINE)
    top = (x, y - 15.0)
    sheet.line((x - 5.0, y - 8.0), (x + 5.0, y - 8.0), top, stroke=SYMBOL, closed=True)
    sheet.line((x + 8.0, y - 20.0), (x + 8.0, y - 10.0), top, stroke=SYMBOL, closed=True)
    spring = ((x, y - 15.0), (x, y - 18.0), (x - 3.5, y - 19.5), (x + 3.5, y - 22.0))
    sheet.line(*spring, (x - 3.5, y - 24.5), (x + 3.5, y - 27.0), stroke=_FINE)


def pressure_gauge(sheet: Sheet, foot: Point) -> None:
    """A pressure gauge standing on a pipe."""
    x, y = foot
    sheet.line((x, y), (x, y - 10.0), stroke=OUTLINE)
    centre = (x, y - 18.5)
    sheet.circle(centre, 8.5, SYMBOL)
    sheet.arrow(on_circle(centre, 4.0, 225.0), on_circle(centre, 7.0, 45.0), _FINE, size=5.0)


def vent(sheet: Sheet, foot: Point) -> None:
    """An air vent standing on a pipe."""
    x, y = foot
    sheet.line((x, y), (x, y - 9.0), stroke=OUTLINE)
    sheet.rect((x - 5.0, y - 21.0), (10.0, 12.0), SYMBOL, 2.0)
    sheet.line((x, y - 21.0), (x, y - 26.0), stroke=_FINE)
    sheet.arrow((x, y - 26.0), (x + 7.0, y - 26.0), _FINE, size=4.0)


def expansion_vessel(sheet: Sheet, foot: Point) -> None:
    """An expansion vessel standing on a pipe: a vessel with its membrane."""
    x, y = foot
    sheet.line((x, y), (x, y - 10.0), stroke=OUTLINE)
    centre = (x, y - 20.0)
    sheet.circle(centre, 10.0, SYMBOL)
    path = f"M{x - 10:.1f} {y - 20:.1f}Q{x - 5:.1f} {y - 26:.1f} {x:.1f} {y - 20:.1f}"
    sheet.curve(path + f"T{x + 10:.1f} {y - 20:.1f}", OUTLINE)


def filling(sheet: Sheet, foot: Point) -> None:
    """Where water is added: a valve and an arrow into the pipe."""
    x, y = foot
    sheet.line((x, y), (x, y - 10.0), stroke=OUTLINE)
    valve(sheet, (x, y - 16.0), upright=True, size=6.0)
    sheet.arrow((x, y - 34.0), (x, y - 23.0), OUTLINE, size=5.0)


def volumiser(sheet: Sheet, centre: Point) -> None:
    """A vessel in line with the pipe."""
    x, y = centre
    sheet.rect((x - 11.0, y - 11.0), (22.0, 22.0), SYMBOL.filled(MIST), 6.0)


def heat_exchanger(sheet: Sheet, corner: Point, size: Point) -> None:
    """A plate heat exchanger: a box with one slanting line."""
    (x, y), (width, height) = corner, size
    sheet.rect(corner, size, EDGE.filled(PAPER), 3.0)
    sheet.line((x, y + height), (x + width, y), stroke=_FINE)


def fan(sheet: Sheet, centre: Point, radius: float) -> None:
    """A fan in its ring: four bent blades."""
    x, y = centre
    sheet.circle(centre, radius, SYMBOL)
    for turn in (0.0, 90.0, 180.0, 270.0):
        bend = on_circle(centre, radius * 0.62, turn - 48.0)
        tip = on_circle(centre, radius * 0.84, turn)
        back = on_circle(centre, radius * 0.5, turn + 6.0)
        path = f"M{x:.2f} {y:.2f}Q{bend[0]:.2f} {bend[1]:.2f} {tip[0]:.2f} {tip[1]:.2f}"
        sheet.curve(f"{path}Q{back[0]:.2f} {back[1]:.2f} {x:.2f} {y:.2f}", _FINE.filled(MIST))
    sheet.circle(centre, radius * 0.12, SOLID)


def kept_open_mark(sheet: Sheet, centre: Point) -> None:
    """The mark of an emitter that stays open: a solid dot in a ring."""
    sheet.circle(centre, 4.6, Stroke(INK, 1.0, PAPER))
    sheet.circle(centre, 2.6, SOLID)


def emitter(sheet: Sheet, corner: Point, kind: EmitterKind, tag: str) -> None:
    """An emitter with the number of its tag."""
    (x, y), (width, height) = corner, EMITTER_SIZE
    sheet.rect(corner, EMITTER_SIZE, SYMBOL, 2.0)
    match kind:
        case "panel_radiator":
            for side in (4.0, width - 4.0):
                sheet.line((x + side, y), (x + side, y + height), stroke=_FINE)
        case "fan_assisted":
            fan(sheet, (x + 5.5, y + height / 2), 4.4)
        case "towel_rail":
            for level in (4.2, 8.5, 12.8):
                sheet.line((x, y + level), (x + 5.0, y + level), stroke=_FINE)
                sheet.line((x + width - 5.0, y + level), (x + width, y + level), stroke=_FINE)
        case "underfloor":
            points = [(x + 2.0 + 2.3 * i, y + height - (2.0 if i % 2 else 5.0)) for i in range(11)]
            sheet.line(*points, stroke=_FINE)
    middle = x + width / 2 + (4.0 if kind == "fan_assisted" else 0.0)
    rise = 10.6 if kind == "underfloor" else 12.0
    sheet.text((middle, y + rise), tag, _LETTER, "middle")


def emitter_valve(sheet: Sheet, centre: Point, kind: ValveKind) -> None:
    """The valve of an emitter on an upright pipe, with what turns it to the right."""
    x, y = centre
    valve(sheet, centre, upright=True, size=5.0)
    if kind == "lockshield_only":
        return
    sheet.line((x, y), (x + 6.0, y), stroke=_FINE)
    match kind:
        case "thermostatic":
            sheet.rect((x + 6.0, y - 4.0), (6.0, 8.0), SOLID, 1.5)
        case "manual":
            sheet.line((x + 6.0, y - 4.0), (x + 6.0, y + 4.0), stroke=OUTLINE)
        case "motorised":
            sheet.circle((x + 10.0, y), 4.2, SYMBOL)
            sheet.line((x + 8.2, y + 2.0), (x + 8.2, y - 1.6), (x + 10.0, y + 0.6), stroke=_FINE)
            sheet.line((x + 10.0, y + 0.6), (x + 11.8, y - 1.6), (x + 11.8, y + 2.0), stroke=_FINE)
