"""How much water a heat pump needs: to defrost, to run long enough, and where circuits mix."""

from __future__ import annotations

from hearthbook.physics.water import TRADE_HEAT_CAPACITY
from hearthbook.units import (
    Celsius,
    CubicMetres,
    CubicMetresPerSecond,
    Joules,
    JoulesPerCubicMetreKelvin,
    Kelvin,
    Kilograms,
    Ratio,
    Seconds,
    Watts,
)

__all__ = [
    "MELTING_HEAT",
    "SHARE_FROM_WATER",
    "SHARE_THAT_MELTS",
    "defrost_heat_from_water",
    "defrost_volume",
    "minimum_run_volume",
    "run_time",
    "separator_flow_temperature",
    "temperature_fall",
]

MELTING_HEAT = 334e3  # J/kg; ice, Defrosting for Air Source Heat Pump, equations 9.1 to 9.3
SHARE_THAT_MELTS = 0.601  # of the heat supplied; Dong et al., Appl. Therm. Eng. 37 (2012) 380
SHARE_FROM_WATER = 0.718  # of the heat supplied; the same measurements


def defrost_volume(
    heat_flow: Watts,
    duration: Seconds,
    fall: Kelvin,
    heat_capacity: JoulesPerCubicMetreKelvin = TRADE_HEAT_CAPACITY,
) -> CubicMetres:
    """Water that must circulate so that a defrost cools it no further than allowed.

    Args:
        heat_flow: drawn from the water during the defrost.
        duration: of the defrost.
        fall: of the water's temperature that is allowed, more than 0.
        heat_capacity: of a cubic metre of the water, J/(m³·K).

    Source:
        Energy balance of the water, own derivation.

    Example:
        >>> round(defrost_volume(6000.0, 240.0, 8.0) * 1000)
        43
    """
    return heat_flow * duration / (heat_capacity * fall)


def defrost_heat_from_water(
    frost: Kilograms,
    share_that_melts: Ratio = SHARE_THAT_MELTS,
    share_from_water: Ratio = SHARE_FROM_WATER,
) -> Joules:
    """Heat one defrost takes from the heating water.

    Args:
        frost: ice on the coil.
        share_that_melts: of the heat supplied to the coil; the rest warms and evaporates.
        share_from_water: of the heat supplied; the rest is the compressor's work.

    Source:
        Dong et al., Applied Thermal Engineering 37 (2012) 380-387.

    Example:
        >>> round(defrost_heat_from_water(1.0) / 1000)
        399
    """
    return frost * MELTING_HEAT / share_that_melts * share_from_water


def temperature_fall(
    heat: Joules,
    volume: CubicMetres,
    heat_capacity: JoulesPerCubicMetreKelvin = TRADE_HEAT_CAPACITY,
) -> Kelvin:
    """How far a volume of water cools when heat is taken out of it.

    Args:
        heat: taken out.
        volume: of water, more than 0.
        heat_capacity: of a cubic metre of the water, J/(m³·K).

    Source:
        Energy balance of the water, own derivation.

    Example:
        >>> round(temperature_fall(399e3, 0.050), 2)
        1.91
    """
    return heat / (volume * heat_capacity)


def minimum_run_volume(
    least_output: Watts,
    load: Watts,
    run: Seconds,
    rise: Kelvin,
    heat_capacity: JoulesPerCubicMetreKelvin = TRADE_HEAT_CAPACITY,
) -> CubicMetres:
    """Water that must circulate so that the unit runs long enough once it has started.

    Args:
        least_output: of the unit at its lowest compressor speed.
        load: heat the home takes meanwhile; not above the least output.
        run: the shortest run wanted.
        rise: of the water's temperature between start and stop, more than 0.
        heat_capacity: of a cubic metre of the water, J/(m³·K).

    Source:
        Energy balance of the water, own derivation.

    Example:
        >>> round(minimum_run_volume(3000.0, 1500.0, 600.0, 5.0) * 1000)
        43
    """
    return (least_output - load) * run / (heat_capacity * rise)


def run_time(
    volume: CubicMetres,
    least_output: Watts,
    load: Watts,
    rise: Kelvin,
    heat_capacity: JoulesPerCubicMetreKelvin = TRADE_HEAT_CAPACITY,
) -> Seconds:
    """How long the unit runs on a volume of water once it has started.

    Args:
        volume: of water that circulates.
        least_output: of the unit, above the load.
        load: heat the home takes meanwhile.
        rise: of the water's temperature between start and stop.
        heat_capacity: of a cubic metre of the water, J/(m³·K).

    Source:
        Inverse of `minimum_run_volume`.

    Example:
        >>> round(run_time(0.043, 3000.0, 1500.0, 5.0))
        600
    """
    return volume * heat_capacity * rise / (least_output - load)


def separator_flow_temperature(
    primary_flow: CubicMetresPerSecond,
    secondary_flow: CubicMetresPerSecond,
    flow_temperature: Celsius,
    return_temperature: Celsius,
) -> Celsius:
    """Flow temperature the rooms get behind a buffer or separator whose flows do not match.

    Args:
        primary_flow: from the unit.
        secondary_flow: to the rooms, not below the primary.
        flow_temperature: from the unit.
        return_temperature: from the rooms.

    Source:
        Mixing of two streams, own derivation.

    Example:
        >>> round(separator_flow_temperature(12 / 60e3, 18 / 60e3, 45.0, 38.0), 1)
        42.7
    """
    mixed = primary_flow * flow_temperature + (secondary_flow - primary_flow) * return_temperature
    return mixed / secondary_flow
