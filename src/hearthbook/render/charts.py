"""Charts as SVG, for paper and for the page, from one description.

The description is plain Vega-Lite. One of its pixels is one point on paper, so letters come out
at the size asked for.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache

from hearthbook.documents.charts import Chart, ChartKind, Zone
from hearthbook.documents.inline import capitalised
from hearthbook.render.chart_axes import (
    Spec,
    colour_channel,
    dash_channel,
    lies_down,
    names_channel,
    x_channel,
    y_channel,
)
from hearthbook.render.chart_drawer import draw
from hearthbook.render.chart_look import ChartSize, look
from hearthbook.render.heat_map import heat_layers
from hearthbook.render.styles import PALETTE

__all__ = ["chart_specification", "chart_svg"]

_FEW = 200  # entries, above which lines are drawn thinner


@lru_cache(maxsize=256)
def chart_svg(chart: Chart, size: ChartSize) -> str:
    """The chart drawn, the same bytes each time."""
    return draw(chart_specification(chart, size))


def chart_specification(chart: Chart, size: ChartSize) -> Spec:
    """The chart as a Vega-Lite description."""
    lying = lies_down(chart)
    rows = len(chart.x) * (len(chart.series) if chart.kind == "bar" else 1)
    height = round(rows * size.letters * 1.9 + 2 * size.letters) if lying else size.height
    return {
        "$schema": "https://vega.github.io/schema/vega-lite/v6.json",
        "width": size.width,
        "height": height,
        "autosize": {"type": "fit-x", "contains": "padding"},
        "background": "transparent",
        "data": {"values": [] if chart.kind == "heat" else _rows(chart)},
        "layer": [*_zones(chart, size), *_PLOTS[chart.kind](chart, size), *_marks(chart)],
        "resolve": {"scale": {"color": "independent", "strokeDash": "independent"}},
        "config": look(size),
    }


def _rows(chart: Chart) -> list[Spec]:
    """One row for each entry of each series."""
    rows: list[Spec] = []
    for order, series in enumerate(chart.series):
        for index, entry in enumerate(chart.x):
            name = capitalised(entry) if isinstance(entry, str) else entry
            row: Spec = {"x": name, "y": series.values[index], "name": series.name, "o": order}
            if series.low and series.high:
                row |= {"low": series.low[index], "high": series.high[index]}
            rows.append(row)
    return rows


def _lines(chart: Chart, size: ChartSize) -> list[Spec]:
    """Lines, each told apart by colour and dash, over their ranges if they have any."""
    encoding = {
        "x": x_channel(chart),
        "y": y_channel(chart),
        "color": colour_channel(chart, size),
        "strokeDash": dash_channel(chart, size),
    }
    width = 2 if len(chart.x) <= _FEW else 1.2
    mark = {"type": "line", "strokeWidth": width, "interpolate": "linear", "aria": False}
    line = {"mark": mark}  # read out by its first value alone, which may be a gap
    return [*(_ranges(chart) if chart.has_range else []), {**line, "encoding": encoding}]


def _ranges(chart: Chart) -> list[Spec]:
    """A soft band from low to high."""
    encoding = {
        "x": x_channel(chart),
        "y": {**y_channel(chart), "field": "low"},
        "y2": {"field": "high"},
        "color": colour_channel(chart, None),
    }
    area = {"type": "area", "opacity": 0.22, "aria": False}  # else a gap is read out as a number
    return [{"mark": area, "encoding": encoding}]


def _bars(chart: Chart, size: ChartSize) -> list[Spec]:
    """Bars, side by side where there are several series."""
    across, up = ("y", "x") if lies_down(chart) else ("x", "y")
    offset: Spec = {"field": "name", "sort": [series.name for series in chart.series]}
    encoding = {
        across: names_channel(chart),
        up: y_channel(chart),
        "color": colour_channel(chart, size),
    }
    encoding |= {f"{across}Offset": offset} if len(chart.series) > 1 else {}
    bars: list[Spec] = [{"mark": {"type": "bar"}, "encoding": encoding}]
    return bars + (_whiskers(chart, up, encoding) if chart.has_range else [])


def _whiskers(chart: Chart, up: str, bars: Spec) -> list[Spec]:
    """A thin line from low to high over each bar."""
    encoding = {key: part for key, part in bars.items() if key not in {"color", up}}
    encoding |= {up: {**y_channel(chart), "field": "low"}, f"{up}2": {"field": "high"}}
    mark = {"type": "rule", "color": PALETTE.ink, "strokeWidth": 1.2, "aria": False}
    return [{"mark": mark, "encoding": encoding}]


def _stacks(chart: Chart, size: ChartSize) -> list[Spec]:
    """Bars, one series upon another."""
    across, up = ("y", "x") if lies_down(chart) else ("x", "y")
    encoding = {
        across: names_channel(chart),
        up: {**y_channel(chart), "stack": "zero"},
        "color": colour_channel(chart, size),
        "order": {"field": "o", "type": "quantitative"},
    }
    return [{"mark": {"type": "bar"}, "encoding": encoding}]


def _zones(chart: Chart, size: ChartSize) -> list[Spec]:
    """Stretches of the y axis with their meaning, behind everything else."""
    if not chart.zones:
        return []
    data = {
        "values": [
            {
                "low": zone.low,
                "high": zone.high,
                "label": zone.label,
                "odd": index % 2,
                "right": not _is_crossed(chart, zone),
            }
            for index, zone in enumerate(chart.zones)
        ]
    }
    edges = {"y": {**y_channel(chart), "field": "low"}, "y2": {"field": "high"}}
    shade: Spec = {
        "field": "odd",
        "type": "nominal",
        "legend": None,
        "scale": {"range": [PALETTE.wash, PALETTE.accent_wash]},
    }
    fill = {"mark": {"type": "rect"}, "encoding": {**edges, "color": shade}}
    return [
        {"data": data, **fill},
        {"data": data, **_zone_words(chart, size, right=True)},
        {"data": data, **_zone_words(chart, size, right=False)},
    ]


def _zone_words(chart: Chart, size: ChartSize, *, right: bool) -> Spec:
    """The meanings of the zones, at the side where no line passes through them."""
    mark = {
        "type": "text",
        "align": "right" if right else "left",
        "baseline": "top",
        "dy": size.letters * 0.3,
        "x": {"expr": "width - 4"} if right else 4,
        "color": PALETTE.quiet,
    }
    return {
        "transform": [{"filter": f"datum.right == {'true' if right else 'false'}"}],
        "mark": mark,
        "encoding": {"y": {**y_channel(chart), "field": "high"}, "text": {"field": "label"}},
    }


def _is_crossed(chart: Chart, zone: Zone) -> bool:
    """Whether a line passes through a zone near its right end."""
    start = len(chart.x) * 6 // 10
    late = (value for series in chart.series for value in series.values[start:])
    return any(value is not None and zone.low <= value <= zone.high for value in late)


def _marks(chart: Chart) -> list[Spec]:
    """Named points."""
    if not chart.marks:
        return []
    data = {"values": [{"x": mark.x, "y": mark.y, "label": mark.label} for mark in chart.marks]}
    place = {"x": x_channel(chart), "y": y_channel(chart)}
    dot = {"type": "point", "filled": True, "size": 42, "color": PALETTE.ink, "opacity": 1}
    middle = (min(chart.x) + max(chart.x)) / 2 if chart.is_numeric else 0  # type: ignore[operator]
    words: list[Spec] = [
        {
            "data": data,
            "transform": [{"filter": f"datum.x {'<=' if left else '>'} {middle}"}],
            "mark": {**_beside(left=left), **look},
            "encoding": {**place, "text": {"field": "label"}},
        }
        for left in (True, False)
        for look in ({"stroke": PALETTE.paper, "strokeWidth": 3}, {"color": PALETTE.ink})
    ]
    return [{"data": data, "mark": dot, "encoding": place}, *words]


def _beside(*, left: bool) -> Spec:
    """Words above a point, towards the middle of the chart."""
    place = {"align": "left", "dx": 5} if left else {"align": "right", "dx": -5}
    return {"type": "text", "baseline": "bottom", "dy": -4, "fontWeight": 600, **place}


_PLOTS: dict[ChartKind, Callable[[Chart, ChartSize], list[Spec]]] = {
    "line": _lines,
    "band": _lines,
    "bar": _bars,
    "stacked": _stacks,
    "heat": heat_layers,
}
