"""A home that stores heat: how fast it cools unheated, and how fast it warms again."""

from __future__ import annotations

from typing import Literal

import numpy as np

from hearthbook.units import (
    Celsius,
    JoulesPerKelvin,
    Kelvin,
    Seconds,
    SquareMetres,
    Watts,
    WattsPerKelvin,
)

__all__ = ["heat_capacity", "recovery_time", "temperature_after", "time_constant"]

# J/K for each square metre of floor; SAP 2012 table 1f, from memory: 100, 250, 450 kJ/K, with
# 110 for light as handbooks of today round it
_CAPACITY_PER_AREA = {"light": 110e3, "medium": 250e3, "heavy": 450e3}


def heat_capacity(
    floor_area: SquareMetres, mass: Literal["light", "medium", "heavy"]
) -> JoulesPerKelvin:
    """Heat that a home stores for each kelvin, by its floor area and its build.

    Args:
        floor_area: heated floor.
        mass: timber frame light, masonry within light, all masonry with solid floors heavy.

    Source:
        SAP 2012, table 1f, from memory.

    Example:
        >>> round(heat_capacity(100.0, "medium") / 3.6e6, 1)
        6.9
    """
    return floor_area * _CAPACITY_PER_AREA[mass]


def time_constant(capacity: JoulesPerKelvin, coefficient: WattsPerKelvin) -> Seconds:
    """Time in which an unheated home loses 63 % of its warmth above outdoors.

    Args:
        capacity: heat stored for each kelvin.
        coefficient: heat lost for each kelvin, above 0.

    Source:
        One thermal mass losing heat in proportion.

    Example:
        >>> round(time_constant(7.0 * 3.6e6, 200.0) / 3600)
        35
    """
    return capacity / coefficient


def temperature_after(
    duration: Seconds, start: Celsius, balance: Celsius, time_constant: Seconds
) -> Celsius:
    """Temperature of an unheated home after a time.

    Args:
        duration: without heating.
        start: temperature of the rooms at the beginning.
        balance: temperature they would settle at: outdoors, plus what gains hold up.
        time_constant: of the home.

    Source:
        Exponential decay of one thermal mass.

    Example:
        >>> round(temperature_after(8 * 3600.0, 20.0, 5.0, 35 * 3600.0), 1)
        16.9
    """
    left = np.asarray((start - balance) * np.exp(-duration / time_constant))
    return balance + (left if left.ndim else float(left))


def recovery_time(capacity: JoulesPerKelvin, rise: Kelvin, spare: Watts) -> Seconds:
    """Time to warm a home, once heat beyond its losses is there.

    Args:
        capacity: heat stored for each kelvin.
        rise: of the rooms.
        spare: heat beyond the losses, above 0.

    Source:
        Heat balance with losses held; a little optimistic, as losses grow with the rooms' warmth.

    Example:
        >>> round(recovery_time(7.0 * 3.6e6, 2.0, 2000.0) / 3600, 1)
        7.0
    """
    return capacity * rise / spare
