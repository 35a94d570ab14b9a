"""What heating and hot water cost: a year, a day, a degree; and what the old fuel would cost."""

from __future__ import annotations

from dataclasses import dataclass

from hearthbook.design.day_by_outdoor import OutdoorDay
from hearthbook.design.energy_ranges import together
from hearthbook.design.heat_pump_fit import HeatPumpFit
from hearthbook.design.prices import mean_price, price_unit
from hearthbook.documents.figures import KeyFigure, calculated, given
from hearthbook.record.home import Home
from hearthbook.record.tariff import PreviousFuel, Tariff

__all__ = ["DayCost", "PreviousFuelCost", "RunningCost", "running_cost"]

_DAY = 86_400.0  # s
_DAYS_SHOWN = (-3.0, 0.0, 5.0, 10.0)  # °C


@dataclass(frozen=True)
class DayCost:
    """A day at an outdoor temperature.

    Attributes:
        outdoor: outdoor temperature.
        cost: of heating and hot water, without the standing charge.
        low: its low end.
        high: its high end.
    """

    outdoor: KeyFigure
    cost: KeyFigure
    low: KeyFigure
    high: KeyFigure


@dataclass(frozen=True)
class PreviousFuelCost:
    """The fuel used before, for the same heat.

    Attributes:
        name: which fuel.
        price_per_heat: of a unit of heat from it.
        year: for the year's heat, without its standing charge.
        saving: of the heat pump against it; negative where the heat pump costs more.
        break_even_efficiency: seasonal efficiency above which the heat pump is cheaper.
    """

    name: str
    price_per_heat: KeyFigure
    year: KeyFigure
    saving: KeyFigure
    break_even_efficiency: KeyFigure


@dataclass(frozen=True)
class RunningCost:
    """What heating and hot water cost.

    Attributes:
        price: mean price of a unit of electricity over the day.
        hot_water_price: mean price in the hours hot water is made.
        year: of heating and hot water, without the standing charge.
        space: of it for rooms, circulation pump and standby.
        hot_water: of it for hot water.
        standing: standing charge of a year; None where not recorded.
        price_per_heat: of a unit of heat.
        days: at several outdoor temperatures, the coldest first.
        degree: one kelvin warmer in all rooms, for a year.
        immersion_hour: the immersion heater for an hour; None where there is none.
        backup_unit: a unit of heat from an electric heater, against one from the heat pump.
        standby: of standby for a year.
        previous: the fuel used before; None where not recorded.
    """

    price: KeyFigure
    hot_water_price: KeyFigure
    year: KeyFigure
    space: KeyFigure
    hot_water: KeyFigure
    standing: KeyFigure | None
    price_per_heat: KeyFigure
    days: tuple[DayCost, ...]
    degree: KeyFigure
    immersion_hour: KeyFigure | None
    backup_unit: KeyFigure
    standby: KeyFigure
    previous: PreviousFuelCost | None

    def day_at(self, outdoor: float) -> DayCost | None:
        """The day at an outdoor temperature of the table; None where it has none."""
        return next((day for day in self.days if day.outdoor.value == outdoor), None)


def running_cost(home: Home, fit: HeatPumpFit) -> RunningCost | None:
    """The running cost of a home; None where no tariff is recorded."""
    tariff, energy = home.tariff, fit.energy
    if tariff is None:
        return None
    price = mean_price(tariff, "cost.price", "mean price of a unit over the day")
    water_price = mean_price(tariff, "cost.hot_water_price", "mean price when hot water is made",
                             home.controls.hot_water_windows)  # fmt: skip
    money = _Money(tariff)
    rooms = money.of("space", "rooms, pump and standby in a year",
                     (energy.electricity_space, energy.electricity_other), price)  # fmt: skip
    water = money.of("hot_water", "hot water in a year", (energy.electricity_hot_water,),
                     water_price)  # fmt: skip
    year = money.sum("year", "heating and hot water in a year", (rooms, water))
    per_heat = _price_per_heat(tariff, year, energy.heat_per_year, energy.seasonal_efficiency)
    return RunningCost(
        price=price,
        hot_water_price=water_price,
        year=year,
        space=rooms,
        hot_water=water,
        standing=_standing(tariff),
        price_per_heat=per_heat,
        days=tuple(
            money.day(day, price) for day in fit.by_outdoor if day.outdoor.value in _DAYS_SHOWN
        ),
        degree=money.of("degree", "rooms 1 K warmer for a year",
                        (energy.electricity_per_kelvin,), price),
        immersion_hour=_immersion(home, money, price),
        backup_unit=_backup_unit(energy.efficiency_space),
        standby=_standby(tariff, energy.standby_per_year, price),
        previous=_previous(tariff, fit, year),
    )  # fmt: skip


