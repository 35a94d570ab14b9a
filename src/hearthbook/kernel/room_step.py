"""One room through one step: the same sums in every compiled loop."""

from __future__ import annotations

from typing import Any

from numba.extending import register_jitable

from hearthbook.physics.room_nodes import air_after, mass_after

__all__ = ["room_after", "room_air", "room_masses"]


@register_jitable
def room_air(
    air: float,
    capacity: float,
    to_fabric: float,
    from_fabric: float,
    to_outdoors: float,
    outdoor: float,
    heat: float,
    step: float,
) -> float:
    """Air after a step; to fabric W/K in all, from fabric the sum of W/K times temperature."""
    inflow = from_fabric + to_outdoors * outdoor + heat
    after: Any = air_after(air, capacity, to_fabric + to_outdoors, inflow, step)
    return after


@register_jitable
def room_masses(
    air: float,
    inner: float,
    outer: float,
    floor: float,
    air_inner: float,
    air_outer: float,
    air_floor: float,
    inner_outer: float,
    inner_floor: float,
    outer_outside: float,
    floor_ground: float,
    inner_neighbour: float,
    outdoor: float,
    ground: float,
    neighbour: float,
    inner_heat: float,
    outer_heat: float,
    floor_heat: float,
) -> tuple[float, float, float, float]:
    """W into inner, outer and floor mass beside air of this temperature, and W they lose."""
    to_outer = inner_outer * (inner - outer)
    to_floor = inner_floor * (inner - floor)
    to_neighbour = inner_neighbour * (inner - neighbour)
    to_outside = outer_outside * (outer - outdoor)
    to_ground = floor_ground * (floor - ground)
    return (
        air_inner * (air - inner) - to_outer - to_floor - to_neighbour + inner_heat,
        air_outer * (air - outer) + to_outer - to_outside + outer_heat,
        air_floor * (air - floor) + to_floor - to_ground + floor_heat,
        to_neighbour + to_outside + to_ground,
    )


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
    to_fabric = air_inner + air_outer + air_floor
    from_fabric = air_inner * inner + air_outer * outer + air_floor * floor
    new_air = room_air(
        air, air_capacity, to_fabric, from_fabric, air_to_outdoors, outdoor, air_heat, step
    )
    into_inner, into_outer, into_floor, away = room_masses(
        new_air, inner, outer, floor, air_inner, air_outer, air_floor, inner_outer, inner_floor,
        outer_outside, floor_ground, inner_neighbour, outdoor, ground, neighbour, inner_heat,
        outer_heat, floor_heat,
    )  # fmt: skip
    lost = away + air_to_outdoors * (new_air - outdoor)
    new_inner: Any = mass_after(inner, inner_capacity, into_inner, step)
    new_outer: Any = mass_after(outer, outer_capacity, into_outer, step)
    new_floor: Any = mass_after(floor, floor_capacity, into_floor, step)
    return new_air, new_inner, new_outer, new_floor, lost
