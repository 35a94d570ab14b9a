"""Facts about energy and what it costs."""

from __future__ import annotations

from hearthbook.design.results import Design
from hearthbook.design.running_cost import RunningCost
from hearthbook.documents.figures import KeyFigure
from hearthbook.documents.inline import escaped
from hearthbook.handover.facts.speech import Speech
from hearthbook.handover.facts.tables import listed
from hearthbook.handover.wording import Facts, Ready
from hearthbook.record.tariff import Tariff
from hearthbook.units import shown
from hearthbook.year.pack_numbers import Span, YearNumbers, YearTotals

__all__ = ["money_facts"]

_FIVES_ABOVE = 50.0  # of money
_LEVEL = 0.05  # of the cost; closer than that nobody can tell


def money_facts(design: Design, numbers: YearNumbers, speech: Speech) -> Facts:
    """Facts about energy and cost."""
    return {
        "energy": _energy(design, numbers, speech),
        "cost": _cost(design, numbers, speech),
    }


def _energy(design: Design, numbers: YearNumbers, speech: Speech) -> Facts:
    totals = numbers.totals
    year = totals.electricity
    summer = min(numbers.months, key=lambda month: month.middle)
    return {
        "electricity_year": speech.two_digits(year.middle, "kWh"),
        "electricity_low": speech.two_digits(year.low, "kWh"),
        "electricity_high": speech.two_digits(year.high, "kWh"),
        "hot_water_electricity": speech.two_digits(totals.hot_water.middle, "kWh"),
        "summer_month": speech.two_digits(summer.middle, "kWh"),
        "efficiency": f"{totals.efficiency.middle:.1f}",
        "boundary": speech.words("words", "boundary"),
        "design_load": _kilowatts(design.heat_loss.total),
        "design_capacity": _kilowatts(design.fit.capacity_at_design),
    }


def _kilowatts(figure: KeyFigure) -> str:
    return shown(figure.value, "kW", 1)


_EMPTY = dict.fromkeys(
    (
        "rate",
        "mean",
        "standing",
        "bands",
        "hundred",
        "degree",
        "degree_percent",
        "year",
        "year_range",
    )
)


def _cost(design: Design, numbers: YearNumbers, speech: Speech) -> Facts:
    totals = numbers.totals
    efficiency = f"{totals.efficiency.middle:.1f}"
    common = {"efficiency_words": efficiency}
    cost, tariff = design.cost, design.home.tariff
    if cost is None or tariff is None or totals.cost is None or totals.degree_cost is None:
        said = speech.words("cost", "no_previous", efficiency=efficiency)
        return {**_EMPTY, **common, "comparison": Ready(said)}
    hundred = 100 * 3.6e6 * cost.price.value
    return {
        **common,
        "rate": _price(tariff, tariff.bands[0].price),
        "standing": None
        if tariff.standing_charge is None
        else shown(tariff.standing_charge, _hundredth(tariff, "day"), 1).replace(".0", ""),
        "mean": _price(tariff, cost.price.value),
        "hundred": shown(hundred, tariff.currency, 0 if len(tariff.bands) > 1 else 2),
        "bands": _bands(tariff, speech),
        "degree": speech.reach(_to_fives(totals.degree_cost), tariff.currency, 0),
        "degree_percent": shown(totals.degree_share, "%", 0),
        "year": speech.two_digits(totals.cost.middle, tariff.currency),
        "year_range": speech.words(
            "words",
            "from_to",
            low=speech.two_digits(totals.cost.low, tariff.currency),
            high=speech.two_digits(totals.cost.high, tariff.currency),
        ),
        "comparison": Ready(_comparison(cost, totals, speech)),
    }


def _to_fives(span: Span) -> Span:
    """A sum of money to the nearest five where it is large: nobody knows it closer."""
    ends = (span.low, span.middle, span.high)
    return Span(*(round(end / 5) * 5 if end >= _FIVES_ABOVE else end for end in ends))


def _hundredth(tariff: Tariff, per: str) -> str:
    return f"{'p' if tariff.currency == '£' else 'c'}/{per}"


def _price(tariff: Tariff, price: float) -> str:
    return shown(price, _hundredth(tariff, "kWh"), 1)


def _bands(tariff: Tariff, speech: Speech) -> str | None:
    if len(tariff.bands) < 2:
        return None
    said = [
        speech.words("cost", "band", name=band.name, price=_price(tariff, band.price))
        for band in tariff.bands
    ]
    return listed(said, speech.words("words", "and"))


def _comparison(cost: RunningCost, totals: YearTotals, speech: Speech) -> str:
    previous = cost.previous
    efficiency = f"{totals.efficiency.middle:.1f}"
    if previous is None or totals.cost is None:
        return speech.words("cost", "no_previous", efficiency=efficiency)
    paid = totals.cost.middle / totals.electricity.middle  # for a unit of electricity
    new, low, high = (
        paid / value
        for value in (totals.efficiency.middle, totals.efficiency.high, totals.efficiency.low)
    )
    old, unit = previous.price_per_heat, previous.price_per_heat.unit
    share = new / old.value - 1
    verdict = "level" if abs(share) <= _LEVEL else "cheaper" if share < 0 else "dearer"
    return speech.words(
        "cost",
        "comparison",
        fuel=escaped(previous.name),
        old=old.shown(),
        new=shown(new, unit),
        new_low=shown(low, unit),
        new_high=shown(high, unit),
        verdict=speech.words("cost", verdict),
        breakeven=f"{paid / old.value:.1f}",
        expected=efficiency,
    )
