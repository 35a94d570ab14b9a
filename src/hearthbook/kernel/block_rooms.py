"""The rooms of a block of homes through a slot and a step: as `rooms_step`, homes innermost."""

from __future__ import annotations

from typing import Any

from numba.extending import register_jitable
from numpy.typing import NDArray

from hearthbook.kernel.room_step import room_balance
from hearthbook.physics.room_nodes import mass_after

__all__ = ["begin_block_rooms", "copy_block_rooms", "exchange_block", "warm_block_rooms"]

Record = Any  # one element of a record array; the compiler knows its fields, mypy does not


@register_jitable
def begin_block_rooms(rooms: NDArray[Any], lanes: Record, width: int) -> None:
    """Begin each room's sums in a slot with people, appliances and sun; the homes' mean air."""
    for h in range(width):
        lanes.mean_air[h] = 0.0
    for number in range(rooms.size):
        room = rooms[number]
        for h in range(width):
            people = room.gains[h] * room.gain_factor[h]
            sun = room.sun[h] * room.solar_factor[h]
            radiant = people * room.gain_radiant[h]
            room.base_radiant_heat[h] = radiant
            room.base_heat[h] = people - radiant + sun * room.solar_air[h]
            room.base_inner_heat[h] = sun * room.solar_inner[h]
            room.base_outer_heat[h] = sun * room.solar_outer[h]
            room.base_floor_heat[h] = sun * room.solar_floor[h]
            lanes.mean_air[h] += room.air[h] / rooms.size


@register_jitable
def copy_block_rooms(rooms: NDArray[Any], width: int) -> None:
    """Begin a step's sums with those of the slot."""
    for number in range(rooms.size):
        room = rooms[number]
        for h in range(width):
            room.radiant_heat[h] = room.base_radiant_heat[h]
            room.heat[h] = room.base_heat[h]
            room.inner_heat[h] = room.base_inner_heat[h]
            room.floor_heat[h] = room.base_floor_heat[h]


@register_jitable
def exchange_block(links: NDArray[Any], rooms: NDArray[Any], width: int) -> None:
    """Heat that passes between rooms, through walls and open doors."""
    for number in range(links.size):
        link = links[number]
        one, other = rooms[link.first], rooms[link.second]
        for h in range(width):
            by_air = link.air[h] * (one.air[h] - other.air[h])
            by_wall = link.wall[h] * (one.inner[h] - other.inner[h])
            one.heat[h] -= by_air
            other.heat[h] += by_air
            one.inner_heat[h] -= by_wall
            other.inner_heat[h] += by_wall


@register_jitable
def warm_block_rooms(rooms: NDArray[Any], lanes: Record, step: float, width: int) -> None:
    """Air, fabric and floors of all rooms at the end of the step, and the heat each home lost."""
    for h in range(width):
        lanes.lost[h] = 0.0
    for number in range(rooms.size):
        room = rooms[number]
        for h in range(width):
            radiant = room.radiant_heat[h]
            air, into_inner, into_outer, into_floor, away = room_balance(
                room.air[h], room.inner[h], room.outer[h], room.floor[h], room.air_capacity[h],
                room.air_inner[h], room.air_outer[h], room.air_floor[h], room.inner_outer[h],
                room.inner_floor[h], room.outer_outside[h], room.floor_ground[h],
                room.inner_neighbour[h],
                room.to_outdoors[h] + lanes.force[h] * room.infiltration[h],
                lanes.outdoor[h], lanes.ground[h], room.neighbour_temperature[h],
                room.heat[h] + radiant * room.radiant_air[h],
                room.inner_heat[h] + radiant * room.radiant_inner[h],
                room.base_outer_heat[h] + radiant * room.radiant_outer[h],
                room.floor_heat[h] + radiant * room.radiant_floor[h], step,
            )  # fmt: skip
            room.air[h] = air
            room.inner[h] = mass_after(room.inner[h], 1.0, into_inner, room.inner_warming[h])
            room.outer[h] = mass_after(room.outer[h], 1.0, into_outer, room.outer_warming[h])
            room.floor[h] = mass_after(room.floor[h], 1.0, into_floor, room.floor_warming[h])
            lanes.lost[h] += away
