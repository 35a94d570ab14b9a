"""The simulated year in the engineer's report, beside the estimate that can be checked by hand."""

from __future__ import annotations

from collections.abc import Iterator

from hearthbook.documents.blocks import Block, Cell, Column, Figures, Section, Table, Text
from hearthbook.documents.figures import Basis, KeyFigure
from hearthbook.documents.inline import escaped
from hearthbook.handover.basis import PackBasis
from hearthbook.handover.wording import sentence
from hearthbook.year.assumed_table import assumptions_table
from hearthbook.year.bands import Band
from hearthbook.year.model import year_model
from hearthbook.year.pack_figures import PackYear
from hearthbook.year.weather_of_home import weather_figures

__all__ = ["year_section"]

_HOW = (
    "The household is told the simulated figures. The figures by hours of each outdoor temperature "
    "stand beside them because they can be followed by hand. The two differ where the estimate "
    "leaves something out: rooms kept warmer than wanted by open doors and by valves that only "
    "limit, heating in mild weather and on cool nights, starts and cycling, defrosts one by one, "
    "the cylinder by its layers, and sun and gains hour by hour."
)
_NIGHTS = (
    "Much of what a colder night saves is warmth above what is wanted. Where rooms are too warm "
    "all day, a lower curve or valves set lower save the same without a cold morning."
)


def year_section(basis: PackBasis) -> Section:
    """The simulated year, or why there is none."""
    return Section("The simulated year", "simulated-year", tuple(_blocks(basis)))


def _blocks(basis: PackBasis) -> Iterator[Block]:
    year = basis.year
    if not year.is_simulated:
        why = sentence(basis.why_not or "nobody asked for it").rstrip(".")
        told = "The household is told the figures by hours of each outdoor temperature."
        yield Text(escaped(f"Open: this home was not simulated. {why}. {told}"))
        return
    (years,) = year.heat.middle.working.inputs
    yield Text(escaped(f"{years.shown()} {years.working.formula}; {years.working.source}. "
                       f"{years.working.note.capitalize()}. {_HOW}"))  # fmt: skip
    yield _beside(basis)
    yield _rooms(basis)
    yield from _warmth(year)
    yield _days(basis)
    yield _nights(year)
    yield Text(_NIGHTS)
    yield Figures((*year.lost, *year.warm_after, *year.returns))
    yield _assumed(basis)


def _numbers(*titles: str) -> tuple[Column, ...]:
    first, *rest = titles
    return (Column(first, share=2), *(Column(title, numeric=True) for title in rest))


def _beside(basis: PackBasis) -> Table:
    energy, cost, year = basis.design.fit.energy, basis.design.cost, basis.year
    pairs: list[tuple[str, KeyFigure | None, Band | None]] = [
        ("Electricity of a year", energy.electricity_per_year, year.electricity),
        ("of it for hot water", energy.electricity_hot_water, year.hot_water),
        ("of it for standing by", energy.standby_per_year, year.standby),
        ("Heat of a year", energy.heat_per_year, year.heat),
        ("Seasonal efficiency", energy.seasonal_efficiency, year.efficiency),
        ("Cost of a year", None if cost is None else cost.year, year.cost),
        ("Rooms 1 K warmer", energy.electricity_per_kelvin, year.degree),
        ("Cost of rooms 1 K warmer", None if cost is None else cost.degree, year.degree_cost),
        ("Starts in a day with heating", None, year.starts),
        ("Defrosts in a year", None, year.defrosts),
    ]
    rows = tuple(
        (name, "" if figure is None else figure, reach.low, reach.middle, reach.high)
        for name, figure, reach in pairs
        if reach is not None
    )
    heads = _numbers("What", "By hours", "P10", "P50", "P90")
    return Table("The year by hours, and simulated", heads, rows)


def _rooms(basis: PackBasis) -> Table:
    loss = basis.design.heat_loss
    rows: tuple[tuple[Cell, ...], ...] = tuple(
        (escaped(room.room.name), room.temperature, mean)
        for room, mean in zip(loss.rooms, basis.year.rooms, strict=True)
    )
    heads = _numbers("Room", "Wanted", "Mean")
    return Table("Rooms in the coldest six weeks, valves as recorded", heads, rows)


def _warmth(year: PackYear) -> Iterator[Figures]:
    if year.above_wanted is not None and year.due_to_warmth is not None:
        yield Figures((year.above_wanted, year.due_to_warmth))


def _days(basis: PackBasis) -> Table:
    by_hours = {day.outdoor.shown(): day.electricity for day in basis.design.fit.by_outdoor}
    rows: tuple[tuple[Cell, ...], ...] = tuple(
        (
            day.name,
            by_hours.get(day.name, ""),
            day.electricity.low,
            day.electricity.high,
            "" if day.flow is None else day.flow,
            day.run_share,
            day.defrosts.middle,
            day.defrosts.high,
            day.water.high,
        )
        for day in basis.year.days
    )
    heads = _numbers("Outdoor", "By hours", "P10", "P90", "Flow", "Runs", "Defrosts, P50", "P90",
                     "Water, P90")  # fmt: skip
    return Table("Days by mean outdoor temperature", heads, rows)


def _nights(year: PackYear) -> Table:
    rows: tuple[tuple[Cell, ...], ...] = tuple(
        (
            f"{night.depth:.0f} K for {night.hours:.0f} h",
            night.electricity.low,
            night.electricity.high,
            "" if night.cost is None else night.cost.middle,
            night.coldest,
            night.recovery,
            night.recovery_cold,
        )
        for night in year.nights
    )
    heads = _numbers("Colder by", "Electricity, P10", "P90", "Cost, P50", "Coldest room",
                     "Warm after", "on cold mornings")  # fmt: skip
    return Table("Colder nights against steady ones, in a year", heads, rows)


def _assumed(basis: PackBasis) -> Table:
    found = (*year_model(basis.design).assumptions, *weather_figures(basis.design.home))
    once = {one.name: one for one in found if one.basis is Basis.ASSUMED}
    return assumptions_table(tuple(once.values()))
