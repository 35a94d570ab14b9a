"""The year with its ranges: what nobody knows exactly is drawn, and the year run for each draw."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from hearthbook.design.results import Design
from hearthbook.documents.figures import calculated
from hearthbook.errors import OutOfRange, check_between
from hearthbook.simulate.drivers import Drivers
from hearthbook.simulate.run import Run
from hearthbook.simulate.weather import SLOTS_PER_HOUR, Weather, month_of_hours
from hearthbook.year.bands import Band
from hearthbook.year.model import year_model
from hearthbook.year.outcomes import ELECTRICITY, Outcome, outcome
from hearthbook.year.perturbed_home import grounds_of, perturbed
from hearthbook.year.schedules import build_drivers
from hearthbook.year.side_by_side import Told, runs_of
from hearthbook.year.spread_sources import Source, spread_sources
from hearthbook.year.uncertainties import Draw, Spreads, draws_of, spreads_of

__all__ = ["MonthBand", "OutdoorBand", "YearRanges", "year_ranges"]

_Array = NDArray[np.float64]

_SHARES = (("p10", 0.1), ("p50", 0.5), ("p90", 0.9))
_MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September",
           "October", "November", "December")  # fmt: skip
_FEWEST_DAYS = 20  # of all draws together, below which a degree outdoors tells no range
_DAY = 86_400.0  # s
_MOST_DRAWS = 5000


@dataclass(frozen=True)
class MonthBand:
    """Electricity of a month.

    Attributes:
        month: number, 1 for January.
        electricity: everything counted.
    """

    month: int
    electricity: Band


@dataclass(frozen=True)
class OutdoorBand:
    """Days of one mean outdoor temperature, over all draws.

    Attributes:
        outdoor: °C, whole degrees.
        days: how many days of all draws it rests on.
        electricity: of a day, everything counted.
    """

    outdoor: int
    days: int
    electricity: Band


@dataclass(frozen=True)
class YearRanges:
    """A home's year with ranges.

    Attributes:
        heat: for rooms and hot water.
        electricity: everything counted.
        cost: without the standing charge; None without a tariff.
        efficiency: seasonal, all counted.
        starts: of the compressor.
        defrosts: of the outdoor unit.
        months: electricity of each month the weather has, January first.
        by_outdoor: electricity of a day, the coldest degree first.
        sources: what spreads the year's electricity, the largest first.
        spreads: what was taken as uncertain.
        draws: how many years were run.
        seed: of the draws.
        weathers: how many years of weather they met.
    """

    heat: Band
    electricity: Band
    cost: Band | None
    efficiency: Band
    starts: Band
    defrosts: Band
    months: tuple[MonthBand, ...]
    by_outdoor: tuple[OutdoorBand, ...]
    sources: tuple[Source, ...]
    spreads: Spreads
    draws: int
    seed: int
    weathers: int


@dataclass(frozen=True)
class _Year:
    """What is kept of one draw's year."""

    outcome: Outcome
    months: _Array
    days: _Array  # mean °C outdoors and J of each day


def year_ranges(
    design: Design,
    weathers: Sequence[Weather],
    *,
    draws: int = 200,
    seed: int = 1,
    advance: Callable[[int, int], None] = lambda _, __: None,
) -> YearRanges:
    """The year of a home with ranges.

    Args:
        design: of the home.
        weathers: years of weather that the draws meet in turn.
        draws: how many homes the record may mean are run.
        seed: the same seed gives the same ranges.
        advance: told how many of how many years are done.

    Raises:
        Incomplete: a fact the year rests on is missing and nobody may assume it.
        OutOfRange: what no loop can run on.
    """
    check_between("number of draws", draws, 2, _MOST_DRAWS, "")
    if not weathers:
        raise OutOfRange("There is no weather to run the year through; give one year or several.")
    spreads = spreads_of(design)
    drawn = draws_of(spreads, draws, seed, len(weathers))
    years, has_prices = _years(design, weathers, drawn, advance)
    figures = _Figures(design, spreads, draws, seed)
    return YearRanges(
        heat=figures.of("heat", "heat for rooms and hot water", "kWh", _of(years, "heat")),
        electricity=figures.of("electricity", "electricity, everything counted", "kWh",
                               _of(years, "electricity")),
        cost=figures.of("cost", "cost of electricity, without the standing charge",
                        design.home.tariff.currency, _of(years, "cost"))
        if has_prices and design.home.tariff else None,
        efficiency=figures.of("efficiency", "seasonal efficiency, all counted", "",
                              _of(years, "efficiency")),
        starts=figures.of("starts", "starts of the compressor", "", _of(years, "starts"), 0),
        defrosts=figures.of("defrosts", "defrosts", "", _of(years, "defrosts"), 0),
        months=_months(figures, years),
        by_outdoor=_by_outdoor(figures, years),
        sources=spread_sources(drawn, _of(years, "electricity"), spreads),
        spreads=spreads,
        draws=draws,
        seed=seed,
        weathers=len(weathers),
    )  # fmt: skip


