"""How well the heat pump fits the home: capacity, steady running, a year's heat and electricity."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from hearthbook.design.annual_energy import (
    AnnualEnergy,
    SpaceHeat,
    annual_energy,
)
from hearthbook.design.day_by_outdoor import OutdoorDay, days_by_outdoor
from hearthbook.design.energy_by_month import MonthEnergy
from hearthbook.design.heat_loss import HeatLoss
from hearthbook.design.heating_year import HeatingYear, YearsNeed, heating_year
from hearthbook.design.hot_water_demand import HotWaterDemand, hot_water_demand
from hearthbook.design.standard_season import standard_efficiency
from hearthbook.design.unit_map import UnitMap, unit_map
from hearthbook.design.weather_curve import WeatherCurve
from hearthbook.documents.figures import KeyFigure, assumed, calculated
from hearthbook.physics import hot_water as water
from hearthbook.record.home import Home

__all__ = ["CapacityFit", "HeatPumpFit", "MonthEnergy", "OutdoorDay", "SteadyFit", "heat_pump_fit"]

_COLDEST, _STEP = -30.0, 0.1  # °C and K; where the search for a balance ends, and its grain
_SMALL, _LARGE = 1.0, 1.3  # capacity over need; 1.00 to 1.20 is right, above 1.3 is oversized,
#                            common practice, no source

_STEADY_GOOD, _STEADY_POOR = 0.5, 0.3  # share of heating hours, common practice, no source


class CapacityFit(StrEnum):
    """How the unit's capacity meets the home's need at design."""

    SHORT = "short"
    RIGHT = "right"
    OVERSIZED = "oversized"


class SteadyFit(StrEnum):
    """How much of the season the unit runs without stopping."""

    GOOD = "good"
    FAIR = "fair"
    POOR = "poor"


@dataclass(frozen=True)
class HeatPumpFit:
    """The heat pump against the home.

    Attributes:
        capacity_at_design: most it gives at the design outdoor temperature, defrosts counted.
        hot_water_share: share of a design day that hot water takes it.
        capacity_ratio: capacity over loss, with hot water counted.
        capacity_fit: what the ratio says.
        balance_point: outdoor temperature down to which it carries the home alone.
        least_output: least it gives where it begins to stop and start.
        steady_below: outdoor temperature below which it runs without stopping.
        share_of_hours_steady: share of heating hours it runs so.
        steady_fit: what that share says.
        backup_share: share of the year's heat for rooms that it cannot give.
        backup_energy: the same in heat.
        seasonal_efficiency_standard: to EN 14825, average climate, from the record's points.
        standard_application: 35 or 55, the standard's flow temperature it was reckoned for.
        energy: a year's heat and electricity, with efficiencies at a named boundary.
        by_outdoor: a day at several outdoor temperatures, the coldest first.
        unit: the map of the unit.
        demand: hot water; None without a cylinder.
        year: the plain numbers of the year.
    """

    capacity_at_design: KeyFigure
    hot_water_share: KeyFigure
    capacity_ratio: KeyFigure
    capacity_fit: CapacityFit
    balance_point: KeyFigure
    least_output: KeyFigure
    steady_below: KeyFigure
    share_of_hours_steady: KeyFigure
    steady_fit: SteadyFit
    backup_share: KeyFigure
    backup_energy: KeyFigure
    seasonal_efficiency_standard: KeyFigure
    standard_application: KeyFigure
    energy: AnnualEnergy
    by_outdoor: tuple[OutdoorDay, ...]
    unit: UnitMap
    demand: HotWaterDemand | None
    year: HeatingYear

    @property
    def monthly(self) -> tuple[MonthEnergy, ...]:
        """Heat and electricity by month, January first."""
        return self.energy.monthly

    @property
    def seasonal_efficiency_home(self) -> KeyFigure:
        """Heat over all electricity of heating and hot water, in this home."""
        return self.energy.seasonal_efficiency

    def day_at(self, outdoor: float) -> OutdoorDay | None:
        """The day at an outdoor temperature of the table; None where it has none."""
        return next((day for day in self.by_outdoor if day.outdoor.value == outdoor), None)


def heat_pump_fit(home: Home, loss: HeatLoss, curve: WeatherCurve) -> HeatPumpFit:
    """The fit of the recorded heat pump to the home on its true curve."""
    unit = unit_map(home.plant)
    demand = hot_water_demand(home)
    need = _need(loss, curve)
    year = heating_year(need, curve.flow_temperature_at, unit)
    capacity = _capacity_at_design(loss, curve, unit)
    share = _hot_water_share(demand, capacity)
    ratio = _capacity_ratio(capacity, loss, share)
    steady, least = _steady_below(loss, curve, unit)
    backup = _backup_energy(loss, curve, year, capacity)
    standard, application = standard_efficiency(home.plant.heat_pump, curve.design_flow, unit)
    energy = annual_energy(home, curve, unit, demand, SpaceHeat(loss, need, year))
    share_steady = _share_steady(year, steady, energy.heating_hours)
    return HeatPumpFit(
        capacity_at_design=capacity,
        hot_water_share=share,
        capacity_ratio=ratio,
        capacity_fit=_verdict(ratio.value),
        balance_point=_balance_point(loss, curve, unit, capacity),
        least_output=least,
        steady_below=steady,
        share_of_hours_steady=share_steady,
        steady_fit=_steady_verdict(share_steady.value),
        backup_share=_backup_share(backup, energy),
        backup_energy=backup,
        seasonal_efficiency_standard=standard,
        standard_application=application,
        energy=energy,
        by_outdoor=days_by_outdoor(loss, curve, unit, energy),
        unit=unit,
        demand=demand,
        year=year,
    )


def _need(loss: HeatLoss, curve: WeatherCurve) -> YearsNeed:
    return YearsNeed(
        season=curve.season,
        coefficient=loss.coefficient.value,
        base_temperature=loss.base_temperature.value,
        sun=curve.season.sun.by_month,
        heating_limit=curve.season.limit.value,
    )


def _steady_verdict(share: float) -> SteadyFit:
    if share >= _STEADY_GOOD:
        return SteadyFit.GOOD
    return SteadyFit.FAIR if share >= _STEADY_POOR else SteadyFit.POOR


def _verdict(ratio: float) -> CapacityFit:
    if ratio < _SMALL:
        return CapacityFit.SHORT
    return CapacityFit.OVERSIZED if ratio > _LARGE else CapacityFit.RIGHT


def _capacity_at_design(loss: HeatLoss, curve: WeatherCurve, unit: UnitMap) -> KeyFigure:
    outdoor, flow = loss.outdoor_temperature, curve.design_flow
    return calculated(
        "heat_pump.capacity_at_design",
        "most heat the unit gives at the design outdoor temperature",
        float(unit.most(outdoor.value, flow.value)),
        "kW",
        formula="straight line between tested points at outdoor and flow temperature",
        inputs=(outdoor, flow, *unit.figures),
        source="EN 14825, interpolation of capacity",
    )


def _hot_water_share(demand: HotWaterDemand | None, capacity: KeyFigure) -> KeyFigure:
    name, label = "heat_pump.hot_water_share", "share of a cold day that hot water takes the unit"
    if demand is None or capacity.value <= 0.0:
        return assumed(name, label, 0.0, "%", source="record: no cylinder, or no output at design")
    a_day = float(np.max(demand.by_month[[0, 11]])) / 31.0
    return calculated(
        name,
        label,
        min(0.5, float(water.reheat_time(a_day, capacity.value)) / 86_400.0),
        "%",
        formula="heat for hot water in a winter's day / (capacity · 24 h)",
        inputs=(demand.heat, capacity),
        source="heat balance; derived",
    )


def _capacity_ratio(capacity: KeyFigure, loss: HeatLoss, share: KeyFigure) -> KeyFigure:
    return calculated(
        "heat_pump.capacity_ratio",
        "capacity over heat loss at design, hot water counted",
        capacity.value * (1.0 - share.value) / loss.total.value,
        "",
        formula="capacity · (1 - share of hot water) / heat loss",
        inputs=(capacity, share, loss.total),
        source="1.00 to 1.20 is right, above 1.3 oversized: common practice, no source",
    )


def _balance_point(
    loss: HeatLoss, curve: WeatherCurve, unit: UnitMap, capacity: KeyFigure
) -> KeyFigure:
    base = loss.base_temperature.value
    outdoor = np.arange(base - 1.0, _COLDEST, -_STEP)
    flow = np.array([curve.flow_temperature_at(float(one)) for one in outdoor])
    is_short = unit.most(outdoor, flow) < loss.coefficient.value * (base - outdoor)
    # the last temperature at which it still carries the home, one step before the first it does not
    found = float(outdoor[max(int(np.argmax(is_short)) - 1, 0)]) if is_short.any() else _COLDEST
    return calculated(
        "heat_pump.balance_point",
        "outdoor temperature down to which the unit carries the home alone",
        math.ceil(round(found, 3) * 10.0) / 10.0,
        "°C",
        formula="outdoor temperature at which capacity = H · (T_b - T_e)",
        inputs=(loss.coefficient, loss.base_temperature, capacity),
        source="bivalent temperature, EN 14825; solved step by step",
        note="" if is_short.any() else "it carries the home in any cold looked at",
    )


def _steady_below(
    loss: HeatLoss, curve: WeatherCurve, unit: UnitMap
) -> tuple[KeyFigure, KeyFigure]:
    base, coefficient = loss.base_temperature.value, loss.coefficient.value
    outdoor = np.arange(base - _STEP, _COLDEST, -_STEP)
    flow = np.array([curve.flow_temperature_at(float(one)) for one in outdoor])
    is_steady = coefficient * (base - outdoor) >= unit.least(outdoor, flow)
    at = int(np.argmax(is_steady)) if is_steady.any() else len(outdoor) - 1
    least = calculated(
        "heat_pump.least_output",
        "least heat the unit gives without stopping, where it begins to stop",
        float(unit.least(outdoor[at], flow[at])),
        "kW",
        formula="straight line between tested points at least load",
        inputs=(curve.design_flow, loss.outdoor_temperature, *unit.figures),
        source="EN 14825, interpolation of capacity",
    )
    steady = calculated(
        "heat_pump.steady_below",
        "outdoor temperature below which the unit runs without stopping",
        round(float(outdoor[at]), 1),
        "°C",
        formula="T_b - least output / H",
        inputs=(loss.base_temperature, least, loss.coefficient),
        source="heat balance; 8 to 10 °C or above is good: common practice, no source",
    )
    return steady, least


def _share_steady(year: HeatingYear, steady: KeyFigure, hours: KeyFigure) -> KeyFigure:
    return calculated(
        "heat_pump.share_of_hours_steady",
        "share of heating hours in which the unit runs without stopping",
        year.steady_hours / float(year.hours.sum()),
        "%",
        formula="hours in which the need is at least the least output / hours that need heat",
        inputs=(steady, hours),
        source="hours by outdoor temperature; half and more is good: common practice, no source",
    )


def _backup_energy(
    loss: HeatLoss, curve: WeatherCurve, year: HeatingYear, capacity: KeyFigure
) -> KeyFigure:
    return calculated(
        "heat_pump.backup_energy",
        "heat for rooms in a year that the unit cannot give",
        year.backup,
        "kWh",
        formula="Σ hours · max(0, H · (T_b - T_e) - capacity)",
        inputs=(loss.coefficient, loss.base_temperature, capacity, curve.season.length),
        source="EN 14825, electric backup by bins",
    )


def _backup_share(backup: KeyFigure, energy: AnnualEnergy) -> KeyFigure:
    return calculated(
        "heat_pump.backup_share",
        "share of the year's heat for rooms that the unit cannot give",
        backup.value / energy.heat_space.value,
        "%",
        formula="that heat / heat for rooms",
        inputs=(backup, energy.heat_space),
        source="up to 1 % is good: common practice, no source",
        decimals=1,
    )
