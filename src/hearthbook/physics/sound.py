"""Sound of the outdoor unit at a distance."""

from __future__ import annotations

from typing import Literal

import numpy as np

from hearthbook.errors import check_between
from hearthbook.units import Decibels, Metres, Ratio

__all__ = [
    "BARRIER_ALLOWANCE",
    "directivity",
    "distance_correction",
    "distance_for_level",
    "sound_pressure_level",
    "together",
]

# dB taken off for a solid barrier that hides the unit from the window. From memory of common
# planning methods; to be checked against the method that applies.
BARRIER_ALLOWANCE: dict[Literal["none", "partial", "full"], float] = {
    "none": 0.0,
    "partial": 5.0,
    "full": 10.0,
}


def directivity(reflecting_surfaces: Literal[1, 2, 3]) -> Ratio:
    """How many times denser sound is than in free space, for the surfaces it is thrown back from.

    Args:
        reflecting_surfaces: the ground alone 1, ground and a wall 2, a corner 3.

    Source:
        Geometry of a source at the edge of half, quarter and eighth space.

    Example:
        >>> directivity(1), directivity(2), directivity(3)
        (2.0, 4.0, 8.0)
    """
    return float(2**reflecting_surfaces)


def distance_correction(distance: Metres, directivity: Ratio) -> Decibels:
    """What distance and reflecting surfaces do to the sound power level.

    Args:
        distance: from the unit, 0.3 m or more.
        directivity: 2 free on the ground, 4 at a wall, 8 in a corner.

    Returns:
        Negative beyond the near field.

    Raises:
        OutOfRange: the distance is shorter than the unit itself.

    Assumes:
        A small source, no absorption in the air, no further reflections.

    Source:
        Lp = Lw + 10 lg(Q / (4 pi r²)), any handbook of acoustics.

    Example:
        >>> round(distance_correction(10.0, 4.0), 1)
        -25.0
    """
    check_between("distance from the unit", distance, 0.3, 2000.0, "m")
    ratio = np.asarray(directivity / (4.0 * np.pi * np.asarray(distance, dtype=float) ** 2))
    correction = 10.0 * np.log10(ratio)
    return correction if np.ndim(correction) else float(correction)


def sound_pressure_level(
    sound_power_level: Decibels,
    distance: Metres,
    directivity: Ratio,
    barrier_allowance: Decibels = 0.0,
) -> Decibels:
    """Sound pressure level of the unit at a distance.

    Args:
        sound_power_level: of the unit, A-weighted.
        distance: to the place of assessment.
        directivity: 2 free on the ground, 4 at a wall, 8 in a corner.
        barrier_allowance: taken off for a solid barrier.

    Raises:
        OutOfRange: the distance is shorter than the unit itself.

    Source:
        As `distance_correction`.

    Example:
        >>> round(sound_pressure_level(58.0, 5.0, 4.0), 1)
        39.0
    """
    return sound_power_level + distance_correction(distance, directivity) - barrier_allowance


def distance_for_level(
    sound_power_level: Decibels,
    level: Decibels,
    directivity: Ratio,
    barrier_allowance: Decibels = 0.0,
) -> Metres:
    """The distance at which the unit is as quiet as asked.

    Args:
        sound_power_level: of the unit, A-weighted.
        level: not to be exceeded.
        directivity: 2 free on the ground, 4 at a wall, 8 in a corner.
        barrier_allowance: taken off for a solid barrier.

    Source:
        `sound_pressure_level` solved for the distance.

    Example:
        >>> round(distance_for_level(58.0, 37.0, 4.0), 1)
        6.3
    """
    excess = sound_power_level - barrier_allowance - level
    distance: Metres = (directivity / (4.0 * np.pi) * 10.0 ** (excess / 10.0)) ** 0.5
    return distance


def together(first: Decibels, second: Decibels) -> Decibels:
    """The level of two sources heard together.

    Args:
        first: level of one.
        second: level of the other.

    Assumes:
        The two are not in step with each other.

    Source:
        Sum of sound intensities, any handbook of acoustics.

    Example:
        >>> round(together(40.0, 40.0), 2)
        43.01
    """
    powers = 10.0 ** (np.asarray(first) / 10.0) + 10.0 ** (np.asarray(second) / 10.0)
    level = 10.0 * np.log10(powers)
    return level if np.ndim(level) else float(level)
