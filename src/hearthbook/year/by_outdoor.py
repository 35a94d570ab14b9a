"""The year by outdoor temperature, degree by degree."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from hearthbook.documents.figures import KeyFigure
from hearthbook.kernel.state import COLDEST_BIN
from hearthbook.units import shown
from hearthbook.year.home_year import HomeYear
from hearthbook.year.standing import Standing

__all__ = ["OutdoorGroup", "by_outdoor"]

_FEWEST_HOURS = 12.0  # h of a group; fewer say what one night was like, not what is normal
_HEATED = 3600.0  # s of heating below which no mean flow temperature is told
_USED = (
    "electricity_rooms", "electricity_cylinder", "electricity_defrost", "electricity_pump",
    "electricity_standby", "heat_backup", "heat_immersion",
)  # fmt: skip


@dataclass(frozen=True)
class OutdoorGroup:
    """Hours of a degree outdoors, or of a few where one has too few hours.

    Attributes:
        name: of the degrees, such as `−3 °C` or `−9 to −6 °C`.
        low: °C of the coldest degree.
        high: °C of the warmest degree.
        outdoor: mean temperature.
        hours: in the span.
        electricity: a day at this temperature, everything counted.
        flow: mean flow temperature while the rooms are heated; None where they hardly are.
        run_share: of the time in which the compressor runs.
        starts: of the compressor in an hour.
        defrosts: in an hour.
        meltwater: in an hour; what defrosts and thawing let down.
    """

    name: str
    low: int
    high: int
    outdoor: KeyFigure
    hours: KeyFigure
    electricity: KeyFigure
    flow: KeyFigure | None
    run_share: KeyFigure
    starts: KeyFigure
    defrosts: KeyFigure
    meltwater: KeyFigure


def by_outdoor(standing: Standing, year: HomeYear) -> tuple[OutdoorGroup, ...]:
    """Groups of whole degrees outdoors, the coldest first."""
    bins = year.run.bins
    return tuple(
        _group(standing, bins, first, last) for first, last in _groups(bins["seconds"] / 3600.0)
    )


def _groups(hours: NDArray[np.float64]) -> list[tuple[int, int]]:
    """First and last bin of each group: cold ones gather until they have hours enough."""
    groups: list[tuple[int, int]] = []
    start, gathered = -1, 0.0
    for place in np.flatnonzero(hours > 0.0).tolist():
        start = place if start < 0 else start
        gathered += float(hours[place])
        if gathered >= _FEWEST_HOURS:
            groups.append((start, place))
            start, gathered = -1, 0.0
    if start >= 0:
        last = int(np.flatnonzero(hours > 0.0)[-1])
        begin = groups.pop()[0] if groups else start
        groups.append((begin, last))
    return groups


def _group(standing: Standing, bins: NDArray[Any], first: int, last: int) -> OutdoorGroup:
    rows = bins[first : last + 1]
    sums = {name: float(rows[name].sum()) for name in rows.dtype.names or ()}
    low, high, seconds = first + COLDEST_BIN, last + COLDEST_BIN, sums["seconds"]
    stem = f"by_outdoor.{_stem(low)}" + (f"_to_{_stem(high)}" if high > low else "")
    name = _named(low, high)

    def of(
        part: str, label: str, value: float, unit: str, formula: str, decimals: int | None = None
    ) -> KeyFigure:
        said = f"{label} at {name} outdoors"
        return standing.figure(
            f"{stem}.{part}", said, value, unit, formula=formula, decimals=decimals
        )

    hours = seconds / 3600.0
    heating = sums["heating_seconds"]
    return OutdoorGroup(
        name=name,
        low=low,
        high=high,
        outdoor=of("outdoor", "mean temperature", sums["outdoor"] / seconds, "°C",
                   "mean over the quarter-hours"),
        hours=of("hours", f"hours {standing.span}", seconds / standing.years, "h",
                 "quarter-hours whose mean rounds to these degrees", 0),
        electricity=of("electricity", "electricity a day", sum(sums[u] for u in _USED) / seconds,
                       "kWh/day", "all electricity / time"),
        flow=of("flow", "mean flow temperature while heating", sums["flow_temperature"] / heating,
                "°C", "mean over the minutes of heating") if heating >= _HEATED else None,
        run_share=of("run_share", "share of time the compressor runs",
                     sums["run_seconds"] / seconds, "%", "time running / time"),
        starts=of("starts", "starts an hour", sums["starts"] / hours, "1/h", "starts / hours"),
        defrosts=of("defrosts", "defrosts an hour", sums["defrosts"] / hours, "1/h",
                    "defrosts / hours"),
        meltwater=of("meltwater", "meltwater an hour", sums["meltwater"] / 1e3 / seconds, "L/h",
                     "meltwater / time, at 1 kg/L", 2),
    )  # fmt: skip


def _stem(degree: int) -> str:
    return f"minus_{-degree}" if degree < 0 else str(degree)


def _named(low: int, high: int) -> str:
    r"""The degrees in words.

    Example:
        >>> _named(-9, -6)
        '−9 to −6\xa0°C'
    """
    warmest = shown(high, "°C", 0)
    return warmest if low == high else f"{shown(low, '°C', 0).split()[0]} to {warmest}"
