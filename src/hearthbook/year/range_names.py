"""The ranges of a year, by the names of the figures they are about."""

from __future__ import annotations

from hearthbook.design.energy_by_month import MONTHS
from hearthbook.year.answers import Ranges
from hearthbook.year.bands import Band
from hearthbook.year.ranges import YearRanges

__all__ = ["ranges_by_name"]


def ranges_by_name(found: YearRanges) -> Ranges:
    """Low end, middle and high end of the figures of a year that have a range.

    Days by outdoor temperature are left out: their ranges are of whole days, the year's figures of
    quarter-hours.
    """
    bands: dict[str, Band | None] = {
        "year.electricity.total": found.electricity,
        "year.cost": found.cost,
        "year.efficiency.all_counted": found.efficiency,
        "year.unit.starts": found.starts,
        "year.unit.defrosts": found.defrosts,
    }
    for month in found.months:
        name = MONTHS[month.month - 1].lower()
        bands[f"year.months.{name}.electricity.total"] = month.electricity
    return {
        name: (band.low.value, band.middle.value, band.high.value)
        for name, band in bands.items()
        if band is not None
    }
