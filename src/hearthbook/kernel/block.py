"""Homes side by side: what a compiled loop over a block of homes works on.

A block is `WIDTH` homes of one shape: the same number of rooms, links and emitters, joined in the
same way. Each room, link and emitter is one record, and each of its fields holds a value for every
home, so that one instruction of the processor does several homes at once.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from hearthbook.kernel.parameters import (
    PERFORMANCE_FLOW,
    PERFORMANCE_OUTDOOR,
    PLANT,
    Emitters,
    Links,
    Rooms,
)
from hearthbook.kernel.state import ROOM_FIGURES, TOTALS

__all__ = [
    "EMITTERS",
    "FIGURES",
    "HOMES",
    "LINKS",
    "MAPS",
    "MOST_MASS_STEPS",
    "ROOMS",
    "SUMS",
    "WIDTH",
    "emitter_block",
    "home_block",
    "link_block",
    "mass_steps",
    "room_block",
    "sum_block",
]

WIDTH = 16  # homes in a block; measured: 8 are slower, 32 no faster and leave more places empty


MOST_MASS_STEPS = 5  # between movements of fabric and floors, as of valves
_STEADY = 0.5  # the largest share of a mass's time constant that it may be held for
_LINE = 64  # bytes the processor fetches at once; no value of a lane may straddle two


def _lanes(names: Sequence[str], numbers: Sequence[str] = ()) -> np.dtype[Any]:
    fields: list[Any] = [(name, "f8", (WIDTH,)) for name in names]
    fields += [(name, "i8") for name in numbers]
    if numbers:
        fields.append(("filling", "i8", (_LINE // 8 - len(numbers),)))
    return np.dtype(fields, align=True)


def _on_lines(count: int, layout: np.dtype[Any]) -> NDArray[Any]:
    """Zeros that begin where a fetch of the processor begins."""
    memory = np.zeros(count * layout.itemsize + _LINE, np.uint8)
    first = -memory.ctypes.data % _LINE
    return memory[first : first + count * layout.itemsize].view(layout)


# What a minute needs stands first and together, so that it stays in the nearest memory
_ROOM_BY_MINUTE = (
    "air",  # °C
    "heat",  # W into the air by emitters, doors and pipes in this step
    "base_heat",  # W into the air by sun, people and the cylinder in this slot
    "air_capacity",
    "to_fabric",  # W/K of air to its masses
    "from_fabric",  # W: each of those times the mass's temperature
    "to_outdoors",  # W/K of air to outdoors apart from leaks
    "infiltration",
    "sum_air",  # °C of air, added up since the masses were last moved
    "floor",  # °C
)
_ROOM_BY_VALVES = (
    "inner",  # °C
    "outer",  # °C
    "inner_heat",  # W, added up since the masses were last moved, by emitters and links
    "outer_heat",
    "floor_heat",
    "base_inner_heat",  # W by sun and people in this slot
    "base_outer_heat",
    "base_floor_heat",
    "inner_warming",  # K of the mass in a step for each watt
    "outer_warming",
    "floor_warming",
    "wanted",  # °C in this slot
    "gains",  # W in this slot
    "sun",  # W in this slot
)
_ROOM_GIVEN = tuple(name for name in Rooms._fields if name not in _ROOM_BY_MINUTE)

ROOMS = _lanes((*_ROOM_BY_MINUTE, *_ROOM_BY_VALVES, *_ROOM_GIVEN))
"""One room of every home of a block."""

_EMITTER_BY_MINUTE = (
    "water",  # °C
    "given",  # W in this step
    "sum_given",  # W, added up since the masses were last moved
    "through",  # W/K of flow through it
    "weight",  # of the inlet in its mean temperature
    "kept",  # share of its own warmth left after a step
    "warming",  # K for each watt put in over a step
    "linear",
    "quarter",
    "half",
    "into_floor",
    "into_air",  # share of what it gives that the air takes at once
)
_EMITTER_BY_VALVES = (
    "opening",  # share of its flow that its valve lets through
    "held",  # °C its valve's head acts on
    "into_inner",  # shares of what it gives that the masses take
    "into_outer",
    "into_floor_mass",
)
_EMITTER_GIVEN = tuple(
    name for name in Emitters._fields if name not in {*_EMITTER_BY_MINUTE, "room"}
)

EMITTERS = _lanes((*_EMITTER_BY_MINUTE, *_EMITTER_BY_VALVES, *_EMITTER_GIVEN), ("room",))
"""One emitter of every home of a block."""

LINKS = _lanes(("air", "wall"), ("first", "second"))
"""One way between two rooms of every home of a block."""

_HOME_BY_MINUTE = (
    "outdoor",  # °C in this step
    "humidity",  # kg/kg in this step
    "force",  # that drives leaks
    "unit",  # °C, as in `PLANT_STATE`
    "flow",  # °C
    "back",  # °C
    "frost",  # kg
    "start_debt",  # J
    "target",  # °C
    "running",  # 1 where the compressor heats water
    "heating",  # 1 where it does so for the rooms
    "making_hot_water",  # 1 while the unit's water passes the coil
    "defrosting",  # 1 in a defrost
    "compressor",  # 1 where the compressor is on, whatever for
    "short_of_flow",  # 1 where too few valves are open for heating
    "pumping",  # 1 where water is moved
    "wanted_heat",  # W
    "most",  # W, and so on, as in `Performance`, at the unit's temperatures
    "most_share",
    "least",
    "least_share",
    "at_most",  # 1 where the compressor gives what it can, or may not run in such cold
    "taken_heat",  # W a defrost takes from the water
    "taken_electricity",  # W it takes besides
    "heat",  # W into the unit's water
    "electricity",  # W of the compressor
    "backup",  # W
    "backup_on",  # 1 while the backup heater is
    "flow_rate",  # W/K round the rooms
    "coil_rate",  # W/K through the coil
    "past",  # W/K past the emitters
    "scale",  # W/K of flow for each open kg/s
    "slope",  # W/K that return in proportion to the flow's temperature
    "constant",  # W that return apart from it
    "emitted",  # W by all emitters
    "open_flow",  # kg/s
    "pumped",  # kg/s, see `pumped_flow`
    "each",
    "outdoor_start",  # °C at the start of the slot, and its change in the slot
    "outdoor_change",
    "humidity_start",
    "humidity_change",
    "wind",
    "price",
    "ground",
    "quiet",  # share of the most output left in this slot
    "mean_air",  # °C
    "degree",  # row of the sums by outdoor temperature
    "season",  # 1 where it is cold enough for heating to be wanted
)

HOMES = _lanes(
    (*_HOME_BY_MINUTE, *(name for name in PLANT.names or () if PLANT[name].kind == "f")),
    ("pipe_room", "cylinder_room", "has_backup", "mass_steps"),
)
"""The plants of a block: what the loop carries from one part of a step to the next, and `PLANT`."""

MAPS = np.dtype([("values", "f8", (4, PERFORMANCE_OUTDOOR.size, PERFORMANCE_FLOW.size))])
"""A unit's map, as `packing.maps`, in a record: the compiled code passes records at no cost."""

