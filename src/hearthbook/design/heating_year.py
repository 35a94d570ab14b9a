"""A year of heating in numbers: heat, electricity and backup by month, at the home's own place."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hearthbook.design.heating_season import HeatingSeason
from hearthbook.design.unit_map import UnitMap
from hearthbook.physics.climate import monthly_bin_hours

__all__ = ["HeatingYear", "heating_year"]

Curve = Callable[[float], float]


@dataclass(frozen=True)
class HeatingYear:
    """What the rooms take in a year; months are January first.

    Attributes:
        heat: in each month, J.
        electricity: of the unit and of the backup in each month, J.
        backup: heat the unit cannot give, in the year, J.
        hours: in each month in which heat is needed.
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


def heating_year(
    season: HeatingSeason,
    coefficient: float,
    base_temperature: float,
    flow_temperature_at: Curve,
    unit: UnitMap,
) -> HeatingYear:
    """The year of a home on a curve.

    Args:
        season: the hours of the place.
        coefficient: heat lost for each kelvin.
        base_temperature: outdoor temperature above which no heat is needed.
        flow_temperature_at: the curve.
        unit: the heat pump.
    """
    means = np.array([figure.value for figure in season.monthly_means])
    year = monthly_bin_hours(means, season.spread.value)
    is_cold = year.temperatures < base_temperature
    outdoor, hours = year.temperatures[is_cold], year.hours[:, is_cold]
    load = coefficient * (base_temperature - outdoor)
    flow = np.array([flow_temperature_at(float(one)) for one in outdoor])
    own = np.minimum(load, unit.most(outdoor, flow))
    power = own / unit.efficiency(own, outdoor, flow) + (load - own)
    share = np.clip(load / np.maximum(unit.least(outdoor, flow), 1.0), 0.0, 1.0)
    total = hours.sum(axis=0)
    heat = total * load
    return HeatingYear(
        heat=hours @ load * 3600.0,
        electricity=hours @ power * 3600.0,
        backup=float(total @ (load - own) * 3600.0),
        hours=hours.sum(axis=1),
        running_hours=float(total @ share),
        steady_hours=float(total[share >= 1.0].sum()),
        mean_outdoor=float(np.sum(heat * outdoor) / np.sum(heat)),
    )
