"""Charts as SVG, for paper and for the page, from one description.

The description is plain Vega-Lite. One of its pixels is one point on paper, so letters come out
at the size asked for.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Any

from hearthbook.documents.charts import Chart, ChartKind, Series, Zone
from hearthbook.render.fonts import font_folder
from hearthbook.render.styles import FAMILY, PALETTE, SERIES

__all__ = ["ChartSize", "Spec", "chart_specification", "chart_svg"]

_VEGA_LITE = "6.4"
_LONG_NAME = 5  # names longer than this read better with the bars lying down
_DASHES: tuple[list[int], ...] = ([], [6, 3], [2, 2], [8, 3, 2, 3], [4, 4], [1, 3])

Spec = dict[str, Any]


@dataclass(frozen=True)
class ChartSize:
    """How large a chart is drawn: whole width, plot height and letters, in points."""

    width: int = 455
    height: int = 190
    letters: float = 9.0


@lru_cache(maxsize=256)
def chart_svg(chart: Chart, size: ChartSize) -> str:
    """The chart drawn, the same bytes each time."""
    import vl_convert

    _register_fonts()
    svg: str = vl_convert.vegalite_to_svg(chart_specification(chart, size), vl_version=_VEGA_LITE)
    return svg


@cache
def _register_fonts() -> None:
    """Let the converter measure letters with the family they are set in."""
    import vl_convert

    vl_convert.register_font_directory(str(font_folder()))


def chart_specification(chart: Chart, size: ChartSize) -> Spec:
    """The chart as a Vega-Lite description."""
    lying = _lies_down(chart)
    rows = len(chart.x) * (len(chart.series) if chart.kind == "bar" else 1)
    height = round(rows * size.letters * 1.9 + 2 * size.letters) if lying else size.height
    return {
        "$schema": "https://vega.github.io/schema/vega-lite/v6.json",
        "width": size.width,
        "height": height,
        "autosize": {"type": "fit-x", "contains": "padding"},
        "background": "transparent",
        "data": {"values": _rows(chart)},
        "layer": [*_zones(chart, size), *_PLOTS[chart.kind](chart, size), *_marks(chart)],
        "resolve": {"scale": {"color": "independent", "strokeDash": "independent"}},
        "config": _look(size),
    }


def _lies_down(chart: Chart) -> bool:
    """Whether the bars are drawn lying, for the sake of long names."""
    bars = chart.kind in {"bar", "stacked"}
    return bars and any(len(str(entry)) > _LONG_NAME for entry in chart.x)


def _rows(chart: Chart) -> list[Spec]:
    """One row for each entry of each series."""
    rows: list[Spec] = []
    for order, series in enumerate(chart.series):
        for index, entry in enumerate(chart.x):
            row: Spec = {"x": entry, "y": series.values[index], "name": series.name, "o": order}
            if series.low and series.high:
                row |= {"low": series.low[index], "high": series.high[index]}
            rows.append(row)
    return rows


def _lines(chart: Chart, size: ChartSize) -> list[Spec]:
    """Lines, each told apart by colour and dash, over their ranges if they have any."""
    encoding = {
        "x": _x(chart),
        "y": _y(chart),
        "color": _colour(chart, size),
        "strokeDash": _dash(chart, size),
    }
    line = {"mark": {"type": "line", "strokeWidth": 2, "interpolate": "linear"}}
    return [*(_ranges(chart) if chart.has_range else []), {**line, "encoding": encoding}]


def _ranges(chart: Chart) -> list[Spec]:
    """A soft band from low to high."""
    encoding = {
        "x": _x(chart),
        "y": {**_y(chart), "field": "low"},
        "y2": {"field": "high"},
        "color": _colour(chart, None),
    }
    return [{"mark": {"type": "area", "opacity": 0.22}, "encoding": encoding}]


def _bars(chart: Chart, size: ChartSize) -> list[Spec]:
    """Bars, side by side where there are several series."""
    across, up = ("y", "x") if _lies_down(chart) else ("x", "y")
    offset: Spec = {"field": "name", "sort": [series.name for series in chart.series]}
    encoding = {
        across: _names(chart),
        up: _y(chart),
        "color": _colour(chart, size),
    }
    encoding |= {f"{across}Offset": offset} if len(chart.series) > 1 else {}
    bars: list[Spec] = [{"mark": {"type": "bar"}, "encoding": encoding}]
    return bars + (_whiskers(chart, up, encoding) if chart.has_range else [])


def _whiskers(chart: Chart, up: str, bars: Spec) -> list[Spec]:
    """A thin line from low to high over each bar."""
    encoding = {key: part for key, part in bars.items() if key not in {"color", up}}
    encoding |= {up: {**_y(chart), "field": "low"}, f"{up}2": {"field": "high"}}
    mark = {"type": "rule", "color": PALETTE.ink, "strokeWidth": 1.2}
    return [{"mark": mark, "encoding": encoding}]


def _stacks(chart: Chart, size: ChartSize) -> list[Spec]:
    """Bars, one series upon another."""
    across, up = ("y", "x") if _lies_down(chart) else ("x", "y")
    encoding = {
        across: _names(chart),
        up: {**_y(chart), "stack": "zero"},
        "color": _colour(chart, size),
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
    edges = {"y": {**_y(chart), "field": "low"}, "y2": {"field": "high"}}
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
        "encoding": {"y": {**_y(chart), "field": "high"}, "text": {"field": "label"}},
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
    place = {"x": _x(chart), "y": _y(chart)}
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


def _x(chart: Chart) -> Spec:
    """The x channel."""
    channel: Spec = {"field": "x", "axis": {"title": chart.x_axis.title, "grid": False}}
    if chart.is_numeric:
        return {**channel, "type": "quantitative", "scale": {"zero": False, "nice": False}}
    axis = {"title": chart.x_axis.title, "labelAngle": 0, "grid": False}
    return {**channel, "type": "nominal", "sort": None, "axis": axis}


def _names(chart: Chart) -> Spec:
    """The channel that carries the bars' names."""
    title = None if _lies_down(chart) else chart.x_axis.title
    axis = {"title": title, "labelAngle": 0, "grid": False, "ticks": False, "labelPadding": 6}
    scale = {"paddingInner": 0.32, "paddingOuter": 0.16}
    return {"field": "x", "type": "nominal", "sort": None, "axis": axis, "scale": scale}


