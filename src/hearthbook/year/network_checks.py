"""Refusing a network of rooms that the loop could not run."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from hearthbook.errors import Incomplete, OutOfRange, check_between
from hearthbook.kernel.parameters import Links, Rooms

__all__ = ["check_network"]

_STEP, _STEADY = 60.0, 0.5  # s, and the largest share of a time constant a step may be

_Array = NDArray[np.float64]


def check_network(rooms: Rooms, links: Links, names: tuple[str, ...]) -> None:
    """Refuse what the loop could not run.

    Raises:
        Incomplete: a room has no way to lose heat.
        OutOfRange: a value is negative or no number, or a mass too light for steps of a minute.
    """
    for field, values in rooms._asdict().items():
        lowest = -60.0 if field == "neighbour_temperature" else 0.0
        for name, value in zip(names, values, strict=True):
            check_between(f"{field.replace('_', ' ')} of the {name}", value, lowest, 1e12, "")
    walls, air = _joined(links.wall, links, len(names)), _joined(links.air, links, len(names))
    away = (
        (rooms.air_outside + rooms.infiltration + rooms.ventilation + rooms.outer_outside)
        + rooms.inner_neighbour
        + rooms.floor_ground
        + walls
        + air
    )
    for name, conductance in zip(names, away, strict=True):
        if not conductance > 0:
            raise Incomplete(
                f"the {name} has no way to lose heat. Give its surfaces to outside, the ground or "
                "other rooms in building.rooms."
            )
    _check_steps(rooms, walls, air, names)


def _joined(values: _Array, links: Links, count: int) -> _Array:
    """W/K of all links of each room."""
    found = np.zeros(count)
    for ends in (links.first, links.second):
        np.add.at(found, ends, values)
    return found


def _check_steps(rooms: Rooms, walls: _Array, air: _Array, names: tuple[str, ...]) -> None:
    inner = rooms.air_inner + rooms.inner_outer + rooms.inner_floor + rooms.inner_neighbour
    outer = rooms.air_outer + rooms.inner_outer + rooms.outer_outside
    floor = rooms.air_floor + rooms.inner_floor + rooms.floor_ground
    for part, capacity, conductance in (
        ("inner walls", rooms.inner_capacity, inner + walls),
        ("outside walls", rooms.outer_capacity, outer),
        ("floor", rooms.floor_capacity, floor),
        ("air", rooms.air_capacity, air),
    ):
        for name, share in zip(names, _STEP * conductance / capacity, strict=True):
            if not share <= _STEADY:
                raise OutOfRange(
                    f"{part} of the {name}: a minute is {share:.2f} of the time in which it "
                    f"follows its surroundings; at most {_STEADY} can be computed. Check the "
                    "room's areas, U-values and layers."
                )
