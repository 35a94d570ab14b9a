"""Many homes through their weathers, for chapters that compare them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from hearthbook.simulate.drivers import Drivers
from hearthbook.simulate.home_model import HomeModel
from hearthbook.simulate.run import Run

__all__ = ["Told", "runs_of"]


@dataclass(frozen=True)
class Told:
    """One home and what it is told.

    Attributes:
        model: the home.
        drivers: its weather, people and clocks; homes that share one object share its memory.
    """

    model: HomeModel
    drivers: Drivers


def runs_of(homes: Sequence[Told], advance: Callable[[int, int], None] | None = None) -> list[Run]:
    """One run for each home, in their order.

    Args:
        homes: of any number; those of one shape run side by side.
        advance: told how many of how many are done.

    Raises:
        OutOfRange: drivers the loop cannot run on, or sums that do not balance.
    """
    from hearthbook.simulate.batch import Variant, run_batch  # here, as it brings the compiler

    return run_batch([Variant(home.model, home.drivers) for home in homes], progress=advance)
