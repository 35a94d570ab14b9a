"""Whether a colder night pays in this home, and by how many degrees."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from hearthbook.design.heat_loss import HeatLoss
from hearthbook.design.heat_pump_fit import HeatPumpFit
from hearthbook.design.prices import band_by_hour
from hearthbook.design.weather_curve import WeatherCurve
from hearthbook.documents.figures import KeyFigure, assumed, calculated, condition, given
from hearthbook.physics import heat_pump, thermal_mass
from hearthbook.physics.setback import SetbackNight, setback_night
from hearthbook.record.building import ThermalMass
from hearthbook.record.home import Home

__all__ = ["Setback", "SetbackOption", "SetbackVerdict", "setback"]

_DEPTHS = (1.0, 2.0, 3.0, 4.0)  # K
_BOOSTS = (3.0, 6.0)  # K above the curve while the rooms warm again; a gentle and a brisk return
_BEGINS, _LASTS = 22.0, 7.0  # h; a usual night where none is planned
_OFF = 8.0 * 3600.0  # s; a night without heating, as households ask about it
_COLD_DAY = 5.0  # °C; for that
_RECOVERY_RISE = 2.0  # K
_CLEARLY = 0.02  # of the cost; smaller changes are lost in weather and habits
_MOST_HOURS = 5.0  # h; a home still cold at ten in the morning is not what the night was for
_CAPACITY_SHARE = 0.3  # how far heat capacities by class lie from real ones; from memory


class SetbackVerdict(StrEnum):
    """What a colder night does here."""

    PAYS = "pays"
    LITTLE_EITHER_WAY = "little_either_way"
    COSTS = "costs"


@dataclass(frozen=True)
class SetbackOption:
    """A night colder by some kelvin.

    Attributes:
        depth: how much colder the rooms may become.
        cost_change: change of the heating's cost, middle of its range; negative is cheaper.
        low: lowest change over returns and weather.
        high: highest change.
        hours_to_recover: with the brisk return, in middling weather.
        lowest_temperature: of the rooms, in middling weather.
    """

    depth: KeyFigure
    cost_change: KeyFigure
    low: KeyFigure
    high: KeyFigure
    hours_to_recover: KeyFigure
    lowest_temperature: KeyFigure


@dataclass(frozen=True)
class Setback:
    """How the home stores heat, and what a colder night does.

    Attributes:
        heat_capacity: heat stored for each kelvin.
        time_constant: hours in which it loses 63 % of its warmth above outdoors.
        after_eight_hours: rooms after eight hours unheated at 5 °C outside.
        recovery_time: to warm it by 2 K at 5 °C outside, with all the unit can give.
        cooling_time: to fall by 1 K unheated at 5 °C outside.
        options: nights colder by 1 to 4 K.
        advised_depth: kelvin worth setting; 0 where it does not pay.
        verdict: what the options add up to.
    """

    heat_capacity: KeyFigure
    time_constant: KeyFigure
    after_eight_hours: KeyFigure
    recovery_time: KeyFigure
    cooling_time: KeyFigure
    options: tuple[SetbackOption, ...]
    advised_depth: KeyFigure
    verdict: SetbackVerdict


def setback(home: Home, loss: HeatLoss, fit: HeatPumpFit, curve: WeatherCurve) -> Setback:
    """The word on a colder night in this home."""
    capacity = _heat_capacity(home, loss)
    constant = calculated(
        "setback.time_constant", "time constant of the home",
        float(thermal_mass.time_constant(capacity.value, loss.coefficient.value)), "h",
        formula="heat capacity / H", inputs=(capacity, loss.coefficient),
        source="one thermal mass losing heat in proportion",
        uncertainty=_CAPACITY_SHARE * capacity.value / loss.coefficient.value, decimals=0,
    )  # fmt: skip
    night = _Night(home, loss, fit, curve, capacity)
    options = tuple(night.option(depth) for depth in _DEPTHS)
    return Setback(
        heat_capacity=capacity,
        time_constant=constant,
        after_eight_hours=_after_hours(loss, constant),
        recovery_time=_recovery(loss, fit, curve, capacity),
        cooling_time=_cooling(loss, constant),
        options=options,
        advised_depth=_advised(options),
        verdict=_verdict(options),
    )


def _heat_capacity(home: Home, loss: HeatLoss) -> KeyFigure:
    place, recorded = "building.thermal_mass", home.building.thermal_mass
    mass = recorded or ThermalMass.MEDIUM
    per_area = float(thermal_mass.heat_capacity(1.0, mass.value))
    label, unit = f"heat stored for each m² and K, {mass.value} build", "J/K"
    if recorded is None:
        each = assumed("setback.capacity_per_area", label, per_area, unit,
                       source="SAP 2012 table 1f, from memory",
                       note=f"not answered: {place}")  # fmt: skip
    else:
        each = given("setback.capacity_per_area", label, per_area, unit,
                     place=f"{place}; by SAP 2012 table 1f, from memory")  # fmt: skip
    value = per_area * loss.floor_area.value
    return calculated(
        "setback.heat_capacity", "heat the home stores for each kelvin", value, "kWh/K",
        formula="floor area · heat stored for each m²", inputs=(loss.floor_area, each),
        source="SAP 2012 table 1f, from memory", uncertainty=_CAPACITY_SHARE * value,
    )  # fmt: skip


def _after_hours(loss: HeatLoss, constant: KeyFigure) -> KeyFigure:
    balance = _COLD_DAY + loss.indoor_temperature.value - loss.base_temperature.value
    room = loss.indoor_temperature
    ends = [
        float(thermal_mass.temperature_after(_OFF, room.value, balance, constant.value * share))
        for share in (1.0, 1.0 - _CAPACITY_SHARE, 1.0 + _CAPACITY_SHARE)
    ]
    return calculated(
        "setback.after_eight_hours", "rooms after eight hours unheated at 5 °C outside", ends[0],
        "°C", formula="balance + (room - balance) · exp(-8 h / time constant)",
        inputs=(room, loss.base_temperature, constant),
        source="one thermal mass; gains go on; derived", uncertainty=(ends[2] - ends[1]) / 2,
    )  # fmt: skip


def _cooling(loss: HeatLoss, constant: KeyFigure) -> KeyFigure:
    room = loss.indoor_temperature
    balance = _COLD_DAY + room.value - loss.base_temperature.value
    above = max(room.value - balance, 1.5)
    value = constant.value * math.log(above / (above - 1.0))
    return calculated(
        "setback.cooling_time", "time to fall by 1 K unheated at 5 °C outside", value, "h",
        formula="time constant · ln((room − balance) / (room − 1 K − balance))",
        inputs=(constant, room, loss.base_temperature),
        source="one thermal mass losing heat in proportion; gains go on",
        uncertainty=_CAPACITY_SHARE * value,
    )  # fmt: skip


def _recovery(
    loss: HeatLoss, fit: HeatPumpFit, curve: WeatherCurve, capacity: KeyFigure
) -> KeyFigure:
    flow = curve.flow_temperature_at(_COLD_DAY) + _BOOSTS[1]
    need = loss.coefficient.value * max(0.0, loss.base_temperature.value - _COLD_DAY)
    spare = max(float(fit.unit.most(_COLD_DAY, flow)) - need, 100.0)
    value = float(thermal_mass.recovery_time(capacity.value, _RECOVERY_RISE, spare))
    return calculated(
        "setback.recovery_time", "time to warm the home by 2 K at 5 °C outside, unit at its most",
        value, "h", formula="heat capacity · 2 K / (most output - need)",
        inputs=(capacity, fit.capacity_at_design, loss.coefficient, loss.base_temperature),
        source="heat balance; the emitters may not carry so much, then it takes longer",
        uncertainty=_CAPACITY_SHARE * value,
    )  # fmt: skip


class _Night:
    """Nights of one home, tried in several weathers and returns."""

    def __init__(
        self,
        home: Home,
        loss: HeatLoss,
        fit: HeatPumpFit,
        curve: WeatherCurve,
        capacity: KeyFigure,
    ) -> None:
        self.loss, self.fit, self.curve, self.capacity = loss, fit, curve, capacity
        self.price_by_hour = _price_by_hour(home)
        self.begins, self.lasts = _night_hours(home)
        middle = min(fit.year.mean_outdoor, loss.base_temperature.value - 3.0)
        self.weathers = (middle - 4.0, middle, min(middle + 4.0, loss.base_temperature.value - 1.0))

    def option(self, depth: float) -> SetbackOption:
        """The option of one depth."""
        tried = {
            (weather, boost): self._try(depth, boost, weather)
            for weather in self.weathers
            for boost in _BOOSTS
        }
        changes = [self._change(night) for night in tried.values()]
        usual = tried[self.weathers[1], _BOOSTS[1]]
        low, high = min(changes), max(changes)
        return SetbackOption(
            depth=condition(f"setback.by_{depth:.0f}.depth", "colder at night by", depth, "K",
                            why="chosen for the table"),
            cost_change=self._figure(depth, "cost_change", "change of the cost", (low + high) / 2,
                                     "%", uncertainty=(high - low) / 2),
            low=self._figure(depth, "low", "lowest change of the cost", low, "%"),
            high=self._figure(depth, "high", "highest change of the cost", high, "%"),
            hours_to_recover=self._figure(depth, "hours_to_recover",
                                          "hours until the rooms are warm again",
                                          float(usual.hours_to_recover) * 3600.0, "h"),
            lowest_temperature=self._figure(depth, "lowest_temperature",
                                            "lowest temperature of the rooms",
                                            float(usual.lowest_temperature), "°C"),
        )  # fmt: skip

    def _figure(
        self,
        depth: float,
        part: str,
        label: str,
        value: float,
        unit: str,
        *,
        uncertainty: float | None = None,
    ) -> KeyFigure:
        return calculated(
            f"setback.by_{depth:.0f}.{part}", f"{label}, night {depth:.0f} K colder", value, unit,
            formula="day with a colder night against a steady one, both repeating",
            inputs=(self.capacity, self.loss.coefficient, self.loss.base_temperature,
                    self.loss.indoor_temperature, self.curve.design_flow, self.curve.exponent),
            source="one thermal mass, emitters by EN 442, share of Carnot; derived",
            uncertainty=uncertainty, decimals=1,
            note="returns 3 to 6 K above the curve; weather 4 K either side of the season's mean",
        )  # fmt: skip

    def _change(self, night: SetbackNight) -> float:
        """Change of the cost where prices change over the day, else of the electricity."""
        cost = float(np.sum(night.electricity_by_hour * self.price_by_hour))
        steady = float(np.sum(night.steady_by_hour * self.price_by_hour))
        return cost / steady - 1.0

    def _try(self, depth: float, boost: float, outdoor: float) -> SetbackNight:
        curve, loss = self.curve.true_curve, self.loss
        half_drop = curve.design_drop / 2
        flow = self.curve.flow_temperature_at(outdoor)
        load = loss.coefficient.value * (loss.base_temperature.value - outdoor)
        share = heat_pump.relative_efficiency(
            outdoor, flow, float(self.fit.unit.efficiency(load, outdoor, flow))
        )
        return setback_night(
            coefficient=loss.coefficient.value,
            capacity=self.capacity.value,
            outdoor_temperature=outdoor,
            base_temperature=loss.base_temperature.value,
            room_temperature=curve.room_temperature,
            design_excess=curve.design_flow_temperature - half_drop - curve.room_temperature,
            design_output=loss.coefficient.value
            * (curve.base_temperature - curve.design_outdoor_temperature),
            flow_above_mean=half_drop,
            relative_efficiency=share,
            setback=depth,
            boost=boost,
            begins=self.begins,
            lasts=self.lasts,
            most_output=max(float(self.fit.unit.most(outdoor, flow + boost)), load),
            exponent=curve.exponent,
        )


def _price_by_hour(home: Home) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    """Price of each hour of the day; equal where no tariff is recorded."""
    if home.tariff is None:
        return np.ones(24)
    prices = np.array([band.price for band in band_by_hour(home.tariff)])
    means: np.ndarray[tuple[int], np.dtype[np.float64]] = prices.reshape(24, 2).mean(axis=1)
    return means if np.all(means > 0.0) else np.ones(24)


def _night_hours(home: Home) -> tuple[float, float]:
    """Hour the night begins, and hours it lasts, at least 1 and at most 16; as planned or usual."""
    planned = home.controls.setback
    if planned is None:
        return _BEGINS, _LASTS
    clocks = (planned.window.start, planned.window.end)
    first, last = (int(clock[:2]) + int(clock[3:]) / 60.0 for clock in clocks)
    return first, min(16.0, max(1.0, (last - first) % 24.0))


def _advised(options: tuple[SetbackOption, ...]) -> KeyFigure:
    good = [
        option
        for option in options
        if option.high.value < 0.0 and option.hours_to_recover.value <= _MOST_HOURS * 3600.0
    ]
    best = max(good, key=lambda option: -option.cost_change.value, default=None)
    return calculated(
        "setback.advised_depth", "colder night worth setting",
        best.depth.value if best else 0.0, "K",
        formula="the cheapest depth that is cheaper in every case tried and warm again within 5 h",
        inputs=tuple(part for option in options
                     for part in (option.low, option.high, option.hours_to_recover)),
        source="derived", decimals=0,
    )  # fmt: skip


def _verdict(options: tuple[SetbackOption, ...]) -> SetbackVerdict:
    if any(
        option.cost_change.value < -_CLEARLY and option.high.value < 0.0
        and option.hours_to_recover.value <= _MOST_HOURS * 3600.0
        for option in options
    ):  # fmt: skip
        return SetbackVerdict.PAYS
    if all(option.cost_change.value > _CLEARLY for option in options[1:]):
        return SetbackVerdict.COSTS
    return SetbackVerdict.LITTLE_EITHER_WAY
