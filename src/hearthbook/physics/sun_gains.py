"""Warmth from the sun through windows, month by month, where nothing better is known."""

from __future__ import annotations

from typing import Literal

import numpy as np

from hearthbook.units import Ratio, SquareMetres, Watts, WattsPerSquareMetre

__all__ = ["Facing", "monthly_irradiance", "open_area", "solar_gain"]

Facing = Literal["north", "east_or_west", "south", "any", "horizontal"]

# W/m²; horizontal, mean of day and night, United Kingdom; SAP 2012 table U3, from memory
_HORIZONTAL = np.array([26.0, 54, 96, 150, 192, 200, 189, 157, 115, 66, 33, 21])

# Sun on an upright surface over that on a horizontal one, at 50 to 56° of latitude: a low sun in
# winter shines straight at a south wall. From memory, good to a fifth; January first
_UPRIGHT: dict[str, tuple[float, ...]] = {
    "north": (0.41, 0.38, 0.35, 0.34, 0.36, 0.38, 0.37, 0.35, 0.34, 0.36, 0.40, 0.42),
    "east_or_west": (0.72, 0.69, 0.65, 0.63, 0.61, 0.60, 0.60, 0.62, 0.64, 0.68, 0.72, 0.74),
    "south": (1.80, 1.35, 0.98, 0.73, 0.58, 0.53, 0.55, 0.67, 0.88, 1.25, 1.70, 1.95),
}
_TRANSMITTED_AT_AN_ANGLE = 0.9  # of the transmittance at right angles; SAP 2012, from memory


def monthly_irradiance(facing: Facing) -> WattsPerSquareMetre:
    """Mean sunshine on a surface in each month, night counted.

    Args:
        facing: where the surface looks; `any` for the mean of the four quarters of the sky.

    Shapes:
        Twelve months, January first.

    Assumes:
        A mild maritime climate at 50 to 56° of latitude, free horizon.

    Source:
        SAP 2012 table U3 for the horizontal, and usual ratios for upright surfaces; both from
        memory.

    Example:
        >>> [round(float(one)) for one in monthly_irradiance("south")[[0, 5]]]
        [47, 106]
    """
    ratio = np.ones(12)
    if facing == "any":
        quarters = [_UPRIGHT[one] for one in ("north", "south", "east_or_west", "east_or_west")]
        ratio = np.array(quarters, dtype=float).mean(axis=0)
    elif facing != "horizontal":
        ratio = np.array(_UPRIGHT[facing])
    irradiance: WattsPerSquareMetre = _HORIZONTAL * ratio
    return irradiance


def open_area(
    area: SquareMetres, transmittance: Ratio, frame_share: Ratio, shading: Ratio
) -> SquareMetres:
    """The hole in the wall that would let as much sun in as a window does.

    Args:
        area: of the opening.
        transmittance: total solar energy transmittance of the glass at right angles.
        frame_share: of the opening taken by the frame.
        shading: share of the sun that gets past trees, reveals and neighbours.

    Source:
        SAP 2012, solar gains: 0.9 · area · g · (1 - frame) · shading. From memory.

    Example:
        >>> round(open_area(2.0, 0.63, 0.3, 0.77), 2)
        0.61
    """
    return _TRANSMITTED_AT_AN_ANGLE * area * transmittance * (1.0 - frame_share) * shading


def solar_gain(open_area: SquareMetres, irradiance: WattsPerSquareMetre) -> Watts:
    """Warmth let in.

    Args:
        open_area: of the window, see `open_area`.
        irradiance: on it.

    Source:
        Definition of the total solar energy transmittance.

    Example:
        >>> solar_gain(0.5, 100.0)
        50.0
    """
    return open_area * irradiance
