"""Underfloor heating to EN 1264-2: wet systems with the pipes in the screed (type A and C)."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from hearthbook.errors import check_between
from hearthbook.units import (
    Celsius,
    HeatTransferCoefficient,
    Kelvin,
    Metres,
    Number,
    Ratio,
    SquareMetreKelvinPerWatt,
    WattsPerMetreKelvin,
    WattsPerSquareMetre,
)

__all__ = [
    "HIGHEST_SURFACE_ABOVE_ROOM",
    "HIGHEST_SURFACE_ABOVE_ROOM_IN_EDGE_ZONE",
    "characteristic_slope",
    "covering_factor",
    "heat_flux",
    "limiting_heat_flux",
    "pipe_factor",
    "required_mean_excess",
    "screed_factor",
    "spacing_factor",
    "surface_heat_flux",
    "surface_temperature",
]

HIGHEST_SURFACE_ABOVE_ROOM = 9.0  # K; EN 1264-2: 29 °C at 20 °C, and 33 °C at 24 °C in bathrooms
HIGHEST_SURFACE_ABOVE_ROOM_IN_EDGE_ZONE = 15.0  # K; EN 1264-2: 35 °C at 20 °C

_BASE = 6.7  # W/(m²·K); EN 1264-2 type A and C, pipe wall 2 mm of 0.35 W/(m·K)
_FLOOR_SURFACE = 10.8  # W/(m²·K); EN 1264-2, heat transfer at the floor's surface
_STANDARD_SCREED = 0.045  # m above the pipes, of 1 W/(m·K); EN 1264-2
_WIDEST = 0.375  # m; EN 1264-2, beyond it the output falls with the spacing
_LIMIT_AT_WIDEST = 100.0  # W/m²; EN 1264-2, from 8.92 × 9^1.1

# EN 1264-2, tables A.1 to A.3 (seen as re-published in an open Modelica library, 2020): columns
# by resistance of the covering in m²·K/W, rows by pipe spacing in m.
_COVERINGS = (0.0, 0.05, 0.10, 0.15)
_SPACINGS = (0.05, 0.075, 0.10, 0.15, 0.20, 0.225, 0.30, 0.375)
_SPACING_BASE = (1.23, 1.188, 1.156, 1.134)
_SCREED_BASE = (
    (1.069, 1.056, 1.043, 1.037),
    (1.066, 1.053, 1.041, 1.035),
    (1.063, 1.050, 1.039, 1.0335),
    (1.057, 1.046, 1.035, 1.0305),
    (1.051, 1.041, 1.0315, 1.0275),
    (1.048, 1.038, 1.0295, 1.026),
    (1.0395, 1.031, 1.024, 1.021),
    (1.030, 1.0221, 1.0181, 1.015),
)
_PIPE_BASE = (
    (1.013, 1.013, 1.012, 1.011),
    (1.021, 1.019, 1.016, 1.014),
    (1.029, 1.025, 1.022, 1.018),
    (1.040, 1.034, 1.029, 1.024),
    (1.046, 1.040, 1.035, 1.030),
    (1.049, 1.043, 1.038, 1.033),
    (1.053, 1.049, 1.044, 1.039),
    (1.056, 1.051, 1.046, 1.042),
)
# EN 1264-2, tables A.4 and A.6: columns by screed thickness over conductivity in m²·K/W.
_SCREED_RESISTANCES = (0.01, 0.0208, 0.0292, 0.0375, 0.0458, 0.0542, 0.0625, 0.0708, 0.0792)
_LIMIT_BASE = (
    (85.0, 91.5, 96.8, 100.0, 100.0, 100.0, 100.0, 100.0, 100.0),
    (75.3, 83.5, 89.9, 96.3, 99.5, 100.0, 100.0, 100.0, 100.0),
    (66.0, 75.4, 82.9, 89.3, 95.5, 98.8, 100.0, 100.0, 100.0),
    (51.0, 61.1, 69.2, 76.3, 82.7, 87.5, 91.8, 95.1, 97.8),
    (38.5, 48.2, 56.2, 63.1, 69.1, 74.5, 81.3, 86.4, 90.0),
    (33.0, 42.5, 49.5, 56.5, 62.0, 67.5, 75.3, 81.6, 86.1),
    (20.5, 26.8, 31.6, 36.4, 41.5, 47.5, 57.5, 65.3, 72.4),
    (11.5, 13.7, 15.5, 18.2, 21.5, 27.5, 40.0, 49.1, 58.3),
)
_LIMIT_SPACINGS = (0.05, 0.075, 0.10, 0.15, 0.20, 0.225, 0.2625, 0.30, 0.3375, 0.375)
_LIMIT_EXPONENT = (
    (0.008, 0.005, 0.002, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0),
    (0.024, 0.021, 0.018, 0.011, 0.002, 0.0, 0.0, 0.0, 0.0),
    (0.046, 0.043, 0.041, 0.033, 0.014, 0.005, 0.0, 0.0, 0.0),
    (0.088, 0.085, 0.082, 0.076, 0.055, 0.038, 0.024, 0.014, 0.006),
    (0.131, 0.130, 0.129, 0.123, 0.105, 0.083, 0.057, 0.040, 0.028),
    (0.155, 0.154, 0.153, 0.146, 0.130, 0.110, 0.077, 0.056, 0.041),
    (0.197, 0.196, 0.196, 0.190, 0.173, 0.150, 0.110, 0.083, 0.062),
    (0.254, 0.253, 0.253, 0.245, 0.228, 0.195, 0.145, 0.114, 0.086),
    (0.322, 0.321, 0.321, 0.310, 0.293, 0.260, 0.187, 0.148, 0.115),
    (0.422, 0.421, 0.421, 0.405, 0.385, 0.325, 0.230, 0.183, 0.142),
)
# EN 1264-2, tables A.5 and A.7: for thicker screeds, by screed thickness over spacing.
_THICKNESS_SHARES = (
    0.173, 0.20, 0.25, 0.30, 0.35, 0.40, 0.45, 0.50, 0.55, 0.60, 0.65, 0.70, 0.75,
)  # fmt: skip
_THICK_LIMIT_BASE = (
    27.5, 40.0, 57.5, 69.5, 78.2, 84.4, 88.3, 91.6, 94.0, 96.3, 98.6, 99.8, 100.0,
)  # fmt: skip
_THICK_LIMIT_EXPONENT = (
    0.32, 0.23, 0.145, 0.097, 0.067, 0.048, 0.033, 0.023, 0.015, 0.009, 0.005, 0.002, 0.0,
)  # fmt: skip


def _between(
    rows: tuple[float, ...],
    columns: tuple[float, ...],
    table: tuple[tuple[float, ...], ...],
    row: Number,
    column: Number,
) -> NDArray[np.float64]:
    """Straight lines between the entries of a table; its edge value beyond the edge."""
    y, x = np.broadcast_arrays(np.asarray(row, dtype=float), np.asarray(column, dtype=float))
    grid = np.asarray(table)
    y = np.clip(y, rows[0], rows[-1])
    x = np.clip(x, columns[0], columns[-1])
    i = np.clip(np.searchsorted(rows, y) - 1, 0, len(rows) - 2)
    j = np.clip(np.searchsorted(columns, x) - 1, 0, len(columns) - 2)
    row_values, column_values = np.asarray(rows), np.asarray(columns)
    u = (y - row_values[i]) / (row_values[i + 1] - row_values[i])
    v = (x - column_values[j]) / (column_values[j + 1] - column_values[j])
    low = grid[i, j] * (1 - v) + grid[i, j + 1] * v
    high = grid[i + 1, j] * (1 - v) + grid[i + 1, j + 1] * v
    between: NDArray[np.float64] = low * (1 - u) + high * u
    return between


def _plain(value: Number) -> Number:
    array = np.asarray(value, dtype=float)
    return array if array.ndim else float(array)


def covering_factor(
    covering_resistance: SquareMetreKelvinPerWatt, screed_conductivity: WattsPerMetreKelvin
) -> Ratio:
    """What the floor covering and the screed's conductivity leave of the output.

    Args:
        covering_resistance: of tiles, wood or carpet, 0 to 0.15 m²·K/W.
        screed_conductivity: 0.8 to 2 W/(m·K) for usual screeds.

    Source:
        EN 1264-2, factor a_B.

    Example:
        >>> covering_factor(0.0, 1.0), round(covering_factor(0.1, 1.0), 3)
        (1.0, 0.579)
    """
    surface = 1 / _FLOOR_SURFACE
    standard = surface + _STANDARD_SCREED
    return standard / (surface + _STANDARD_SCREED / screed_conductivity + covering_resistance)


def spacing_factor(covering_resistance: SquareMetreKelvinPerWatt, spacing: Metres) -> Ratio:
    """What the distance between the pipes leaves of the output.

    Args:
        covering_resistance: of the covering, 0 to 0.15 m²·K/W.
        spacing: distance between pipes; from 0.375 m on as at 0.375 m.

    Source:
        EN 1264-2, factor a_T from table A.1, with exponent 1 − T/0.075.

    Example:
        >>> round(spacing_factor(0.0, 0.15), 3)
        0.813
    """
    base = np.interp(covering_resistance, _COVERINGS, _SPACING_BASE)
    return _plain(base ** (1 - np.minimum(spacing, _WIDEST) / 0.075))


def screed_factor(
    covering_resistance: SquareMetreKelvinPerWatt, spacing: Metres, screed_thickness: Metres
) -> Ratio:
    """What the thickness of the screed above the pipes does to the output.

    Args:
        covering_resistance: of the covering, 0 to 0.15 m²·K/W.
        spacing: distance between pipes.
        screed_thickness: above the pipes, 0.01 to 0.1 m.

    Source:
        EN 1264-2, factor a_U from table A.2, with exponent 100 (0.045 − s_u).

    Example:
        >>> screed_factor(0.0, 0.15, 0.045), round(screed_factor(0.0, 0.15, 0.065), 3)
        (1.0, 0.895)
    """
    base = _between(_SPACINGS, _COVERINGS, _SCREED_BASE, spacing, covering_resistance)
    return _plain(base ** (100 * (_STANDARD_SCREED - screed_thickness)))


def pipe_factor(
    covering_resistance: SquareMetreKelvinPerWatt, spacing: Metres, pipe_diameter: Metres
) -> Ratio:
    """What the pipe's outside diameter does to the output.

    Args:
        covering_resistance: of the covering, 0 to 0.15 m²·K/W.
        spacing: distance between pipes.
        pipe_diameter: outside, sheathing included, 0.008 to 0.030 m.

    Source:
        EN 1264-2, factor a_D from table A.3, with exponent 250 (D − 0.020).

    Example:
        >>> pipe_factor(0.0, 0.15, 0.020), round(pipe_factor(0.0, 0.15, 0.016), 3)
        (1.0, 0.962)
    """
    base = _between(_SPACINGS, _COVERINGS, _PIPE_BASE, spacing, covering_resistance)
    return _plain(base ** (250 * (np.asarray(pipe_diameter) - 0.020)))


def characteristic_slope(
    spacing: Metres,
    pipe_diameter: Metres,
    covering_resistance: SquareMetreKelvinPerWatt,
    screed_thickness: Metres = 0.045,
    screed_conductivity: WattsPerMetreKelvin = 1.2,
) -> HeatTransferCoefficient:
    """Heat per square metre of floor and kelvin of the water's mean excess over the room.

    Args:
        spacing: distance between pipes, 0.05 to 0.5 m.
        pipe_diameter: outside, 0.008 to 0.030 m.
        covering_resistance: of the covering, 0 to 0.15 m²·K/W.
        screed_thickness: above the pipes, 0.01 to 0.1 m.
        screed_conductivity: of the screed.

    Raises:
        OutOfRange: a dimension lies outside what the method covers.

    Assumes:
        Pipes in the screed (type A or C) with walls near 2 mm of plastic; the standard's correction
        for other walls is left out (1 to 2 %). Its rule for screeds thicker than 100 mm is left
        out with them.

    Source:
        EN 1264-2, equation for type A, K_H = B·a_B·a_T^mT·a_U^mU·a_D^mD with B = 6.7 W/(m²·K).

    Example:
        >>> round(characteristic_slope(0.15, 0.020, 0.0, 0.045, 1.0), 2)
        5.45
    """
    check_between("pipe spacing", spacing, 0.05, 0.5, "m")
    check_between("pipe diameter", pipe_diameter, 0.008, 0.030, "m")
    check_between("resistance of the covering", covering_resistance, 0.0, 0.15, "m²·K/W")
    check_between("screed above the pipes", screed_thickness, 0.01, 0.1, "m")
    product = (
        covering_factor(covering_resistance, screed_conductivity)
        * spacing_factor(covering_resistance, spacing)
        * screed_factor(covering_resistance, spacing, screed_thickness)
        * pipe_factor(covering_resistance, spacing, pipe_diameter)
    )
    return _plain(_BASE * product * np.minimum(1.0, _WIDEST / np.asarray(spacing)))


def heat_flux(characteristic: HeatTransferCoefficient, mean_excess: Kelvin) -> WattsPerSquareMetre:
    """Heat per square metre of floor.

    Args:
        characteristic: from `characteristic_slope`.
        mean_excess: logarithmic mean of the water above the room, 0 or more.

    Source:
        EN 1264-2, q = K_H·ΔθH.

    Example:
        >>> heat_flux(5.0, 15.0)
        75.0
    """
    return characteristic * mean_excess


def required_mean_excess(
    characteristic: HeatTransferCoefficient, flux: WattsPerSquareMetre
) -> Kelvin:
    """The mean excess of the water at which the floor gives the wanted heat.

    Args:
        characteristic: from `characteristic_slope`, more than 0.
        flux: wanted heat per square metre of floor.

    Source:
        EN 1264-2, q = K_H·ΔθH solved for the excess.

    Example:
        >>> required_mean_excess(5.0, 75.0)
        15.0
    """
    return flux / characteristic


def surface_heat_flux(surface_above_room: Kelvin) -> WattsPerSquareMetre:
    """Heat per square metre that a floor warmer than the room gives off.

    Args:
        surface_above_room: mean floor surface above room, 0 K or more.

    Raises:
        OutOfRange: the floor is colder than the room or over 20 K above it.

    Source:
        EN 1264-2, basic characteristic curve q = 8.92 (θF,m − θi)^1.1.

    Example:
        >>> round(surface_heat_flux(9.0)), round(surface_heat_flux(15.0))
        (100, 175)
    """
    check_between("floor above room", surface_above_room, 0.0, 20.0, "K")
    flux: WattsPerSquareMetre = 8.92 * surface_above_room**1.1
    return flux


def surface_temperature(flux: WattsPerSquareMetre, room_temperature: Celsius) -> Celsius:
    """The mean temperature of a floor that gives a heat flux into the room.

    Args:
        flux: heat per square metre, 0 or more.
        room_temperature: the room above it.

    Raises:
        OutOfRange: the flux is negative or above 240 W/m².

    Source:
        EN 1264-2, basic characteristic curve solved for the surface.

    Example:
        >>> round(surface_temperature(50.0, 20.0), 1)
        24.8
    """
    check_between("heat flux of the floor", flux, 0.0, 240.0, "W/m²")
    temperature: Celsius = room_temperature + (flux / 8.92) ** (1 / 1.1)
    return temperature


def limiting_heat_flux(
    characteristic: HeatTransferCoefficient,
    spacing: Metres,
    screed_thickness: Metres = 0.045,
    screed_conductivity: WattsPerMetreKelvin = 1.2,
    surface_above_room: Kelvin = HIGHEST_SURFACE_ABOVE_ROOM,
) -> WattsPerSquareMetre:
    """The heat flux at which the floor's warmest line, above a pipe, reaches its limit.

    Args:
        characteristic: from `characteristic_slope`.
        spacing: distance between pipes, 0.05 to 0.375 m.
        screed_thickness: above the pipes.
        screed_conductivity: of the screed.
        surface_above_room: highest surface above the room: 9 K where people stay, 15 K in an edge
            strip.

    Raises:
        OutOfRange: the spacing lies outside the tables.

    Source:
        EN 1264-2, limit curves q_G = φ·B_G·(ΔθH/φ)^nG, crossed with q = K_H·ΔθH; tables A.4 to A.7.

    Example:
        >>> round(limiting_heat_flux(5.45, 0.15, 0.045, 1.0), 1)
        96.7
    """
    check_between("pipe spacing", spacing, 0.05, _WIDEST, "m")
    share = np.asarray(screed_thickness / np.asarray(spacing))
    resistance = np.asarray(screed_thickness / np.asarray(screed_conductivity))
    is_thick = resistance > _SCREED_RESISTANCES[-1]
    base = np.where(
        is_thick,
        np.interp(share, _THICKNESS_SHARES, _THICK_LIMIT_BASE),
        _between(_SPACINGS, _SCREED_RESISTANCES, _LIMIT_BASE, spacing, resistance),
    )
    exponent = np.where(
        is_thick,
        np.interp(share, _THICKNESS_SHARES, _THICK_LIMIT_EXPONENT),
        _between(_LIMIT_SPACINGS, _SCREED_RESISTANCES, _LIMIT_EXPONENT, spacing, resistance),
    )
    scale = (np.asarray(surface_above_room) / HIGHEST_SURFACE_ABOVE_ROOM) ** 1.1
    per_kelvin = (base / characteristic) ** (1 / (1 - exponent))
    flux = np.minimum(scale * characteristic * per_kelvin, scale * _LIMIT_AT_WIDEST)
    return _plain(flux)
