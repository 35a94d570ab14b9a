"""What changes over a year if a home is changed, with a range: each change against the record."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from hearthbook.design.results import Design
from hearthbook.documents.figures import KeyFigure, calculated
from hearthbook.errors import check_between
from hearthbook.simulate.weather import Weather
from hearthbook.year.home_year import HomeYear
from hearthbook.year.model import YearModel, year_model
from hearthbook.year.outcomes import Outcome, outcome
from hearthbook.year.perturbed_home import grounds_of, perturbed
from hearthbook.year.schedules import build_drivers
from hearthbook.year.side_by_side import Told, runs_of
from hearthbook.year.standing import Standing, standing_of
from hearthbook.year.uncertainties import AS_RECORDED as NOTHING_DRAWN
from hearthbook.year.uncertainties import Draw, Spreads, draws_of, spreads_of
from hearthbook.year.variants import AS_RECORDED, Variant, as_recorded

__all__ = ["METRICS", "Difference", "Metric", "Sampling", "WhatIf", "WhatIfs", "whatif"]

_LOW, _HIGH = 0.1, 0.9
_DRAWS = 31  # with the home as recorded two blocks of homes side by side
_MOST_DRAWS = 2000


@dataclass(frozen=True)
class Metric:
    """One of the numbers of a year that a change is judged by.

    Attributes:
        name: of the outcome and in figures.
        label: in words.
        unit: it is shown in; empty for the tariff's currency.
        decimals: digits after the point; None takes the unit's own.
    """

    name: str
    label: str
    unit: str | None
    decimals: int | None = None


METRICS = (
    Metric("electricity", "electricity, everything counted", "kWh"),
    Metric("cost", "cost of electricity", None),
    Metric("heat", "heat for rooms and hot water", "kWh"),
    Metric("efficiency", "seasonal efficiency, all counted", ""),
    Metric(
        "below", "time colder than wanted by more than half a kelvin, mean of the rooms", "h", 0
    ),
    Metric("temperature", "temperature, mean of rooms and time", "°C", 2),
    Metric("starts", "starts of the compressor", "", 0),
    Metric("cold_draws", "hot water too cold at the tap", "L", 0),
)


@dataclass(frozen=True)
class Sampling:
    """How ranges are drawn.

    Attributes:
        draws: pairs of homes, with and without the change, alike in all that is uncertain.
        seed: the same seed gives the same ranges.
    """

    draws: int = _DRAWS
    seed: int = 1

    def __post_init__(self) -> None:
        """Refuse a number of draws that says nothing or never ends.

        Raises:
            OutOfRange: fewer than 2 draws, or more than anybody waits for.
        """
        check_between("number of draws", self.draws, 2, _MOST_DRAWS, "")


@dataclass(frozen=True)
class Difference:
    """What a change does to one number of the year.

    Attributes:
        as_recorded: the number without the change.
        with_it: the number with it.
        change: with it less without it, for the home as its record stands.
        low: below which one in ten of the paired differences lies.
        high: above which one in ten lies.
    """

    as_recorded: KeyFigure
    with_it: KeyFigure
    change: KeyFigure
    low: KeyFigure
    high: KeyFigure


@dataclass(frozen=True)
class WhatIf:
    """What one change does over the year.

    Attributes:
        name: of the change, as in its figures.
        label: in plain words.
        note: what a reader must know of it.
        once: what the change costs once, where the record says so.
        electricity: everything on the heat pump's meter.
        cost: money; None without a tariff.
        heat: for rooms and hot water.
        efficiency: heat over electricity.
        below: time colder than wanted; what is wanted is the variant's own.
        temperature: of the rooms.
        starts: of the compressor.
        cold_draws: hot water too cold at the tap.
    """

    name: str
    label: str
    note: str
    once: KeyFigure | None
    electricity: Difference
    cost: Difference | None
    heat: Difference
    efficiency: Difference
    below: Difference
    temperature: Difference
    starts: Difference
    cold_draws: Difference


@dataclass(frozen=True)
class WhatIfs:
    """Several changes of one home.

    Attributes:
        ideas: those that save most money, or electricity where there is no tariff, first.
        spreads: what was taken as uncertain.
        sampling: how the ranges were drawn.
        standing: what the figures of the home as recorded rest on.
        weathers: how many years of weather the pairs met.
    """

    ideas: tuple[WhatIf, ...]
    spreads: Spreads
    sampling: Sampling
    standing: Standing
    weathers: int


@dataclass(frozen=True)
class _Sample:
    """The outcomes of one variant: as recorded first, then one for each draw."""

    outcomes: tuple[Outcome, ...]

    def numbers(self, metric: str) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
        return np.array([each.number(metric) for each in self.outcomes])


def whatif(
    design: Design,
    weathers: Sequence[Weather],
    variants: Sequence[Variant],
    *,
    sampling: Sampling | None = None,
    advance: Callable[[str], None] = lambda _: None,
) -> WhatIfs:
    """What each variant changes against the home as recorded.

    The first weather is that of the plain difference; the draws meet all of them in turn. Without
    and with a change, a draw is the same in all that is uncertain, so that what nobody knows of
    the home weighs on the difference only as far as it touches the change.

    Args:
        design: of the home as recorded.
        weathers: one or several years.
        variants: of the home.
        sampling: how ranges are drawn.
        advance: told what is being run, before each variant and before the home as recorded.

    Raises:
        Incomplete: a fact the year rests on is missing and nobody may assume it.
        OutOfRange: what no loop can run on.
    """
    sampling = sampling or Sampling()
    spreads = spreads_of(design)
    draws = draws_of(spreads, sampling.draws, sampling.seed, len(weathers))
    advance("as recorded")
    recorded = year_model(design)
    base, standing = _sampled(as_recorded(design), recorded, weathers, draws)
    words = _Words(design, standing, spreads, sampling)
    found = []
    for each in variants:
        advance(each.label)
        model = recorded if each.design is design else year_model(each.design)
        sample, _ = _sampled(each, model, weathers, draws)
        found.append(words.compared(each, base, sample))
    return WhatIfs(tuple(sorted(found, key=_saving)), spreads, sampling, standing, len(weathers))


def _saving(one: WhatIf) -> float:
    return (one.cost or one.electricity).change.value


def _sampled(
    each: Variant, model: YearModel, weathers: Sequence[Weather], draws: Sequence[Draw]
) -> tuple[_Sample, Standing]:
    """A variant as recorded in the first weather, then in every draw; and what it rests on."""
    grounds = grounds_of(each.design)
    drivers = [
        build_drivers(each.design, weather, model.home.glazing, changes=each.changes)
        for weather in weathers
    ]
    homes = [
        Told(perturbed(model.home, draw, grounds), drivers[draw.weather])
        for draw in (NOTHING_DRAWN, *draws)
    ]
    runs = runs_of(homes)
    has_prices = drivers[0].has_prices
    year = HomeYear(model, weathers[0], drivers[0], runs[0])
    sample = _Sample(tuple(outcome(run, has_prices=has_prices) for run in runs))
    return sample, standing_of(year)


@dataclass(frozen=True)
class _Words:
    """Turns numbers of a year into figures with their workings."""

    design: Design
    standing: Standing
    spreads: Spreads
    sampling: Sampling

    def compared(self, each: Variant, base: _Sample, sample: _Sample) -> WhatIf:
        """The differences of one variant."""
        found = {
            metric.name: self._difference(each, metric, base, sample)
            for metric in METRICS
            if metric.name != "cost"
        }
        has_prices = base.outcomes[0].cost is not None and sample.outcomes[0].cost is not None
        cost = self._difference(each, METRICS[1], base, sample) if has_prices else None
        return WhatIf(
            name=each.name, label=each.label, note=each.note, once=each.once, cost=cost, **found
        )

    def _difference(
        self, each: Variant, metric: Metric, base: _Sample, sample: _Sample
    ) -> Difference:
        before, after = base.numbers(metric.name), sample.numbers(metric.name)
        pairs = (after - before)[1:]
        without = self._total(AS_RECORDED, "as recorded", metric, float(before[0]))
        with_it = self._total(f"{each.name}.total", each.label, metric, float(after[0]), without)
        stem, unit = f"whatif.{each.name}.{metric.name}", self._unit(metric, is_change=True)
        label = f"{metric.label}, with {each.label}: difference"
        change = calculated(
            stem, label, float(after[0] - before[0]), unit, formula="with it − as recorded",
            inputs=(with_it, without), source=self.standing.source, decimals=metric.decimals,
        )  # fmt: skip
        low, high = (
            calculated(
                f"{stem}.{end}", f"{label}, {share:.0%} of the pairs lie below",
                float(np.quantile(pairs, share)), unit,
                formula=f"{share:.0%} point of the differences of {pairs.size} pairs",
                inputs=(change, *self.spreads.figures), decimals=metric.decimals,
                source=f"paired Monte Carlo, {pairs.size} draws, seed {self.sampling.seed}",
            )
            for end, share in (("low", _LOW), ("high", _HIGH))
        )  # fmt: skip
        return Difference(without, with_it, change, low, high)

    def _total(
        self, stem: str, words: str, metric: Metric, value: float, *inputs: KeyFigure
    ) -> KeyFigure:
        return calculated(
            f"whatif.{stem}.{metric.name}", f"{metric.label} {self.standing.span}, {words}", value,
            self._unit(metric), formula="sum or mean over the minutes", decimals=metric.decimals,
            inputs=inputs or (self.standing.run,), source=self.standing.source,
        )  # fmt: skip

    def _unit(self, metric: Metric, *, is_change: bool = False) -> str:
        if metric.unit is None:
            return self.design.home.tariff.currency if self.design.home.tariff else "£"
        return "K" if is_change and metric.unit == "°C" else metric.unit
