"""Many homes, or variants of one, through their weather: side by side in blocks, on threads."""

from __future__ import annotations

import os
from collections.abc import Callable, Hashable, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from threading import Lock

from hearthbook.kernel.block import WIDTH, mass_steps
from hearthbook.simulate.block_of_homes import Told, run_block, told
from hearthbook.simulate.drivers import Drivers, check_drivers
from hearthbook.simulate.home_model import HomeModel
from hearthbook.simulate.run import STEP, Run, check_run

__all__ = ["Variant", "run_batch"]


@dataclass(frozen=True)
class Variant:
    """One home in one weather.

    Attributes:
        model: the home.
        drivers: its weather, people and clocks. Variants that share one object share its memory.
    """

    model: HomeModel
    drivers: Drivers


def run_batch(
    variants: Sequence[Variant],
    *,
    step: float = STEP,
    progress: Callable[[int, int], None] | None = None,
    threads: int | None = None,
) -> list[Run]:
    """Run many homes through their weather, each as `run_year` would, without traces.

    Args:
        variants: the homes, alike or not; those of one shape run side by side.
        step: s; 60 or a part of it.
        progress: told how many of how many are done.
        threads: blocks of homes run at a time; without it as many as processors.

    Returns:
        One run for each variant, in their order.

    Raises:
        OutOfRange: drivers the loop cannot run on, or sums that do not balance.
    """
    _check(variants)
    runs: dict[int, Run] = {}
    memory = _SharedTold()

    def run_places(places: tuple[int, ...]) -> None:
        homes = [variants[place] for place in places]
        drivers = list({id(home.drivers): home.drivers for home in homes}.values())
        number = {id(each): index for index, each in enumerate(drivers)}
        found = run_block(
            [home.model for home in homes],
            memory.of(drivers),
            [number[id(home.drivers)] for home in homes],
            step,
        )
        for place, run in zip(places, found, strict=True):
            check_run(run)
            runs[place] = run

    blocks = _blocks(variants, step)
    with ThreadPoolExecutor(threads or len(os.sched_getaffinity(0))) as pool:
        done = 0
        for places, _ in zip(blocks, pool.map(run_places, blocks), strict=True):
            done += len(places)
            if progress is not None:
                progress(done, len(variants))
    return [runs[place] for place in range(len(variants))]


class _SharedTold:
    """Drivers laid out for a block; blocks one after another mostly want the same."""

    def __init__(self) -> None:
        self._lock = Lock()
        self._drivers: list[Drivers] = []
        self._told: Told | None = None

    def of(self, drivers: list[Drivers]) -> Told:
        """These drivers, laid out; made anew only where others were asked for last."""
        with self._lock:
            is_same = [id(each) for each in drivers] == [id(each) for each in self._drivers]
            if self._told is None or not is_same:
                self._drivers, self._told = drivers, told(drivers)
            return self._told


def _check(variants: Sequence[Variant]) -> None:
    """Check each pair of drivers and number of rooms once."""
    pairs = {(id(variant.drivers), len(variant.model.room_ids)): variant for variant in variants}
    for variant in pairs.values():
        check_drivers(variant.drivers, len(variant.model.room_ids))


def _blocks(variants: Sequence[Variant], step: float) -> list[tuple[int, ...]]:
    """Places of variants of one shape, as many together as run side by side."""
    groups: dict[Hashable, list[int]] = {}
    for place, variant in enumerate(variants):
        groups.setdefault(_shape(variant, step), []).append(place)
    blocks: list[tuple[int, ...]] = []
    for places in groups.values():
        places.sort(key=lambda place: id(variants[place].drivers))  # few weathers in a block
        blocks.extend(
            tuple(places[first : first + WIDTH]) for first in range(0, len(places), WIDTH)
        )
    return blocks


def _shape(variant: Variant, step: float) -> Hashable:
    """What homes of one block have in common."""
    model = variant.model
    return (
        len(model.room_ids),
        model.emitters.room.tobytes(),
        model.links.first.tobytes(),
        model.links.second.tobytes(),
        mass_steps(model.rooms, model.links, step),
        int(model.plant["pipe_room"][0]),
        int(model.plant["cylinder_room"][0]),
        variant.drivers.slots["day"].tobytes(),
    )