@dataclass(frozen=True)
class _Money:
    """Figures in the tariff's currency."""

    tariff: Tariff

    def of(
        self, part: str, label: str, energies: tuple[KeyFigure, ...], price: KeyFigure
    ) -> KeyFigure:
        half = together(*(energy.uncertainty or 0.0 for energy in energies)) * price.value
        return calculated(
            f"cost.{part}", f"cost of {label}", sum(one.value for one in energies) * price.value,
            self.tariff.currency, formula="electricity · price", inputs=(*energies, price),
            source="arithmetic; the range is that of the electricity", uncertainty=half or None,
        )  # fmt: skip

    def sum(self, part: str, label: str, costs: tuple[KeyFigure, ...]) -> KeyFigure:
        return calculated(
            f"cost.{part}", f"cost of {label}", sum(cost.value for cost in costs),
            self.tariff.currency, formula="sum of the parts", inputs=costs, source="arithmetic",
            uncertainty=together(*(cost.uncertainty or 0.0 for cost in costs)),
            note="without the standing charge",
        )  # fmt: skip

    def day(self, day: OutdoorDay, price: KeyFigure) -> DayCost:
        sign = "minus_" if day.outdoor.value < 0 else ""
        stem = f"day_{sign}{abs(day.outdoor.value):.0f}"
        ends = [
            calculated(
                f"cost.{stem}{part}", f"cost of a day at {day.outdoor.shown()} outside{end}",
                energy.value * _DAY * price.value, self.tariff.currency,
                formula="electricity of the day · price", inputs=(energy, price),
                source="arithmetic; without the standing charge",
                uncertainty=(energy.uncertainty or 0.0) * _DAY * price.value or None, decimals=2,
            )
            for part, end, energy in (("", "", day.electricity), ("_low", ", low end", day.low),
                                      ("_high", ", high end", day.high))
        ]  # fmt: skip
        return DayCost(day.outdoor, *ends)


def _price_per_heat(
    tariff: Tariff, year: KeyFigure, heat: KeyFigure, efficiency: KeyFigure
) -> KeyFigure:
    value = year.value / heat.value
    share = (efficiency.uncertainty or 0.0) / efficiency.value
    return calculated(
        "cost.price_per_heat", "price of a unit of heat from the heat pump", value,
        price_unit(tariff), formula="cost of a year / heat of a year", inputs=(year, heat),
        source="arithmetic; the range is that of the efficiency", uncertainty=value * share,
    )  # fmt: skip


def _standing(tariff: Tariff) -> KeyFigure | None:
    if tariff.standing_charge is None:
        return None
    unit = "p/day" if tariff.currency == "£" else "c/day"
    charge = given("tariff.standing_charge", "standing charge", tariff.standing_charge, unit,
                   place="tariff.standing_charge")  # fmt: skip
    return calculated(
        "cost.standing", "standing charge of a year", charge.value * 365.0 * _DAY, tariff.currency,
        formula="charge per day · 365", inputs=(charge,), source="arithmetic",
    )  # fmt: skip


