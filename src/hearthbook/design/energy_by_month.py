"""A year's heat and electricity shared out over its months."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hearthbook.design.energy_ranges import EnergyRanges
from hearthbook.design.heat_loss import HeatLoss
from hearthbook.design.heating_year import HeatingYear
from hearthbook.documents.figures import KeyFigure, calculated

__all__ = ["MONTHS", "EnergyParts", "MonthEnergy", "energy_by_month"]

MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August",
          "September", "October", "November", "December")  # fmt: skip


@dataclass(frozen=True)
class MonthEnergy:
    """One month of a usual year.

    Attributes:
        month: 1 for January.
        name: in English, for engineers.
        heat: for rooms and hot water.
        electricity: all of it.
        low: electricity of a mild month in a home that needs less.
        high: electricity of a cold month in a home that needs more.
    """

    month: int
    name: str
    heat: KeyFigure
    electricity: KeyFigure
    low: KeyFigure
    high: KeyFigure


@dataclass(frozen=True)
class EnergyParts:
    """The parts of a year's electricity as plain numbers, J by month, January first.

    Attributes:
        space: electricity for rooms.
        water: electricity for hot water.
        other: circulation pump and standby.
        water_heat: heat for hot water.
        space_share: half-width of the first, as a share.
        water_share: half-width of the second.
    """

    space: NDArray[np.float64]
    water: NDArray[np.float64]
    other: NDArray[np.float64]
    water_heat: NDArray[np.float64]
    space_share: float
    water_share: float


def energy_by_month(
    parts: EnergyParts,
    year: HeatingYear,
    loss: HeatLoss,
    ranges: EnergyRanges,
    whole: KeyFigure,
) -> tuple[MonthEnergy, ...]:
    """Heat and electricity of each month, January first, with the weather's own range."""
    heat = year.heat + parts.water_heat
    total = parts.space + parts.water + parts.other
    per_heat = parts.space / np.maximum(year.heat, 1.0)
    weather = loss.coefficient.value * ranges.month_weather.value * year.hours * 3600.0 * per_heat
    half = np.sqrt(
        (parts.space * parts.space_share) ** 2 + (parts.water * parts.water_share) ** 2 + weather**2
    )
    inputs = (whole, ranges.month_weather)
    return tuple(
        MonthEnergy(
            number, name,
            _month(name, "heat", "heat", heat[at], inputs),
            _month(name, "electricity", "electricity", total[at], inputs, float(half[at])),
            _month(name, "low", "electricity, low end", max(total[at] - half[at], 0.0), inputs),
            _month(name, "high", "electricity, high end", total[at] + half[at], inputs),
        )
        for at, (number, name) in enumerate(enumerate(MONTHS, start=1))
    )  # fmt: skip


def _month(
    month: str,
    part: str,
    label: str,
    value: float,
    inputs: tuple[KeyFigure, ...],
    uncertainty: float | None = None,
) -> KeyFigure:
    return calculated(
        f"energy.{month.lower()}.{part}", f"{label} in {month}", float(value), "kWh",
        formula="the year's sum, for the hours of this month", inputs=inputs, source="as the year",
        uncertainty=uncertainty,
    )  # fmt: skip
