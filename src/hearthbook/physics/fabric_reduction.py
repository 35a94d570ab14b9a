"""Walls, roofs and floors as one or two masses, and how far that is from their layers."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hearthbook.errors import check_between
from hearthbook.units import (
    JoulesPerKilogramKelvin,
    JoulesPerSquareMetreKelvin,
    KilogramsPerCubicMetre,
    Metres,
    Ratio,
    Seconds,
    SquareMetreKelvinPerWatt,
    WattsPerMetreKelvin,
    WattsPerSquareMetreKelvin,
)

__all__ = [
    "DAY",
    "WEEK",
    "OneMass",
    "TwoMasses",
    "layer_admittance",
    "mass_admittance",
    "one_mass",
    "two_masses",
]

DAY = 86_400.0  # s
WEEK = 604_800.0  # s

_CUTS = 40  # places tried for the cut between the two masses
_DEPTHS = 48  # depths tried for a mass
_SLICES = 24  # of each layer, when its warmth is summed over depth

_Complex = NDArray[np.complex128]
_Array = NDArray[np.float64]


@dataclass(frozen=True)
class TwoMasses:
    """A layered element as two masses, for each square metre.

    Attributes:
        room_inner: from the room's side to the inner mass, surface included.
        inner_capacity: of the inner mass.
        inner_outer: between the masses.
        outer_capacity: of the outer mass.
        outer_outside: from the outer mass to the far side, surface included.
        error: largest difference from the layers' admittance at a day and a week, as a share.
    """

    room_inner: SquareMetreKelvinPerWatt
    inner_capacity: JoulesPerSquareMetreKelvin
    inner_outer: SquareMetreKelvinPerWatt
    outer_capacity: JoulesPerSquareMetreKelvin
    outer_outside: SquareMetreKelvinPerWatt
    error: Ratio


@dataclass(frozen=True)
class OneMass:
    """A layered element as one mass, for each square metre.

    Attributes:
        room_mass: from the room's side to the mass, surface included.
        capacity: of the mass.
        mass_beyond: from the mass to the far side; infinite where no heat passes.
        error: largest difference from the layers' admittance at a day and a week, as a share; at
            a day only where no heat passes.
    """

    room_mass: SquareMetreKelvinPerWatt
    capacity: JoulesPerSquareMetreKelvin
    mass_beyond: SquareMetreKelvinPerWatt
    error: Ratio


def layer_admittance(
    thickness: Metres,
    conductivity: WattsPerMetreKelvin,
    density: KilogramsPerCubicMetre,
    specific_heat: JoulesPerKilogramKelvin,
    period: Seconds,
    inside: SquareMetreKelvinPerWatt,
    outside: SquareMetreKelvinPerWatt,
) -> tuple[WattsPerSquareMetreKelvin, WattsPerSquareMetreKelvin]:
    """Heat a layered element takes from a room whose temperature swings by a kelvin.

    Args:
        thickness: of each layer, from inside to outside.
        conductivity: of each.
        density: of each; 0 for a layer that stores nothing.
        specific_heat: of each.
        period: of the swing.
        inside: surface resistance of the room's side.
        outside: of the far side, whose temperature is steady; infinite where no heat passes.

    Returns:
        The part in step with the temperature, and the part a quarter of the period ahead of it.

    Source:
        ISO 13786:2017, transfer matrix of layers, periodic thermal admittance.

    Example:
        >>> concrete = np.array([0.2]), np.array([1.8]), np.array([2400.0]), np.array([1000.0])
        >>> [round(part, 2) for part in layer_admittance(*concrete, 86400.0, 0.13, 0.04)]
        [5.53, 1.4]
    """
    found = _layers(np.stack([thickness, conductivity, density, specific_heat]), float(period),
                    float(inside), float(outside))  # fmt: skip
    return float(found.real), float(found.imag)


def mass_admittance(
    room_inner: SquareMetreKelvinPerWatt,
    inner_capacity: JoulesPerSquareMetreKelvin,
    inner_outer: SquareMetreKelvinPerWatt,
    outer_capacity: JoulesPerSquareMetreKelvin,
    outer_outside: SquareMetreKelvinPerWatt,
    period: Seconds,
) -> tuple[WattsPerSquareMetreKelvin, WattsPerSquareMetreKelvin]:
    """The same of two masses between resistances.

    Args:
        room_inner: from the room to the inner mass.
        inner_capacity: of the inner mass.
        inner_outer: between the masses.
        outer_capacity: of the outer mass.
        outer_outside: to the far side, whose temperature is steady; infinite where no heat passes.
        period: of the swing.

    Returns:
        The part in step with the temperature, and the part a quarter of the period ahead of it.

    Source:
        Two capacities between three resistances, for a sine. Derived.

    Example:
        >>> [round(part, 2) for part in mass_admittance(0.2, 2e5, 2.0, 1e5, 0.1, 86400.0)]
        [4.43, 1.5]
    """
    found = np.asarray(
        _masses(room_inner, inner_capacity, inner_outer, outer_capacity, outer_outside, period)
    )
    if found.ndim:
        return found.real, found.imag
    return float(found.real), float(found.imag)


def two_masses(
    thickness: Metres,
    conductivity: WattsPerMetreKelvin,
    density: KilogramsPerCubicMetre,
    specific_heat: JoulesPerKilogramKelvin,
    inside: SquareMetreKelvinPerWatt,
    outside: SquareMetreKelvinPerWatt,
) -> TwoMasses:
    """The two masses that come nearest to a layered element, seen from the room.

    The layers are cut in two; all capacity is kept and so is its depth on the whole, so that a
    slow warming stores the right heat. Where the cut lies and how deep the inner mass sits are
    chosen for the smallest difference from the exact admittance at a day and at a week.

    Args:
        thickness: of each layer, from inside to outside.
        conductivity: of each.
        density: of each; 0 for a layer that stores nothing.
        specific_heat: of each.
        inside: resistance between the room's node and the surface.
        outside: surface resistance of the far side.

    Raises:
        OutOfRange: no layer stores heat, or a layer has no conductivity.

    Source:
        Admittance by ISO 13786:2017; the reduction is derived. Error within 9 % at a day and a
        week for usual walls, 2 % for light and 4 % for most heavy ones.

    Example:
        >>> wall = two_masses(np.array([0.1, 0.06, 0.1]), np.array([0.5, 0.04, 0.8]),
        ...     np.array([1400.0, 30.0, 1700.0]), np.array([1000.0] * 3), 0.13, 0.04)
        >>> round(wall.inner_capacity / 1000), round(wall.room_inner + wall.inner_outer
        ...     + wall.outer_outside, 3)
        (128, 1.995)
    """
    layers = np.stack([thickness, conductivity, density, specific_heat]).astype(float)
    depth, heat, whole = _profile(layers, float(inside), float(outside))
    total, moment = heat.sum(), (heat * depth).sum()
    edges = np.unique(np.linspace(1, depth.size - 1, _CUTS).astype(int))
    inner = np.cumsum(heat)[edges - 1][:, np.newaxis]
    at = inside + (depth[edges - 1][:, np.newaxis] - inside) * np.linspace(0.0, 1.0, _DEPTHS)
    outer = total - inner
    with np.errstate(divide="ignore", invalid="ignore"):
        behind = (moment - inner * at) / outer
    possible = (inner > 0) & (outer > 1e-9 * total) & (behind > at) & (behind < whole)
    parts = (at, inner + 0 * at, behind - at, outer + 0 * at, whole - behind)
    error = _error(layers, inside, outside, tuple(part[possible] for part in parts))
    best = int(np.argmin(error))
    found = [float(part[possible][best]) for part in parts]
    return TwoMasses(found[0], found[1], found[2], found[3], found[4], float(error[best]))


def one_mass(
    thickness: Metres,
    conductivity: WattsPerMetreKelvin,
    density: KilogramsPerCubicMetre,
    specific_heat: JoulesPerKilogramKelvin,
    inside: SquareMetreKelvinPerWatt,
    outside: SquareMetreKelvinPerWatt = np.inf,
) -> OneMass:
    """The single mass that comes nearest to a layered element, seen from the room.

    Args:
        thickness: of each layer, from the room on.
        conductivity: of each.
        density: of each; 0 for a layer that stores nothing.
        specific_heat: of each.
        inside: resistance between the room's node and the surface.
        outside: resistance behind the last layer; infinite where no heat passes, as in the middle
            of a partition.

    Raises:
        OutOfRange: no layer stores heat, or a layer has no conductivity.

    Source:
        Admittance by ISO 13786:2017. Without heat behind, resistance and capacity meet it exactly
        at a day; VDI 6007-1 reduces inner walls so. Else both are chosen for the smallest
        difference at a day and a week; derived. Error 13 % for a screed over half a metre of soil.

    Example:
        >>> half = one_mass(np.array([0.06]), np.array([0.5]), np.array([1200.0]),
        ...     np.array([1000.0]), 0.13)
        >>> round(half.room_mass, 3), round(half.capacity / 1000)
        (0.17, 71)
    """
    layers = np.stack([thickness, conductivity, density, specific_heat]).astype(float)
    depth, heat, whole = _profile(layers, float(inside), float(outside))
    if np.isinf(whole):
        impedance = 1.0 / _layers(layers, DAY, float(inside), np.inf)
        capacity = -1.0 / (2.0 * np.pi / DAY * impedance.imag)
        return OneMass(float(impedance.real), float(capacity), np.inf, 0.0)
    last = depth[-1]
    at = (inside + (last - inside) * np.linspace(0.0, 1.0, _DEPTHS))[:, np.newaxis]
    capacity = heat.sum() * np.linspace(0.1, 1.0, _CUTS)
    at, capacity = (part.ravel() for part in np.broadcast_arrays(at, capacity))
    nothing = np.zeros_like(at)
    error = _error(layers, inside, outside, (at, capacity, nothing, nothing, whole - at))
    best = int(np.argmin(error))
    return OneMass(
        float(at[best]), float(capacity[best]), float(whole - at[best]), float(error[best])
    )


def _profile(layers: _Array, inside: float, outside: float) -> tuple[_Array, _Array, float]:
    """Resistance from the room to each slice, the slice's capacity, and the whole resistance."""
    check_between("lowest conductivity of the layers", layers[1].min(), 1e-4, 1e6, "W/(m·K)")
    resistance, capacity = layers[0] / layers[1], layers[0] * layers[2] * layers[3]
    check_between("capacity of the layers", capacity.sum(), 1.0, 1e9, "J/(m²·K)")
    begins = inside + np.cumsum(resistance) - resistance
    middle = (np.arange(_SLICES) + 0.5) / _SLICES
    depth = (begins[:, np.newaxis] + resistance[:, np.newaxis] * middle).ravel()
    heat = np.repeat(capacity / _SLICES, _SLICES)
    stores = heat > 0
    return depth[stores], heat[stores], float(inside + resistance.sum() + outside)


