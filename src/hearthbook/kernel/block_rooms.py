"""The rooms of a block of homes through a slot and a step: as `rooms_step`, homes innermost.

Air moves in each step. Fabric and floors, far slower, move every few steps (`mass_steps`), by the
mean of the air meanwhile and by all heat that came to them, so that no heat is lost.
"""

from __future__ import annotations

from typing import Any

from numba.extending import register_jitable
from numpy.typing import NDArray

from hearthbook.kernel.block import WIDTH
from hearthbook.kernel.parameters import SLOT_SECONDS
from hearthbook.kernel.room_step import room_air, room_masses
from hearthbook.kernel.state import Record
from hearthbook.physics.room_nodes import mass_after

__all__ = [
    "begin_block_rooms",
    "exchange_air",
    "look_into_block",
    "move_masses",
    "warm_air",
]


@register_jitable
def begin_block_rooms(rooms: NDArray[Any], homes: Record) -> None:
    """Begin each room's sums in a slot with people, appliances and sun; the homes' mean air."""
    for h in range(WIDTH):
        homes.mean_air[h] = 0.0
    for number in range(rooms.size):
        room = rooms[number]
        for h in range(WIDTH):
            people = room.gains[h] * room.gain_factor[h]
            sun = room.sun[h] * room.solar_factor[h]
            radiant = people * room.gain_radiant[h]
            room.base_heat[h] = (
                people - radiant + radiant * room.radiant_air[h] + sun * room.solar_air[h]
            )
            room.base_inner_heat[h] = radiant * room.radiant_inner[h] + sun * room.solar_inner[h]
            room.base_outer_heat[h] = radiant * room.radiant_outer[h] + sun * room.solar_outer[h]
            room.base_floor_heat[h] = radiant * room.radiant_floor[h] + sun * room.solar_floor[h]
            homes.mean_air[h] += room.air[h] / rooms.size


@register_jitable
def exchange_air(links: NDArray[Any], rooms: NDArray[Any]) -> None:
    """Heat that passes between rooms through open doors."""
    for number in range(links.size):
        link = links[number]
        one, other = rooms[link.first], rooms[link.second]
        for h in range(WIDTH):
            by_air = link.air[h] * (one.air[h] - other.air[h])
            one.heat[h] -= by_air
            other.heat[h] += by_air


@register_jitable
def warm_air(rooms: NDArray[Any], homes: Record, sums: Record, step: float) -> None:
    """Air of all rooms at the end of the step, and the heat each home loses through it."""
    for number in range(rooms.size):
        room = rooms[number]
        for h in range(WIDTH):
            to_outdoors = room.to_outdoors[h] + homes.force[h] * room.infiltration[h]
            outdoor = homes.outdoor[h]
            air = room_air(
                room.air[h], room.air_capacity[h], room.to_fabric[h], room.from_fabric[h],
                to_outdoors, outdoor, room.heat[h] + room.base_heat[h], step,
            )  # fmt: skip
            room.air[h] = air
            room.sum_air[h] += air
            room.heat[h] = 0.0
            sums.heat_lost[h] += to_outdoors * (air - outdoor) * step


@register_jitable
def move_masses(
    rooms: NDArray[Any], links: NDArray[Any], homes: Record, sums: Record, steps: int, step: float,
) -> None:  # fmt: skip
    """Fabric and floors after some steps, and the heat each home lost through them."""
    for number in range(links.size):
        link = links[number]
        one, other = rooms[link.first], rooms[link.second]
        for h in range(WIDTH):
            by_wall = link.wall[h] * (one.inner[h] - other.inner[h]) * steps
            one.inner_heat[h] -= by_wall
            other.inner_heat[h] += by_wall
    share = 1.0 / steps
    for number in range(rooms.size):
        room = rooms[number]
        for h in range(WIDTH):
            into_inner, into_outer, into_floor, lost = room_masses(
                room.sum_air[h] * share, room.inner[h], room.outer[h], room.floor[h],
                room.air_inner[h], room.air_outer[h], room.air_floor[h], room.inner_outer[h],
                room.inner_floor[h], room.outer_outside[h], room.floor_ground[h],
                room.inner_neighbour[h], homes.outdoor[h], homes.ground[h],
                room.neighbour_temperature[h],
                room.inner_heat[h] * share + room.base_inner_heat[h],
                room.outer_heat[h] * share + room.base_outer_heat[h],
                room.floor_heat[h] * share + room.base_floor_heat[h],
            )  # fmt: skip
            inner = mass_after(room.inner[h], 1.0, into_inner * steps, room.inner_warming[h])
            outer = mass_after(room.outer[h], 1.0, into_outer * steps, room.outer_warming[h])
            floor = mass_after(room.floor[h], 1.0, into_floor * steps, room.floor_warming[h])
            room.inner[h], room.outer[h], room.floor[h] = inner, outer, floor
            room.from_fabric[h] = (
                room.air_inner[h] * inner + room.air_outer[h] * outer + room.air_floor[h] * floor
            )
            room.sum_air[h], room.inner_heat[h] = 0.0, 0.0
            room.outer_heat[h], room.floor_heat[h] = 0.0, 0.0
            sums.heat_lost[h] += lost * step * steps


@register_jitable
def look_into_block(rooms: NDArray[Any], figures: NDArray[Any], homes: Record) -> None:
    """Add a quarter of an hour in each room to its figures, as `look_into_room`."""
    for number in range(rooms.size):
        room, seen = rooms[number], figures[number]
        for h in range(WIDTH):
            air = room.air[h]
            short = room.wanted[h] - 0.5 - air
            is_below = homes.season[h] if short > 0.0 else 0.0
            seen.seconds[h] += SLOT_SECONDS
            seen.temperature[h] += air * SLOT_SECONDS
            seen.coldest[h] = min(seen.coldest[h], air)
            seen.warmest[h] = max(seen.warmest[h], air)
            seen.below_seconds[h] += is_below * SLOT_SECONDS
            seen.below[h] += is_below * short * SLOT_SECONDS
            seen.above_seconds[h] += SLOT_SECONDS if air > room.wanted[h] + 2.0 else 0.0
