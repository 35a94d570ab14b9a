"""A year gone through once more, month by month, for what its daily sums do not hold.

A trace of a whole year is large, so it is made for some thirty days at a time, each from where
the last ended: a run cut and joined equals the whole. Any stretch can then be had step by step
from the piece it lies in.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from hearthbook.kernel.parameters import SLOT_SECONDS
from hearthbook.kernel.state import DEFROST, DRIP, HEATING, TRACE
from hearthbook.simulate.drivers import MINUTES_PER_SLOT, Drivers
from hearthbook.simulate.run import STEP, State, Trace, run_year
from hearthbook.year.home_year import HomeYear

__all__ = ["Minutes", "minutes_of", "stretch_of"]

_Array = NDArray[np.float64]
_Whole = NDArray[np.int64]

_PIECE_DAYS = 30
_STEPS = round(SLOT_SECONDS / STEP)  # of a slot


@dataclass(frozen=True)
class Minutes:
    """What a year was like from minute to minute, in short.

    Attributes:
        electricity: W of compressor and backup heater, mean of each slot.
        is_heating: share of each slot in which the unit gave heat to the rooms.
        running: share of each slot in which the compressor ran.
        rooms: °C of each room's air at the end of each slot; [K, R].
        starts: minute of the year at which each run of the compressor began.
        runs: s that each of those lasted; the first and last may have been cut short.
        defrosts: minute of the year at which each defrost began.
        defrosted: kg of frost that defrosts melted; mild air thaws some besides.
        pieces: first slot of each piece, and the state it began from.
    """

    electricity: _Array
    is_heating: _Array
    running: _Array
    rooms: _Array
    starts: _Whole
    runs: _Array
    defrosts: _Whole
    defrosted: float
    pieces: tuple[tuple[int, State | None], ...]


def minutes_of(year: HomeYear, advance: Callable[[str], None] = lambda _: None) -> Minutes:
    """Go through a year once more.

    Args:
        year: as it was run.
        advance: called after each piece, for a progress bar.
    """
    slots, rooms = year.drivers.solar.shape
    empty = (np.zeros(slots), np.zeros(slots), np.zeros(slots), np.zeros((slots, rooms)))
    found = _Gathered(*empty, np.zeros(slots * _STEPS, np.int8))
    pieces: list[tuple[int, State | None]] = []
    state: State | None = None
    defrosted = 0.0
    bounds = _bounds(year.drivers)
    for first, last in bounds:
        pieces.append((first, state))
        trace, state = _piece(year, first, last, state)
        found.take(trace, first)
        defrosted += _defrosted(trace)
        advance(f"Minutes of {year.model.design.home.name}")
    ends = np.diff(np.concatenate(([0], found.mode > 0, [0])))
    starts, stops = np.flatnonzero(ends > 0), np.flatnonzero(ends < 0)
    is_defrost = found.mode == DEFROST
    began = np.flatnonzero(is_defrost & ~np.concatenate(([False], is_defrost[:-1])))
    return Minutes(
        electricity=found.electricity,
        is_heating=found.heating,
        running=found.running,
        rooms=found.rooms,
        starts=starts,
        runs=(stops - starts).astype(float) * STEP,
        defrosts=began,
        defrosted=defrosted,
        pieces=tuple(pieces),
    )


@dataclass(frozen=True)
class _Gathered:
    """Arrays over the whole run that each piece fills its part of."""

    electricity: _Array
    heating: _Array
    running: _Array
    rooms: _Array
    mode: NDArray[np.int8]  # of each step with the compressor on; 0 while it is off

    def take(self, trace: Trace, first: int) -> None:
        """Fill in one piece."""
        mode, power = trace.column("mode"), trace.column("electricity")
        # a compressor that defrosts or drips takes little or nothing, and is not off
        is_on = (power > 0.0) | (mode == DEFROST) | (mode == DRIP)
        last = first + mode.size // _STEPS
        self.electricity[first:last] = _by_slot(power + trace.column("backup"))
        self.heating[first:last] = _by_slot(is_on & (mode == HEATING))
        self.running[first:last] = _by_slot(is_on)
        self.rooms[first:last] = trace.values[_STEPS - 1 :: _STEPS, len(TRACE) :]
        self.mode[first * _STEPS : last * _STEPS] = np.where(is_on, mode, 0)


def _defrosted(trace: Trace) -> float:
    """Frost, kg, that went in minutes of defrosting."""
    frost, is_defrost = trace.column("frost"), trace.column("mode") == DEFROST
    return float(-np.diff(frost)[is_defrost[1:]].sum())


def _by_slot(steps: _Array | NDArray[np.bool_]) -> _Array:
    means: _Array = steps.reshape(-1, _STEPS).mean(axis=1, dtype=float)
    return means


def _bounds(drivers: Drivers) -> list[tuple[int, int]]:
    """First slot of each piece and the one after its last; pieces begin at midnight."""
    days = drivers.slots["day"][:-1]
    edges = np.searchsorted(days, np.arange(0, int(days[-1]) + 1, _PIECE_DAYS))
    return list(zip(edges.tolist(), [*edges[1:].tolist(), days.size], strict=True))


def _piece(year: HomeYear, first: int, last: int, start: State | None) -> tuple[Trace, State]:
    """One piece step by step, and how it ended."""
    drivers = year.drivers
    slots = drivers.slots[first : last + 1].copy()
    slots["day"] -= slots["day"][0]
    part = replace(
        drivers,
        slots=slots,
        solar=drivers.solar[first:last],
        gains=drivers.gains[first:last],
        wanted=drivers.wanted[first:last],
        draws=drivers.draws[first * MINUTES_PER_SLOT : last * MINUTES_PER_SLOT],
        calendar=None,
    )
    days = int(slots["day"][:-1].max()) + 1
    run = run_year(year.model.home, part, start=start, trace_days=(0, days))
    if run.trace is None:
        raise AssertionError("a trace was asked for")
    return run.trace, run.end


def stretch_of(year: HomeYear, minutes: Minutes, first: int, count: int) -> Trace:
    """Some minutes of a year step by step.

    Args:
        year: as it was run.
        minutes: of the same year.
        first: minute of the run, 0 first.
        count: of minutes; those beyond the end of the run are left out.
    """
    bounds = _bounds(year.drivers)
    parts = [
        _piece(year, start, end, state)[0].values
        for (start, end), (_, state) in zip(bounds, minutes.pieces, strict=True)
        if start * _STEPS < first + count and end * _STEPS > first
    ]
    begin = max(start for start, _ in bounds if start * _STEPS <= first) * _STEPS
    values = np.concatenate(parts)[first - begin : first - begin + count]
    return Trace((*TRACE, *year.model.home.room_ids), values, first, STEP)
