"""How the unit lives: starts, runs, defrosts, meltwater, the heaters' part and its stops."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from hearthbook.documents.figures import KeyFigure, condition
from hearthbook.year.by_outdoor import OutdoorGroup
from hearthbook.year.home_year import HomeYear
from hearthbook.year.minutes import Minutes
from hearthbook.year.standing import Standing

__all__ = ["FrostLife", "Steady", "Taps", "UnitLife", "unit_life"]

_STEADY_SHARE = 0.95  # of the time running; the rest are the rests that controls ask for; derived
_ALL = 1.0 - 1e-9
_HOUR_SLOTS = 4
_LITRES = 1e-3  # m³ for each kg, water near 0 °C
_DAY_HOURS = 24.0


@dataclass(frozen=True)
class Steady:
    """How much of the heating goes on without a stop.

    Attributes:
        share_of_hours: of the hours with heating, those in which the compressor never stopped.
        below: warmest outdoor temperature at which, as at every colder one, it hardly rests; None
            where it rests at the coldest too.
    """

    share_of_hours: KeyFigure
    below: KeyFigure | None


@dataclass(frozen=True)
class FrostLife:
    """What frost does.

    Attributes:
        defrosts: how many.
        length: of a mean one; None without any.
        water: meltwater of a mean one; None without any.
        meltwater: all frost that melted.
        condensate: dew in air above freezing.
    """

    defrosts: KeyFigure
    length: KeyFigure | None
    water: KeyFigure | None
    meltwater: KeyFigure
    condensate: KeyFigure


@dataclass(frozen=True)
class Taps:
    """Warm water drawn.

    Attributes:
        drawn: mixed water.
        short: of it, more than 2 K colder than wanted.
    """

    drawn: KeyFigure
    short: KeyFigure


@dataclass(frozen=True)
class UnitLife:
    """How the unit lives.

    Attributes:
        starts: of the compressor.
        starts_a_day: mean of all days.
        run_mean: length of a run; None where it never ran, as for the next two.
        run_shortest: of the shortest whole run.
        run_longest: of the longest.
        run_share: of all time in which the compressor runs.
        frost: what it does.
        backup_time: the backup heater was on.
        low_flow_time: the unit stood still because too few valves were open.
        taps: warm water drawn; None without a cylinder.
        steady: how much goes on without a stop.
    """

    starts: KeyFigure
    starts_a_day: KeyFigure
    run_mean: KeyFigure | None
    run_shortest: KeyFigure | None
    run_longest: KeyFigure | None
    run_share: KeyFigure
    frost: FrostLife
    backup_time: KeyFigure
    low_flow_time: KeyFigure
    taps: Taps | None
    steady: Steady | None


def unit_life(
    standing: Standing, year: HomeYear, minutes: Minutes, groups: tuple[OutdoorGroup, ...]
) -> UnitLife:
    """How the unit lived in a year."""
    total, span = year.run.total, standing.span
    hours = total("seconds") / 3600.0
    starts = _counted(standing, "starts", "starts of the compressor", total("starts"))
    lengths = _run_lengths(standing, minutes)
    return UnitLife(
        starts=starts,
        starts_a_day=standing.figure(
            "unit.starts_a_day", "starts a day, mean of all days", total("starts") / hours,
            "1/day", formula="starts / days", inputs=(starts,)),
        run_mean=lengths[0],
        run_shortest=lengths[1],
        run_longest=lengths[2],
        run_share=standing.figure(
            "unit.run_share", f"share of time the compressor runs {span}",
            total("run_seconds") / total("seconds"), "%", formula="time running / time"),
        frost=_frost(standing, year, minutes),
        backup_time=_time(standing, "backup_time", "backup heater on", total("backup_seconds")),
        low_flow_time=_time(standing, "low_flow_time", "stopped for too few open valves",
                            total("low_flow_seconds")),
        taps=_taps(standing, year),
        steady=_steady(standing, minutes, groups),
    )  # fmt: skip


def _counted(standing: Standing, name: str, label: str, count: float) -> KeyFigure:
    return standing.figure(
        f"unit.{name}", f"{label} {standing.span}", count / standing.years, "",
        formula="counted", decimals=0,
    )  # fmt: skip


def _time(standing: Standing, name: str, label: str, seconds: float) -> KeyFigure:
    return standing.figure(
        f"unit.{name}", f"{label} {standing.span}", seconds / standing.years, "h",
        formula="minutes counted",
    )  # fmt: skip


def _run_lengths(
    standing: Standing, minutes: Minutes
) -> tuple[KeyFigure | None, KeyFigure | None, KeyFigure | None]:
    """Mean, shortest and longest; a run that the run's edges cut is no shortest one."""
    if not minutes.runs.size:
        return None, None, None
    end = minutes.electricity.size * 15
    is_whole = (minutes.starts > 0) & (minutes.starts + minutes.runs / 60.0 < end)
    whole = minutes.runs[is_whole] if is_whole.any() else minutes.runs

    def length(name: str, label: str, value: float, formula: str) -> KeyFigure:
        unit = "h" if value >= 5.0 * 3600.0 else "min"
        return standing.figure(f"unit.{name}", label, value, unit, formula=formula)

    return (
        length("run_mean", "mean length of a run", float(minutes.runs.mean()),
               "time running / runs"),
        length("run_shortest", "shortest run", float(whole.min()), "least"),
        length("run_longest", "longest run", float(minutes.runs.max()),
               "most; defrosts do not end a run"),
    )  # fmt: skip


