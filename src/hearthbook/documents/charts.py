"""A chart as data: what is plotted, what it shows in one sentence, and its table.

A chart never holds a picture. Renderers draw it, and every rendering also carries the sentence
and the table, so that nothing is lost to a reader who cannot see it.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

__all__ = ["Axis", "Chart", "ChartKind", "Mark", "Series", "Zone"]

ChartKind = Literal["line", "bar", "stacked", "band", "heat"]


@dataclass(frozen=True)
class Axis:
    """One axis.

    Attributes:
        label: what is measured along it, in the reader's words.
        unit: the unit of the numbers as plotted; empty for names such as months or rooms.
        decimals: digits after the point in the chart's table.
        places: points along it that are named in place of its numbers, such as days.
    """

    label: str
    unit: str = ""
    decimals: int = 0
    places: tuple[tuple[float, str], ...] = ()

    @property
    def title(self) -> str:
        """The label with its unit, as printed beside the axis."""
        return f"{self.label} ({self.unit})" if self.unit else self.label


@dataclass(frozen=True)
class Series:
    """One line, one set of bars or one band, in the unit of the chart's y axis.

    Attributes:
        name: as the legend and the table's column head print it.
        values: one for each entry of the chart's x; None where there is none.
        low: lower edge of the range for each entry; empty when there is no range.
        high: upper edge of the range for each entry; empty when there is no range.
    """

    name: str
    values: tuple[float | None, ...]
    low: tuple[float | None, ...] = ()
    high: tuple[float | None, ...] = ()


@dataclass(frozen=True)
class Zone:
    """A stretch of the y axis with a meaning, such as `warm to the hand`."""

    low: float
    high: float
    label: str


@dataclass(frozen=True)
class Mark:
    """One point worth naming, such as the coldest day the system is designed for."""

    x: float
    y: float
    label: str


@dataclass(frozen=True)
class Chart:
    """A chart, its sentence and its table.

    Attributes:
        kind: `line` over numbers, `bar` side by side, `stacked` bars, a range `band`, or a `heat`
            map: a column of coloured cells for each entry, one cell for each series.
        title: short name above it.
        sentence: what it shows, with the numbers that matter; also its text alternative.
        x_axis: along the bottom; names (months, rooms) or numbers.
        y_axis: up the side.
        x: the entries along the x axis, all numbers or all names.
        series: what is plotted, each as long as x.
        zones: stretches of the y axis with a meaning.
        marks: named points.
        colour: what the colours of a heat map stand for; its y axis counts the series from 0.
        coarse: the same in fewer numbers, for the table of a chart that has too many.

    Raises:
        ValueError: a series is not as long as x, a band has no range, or a heat map no colours.
    """

    kind: ChartKind
    title: str
    sentence: str
    x_axis: Axis
    y_axis: Axis
    x: tuple[float, ...] | tuple[str, ...]
    series: tuple[Series, ...]
    zones: tuple[Zone, ...] = field(default=())
    marks: tuple[Mark, ...] = field(default=())
    colour: Axis | None = None
    coarse: Chart | None = None

    def __post_init__(self) -> None:
        """Refuse data that does not fit together."""
        for series in self.series:
            lengths = {len(series.values)} | {len(e) for e in (series.low, series.high) if e}
            if lengths != {len(self.x)}:
                raise ValueError(f"{self.title}: {series.name} is not as long as the x axis")
            if self.kind == "band" and not (series.low and series.high):
                raise ValueError(f"{self.title}: {series.name} has no range to draw as a band")
        if not self.series or not self.x:
            raise ValueError(f"{self.title}: a chart needs at least one series with one entry")
        if self.kind == "heat" and (self.colour is None or not self.is_numeric):
            raise ValueError(f"{self.title}: a heat map needs numbers along x, and colours")

    @property
    def is_numeric(self) -> bool:
        """Whether the x axis carries numbers, not names."""
        return all(not isinstance(entry, str) for entry in self.x)

    @property
    def has_range(self) -> bool:
        """Whether any series carries a range."""
        return any(series.low and series.high for series in self.series)
