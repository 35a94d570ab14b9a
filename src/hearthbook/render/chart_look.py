"""How a chart looks: its size, letters, lines and grid."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from hearthbook.render.styles import FAMILY, PALETTE

__all__ = ["ORDINARY", "ROOMY", "SMALL", "ChartSize", "look"]


@dataclass(frozen=True)
class ChartSize:
    """How large a chart is drawn: whole width, plot height and letters, in points."""

    width: int
    height: int
    letters: float


# Between the margins of each sheet; a page on a screen shows the same two drawings again, the
# first enlarged on a desk, the second on a telephone, so that each chart is drawn only twice.
ORDINARY = ChartSize(459, 170, 9.0)
ROOMY = ChartSize(435, 230, 14.5)
SMALL = ChartSize(352, 120, 8.0)


def look(size: ChartSize) -> dict[str, Any]:
    """Letters, lines and grid, as a Vega-Lite configuration."""
    letters: dict[str, Any] = {
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
