"""The table behind a chart."""

from __future__ import annotations

from hearthbook.documents.blocks import Column, Table
from hearthbook.documents.charts import Axis, Chart, Series
from hearthbook.documents.inline import escaped

__all__ = ["table_of", "turned"]


def table_of(chart: Chart, *, low: str, high: str, most: int = 13) -> Table:
    """The numbers of a chart as a table.

    Args:
        chart: what is plotted; where it has a coarse form, the table holds that.
        low: the word for the lower edge of a range.
        high: the word for its upper edge.
        most: rows to print; a longer numeric axis is thinned evenly, keeping both ends.
    """
    chart = chart.coarse or chart
    columns = [Column(escaped(chart.x_axis.title), numeric=chart.is_numeric)]
    for series in chart.series:
        columns += _columns(series, chart.y_axis, low, high)
    rows = tuple(_row(chart, index) for index in _kept(chart, most))
    return Table(escaped(chart.title), tuple(columns), rows)


def turned(table: Table) -> Table:
    """The same table with its rows as columns.

    Assumes:
        The cells are strings, as in the table of a chart.
    """
    first, *others = table.columns
    heads = tuple(Column(str(row[0]), numeric=True) for row in table.rows)
    rows = tuple(
        (column.title, *(row[place] for row in table.rows))
        for place, column in enumerate(others, start=1)
    )
    return Table(table.caption, (Column(first.title), *heads), rows)


def _columns(series: Series, axis: Axis, low: str, high: str) -> list[Column]:
    """The heads for one series: its value, and the edges of its range."""
    unit = f" ({axis.unit})" if axis.unit else ""
    name = escaped(series.name)
    columns = [Column(f"{name}{unit}", numeric=True)]
    if series.low and series.high:
        columns += [Column(f"{name}, {word}{unit}", numeric=True) for word in (low, high)]
    return columns


def _kept(chart: Chart, most: int) -> list[int]:
    """Which entries are printed."""
    count = len(chart.x)
    if not chart.is_numeric or count <= most:
        return list(range(count))
    step = (count - 1) / (most - 1)
    return sorted({round(index * step) for index in range(most)})


def _row(chart: Chart, index: int) -> tuple[str, ...]:
    """One row: the entry, then each series at it."""
    entry = chart.x[index]
    cells = [
        escaped(entry) if isinstance(entry, str) else _number(entry, chart.x_axis.decimals),
    ]
    for series in chart.series:
        edges = (series.low, series.high) if series.low and series.high else ()
        cells += [
            _number(values[index], chart.y_axis.decimals) for values in (series.values, *edges)
        ]
    return tuple(cells)


def _number(value: float | None, decimals: int) -> str:
    """A number with its digits; an empty cell where there is none."""
    if value is None:
        return ""
    return f"{round(value, decimals) + 0.0:,.{decimals}f}".replace("-", "−")