def _frost(standing: Standing, year: HomeYear, minutes: Minutes) -> FrostLife:
    total = year.run.total
    count = total("defrosts")
    defrosts = _counted(standing, "defrosts", "defrosts", count)
    meltwater = standing.figure(
        "unit.meltwater", f"meltwater {standing.span}", total("meltwater") * _LITRES
        / standing.years, "L", formula="frost melted by defrosts and in mild air", decimals=0,
    )  # fmt: skip
    length = water = None
    if count:
        length = standing.figure(
            "unit.defrost_length", "length of a defrost, mean", total("defrost_seconds") / count,
            "min", formula="time defrosting / defrosts", decimals=1,
        )  # fmt: skip
        water = standing.figure(
            "unit.defrost_water", "meltwater of a defrost, mean",
            minutes.defrosted * _LITRES / count, "L",
            formula="frost gone in minutes of defrosting / defrosts",
            inputs=(standing.run, defrosts),
        )  # fmt: skip
    condensate = standing.figure(
        "unit.condensate", f"dew off the coil in air above freezing {standing.span}",
        total("condensate") * _LITRES / standing.years, "L", formula="sum over the minutes",
        decimals=0,
    )  # fmt: skip
    return FrostLife(defrosts, length, water, meltwater, condensate)


def _taps(standing: Standing, year: HomeYear) -> Taps | None:
    if year.model.design.hot_water is None:
        return None
    at = float(year.model.home.plant["draw_temperature"][0])
    warmth = condition("year.draw_temperature", "mixed water at the taps", at, "°C",
                       why="what is wanted at a tap")  # fmt: skip
    drawn = float(year.drivers.draws.sum()) * float(year.model.home.plant["draw_factor"][0])
    return Taps(
        drawn=standing.figure(
            "unit.hot_water_drawn", f"warm water drawn {standing.span}",
            drawn * _LITRES / standing.years, "L", formula="sum of all draws",
            inputs=(standing.run, warmth), decimals=0),
        short=standing.figure(
            "unit.short_water", f"of it more than 2 K too cold {standing.span}",
            year.run.total("short_water") * _LITRES / standing.years, "L",
            formula="sum of the minutes in which the cylinder's top was too cold for it",
            inputs=(standing.run, warmth), decimals=0),
    )  # fmt: skip


def _steady(
    standing: Standing, minutes: Minutes, groups: tuple[OutdoorGroup, ...]
) -> Steady | None:
    """None where no hour had any heating."""
    heated, ran = (
        values[: values.size // _HOUR_SLOTS * _HOUR_SLOTS].reshape(-1, _HOUR_SLOTS)
        for values in (minutes.is_heating, minutes.running)
    )
    with_heat = heated.max(axis=1) > 0.0
    if not with_heat.any():
        return None
    share = float(np.mean(ran[with_heat].min(axis=1) >= _ALL))
    steady = []
    for group in groups:
        if group.run_share.value < _STEADY_SHARE:
            break
        steady.append(group)
    return Steady(
        share_of_hours=standing.figure(
            "unit.steady_share", "share of heating hours in which it never stops", share, "%",
            formula="hours with heating in which the compressor ran all 60 minutes, over all with "
            "heating"),
        below=standing.figure(
            "unit.steady_below", "outdoor temperature below which it hardly rests",
            float(steady[-1].high), "°C",
            formula="warmest degree up to which the compressor runs 95 % of the time and more",
            inputs=tuple(group.run_share for group in steady), decimals=0) if steady else None,
    )  # fmt: skip
