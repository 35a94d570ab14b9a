"""How cold rooms are when a colder night ends in winter, and how long until they are warm again."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hearthbook.simulate.drivers import Drivers
from hearthbook.simulate.home_model import HomeModel
from hearthbook.simulate.run import run_year
from hearthbook.year.changed_drivers import SLOTS_PER_DAY, coldest_days, stretch_of, within
from hearthbook.year.changes import ColderStretch
from hearthbook.year.pack_numbers import Span
from hearthbook.year.spans import span_of

__all__ = ["Mornings", "mornings_of", "winter_air"]

_Array = NDArray[np.float64]

_WATCHED = 42  # the coldest days on end, looked at quarter by quarter of an hour
_NEARLY = 0.5  # K below what is wanted that nobody minds; common practice, no source
_COLD_MORNING = 10.0  # % of mornings are colder than the one told
_SLOT = 900.0  # s
_LONGEST = 48  # slots looked for the rooms to be warm again
_LASTING = 4  # slots on end that count: an hour


@dataclass(frozen=True)
class Mornings:
    """The mornings after colder nights in winter.

    Attributes:
        room: number of the room that is farthest below its wanted temperature on a cold morning.
        coldest: °C of that room then.
        recovery: s until every room is warm again.
    """

    room: int
    coldest: float
    recovery: Span


def winter_air(model: HomeModel, drivers: Drivers) -> _Array:
    """Air temperature of each room at the end of each slot of the coldest weeks; [slots, R]."""
    first = coldest_days(drivers, _WATCHED)
    run = run_year(model, stretch_of(drivers, first, _WATCHED), trace_days=(0, _WATCHED))
    assert run.trace is not None  # it was asked for
    columns = [run.trace.column(room) for room in model.room_ids]
    return np.stack(columns, axis=1)[14::15]


def mornings_of(steady: Drivers, usual: _Array, colder: _Array, stretch: ColderStretch) -> Mornings:
    """What the mornings are like.

    Args:
        steady: drivers without a colder stretch.
        usual: rooms' air in steady nights, as `winter_air` gives it.
        colder: the same with colder nights.
        stretch: the colder night.
    """
    first = coldest_days(steady, _WATCHED) * SLOTS_PER_DAY
    night = within(steady, stretch)[first : first + colder.shape[0]]
    ends = np.flatnonzero(night[:-1] & ~night[1:])
    ends = ends[ends + _LONGEST < colder.shape[0]]
    wanted = steady.wanted[first : first + colder.shape[0]]
    last_hour = [slice(end + 1 - _LASTING, end + 1) for end in ends]
    short = np.array([(colder - wanted)[hour].mean(axis=0) for hour in last_hour])
    worst = np.percentile(short, _COLD_MORNING, axis=0)
    room = int(np.argmin(worst))
    enough = np.minimum(usual, wanted) - _NEARLY
    is_warm = np.all(colder >= enough, axis=1)
    waits = [_wait(is_warm[end : end + _LONGEST]) for end in ends]
    return Mornings(room, float(worst[room] + wanted[:, room].mean()), span_of(waits))


def _wait(is_warm: NDArray[np.bool_]) -> float:
    """Seconds until the rooms have been warm for an hour on end."""
    lasting = np.convolve(is_warm, np.ones(_LASTING), mode="valid") >= _LASTING
    return float(np.argmax(lasting) if lasting.any() else is_warm.size) * _SLOT
