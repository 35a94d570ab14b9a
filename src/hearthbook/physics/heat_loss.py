"""What a room loses at the design temperature outside, to EN 12831-1."""

from __future__ import annotations

import numpy as np

from hearthbook.errors import check_between
from hearthbook.units import (
    Celsius,
    CubicMetres,
    JoulesPerCubicMetreKelvin,
    Kelvin,
    Metres,
    PerHour,
    Ratio,
    SquareMetres,
    Watts,
    WattsPerKelvin,
    WattsPerSquareMetre,
    WattsPerSquareMetreKelvin,
)

__all__ = [
    "AIR_HEAT_CAPACITY",
    "ALTITUDE_LAPSE",
    "ANNUAL_VARIATION",
    "WINDWARD",
    "air_changes_after_recovery",
    "air_changes_with_extract",
    "ground_temperature_factor",
    "heat_flow",
    "infiltration",
    "outdoor_temperature_at_altitude",
    "reheat_power",
    "room_infiltration",
    "temperature_factor",
    "transmission_coefficient",
    "ventilation_coefficient",
]

AIR_HEAT_CAPACITY = 1224.0  # J/(m³·K); 0.34 Wh/(m³·K), EN 12831-1:2017, from memory
ANNUAL_VARIATION = 1.45  # EN 12831-1:2017, annual variation of outdoor temperature, from memory
ALTITUDE_LAPSE = 0.006  # K/m; 0.6 K for 100 m, a British table of rules of thumb
WINDWARD = 2.0  # EN 12831-1:2017, orientation factor of a room against its zone, from memory


def temperature_factor(
    room_temperature: Celsius, adjacent_temperature: Celsius, outdoor_temperature: Celsius
) -> Ratio:
    """The share of the full difference to outside that acts across a surface.

    Args:
        room_temperature: above the outdoor temperature.
        adjacent_temperature: beyond the surface.
        outdoor_temperature: at design.

    Returns:
        1 to outside, 0 between equal temperatures, negative where heat flows in.

    Raises:
        OutOfRange: the room is not warmer than outside.

    Source:
        EN 12831-1:2017, temperature adjustment factor.

    Example:
        >>> round(temperature_factor(21.0, 18.0, -3.4), 4)
        0.123
    """
    full = room_temperature - outdoor_temperature
    check_between("room above outside", full, 1e-6, 100.0, "K")
    return (room_temperature - adjacent_temperature) / full


def ground_temperature_factor(
    room_temperature: Celsius,
    annual_mean_temperature: Celsius,
    outdoor_temperature: Celsius,
    annual_variation: Ratio = ANNUAL_VARIATION,
) -> Ratio:
    """The share of the full difference to outside that acts across a floor on the ground.

    Args:
        room_temperature: above the outdoor temperature.
        annual_mean_temperature: of the outdoor air.
        outdoor_temperature: at design.
        annual_variation: how far the coldest weeks exceed the year's mean flow.

    Raises:
        OutOfRange: the room is not warmer than outside.

    Source:
        EN 12831:2003 and EN 12831-1:2017, f_g1 · f_g2.

    Example:
        >>> round(ground_temperature_factor(21.0, 10.2, -3.4), 4)
        0.6418
    """
    share = temperature_factor(room_temperature, annual_mean_temperature, outdoor_temperature)
    return annual_variation * share


def transmission_coefficient(
    area: SquareMetres,
    u_value: WattsPerSquareMetreKelvin,
    bridge_supplement: WattsPerSquareMetreKelvin = 0.0,
    factor: Ratio = 1.0,
) -> WattsPerKelvin:
    """Heat through a surface for each kelvin between room and outside.

    Args:
        area: net of openings.
        u_value: of the surface.
        bridge_supplement: added for thermal bridges that are not listed one by one.
        factor: share of the full difference that acts across it.

    Source:
        EN 12831-1:2017, transmission heat-transfer coefficient.

    Example:
        >>> round(transmission_coefficient(18.6, 0.28, 0.05), 3)
        6.138
    """
    return area * (u_value + bridge_supplement) * factor


def heat_flow(
    coefficient: WattsPerKelvin, warm_temperature: Celsius, cold_temperature: Celsius
) -> Watts:
    """Heat that flows for a coefficient and two temperatures.

    Args:
        coefficient: heat for each kelvin.
        warm_temperature: on the side it leaves.
        cold_temperature: on the side it goes to.

    Returns:
        Positive from warm to cold.

    Source:
        EN 12831-1:2017, design transmission heat loss.

    Example:
        >>> heat_flow(45.0, 20.0, -2.0)
        990.0
    """
    return coefficient * (warm_temperature - cold_temperature)


