"""Facts about energy and what it costs."""

from __future__ import annotations

from hearthbook.design.results import Design
from hearthbook.design.running_cost import RunningCost
from hearthbook.documents.figures import KeyFigure
from hearthbook.documents.inline import escaped
from hearthbook.handover.facts.speech import Speech
from hearthbook.handover.facts.tables import listed, table
from hearthbook.handover.wording import Facts, Ready
from hearthbook.record.tariff import Tariff
from hearthbook.units import shown

__all__ = ["money_facts"]

_DAYS = (-3.0, 5.0, 10.0)  # °C, the days people ask about
_LEVEL = 0.05  # of the cost; closer than that nobody can tell


def money_facts(design: Design, speech: Speech) -> Facts:
    """Facts about energy and cost."""
    return {
        "energy": _energy(design, speech),
        "cost": _cost(design, speech),
        "table_day_cost": _day_table(design, speech),
    }


def _energy(design: Design, speech: Speech) -> Facts:
    energy = design.fit.energy
    year = energy.electricity_per_year
    spread = year.uncertainty or 0.0
    summer = design.fit.monthly[6]
    return {
        "electricity_year": _rounded(year.value),
        "electricity_low": _rounded(max(year.value - spread, 0.0)),
        "electricity_high": _rounded(year.value + spread),
        "hot_water_electricity": _rounded(energy.electricity_hot_water.value, 10),
        "summer_month": _rounded(summer.electricity.value, 10),
        "efficiency": speech.figure(energy.seasonal_efficiency, 1),
        "boundary": speech.words("words", "boundary"),
        "design_load": _kilowatts(design.heat_loss.total),
        "design_capacity": _kilowatts(design.fit.capacity_at_design),
    }


def _rounded(joules: float, step: float = 100) -> str:
    """Energy to the hundred, or another step of kWh: nobody knows it closer."""
    stepped = step * 3.6e6
    return shown(round(joules / stepped) * stepped, "kWh", 0)


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


def _cost(design: Design, speech: Speech) -> Facts:
    efficiency = speech.figure(design.fit.energy.seasonal_efficiency, 1)
    common = {"efficiency_words": efficiency}
    cost, tariff = design.cost, design.home.tariff
    if cost is None or tariff is None:
        said = speech.words("cost", "no_previous", efficiency=efficiency)
        return {**_EMPTY, **common, "comparison": Ready(said)}
    degree_share = cost.degree.value / cost.space.value if cost.space.value else 0.0
    hundred = 100 * 3.6e6 * cost.price.value
    return {
        **common,
        "rate": _price(tariff, tariff.bands[0].price),
        "standing": None
        if tariff.standing_charge is None
        else shown(tariff.standing_charge, _hundredth(tariff, "day"), 1).replace(".0", ""),
        "mean": _price(tariff, cost.price.value),
        "hundred": shown(hundred, tariff.currency, 2),
        "bands": _bands(tariff, speech),
        "degree": speech.ranged(cost.degree, 0),
        "degree_percent": shown(degree_share, "%", 0),
        "year": _tens(cost.year.value, tariff),
        "year_range": _year_range(cost.year, tariff, speech),
        "comparison": Ready(_comparison(design, cost, speech)),
    }


def _tens(money: float, tariff: Tariff) -> str:
    """A year's cost to the ten: nobody knows it closer."""
    return shown(round(money / 10) * 10, tariff.currency, 0)


def _year_range(year: KeyFigure, tariff: Tariff, speech: Speech) -> str:
    spread = year.uncertainty or 0.0
    low, high = _tens(max(year.value - spread, 0.0), tariff), _tens(year.value + spread, tariff)
    return speech.words("words", "from_to", low=low, high=high)


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


def _comparison(design: Design, cost: RunningCost, speech: Speech) -> str:
    previous = cost.previous
    new = cost.price_per_heat
    efficiency = f"{design.fit.energy.seasonal_efficiency.value:.1f}"
    if previous is None:
        return speech.words("cost", "no_previous", efficiency=efficiency)
    share = new.value / previous.price_per_heat.value - 1
    verdict = "level" if abs(share) <= _LEVEL else "cheaper" if share < 0 else "dearer"
    spread = new.uncertainty or 0.0
    return speech.words(
        "cost",
        "comparison",
        fuel=escaped(previous.name),
        old=previous.price_per_heat.shown(),
        new=new.shown(),
        new_low=shown(max(new.value - spread, 0), new.unit),
        new_high=shown(new.value + spread, new.unit),
        verdict=speech.words("cost", verdict),
        breakeven=f"{previous.break_even_efficiency.value:.1f}",
        expected=efficiency,
    )


def _day_table(design: Design, speech: Speech) -> Ready:
    words, cost = speech.words, design.cost
    costs = {day.outdoor.value: day for day in cost.days} if cost is not None else {}
    rows = []
    for day in design.fit.by_outdoor:
        if day.outdoor.value not in _DAYS:
            continue
        energy = speech.span(day.low.value, day.high.value, "kWh/day", 0).replace("/day", "")
        row = [shown(day.outdoor.value, "°C", 0), energy]
        if costs:
            of_day = costs.get(day.outdoor.value)
            row.append("" if of_day is None else _money_span(of_day.low, of_day.high, speech))
        rows.append(row)
    names = ("outdoor", "energy", "cost") if costs else ("outdoor", "energy")
    heads = [words("tables", f"day_cost_{name}") for name in names]
    return table(words("tables", "day_cost_caption"), heads, rows)


def _money_span(low: KeyFigure, high: KeyFigure, speech: Speech) -> str:
    first, last = (shown(round(end.value, 1), end.unit, 2) for end in (low, high))
    return first if first == last else speech.words("words", "from_to", low=first, high=last)
