"""A year's heat and electricity, month by month, with ranges and a named boundary.

The boundary is everything the heat pump's supply pays for: unit with fan and controls, circulation
pump, electric backup, hygiene runs and standby (often written H4). It is what the meter shows.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from hearthbook.design.energy_by_month import EnergyParts, MonthEnergy, energy_by_month
from hearthbook.design.energy_ranges import EnergyRanges, together, usual_ranges
from hearthbook.design.heat_loss import HeatLoss
from hearthbook.design.heating_year import HeatingYear, YearsNeed, heating_year
from hearthbook.design.hot_water_demand import HotWaterDemand
from hearthbook.design.unit_map import UnitMap
from hearthbook.design.weather_curve import WeatherCurve
from hearthbook.documents.figures import KeyFigure, assumed, calculated, given
from hearthbook.physics.climate import DAYS_IN_MONTH
from hearthbook.record.home import Home

__all__ = [
    "AnnualEnergy",
    "SpaceHeat",
    "annual_energy",
]

_PUMP_POWER = 40.0  # W; 20 to 60 W is usual, common practice, no source
_STANDBY = 12.0  # W; 0.2 to 0.8 kWh a day with controls and pump runs, common practice
_BY_DAYS = (
    "counted by the mean of each day, as the heating limit is: a cool night of a warm day, which "
    "the mass of the home carries over, starts no heating"
)
_BOUNDARY = (
    "counted: unit with fan and controls, circulation pump, electric backup, hygiene runs, standby"
)


@dataclass(frozen=True)
class AnnualEnergy:
    """A usual year.

    Attributes:
        heat_space: for rooms.
        heat_hot_water: into the cylinder, hygiene runs counted.
        heat_per_year: both.
        electricity_space: of unit and backup for rooms.
        electricity_hot_water: of unit and immersion heater for hot water.
        electricity_other: circulation pump and standby.
        electricity_per_year: all of it.
        efficiency_space: heat for rooms over its electricity.
        efficiency_hot_water: likewise; None without a cylinder.
        seasonal_efficiency: all heat over all electricity.
        standby: what is drawn when neither heating nor hot water is made, as a power.
        standby_per_year: the same in a year.
        electricity_per_kelvin: what rooms one kelvin warmer take more in a year.
        monthly: January first.
        ranges: what the ranges rest on.
        heating_hours: hours of the year in which heat is needed.
    """

    heat_space: KeyFigure
    heat_hot_water: KeyFigure
    heat_per_year: KeyFigure
    electricity_space: KeyFigure
    electricity_hot_water: KeyFigure
    electricity_other: KeyFigure
    electricity_per_year: KeyFigure
    efficiency_space: KeyFigure
    efficiency_hot_water: KeyFigure | None
    seasonal_efficiency: KeyFigure
    standby: KeyFigure
    standby_per_year: KeyFigure
    electricity_per_kelvin: KeyFigure
    monthly: tuple[MonthEnergy, ...]
    ranges: EnergyRanges
    heating_hours: KeyFigure


@dataclass(frozen=True)
class SpaceHeat:
    """Heat for the rooms as worked out so far.

    Attributes:
        loss: the home's heat loss.
        need: what decides the year's heat.
        year: the plain numbers of the year.
    """

    loss: HeatLoss
    need: YearsNeed
    year: HeatingYear

    @property
    def gains(self) -> tuple[KeyFigure, KeyFigure]:
        """The figures of sun and heating limit, for the workings."""
        return self.need.season.sun.heating_season, self.need.season.limit


def annual_energy(
    home: Home,
    curve: WeatherCurve,
    unit: UnitMap,
    demand: HotWaterDemand | None,
    space_heat: SpaceHeat,
) -> AnnualEnergy:
    """The year of a home on its true curve."""
    ranges, year = usual_ranges(), space_heat.year
    standby, pump = _standby(home), _pump_power()
    parts = _parts(demand, curve, unit, ranges, year, (standby.value, pump.value))
    space = _space(space_heat, curve, unit, ranges)
    water = _water(demand, parts, ranges, unit)
    hours = _heating_hours(space_heat, curve)
    rest = _other(parts, pump, standby, hours)
    heat = _sum("heat_per_year", "heat in a year", (space[0], water[0]))
    electricity = _sum("electricity_per_year", "electricity in a year", (space[1], water[1], rest))
    return AnnualEnergy(
        heat_space=space[0],
        heat_hot_water=water[0],
        heat_per_year=heat,
        electricity_space=space[1],
        electricity_hot_water=water[1],
        electricity_other=rest,
        electricity_per_year=electricity,
        efficiency_space=_efficiency("efficiency_space", "for rooms", space, ranges),
        efficiency_hot_water=None if demand is None else _efficiency(
            "efficiency_hot_water", "for hot water", water, ranges),
        seasonal_efficiency=_efficiency(
            "seasonal_efficiency", "over the year, all counted", (heat, electricity), ranges),
        standby=standby,
        standby_per_year=_standby_per_year(standby),
        electricity_per_kelvin=_per_kelvin(space_heat, curve, unit, space[1], parts.space_share),
        monthly=energy_by_month(parts, year, space_heat.loss, ranges, electricity),
        ranges=ranges,
        heating_hours=hours,
    )  # fmt: skip


def _parts(
    demand: HotWaterDemand | None,
    curve: WeatherCurve,
    unit: UnitMap,
    ranges: EnergyRanges,
    year: HeatingYear,
    idle: tuple[float, float],
) -> EnergyParts:
    standby, pump = idle
    zero = np.zeros(12)
    return EnergyParts(
        space=year.electricity,
        water=zero if demand is None else _water_electricity(demand, curve, unit),
        other=year.hours * 3600.0 * pump + DAYS_IN_MONTH * 86_400.0 * standby,
        water_heat=zero if demand is None else demand.by_month + demand.hygiene_by_month,
        space_share=together(ranges.heat_share.value, ranges.efficiency_share.value),
        water_share=0.0 if demand is None else together(
            demand.spread_share.value, ranges.hot_water_efficiency_share.value),
    )  # fmt: skip


def _heating_hours(space_heat: SpaceHeat, curve: WeatherCurve) -> KeyFigure:
    return calculated(
        "energy.heating_hours", "hours of the year in which heat is needed",
        float(space_heat.year.hours.sum()) * 3600.0, "h",
        formula="hours of days below the heating limit on which losses exceed gains",
        inputs=(space_heat.loss.base_temperature, *space_heat.gains, curve.season.length),
        source="derived", decimals=0, note=_BY_DAYS,
    )  # fmt: skip


def _other(parts: EnergyParts, pump: KeyFigure, standby: KeyFigure, hours: KeyFigure) -> KeyFigure:
    return calculated(
        "energy.electricity_other", "circulation pump and standby in a year",
        float(parts.other.sum()), "kWh", formula="pump power · heating hours + standby · year",
        inputs=(pump, standby, hours), source="derived",
    )  # fmt: skip


def _standby(home: Home) -> KeyFigure:
    name, label = "energy.standby", "power drawn while nothing is heated"
    power = home.plant.heat_pump.standby_power
    if power is not None:
        return given(name, label, power, "W", place="plant.heat_pump.standby_power")
    return assumed(name, label, _STANDBY, "W", source="common practice, no source",
                   note="not answered: plant.heat_pump.standby_power")  # fmt: skip


def _standby_per_year(standby: KeyFigure) -> KeyFigure:
    return calculated(
        "energy.standby_per_year", "electricity of standby in a year",
        standby.value * 365.0 * 86_400.0, "kWh", formula="standby · 365 days", inputs=(standby,),
        source="arithmetic",
    )  # fmt: skip


def _pump_power() -> KeyFigure:
    return assumed("energy.pump_power", "power of the circulation pump", _PUMP_POWER, "W",
                   source="common practice, no source", note="20 to 60 W is usual")  # fmt: skip


def _water_electricity(
    demand: HotWaterDemand, curve: WeatherCurve, unit: UnitMap
) -> NDArray[np.float64]:
    outdoor = np.array([mean.value for mean in curve.season.monthly_means])
    efficiency = unit.efficiency_at_most(outdoor, demand.reheat_flow.value)
    hygiene = demand.hygiene_by_month
    if not demand.hygiene_by_immersion:
        hygiene = hygiene / unit.efficiency_at_most(outdoor, demand.hygiene_flow)
    return demand.by_month / efficiency + hygiene


def _space(
    space_heat: SpaceHeat,
    curve: WeatherCurve,
    unit: UnitMap,
    ranges: EnergyRanges,
) -> tuple[KeyFigure, KeyFigure]:
    loss, year = space_heat.loss, space_heat.year
    weather = loss.coefficient.value * float(year.hours.sum()) * 3600.0 * ranges.year_weather.value
    heat_value, power_value = float(year.heat.sum()), float(year.electricity.sum())
    heat_share = together(ranges.heat_share.value, weather / heat_value)
    heat = calculated(
        "energy.heat_space", "heat for rooms in a year", heat_value, "kWh",
        formula="Σ hours · max(0, H · (T_b - T_e) - sun), below the heating limit",
        inputs=(loss.coefficient, loss.base_temperature, *space_heat.gains,
                *curve.season.monthly_means, curve.season.spread, *curve.season.day_shares,
                ranges.heat_share, ranges.year_weather),
        source="steady heat balance of the home by outdoor means of days",
        uncertainty=heat_value * heat_share, note=_BY_DAYS,
    )  # fmt: skip
    power = calculated(
        "energy.electricity_space", "electricity for rooms in a year", power_value, "kWh",
        formula="Σ hours · (heat of the unit / efficiency + backup)",
        inputs=(heat, curve.design_flow, curve.exponent, ranges.efficiency_share, *unit.figures),
        source="method of EN 14825 on the home's own hours and curve; share of Carnot between "
        "tested points",
        uncertainty=power_value * together(heat_share, ranges.efficiency_share.value),
    )  # fmt: skip
    return heat, power


def _water(
    demand: HotWaterDemand | None, parts: EnergyParts, ranges: EnergyRanges, unit: UnitMap
) -> tuple[KeyFigure, KeyFigure]:
    heat_name, heat_label = "energy.heat_hot_water", "heat for hot water in a year"
    name, label = "energy.electricity_hot_water", "electricity for hot water in a year"
    if demand is None:
        none = "record: no cylinder"
        return (assumed(heat_name, heat_label, 0.0, "kWh", source=none),
                assumed(name, label, 0.0, "kWh", source=none))  # fmt: skip
    heat_value, power_value = float(parts.water_heat.sum()), float(parts.water.sum())
    runs = () if demand.hygiene_heat is None else (demand.hygiene_heat,)
    heat = calculated(
        heat_name, heat_label, heat_value, "kWh", formula="into the cylinder + hygiene runs",
        inputs=(demand.heat, *runs, demand.spread_share),
        source="heat balance of the cylinder", uncertainty=demand.heat.uncertainty,
    )  # fmt: skip
    power = calculated(
        name, label, power_value, "kWh",
        formula="Σ months: heat / efficiency at the month's mean outdoors, + hygiene runs",
        inputs=(heat, demand.reheat_flow, ranges.hot_water_efficiency_share, *unit.figures),
        source="derived; the flow is held at its end value all through, on the safe side",
        uncertainty=power_value * parts.water_share,
    )  # fmt: skip
    return heat, power


def _sum(name: str, label: str, figures: tuple[KeyFigure, ...]) -> KeyFigure:
    return calculated(
        f"energy.{name}", label, sum(figure.value for figure in figures), "kWh",
        formula="sum of the parts", inputs=figures, source="arithmetic",
        uncertainty=together(*(figure.uncertainty or 0.0 for figure in figures)),
    )  # fmt: skip


def _efficiency(
    name: str, what: str, pair: tuple[KeyFigure, KeyFigure], ranges: EnergyRanges
) -> KeyFigure:
    heat, electricity = pair
    value = heat.value / electricity.value
    share = ranges.hot_water_efficiency_share if "hot" in name else ranges.efficiency_share
    return calculated(
        f"energy.{name}", f"heat over electricity {what}", value, "",
        formula="heat / electricity", inputs=(heat, electricity, share),
        source="definition of a seasonal efficiency", uncertainty=value * share.value,
        note=_BOUNDARY if name == "seasonal_efficiency" else "",
    )  # fmt: skip


def _per_kelvin(
    space_heat: SpaceHeat,
    curve: WeatherCurve,
    unit: UnitMap,
    electricity: KeyFigure,
    share: float,
) -> KeyFigure:
    more = curve.room_influence_mild.value
    loss, need = space_heat.loss, space_heat.need
    warmer = heating_year(
        replace(need, base_temperature=need.base_temperature + 1.0),
        lambda outdoor: curve.flow_temperature_at(outdoor) + more,
        unit,
    )
    extra = float(warmer.electricity.sum() - space_heat.year.electricity.sum())
    return calculated(
        "energy.electricity_per_kelvin", "electricity for rooms 1 K warmer, in a year", extra,
        "kWh", formula="the year with T_b + 1 K and the flow it needs, less the year as it is",
        inputs=(electricity, curve.room_influence_mild, loss.coefficient, loss.base_temperature),
        source="derived", uncertainty=extra * share,
        note="by the means of days; the heating limit stays, so no summer day is added",
    )  # fmt: skip
