"""Water that the outdoor unit takes out of the air: dew, frost, defrosts, meltwater."""

from __future__ import annotations

import numpy as np

from hearthbook.errors import check_between
from hearthbook.physics.moist_air import (
    SEA_LEVEL_PRESSURE,
    dew_point,
    enthalpy,
    humidity_ratio,
    saturation_humidity_ratio,
)
from hearthbook.units import (
    Celsius,
    CubicMetres,
    CubicMetresPerSecond,
    Joules,
    Kelvin,
    Kilograms,
    KilogramsPerJoule,
    Metres,
    Pascals,
    PerHour,
    Ratio,
    Seconds,
    SquareMetres,
    Watts,
)

__all__ = [
    "COIL_BELOW_AIR",
    "DEFROST_INTERVAL",
    "DEFROST_LENGTH",
    "GRAVEL_POROSITY",
    "RATING_HUMIDITY",
    "coil_temperature",
    "defrost_heat",
    "defrost_heat_from_water",
    "defrosts_per_hour",
    "evaporator_heat",
    "infiltration",
    "is_frosting",
    "pit_volume",
    "soakaway_volume",
    "water_cooling",
    "water_per_heat",
]

COIL_BELOW_AIR = 8.0  # K at full load; 5 to 10 K is usual, common practice, no source
DEFROST_INTERVAL = (2400.0, 7200.0)  # s; 40 to 120 min in damp air near 0 °C at full load,
#                                      common practice, no source
DEFROST_LENGTH = (180.0, 480.0)  # s; 3 to 8 min, common practice, no source; a laboratory found
#                                  that 5 min always clear the coil of an 8 kW unit (Tassou and
#                                  Marquand)
RATING_HUMIDITY = 0.838  # of air at 2 °C with a wet thermometer at 1 °C, the EN 14511 point A2
GRAVEL_POROSITY = 0.35  # share of a pit of clean gravel that is void; common practice, no source

_MELTING_HEAT = 334e3  # J/kg; Song and others, Defrosting for Air Source Heat Pump, ch. 9
_FREEZING_AND_CONDENSING_HEAT = 2.834e6  # J/kg; vapour to ice at 0 °C
_WATER_HEAT_CAPACITY = 4.186e6  # J/(m³·K); water, 4.186 kJ/(kg·K) and 1 kg/L
_DEFROST_EFFICIENCY = 0.601  # Dong and others, Applied Thermal Engineering 37 (2012) 380-387
_SHARE_FROM_HEATED_SIDE = 0.718  # same
_TEST_FALL = 0.1  # m; fall of water in the hole by which a percolation time is stated


def coil_temperature(
    air_temperature: Celsius, load: Ratio = 1.0, difference: Kelvin = COIL_BELOW_AIR
) -> Celsius:
    """Temperature of the outdoor coil's surface while the unit runs.

    Args:
        air_temperature: of the air drawn in.
        load: share of the unit's full heat from the air, 0 to 1.
        difference: coil below air at full load.

    Assumes:
        The difference is in proportion to the heat taken from the air.

    Source:
        Own derivation; the difference is common practice, no source.

    Example:
        >>> coil_temperature(2.0)
        -6.0
    """
    return air_temperature - difference * load


def is_frosting(
    air_temperature: Celsius, relative_humidity: Ratio, coil_temperature: Celsius
) -> bool:
    """Whether frost forms on the coil: it is below freezing and below the air's dew point.

    Args:
        air_temperature: of the air drawn in.
        relative_humidity: of that air, above 0.
        coil_temperature: of the coil's surface.

    Source:
        Own derivation from the two conditions.

    Example:
        >>> is_frosting(2.0, 0.84, -6.0), is_frosting(12.0, 0.84, 4.0)
        (True, False)
    """
    frost_point = dew_point(air_temperature, relative_humidity)
    return bool(np.all((coil_temperature < 0.0) & (coil_temperature < frost_point)))


def evaporator_heat(output: Watts, efficiency: Ratio) -> Watts:
    """Heat the unit takes from the air.

    Args:
        output: heat given to the water.
        efficiency: heat given per electricity, above 1.

    Source:
        Heat balance of the unit; all its electricity is counted as reaching the water.

    Example:
        >>> evaporator_heat(6000.0, 3.0)
        4000.0
    """
    return output * (1.0 - 1.0 / efficiency)


