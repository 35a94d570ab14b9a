"""One home's year, simulated: the model, what it was told, and what it did."""

from __future__ import annotations

from dataclasses import dataclass

from hearthbook.design.results import Design
from hearthbook.simulate.drivers import Drivers
from hearthbook.simulate.run import Run, run_year
from hearthbook.simulate.weather import Weather
from hearthbook.year.changes import Changes
from hearthbook.year.model import YearModel, year_model
from hearthbook.year.schedules import build_drivers

__all__ = ["HomeYear", "home_year"]

_AS_RECORDED = Changes()


@dataclass(frozen=True)
class HomeYear:
    """A home's simulated year.

    Attributes:
        model: the home in arrays, and what was assumed.
        weather: it was run through.
        drivers: what the loop was told.
        run: what came out.
    """

    model: YearModel
    weather: Weather
    drivers: Drivers
    run: Run


def home_year(
    design: Design,
    weather: Weather,
    *,
    changes: Changes = _AS_RECORDED,
    seed: int = 0,
    trace_days: tuple[int, int] | None = None,
) -> HomeYear:
    """Run a home through its weather.

    Args:
        design: of the home.
        weather: hourly.
        changes: what is tried against the record.
        seed: of the household's hot water.
        trace_days: first day and number of days to be kept step by step.

    Raises:
        Incomplete: a fact the year rests on is missing and nobody may assume it.
        OutOfRange: what no loop can run on.
    """
    model = year_model(design)
    drivers = build_drivers(design, weather, model.home.glazing, seed=seed, changes=changes)
    return HomeYear(model, weather, drivers, run_year(model.home, drivers, trace_days=trace_days))
