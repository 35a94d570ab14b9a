"""A block of homes of one shape laid out, run and read."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from hearthbook.kernel.block import (
    FIGURES,
    MAPS,
    WIDTH,
    emitter_block,
    home_block,
    link_block,
    mass_steps,
    room_block,
    sum_block,
)
from hearthbook.kernel.packing import maps
from hearthbook.kernel.parameters import PLANT
from hearthbook.kernel.state import BIN_COUNT, PLANT_STATE, ROOM_FIGURES, TOTALS
from hearthbook.simulate.drivers import Drivers
from hearthbook.simulate.home_model import HomeModel
from hearthbook.simulate.run import (
    SPIN_UP_SLOTS,
    Run,
    State,
    balance_of,
    start_state,
    stored,
)

if TYPE_CHECKING:
    from hearthbook.kernel.homes_years import Block

__all__ = ["Told", "run_block", "told"]

_Array = NDArray[np.float64]
_NODES = ("air", "inner", "outer", "floor")
_VALVES = ("water", "opening", "held")


@dataclass(frozen=True)
class Told:
    """Several drivers of one length and one number of rooms, one after another.

    Attributes:
        slots: records of `DRIVER`; [B, K + 1].
        rooms: W of sun, W of gains, °C wanted; [B, 3, K, R].
        draws: kg in each minute; [B, 15 K].
    """

    slots: NDArray[Any]
    rooms: _Array
    draws: _Array


def told(drivers: Sequence[Drivers]) -> Told:
    """Drivers as a block of homes reads them."""
    return Told(
        np.stack([each.slots for each in drivers]),
        np.stack([np.stack([each.solar, each.gains, each.wanted]) for each in drivers]),
        np.stack([each.draws for each in drivers]),
    )


def run_block(
    models: Sequence[HomeModel], weathers: Told, weather_of_home: Sequence[int], step: float
) -> list[Run]:
    """Run homes of one shape side by side; the first days are run once to warm the walls.

    Args:
        models: at most `WIDTH`; an empty place is filled with the last home and not read.
        weathers: what they are told.
        weather_of_home: which of the weathers is each home's.
        step: s.
    """
    from hearthbook.kernel.homes_years import run_homes  # here: it brings the compiler with it

    filled = [*models, *[models[-1]] * (WIDTH - len(models))]
    numbers = [*weather_of_home, *[weather_of_home[-1]] * (WIDTH - len(models))]
    block = _block(filled, weathers, np.array(numbers, dtype=np.int64), step)
    _set_states(block, [start_state(model) for model in filled])
    slots = weathers.slots.shape[1] - 1
    run_homes(block, min(SPIN_UP_SLOTS, slots), step)
    _forget_sums(block)
    before = [stored(model, state) for model, state in zip(models, _states(block), strict=False)]
    run_homes(block, slots, step)
    return [
        _run(block, h, model, start, end)
        for h, (model, start, end) in enumerate(zip(models, before, _states(block), strict=False))
    ]


def _block(
    models: Sequence[HomeModel], weathers: Told, weather_of_home: NDArray[np.int64], step: float
) -> Block:
    from hearthbook.kernel.homes_years import Block

    quantities, rooms = len(TOTALS.names or ()), len(models[0].room_ids)
    day_count = int(weathers.slots["day"][:, :-1].max()) + 1
    performances = list({id(model.performance): model.performance for model in models}.values())
    number = {id(each): index for index, each in enumerate(performances)}
    flat, (sums, flat_sums) = np.zeros((WIDTH, quantities)), sum_block()
    of_rooms = room_block([model.rooms for model in models], step)
    plants = np.concatenate([model.plant for model in models]).astype(PLANT)
    return Block(
        of_rooms,
        link_block([model.links for model in models]),
        emitter_block([model.emitters for model in models], of_rooms),
        home_block(plants, mass_steps(models[0].rooms, models[0].links, step)),
        plants,
        np.zeros(WIDTH, PLANT_STATE),
        np.zeros((WIDTH, 8)),
        np.stack([maps(each) for each in performances]).reshape(-1).view(MAPS),
        np.array([number[id(model.performance)] for model in models], dtype=np.int64),
        weathers.slots,
        weathers.rooms,
        weathers.draws,
        weather_of_home,
        flat.view(TOTALS)[:, 0],
        flat,
        sums,
        flat_sums,
        np.zeros((day_count, quantities, WIDTH)),
        np.zeros((BIN_COUNT, quantities, WIDTH)),
        np.zeros(rooms, FIGURES),
    )


def _forget_sums(block: Block) -> None:
    """Begin all sums anew."""
    block.days[:] = 0.0
    block.bins[:] = 0.0
    block.figures[:] = np.zeros((), FIGURES)
    block.figures["coldest"], block.figures["warmest"] = np.inf, -np.inf


def _set_states(block: Block, states: Sequence[State]) -> None:
    for h, state in enumerate(states):
        for row, node in enumerate(_NODES):
            block.rooms[node][:, h] = state.rooms[row]
        for row, field in enumerate(_VALVES):
            block.emitters[field][:, h] = state.emitters[row]
        block.states[h] = state.plant[0]
        block.layers[h] = state.layers


def _states(block: Block) -> list[State]:
    return [
        State(
            np.stack([block.rooms[node][:, h] for node in _NODES]),
            np.stack([block.emitters[field][:, h] for field in _VALVES]),
            block.states[h : h + 1].copy(),
            block.layers[h].copy(),
        )
        for h in range(WIDTH)
    ]


def _run(
    block: Block,
    h: int,
    model: HomeModel,
    before: tuple[float, float, float, float],
    end: State,
) -> Run:
    days = np.ascontiguousarray(block.days[:, :, h]).view(TOTALS)[:, 0]
    figures = np.zeros(block.figures.size, ROOM_FIGURES)
    for name in ROOM_FIGURES.names or ():
        figures[name] = block.figures[name][:, h]
    return Run(
        days,
        np.ascontiguousarray(block.bins[:, :, h]).view(TOTALS)[:, 0],
        figures,
        balance_of(days, before, stored(model, end)),
        end,
    )