def _y(chart: Chart) -> Spec:
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


def _colour(chart: Chart, size: ChartSize | None) -> Spec:
    """The colour channel; a legend only where there is something to tell apart."""
    return {**_by_name(chart, size), "scale": _scale(chart.series, list(SERIES))}


def _dash(chart: Chart, size: ChartSize | None) -> Spec:
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


def _look(size: ChartSize) -> Spec:
    """Letters, lines and grid."""
    letters: Spec = {
        "labelFont": FAMILY,
        "titleFont": FAMILY,
        "labelFontSize": size.letters,
        "titleFontSize": size.letters,
        "labelColor": PALETTE.ink,
        "titleColor": PALETTE.ink,
    }
    return {
        "font": FAMILY,
        "padding": 4,
        "view": {"stroke": None},
        "axis": {
            **letters,
            "titleFontWeight": 600,
            "titlePadding": size.letters * 0.8,
            "gridColor": PALETTE.rule,
            "gridWidth": 0.6,
            "domainColor": PALETTE.quiet,
            "tickColor": PALETTE.quiet,
            "labelLimit": size.width * 0.4,
            "labelOverlap": "parity",
            "labelSeparation": size.letters * 0.4,
        },
        "legend": {
            **letters,
            "orient": "top",
            "title": None,
            "symbolStrokeWidth": 3,
            "symbolSize": size.letters * 14,
            "labelLimit": size.width,
            "columnPadding": size.letters * 1.4,
        },
        "text": {"font": FAMILY, "fontSize": size.letters, "color": PALETTE.ink},
    }


_PLOTS: dict[ChartKind, Callable[[Chart, ChartSize], list[Spec]]] = {
    "line": _lines,
    "band": _lines,
    "bar": _bars,
    "stacked": _stacks,
}
