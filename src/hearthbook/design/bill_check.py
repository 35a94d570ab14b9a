"""The computed heat loss held against a year's fuel bill and against a measurement."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from hearthbook.design.heating_season import monthly_means
from hearthbook.design.sun import sun_through_windows
from hearthbook.documents.figures import Basis, KeyFigure, calculated, given
from hearthbook.physics.climate import DAYS_IN_MONTH
from hearthbook.physics.degree_days import coefficient_from_fuel, monthly_degree_days
from hearthbook.record.building import FuelBill
from hearthbook.record.home import Home

__all__ = ["BillCheck", "BillVerdict", "bill_check", "measured_ratio"]

_COUNTED_BASE = 15.5  # °C; what the degree days of the record are counted to
_LOWEST_BASE, _HIGHEST_BASE = 8.0, 20.0  # °C; what homes have, common practice, no source
_BAND = 0.20  # common practice, no source: bill and calculation agree within 20 %


class BillVerdict(StrEnum):
    """How the bill and the calculation agree."""

    WITHIN = "within"
    BILL_LOWER = "bill_lower"
    BILL_HIGHER = "bill_higher"


_ADVICE = {
    BillVerdict.WITHIN: "The fuel of that year and the calculation agree within 20 %.",
    BillVerdict.BILL_LOWER: (
        "The year's fuel points to a smaller loss. Look at the assumed U-values and air changes "
        "first, and ask whether all rooms were heated, before a larger heat pump is ordered."
    ),
    BillVerdict.BILL_HIGHER: (
        "The year's fuel points to a larger loss. Look for insulation that is assumed but not "
        "there, for draughts and open flues, and for an old boiler worse than its papers."
    ),
}
_COOLER_ROOMS = " The rooms were kept cooler than now wanted, so a lower bill is to be expected."


@dataclass(frozen=True)
class BillCheck:
    """What a year's fuel says about the heat loss.

    Attributes:
        coefficient: heat for each kelvin by the bill, W/K.
        design_loss: loss at the design temperature by the bill, W; gains not credited.
        ratio: the bill's coefficient over the computed one.
        verdict: within 20 %, or which way it lies.
        advice: what to look at, for the designer.
    """

    coefficient: KeyFigure
    design_loss: KeyFigure
    ratio: KeyFigure
    verdict: BillVerdict
    advice: str


def bill_check(
    home: Home, computed: KeyFigure, temperatures: tuple[KeyFigure, KeyFigure], base: KeyFigure
) -> BillCheck | None:
    """The check against the fuel bill; None where the record holds none.

    Args:
        home: whose bill it is.
        computed: heat for each kelvin by the calculation.
        temperatures: mean of the rooms, and design temperature outside.
        base: outdoor temperature above which gains, the sun not counted, keep it warm.
    """
    bill = home.building.fuel_bill
    if bill is None:
        return None
    indoor, outdoor = temperatures
    coefficient = _coefficient(bill, _degree_days(home, bill, _own_base(home, computed, base)))
    design_loss = calculated(
        "heat_loss.bill_check.design_loss",
        "loss at design by the fuel bill",
        coefficient.value * (indoor.value - outdoor.value),
        "W",
        formula="H of the bill · (inside − outside)",
        inputs=(coefficient, indoor, outdoor),
        source="derived; gains are not credited at design",
    )
    ratio = calculated(
        "heat_loss.bill_check.ratio",
        "the fuel bill's heat loss over the computed one",
        coefficient.value / computed.value,
        "%",
        formula="H of the bill / H computed",
        inputs=(coefficient, computed),
        source="common practice, no source: they should agree within 20 %",
    )
    verdict = _verdict(ratio.value)
    advice = _ADVICE[verdict] + ("" if bill.rooms_as_warm_as_wanted else _COOLER_ROOMS)
    return BillCheck(coefficient, design_loss, ratio, verdict, advice)


def _verdict(ratio: float) -> BillVerdict:
    if ratio < 1 - _BAND:
        return BillVerdict.BILL_LOWER
    return BillVerdict.BILL_HIGHER if ratio > 1 + _BAND else BillVerdict.WITHIN


def _own_base(home: Home, computed: KeyFigure, base: KeyFigure) -> KeyFigure:
    """Where the old heating stopped: a bill holds the sun's help too."""
    sun = sun_through_windows(home).heating_season
    value = base.value - sun.value / computed.value
    return calculated(
        "heat_loss.bill_check.base",
        "outdoor temperature above which this home needed no heat, sun counted",
        min(max(value, _LOWEST_BASE), _HIGHEST_BASE),
        "°C",
        formula="base temperature − sun / H, within 8 to 20 °C",
        inputs=(base, sun, computed),
        source="balance of gains and losses; derived",
    )


def _degree_days(home: Home, bill: FuelBill, base: KeyFigure) -> KeyFigure:
    """The year's degree days, counted to this home's own base."""
    place = "building.fuel_bill.degree_days"
    label = "degree days of that year to 15.5 °C"
    counted = given(place, label, bill.degree_days, "K·d", place=place)
    means = monthly_means(home.building.climate)
    usual, own = (
        float(
            np.sum(monthly_degree_days(np.array([one.value for one in means]), to, DAYS_IN_MONTH))
        )
        for to in (_COUNTED_BASE, base.value)
    )
    return calculated(
        "heat_loss.bill_check.degree_days",
        "degree days of that year to this home's own base",
        counted.value * own / usual,
        "K·d",
        formula="degree days · usual year to the own base / usual year to 15.5 °C",
        inputs=(counted, base, *means),
        source="Hitchin 1983, monthly degree days from the month's mean, from memory",
    )


def _coefficient(bill: FuelBill, degree_days: KeyFigure) -> KeyFigure:
    inputs = tuple(
        given(f"building.fuel_bill.{part}", label, value, unit, place=f"building.fuel_bill.{part}")
        for part, label, value, unit in (
            ("energy", f"{bill.fuel} in the year", bill.energy, "kWh"),
            ("efficiency", "efficiency of the old heating", bill.efficiency, "%"),
            ("heating_share", "share that heated rooms", bill.heating_share, "%"),
        )
    )
    value = coefficient_from_fuel(
        bill.energy, bill.efficiency, bill.heating_share, degree_days.value
    )
    return calculated(
        "heat_loss.bill_check.coefficient",
        "heat for each kelvin by the fuel bill",
        float(value),
        "W/K",
        formula="E · η · share / (24 h · degree days)",
        inputs=(*inputs, degree_days),
        source="energy-signature practice; derived",
    )


def measured_ratio(home: Home, computed: KeyFigure) -> KeyFigure | None:
    """The measured heat for each kelvin over the computed; None where none was measured."""
    value = home.building.heat_loss_measured
    if value is None:
        return None
    place = "building.heat_loss_measured"
    label = "heat for each kelvin, measured"
    measured = given(place, label, value, "W/K", place=place, basis=Basis.MEASURED)
    return calculated(
        "heat_loss.measured_ratio",
        "the measured heat loss over the computed one",
        value / computed.value,
        "%",
        formula="H measured / H computed",
        inputs=(measured, computed),
        source="common practice, no source: they should agree within 20 %",
    )
