"""A heat map: one picture of coloured cells under axes, and a legend of its colours.

The cells are a small picture, not a drawing of each: a year of hours has 8,760 of them.
"""

from __future__ import annotations

import base64
import struct
import zlib

import numpy as np
from numpy.typing import NDArray

from hearthbook.documents.charts import Chart
from hearthbook.render.chart_axes import Spec, places_on, x_channel
from hearthbook.render.chart_look import ChartSize
from hearthbook.render.styles import PALETTE

__all__ = ["heat_layers"]

_RAMP = (PALETTE.accent_wash, "#7db3cc", PALETTE.accent, "#0b2430")  # lightness falls evenly
_SHADES = 128
_CELL = (3, 12)  # dots across and up for each cell, so that enlarging it blurs no edge
_DOTS = 1600  # across at most


def heat_layers(chart: Chart, size: ChartSize) -> list[Spec]:
    """The cells, and unseen points that set the axes and the legend.

    Args:
        chart: of the kind `heat`.
        size: it is drawn at.
    """
    cells = np.array([series.values for series in chart.series], dtype=float)
    low, high = _limits(cells)
    first, last = float(chart.x[0]), float(chart.x[-1]) + 1.0
    rows = len(chart.series)
    corners = [{"x": first, "y": 0.0, "v": low}, {"x": last, "y": float(rows), "v": high}]
    picture: Spec = {
        "type": "image",
        "url": _picture(cells, low, high),
        "aspect": False,
        "align": "left",
        "baseline": "top",
        "x": 0,
        "y": 0,
        "width": {"expr": "width"},
        "height": {"expr": "height"},
    }
    encoding = {"x": x_channel(chart), "y": _rows_channel(chart), "color": _legend(chart, size)}
    unseen = {"type": "point", "opacity": 0}
    return [
        {"data": {"values": [{}]}, "mark": picture},
        {"data": {"values": corners}, "mark": unseen, "encoding": encoding},
    ]


def _limits(cells: NDArray[np.float64]) -> tuple[float, float]:
    """What the lightest and the darkest colour stand for."""
    known = cells[np.isfinite(cells)]
    if not known.size:
        return 0.0, 1.0
    low, high = min(0.0, float(known.min())), float(known.max())
    return low, high if high > low else low + 1.0


def _rows_channel(chart: Chart) -> Spec:
    axis = {
        "title": chart.y_axis.title,
        "grid": False,
        "domain": False,
        "ticks": False,
        **places_on(chart.y_axis),
    }
    scale = {"zero": False, "nice": False, "reverse": True}
    return {"field": "y", "type": "quantitative", "scale": scale, "axis": axis}


def _legend(chart: Chart, size: ChartSize) -> Spec:
    title = chart.colour.title if chart.colour else ""
    legend = {
        "title": title,
        "orient": "top",
        "direction": "horizontal",
        "gradientLength": round(size.width * 0.5),
        "gradientThickness": round(size.letters),
        "gradientOpacity": 1,
        "titleOrient": "top",
        "tickCount": 4,
        "titleFontWeight": 400,
        "titleLimit": size.width,
    }
    scale = {"range": list(_RAMP), "interpolate": "rgb", "nice": False, "zero": False}
    return {"field": "v", "type": "quantitative", "scale": scale, "legend": legend}


def _picture(cells: NDArray[np.float64], low: float, high: float) -> str:
    """The cells as a picture that stands in the drawing itself; a missing one is white."""
    shades = np.rint((cells - low) / (high - low) * (_SHADES - 1))
    known = np.isfinite(shades)
    places = np.where(known, np.clip(np.where(known, shades, 0), 0, _SHADES - 1) + 1, 0)
    across = max(1, min(_CELL[0], _DOTS // cells.shape[1]))
    dots = np.repeat(np.repeat(places.astype(np.uint8), _CELL[1], axis=0), across, axis=1)
    return "data:image/png;base64," + base64.b64encode(_png(dots, _colours())).decode("ascii")


def _colours() -> bytes:
    """White, then the ramp from light to dark."""
    stops = np.array([[int(stop[at : at + 2], 16) for at in (1, 3, 5)] for stop in _RAMP])
    at = np.linspace(0, len(stops) - 1, _SHADES)
    ramp = np.stack([np.interp(at, range(len(stops)), stops[:, part]) for part in range(3)], 1)
    return b"\xff\xff\xff" + bytes(np.rint(ramp).astype(np.uint8).ravel().tolist())


def _png(dots: NDArray[np.uint8], colours: bytes) -> bytes:
    """A picture with a palette. Source: ISO/IEC 15948, Portable Network Graphics."""
    height, width = dots.shape
    rows = np.concatenate([np.zeros((height, 1), np.uint8), dots], axis=1).tobytes()
    head = struct.pack(">IIBBBBB", width, height, 8, 3, 0, 0, 0)
    parts = ((b"IHDR", head), (b"PLTE", colours), (b"IDAT", zlib.compress(rows, 9)), (b"IEND", b""))
    return b"\x89PNG\r\n\x1a\n" + b"".join(_chunk(kind, data) for kind, data in parts)


def _chunk(kind: bytes, data: bytes) -> bytes:
    check = zlib.crc32(kind + data)
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", check)
