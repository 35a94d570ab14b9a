"""An emitter through one time step: its valve, its flow, what it gives and how its water cools.

Written so that the same text runs on floats, on arrays and compiled; there is no power in it,
because powers are what a compiled year would spend most of its time on.
"""

from __future__ import annotations

from typing import Annotated, NamedTuple

import numpy as np

from hearthbook.errors import check_between
from hearthbook.units import Celsius, Kelvin, Ratio, Seconds, Unit, Watts, WattsPerKelvin

__all__ = [
    "EmitterFit",
    "emitter_fit",
    "fitted_output",
    "head_position",
    "inlet_weight",
    "lagged",
    "output_per_kelvin",
    "pump_flow_share",
    "valve_opening",
]

_COLDEST_EXCESS, _HOTTEST_EXCESS = 1.0, 50.0  # K; what a heat pump's emitters work at


class EmitterFit(NamedTuple):
    """Coefficients of an emitter's output without a power in it.

    Attributes:
        linear: W/K.
        quarter: W/K^1.25.
        half: W/K^1.5.
    """

    linear: Annotated[float, Unit("W/K")]
    quarter: Annotated[float, Unit("W/K^1.25")]
    half: Annotated[float, Unit("W/K^1.5")]


def emitter_fit(rated_output: Watts, exponent: Ratio, rated_excess: Kelvin = 50.0) -> EmitterFit:
    """Coefficients with which `fitted_output` follows an emitter's characteristic equation.

    Args:
        rated_output: at `rated_excess`, above 0.
        exponent: of the characteristic equation, 1.0 to 1.6.
        rated_excess: at which it is rated.

    Raises:
        OutOfRange: the exponent is not between 1.0 and 1.6.

    Assumes:
        Least squares of the relative error from 1 to 50 K; it stays below 0.3 % for exponents up
        to 1.54 and below 1 % up to 1.6.

    Source:
        EN 442-2, characteristic equation; the fit is derived.

    Example:
        >>> fit = emitter_fit(1000.0, 1.3)
        >>> round(fitted_output(30.0, *fit))
        515
    """
    check_between("exponent of an emitter", exponent, 1.0, 1.6, "")
    excess = np.geomspace(_COLDEST_EXCESS, _HOTTEST_EXCESS, 60)
    wanted = rated_output * (excess / rated_excess) ** exponent
    shapes = np.stack([excess, excess**1.25, excess**1.5], axis=1) / wanted[:, np.newaxis]
    found = np.linalg.lstsq(shapes, np.ones(excess.size), rcond=None)[0]
    return EmitterFit(float(found[0]), float(found[1]), float(found[2]))


def fitted_output(excess: Kelvin, linear: WattsPerKelvin, quarter: Ratio, half: Ratio) -> Watts:
    """Heat an emitter gives at an excess of its water over the room.

    Args:
        excess: of the water's mean over the room; nothing is given below 0.
        linear: W/K, from `emitter_fit`.
        quarter: W/K^1.25.
        half: W/K^1.5.

    Source:
        EN 442-2 by `emitter_fit`.

    Example:
        >>> float(fitted_output(16.0, 1.0, 2.0, 3.0))
        272.0
    """
    above = np.maximum(excess, 0.0)
    output: Watts = above * output_per_kelvin(above, linear, quarter, half)
    return output


def output_per_kelvin(
    excess: Kelvin, linear: WattsPerKelvin, quarter: Ratio, half: Ratio
) -> WattsPerKelvin:
    """Heat an emitter gives for each kelvin of an excess, at that excess.

    Args:
        excess: of the water's mean over the room, at least 0.
        linear: W/K, from `emitter_fit`.
        quarter: W/K^1.25.
        half: W/K^1.5.

    Source:
        EN 442-2 by `emitter_fit`.

    Example:
        >>> float(output_per_kelvin(16.0, 1.0, 2.0, 3.0))
        17.0
    """
    root = np.sqrt(excess)
    slope: WattsPerKelvin = linear + quarter * np.sqrt(root) + half * root
    return slope


