"""One room through one step: the same sums in every compiled loop."""

from __future__ import annotations

from typing import Any

from numba.extending import register_jitable

from hearthbook.physics.room_nodes import air_after, mass_after

__all__ = ["room_after", "room_balance"]


@register_jitable
def room_balance(
    air: float,
    inner: float,
    outer: float,
    floor: float,
    air_capacity: float,
    air_inner: float,
    air_outer: float,
    air_floor: float,
    inner_outer: float,
    inner_floor: float,
    outer_outside: float,
    floor_ground: float,
    inner_neighbour: float,
    air_to_outdoors: float,
    outdoor: float,
    ground: float,
    neighbour: float,
    air_heat: float,
    inner_heat: float,
    outer_heat: float,
    floor_heat: float,
    step: float,
) -> tuple[float, float, float, float, float]:
    """Air after a step; W into inner, outer and floor mass all through it, and W lost."""
    conductance = air_inner + air_outer + air_floor + air_to_outdoors
    behind = air_inner * inner + air_outer * outer + air_floor * floor + air_to_outdoors * outdoor
    new_air: Any = air_after(air, air_capacity, conductance, behind + air_heat, step)
    to_outer = inner_outer * (inner - outer)
    to_floor = inner_floor * (inner - floor)
    to_neighbour = inner_neighbour * (inner - neighbour)
    to_outside = outer_outside * (outer - outdoor)
    to_ground = floor_ground * (floor - ground)
    into_inner = air_inner * (new_air - inner) - to_outer - to_floor - to_neighbour + inner_heat
    into_outer = air_outer * (new_air - outer) + to_outer - to_outside + outer_heat
    into_floor = air_floor * (new_air - floor) + to_floor - to_ground + floor_heat
    lost = to_neighbour + to_outside + to_ground + air_to_outdoors * (new_air - outdoor)
    return new_air, into_inner, into_outer, into_floor, lost


@register_jitable
def room_after(
    air: float,
    inner: float,
    outer: float,
    floor: float,
    air_capacity: float,
    inner_capacity: float,
    outer_capacity: float,
    floor_capacity: float,
    air_inner: float,
    air_outer: float,
    air_floor: float,
    inner_outer: float,
    inner_floor: float,
    outer_outside: float,
    floor_ground: float,
    inner_neighbour: float,
    air_to_outdoors: float,
    outdoor: float,
    ground: float,
    neighbour: float,
    air_heat: float,
    inner_heat: float,
    outer_heat: float,
    floor_heat: float,
    step: float,
) -> tuple[float, float, float, float, float]:
    """Temperatures of air, inner, outer and floor mass after a step, and the heat lost in W."""
    new_air, into_inner, into_outer, into_floor, lost = room_balance(
        air, inner, outer, floor, air_capacity, air_inner, air_outer, air_floor, inner_outer,
        inner_floor, outer_outside, floor_ground, inner_neighbour, air_to_outdoors, outdoor,
        ground, neighbour, air_heat, inner_heat, outer_heat, floor_heat, step,
    )  # fmt: skip
    new_inner: Any = mass_after(inner, inner_capacity, into_inner, step)
    new_outer: Any = mass_after(outer, outer_capacity, into_outer, step)
    new_floor: Any = mass_after(floor, floor_capacity, into_floor, step)
    return new_air, new_inner, new_outer, new_floor, lost
