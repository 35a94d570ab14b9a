"""One room's surfaces as an air node and three masses, exact when nothing changes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from hearthbook.physics.fabric_reduction import (
    DAY,
    WEEK,
    layer_admittance,
    mass_admittance,
    one_mass,
    two_masses,
)
from hearthbook.physics.surface_nodes import Condensed, without_surfaces
from hearthbook.year.builds import Build, carried_by_soil

__all__ = ["AIR_CAPACITY", "RADIANT_HEAT", "Part", "RoomSurface", "room_masses"]

AIR_CAPACITY = (
    10_000.0  # J/K for each m² of floor, air and furniture; ISO 52016-1:2017, from memory
)
_AIR_TO_SURFACES = 3.45  # W/(m²·K), from air to the node all surfaces share; ISO 13790:2008, C.2
_SURFACES_TO_FACE = 9.1  # W/(m²·K), from that node to a surface; ISO 13790:2008, C.2
_OUTSIDE = 0.04  # m²·K/W; ISO 6946:2017
_FILM_ACROSS, _FILM_DOWN = 0.13, 0.17  # m²·K/W inside; ISO 6946:2017
_LEAST_FAR = 0.05  # m²·K/W left to the soil further down, where a U-value leaves less
RADIANT_HEAT = 0.3  # share of radiators' warmth that shines; 20 to 50 %, common practice, no source
_SUN_INTO_AIR = 0.09  # share of the sun that warms air at once; VDI 6007-1, test examples
_SUN_ON_FLOOR = 0.5  # share of the rest that falls on the floor; common practice, no source
_LONGEST_STEP = 60.0  # s
_STEADY = 0.5  # the largest share of a mass's time constant that a step may be

_Array = NDArray[np.float64]
Part = Literal["outside", "ground", "suspended", "neighbour", "inside", "floor_inside"]


@dataclass(frozen=True)
class RoomSurface:
    """A surface of a room that stores heat.

    Attributes:
        part: what lies beyond: outdoor air (an unheated space counts by its factor), the ground, a
            vented space over the ground (`suspended`), a neighbour, or a room as warm as this one;
            `floor_inside` for a floor over such a room.
        area: m².
        build: its layers; for `neighbour`, `inside` and `floor_inside` up to the middle.
        loss: W/K through it in the steady state, to what lies beyond; 0 inside.
    """

    part: Part
    area: float
    build: Build
    loss: float = 0.0


@dataclass
class _Sums:
    """W/K and J/K as they add up over surfaces."""

    area: float = 0.0
    floor_area: float = 0.0
    surfaces_inner: float = 0.0
    surfaces_floor: float = 0.0
    inner_capacity: float = 0.0
    outer_capacity: float = 0.0
    floor_capacity: float = 0.0
    inner_outer: float = 0.0
    outer_outside: float = 0.0
    to_outside: float = 0.0
    to_neighbour: float = 0.0
    to_ground: float = 0.0
    straight_inner: float = 0.0  # m² times the share of warmth on a face that its mass takes
    straight_floor: float = 0.0
    by_day: complex = 0.0  # W/K that all faces but the floor's take from a swing of a day
    by_week: complex = 0.0


def room_masses(
    surfaces: tuple[RoomSurface, ...],
    floor_area: float,
    warmth: float,
    drives: tuple[float, float] = (1.0, 1.0),
) -> dict[str, float]:
    """A room's fabric by the names of `Rooms`, without what passes straight from its air.

    Each surface is reduced to masses, alike masses are joined, and the surfaces, which store
    nothing, are taken out of the network. The conductances behind the inner mass and the floor are
    set so that in the steady state, heated as by radiators, the room loses what its surfaces'
    U-values say: they are stated for a room whose surfaces see one another, not for cold walls
    round warmed air.

    Args:
        surfaces: that store heat.
        floor_area: m² of the room.
        warmth: W/K the whole room takes at design, windows and fresh air included.
        drives: shares of the full difference to outdoors that act to the neighbour and to the
            ground at design, where the loss is met exactly.
    """
    sums = _Sums()
    for surface in surfaces:
        _add(sums, surface)
    _join(sums)
    network = _network(sums)
    (_, air_inner, air_floor), (_, _, inner_floor), _ = np.asarray(network.conductances)
    radiant = _fall(sums, network, sums.floor_area / sums.area)
    found = {
        "air_capacity": AIR_CAPACITY * floor_area,
        "inner_capacity": sums.inner_capacity,
        "outer_capacity": sums.outer_capacity,
        "floor_capacity": sums.floor_capacity,
        "air_inner": air_inner,
        "air_floor": air_floor,
        "inner_floor": inner_floor,
        **_shares("solar", _fall(sums, network, _SUN_ON_FLOOR), _SUN_INTO_AIR),
        **_shares("radiant", radiant, 0.0),
    }
    shining = RADIANT_HEAT * max(warmth, 0.0) * radiant[1:]
    return {**found, **_behind(sums, network, drives, shining)}


def _behind(
    sums: _Sums, network: Condensed, drives: tuple[float, float], shining: _Array
) -> dict[str, float]:
    """What lies behind inner mass and floor, so that a steady room loses what it should.

    The masses lie on the way of the room's losses and settle below its air; what lies behind them
    must let the more pass, or the room would lose less than its U-values say.
    """
    to_neighbour, to_ground = drives
    _, air_inner, air_floor = np.asarray(network.conductances)[0]
    leaving = np.array(
        [sums.to_outside + sums.to_neighbour * to_neighbour, sums.to_ground * to_ground]
    )
    inner, floor = _settled(network, leaving - shining)
    by_neighbour = sums.to_neighbour / (1.0 - sums.to_neighbour / (air_inner + air_floor))
    rest = leaving[0] - by_neighbour * (inner - (1.0 - to_neighbour))
    through = max(rest / inner, 0.5 * sums.to_outside)
    return {
        "inner_neighbour": by_neighbour,
        "floor_ground": leaving[1] / (floor - (1.0 - to_ground)),
        **_outer(sums, through, sums.inner_capacity),
    }


def _settled(network: Condensed, leaving: _Array) -> tuple[float, float]:
    """Temperatures of inner mass and floor in a steady room of 1 °C that much heat leaves, W."""
    (_, air_inner, air_floor), (_, _, inner_floor), _ = np.asarray(network.conductances)
    if air_floor + inner_floor == 0:
        return float(1.0 - leaving[0] / air_inner), 1.0
    balance = np.array(
        [[air_inner + inner_floor, -inner_floor], [-inner_floor, air_floor + inner_floor]]
    )
    inner, floor = np.linalg.solve(balance, np.array([air_inner, air_floor]) - leaving)
    return float(inner), float(floor)


def _in_line(one: float, other: float) -> float:
    return one * other / (one + other) if one + other > 0 else 0.0


def _add(sums: _Sums, surface: RoomSurface) -> None:
    area, build = surface.area, surface.build
    sums.area += area
    match surface.part:
        case "outside":
            _add_outside(sums, surface)
        case "ground" | "suspended":
            below = carried_by_soil(build) if surface.part == "ground" else build
            far = max(area / surface.loss - below.resistance - _FILM_DOWN, _LEAST_FAR)
            _add_floor(sums, area, *_one(below, far))
            sums.to_ground += surface.loss
        case "floor_inside":
            _add_floor(sums, area, *_one(build))
        case "inside" | "neighbour":
            room_mass, capacity = _one(build)
            sums.surfaces_inner += area / room_mass
            sums.straight_inner += area / _SURFACES_TO_FACE / room_mass
            sums.inner_capacity += area * capacity
            sums.to_neighbour += surface.loss
            _add_swing(sums, surface, np.inf)


def _add_outside(sums: _Sums, surface: RoomSurface) -> None:
    area, face = surface.area, 1.0 / _SURFACES_TO_FACE
    # what the U-value has beyond the layers and the inner film: an unheated space's own as well
    far = max(area / surface.loss - surface.build.resistance - _FILM_ACROSS, _OUTSIDE)
    two = two_masses(*_four(surface.build), face, far)
    sums.surfaces_inner += area / float(two.room_inner)
    sums.straight_inner += area * face / float(two.room_inner)
    sums.inner_capacity += area * float(two.inner_capacity)
    sums.outer_capacity += area * float(two.outer_capacity)
    sums.inner_outer += area / float(two.inner_outer)
    sums.outer_outside += area / float(two.outer_outside)
    sums.to_outside += surface.loss
    _add_swing(sums, surface, far)


def _add_swing(sums: _Sums, surface: RoomSurface, far: float) -> None:
    layers, face = _four(surface.build), 1.0 / _SURFACES_TO_FACE
    sums.by_day += surface.area * complex(*layer_admittance(*layers, DAY, face, far))
    sums.by_week += surface.area * complex(*layer_admittance(*layers, WEEK, face, far))


def _join(sums: _Sums) -> None:
    """Make one inner mass of all: light and heavy ones side by side answer less than their sum.

    Its way to the faces and its capacity are chosen for the smallest difference from the exact sum
    of all faces' answers to a day and a week.
    """
    if sums.inner_capacity == 0:
        return
    ways = sums.surfaces_inner * np.linspace(0.4, 1.2, 41)[:, np.newaxis]
    capacities = sums.inner_capacity * np.linspace(0.5, 1.1, 31)
    before, behind = (1.0 / max(one, 1e-9) for one in (sums.inner_outer, sums.outer_outside))
    worst = np.zeros((41, 31))
    for exact, period in ((sums.by_day, DAY), (sums.by_week, WEEK)):
        real, ahead = mass_admittance(
            1.0 / ways, capacities, before, sums.outer_capacity, behind, period
        )
        found = np.asarray(real) + 1j * np.asarray(ahead)
        worst = np.maximum(worst, np.abs(found - exact) / np.abs(exact))
    way, capacity = np.unravel_index(int(np.argmin(worst)), worst.shape)
    share = float(ways[way, 0]) / sums.surfaces_inner
    sums.surfaces_inner *= share
    sums.straight_inner = min(sums.straight_inner * share, sums.area - sums.floor_area)
    sums.inner_capacity = float(capacities[capacity])


def _four(build: Build) -> tuple[_Array, _Array, _Array, _Array]:
    thickness, conductivity, density, specific_heat = build.layers
    return thickness, conductivity, density, specific_heat


def _one(build: Build, far: float = np.inf) -> tuple[float, float]:
    """Resistance to the mass and its capacity, for a square metre."""
    found = one_mass(*_four(build), 1.0 / _SURFACES_TO_FACE, far)
    return float(found.room_mass), float(found.capacity)


def _add_floor(sums: _Sums, area: float, room_mass: float, capacity: float) -> None:
    sums.floor_area += area
    sums.surfaces_floor += area / room_mass
    sums.straight_floor += area / _SURFACES_TO_FACE / room_mass
    sums.floor_capacity += area * capacity


def _network(sums: _Sums) -> Condensed:
    """Air, inner mass and floor, after the node that all surfaces share was taken out."""
    square = np.zeros((4, 4))
    square[3, :3] = _AIR_TO_SURFACES * sums.area, sums.surfaces_inner, sums.surfaces_floor
    square[:3, 3] = square[3, :3]
    return without_surfaces(square, 1)


def _fall(sums: _Sums, network: Condensed, on_floor: float) -> _Array:
    """Where warmth that falls on faces goes at once: air, inner mass, floor."""
    walls = sums.area - sums.floor_area
    on_floor = 0.0 if sums.floor_area == 0 else 1.0 if walls == 0 else on_floor
    straight = np.zeros(3)
    straight[1] = (1 - on_floor) * (sums.straight_inner / walls if walls else 0.0)
    straight[2] = on_floor * (sums.straight_floor / sums.floor_area if sums.floor_area else 0.0)
    return np.asarray(straight + (1 - straight.sum()) * np.asarray(network.shares)[0])


def _shares(name: str, fall: _Array, into_air: float) -> dict[str, float]:
    return {
        f"{name}_air": into_air + (1 - into_air) * fall[0],
        f"{name}_inner": (1 - into_air) * fall[1],
        f"{name}_outer": 0.0,
        f"{name}_floor": (1 - into_air) * fall[2],
    }


def _outer(sums: _Sums, through: float, inner_capacity: float) -> dict[str, float]:
    """The outer mass, with conductances before and behind it that let `through` W/K pass.

    A skin too thin for a step of a minute borrows what it lacks from the inner mass.
    """
    if through <= 0:
        return {"inner_outer": 0.0, "outer_outside": 0.0, "outer_capacity": 1.0}
    factor = through / _in_line(sums.inner_outer, sums.outer_outside)
    before, behind = factor * sums.inner_outer, factor * sums.outer_outside
    least = 1.05 * _LONGEST_STEP * (before + behind) / _STEADY
    borrowed = max(least - sums.outer_capacity, 0.0)
    return {
        "inner_outer": before,
        "outer_outside": behind,
        "outer_capacity": sums.outer_capacity + borrowed,
        "inner_capacity": inner_capacity - borrowed,
    }
