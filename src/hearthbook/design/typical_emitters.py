"""What emitters usually give and hold; stands in, marked, where no maker's figure is recorded."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from hearthbook.units import CubicMetres, Metres, Watts

__all__ = [
    "CONTENT_SOURCE",
    "CONTENT_SPREAD",
    "LARGER_PANEL_TYPE",
    "LONGER",
    "OUTPUT_SOURCE",
    "OUTPUT_SPREAD",
    "USUAL_EXPONENT",
    "UsualExponent",
    "floor_water_content",
    "panel_output",
    "panel_water_content",
]

OUTPUT_SPREAD = 0.15  # catalogues lie within this of the table; from memory
OUTPUT_SOURCE = "usual catalogue outputs of steel panel radiators, from memory"
CONTENT_SPREAD = 0.20  # from memory
CONTENT_SOURCE = "usual water contents, from memory"

# W per metre of length at 50 K, for heights of 0.3, 0.45, 0.6 and 0.9 m. From memory of trade
# catalogues; held against an engineering reference's formula in tests/published.
_HEIGHTS = (0.30, 0.45, 0.60, 0.90)
_PER_METRE = {
    "10": (375.0, 515.0, 650.0, 920.0),
    "11": (560.0, 790.0, 1000.0, 1400.0),
    "20": (600.0, 850.0, 1080.0, 1500.0),
    "21": (770.0, 1070.0, 1340.0, 1830.0),
    "22": (990.0, 1370.0, 1725.0, 2400.0),
    "33": (1350.0, 1870.0, 2350.0, 3270.0),
}
_PANELS = {"10": 1, "11": 1, "20": 2, "21": 2, "22": 2, "33": 3}

LARGER_PANEL_TYPE = {"10": "11", "11": "21", "20": "21", "21": "22", "22": "33"}
LONGER = 1.25  # a type 33 cannot grow deeper, so the next one is a quarter longer; common practice


@dataclass(frozen=True)
class UsualExponent:
    """The exponent that stands in where no test report is held.

    Attributes:
        value: of the characteristic equation.
        source: where it comes from.
        note: what to know of it.
    """

    value: float
    source: str
    note: str = ""


USUAL_EXPONENT = {
    "panel_radiator": UsualExponent(
        1.3, "encyclopedia of a pump maker: 1.3 ± 0.1 for panel radiators"
    ),
    "towel_rail": UsualExponent(1.25, "from memory", "tubes without fins lie at 1.2 to 1.3"),
    "fan_assisted": UsualExponent(
        1.4,
        "common practice, no source",
        "the cautious end: a fan at constant speed is nearer 1.0 to 1.1; the test report decides",
    ),
    "underfloor": UsualExponent(1.1, "EN 1264-2, exponent of the basic characteristic curve"),
}


def panel_output(panel_type: str, height: Metres, length: Metres) -> Watts:
    """The usual output of a steel panel radiator at 50 K.

    Args:
        panel_type: panels and rows of fins: 10, 11, 20, 21, 22 or 33.
        height: of the panel.
        length: of the panel.

    Assumes:
        Straight lines between the heights of the table, and on beyond them.

    Source:
        Usual catalogue outputs, from memory, within 15 %.

    Example:
        >>> panel_output("22", 0.6, 1.2)
        2070.0
    """
    table = _PER_METRE[panel_type]
    first, last = (table[1] - table[0]) / 0.15, (table[3] - table[2]) / 0.30
    beyond = last * max(0.0, float(height) - _HEIGHTS[-1])
    short = first * max(0.0, _HEIGHTS[0] - float(height))
    per_metre = float(np.interp(height, _HEIGHTS, table)) + beyond - short
    return max(per_metre, 0.1 * table[0]) * length


def panel_water_content(panel_type: str, height: Metres, length: Metres) -> CubicMetres:
    """The usual water content of a steel panel radiator.

    Args:
        panel_type: panels and rows of fins: 10, 11, 20, 21, 22 or 33.
        height: of the panel.
        length: of the panel.

    Source:
        0.6 + 3.9 × height litres per metre and panel, from memory, within 20 %.

    Example:
        >>> round(panel_water_content("22", 0.6, 1.0) * 1000, 2)
        5.88
    """
    return _PANELS[panel_type] * (0.6 + 3.9 * height) * length / 1000


def floor_water_content(area: float, spacing: Metres, pipe_diameter: Metres) -> CubicMetres:
    """The water in the pipes of a heated floor.

    Args:
        area: floor area with pipes, m².
        spacing: distance between pipes.
        pipe_diameter: outside; the wall is taken as 2 mm, as EN 1264-2 does.

    Source:
        Geometry: area over spacing gives the length of pipe.

    Example:
        >>> round(floor_water_content(15.0, 0.15, 0.016) * 1000, 1)
        11.3
    """
    bore = pipe_diameter - 0.004
    return math.pi / 4 * bore**2 * area / spacing
