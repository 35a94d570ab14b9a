"""Two hundred years of a home, for the numbers its handover pack is made from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hearthbook.design.results import Design
from hearthbook.errors import Incomplete
from hearthbook.simulate.drivers import Drivers
from hearthbook.simulate.run import Run
from hearthbook.simulate.weather import Weather
from hearthbook.year.changed_drivers import shifted, within
from hearthbook.year.changes import Changes, ColderStretch
from hearthbook.year.cold_mornings import winter_air
from hearthbook.year.model import YearModel, year_model
from hearthbook.year.outcomes import ELECTRICITY
from hearthbook.year.outdoor_days import outdoor_days, steady_below
from hearthbook.year.pack_numbers import RoomNumbers, Span, YearNumbers, YearTotals
from hearthbook.year.perturbed_home import grounds_of, perturbed
from hearthbook.year.recovery import outages, returns
from hearthbook.year.schedules import build_drivers
from hearthbook.year.setback_grid import Advance, Tried, night_runs, nobody_watches, setback_grid
from hearthbook.year.side_by_side import Told, runs_of
from hearthbook.year.spans import span_of
from hearthbook.year.uncertainties import AS_RECORDED, Draw, draws_of, spreads_of

__all__ = ["DRAWS", "SEED", "year_numbers"]

DRAWS = 200
SEED = 1

_DEGREE_PAIRS = 24  # homes also run 1 K warmer
_NIGHT_HOMES = 4  # homes in which colder nights are tried; the first as recorded
_DEGREE = 1.0  # K
_WHOLE_YEAR = 8736  # h; 364 days
_HOT_WATER = ("electricity_cylinder", "heat_immersion")
_HEAT = ("heat_rooms", "heat_cylinder", "heat_backup", "heat_immersion")


@dataclass(frozen=True)
class _Years:
    """A home's draws with the years they were run through.

    Attributes:
        design: of the home.
        model: its arrays as recorded.
        drivers: one for each weather, with the colder stretch that the record has.
        steady: the same without a colder stretch.
        draws: what is drawn, as many as runs.
        runs: one for each draw.
    """

    design: Design
    model: YearModel
    drivers: tuple[Drivers, ...]
    steady: tuple[Drivers, ...]
    draws: tuple[Draw, ...]
    runs: tuple[Run, ...]


def year_numbers(
    design: Design,
    weathers: Sequence[Weather],
    *,
    draws: int = DRAWS,
    progress: Advance = nobody_watches,
) -> YearNumbers:
    """Run a home through its years and keep what its pack needs.

    Args:
        design: of the home.
        weathers: years of its place, which the draws meet in turn.
        draws: years to run for the ranges.
        progress: told how many years of how many are done.

    Raises:
        Incomplete: a fact the year rests on is missing and nobody may assume it.
        OutOfRange: what no loop can run on.
    """
    _check_whole(weathers)
    pairs, homes = min(_DEGREE_PAIRS, draws), min(_NIGHT_HOMES, draws)
    of = draws + pairs + homes + night_runs(homes)
    years = _run(design, weathers, draws, lambda done, _: progress(done, of))
    totals = _totals(years, pairs, lambda done, _: progress(draws + done, of))
    tried = _tried(years, homes)
    before = draws + pairs + homes
    nights = setback_grid(design, tried, lambda done, _: progress(before + done, of))
    days = outdoor_days(years.runs, has_prices=years.drivers[0].has_prices)
    if not days:
        raise Incomplete(
            "the weather has no days between −15 and 18 °C, of which the pack could tell what is "
            "normal. See that it belongs to the home's place."
        )
    home, steady = years.model.home, years.steady[0]
    return YearNumbers(
        is_simulated=True,
        draws=draws,
        seed=SEED,
        weather=weathers[0].source,
        is_generated=weathers[0].is_generated,
        balance=max(run.balance.worst for run in years.runs),
        totals=totals,
        months=_months(years),
        days=days,
        nights=nights,
        returns=returns(design, home, steady),
        outages=outages(design, home, steady),
        steady_below=steady_below(days),
        rooms=_rooms(design, tried[0]),
    )


def _check_whole(weathers: Sequence[Weather]) -> None:
    """Refuse weather that leaves out part of the year."""
    for weather in weathers:
        if weather.hours < _WHOLE_YEAR:
            raise Incomplete(
                f"the weather ({weather.source}) has {weather.hours / 24:.0f} days; the pack tells "
                "of every month. Give a file of a whole year."
            )


def _run(design: Design, weathers: Sequence[Weather], draws: int, advance: Advance) -> _Years:
    model = year_model(design)
    drivers, steady = _drivers(design, weathers, model)
    drawn = draws_of(spreads_of(design), draws, SEED, len(drivers))
    grounds = grounds_of(design)
    told = [Told(perturbed(model.home, one, grounds), drivers[one.weather]) for one in drawn]
    return _Years(design, model, drivers, steady, drawn, tuple(runs_of(told, advance)))


def _drivers(
    design: Design, weathers: Sequence[Weather], model: YearModel
) -> tuple[tuple[Drivers, ...], tuple[Drivers, ...]]:
    """Drivers of each weather as recorded, and without a colder stretch."""
    steady = tuple(
        build_drivers(design, one, model.home.glazing, seed=number,
                      changes=Changes(setback=ColderStretch(0.0)))
        for number, one in enumerate(weathers)
    )  # fmt: skip
    if not _plans_colder(design):
        return steady, steady
    return tuple(shifted(design, one, _planned_shift(design, one)) for one in steady), steady


def _plans_colder(design: Design) -> bool:
    planned = design.home.controls.setback
    return planned is not None and planned.by > 0.0


def _planned_shift(design: Design, steady: Drivers) -> NDArray[np.float64]:
    """K by which the record's own colder stretch shifts the rooms in each slot."""
    planned = design.home.controls.setback
    if planned is None:
        return np.zeros(steady.solar.shape[0])
    stretch = ColderStretch(planned.by, planned.window.start, planned.window.end)
    return -planned.by * within(steady, stretch).astype(float)