def _immersion(home: Home, money: _Money, price: KeyFigure) -> KeyFigure | None:
    cylinder = home.plant.cylinder
    if cylinder is None or not cylinder.immersion_power:
        return None
    place = "plant.cylinder.immersion_power"
    power = given(place, "power of the immersion heater", cylinder.immersion_power, "kW",
                  place=place)  # fmt: skip
    return calculated(
        "cost.immersion_hour", "cost of the immersion heater for an hour",
        power.value * 3600.0 * price.value, money.tariff.currency, formula="power · 1 h · price",
        inputs=(power, price), source="arithmetic", decimals=2,
    )  # fmt: skip


def _backup_unit(efficiency: KeyFigure) -> KeyFigure:
    return calculated(
        "cost.backup_unit", "times dearer: heat from an electric heater against the heat pump's",
        efficiency.value, "", formula="efficiency of the heat pump for rooms", inputs=(efficiency,),
        source="an electric heater gives one unit of heat for one of electricity", decimals=1,
        uncertainty=efficiency.uncertainty,
    )  # fmt: skip


def _standby(tariff: Tariff, standby: KeyFigure, price: KeyFigure) -> KeyFigure:
    return calculated(
        "cost.standby", "cost of standby for a year", standby.value * price.value,
        tariff.currency, formula="standby of a year · price", inputs=(standby, price),
        source="arithmetic",
    )  # fmt: skip


def _previous(tariff: Tariff, fit: HeatPumpFit, year: KeyFigure) -> PreviousFuelCost | None:
    fuel = tariff.previous_fuel
    if fuel is None:
        return None
    price, efficiency = _fuel_figures(tariff, fuel)
    per_heat = calculated(
        "cost.previous.price_per_heat", f"price of a unit of heat from {fuel.name}",
        price.value / efficiency.value, price_unit(tariff), formula="price / efficiency",
        inputs=(price, efficiency), source="arithmetic",
    )  # fmt: skip
    heat = fit.energy.heat_per_year
    old_year = calculated(
        "cost.previous.year", f"cost of the same heat from {fuel.name} in a year",
        heat.value * per_heat.value, tariff.currency, formula="heat · price of heat",
        inputs=(heat, per_heat), source="arithmetic; without its standing charge",
        uncertainty=(heat.uncertainty or 0.0) * per_heat.value,
    )  # fmt: skip
    return PreviousFuelCost(
        name=fuel.name,
        price_per_heat=per_heat,
        year=old_year,
        saving=_saving(tariff, old_year, year, fit.energy.seasonal_efficiency),
        break_even_efficiency=_break_even(fit, year, per_heat),
    )


def _fuel_figures(tariff: Tariff, fuel: PreviousFuel) -> tuple[KeyFigure, KeyFigure]:
    place = "tariff.previous_fuel"
    return (
        given(f"{place}.price", f"price of {fuel.name}", fuel.price, price_unit(tariff),
              place=f"{place}.price"),
        given(f"{place}.efficiency", "seasonal efficiency of the old heating", fuel.efficiency,
              "%", place=f"{place}.efficiency"),
    )  # fmt: skip


def _saving(tariff: Tariff, old: KeyFigure, new: KeyFigure, efficiency: KeyFigure) -> KeyFigure:
    """The same heat stands on both sides, so only the efficiency widens the difference."""
    share = (efficiency.uncertainty or 0.0) / efficiency.value
    heat_share = (old.uncertainty or 0.0) / old.value if old.value else 0.0
    difference = old.value - new.value
    return calculated(
        "cost.previous.saving", "cheaper than the fuel before, in a year", difference,
        tariff.currency, formula="cost before - cost now", inputs=(old, new, efficiency),
        source="arithmetic; negative where the heat pump costs more",
        uncertainty=together(new.value * share, difference * heat_share),
    )  # fmt: skip


def _break_even(fit: HeatPumpFit, year: KeyFigure, per_heat: KeyFigure) -> KeyFigure:
    electricity = fit.energy.electricity_per_year
    return calculated(
        "cost.previous.break_even_efficiency",
        "seasonal efficiency above which the heat pump is the cheaper one",
        year.value / electricity.value / per_heat.value, "",
        formula="mean price of electricity / price of heat from the fuel before",
        inputs=(year, electricity, per_heat), source="equal cost of the same heat; derived",
    )  # fmt: skip