def water_per_heat(
    air_temperature: Celsius,
    relative_humidity: Ratio,
    coil_temperature: Celsius,
    pressure: Pascals = SEA_LEVEL_PRESSURE,
) -> KilogramsPerJoule:
    """Water or frost the coil takes out of the air for each joule of heat it takes.

    Args:
        air_temperature: of the air drawn in.
        relative_humidity: of that air.
        coil_temperature: below the air.
        pressure: of the air.

    Returns:
        Frost where the coil is below 0 °C, dew above; nothing where the air stays unsaturated.

    Raises:
        OutOfRange: the coil is not colder than the air.

    Assumes:
        The air leaves saturated at the coil's temperature; a real coil lets some pass by.

    Source:
        Own derivation from the heat and water balance of the air.

    Example:
        >>> round(water_per_heat(2.0, 0.838, -6.0) * 3.6e6, 2)
        0.41
    """
    cooled = np.asarray(air_temperature, dtype=float) - coil_temperature
    check_between("air above coil", cooled, 0.1, 40.0, "K")
    entering = humidity_ratio(air_temperature, relative_humidity, pressure)
    leaving = np.minimum(saturation_humidity_ratio(coil_temperature, pressure), entering)
    water = entering - leaving
    is_ice = np.asarray(coil_temperature) < 0.0
    fusion = np.where(is_ice, _FREEZING_AND_CONDENSING_HEAT - 2.501e6, 0.0)
    heat = enthalpy(air_temperature, entering) - enthalpy(coil_temperature, leaving)
    rate = np.asarray(water / (heat + water * fusion))
    return rate if rate.ndim else float(rate)


def defrost_heat(frost: Kilograms, efficiency: Ratio = _DEFROST_EFFICIENCY) -> Joules:
    """Heat that a defrost takes in all.

    Args:
        frost: melted in one defrost.
        efficiency: share of the heat that melts frost.

    Source:
        Dong and others, Applied Thermal Engineering 37 (2012) 380-387: best efficiency 60.1 %.

    Example:
        >>> round(defrost_heat(1.0))
        555740
    """
    return frost * _MELTING_HEAT / efficiency


def defrost_heat_from_water(
    frost: Kilograms,
    efficiency: Ratio = _DEFROST_EFFICIENCY,
    share: Ratio = _SHARE_FROM_HEATED_SIDE,
) -> Joules:
    """Heat that a defrost takes out of the heating water.

    Args:
        frost: melted in one defrost.
        efficiency: share of the heat that melts frost.
        share: of the heat that comes from the heated side; the compressor gives the rest.

    Source:
        Dong and others, Applied Thermal Engineering 37 (2012) 380-387: 71.8 %, measured on an
        air-to-air unit.

    Example:
        >>> round(defrost_heat_from_water(1.0))
        399022
    """
    return defrost_heat(frost, efficiency) * share


def water_cooling(heat: Joules, volume: CubicMetres) -> Kelvin:
    """How far the heating water cools when a defrost takes heat from it.

    Args:
        heat: taken from the water.
        volume: of the water that goes round, above 0.

    Source:
        Heat balance of the water.

    Example:
        >>> round(water_cooling(399_000.0, 0.050), 2)
        1.91
    """
    return heat / (volume * _WATER_HEAT_CAPACITY)


def defrosts_per_hour(frost_rate: Ratio, interval: Seconds) -> PerHour:
    """How often a unit defrosts, by how fast frost grows.

    Args:
        frost_rate: frost growing per time, as a share of that at full load in damp air at 2 °C.
        interval: between defrosts in those conditions; see `DEFROST_INTERVAL`.

    Assumes:
        A defrost begins when the same mass of frost has grown; a unit that defrosts by the clock
        does it more often in dry cold.

    Source:
        Own derivation; the interval is common practice, no source.

    Example:
        >>> defrosts_per_hour(0.5, 3600.0)
        0.5
    """
    return frost_rate * 3600.0 / interval


def infiltration(
    base_area: SquareMetres, percolation_time: Seconds, safety: Ratio = 2.0
) -> CubicMetresPerSecond:
    """Water that sinks away through the bottom of a pit.

    Args:
        base_area: of the pit.
        percolation_time: for water in a test hole to fall by 100 mm, above 0.
        safety: for silt and frozen or sodden ground.

    Source:
        Own derivation from the percolation test; the safety is common practice, no source.

    Example:
        >>> round(infiltration(1.0, 6000.0) * 86_400, 2)
        0.72
    """
    return base_area * _TEST_FALL / percolation_time / safety


def soakaway_volume(water: CubicMetres, porosity: Ratio = GRAVEL_POROSITY) -> CubicMetres:
    """The pit of gravel that holds an amount of water in its voids.

    Args:
        water: to be held until it sinks away.
        porosity: share of the pit that is void, above 0.

    Source:
        Geometry; the porosity is common practice, no source.

    Example:
        >>> round(soakaway_volume(0.035), 3)
        0.1
    """
    return water / porosity


def pit_volume(length: Metres, width: Metres, depth: Metres) -> CubicMetres:
    """The volume of a pit with straight sides.

    Args:
        length: of the pit.
        width: of the pit.
        depth: of the gravel.

    Source:
        Geometry.

    Example:
        >>> round(pit_volume(1.0, 0.9, 0.6), 2)
        0.54
    """
    return length * width * depth