def _totals(years: _Years, pairs: int, advance: Advance) -> YearTotals:
    runs, has_prices = years.runs, years.drivers[0].has_prices
    electricity = np.array([run.total(*ELECTRICITY) for run in runs])
    water = np.array([run.total(*_HOT_WATER) for run in runs])
    heat = np.array([run.total(*_HEAT) - run.total("heat_defrost") for run in runs])
    made, taken = (
        np.array([run.total(name) for run in runs])
        for name in ("heat_cylinder", "electricity_cylinder")
    )
    more, cost = _degree(years, pairs, advance)
    backup = sum(run.total("heat_backup") for run in runs)
    return YearTotals(
        electricity=span_of(electricity),
        hot_water=span_of(water),
        standby=span_of([run.total("electricity_standby") for run in runs]),
        heat=span_of(heat),
        efficiency=span_of(heat / electricity),
        hot_water_efficiency=span_of(made / np.maximum(taken, 1.0)),
        cost=span_of([run.total("cost") for run in runs]) if has_prices else None,
        degree=more,
        degree_cost=cost if has_prices else None,
        degree_share=more.middle / max(float(np.median(electricity - water)), 1.0),
        backup_share=backup / max(float(heat.sum()), 1.0),
        starts=span_of([_starts(run) for run in runs]),
        defrosts=span_of([run.total("defrosts") for run in runs]),
    )


def _degree(years: _Years, pairs: int, advance: Advance) -> tuple[Span, Span]:
    """Electricity and cost of a year in which all rooms are 1 K warmer, over the usual one's."""
    design = years.design
    warmer = [shifted(design, one, _planned_shift(design, one) + _DEGREE) for one in years.steady]
    grounds = grounds_of(design)
    told = [
        Told(perturbed(years.model.home, draw, grounds), warmer[draw.weather])
        for draw in years.draws[:pairs]
    ]
    both = list(zip(runs_of(told, advance), years.runs, strict=False))
    electricity = [new.total(*ELECTRICITY) - old.total(*ELECTRICITY) for new, old in both]
    return span_of(electricity), span_of(
        [new.total("cost") - old.total("cost") for new, old in both]
    )


def _starts(run: Run) -> float:
    """Starts in a day of the heating season."""
    heated = run.days[run.days["heating_seconds"] > 0]
    return float(heated["starts"].sum() / max(heated.size, 1))


def _months(years: _Years) -> tuple[Span, ...]:
    """Electricity of each month, January first."""
    sums = np.zeros((len(years.runs), 12))
    for number, (draw, run) in enumerate(zip(years.draws, years.runs, strict=True)):
        calendar = years.drivers[draw.weather].calendar
        assert calendar is not None  # a home's drivers have one
        months = calendar.month[calendar.first_slots()]
        used = np.sum([run.days[name] for name in ELECTRICITY], axis=0)
        sums[number] = np.bincount(months, weights=used, minlength=12)
    return tuple(span_of(sums[:, month]) for month in range(12))


def _tried(years: _Years, homes: int) -> tuple[Tried, ...]:
    """Homes for the colder nights, each in its year without one."""
    grounds = grounds_of(years.design)
    draws = (AS_RECORDED, *years.draws[1:homes])
    models = [perturbed(years.model.home, draw, grounds) for draw in draws]
    steady = [years.steady[draw.weather] for draw in draws]
    runs = runs_of([Told(m, d) for m, d in zip(models, steady, strict=True)])
    return tuple(map(Tried, models, steady, runs))


def _rooms(design: Design, tried: Tried) -> tuple[RoomNumbers, ...]:
    means = winter_air(tried.model, tried.steady).mean(axis=0)
    return tuple(
        RoomNumbers(each.room.id, each.temperature.value, float(mean))
        for each, mean in zip(design.heat_loss.rooms, means, strict=True)
    )