SUMS = _lanes(TOTALS.names or ())
"""Sums of a slot of every home of a block."""

FIGURES = _lanes(ROOM_FIGURES.names or ())
"""What one room of every home of a block was like."""


def room_block(homes: Sequence[Rooms], step: float) -> NDArray[Any]:
    """Rooms of homes of one shape, side by side.

    Args:
        homes: as many as a block is wide.
        step: s.
    """
    block = _filled(homes, ROOMS, Rooms._fields)
    for mass in ("inner", "outer", "floor"):
        block[f"{mass}_warming"] = step / block[f"{mass}_capacity"]
    block["to_outdoors"] = block["air_outside"] + block["ventilation"]
    block["to_fabric"] = block["air_inner"] + block["air_outer"] + block["air_floor"]
    return block


def emitter_block(homes: Sequence[Emitters], rooms: NDArray[Any]) -> NDArray[Any]:
    """Emitters of homes of one shape, side by side.

    Args:
        homes: as many as a block is wide.
        rooms: of `room_block`; they share out what is radiant.
    """
    block = _filled(homes, EMITTERS, [name for name in Emitters._fields if name != "room"])
    block["room"] = homes[0].room
    around = rooms[homes[0].room]
    above = 1.0 - block["into_floor"]
    radiant = above * block["radiant"]
    block["into_air"] = above - radiant + radiant * around["radiant_air"]
    block["into_inner"] = radiant * around["radiant_inner"]
    block["into_outer"] = radiant * around["radiant_outer"]
    block["into_floor_mass"] = block["into_floor"] + radiant * around["radiant_floor"]
    return block


def link_block(homes: Sequence[Links]) -> NDArray[Any]:
    """Links of homes of one shape, side by side."""
    block = _filled(homes, LINKS, ["wall", "air"])
    block["first"], block["second"] = homes[0].first, homes[0].second
    return block


def mass_steps(rooms: Rooms, links: Links, step: float) -> int:
    """How many steps the lightest mass of a home may be held before it is moved.

    Args:
        rooms: of the home.
        links: between them.
        step: s.

    Returns:
        At most `MOST_MASS_STEPS`; so few that a mass changes by at most half of what it is away
        from its surroundings, and is moved without a tremor.
    """
    walls = np.zeros_like(rooms.air_inner)
    for ends in (links.first, links.second):
        np.add.at(walls, ends, links.wall)
    inner = rooms.air_inner + rooms.inner_outer + rooms.inner_floor + rooms.inner_neighbour + walls
    outer = rooms.air_outer + rooms.inner_outer + rooms.outer_outside
    floor = rooms.air_floor + rooms.inner_floor + rooms.floor_ground
    shares = (
        inner / rooms.inner_capacity, outer / rooms.outer_capacity, floor / rooms.floor_capacity
    )  # fmt: skip
    quickest = step * float(np.max(shares))
    return int(min(max(_STEADY / max(quickest, 1e-9), 1.0), MOST_MASS_STEPS))


def home_block(plants: NDArray[Any], held: int) -> NDArray[Any]:
    """Plants side by side: one record.

    Args:
        plants: a record of `PLANT` for each home; pipes and cylinders stand in the same rooms.
        held: `mass_steps` of the homes.
    """
    block = _on_lines(1, HOMES)
    for name in PLANT.names or ():
        if PLANT[name].kind == "f":
            block[name] = plants[name]
    block["pipe_room"] = plants["pipe_room"][0]
    block["cylinder_room"] = plants["cylinder_room"][0]
    block["mass_steps"] = held
    block["has_backup"] = np.any(plants["backup_power"] > 0.0)
    return block


def sum_block() -> tuple[NDArray[Any], NDArray[np.float64]]:
    """Sums of a slot: one record of `SUMS`, and the same memory as floats; [Q, WIDTH]."""
    block = _on_lines(1, SUMS)
    return block, block.view(np.float64).reshape(-1, WIDTH)


def _filled(
    homes: Sequence[NamedTuple], layout: np.dtype[Any], names: Sequence[str]
) -> NDArray[Any]:
    block = _on_lines(len(homes[0][0]), layout)
    for name in names:
        block[name] = np.stack([getattr(home, name) for home in homes], axis=1)
    return block
