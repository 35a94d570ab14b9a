"""The simulated year as a document."""

from __future__ import annotations

from collections.abc import Iterator

from hearthbook.documents.blocks import (
    Block,
    Cell,
    Column,
    Document,
    Figures,
    Section,
    Table,
    Text,
)
from hearthbook.documents.charts import Chart
from hearthbook.documents.figures import KeyFigure, assumptions_in
from hearthbook.documents.inline import escaped
from hearthbook.units import shown, to_trade
from hearthbook.year.answers import YearAnswers
from hearthbook.year.assumed_table import assumptions_table
from hearthbook.year.by_month import Month
from hearthbook.year.charts import YearCharts
from hearthbook.year.energy import Energy
from hearthbook.year.home_year import HomeYear
from hearthbook.year.ranges import YearRanges
from hearthbook.year.ranges_document import ranges_section

__all__ = ["year_document"]

_PARTS = (
    "Compressor for the rooms",
    "Compressor for hot water",
    "Compressor while defrosting",
    "Pump and fans of emitters",
    "Standby and crankcase heat",
    "Backup heater",
    "Immersion heater",
)
_PART_HEADS = ("Rooms", "Hot water", "Defrost", "Pump", "Standby", "Backup", "Immersion")


def year_document(
    year: HomeYear,
    answers: YearAnswers,
    charts: YearCharts | None = None,
    ranges: YearRanges | None = None,
) -> Document:
    """What a home's year says, with or without pictures and ranges.

    Args:
        year: as it was run.
        answers: what it says.
        charts: pictures of it.
        ranges: what else it may be, by the draws of many years.
    """
    home = year.model.design.home
    return Document(
        title=f"The simulated year of {home.name}",
        subtitle=f"{home.reference}, revision {home.revision}: calculated, not measured",
        kind="report",
        home=home.name,
        issued=home.issued,
        blocks=(
            _run(year, answers),
            _headline(answers),
            _months(answers),
            _outdoors(answers),
            *_rooms(answers),
            _life(answers),
            *((ranges_section(ranges),) if ranges else ()),
            *_pictures(charts),
            *_assumed(answers),
        ),
        revision=str(home.revision),
    )


def _run(year: HomeYear, answers: YearAnswers) -> Section:
    standing, weather = answers.standing, year.weather
    measured = " It was not measured." if weather.is_generated else ""
    said = (
        f"The home as recorded, {standing.days:,.0f} days in steps of one minute. Weather: "
        f"{weather.source}.{measured}"
    )
    if standing.years > 1:
        said += f" Sums are means of its {standing.years:.0f} years."
    if not standing.is_whole:
        said += " It is no whole year, so sums are those of these days."
    balance = f"Heat and water balance to 1 part in {standing.balance.shown()}."
    blocks = (Text(escaped(said)), Text(balance))
    return Section("What was run", "run", blocks)


def _headline(answers: YearAnswers) -> Section:
    whole, efficiency = answers.whole, answers.efficiency
    figures = _known(
        whole.heat_rooms,
        whole.heat_hot_water,
        whole.electricity.total,
        whole.cost,
        efficiency.heat_pump,
        efficiency.with_heaters,
        efficiency.all_counted,
    )
    blocks: list[Block] = list(_ranged(answers, figures))
    rows = tuple(
        (name, part, _share(part, whole))
        for name, part in zip(
            (*_PARTS, "All"), (*whole.electricity.parts, whole.electricity.total), strict=True
        )
    )
    columns = (Column("Part", share=3), *_numbers("Electricity", "Share"))
    blocks.append(Table("Electricity by part", columns, rows, last_is_total=True))
    return Section("The year at a glance", "glance", tuple(blocks))


def _share(part: KeyFigure, whole: Energy) -> str:
    total = whole.electricity.total.value
    return shown(part.value / total if total else 0.0, "%")


def _ranged(answers: YearAnswers, figures: tuple[KeyFigure, ...]) -> Iterator[Block]:
    """Figures one under another; those with a range in a table of their own."""
    plain = tuple(figure for figure in figures if answers.range_of(figure) is None)
    if plain:
        yield Figures(plain)
    rows: list[tuple[Cell, ...]] = []
    for figure in figures:
        ends = answers.range_of(figure)
        if ends is not None:
            said = (shown(one, figure.unit, figure.decimals) for one in ends)
            rows.append((escaped(figure.label), figure, *said))
    if rows:
        columns = (
            Column("Calculated", share=3),
            *_numbers("As recorded", "1 in 10 below", "Middle", "9 in 10 below"),
        )
        yield Table("With a range", columns, tuple(rows))


def _months(answers: YearAnswers) -> Section:
    months = answers.months
    total = _month_row("All", None, answers.whole)
    rows = (*(_month_row(one.name, one.outdoor, one.energy) for one in months), total)
    heads = ("Outdoor", "Heat, rooms", "Heat, hot water", "Electricity", "Cost")
    kept = heads if answers.whole.cost else heads[:-1]
    columns = (Column("Month", share=1.4), *_numbers(*kept))
    by_part = _parts_by_month(months, answers.whole)
    return Section(
        "By month",
        "months",
        (Table("Heat, electricity and cost by month", columns, rows, last_is_total=True), by_part),
    )


