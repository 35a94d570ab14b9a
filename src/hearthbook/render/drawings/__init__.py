"""Drawings: each described as data in `documents.drawings`, each drawn by a module here."""

from __future__ import annotations

from typing import assert_never

from hearthbook.documents.drawings import (
    ClearSpace,
    Drawing,
    HandFeelStrip,
    HeadScale,
    HouseSection,
    MeterDisplay,
    PressureGauge,
    SystemSchematic,
    TopUpSteps,
    ValvePositions,
)
from hearthbook.render.drawings.clear_space import clear_space
from hearthbook.render.drawings.gauge import pressure_gauge
from hearthbook.render.drawings.hand_feel import hand_feel_strip
from hearthbook.render.drawings.head_scale import head_scale
from hearthbook.render.drawings.house import house_section
from hearthbook.render.drawings.meter import meter_display
from hearthbook.render.drawings.schematic import system_schematic
from hearthbook.render.drawings.sheet import Layout
from hearthbook.render.drawings.sign import warning_sign
from hearthbook.render.drawings.top_up import top_up_steps
from hearthbook.render.drawings.valves import valve_positions

__all__ = ["draw", "warning_sign"]


def draw(drawing: Drawing, layout: Layout = "wide") -> str:  # noqa: C901, PLR0911 - one case per kind
    """A drawing as SVG, white behind, its natural size its printed size.

    Args:
        drawing: what is drawn.
        layout: `wide` for a page set 160 mm wide; `narrow`, laid out anew with larger lettering,
            for large print and for a telephone.
    """
    match drawing:
        case SystemSchematic():
            return system_schematic(drawing, layout)
        case PressureGauge():
            return pressure_gauge(drawing, layout)
        case ValvePositions():
            return valve_positions(drawing, layout)
        case MeterDisplay():
            return meter_display(drawing, layout)
        case HouseSection():
            return house_section(drawing, layout)
        case ClearSpace():
            return clear_space(drawing, layout)
        case HeadScale():
            return head_scale(drawing, layout)
        case HandFeelStrip():
            return hand_feel_strip(drawing, layout)
        case TopUpSteps():
            return top_up_steps(drawing, layout)
        case _:
            assert_never(drawing)
