"""How a chart's data is laid along its axes, and how its series are told apart."""

from __future__ import annotations

import json
from typing import Any

from hearthbook.documents.charts import Axis, Chart, Series
from hearthbook.render.chart_look import ChartSize
from hearthbook.render.styles import SERIES

__all__ = [
    "Spec",
    "colour_channel",
    "dash_channel",
    "lies_down",
    "names_channel",
    "places_on",
    "x_channel",
    "y_channel",
]

_LONG_NAME = 5  # names longer than this read better with the bars lying down
_DASHES: tuple[list[int], ...] = ([], [6, 3], [2, 2], [8, 3, 2, 3], [4, 4], [1, 3])

Spec = dict[str, Any]


def lies_down(chart: Chart) -> bool:
    """Whether the bars are drawn lying, for the sake of long names."""
    bars = chart.kind in {"bar", "stacked"}
    return bars and any(len(str(entry)) > _LONG_NAME for entry in chart.x)


def x_channel(chart: Chart) -> Spec:
    """The x channel."""
    named = places_on(chart.x_axis)
    channel: Spec = {"field": "x", "axis": {"title": chart.x_axis.title, "grid": False, **named}}
    if chart.is_numeric:
        return {**channel, "type": "quantitative", "scale": {"zero": False, "nice": False}}
    axis = {"title": chart.x_axis.title, "labelAngle": 0, "grid": False}
    return {**channel, "type": "nominal", "sort": None, "axis": axis}


def places_on(axis: Axis) -> Spec:
    """What an axis shows in place of its numbers; nothing where it shows them."""
    if not axis.places:
        return {}
    said = json.dumps({f"{place:g}": name for place, name in axis.places}, ensure_ascii=False)
    values = [place for place, _ in axis.places]
    return {"values": values, "labelExpr": f"({said})[toString(datum.value)]"}


def names_channel(chart: Chart) -> Spec:
    """The channel that carries the bars' names."""
    title = None if lies_down(chart) else chart.x_axis.title
    axis = {"title": title, "labelAngle": 0, "grid": False, "ticks": False, "labelPadding": 6}
    scale = {"paddingInner": 0.32, "paddingOuter": 0.16}
    return {"field": "x", "type": "nominal", "sort": None, "axis": axis, "scale": scale}


def y_channel(chart: Chart) -> Spec:
    """The y channel; bars start at nothing, lines only where that wastes little paper."""
    values = [value for series in chart.series for value in series.values if value is not None]
    values += [value for series in chart.series for value in series.low if value is not None]
    zero = chart.kind in {"bar", "stacked"} or 0 <= min(values) < 0.35 * max(values)
    return {
        "field": "y",
        "type": "quantitative",
        "scale": {"zero": zero},
        "axis": {"title": chart.y_axis.title, "tickCount": 6, "domain": False, "ticks": False},
    }


def colour_channel(chart: Chart, size: ChartSize | None) -> Spec:
    """The colour channel; a legend only where there is something to tell apart."""
    return {**_by_name(chart, size), "scale": _scale(chart.series, list(SERIES))}


def dash_channel(chart: Chart, size: ChartSize | None) -> Spec:
    """The dash channel, so that lines are told apart without colour."""
    return {**_by_name(chart, size), "scale": _scale(chart.series, list(_DASHES))}


def _by_name(chart: Chart, size: ChartSize | None) -> Spec:
    """A channel that goes by the series."""
    channel: Spec = {"field": "name", "type": "nominal"}
    if len(chart.series) == 1 or size is None:
        return {**channel, "legend": None}
    longest = max(len(series.name) for series in chart.series)
    fit = max(1, int(size.width / (size.letters * (longest * 0.55 + 4))))
    return {**channel, "legend": {"columns": min(fit, len(chart.series))}}


def _scale(series: tuple[Series, ...], choices: list[Any]) -> Spec:
    """A scale in the order of the series."""
    count = len(series)
    return {
        "domain": [one.name for one in series],
        "range": [choices[index % len(choices)] for index in range(count)],
    }
