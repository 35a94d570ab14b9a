"""A heating season of bins: heat, electricity and efficiency to EN 14825."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from hearthbook.errors import check_between
from hearthbook.units import Celsius, Hours, Joules, Ratio, Watts

__all__ = [
    "HEATING_LIMIT",
    "SeasonalResult",
    "energy_label_percentage",
    "flow_temperature_of_application",
    "part_load_ratio",
    "seasonal_efficiency",
    "seasonal_efficiency_with_standby",
]

HEATING_LIMIT = 16.0  # °C; EN 14825, outdoor temperature above which the reference needs no heat

_PRIMARY_ENERGY = 2.5  # EN 14825 and EU 811/2013: conversion coefficient of electricity
_CONTROL_CORRECTION = 0.03  # EN 14825: F(1), temperature control; F(2) is 0 for air

# °C; the standard's points of the average climate, and 16 °C, where the last slope ends
_APPLICATION_OUTDOOR = np.array([-10.0, -7.0, 2.0, 7.0, 12.0, 16.0])
# °C of flow; variable outlet temperatures of EN 14825, average climate. From memory.
_APPLICATION_FLOW = {
    35: np.array([35.0, 34.0, 30.0, 27.0, 24.0, 21.6]),
    55: np.array([55.0, 52.0, 42.0, 36.0, 30.0, 25.2]),
}


@dataclass(frozen=True)
class SeasonalResult:
    """What a season of bins adds up to.

    Attributes:
        efficiency: heat over electricity, electric backup counted.
        efficiency_without_backup: the heat pump's own heat over its own electricity.
        heat: delivered in the season, backup included.
        electricity: used in the season, backup included.
        backup: given by the electric backup.
    """

    efficiency: Ratio
    efficiency_without_backup: Ratio
    heat: Joules
    electricity: Joules
    backup: Joules


def part_load_ratio(outdoor_temperature: Celsius, design_temperature: Celsius) -> Ratio:
    """The share of the design load at an outdoor temperature, as the standard counts it.

    Args:
        outdoor_temperature: of the bin.
        design_temperature: of the reference climate, below 16 °C.

    Source:
        EN 14825: (T - 16) / (Tdesign - 16).

    Example:
        >>> round(part_load_ratio(-7.0, -10.0), 4)
        0.8846
    """
    return (outdoor_temperature - HEATING_LIMIT) / (design_temperature - HEATING_LIMIT)


def flow_temperature_of_application(
    outdoor_temperature: Celsius, application: Literal[35, 55]
) -> Celsius:
    """The flow temperature at which the standard rates a unit in the average climate.

    Args:
        outdoor_temperature: of the bin.
        application: 35 for low, 55 for medium temperature.

    Assumes:
        Straight lines between the standard's points, held beyond -10 and 16 °C.

    Source:
        EN 14825, variable outlet, average climate: 35/34/30/27/24 and 55/52/42/36/30 °C at
        -10/-7/2/7/12 °C. From memory.

    Example:
        >>> flow_temperature_of_application(2.0, 55), flow_temperature_of_application(-10.0, 35)
        (42.0, 35.0)
    """
    flows = _APPLICATION_FLOW[application]
    found = np.interp(np.asarray(outdoor_temperature, dtype=float), _APPLICATION_OUTDOOR, flows)
    return found if np.ndim(found) else float(found)


def seasonal_efficiency(
    hours: Hours, load: Watts, capacity: Watts, efficiency: Ratio
) -> SeasonalResult:
    """Heat, electricity and efficiency of a season sorted into bins.

    Args:
        hours: in each bin.
        load: heat needed in each bin, not negative.
        capacity: most the heat pump can give in each bin.
        efficiency: of the heat pump in each bin, above 0.

    Shapes:
        All four have one length.

    Raises:
        OutOfRange: no heat is needed in any bin, or an efficiency is not above 0.

    Assumes:
        What the heat pump cannot give comes from an electric backup of efficiency 1.

    Source:
        EN 14825, reference SCOPon and SCOPnet.

    Example:
        >>> import numpy as np
        >>> result = seasonal_efficiency(
        ...     np.array([10.0]), np.array([6000.0]), np.array([5000.0]), np.array([2.5]))
        >>> result.efficiency, result.efficiency_without_backup
        (2.0, 2.5)
    """
    ratio = np.asarray(efficiency, dtype=float)
    check_between("efficiency in a bin", ratio, 0.05, 50.0, "")
    seconds = np.asarray(hours, dtype=float) * 3600.0
    own = np.minimum(np.asarray(load, dtype=float), capacity)
    heat = float(np.sum(seconds * load))
    check_between("heat of the season", heat, 1.0, 1e15, "J")
    own_heat, own_electricity = float(np.sum(seconds * own)), float(np.sum(seconds * own / ratio))
    backup = heat - own_heat
    electricity = own_electricity + backup
    own_efficiency = own_heat / own_electricity if own_electricity > 0.0 else 1.0
    return SeasonalResult(heat / electricity, own_efficiency, heat, electricity, backup)


def seasonal_efficiency_with_standby(
    seasonal_efficiency: Ratio, heat: Joules, standby: Joules
) -> Ratio:
    """The seasonal efficiency with what the unit draws while it does not heat.

    Args:
        seasonal_efficiency: while heating, backup counted.
        heat: of the season; the standard's is design load times equivalent hours.
        standby: electricity of all hours without heating.

    Source:
        EN 14825: SCOP = QH / (QH / SCOPon + standby electricity).

    Example:
        >>> seasonal_efficiency_with_standby(4.0, 4000.0, 0.0)
        4.0
    """
    return heat / (heat / seasonal_efficiency + standby)


def energy_label_percentage(seasonal_efficiency: Ratio) -> Ratio:
    """The seasonal space-heating efficiency printed on an energy label, as a share.

    Args:
        seasonal_efficiency: with standby, to EN 14825.

    Source:
        EN 14825 and EU 811/2013: SCOP / 2.5 - 3 % for a unit with air as its source.

    Example:
        >>> round(energy_label_percentage(3.785), 3)
        1.484
    """
    return seasonal_efficiency / _PRIMARY_ENERGY - _CONTROL_CORRECTION
