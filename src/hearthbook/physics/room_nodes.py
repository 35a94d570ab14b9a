"""A room through one time step: its air, its fabric in three masses, and the air that leaks in.

Written so that the same text runs on floats, on arrays and compiled.
"""

from __future__ import annotations

import numpy as np

from hearthbook.units import (
    Celsius,
    Joules,
    JoulesPerKelvin,
    Kelvin,
    MetresPerSecond,
    PerKelvin,
    PerSquareSpeed,
    Ratio,
    Seconds,
    Watts,
    WattsPerKelvin,
)

__all__ = ["air_after", "air_leakage", "mass_after", "stored_heat"]


def air_leakage(
    indoor_temperature: Celsius,
    outdoor_temperature: Celsius,
    wind_speed: MetresPerSecond,
    stack: PerKelvin,
    wind: PerSquareSpeed,
) -> Ratio:
    """How hard wind and warmth push air through the leaks of a home.

    Args:
        indoor_temperature: mean of the home.
        outdoor_temperature: of the air.
        wind_speed: at the weather station's height.
        stack: of warmth; with `wind` scaled so that the force is 1 in the weather in which the
            leakage was stated.
        wind: of the square of its speed.

    Returns:
        Factor on the stated leakage.

    Assumes:
        Leaks behave as one opening with an exponent of one half, and the two drives add as
        pressures do.

    Source:
        Sherman and Grimsrud 1980, infiltration of a dwelling from leakage area, stack and wind
        terms; as used in ASHRAE Fundamentals, ch. 16. From memory.

    Example:
        >>> float(air_leakage(20.0, 0.0, 4.0, 0.02, 0.0375))
        1.0
    """
    warmth = stack * np.abs(indoor_temperature - outdoor_temperature)
    force: Ratio = np.sqrt(warmth + wind * wind_speed * wind_speed)
    return force


def air_after(
    temperature: Celsius,
    capacity: JoulesPerKelvin,
    conductance: WattsPerKelvin,
    inflow: Watts,
    step: Seconds,
) -> Celsius:
    """Temperature of the room's air at the end of a step.

    Args:
        temperature: at its start.
        capacity: of the air and what follows it at once, above 0.
        conductance: sum of all conductances from the air.
        inflow: sum of each conductance times the temperature behind it, and of all heat put in.
        step: length.

    Assumes:
        Implicit in the air's own temperature, so that a light room stays steady at any step; what
        lies behind is held over the step.

    Source:
        Heat balance of the air, backward difference. Derived.

    Example:
        >>> air_after(20.0, 60e3, 0.0, 100.0, 60.0)
        20.1
    """
    return (capacity * temperature + step * inflow) / (capacity + step * conductance)


def mass_after(
    temperature: Celsius, capacity: JoulesPerKelvin, inflow: Watts, step: Seconds
) -> Celsius:
    """Temperature of a mass at the end of a step.

    Args:
        temperature: at its start.
        capacity: above 0; large enough that the step is short against its time constant.
        inflow: net heat into it.
        step: length.

    Source:
        Heat balance of the mass, forward difference. Derived.

    Example:
        >>> mass_after(20.0, 6e6, 1000.0, 60.0)
        20.01
    """
    return temperature + inflow * (step / capacity)


def stored_heat(capacity: JoulesPerKelvin, temperature: Kelvin) -> Joules:
    """Heat a mass holds above 0 °C.

    Args:
        capacity: of the mass.
        temperature: above 0 °C.

    Source:
        Definition of heat capacity.

    Example:
        >>> stored_heat(1000.0, 20.0)
        20000.0
    """
    return capacity * temperature