def _month_row(name: str, outdoor: KeyFigure | None, energy: Energy) -> tuple[Cell, ...]:
    cost: tuple[Cell, ...] = (energy.cost,) if energy.cost else ()
    heat = (energy.heat_rooms, energy.heat_hot_water)
    return (name, outdoor or "", *heat, energy.electricity.total, *cost)


def _parts_by_month(months: tuple[Month, ...], whole: Energy) -> Table:
    """Electricity by month and part; parts that took nothing are left out."""
    kept = [place for place, part in enumerate(whole.electricity.parts) if part.value > 0.0]
    named = [(month.name, month.energy) for month in months] + [("All", whole)]
    rows = tuple(
        (name, *(_kwh(energy.electricity.parts[place]) for place in kept)) for name, energy in named
    )
    columns = (Column("Month", share=1.4), *_numbers(*(_PART_HEADS[place] for place in kept)))
    return Table("Electricity by month and part, in kWh", columns, rows, last_is_total=True)


def _kwh(figure: KeyFigure) -> str:
    return f"{to_trade(figure.value, 'kWh'):,.0f}"


def _outdoors(answers: YearAnswers) -> Section:
    rows = tuple(
        (
            group.name,
            group.hours,
            group.electricity,
            group.flow or "no heating",
            group.run_share,
            group.defrosts,
            group.meltwater,
        )
        for group in answers.by_outdoor
    )
    columns = (
        Column("Outdoor", share=1.3),
        *_numbers("Hours", "Electricity", "Flow", "Runs", "Defrosts", "Meltwater"),
    )
    return Section(
        "What is normal at each outdoor temperature",
        "outdoor",
        (
            Table("By outdoor temperature of the quarter-hour", columns, rows),
            Text(
                "Flow: mean while heating. Runs: share of the time the compressor runs. The "
                "coldest hours are few and mostly at night, when quiet hours or a colder stretch "
                "hold the unit back, and the controls follow a mean of the hours before: there "
                "the flow may stand below that of milder degrees."
            ),
        ),
    )


def _rooms(answers: YearAnswers) -> Iterator[Section]:
    if not answers.rooms:
        return
    rows = tuple(
        (
            escaped(room.name),
            room.wanted,
            room.mean,
            room.coldest,
            room.share_below,
            room.share_above,
        )
        for room in answers.rooms
    )
    columns = (
        Column("Room", share=2),
        *_numbers("Wanted", "Mean", "Coldest", "Below −0.5 K", "Above +2 K"),
    )
    yield Section(
        "Rooms in the heating season",
        "rooms",
        (
            Table("Temperatures, and shares of the time away from wanted", columns, rows),
            Text(
                "A thermostatic head holds what it is set to, not what is wanted: a room that is "
                "far above has a head set too high, no head, or warmth that comes through doors, "
                "stairs and windows."
            ),
        ),
    )


def _life(answers: YearAnswers) -> Section:
    life = answers.life
    steady, frost, taps = life.steady, life.frost, life.taps
    return Section(
        "The unit's life",
        "unit",
        (
            Figures(
                _known(
                    life.starts,
                    life.starts_a_day,
                    life.run_mean,
                    life.run_shortest,
                    life.run_longest,
                    life.run_share,
                    steady.share_of_hours if steady else None,
                    steady.below if steady else None,
                )
            ),
            Figures(
                _known(
                    frost.defrosts,
                    frost.length,
                    frost.water,
                    frost.meltwater,
                    frost.condensate,
                    answers.whole.heat_defrost,
                )
            ),
            Figures(
                _known(
                    life.backup_time,
                    life.low_flow_time,
                    taps.drawn if taps else None,
                    taps.short if taps else None,
                )
            ),
        ),
    )


def _pictures(charts: YearCharts | None) -> Iterator[Section]:
    if charts is None:
        return

    def of(named: tuple[tuple[str, Chart], ...]) -> tuple[Block, ...]:
        return tuple(chart for _, chart in named)

    yield Section("The year in hours", "hours", (charts.hours,))
    yield Section("A cold and a mild week", "weeks", of(charts.weeks))
    if charts.defrost:
        yield Section("A defrost", "defrost", of(charts.defrost))


def _assumed(answers: YearAnswers) -> Iterator[Section]:
    table = assumptions_table(assumptions_in(answers.standing))
    if table.rows:
        said = Text("What the design assumed stands in the design itself.")
        yield Section("Assumptions", "assumptions", (table, said))


def _known(*figures: KeyFigure | None) -> tuple[KeyFigure, ...]:
    return tuple(figure for figure in figures if figure is not None)


def _numbers(*titles: str) -> tuple[Column, ...]:
    return tuple(Column(title, numeric=True) for title in titles)
