"""Radiators to EN 442: what an emitter gives at other temperatures than those of its rating."""

from __future__ import annotations

import numpy as np

from hearthbook.errors import check_between
from hearthbook.units import Celsius, CubicMetresPerSecond, Kelvin, Ratio, Watts

__all__ = [
    "LOGARITHMIC_FROM",
    "RATED_EXCESS",
    "RATED_LOGARITHMIC_EXCESS",
    "arithmetic_mean_excess",
    "design_flow_rate",
    "drop_ratio",
    "emitter_output",
    "emitter_output_by_logarithmic_mean",
    "logarithmic_mean_excess",
    "output_factor",
    "output_from_excess",
    "required_excess",
    "required_flow_temperature",
    "required_flow_temperature_by_logarithmic_mean",
    "required_rated_output",
]

RATED_EXCESS = 50.0  # K; EN 442-2, standard rating point 75/65/20 °C, arithmetic mean
RATED_LOGARITHMIC_EXCESS = 49.8328  # K; logarithmic mean of the same point, 10 / ln(55/45)
LOGARITHMIC_FROM = 0.3  # drop over flow excess; below it the two means agree within 1 % (derived)

_VOLUMETRIC_HEAT_CAPACITY = 4.186e6  # J/(m³·K); water, 4.186 kJ/(kg·K) and 1 kg/L


def arithmetic_mean_excess(
    flow_temperature: Celsius, return_temperature: Celsius, room_temperature: Celsius
) -> Kelvin:
    """How far the mean of flow and return lies above the room.

    Args:
        flow_temperature: water entering the emitter.
        return_temperature: water leaving it.
        room_temperature: the room round it.

    Source:
        EN 442-2, excess temperature.

    Example:
        >>> arithmetic_mean_excess(75.0, 65.0, 20.0)
        50.0
    """
    return (flow_temperature + return_temperature) / 2 - room_temperature


def logarithmic_mean_excess(
    flow_temperature: Celsius, return_temperature: Celsius, room_temperature: Celsius
) -> Kelvin:
    """The mean excess of water that cools along the emitter, weighted as heat exchangers are.

    Args:
        flow_temperature: water entering the emitter; not below the return.
        return_temperature: water leaving it; above the room.
        room_temperature: the room round it.

    Returns:
        The logarithmic mean; the arithmetic one where flow and return are equal.

    Raises:
        OutOfRange: the return is not warmer than the room, or the flow is below the return.

    Source:
        Logarithmic mean temperature difference, EN 1264-2 and any handbook of heat exchangers.

    Example:
        >>> round(logarithmic_mean_excess(75.0, 65.0, 20.0), 3)
        49.833
    """
    cold = np.asarray(return_temperature - room_temperature, dtype=float)
    drop = np.asarray(flow_temperature - return_temperature, dtype=float)
    check_between("return above room", cold, 1e-9, 100.0, "K")
    check_between("flow above return", drop, 0.0, 100.0, "K")
    share = drop / cold
    is_small = share < 1e-6
    safe = np.where(is_small, 1.0, share)
    excess = cold * np.where(is_small, 1 + share / 2, safe / np.log1p(safe))
    return excess if excess.ndim else float(excess)


def drop_ratio(
    flow_temperature: Celsius, return_temperature: Celsius, room_temperature: Celsius
) -> Ratio:
    """The drop of the water over the excess of the flow; it decides which mean is used.

    Args:
        flow_temperature: water entering the emitter, above the room.
        return_temperature: water leaving it.
        room_temperature: the room round it.

    Source:
        Own derivation: the arithmetic mean lies 1 % above the logarithmic one at 0.3.

    Example:
        >>> drop_ratio(45.0, 40.0, 20.0)
        0.2
    """
    return (flow_temperature - return_temperature) / (flow_temperature - room_temperature)


def output_factor(
    excess: Kelvin, exponent: Ratio = 1.3, rated_excess: Kelvin = RATED_EXCESS
) -> Ratio:
    """The share of its rated output an emitter gives at another mean excess.

    Args:
        excess: mean water above room, 0 to 80 K.
        exponent: from the maker's test report; 1.3 is usual for panel radiators.
        rated_excess: the excess of the rating: 50 K, or 49.833 K for the logarithmic mean.

    Raises:
        OutOfRange: the mean water is colder than the room, or more than 80 K above it.

    Source:
        EN 442-2, characteristic equation of the emitter.

    Example:
        >>> round(output_factor(30.0), 3)
        0.515
    """
    check_between("mean water above room", excess, 0.0, 80.0, "K")
    factor: Ratio = (excess / rated_excess) ** exponent
    return factor


