"""All rooms of one home through a step: what flows into them, and what passes between them."""

from __future__ import annotations

from typing import Any

from numba.extending import register_jitable
from numpy.typing import NDArray

from hearthbook.kernel.parameters import SLOT_SECONDS
from hearthbook.kernel.room_step import room_after
from hearthbook.kernel.state import Record
from hearthbook.physics.room_nodes import air_leakage

__all__ = [
    "AIR",
    "FLOOR",
    "INNER",
    "OUTER",
    "RADIANT",
    "begin_rooms",
    "copy_rooms",
    "exchange",
    "leaking",
    "look_into_room",
    "short_in_reference_room",
    "warm_rooms",
]

# rows of inflows; the first four also of nodes
AIR = 0
INNER = 1
OUTER = 2
FLOOR = 3
RADIANT = 4


@register_jitable
def begin_rooms(rooms: NDArray[Any], gains: Any, solar: Any, base: Any) -> None:
    """Begin each room's sums in a slot with people, appliances and sun."""
    for number in range(rooms.size):
        room = rooms[number]
        people = gains[number] * room.gain_factor
        sun = solar[number] * room.solar_factor
        radiant = people * room.gain_radiant
        base[RADIANT, number] = radiant
        base[AIR, number] = people - radiant + sun * room.solar_air
        base[INNER, number] = sun * room.solar_inner
        base[OUTER, number] = sun * room.solar_outer
        base[FLOOR, number] = sun * room.solar_floor


@register_jitable
def copy_rooms(base: Any, inflow: Any) -> None:
    """Begin a step's sums with those of the slot."""
    for row in range(base.shape[0]):
        for number in range(base.shape[1]):
            inflow[row, number] = base[row, number]


@register_jitable
def short_in_reference_room(plant: Record, rooms: NDArray[Any], nodes: Any, wanted: Any) -> float:
    """K by which the room with the thermostat is too cold; nothing without one."""
    number = plant.thermostat_room
    if number < 0:
        return 0.0
    return wanted[number] + rooms[number].wanted_shift - nodes[AIR, number]


@register_jitable
def exchange(links: NDArray[Any], nodes: Any, inflow: Any) -> None:
    """Heat that passes between rooms, through walls and open doors."""
    for number in range(links.size):
        link = links[number]
        one, other = link.first, link.second
        by_air = link.air * (nodes[AIR, one] - nodes[AIR, other])
        by_wall = link.wall * (nodes[INNER, one] - nodes[INNER, other])
        inflow[AIR, one] -= by_air
        inflow[AIR, other] += by_air
        inflow[INNER, one] -= by_wall
        inflow[INNER, other] += by_wall


@register_jitable
def leaking(plant: Record, state: Record, driver: Record, outdoor: float) -> Any:
    """Factor on the home's leaks by wind and warmth in this step."""
    return air_leakage(state.mean_air, outdoor, driver.wind, plant.leak_stack, plant.leak_wind)


@register_jitable
def warm_rooms(
    rooms: NDArray[Any],
    nodes: Any,
    inflow: Any,
    force: float,
    outdoor: float,
    ground: float,
    step: float,
) -> float:
    """Air, fabric and floors of all rooms at the end of the step; the heat they lost in W."""
    lost = 0.0
    for number in range(rooms.size):
        room = rooms[number]
        radiant = inflow[RADIANT, number]
        air, inner, outer, floor, away = room_after(
            nodes[AIR, number], nodes[INNER, number], nodes[OUTER, number], nodes[FLOOR, number],
            room.air_capacity, room.inner_capacity, room.outer_capacity, room.floor_capacity,
            room.air_inner, room.air_outer, room.air_floor, room.inner_outer, room.inner_floor,
            room.outer_outside, room.floor_ground, room.inner_neighbour,
            room.air_outside + room.ventilation + force * room.infiltration,
            outdoor, ground, room.neighbour_temperature,
            inflow[AIR, number] + radiant * room.radiant_air,
            inflow[INNER, number] + radiant * room.radiant_inner,
            inflow[OUTER, number] + radiant * room.radiant_outer,
            inflow[FLOOR, number] + radiant * room.radiant_floor, step,
        )  # fmt: skip
        nodes[AIR, number], nodes[INNER, number] = air, inner
        nodes[OUTER, number], nodes[FLOOR, number] = outer, floor
        lost += away
    return lost


@register_jitable
def look_into_room(figures: Record, air: float, wanted: float, is_season: bool) -> None:
    """Add a quarter of an hour in one room to its figures."""
    figures.seconds += SLOT_SECONDS
    figures.temperature += air * SLOT_SECONDS
    figures.coldest = min(figures.coldest, air)
    figures.warmest = max(figures.warmest, air)
    if is_season and air < wanted - 0.5:
        figures.below_seconds += SLOT_SECONDS
        figures.below += (wanted - 0.5 - air) * SLOT_SECONDS
    if air > wanted + 2.0:
        figures.above_seconds += SLOT_SECONDS
