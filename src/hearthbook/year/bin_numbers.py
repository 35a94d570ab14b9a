"""The pack's numbers by the hours at each outdoor degree, for a home that cannot be simulated."""

from __future__ import annotations

import math

from hearthbook.design.heat_pump_fit import OutdoorDay
from hearthbook.design.results import Design
from hearthbook.documents.figures import KeyFigure
from hearthbook.year.pack_numbers import (
    NightNumbers,
    Outage,
    OutdoorNumbers,
    Return,
    Span,
    YearNumbers,
    YearTotals,
)

__all__ = ["numbers_by_hours"]

_DAY = 86_400.0  # s
_OUTDOOR = 5.0  # °C, that the design's times to cool and warm are stated for
_NIGHT = 7.0  # h, of a usual night in the design
_RISES = (1.0, 2.0, 3.0)  # K
_COOLED_AFTER = (2.0, 4.0, 8.0)  # h
_USUAL_DEFROST = (120.0, 210.0, 300.0)  # s; two to five minutes, common practice, no source
_AROUND = (60.0, 120.0)  # s, by which a defrost may be shorter or longer than the record says
_NOTHING = Span(0.0, 0.0, 0.0)


def numbers_by_hours(design: Design) -> YearNumbers:
    """The numbers the design itself has; rooms are not told apart in it."""
    fit = design.fit
    return YearNumbers(
        is_simulated=False,
        draws=0,
        seed=0,
        weather="hours at each outdoor temperature",
        is_generated=True,
        balance=0.0,
        totals=_totals(design),
        months=tuple(Span(m.low.value, m.electricity.value, m.high.value) for m in fit.monthly),
        days=tuple(_day(design, day) for day in fit.by_outdoor),
        nights=_nights(design),
        returns=tuple(
            Return(_OUTDOOR, rise, design.setback.recovery_time.value * rise / 2.0)
            for rise in _RISES
        ),
        outages=(_outage(design),),
        steady_below=fit.steady_below.value,
        rooms=(),
    )


def _span(figure: KeyFigure) -> Span:
    half = figure.uncertainty or 0.0
    return Span(max(figure.value - half, 0.0), figure.value, figure.value + half)


def _totals(design: Design) -> YearTotals:
    energy, cost = design.fit.energy, design.cost
    water = energy.efficiency_hot_water
    space = energy.electricity_space.value + energy.electricity_other.value
    return YearTotals(
        electricity=_span(energy.electricity_per_year),
        hot_water=_span(energy.electricity_hot_water),
        standby=_span(energy.standby_per_year),
        heat=_span(energy.heat_per_year),
        efficiency=_span(energy.seasonal_efficiency),
        hot_water_efficiency=_NOTHING if water is None else _span(water),
        cost=None if cost is None else _span(cost.year),
        degree=_span(energy.electricity_per_kelvin),
        degree_cost=None if cost is None else _span(cost.degree),
        degree_share=energy.electricity_per_kelvin.value / max(space, 1.0),
        backup_share=design.fit.backup_share.value,
        starts=_NOTHING,
        defrosts=_NOTHING,
    )


def _day(design: Design, day: OutdoorDay) -> OutdoorNumbers:
    used = Span(*(one.value * _DAY for one in (day.low, day.electricity, day.high)))
    price = None if design.cost is None else design.cost.price.value
    rates = [rate.value * 24.0 for rate in (day.defrosts_low, day.defrosts_high)]
    middle = sum(rates) / 2.0 * day.share_running.value
    drain = design.condensate
    water = drain.per_day.value * 1e3 if rates[1] > 0 else 0.0  # 1 kg/L
    return OutdoorNumbers(
        outdoor=day.outdoor.value,
        electricity=used,
        cost=None
        if price is None
        else Span(used.low * price, used.middle * price, used.high * price),
        flow=day.flow_temperature.value,
        run_share=min(day.share_running.value, 1.0),
        defrosts=Span(rates[0] * day.share_running.value, middle, rates[1]),
        defrost_seconds=_defrost_length(design) if rates[1] > 0 else None,
        water=Span(0.0, water / 2.0, water),
    )


def _defrost_length(design: Design) -> Span:
    length = design.home.plant.heat_pump.defrost_length
    if length is None:
        return Span(*_USUAL_DEFROST)
    return Span(max(length - _AROUND[0], 60.0), length, length + _AROUND[1])


def _nights(design: Design) -> tuple[NightNumbers, ...]:
    energy, cost = design.fit.energy.electricity_space.value, design.cost
    money = None if cost is None else cost.space.value
    steady = NightNumbers(
        depth=0.0,
        hours=_NIGHT,
        electricity=_NOTHING,
        cost=None if money is None else _NOTHING,
        share=_NOTHING,
        coldest=design.heat_loss.indoor_temperature.value,
        coldest_room="",
        recovery=_NOTHING,
    )
    found = [steady]
    for option in design.setback.options:
        share = Span(option.low.value, option.cost_change.value, option.high.value)
        hours = option.hours_to_recover.value
        found.append(
            NightNumbers(
                depth=option.depth.value,
                hours=_NIGHT,
                electricity=_times(share, energy),
                cost=None if money is None else _times(share, money),
                share=share,
                coldest=option.lowest_temperature.value,
                coldest_room="",
                recovery=Span(hours, hours, hours),
            )
        )
    return tuple(found)


def _times(span: Span, factor: float) -> Span:
    return Span(span.low * factor, span.middle * factor, span.high * factor)


def _outage(design: Design) -> Outage:
    above = max(design.heat_loss.base_temperature.value - _OUTDOOR, 1.5)
    constant = design.setback.time_constant.value
    lost = [above * (1.0 - math.exp(-hours * 3600.0 / constant)) for hours in _COOLED_AFTER]
    warm = design.setback.recovery_time.value / 2.0 * lost[2]
    return Outage(_OUTDOOR, lost[0], lost[1], lost[2], warm)
