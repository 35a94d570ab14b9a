"""Rooms alone through time: given heat, or an ideal heater and cooler that hold temperatures.

The same room as in the year of a home (`room_after`), without emitters and plant: for step
responses, published test rooms, and questions about the fabric only.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numba.extending import register_jitable
from numpy.typing import NDArray

from hearthbook.kernel.compiled import compiled
from hearthbook.kernel.parameters import Links, Rooms
from hearthbook.kernel.room_step import room_after
from hearthbook.physics.room_nodes import air_after, air_leakage

__all__ = ["Holding", "Surroundings", "free_rooms", "never_held"]

_Array = NDArray[np.float64]


class Surroundings(NamedTuple):
    """What the rooms are told, in slots of equal length; arrays [K, R] unless said otherwise.

    Attributes:
        outdoor: °C of the air outside.
        outer_beyond: °C beyond the outer fabric: the air outside, or warmed by sun and cooled by
            sky (sol-air).
        ground: °C below the floor.
        wind: m/s; [K].
        solar: W of the sun into the room.
        convective: W into the air.
        radiant: W of warmth that shines on surfaces.
    """

    outdoor: _Array
    outer_beyond: _Array
    ground: _Array
    wind: _Array
    solar: _Array
    convective: _Array
    radiant: _Array


class Holding(NamedTuple):
    """An ideal heater and cooler in each room.

    Attributes:
        lowest: °C of air the heater holds; [K, R].
        highest: °C of air the cooler holds; [K, R].
        heating_most: W; [R].
        cooling_most: W; [R].
        heating_shares: of the heater's warmth into air, inner, outer and floor; [4, R], adding
            up to 1, with some of it into the air.
        cooling_shares: likewise of the cooler; [4, R].
    """

    lowest: _Array
    highest: _Array
    heating_most: _Array
    cooling_most: _Array
    heating_shares: _Array
    cooling_shares: _Array


def never_held(slots: int, rooms: int) -> Holding:
    """No heater and no cooler: temperatures run free.

    Args:
        slots: number of slots.
        rooms: number of rooms.
    """
    into_air = np.zeros((4, rooms))
    into_air[0] = 1.0
    return Holding(
        lowest=np.full((slots, rooms), -1e6),
        highest=np.full((slots, rooms), 1e6),
        heating_most=np.zeros(rooms),
        cooling_most=np.zeros(rooms),
        heating_shares=into_air,
        cooling_shares=into_air,
    )


def free_rooms(
    rooms: Rooms,
    links: Links,
    told: Surroundings,
    holding: Holding,
    state: _Array,
    leak_drives: tuple[float, float],
    slot_seconds: float,
    step: float,
) -> tuple[_Array, _Array, _Array]:
    """Rooms through all slots.

    Args:
        rooms: their air and fabric.
        links: ways between them.
        told: weather and given heat.
        holding: ideal heaters and coolers.
        state: °C of air, inner, outer and floor mass, [4, R]; changed to those at the end.
        leak_drives: stack and wind coefficient of `air_leakage`.
        slot_seconds: length of a slot.
        step: s; slots are whole multiples of it.

    Returns:
        Mean air temperature of each slot and room, mean power of heater (cooler negative), and
        mean heat lost to outdoors, ground and neighbours; each [K, R].
    """
    slots, count = told.outdoor.shape
    means = np.zeros((3, slots, count))
    _run(
        rooms,
        links,
        told,
        holding,
        state,
        leak_drives,
        round(slot_seconds / step),
        step,
        np.zeros((2, count)),
        means,
    )
    return means[0], means[1], means[2]


@compiled
def _run(
    rooms: Rooms,
    links: Links,
    told: Surroundings,
    holding: Holding,
    state: _Array,
    leak_drives: tuple[float, float],
    steps: int,
    step: float,
    from_links: _Array,
    means: _Array,
) -> None:
    """The loop itself; memory comes from outside, since compiled code may not take any."""
    slots, count = told.outdoor.shape
    stack, wind = leak_drives
    for slot in range(slots):
        outdoor = 0.0
        for room in range(count):
            outdoor += told.outdoor[slot, room] / count
        for _ in range(steps):
            _flows_between(links, state, from_links)
            indoor = 0.0
            for room in range(count):
                indoor += state[0, room] / count
            force = float(air_leakage(indoor, outdoor, told.wind[slot], stack, wind))
            for room in range(count):
                held, gone = _room(rooms, told, holding, state, from_links, slot, room, force, step)
                means[0, slot, room] += state[0, room] / steps
                means[1, slot, room] += held / steps
                means[2, slot, room] += gone / steps


@register_jitable
def _flows_between(links: Links, state: _Array, into: _Array) -> None:
    """Heat between rooms into each air and inner mass, from the temperatures before the step."""
    into[:] = 0.0
    for link in range(links.first.size):
        one, other = links.first[link], links.second[link]
        air = links.air[link] * (state[0, one] - state[0, other])
        wall = links.wall[link] * (state[1, one] - state[1, other])
        into[0, one] -= air
        into[0, other] += air
        into[1, one] -= wall
        into[1, other] += wall


@register_jitable
def _room(
    rooms: Rooms,
    told: Surroundings,
    holding: Holding,
    state: _Array,
    from_links: _Array,
    slot: int,
    r: int,
    force: float,
    step: float,
) -> tuple[float, float]:
    """One room through one step; the heater's power and the heat lost, W."""
    outdoor, sun, shine = told.outdoor[slot, r], told.solar[slot, r], told.radiant[slot, r]
    to_outdoors = rooms.air_outside[r] + rooms.ventilation[r] + rooms.infiltration[r] * force
    sol_air = rooms.outer_outside[r] * (told.outer_beyond[slot, r] - outdoor)
    air_heat = (
        told.convective[slot, r]
        + rooms.solar_air[r] * sun
        + rooms.radiant_air[r] * shine
        + from_links[0, r]
    )
    on_inner = rooms.solar_inner[r] * sun + rooms.radiant_inner[r] * shine
    on_outer = rooms.solar_outer[r] * sun + rooms.radiant_outer[r] * shine
    on_floor = rooms.solar_floor[r] * sun + rooms.radiant_floor[r] * shine
    unheld, each_kelvin = _unheld(rooms, state, r, to_outdoors, outdoor, air_heat, step)
    missing, above = holding.lowest[slot, r] - unheld, unheld - holding.highest[slot, r]
    shares, power = holding.cooling_shares, 0.0
    if missing > 0.0:
        shares = holding.heating_shares
        power = min(missing * each_kelvin / shares[0, r], holding.heating_most[r])
    elif above > 0.0:
        power = -min(above * each_kelvin / shares[0, r], holding.cooling_most[r])
    after = room_after(
        state[0, r], state[1, r], state[2, r], state[3, r],
        rooms.air_capacity[r], rooms.inner_capacity[r], rooms.outer_capacity[r],
        rooms.floor_capacity[r], rooms.air_inner[r], rooms.air_outer[r], rooms.air_floor[r],
        rooms.inner_outer[r], rooms.inner_floor[r], rooms.outer_outside[r], rooms.floor_ground[r],
        rooms.inner_neighbour[r], to_outdoors, outdoor, told.ground[slot, r],
        rooms.neighbour_temperature[r],
        air_heat + shares[0, r] * power,
        on_inner + from_links[1, r] + shares[1, r] * power,
        on_outer + sol_air + shares[2, r] * power,
        on_floor + shares[3, r] * power, step,
    )  # fmt: skip
    state[0, r], state[1, r], state[2, r], state[3, r] = after[0], after[1], after[2], after[3]
    return power, after[4] - sol_air


@register_jitable
def _unheld(
    rooms: Rooms,
    state: _Array,
    r: int,
    to_outdoors: float,
    outdoor: float,
    air_heat: float,
    step: float,
) -> tuple[float, float]:
    """The air at the end of the step without heater and cooler, and W to shift it by a kelvin."""
    conductance = rooms.air_inner[r] + rooms.air_outer[r] + rooms.air_floor[r] + to_outdoors
    behind = (
        rooms.air_inner[r] * state[1, r]
        + rooms.air_outer[r] * state[2, r]
        + rooms.air_floor[r] * state[3, r]
        + to_outdoors * outdoor
    )
    capacity = rooms.air_capacity[r]
    unheld = float(air_after(state[0, r], capacity, conductance, behind + air_heat, step))
    return unheld, float(capacity / step + conductance)
