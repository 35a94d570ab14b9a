"""Colder nights of several depths and lengths, tried in the same years as steady ones."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial

import numpy as np
from numpy.typing import NDArray

from hearthbook.design.results import Design
from hearthbook.simulate.drivers import Drivers
from hearthbook.simulate.home_model import HomeModel
from hearthbook.simulate.run import Run
from hearthbook.year.changed_drivers import shifted, within
from hearthbook.year.changes import ColderStretch
from hearthbook.year.cold_mornings import Mornings, mornings_of, winter_air
from hearthbook.year.outcomes import ELECTRICITY
from hearthbook.year.pack_numbers import NightNumbers, Span
from hearthbook.year.side_by_side import Told, runs_of
from hearthbook.year.spans import span_of

__all__ = ["DEPTHS", "LENGTHS", "Advance", "Tried", "night_runs", "nobody_watches", "setback_grid"]

Advance = Callable[[int, int], None]
"""Told how many of how many years are done."""

DEPTHS = (1.0, 2.0, 3.0, 4.0)  # K
LENGTHS = (4.0, 6.0, 8.0, 10.0)  # h
_AT_ONCE = 2  # lengths of night run side by side, so that two processors have work
_USUAL_END = "07:00"  # where the record plans no colder night
_HOT_WATER = ("electricity_cylinder", "heat_immersion")


@dataclass(frozen=True)
class Tried:
    """One home in one year.

    Attributes:
        model: of the home.
        steady: its drivers without a colder stretch.
        run: steady, for comparison.
    """

    model: HomeModel
    steady: Drivers
    run: Run


def nobody_watches(done: int, of: int) -> None:
    """Stands in for a progress bar."""


def night_runs(tried: int) -> int:
    """How many years the grid runs when so many homes are tried."""
    return tried * len(DEPTHS) * len(LENGTHS)


def setback_grid(
    design: Design, tried: Sequence[Tried], advance: Advance = nobody_watches
) -> tuple[NightNumbers, ...]:
    """Every night of the grid; each length begins with the steady one.

    Args:
        design: of the home.
        tried: homes the record may mean, each in a year; the first is as recorded.
        advance: told how many of its years are done.
    """
    usual = winter_air(tried[0].model, tried[0].steady)
    found: list[NightNumbers] = []
    for first in range(0, len(LENGTHS), _AT_ONCE):
        lengths = LENGTHS[first : first + _AT_ONCE]
        nights = [(depth, hours) for hours in lengths for depth in DEPTHS]
        before, of = first * len(DEPTHS) * len(tried), night_runs(len(tried))
        found += _some(design, tried, usual, nights, partial(_told_on, advance, before, of))
    return tuple(found)


def _told_on(advance: Advance, before: int, of: int, done: int, _: int) -> None:
    """Tell how many are done in all, of which some were done before."""
    advance(before + done, of)


def _some(
    design: Design,
    tried: Sequence[Tried],
    usual: NDArray[np.float64],
    nights: Sequence[tuple[float, float]],
    advance: Advance,
) -> list[NightNumbers]:
    """Some nights of the grid, as many as are held in memory at once."""
    end, alone = _morning(design), tried[0]
    stretches = [ColderStretch(depth, _clock(end, hours), end) for depth, hours in nights]
    told = [Told(one.model, _colder(design, one.steady, s)) for s in stretches for one in tried]
    runs = runs_of(told, advance)
    found = []
    for at, (night, stretch) in enumerate(zip(nights, stretches, strict=True)):
        if night[0] == DEPTHS[0]:
            steady = mornings_of(alone.steady, usual, usual, stretch)
            found.append(_steady_night(design, steady, night[1]))
        first = at * len(tried)
        air = winter_air(alone.model, told[first].drivers)
        mornings = mornings_of(alone.steady, usual, air, stretch)
        found.append(_night(design, tried, runs[first : first + len(tried)], mornings, night))
    return found


def _morning(design: Design) -> str:
    planned = design.home.controls.setback
    return _USUAL_END if planned is None else planned.window.end


def _clock(end: str, hours: float) -> str:
    """When a night of so many hours begins that ends then.

    Example:
        >>> _clock("07:00", 8.0)
        '23:00'
    """
    minutes = (int(end[:2]) * 60 + int(end[3:]) - round(hours * 60)) % 1440
    return f"{minutes // 60:02d}:{minutes % 60:02d}"


def _colder(design: Design, steady: Drivers, stretch: ColderStretch) -> Drivers:
    return shifted(design, steady, -stretch.by * within(steady, stretch).astype(float))


def _night(
    design: Design,
    tried: Sequence[Tried],
    runs: Sequence[Run],
    mornings: Mornings,
    night: tuple[float, float],
) -> NightNumbers:
    pairs = list(zip([one.run for one in tried], runs, strict=True))
    has_prices = tried[0].steady.has_prices
    electricity = [new.total(*ELECTRICITY) - old.total(*ELECTRICITY) for old, new in pairs]
    cost = [new.total("cost") - old.total("cost") for old, new in pairs]
    rooms = [old.total(*ELECTRICITY) - old.total(*_HOT_WATER) for old, _ in pairs]
    share = np.array(electricity) / np.maximum(rooms, 1.0)
    if has_prices:
        paid = [old.total("cost") / old.total(*ELECTRICITY) for old, _ in pairs]
        share = np.array(cost) / np.maximum(np.array(rooms) * paid, 1e-9)
    return NightNumbers(
        depth=night[0],
        hours=night[1],
        electricity=span_of(electricity),
        cost=span_of(cost) if has_prices else None,
        share=span_of(share),
        coldest=mornings.coldest,
        coldest_room=_id_of(design, mornings.room),
        recovery=mornings.recovery,
    )


def _steady_night(design: Design, mornings: Mornings, hours: float) -> NightNumbers:
    nothing = Span(0.0, 0.0, 0.0)
    return NightNumbers(
        depth=0.0,
        hours=hours,
        electricity=nothing,
        cost=None if design.home.tariff is None else nothing,
        share=nothing,
        coldest=mornings.coldest,
        coldest_room=_id_of(design, mornings.room),
        recovery=nothing,
    )


def _id_of(design: Design, room: int) -> str:
    return design.heat_loss.rooms[room].room.id
