"""What is normal on a day of each outdoor temperature, over the days of many simulated years."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from hearthbook.simulate.run import Run
from hearthbook.year.outcomes import ELECTRICITY
from hearthbook.year.pack_numbers import OutdoorNumbers
from hearthbook.year.spans import span_of

__all__ = ["outdoor_days", "steady_below"]

_Array = NDArray[np.float64]

_OUTDOORS = (-15.0, -12.0, -10.0, -7.0, -5.0, -3.0, 0.0, 3.0, 5.0, 7.0, 10.0, 12.0, 15.0, 18.0)
_NEAR = 1.0  # K; days whose mean lies so near are taken for a day of that temperature
_FEWEST_A_YEAR = 1.0  # days of a temperature in a year, below which nobody can say what is normal
_WHOLE_DAY = 86_399.0  # s
_HEATED = 3_600.0  # s of heating in all, below which there is no mean flow
_ALWAYS = 0.95  # of the time; the rest is switching between rooms, hot water and defrost
_DEFROSTS = 0.2  # a day; fewer are told as none


def outdoor_days(runs: Sequence[Run], *, has_prices: bool) -> tuple[OutdoorNumbers, ...]:
    """Days by mean outdoor temperature, the coldest first.

    Args:
        runs: of one home, as the record may mean it, each a year.
        has_prices: whether a tariff was known.
    """
    days = np.concatenate([run.days[run.days["seconds"] > _WHOLE_DAY] for run in runs])
    outdoor = days["outdoor"] / days["seconds"]
    years = days.size / 365.0
    found = []
    for target in _OUTDOORS:
        near = days[np.abs(outdoor - target) <= _NEAR]
        if near.size >= max(_FEWEST_A_YEAR * years, 3):
            found.append(_numbers(target, near, has_prices))
    return tuple(found)


def _numbers(outdoor: float, days: NDArray[Any], has_prices: bool) -> OutdoorNumbers:
    electricity = np.sum([days[name] for name in ELECTRICITY], axis=0)
    heating = float(days["heating_seconds"].sum())
    defrosting = days[days["defrosts"] > 0]
    has_defrosts = days["defrosts"].mean() > _DEFROSTS
    lengths = defrosting["defrost_seconds"] / np.maximum(defrosting["defrosts"], 1.0)
    return OutdoorNumbers(
        outdoor=outdoor,
        electricity=span_of(electricity),
        cost=span_of(days["cost"]) if has_prices else None,
        flow=float(days["flow_temperature"].sum()) / heating if heating > _HEATED else None,
        run_share=float(np.mean(days["run_seconds"] / days["seconds"])),
        defrosts=span_of(days["defrosts"]),
        defrost_seconds=span_of(lengths) if has_defrosts else None,
        water=span_of(days["meltwater"] + days["condensate"]),
    )


def steady_below(days: Sequence[OutdoorNumbers]) -> float | None:
    """The mildest temperature at which, and at all colder, the unit hardly rests; else None."""
    found = None
    for day in days:
        if day.run_share < _ALWAYS:
            break
        found = day.outdoor
    return found
