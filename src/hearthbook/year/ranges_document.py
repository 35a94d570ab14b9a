"""The ranges of a home's year, as a chapter."""

from __future__ import annotations

from hearthbook.documents.blocks import Cell, Column, Figures, Section, Table, Text
from hearthbook.documents.charts import Axis, Chart, Series
from hearthbook.units import to_trade
from hearthbook.year.bands import Band
from hearthbook.year.ranges import YearRanges

__all__ = ["ranges_section"]

_MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September",
           "October", "November", "December")  # fmt: skip
_NAMED = 0.02  # share of the spread, below which a source is not worth a row


def ranges_section(ranges: YearRanges) -> Section:
    """The chapter on the ranges of a home's year."""
    years = "one year" if ranges.weathers == 1 else f"{ranges.weathers} years"
    return Section(
        "Ranges",
        "ranges",
        (
            Text(
                f"{ranges.draws} homes that the record may mean were run through {years} of "
                f"weather (seed {ranges.seed}). One in ten came out below the low end, one in ten "
                "above the high end."
            ),
            _whole(ranges),
            _months(ranges),
            *((_outdoor(ranges),) if ranges.by_outdoor else ()),
            _sources(ranges),
            Section("What was taken as uncertain", "uncertain", (Figures(ranges.spreads.figures),)),
        ),
    )


def _row(name: str, band: Band) -> tuple[Cell, ...]:
    return name, band.low, band.middle, band.high


def _columns(first: str) -> tuple[Column, ...]:
    ends = ("Low end", "Middle", "High end")
    return (Column(first, share=2), *(Column(end, numeric=True) for end in ends))


def _whole(ranges: YearRanges) -> Table:
    rows = [
        _row("Heat for rooms and hot water", ranges.heat),
        _row("Electricity, everything counted", ranges.electricity),
        *([] if ranges.cost is None else [_row("Cost of it", ranges.cost)]),
        _row("Seasonal efficiency, all counted", ranges.efficiency),
        _row("Starts", ranges.starts),
        _row("Defrosts", ranges.defrosts),
    ]
    return Table("The year", _columns("Over the year"), tuple(rows))


def _months(ranges: YearRanges) -> Table:
    rows = tuple(_row(_MONTHS[one.month - 1], one.electricity) for one in ranges.months)
    return Table("Electricity by month", _columns("Month"), rows)


def _outdoor(ranges: YearRanges) -> Chart:
    found = ranges.by_outdoor

    def values(end: str) -> tuple[float, ...]:
        return tuple(to_trade(getattr(one.electricity, end).value, "kWh/day") for one in found)

    coldest, mildest = found[0], found[-1]
    return Chart(
        kind="band",
        title="Electricity of a day by outdoor temperature",
        sentence=f"A day of {coldest.outdoor} °C takes {coldest.electricity.low.shown()} to "
        f"{coldest.electricity.high.shown()}, one of {mildest.outdoor} °C "
        f"{mildest.electricity.low.shown()} to {mildest.electricity.high.shown()}.",
        x_axis=Axis("mean outdoor temperature of the day", "°C"),
        y_axis=Axis("electricity", "kWh/day", 1),
        x=tuple(float(one.outdoor) for one in found),
        series=(Series("electricity", values("middle"), values("low"), values("high")),),
    )


def _sources(ranges: YearRanges) -> Section:
    rows: list[tuple[Cell, ...]] = []
    for one in ranges.sources:
        if one.share.value < _NAMED:
            continue
        way = "rises with it" if one.is_more_with_more else "falls with it"
        rows.append(
            (one.label, one.share, "differs from year to year" if one.name == "weather" else way)
        )
    blocks = (
        Text(
            "The share of the spread of the year's electricity that goes with each uncertain "
            "thing. What is left goes with several together."
        ),
        Table("Largest sources of the spread",
              (Column("What", share=3), Column("Share", numeric=True), Column("Electricity")),
              tuple(rows)),
    )  # fmt: skip
    few = (Text("There are too few draws to say what spreads the result most."),)
    return Section("What spreads it most", "sources", blocks if rows else few)
