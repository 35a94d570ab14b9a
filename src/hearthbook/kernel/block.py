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

from hearthbook.kernel.parameters import Emitters, Links, Rooms

__all__ = [
    "EMITTERS",
    "LANES",
    "LINKS",
    "ROOMS",
    "WIDTH",
    "emitter_block",
    "link_block",
    "room_block",
]

WIDTH = 16  # homes in a block; 32 fall out of the nearest memory, 8 leave the processor waiting

_ROOM_NODES = ("air", "inner", "outer", "floor")
_ROOM_SUMS = ("heat", "inner_heat", "outer_heat", "floor_heat", "radiant_heat")


def _lanes(names: Sequence[str], numbers: Sequence[str] = ()) -> np.dtype[Any]:
    fields = [(name, "f8", (WIDTH,)) for name in names]
    return np.dtype([*fields, *((name, "i8") for name in numbers)], align=True)


ROOMS = _lanes(
    (
        *Rooms._fields,
        *_ROOM_NODES,  # °C
        "inner_warming",  # K of the mass in a step for each watt
        "outer_warming",
        "floor_warming",
        "to_outdoors",  # W/K of air to outdoors apart from leaks
        "wanted",  # °C in this slot
        "gains",  # W in this slot
        "sun",  # W in this slot
        *(f"base_{name}" for name in _ROOM_SUMS),  # W by sun and people in this slot
        *_ROOM_SUMS,  # W in this step; `heat` is that into the air
    )
)
"""One room of every home of a block."""

EMITTERS = _lanes(
    (
        *(name for name in Emitters._fields if name != "room"),
        "water",  # °C
        "opening",  # share of its flow that its valve lets through
        "held",  # °C its valve's head acts on
        "through",  # W/K of flow through it
        "weight",  # of the inlet in its mean temperature
        "kept",  # share of its own warmth left after a step
        "warming",  # K for each watt put in over a step
        "given",  # W in this step
    ),
    ("room",),
)
"""One emitter of every home of a block."""

LINKS = _lanes(("wall", "air"), ("first", "second"))
"""One way between two rooms of every home of a block."""

LANES = _lanes(
    (
        "outdoor",  # °C in this step
        "ground",  # °C
        "force",  # that drives leaks
        "flow",  # °C of the flow pipes
        "scale",  # W/K of flow for each open kg/s
        "open_flow",  # kg/s
        "slope",  # W/K that return in proportion to the flow's temperature
        "constant",  # W that return apart from it
        "emitted",  # W
        "lost",  # W
        "mean_air",  # °C
        "flow_rate",  # W/K round the loop
        "past",  # W/K past the emitters
        "heat",  # W into the unit's water
        "electricity",  # W
        "backup",  # W
        "starts",  # 1 where the compressor starts
        "is_flow_enough",  # 1 where it is
    )
)
"""What the homes of a block hold from one part of a step to the next."""


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
    return block


def emitter_block(homes: Sequence[Emitters]) -> NDArray[Any]:
    """Emitters of homes of one shape, side by side."""
    block = _filled(homes, EMITTERS, [name for name in Emitters._fields if name != "room"])
    block["room"] = homes[0].room
    return block


def link_block(homes: Sequence[Links]) -> NDArray[Any]:
    """Links of homes of one shape, side by side."""
    block = _filled(homes, LINKS, ["wall", "air"])
    block["first"], block["second"] = homes[0].first, homes[0].second
    return block


def _filled(
    homes: Sequence[NamedTuple], layout: np.dtype[Any], names: Sequence[str]
) -> NDArray[Any]:
    block = np.zeros(len(homes[0][0]), layout)
    for name in names:
        block[name] = np.stack([getattr(home, name) for home in homes], axis=1)
    return block