def ventilation_coefficient(
    volume: CubicMetres,
    air_changes: PerHour,
    heat_capacity: JoulesPerCubicMetreKelvin = AIR_HEAT_CAPACITY,
) -> WattsPerKelvin:
    """Heat that outside air takes up for each kelvin.

    Args:
        volume: inside volume.
        air_changes: volumes of outside air in an hour.
        heat_capacity: of a cubic metre of air.

    Source:
        EN 12831-1:2017, ventilation heat-transfer coefficient.

    Example:
        >>> round(ventilation_coefficient(48.0, 0.5), 2)
        8.16
    """
    return volume * air_changes / 3600 * heat_capacity


def infiltration(air_changes_at_50_pascals: PerHour, sheltering: Ratio) -> PerHour:
    """Air changes through the cracks of a whole dwelling in usual winter wind.

    Args:
        air_changes_at_50_pascals: from a pressure test.
        sheltering: share of that rate which usual wind and buoyancy drive; 0.05 to 0.07 is usual.

    Source:
        EN 12831-1:2017, external air volume flow through the envelope; from memory.

    Example:
        >>> round(infiltration(8.0, 0.05), 3)
        0.4
    """
    return air_changes_at_50_pascals * sheltering


def room_infiltration(
    air_changes_at_50_pascals: PerHour, sheltering: Ratio, windward: Ratio = WINDWARD
) -> PerHour:
    """Air changes through the cracks of one room when the wind stands on it.

    Args:
        air_changes_at_50_pascals: from a pressure test of the dwelling.
        sheltering: share of that rate which usual wind drives through the whole dwelling.
        windward: how much more a windward room takes than the dwelling's mean.

    Assumes:
        Cracks are spread evenly; what enters on one side leaves on the other, which is why the
        dwelling's rate is not the sum of the rooms' rates.

    Source:
        EN 12831-1:2017, orientation factor 2 for rooms; from memory.

    Example:
        >>> round(room_infiltration(8.0, 0.05), 3)
        0.8
    """
    return windward * infiltration(air_changes_at_50_pascals, sheltering)


def air_changes_after_recovery(air_changes: PerHour, supplied: PerHour, recovery: Ratio) -> PerHour:
    """Air changes at the outdoor temperature that would cost as much heat.

    Args:
        air_changes: of outside air altogether.
        supplied: the part of it that passes the heat exchanger; no more than all counts.
        recovery: share of the heat given back, 0 to 1.

    Raises:
        OutOfRange: the recovery lies outside 0 to 1.

    Source:
        EN 12831:2003, temperature reduction factor of supply air, in the form (1 − η).

    Example:
        >>> round(air_changes_after_recovery(0.6, 0.4, 0.75), 3)
        0.3
    """
    check_between("heat recovery", recovery, 0.0, 1.0, "")
    kept = np.minimum(air_changes, supplied) * recovery
    left = np.asarray(air_changes - kept, dtype=float)
    return left if left.ndim else float(left)


def outdoor_temperature_at_altitude(
    table_temperature: Celsius,
    altitude: Metres,
    reference_altitude: Metres,
    lapse: Ratio = ALTITUDE_LAPSE,
) -> Celsius:
    """Design temperature outside at a home that lies higher or lower than its weather station.

    Args:
        table_temperature: of the station.
        altitude: of the home.
        reference_altitude: of the station.
        lapse: kelvin lost for each metre.

    Source:
        A British table of rules of thumb: take 0.6 K off for 100 m above the station.

    Example:
        >>> round(outdoor_temperature_at_altitude(-2.6, 125.0, 25.0), 2)
        -3.2
    """
    fall: Kelvin = lapse * (altitude - reference_altitude)
    return table_temperature - fall


def reheat_power(floor_area: SquareMetres, power_per_area: WattsPerSquareMetre) -> Watts:
    """Extra heat that warms a room up after a setback.

    Args:
        floor_area: of the room.
        power_per_area: by the length of the setback; 0 for steady weather-compensated heating.

    Source:
        EN 12831-1:2017, additional heating-up power, simplified method.

    Example:
        >>> reheat_power(20.0, 11.0)
        220.0
    """
    return floor_area * power_per_area


def air_changes_with_extract(infiltrated: PerHour, extracted: PerHour) -> PerHour:
    """Air changes of a space from which a fan draws air all the time.

    Args:
        infiltrated: through cracks, were the fan off.
        extracted: by the fan.

    Returns:
        The fan's rate while cracks give less than half of it; beyond that, half of the fan's rate
        comes on top of the cracks'.

    Source:
        British standard assessment procedure for dwellings, extract ventilation; from memory.

    Example:
        >>> air_changes_with_extract(0.1, 0.5), air_changes_with_extract(0.4, 0.5)
        (0.5, 0.65)
    """
    cracks = np.asarray(infiltrated, dtype=float)
    fan = np.asarray(extracted, dtype=float)
    found = np.where(cracks < fan / 2, fan, cracks + fan / 2)
    return found if found.ndim else float(found)
