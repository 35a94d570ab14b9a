"""Walls, roofs and floors to ISO 6946: resistances of layers, of bridged layers, and U-values."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from hearthbook.errors import check_between
from hearthbook.units import (
    Metres,
    Ratio,
    SquareMetreKelvinPerWatt,
    SquareMetres,
    WattsPerMetreKelvin,
    WattsPerSquareMetreKelvin,
)

__all__ = [
    "HIGHEST_RATIO_OF_LIMITS",
    "INSIDE_DOWNWARD",
    "INSIDE_HORIZONTAL",
    "INSIDE_UPWARD",
    "OUTSIDE",
    "air_layer_resistance_across",
    "air_layer_resistance_downward",
    "air_layer_resistance_upward",
    "combined_resistance",
    "layer_resistance",
    "lower_resistance",
    "opening_area",
    "total_resistance",
    "u_value",
    "upper_resistance",
]

# ISO 6946:2017, table of surface resistances, m²·K/W; wall values seen in print, rest from memory
INSIDE_HORIZONTAL = 0.13
INSIDE_UPWARD = 0.10
INSIDE_DOWNWARD = 0.17
OUTSIDE = 0.04

HIGHEST_RATIO_OF_LIMITS = 1.5  # ISO 6946:2017, validity of the combined method; from memory

# ISO 6946:2017, unventilated air layers with surfaces of high emissivity; from memory
_AIR_THICKNESS = np.array([0.0, 0.005, 0.007, 0.010, 0.015, 0.025, 0.050, 0.100, 0.300])  # m
_AIR_ACROSS = np.array([0.0, 0.11, 0.13, 0.15, 0.17, 0.18, 0.18, 0.18, 0.18])  # m²·K/W
_AIR_UPWARD = np.array([0.0, 0.11, 0.13, 0.15, 0.16, 0.16, 0.16, 0.16, 0.16])  # m²·K/W
_AIR_DOWNWARD = np.array([0.0, 0.11, 0.13, 0.15, 0.17, 0.19, 0.21, 0.22, 0.23])  # m²·K/W


def layer_resistance(
    thickness: Metres, conductivity: WattsPerMetreKelvin
) -> SquareMetreKelvinPerWatt:
    """Thermal resistance of a layer of one material.

    Args:
        thickness: in the direction of the heat flow, 0 to 10 m.
        conductivity: design value of the material, above 0.

    Raises:
        OutOfRange: thickness or conductivity lies outside.

    Source:
        ISO 6946:2017, thermal resistance of a homogeneous layer.

    Example:
        >>> layer_resistance(0.100, 0.040)
        2.5
    """
    check_between("layer thickness", thickness, 0.0, 10.0, "m")
    check_between("conductivity", conductivity, 0.001, 500.0, "W/(m·K)")
    return thickness / conductivity


def _air_layer(thickness: Metres, table: NDArray[np.float64]) -> SquareMetreKelvinPerWatt:
    check_between("air layer", thickness, 0.0, 0.3, "m")
    found = np.interp(thickness, _AIR_THICKNESS, table)
    return found if isinstance(thickness, np.ndarray) else float(found)


def air_layer_resistance_across(thickness: Metres) -> SquareMetreKelvinPerWatt:
    """Resistance of an unventilated upright air layer, such as the cavity of a wall.

    Args:
        thickness: 0 to 0.3 m; values between the table's are interpolated.

    Raises:
        OutOfRange: the layer is thicker than the table goes.

    Assumes:
        Ordinary surfaces; a reflecting foil doubles the resistance or more and is left out.

    Source:
        ISO 6946:2017, table of unventilated air layers, horizontal heat flow; from memory.

    Example:
        >>> air_layer_resistance_across(0.050)
        0.18
    """
    return _air_layer(thickness, _AIR_ACROSS)


def air_layer_resistance_upward(thickness: Metres) -> SquareMetreKelvinPerWatt:
    """Resistance of an unventilated air layer through which heat rises, as in a ceiling.

    Args:
        thickness: 0 to 0.3 m.

    Raises:
        OutOfRange: the layer is thicker than the table goes.

    Source:
        ISO 6946:2017, table of unventilated air layers, upward heat flow; from memory.

    Example:
        >>> air_layer_resistance_upward(0.100)
        0.16
    """
    return _air_layer(thickness, _AIR_UPWARD)


def air_layer_resistance_downward(thickness: Metres) -> SquareMetreKelvinPerWatt:
    """Resistance of an unventilated air layer through which heat sinks, as in a floor.

    Args:
        thickness: 0 to 0.3 m.

    Raises:
        OutOfRange: the layer is thicker than the table goes.

    Source:
        ISO 6946:2017, table of unventilated air layers, downward heat flow; from memory.

    Example:
        >>> air_layer_resistance_downward(0.100)
        0.22
    """
    return _air_layer(thickness, _AIR_DOWNWARD)


def total_resistance(
    resistances: SquareMetreKelvinPerWatt,
    inside: SquareMetreKelvinPerWatt = INSIDE_HORIZONTAL,
    outside: SquareMetreKelvinPerWatt = OUTSIDE,
) -> SquareMetreKelvinPerWatt:
    """Resistance of plain layers from room to outside, surfaces included.

    Args:
        resistances: of the layers.
        inside: surface resistance on the warm side.
        outside: surface resistance on the cold side; the inside value between rooms.

    Shapes:
        An array of layers gives one number.

    Source:
        ISO 6946:2017, total thermal resistance of homogeneous layers.

    Example:
        >>> round(total_resistance(np.array([0.132, 0.180, 3.5, 0.060])), 3)
        4.042
    """
    return float(np.sum(np.asarray(resistances, dtype=float))) + inside + outside


def upper_resistance(
    main: SquareMetreKelvinPerWatt,
    bridge: SquareMetreKelvinPerWatt,
    fraction: Ratio,
    inside: SquareMetreKelvinPerWatt = INSIDE_HORIZONTAL,
    outside: SquareMetreKelvinPerWatt = OUTSIDE,
) -> SquareMetreKelvinPerWatt:
    """Upper limit of a bridged construction's resistance: heat keeps to its own path.

    Args:
        main: resistance of each layer's main material.
        bridge: resistance of the material that bridges it; the main one where none does.
        fraction: share of the layer taken by the bridge, 0 to 1.
        inside: surface resistance on the warm side.
        outside: surface resistance on the cold side.

    Shapes:
        One value per layer; the result is one number.

    Raises:
        OutOfRange: a fraction lies outside 0 to 1.

    Assumes:
        Bridges of different layers cross, so that the shares of the paths multiply.

    Source:
        ISO 6946:2017, combined method, upper limit.

    Example:
        >>> main, bridge = np.array([3.5, 0.441]), np.array([1.167, 0.441])
        >>> round(upper_resistance(main, bridge, np.array([0.15, 0.0]), 0.13, 0.04), 3)
        3.435
    """
    check_between("share of the bridge", np.asarray(fraction, dtype=float), 0.0, 1.0, "")
    layers = np.broadcast_arrays(*(np.asarray(x, dtype=float) for x in (main, bridge, fraction)))
    shares = np.ones(1)
    paths = np.full(1, inside + outside)
    for main_layer, bridge_layer, part in zip(*layers, strict=True):
        shares = np.concatenate([shares * (1 - part), shares * part])
        paths = np.concatenate([paths + main_layer, paths + bridge_layer])
    return float(1 / np.sum(shares / paths))


def lower_resistance(
    main: SquareMetreKelvinPerWatt,
    bridge: SquareMetreKelvinPerWatt,
    fraction: Ratio,
    inside: SquareMetreKelvinPerWatt = INSIDE_HORIZONTAL,
    outside: SquareMetreKelvinPerWatt = OUTSIDE,
) -> SquareMetreKelvinPerWatt:
    """Lower limit of a bridged construction's resistance: heat spreads freely at every layer.

    Args:
        main: resistance of each layer's main material.
        bridge: resistance of the material that bridges it; the main one where none does.
        fraction: share of the layer taken by the bridge, 0 to 1.
        inside: surface resistance on the warm side.
        outside: surface resistance on the cold side.

    Shapes:
        One value per layer; the result is one number.

    Raises:
        OutOfRange: a fraction lies outside 0 to 1, or a bridged layer has no resistance.

    Source:
        ISO 6946:2017, combined method, lower limit.

    Example:
        >>> main, bridge = np.array([3.5, 0.441]), np.array([1.167, 0.441])
        >>> round(lower_resistance(main, bridge, np.array([0.15, 0.0]), 0.13, 0.04), 3)
        3.304
    """
    parts = np.asarray(fraction, dtype=float)
    check_between("share of the bridge", parts, 0.0, 1.0, "")
    main_layers = np.asarray(main, dtype=float)
    bridge_layers = np.asarray(bridge, dtype=float)
    is_bridged = parts > 0
    check_between(
        "resistance of a bridged layer",
        np.where(is_bridged, np.minimum(main_layers, bridge_layers), 1.0),
        1e-6,
        100.0,
        "m²·K/W",
    )
    safe_main = np.where(is_bridged, main_layers, 1.0)
    safe_bridge = np.where(is_bridged, bridge_layers, 1.0)
    mixed = 1 / ((1 - parts) / safe_main + parts / safe_bridge)
    return float(np.sum(np.where(is_bridged, mixed, main_layers))) + inside + outside


def combined_resistance(
    upper: SquareMetreKelvinPerWatt, lower: SquareMetreKelvinPerWatt
) -> SquareMetreKelvinPerWatt:
    """Resistance of a bridged construction: the mean of its two limits.

    Args:
        upper: the upper limit.
        lower: the lower limit.

    Assumes:
        The limits lie within a ratio of 1.5 of each other, and no metal runs through insulation.

    Source:
        ISO 6946:2017, combined method.

    Example:
        >>> round(combined_resistance(3.435, 3.304), 4)
        3.3695
    """
    return (upper + lower) / 2


def u_value(resistance: SquareMetreKelvinPerWatt) -> WattsPerSquareMetreKelvin:
    """Heat that passes a square metre for each kelvin between the two sides.

    Args:
        resistance: total, surfaces included; above 0.

    Raises:
        OutOfRange: the resistance is not positive.

    Source:
        ISO 6946:2017, thermal transmittance.

    Example:
        >>> round(u_value(3.3695), 4)
        0.2968
    """
    check_between("total resistance", resistance, 1e-6, 1000.0, "m²·K/W")
    return 1 / resistance


def opening_area(width: Metres, height: Metres, count: Ratio = 1.0) -> SquareMetres:
    """Area of openings alike.

    Args:
        width: of one.
        height: of one.
        count: how many.

    Source:
        Geometry.

    Example:
        >>> round(opening_area(1.23, 1.48), 4)
        1.8204
    """
    return width * height * count