def output_from_excess(rated_output: Watts, excess: Kelvin, exponent: Ratio = 1.3) -> Watts:
    """Heat an emitter gives at a mean excess of its water over the room.

    Args:
        rated_output: at 50 K.
        excess: mean water above room, 0 to 80 K.
        exponent: from the maker's test report.

    Source:
        EN 442-2, characteristic equation of the emitter.

    Example:
        >>> round(output_from_excess(2542.0, 22.5))
        900
    """
    return rated_output * output_factor(excess, exponent)


def emitter_output(
    rated_output: Watts,
    flow_temperature: Celsius,
    return_temperature: Celsius,
    room_temperature: Celsius,
    exponent: Ratio = 1.3,
) -> Watts:
    """Heat an emitter gives off at temperatures other than those of its rating.

    Args:
        rated_output: at 50 K between mean water and room.
        flow_temperature: water entering it, above the room.
        return_temperature: water leaving it, above the room.
        room_temperature: the room round it.
        exponent: from the maker's test report; 1.3 is usual for panel radiators.

    Raises:
        OutOfRange: flow or return is colder than the room, or the flow is below the return.

    Assumes:
        The arithmetic mean while the drop is under 0.3 of the flow's excess, the logarithmic mean
        (referred to 49.833 K) from there on; at the change the output steps by just under 1 %.

    Source:
        EN 442-2, characteristic equation of the emitter.

    Example:
        >>> round(emitter_output(1000.0, 55.0, 45.0, 20.0))
        515
    """
    by_logarithm = emitter_output_by_logarithmic_mean(
        rated_output, flow_temperature, return_temperature, room_temperature, exponent
    )
    excess = arithmetic_mean_excess(flow_temperature, return_temperature, room_temperature)
    ratio = drop_ratio(flow_temperature, return_temperature, room_temperature)
    output = np.where(
        np.asarray(ratio) < LOGARITHMIC_FROM,
        output_from_excess(rated_output, excess, exponent),
        by_logarithm,
    )
    return output if output.ndim else float(output)


def emitter_output_by_logarithmic_mean(
    rated_output: Watts,
    flow_temperature: Celsius,
    return_temperature: Celsius,
    room_temperature: Celsius,
    exponent: Ratio = 1.3,
) -> Watts:
    """Heat an emitter gives off, by the logarithmic mean whatever the drop.

    Args:
        rated_output: at 75/65/20 °C.
        flow_temperature: water entering it.
        return_temperature: water leaving it, above the room.
        room_temperature: the room round it.
        exponent: from the maker's test report.

    Raises:
        OutOfRange: the return is not warmer than the room, or the flow is below the return.

    Source:
        EN 442-2, characteristic equation, with the logarithmic mean referred to 49.833 K.

    Example:
        >>> round(emitter_output_by_logarithmic_mean(1000.0, 55.0, 45.0, 20.0))
        511
    """
    excess = logarithmic_mean_excess(flow_temperature, return_temperature, room_temperature)
    return rated_output * output_factor(excess, exponent, RATED_LOGARITHMIC_EXCESS)


def required_excess(output: Watts, rated_output: Watts, exponent: Ratio = 1.3) -> Kelvin:
    """The mean excess at which an emitter gives the wanted output.

    Args:
        output: wanted heat, 0 or more.
        rated_output: at 50 K; more than 0.
        exponent: from the maker's test report.

    Raises:
        OutOfRange: the wanted heat is negative, or the rated output is nothing.

    Source:
        EN 442-2, characteristic equation solved for the excess.

    Example:
        >>> round(required_excess(900.0, 2542.0), 1)
        22.5
    """
    check_between("wanted heat", output, 0.0, 1e6, "W")
    check_between("rated output", rated_output, 1e-6, 1e6, "W")
    excess: Kelvin = RATED_EXCESS * (output / rated_output) ** (1 / exponent)
    return excess