def inlet_weight(flow_rate: WattsPerKelvin, conductance: WattsPerKelvin) -> Ratio:
    """How much the inlet counts in the mean temperature of the water inside an emitter.

    Args:
        flow_rate: heat-capacity rate of the water, at least 0.
        conductance: of the emitter near its design excess, above 0.

    Returns:
        One half at a brisk flow, where the mean is arithmetic; nothing without flow.

    Assumes:
        Water cools exponentially along the emitter, so the weight is 1/N - 1/(exp N - 1) with N
        conductance over flow rate; its rational form here is within 0.011 of that.

    Source:
        Mean of an exponential; logarithmic mean excess as in EN 442-2 annex. Derived.

    Example:
        >>> round(inlet_weight(200.0, 20.0), 3), inlet_weight(0.0, 20.0)
        (0.492, 0.0)
    """
    ratio = flow_rate / conductance
    return (6.0 * ratio + 1.0) * ratio / ((12.0 * ratio + 4.0) * ratio + 1.0)


def head_position(sensed: Celsius, held: Celsius, hysteresis: Kelvin) -> Celsius:
    """Temperature a thermostatic head acts on, its friction taken into account.

    Args:
        sensed: temperature of its sensor.
        held: temperature it acted on before.
        hysteresis: by which closing and opening lie apart.

    Source:
        Play with dead band (friction of the spindle); hysteresis as defined in EN 215.

    Example:
        >>> float(head_position(20.6, 20.0, 0.4)), float(head_position(20.1, 20.0, 0.4))
        (20.4, 20.0)
    """
    half = 0.5 * hysteresis
    position: Celsius = np.minimum(np.maximum(held, sensed - half), sensed + half)
    return position


def valve_opening(acting: Celsius, middle: Celsius, band: Kelvin, least_opening: Ratio) -> Ratio:
    """Share of its full flow that a thermostatic valve lets through.

    Args:
        acting: temperature its head acts on.
        middle: temperature at which it is half open.
        band: over which it goes from open to shut, above 0.
        least_opening: left when shut; 1 for a valve that is kept open.

    Source:
        Proportional controller; EN 215 states a band of 2 K. From memory.

    Example:
        >>> float(valve_opening(20.0, 20.0, 2.0, 0.0)), float(valve_opening(22.0, 20.0, 2.0, 0.0))
        (0.5, 0.0)
    """
    lift = np.minimum(np.maximum(0.5 + (middle - acting) / band, 0.0), 1.0)
    opening: Ratio = np.maximum(lift, least_opening)
    return opening


def lagged(value: Ratio, target: Ratio, lag: Seconds, step: Seconds) -> Ratio:
    """A value that follows its target with a time constant.

    Args:
        value: at the start of the step.
        target: that it follows.
        lag: time constant, at least 0.
        step: length.

    Source:
        First-order lag, backward difference. Derived.

    Example:
        >>> lagged(0.0, 1.0, 60.0, 60.0)
        0.5
    """
    return value + (target - value) * (step / (lag + step))


def pump_flow_share(open_share: Ratio, common_resistance: Ratio) -> Ratio:
    """Flow through the pump, as a share of that with every valve open.

    Args:
        open_share: sum of the design flows of what is open, over the sum of all; at least 0.
        common_resistance: share of the pump's head that is lost before the emitters part, 0 to 1.

    Assumes:
        The pump holds its head, and every branch has the head that the common pipes leave.

    Source:
        Resistances in series and side by side, losses with the square of flow. Derived; a solver
        of the network replaces it behind the same call.

    Example:
        >>> float(pump_flow_share(1.0, 0.4)), round(float(pump_flow_share(0.5, 0.4)), 3)
        (1.0, 0.598)
    """
    share: Ratio = open_share / np.sqrt(
        1.0 - common_resistance + common_resistance * open_share * open_share
    )
    return share
