"""The whole design of one home, computed from its record in one go."""

from __future__ import annotations

from dataclasses import dataclass

from hearthbook.design.condensate import Condensate, condensate
from hearthbook.design.emitters import EmitterSchedule, emitter_schedule
from hearthbook.design.expansion import Expansion, expansion
from hearthbook.design.heat_loss import HeatLoss, heat_loss
from hearthbook.design.heat_pump_fit import HeatPumpFit, heat_pump_fit
from hearthbook.design.hot_water import HotWater, hot_water
from hearthbook.design.hydraulics import Hydraulics, hydraulics
from hearthbook.design.running_cost import RunningCost, running_cost
from hearthbook.design.setback import Setback, setback
from hearthbook.design.sound import NeighbourSound, sound
from hearthbook.design.water_volume import WaterVolume, water_volume
from hearthbook.design.weather_curve import WeatherCurve, weather_curve
from hearthbook.record.home import Home
from hearthbook.survey.unknowns import Unknown, unknowns

__all__ = ["Design", "design_home"]


@dataclass(frozen=True)
class Design:
    """Everything the design of a home says.

    Attributes:
        home: the record it was computed from.
        heat_loss: room by room.
        emitters: what each emitter gives, and which rooms decide.
        curve: the weather curve, and the set curve against it.
        volume: water in the system, and what stays open.
        expansion: vessel, pressures, the marks of the gauge.
        hydraulics: flows, velocities, pressure losses.
        hot_water: stored, reheated, lost; None where there is no cylinder.
        fit: the heat pump against the home.
        cost: running cost; None without a tariff.
        sound: level at each neighbour's window.
        condensate: water under the outdoor unit.
        setback: whether a colder night pays.
        unknowns: answers that nobody may assume.
    """

    home: Home
    heat_loss: HeatLoss
    emitters: EmitterSchedule
    curve: WeatherCurve
    volume: WaterVolume
    expansion: Expansion
    hydraulics: Hydraulics
    hot_water: HotWater | None
    fit: HeatPumpFit
    cost: RunningCost | None
    sound: tuple[NeighbourSound, ...]
    condensate: Condensate
    setback: Setback
    unknowns: tuple[Unknown, ...]


def design_home(home: Home) -> Design:
    """The design of a home.

    Raises:
        OutOfRange: the record's figures leave what a method allows.
        Incomplete: a fact the whole design rests on is missing and nobody may assume it.
    """
    loss = heat_loss(home)
    emitters = emitter_schedule(home, loss)
    curve = weather_curve(home, loss, emitters)
    volume = water_volume(home, emitters)
    fit = heat_pump_fit(home, loss, curve)
    return Design(
        home=home,
        heat_loss=loss,
        emitters=emitters,
        curve=curve,
        volume=volume,
        expansion=expansion(home, volume, emitters),
        hydraulics=hydraulics(home, loss, emitters),
        hot_water=hot_water(home, fit),
        fit=fit,
        cost=running_cost(home, fit),
        sound=sound(home),
        condensate=condensate(home, loss, fit),
        setback=setback(home, loss, fit, curve),
        unknowns=unknowns(home),
    )