def required_flow_temperature(
    output: Watts,
    rated_output: Watts,
    room_temperature: Celsius,
    drop: Kelvin,
    exponent: Ratio = 1.3,
) -> Celsius:
    """The lowest flow temperature at which an emitter gives the wanted output.

    Args:
        output: wanted heat, more than 0.
        rated_output: at 50 K; more than 0.
        room_temperature: the room round it.
        drop: flow minus return, more than 0.
        exponent: from the maker's test report.

    Raises:
        OutOfRange: the wanted heat, the rated output or the drop is nothing or less.

    Assumes:
        The same choice between the means as `emitter_output`; inside the step of that choice the
        flow temperature at which it happens.

    Source:
        EN 442-2, characteristic equation solved for the flow temperature.

    Example:
        >>> round(required_flow_temperature(900.0, 2542.0, 20.0, 5.0), 1)
        45.0
    """
    by_arithmetic = required_excess(output, rated_output, exponent) + drop / 2
    by_logarithm = (
        required_flow_temperature_by_logarithmic_mean(
            output, rated_output, room_temperature, drop, exponent
        )
        - room_temperature
    )
    change = drop / LOGARITHMIC_FROM
    above_room = np.where(
        np.asarray(by_arithmetic) > change, by_arithmetic, np.minimum(by_logarithm, change)
    )
    flow = room_temperature + above_room
    return flow if flow.ndim else float(flow)


def required_flow_temperature_by_logarithmic_mean(
    output: Watts,
    rated_output: Watts,
    room_temperature: Celsius,
    drop: Kelvin,
    exponent: Ratio = 1.3,
) -> Celsius:
    """The flow temperature at which an emitter gives the wanted output, by the logarithmic mean.

    Args:
        output: wanted heat, more than 0.
        rated_output: at 75/65/20 °C; more than 0.
        room_temperature: the room round it.
        drop: flow minus return, more than 0.
        exponent: from the maker's test report.

    Raises:
        OutOfRange: the wanted heat, the rated output or the drop is nothing or less.

    Source:
        Own derivation: with mean excess m and drop d the flow lies d / (1 − exp(−d/m)) above room.

    Example:
        >>> round(required_flow_temperature_by_logarithmic_mean(511.0, 1000.0, 20.0, 10.0), 1)
        55.0
    """
    check_between("wanted heat", output, 1e-6, 1e6, "W")
    check_between("drop", drop, 1e-6, 100.0, "K")
    share = RATED_LOGARITHMIC_EXCESS / RATED_EXCESS
    excess = share * required_excess(output, rated_output, exponent)
    flow = np.asarray(room_temperature + drop / -np.expm1(-drop / excess), dtype=float)
    return flow if flow.ndim else float(flow)


def required_rated_output(
    output: Watts,
    flow_temperature: Celsius,
    return_temperature: Celsius,
    room_temperature: Celsius,
    exponent: Ratio = 1.3,
) -> Watts:
    """The rated output an emitter must have to give the wanted heat at these temperatures.

    Args:
        output: wanted heat.
        flow_temperature: water entering it.
        return_temperature: water leaving it, above the room.
        room_temperature: the room round it.
        exponent: from the maker's test report.

    Raises:
        OutOfRange: flow or return is colder than the room, or the flow is below the return.

    Source:
        EN 442-2, characteristic equation solved for the rated output.

    Example:
        >>> round(required_rated_output(900.0, 45.0, 40.0, 20.0))
        2541
    """
    return output / emitter_output(
        1.0, flow_temperature, return_temperature, room_temperature, exponent
    )


def design_flow_rate(output: Watts, drop: Kelvin) -> CubicMetresPerSecond:
    """The water an emitter, or a whole system, needs to give its heat with a given drop.

    Args:
        output: heat to carry.
        drop: flow minus return, more than 0.

    Assumes:
        Water at 4.186 kJ per litre and kelvin, as the trade reckons; at 40 °C the true figure is
        1 % less.

    Source:
        Heat balance of the water.

    Example:
        >>> round(design_flow_rate(6000.0, 5.0) * 60000, 1)
        17.2
    """
    return output / (_VOLUMETRIC_HEAT_CAPACITY * drop)