def _layers(layers: _Array, period: float, inside: float, outside: float) -> _Complex:
    """The exact admittance, as a complex number."""
    matrix = np.array([[1.0, inside], [0.0, 1.0]], dtype=complex)
    for thickness, conductivity, density, specific_heat in layers.T:
        resistance = thickness / conductivity
        wave = np.sqrt(2j * np.pi / period * resistance * thickness * density * specific_heat)
        if wave == 0:
            layer = np.array([[1.0, resistance], [0.0, 1.0]])
        else:
            layer = np.array(
                [
                    [np.cosh(wave), resistance * np.sinh(wave) / wave],
                    [wave * np.sinh(wave) / resistance, np.cosh(wave)],
                ]
            )
        matrix = matrix @ layer
    if np.isinf(outside):
        return np.asarray(matrix[1, 0] / matrix[0, 0])
    return np.asarray(
        (matrix[1, 1] + outside * matrix[1, 0]) / (matrix[0, 1] + outside * matrix[0, 0])
    )


def _masses(
    room_inner: SquareMetreKelvinPerWatt,
    inner_capacity: JoulesPerSquareMetreKelvin,
    inner_outer: SquareMetreKelvinPerWatt,
    outer_capacity: JoulesPerSquareMetreKelvin,
    outer_outside: SquareMetreKelvinPerWatt,
    period: Seconds,
) -> _Complex:
    """The ladder's admittance, worked from the far side to the room."""
    turn = 2j * np.pi / np.asarray(period)
    behind = turn * outer_capacity + 1.0 / np.asarray(outer_outside)
    inner = turn * inner_capacity + behind / (inner_outer * behind + 1.0)
    return np.asarray(1.0 / (room_inner + 1.0 / inner))


def _error(
    layers: _Array, inside: Metres, outside: Metres, parts: tuple[_Array, ...]
) -> NDArray[np.float64]:
    """Largest difference from the layers' admittance at a day and a week, as a share of it."""
    room_inner, inner_capacity, inner_outer, outer_capacity, outer_outside = parts
    worst = np.zeros_like(room_inner)
    for period in (DAY, WEEK):
        exact = _layers(layers, period, float(inside), float(outside))
        ours = _masses(
            room_inner, inner_capacity, inner_outer, outer_capacity, outer_outside, period
        )
        worst = np.maximum(worst, np.abs(ours - exact) / np.abs(exact))
    return worst
