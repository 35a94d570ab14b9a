"""An emitter with too much or too little water: how far it cools, and what it then gives."""

from __future__ import annotations

import numpy as np

from hearthbook.errors import check_between
from hearthbook.physics.emitters import RATED_LOGARITHMIC_EXCESS
from hearthbook.units import Celsius, CubicMetresPerSecond, Kelvin, Ratio, Watts

__all__ = ["drop_at_flow_rate", "output_at_flow_rate"]

_VOLUMETRIC_HEAT_CAPACITY = 4.186e6  # J/(m³·K); water, 4.186 kJ/(kg·K) and 1 kg/L
_HALVINGS = 60  # of the range in which the drop must lie; beyond a double's precision


def drop_at_flow_rate(
    rated_output: Watts,
    flow_temperature: Celsius,
    room_temperature: Celsius,
    flow_rate: CubicMetresPerSecond,
    exponent: Ratio = 1.3,
) -> Kelvin:
    """How far the water cools in an emitter that gets a given flow.

    Args:
        rated_output: at 75/65/20 °C, more than 0.
        flow_temperature: water entering it, above the room.
        room_temperature: the room round it.
        flow_rate: water through it, more than 0.
        exponent: from the maker's test report.

    Returns:
        Flow minus return; it nears the flow's excess over the room as the flow rate nears nothing.

    Raises:
        OutOfRange: the flow is not warmer than the room, or no water flows.

    Assumes:
        The logarithmic mean whatever the drop, for low flows make large drops. A panel fed at
        bottom opposite ends may give less at very low flow.

    Source:
        Heat balance of the water and EN 442-2's characteristic equation, solved together.

    Example:
        >>> round(drop_at_flow_rate(2542.0, 45.0, 20.0, 900 / (4.186e6 * 5)), 1)
        5.0
    """
    excess = np.asarray(flow_temperature - np.asarray(room_temperature), dtype=float)
    check_between("flow above room", excess, 0.1, 80.0, "K")
    check_between("flow rate", np.asarray(flow_rate) * 1e6, 1e-3, 1e6, "mL/s")
    carried = np.asarray(flow_rate) * _VOLUMETRIC_HEAT_CAPACITY
    shape = np.broadcast_shapes(
        excess.shape, np.shape(rated_output), np.shape(carried), np.shape(exponent)
    )
    low, high = np.zeros(shape), np.broadcast_to(excess, shape) * (1 - 1e-12)
    for _ in range(_HALVINGS):
        drop = (low + high) / 2
        mean = drop / np.log(excess / (excess - drop))
        given = rated_output * (mean / RATED_LOGARITHMIC_EXCESS) ** exponent
        is_too_small = given > carried * drop
        low = np.where(is_too_small, drop, low)
        high = np.where(is_too_small, high, drop)
    return high if high.ndim else float(high)


def output_at_flow_rate(
    rated_output: Watts,
    flow_temperature: Celsius,
    room_temperature: Celsius,
    flow_rate: CubicMetresPerSecond,
    exponent: Ratio = 1.3,
) -> Watts:
    """Heat an emitter gives when it gets a given flow of water.

    Args:
        rated_output: at 75/65/20 °C, more than 0.
        flow_temperature: water entering it, above the room.
        room_temperature: the room round it.
        flow_rate: water through it, more than 0.
        exponent: from the maker's test report.

    Raises:
        OutOfRange: the flow is not warmer than the room, or no water flows.

    Assumes:
        As `drop_at_flow_rate`.

    Source:
        Heat balance of the water and EN 442-2's characteristic equation, solved together.

    Example:
        >>> round(output_at_flow_rate(2542.0, 45.0, 20.0, 450 / (4.186e6 * 5)))
        791
    """
    drop = drop_at_flow_rate(rated_output, flow_temperature, room_temperature, flow_rate, exponent)
    return flow_rate * _VOLUMETRIC_HEAT_CAPACITY * drop
