"""A year of heating in numbers: heat, electricity and backup by month, at the home's own place."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hearthbook.design.heating_season import HeatingSeason
from hearthbook.design.unit_map import UnitMap
from hearthbook.physics.climate import monthly_bin_hours

__all__ = ["HeatingYear", "YearsNeed", "heating_year"]

_Curve = Callable[[float], float]


@dataclass(frozen=True)
class HeatingYear:
    """What the rooms take in a year; months are January first.

    Attributes:
        heat: in each month, J.
        electricity: of the unit and of the backup in each month, J.
        backup: heat the unit cannot give, in the year, J.
        hours: in each month on whose days heat is needed.
        running_hours: in which the unit runs, in the year; less than the former where it cycles.
        steady_hours: in which it runs without stopping, in the year.
        mean_outdoor: mean outdoor temperature of the year's heat, °C.
    """

    heat: NDArray[np.float64]
    electricity: NDArray[np.float64]
    backup: float
    hours: NDArray[np.float64]
    running_hours: float
    steady_hours: float
    mean_outdoor: float


@dataclass(frozen=True)
class YearsNeed:
    """What decides how much heat the rooms take in a year.

    Attributes:
        season: the days of the place by their means.
        coefficient: heat lost for each kelvin, W/K.
        base_temperature: outdoor temperature above which no heat is needed without sun, °C.
        sun: mean warmth from the sun in each month, W.
        heating_limit: outdoor mean of a day above which heating rests, °C.
    """

    season: HeatingSeason
    coefficient: float
    base_temperature: float
    sun: NDArray[np.float64]
    heating_limit: float


def heating_year(need: YearsNeed, flow_temperature_at: _Curve, unit: UnitMap) -> HeatingYear:
    """The year of a home on a curve, by the means of its days."""
    means = np.array([figure.value for figure in need.season.monthly_means])
    year = monthly_bin_hours(means, need.season.day_spreads)
    is_cold = year.temperatures < min(need.base_temperature, need.heating_limit)
    outdoor, hours = year.temperatures[is_cold], year.hours[:, is_cold]
    base = need.base_temperature - need.sun[:, np.newaxis] / need.coefficient
    load = np.maximum(0.0, need.coefficient * (base - outdoor))
    flow = np.array([flow_temperature_at(float(one)) for one in outdoor])
    own = np.minimum(load, unit.most(outdoor, flow))
    power = own / unit.efficiency(own, outdoor, flow) + (load - own)
    share = np.clip(load / np.maximum(unit.least(outdoor, flow), 1.0), 0.0, 1.0)
    heating = hours * (load > 0.0)
    heat = hours * load
    return HeatingYear(
        heat=heat.sum(axis=1) * 3600.0,
        electricity=np.sum(hours * power, axis=1) * 3600.0,
        backup=float(np.sum(hours * (load - own))) * 3600.0,
        hours=heating.sum(axis=1),
        running_hours=float(np.sum(heating * share)),
        steady_hours=float(np.sum(heating[share >= 1.0])),
        mean_outdoor=float(np.sum(heat * outdoor) / np.sum(heat)),
    )