def _years(
    design: Design,
    weathers: Sequence[Weather],
    drawn: Sequence[Draw],
    advance: Callable[[int, int], None],
) -> tuple[list[_Year], bool]:
    """The year of each draw."""
    model, grounds = year_model(design).home, grounds_of(design)
    drivers = [
        build_drivers(design, weather, model.glazing, seed=number)
        for number, weather in enumerate(weathers)
    ]
    months = [_month_of_day(*pair) for pair in zip(drivers, weathers, strict=True)]
    homes = [Told(perturbed(model, draw, grounds), drivers[draw.weather]) for draw in drawn]
    has_prices = drivers[0].has_prices
    return [
        _kept(run, months[draw.weather], has_prices=has_prices)
        for run, draw in zip(runs_of(homes, advance), drawn, strict=True)
    ], has_prices


def _month_of_day(drivers: Drivers, weather: Weather) -> NDArray[np.int64]:
    """The month each day of the run begins in, 0 for January."""
    _, first = np.unique(drivers.slots["day"][:-1], return_index=True)
    months: NDArray[np.int64] = month_of_hours(weather)[first // SLOTS_PER_HOUR]
    return months


def _kept(run: Run, month_of_day: NDArray[np.int64], *, has_prices: bool) -> _Year:
    electricity = _electricity(run.days)
    months = np.bincount(month_of_day, weights=electricity, minlength=12).astype(float)
    seconds = run.days["seconds"]
    whole = seconds > 0.9 * _DAY
    days = np.stack([run.days["outdoor"][whole] / seconds[whole],
                     electricity[whole] / seconds[whole]])  # fmt: skip
    return _Year(outcome(run, has_prices=has_prices), months, days)


def _electricity(records: NDArray[Any]) -> _Array:
    return np.asarray(sum(records[name] for name in ELECTRICITY), dtype=float)


def _of(years: Sequence[_Year], name: str) -> _Array:
    return np.array([year.outcome.number(name) for year in years])


@dataclass(frozen=True)
class _Figures:
    """Turns numbers of all draws into figures."""

    design: Design
    spreads: Spreads
    draws: int
    seed: int

    def of(
        self, name: str, label: str, unit: str, values: _Array, decimals: int | None = None
    ) -> Band:
        """The range of some numbers."""
        found = np.quantile(values, [share for _, share in _SHARES])
        loss = self.design.heat_loss
        return Band(
            *(
                calculated(
                    f"year.range.{name}.{end}", f"{label}, {share:.0%} of the draws lie below",
                    float(value), unit, formula=f"{share:.0%} point of {values.size} simulated "
                    "numbers", decimals=decimals,
                    inputs=(loss.coefficient, self.design.curve.design_flow, *self.spreads.figures),
                    source=f"Monte Carlo, {self.draws} draws, seed {self.seed}",
                )
                for (end, share), value in zip(_SHARES, found, strict=True)
            )
        )  # fmt: skip


def _months(figures: _Figures, years: Sequence[_Year]) -> tuple[MonthBand, ...]:
    by_month = np.array([year.months for year in years])
    return tuple(
        MonthBand(
            number + 1,
            figures.of(f"months.{name.lower()}", f"electricity in {name}", "kWh",
                       by_month[:, number]),
        )
        for number, name in enumerate(_MONTHS)
        if by_month[:, number].any()
    )  # fmt: skip


def _by_outdoor(figures: _Figures, years: Sequence[_Year]) -> tuple[OutdoorBand, ...]:
    days = np.concatenate([year.days for year in years], axis=1)
    degrees = np.rint(days[0]).astype(int)
    found = []
    for degree in range(degrees.min(), degrees.max() + 1):
        used = days[1, degrees == degree]
        if used.size < _FEWEST_DAYS:
            continue
        stem = f"minus_{-degree}" if degree < 0 else str(degree)
        band = figures.of(f"by_outdoor.{stem}", f"electricity of a day at {degree} °C outdoors",
                          "kWh/day", used)  # fmt: skip
        found.append(OutdoorBand(degree, used.size, band))
    return tuple(found)
