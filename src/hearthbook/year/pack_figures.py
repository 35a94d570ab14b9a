"""The pack's numbers as figures with their workings, for the engineer's report."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from hearthbook.design.energy_by_month import MONTHS
from hearthbook.design.results import Design
from hearthbook.documents.figures import KeyFigure, calculated
from hearthbook.units import shown
from hearthbook.year.bands import Band
from hearthbook.year.pack_numbers import NightNumbers, OutdoorNumbers, Span, YearNumbers, YearTotals
from hearthbook.year.uncertainties import spreads_of

__all__ = ["DayFigures", "NightFigures", "PackYear", "year_facts"]

_DAY = 86_400.0  # s
_DEGREE_FORMULA = (
    "the same years with rooms wanted 1 K warmer and the curve raised to carry it, less the years "
    "as they are"
)


@dataclass(frozen=True)
class DayFigures:
    """A day of a mean outdoor temperature.

    Attributes:
        name: of the temperature, such as `−3 °C`.
        electricity: as a mean power of the day.
        flow: mean flow temperature while heating; None where rooms are hardly heated.
        run_share: of the time.
        defrosts: in an hour.
        defrost_length: of one; None where there are none.
        water: that runs off the outdoor unit in a day.
    """

    name: str
    electricity: Band
    flow: KeyFigure | None
    run_share: KeyFigure
    defrosts: Band
    defrost_length: KeyFigure | None
    water: Band


@dataclass(frozen=True)
class NightFigures:
    """A colder night.

    Attributes:
        depth: how much colder, in K.
        hours: how long.
        electricity: change in a year.
        cost: its change; None without a tariff.
        coldest: room that suffers most, one winter morning in ten being colder.
        recovery: until all rooms are warm, middle of winter's mornings.
        recovery_cold: nine mornings in ten are quicker.
    """

    depth: float
    hours: float
    electricity: Band
    cost: Band | None
    coldest: KeyFigure
    recovery: KeyFigure
    recovery_cold: KeyFigure


@dataclass(frozen=True)
class PackYear:
    """Everything the pack says of the year.

    Attributes:
        is_simulated: minute by minute; otherwise the estimate by hours at each outdoor degree.
        electricity: of a year, all counted.
        hot_water: of it for hot water.
        standby: of it for standing by.
        heat: for rooms and hot water.
        efficiency: seasonal.
        cost: without the standing charge; None without a tariff.
        degree: electricity of a year for rooms 1 K warmer.
        degree_cost: its cost; None without a tariff.
        starts: in a day of the heating season.
        defrosts: in a year.
        months: electricity, January first.
        days: by outdoor temperature.
        nights: colder ones.
        returns: after days kept colder.
        lost: K lost in 2, 4 and 8 hours without heat, at each outdoor temperature.
        warm_after: eight hours without heat, at each outdoor temperature.
        rooms: mean over the coldest six weeks, valves as recorded; none where not told apart.
        above_wanted: by which they are warmer than wanted, mean by floor area; None likewise.
        due_to_warmth: electricity of a year that this takes; None likewise.
    """

    is_simulated: bool
    electricity: Band
    hot_water: Band
    standby: Band
    heat: Band
    efficiency: Band
    cost: Band | None
    degree: Band
    degree_cost: Band | None
    starts: Band
    defrosts: Band
    months: tuple[Band, ...]
    days: tuple[DayFigures, ...]
    nights: tuple[NightFigures, ...]
    returns: tuple[KeyFigure, ...]
    lost: tuple[KeyFigure, ...]
    warm_after: tuple[KeyFigure, ...]
    rooms: tuple[KeyFigure, ...]
    above_wanted: KeyFigure | None
    due_to_warmth: KeyFigure | None


def year_facts(design: Design, numbers: YearNumbers) -> PackYear:
    """The pack's numbers as figures.

    Args:
        design: of the home.
        numbers: of its years.
    """
    figures = _Figures(design, numbers)
    money = "" if design.home.tariff is None else design.home.tariff.currency
    return PackYear(
        is_simulated=numbers.is_simulated,
        **_of_year(figures, numbers.totals),
        **_of_money(figures, numbers.totals, money),
        months=tuple(
            figures.reach(
                f"months.{name.lower()}", f"electricity in {name}", month, "kWh",
                "sum over the month's minutes",
            )
            for name, month in zip(MONTHS, numbers.months, strict=True)
        ),
        days=tuple(_day(figures, day) for day in numbers.days),
        nights=tuple(_night(figures, night, money) for night in numbers.nights if night.depth),
        returns=_returns(figures, numbers),
        lost=_lost(figures, numbers),
        warm_after=_warm_after(figures, numbers),
        **_rooms(figures, design, numbers),
    )  # fmt: skip


def _of_year(figures: _Figures, totals: YearTotals) -> dict[str, Any]:
    """Figures of a whole year, energy and counts."""
    summed = "sum over the minutes"
    return {
        name: figures.reach(name, label, span, unit, formula, decimals)
        for name, label, span, unit, formula, decimals in (
            ("electricity", "electricity of a year, all counted", totals.electricity, "kWh",
             summed, None),
            ("hot_water", "electricity of a year for hot water", totals.hot_water, "kWh",
             "compressor while making hot water + immersion heater", None),
            ("standby", "electricity of a year for standing by", totals.standby, "kWh", summed,
             None),
            ("heat", "heat of a year for rooms and hot water", totals.heat, "kWh",
             "heat of the unit and the heaters - what defrosts take back", None),
            ("efficiency", "seasonal efficiency, all counted", totals.efficiency, "",
             "heat / electricity", None),
            ("degree", "electricity of a year for all rooms 1 K warmer", totals.degree, "kWh",
             _DEGREE_FORMULA, None),
            ("starts", "starts of the compressor in a day of the heating season", totals.starts,
             "", "starts / days with heating", 1),
            ("defrosts", "defrosts in a year", totals.defrosts, "", summed, 0),
        )
    }  # fmt: skip


def _of_money(figures: _Figures, totals: YearTotals, money: str) -> dict[str, Any]:
    """Figures of money; None without a tariff."""
    return {
        "cost": None if totals.cost is None else figures.money(
            "cost", "cost of a year, without the standing charge", totals.cost, money,
            "sum over the minutes of electricity · price of the minute"),
        "degree_cost": None if totals.degree_cost is None else figures.money(
            "degree_cost", "cost of all rooms 1 K warmer for a year", totals.degree_cost, money,
            "as the electricity, at the price of each minute"),
    }  # fmt: skip


def _warm_after(figures: _Figures, numbers: YearNumbers) -> tuple[KeyFigure, ...]:
    return tuple(
        figures.of(f"outage.{_stem(one.outdoor)}.warm_after", "rooms warm again after eight hours "
                   f"without heat, {shown(one.outdoor, '°C', 0)} outside", one.warm_after, "h",
                   "until every room is within 0.5 K of what is wanted, the curve as it stands")
        for one in numbers.outages
    )  # fmt: skip


class _Figures:
    """Makes figures that rest on the same years."""

    def __init__(self, design: Design, numbers: YearNumbers) -> None:
        loss, curve, fit = design.heat_loss, design.curve, design.fit
        self.inputs: tuple[KeyFigure, ...] = (
            loss.coefficient, loss.base_temperature, curve.design_flow, fit.capacity_at_design,
        )  # fmt: skip
        self.source = "by hours at each outdoor temperature"
        if numbers.is_simulated:
            self.inputs = (_years(design, numbers, self.inputs),)
            self.source = "simulated"
        self.prices = () if design.cost is None else (design.cost.price,)

    def of(  # noqa: PLR0913, PLR0917 - a figure has these parts
        self,
        name: str,
        label: str,
        value: float,
        unit: str,
        formula: str,
        decimals: int | None = None,
        more: tuple[KeyFigure, ...] = (),
    ) -> KeyFigure:
        """One figure."""
        return calculated(
            f"year.pack.{name}", label, value, unit, formula=formula,
            inputs=(*self.inputs, *more), source=self.source, decimals=decimals,
        )  # fmt: skip

    def reach(  # noqa: PLR0913, PLR0917 - likewise
        self,
        name: str,
        label: str,
        span: Span,
        unit: str,
        formula: str,
        decimals: int | None = None,
        more: tuple[KeyFigure, ...] = (),
    ) -> Band:
        """Three figures: what one in ten, five in ten and nine in ten lie below."""
        ends = (
            ("low", "P10", span.low),
            ("middle", "P50", span.middle),
            ("high", "P90", span.high),
        )
        return Band(
            *(
                self.of(f"{name}.{end}", f"{label}, {share}", value, unit, formula, decimals, more)
                for end, share, value in ends
            )
        )

    def money(self, name: str, label: str, span: Span, unit: str, formula: str) -> Band:
        """Three figures of money."""
        return self.reach(name, label, span, unit, formula, 0, self.prices)


def _years(design: Design, numbers: YearNumbers, inputs: tuple[KeyFigure, ...]) -> KeyFigure:
    """What every simulated figure rests on."""
    return calculated(
        "year.pack.draws", "years simulated", numbers.draws, "", decimals=0,
        formula="homes the record may mean, each run minute by minute through a year of weather",
        inputs=(*inputs, *spreads_of(design).figures),
        source=f"seed {numbers.seed}; weather: {numbers.weather}",
        note="heat and water of every year balance to 1 part in 10^6 or better",
    )  # fmt: skip


def _day(figures: _Figures, day: OutdoorNumbers) -> DayFigures:
    at = shown(day.outdoor, "°C", 0)
    stem = f"at_{_stem(day.outdoor)}"
    said = f"on a day of {at} outside"
    length = day.defrost_seconds
    return DayFigures(
        name=at,
        electricity=figures.reach(f"{stem}.electricity", f"electricity {said}",
                                  _over(day.electricity, _DAY), "kWh/day",
                                  "days whose mean is within 1 K"),
        flow=None if day.flow is None else figures.of(
            f"{stem}.flow", f"mean flow temperature while heating {said}", day.flow, "°C",
            "mean over the minutes of heating"),
        run_share=figures.of(f"{stem}.run_share", f"share of the time the unit runs {said}",
                             day.run_share, "%", "time running / time"),
        defrosts=figures.reach(f"{stem}.defrosts", f"defrosts in an hour {said}",
                               _over(day.defrosts, 24.0), "1/h", "defrosts / time"),
        defrost_length=None if length is None else figures.of(
            f"{stem}.defrost_length", f"length of a defrost {said}", length.middle, "min",
            "time defrosting / defrosts"),
        water=figures.reach(f"{stem}.water", f"water that runs off the outdoor unit {said}",
                            _over(day.water, 1e3), "L", "meltwater + dew, at 1 kg/L"),
    )  # fmt: skip


def _night(figures: _Figures, night: NightNumbers, money: str) -> NightFigures:
    stem = f"night.by_{night.depth:.0f}_for_{night.hours:.0f}"
    said = f"a night of {night.hours:.0f} h colder by {night.depth:.0f} K"
    formula = "the same years with the colder nights, less the steady ones"
    return NightFigures(
        depth=night.depth,
        hours=night.hours,
        electricity=figures.reach(f"{stem}.electricity", f"change of a year's electricity, {said}",
                                  night.electricity, "kWh", formula),
        cost=None if night.cost is None else figures.money(
            f"{stem}.cost", f"change of a year's cost, {said}", night.cost, money, formula),
        coldest=figures.of(f"{stem}.coldest", f"room that suffers most in the morning, {said}",
                           night.coldest, "°C", "one winter morning in ten is colder"),
        recovery=figures.of(f"{stem}.recovery", f"until all rooms are warm again, {said}",
                            night.recovery.middle, "h",
                            "until every room is within 0.5 K of what is wanted"),
        recovery_cold=figures.of(f"{stem}.recovery_cold",
                                 f"the same on the coldest tenth of mornings, {said}",
                                 night.recovery.high, "h", "nine mornings in ten are quicker"),
    )  # fmt: skip


def _returns(figures: _Figures, numbers: YearNumbers) -> tuple[KeyFigure, ...]:
    return tuple(
        figures.of(f"return.from_{one.rise:.0f}_at_{_stem(one.outdoor)}",
                   f"rooms warm again after days {one.rise:.0f} K colder, "
                   f"{shown(one.outdoor, '°C', 0)} outside", one.seconds, "h",
                   "until every room is within 0.5 K of what is wanted, the curve as it stands")
        for one in numbers.returns
    )  # fmt: skip


def _lost(figures: _Figures, numbers: YearNumbers) -> tuple[KeyFigure, ...]:
    return tuple(
        figures.of(f"outage.{_stem(one.outdoor)}.lost_in_{hours}",
                   f"rooms colder after {hours} h without heat, "
                   f"{shown(one.outdoor, '°C', 0)} outside", lost, "K",
                   "the home left alone less the home without heat, mean of the rooms")
        for one in numbers.outages
        for hours, lost in ((2, one.lost_in_two_hours), (4, one.lost_in_four_hours),
                            (8, one.lost_in_eight_hours))
    )  # fmt: skip


def _rooms(figures: _Figures, design: Design, numbers: YearNumbers) -> dict[str, Any]:
    """How warm the rooms are in winter, and what being warmer than wanted takes."""
    if not numbers.rooms:
        return {"rooms": (), "above_wanted": None, "due_to_warmth": None}
    loss = design.heat_loss
    rooms = tuple(
        figures.of(f"rooms.{room.id}", f"{loss.room(room.id).room.name}, mean of winter",
                   room.mean, "°C", "mean over the coldest six weeks, valves as recorded")
        for room in numbers.rooms
    )  # fmt: skip
    areas = [loss.room(room.id).floor_area for room in numbers.rooms]
    wanted = tuple(loss.room(room.id).temperature for room in numbers.rooms)
    excess = sum(
        area.value * (room.mean - room.wanted)
        for area, room in zip(areas, numbers.rooms, strict=True)
    ) / sum(area.value for area in areas)
    above = calculated(
        "year.pack.above_wanted", "rooms warmer than wanted in winter, by floor area", excess, "K",
        formula="Σ floor area · (mean - wanted) / Σ floor area",
        inputs=(*rooms, *wanted, *areas), source="arithmetic",
    )  # fmt: skip
    degree = numbers.totals.degree.middle
    more = figures.of("degree.middle", "electricity of a year for all rooms 1 K warmer, P50",
                      degree, "kWh", _DEGREE_FORMULA)  # fmt: skip
    due = calculated(
        "year.pack.due_to_warmth", "electricity of a year that rooms warmer than wanted take",
        excess * degree, "kWh", formula="rooms above wanted · electricity for 1 K",
        inputs=(above, more), source="arithmetic",
    )  # fmt: skip
    return {"rooms": rooms, "above_wanted": above, "due_to_warmth": due}


def _over(span: Span, divisor: float) -> Span:
    return Span(span.low / divisor, span.middle / divisor, span.high / divisor)


def _stem(degree: float) -> str:
    return f"minus_{-degree:.0f}" if degree < 0 else f"{degree:.0f}"
