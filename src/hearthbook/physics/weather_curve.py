"""The weather curve: flow temperature that just balances the home at each outdoor temperature."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from hearthbook.errors import OutOfRange, check_between
from hearthbook.units import Celsius, Kelvin, Ratio

__all__ = [
    "flow_per_room_kelvin",
    "flow_temperature",
    "flow_temperature_at_constant_drop",
    "flow_temperature_by_points",
    "flow_temperature_by_slope",
    "load_fraction",
    "points_that_fit",
    "return_temperature",
]

_LARGEST_LOAD = 1.2  # of the design load; colder weather than that is not asked of the curve


def load_fraction(
    outdoor_temperature: Celsius,
    base_temperature: Celsius,
    design_outdoor_temperature: Celsius,
) -> Ratio:
    """The share of its design load a home needs at an outdoor temperature.

    Args:
        outdoor_temperature: mean of some hours.
        base_temperature: outdoor temperature at which gains alone keep the home warm.
        design_outdoor_temperature: colder than the base temperature.

    Returns:
        0 at the base temperature and above, 1 at design, at most 1.2.

    Raises:
        OutOfRange: the base temperature is not above the design outdoor temperature.

    Source:
        Steady heat balance of the home: the load is proportional to base minus outdoor.

    Example:
        >>> round(load_fraction(7.0, 20.0, -3.0), 3)
        0.565
    """
    span = base_temperature - design_outdoor_temperature
    check_between("base temperature above design outdoor temperature", span, 1.0, 80.0, "K")
    share = np.clip((base_temperature - outdoor_temperature) / span, 0.0, _LARGEST_LOAD)
    return share if np.ndim(share) else float(share)


def flow_temperature(
    load: Ratio,
    room_temperature: Celsius,
    design_flow_temperature: Celsius,
    design_drop: Kelvin,
    exponent: Ratio = 1.3,
) -> Celsius:
    """The flow temperature that carries a share of the design load, at constant pump flow.

    Args:
        load: share of the design load, from `load_fraction`.
        room_temperature: mean of the heated rooms.
        design_flow_temperature: flow temperature that carries the design load.
        design_drop: flow minus return at design.
        exponent: of the emitters, weighted by their heat.

    Raises:
        OutOfRange: the mean water at design is not warmer than the room.

    Source:
        Own derivation from the EN 442 characteristic: excess falls with load to the power 1/n, the
        drop in proportion to it.

    Example:
        >>> round(flow_temperature(10 / 23, 20.0, 45.0, 5.0), 1)
        32.9
    """
    excess = _design_excess(room_temperature, design_flow_temperature, design_drop)
    flow: Celsius = room_temperature + excess * load ** (1 / exponent) + design_drop / 2 * load
    return flow


def flow_temperature_at_constant_drop(
    load: Ratio,
    room_temperature: Celsius,
    design_flow_temperature: Celsius,
    design_drop: Kelvin,
    exponent: Ratio = 1.3,
) -> Celsius:
    """The flow temperature that carries a share of the design load, where the pump holds the drop.

    Args:
        load: share of the design load, from `load_fraction`.
        room_temperature: mean of the heated rooms.
        design_flow_temperature: flow temperature that carries the design load.
        design_drop: flow minus return, the same at every load.
        exponent: of the emitters, weighted by their heat.

    Raises:
        OutOfRange: the mean water at design is not warmer than the room.

    Source:
        Own derivation from the EN 442 characteristic: excess falls with load to the power 1/n.

    Example:
        >>> round(flow_temperature_at_constant_drop(13 / 23, 20.0, 45.0, 5.0), 1)
        37.0
    """
    excess = _design_excess(room_temperature, design_flow_temperature, design_drop)
    flow: Celsius = room_temperature + excess * load ** (1 / exponent) + design_drop / 2
    return flow


def return_temperature(flow_temperature: Celsius, load: Ratio, design_drop: Kelvin) -> Celsius:
    """The return temperature at a share of the design load, at constant pump flow.

    Args:
        flow_temperature: flow at that load.
        load: share of the design load.
        design_drop: flow minus return at design.

    Source:
        Heat balance of the water: at constant flow the drop is proportional to the load.

    Example:
        >>> return_temperature(36.0, 0.5, 5.0)
        33.5
    """
    return flow_temperature - design_drop * load


def flow_per_room_kelvin(
    mean_excess: Kelvin,
    room_temperature: Celsius,
    outdoor_temperature: Celsius,
    exponent: Ratio = 1.3,
) -> Ratio:
    """How many kelvin of flow temperature change the room by one kelvin, once all is steady.

    Args:
        mean_excess: mean water above room.
        room_temperature: the room.
        outdoor_temperature: colder than the room by 1 K or more.
        exponent: of the emitters.

    Raises:
        OutOfRange: it is not colder outdoors than in the room.

    Source:
        Own derivation: the emitter's and the home's heat balance, differentiated.

    Example:
        >>> round(flow_per_room_kelvin(22.5, 20.0, -3.0), 2)
        1.75
    """
    difference = room_temperature - outdoor_temperature
    check_between("room above outdoor temperature", difference, 1.0, 80.0, "K")
    return 1 + mean_excess / (exponent * difference)


def flow_temperature_by_points(
    outdoor_temperature: Celsius, outdoor_points: Celsius, flow_points: Celsius
) -> Celsius:
    """The flow temperature a controller makes that holds its curve as points.

    Args:
        outdoor_temperature: at which it is asked.
        outdoor_points: outdoor temperatures of the points, two or more, all different, any order.
        flow_points: flow temperature of each.

    Shapes:
        The points are one-dimensional and of equal length; the result has the shape of the outdoor
        temperature.

    Raises:
        OutOfRange: two points lie at the same outdoor temperature.

    Assumes:
        Straight lines between the points; the first and last line go on beyond the last points.

    Source:
        Straight line through two points.

    Example:
        >>> flow_temperature_by_points(6.0, np.array([-3.0, 15.0]), np.array([45.0, 27.0]))
        36.0
    """
    outdoor, flow = _in_order(outdoor_points, flow_points)
    asked = np.asarray(outdoor_temperature, dtype=float)
    segment = np.clip(np.searchsorted(outdoor, asked) - 1, 0, outdoor.size - 2)
    share = (asked - outdoor[segment]) / (outdoor[segment + 1] - outdoor[segment])
    result = flow[segment] + share * (flow[segment + 1] - flow[segment])
    return result if result.ndim else float(result)


def flow_temperature_by_slope(
    outdoor_temperature: Celsius, slope: Ratio, level: Kelvin, pivot: Celsius = 20.0
) -> Celsius:
    """The flow temperature a controller makes that holds its curve as slope and level.

    Args:
        outdoor_temperature: at which it is asked.
        slope: K of flow per K of outdoor temperature, positive.
        level: parallel shift.
        pivot: outdoor and flow temperature at which a curve without level begins.

    Source:
        Straight line by slope and one point.

    Example:
        >>> flow_temperature_by_slope(0.0, 1.2, 2.0)
        46.0
    """
    return pivot + level + slope * (pivot - outdoor_temperature)


def points_that_fit(
    outdoor_points: Celsius,
    outdoor_temperature: Celsius,
    flow_temperature: Celsius,
    weight: Ratio,
) -> Celsius:
    """The flow temperatures at given points whose straight lines lie nearest to a curve.

    Args:
        outdoor_points: where the controller has its points, two or more, rising.
        outdoor_temperature: outdoor temperatures at which the curve is known, as many as points or
            more, spread over them.
        flow_temperature: the curve there.
        weight: how much each counts, such as hours; 0 or more.

    Returns:
        One flow temperature for each point.

    Shapes:
        All are one-dimensional; outdoor temperature, flow temperature and weight of equal length.

    Raises:
        OutOfRange: two points lie at the same outdoor temperature.

    Source:
        Weighted least squares over straight lines between points.

    Example:
        >>> outdoor = np.array([-3.0, 5.0, 13.0])
        >>> points_that_fit(np.array([-3.0, 13.0]), outdoor, 40 - outdoor, np.ones(3)).round(6)
        array([43., 27.])
    """
    points, _ = _in_order(outdoor_points, outdoor_points)
    unit = np.eye(points.size)
    shape = np.stack(
        [flow_temperature_by_points(outdoor_temperature, points, unit[i]) for i in range(len(unit))]
    ).T
    root = np.sqrt(np.asarray(weight, dtype=float))
    wanted = np.asarray(flow_temperature, dtype=float) * root
    solution: NDArray[np.float64] = np.linalg.lstsq(shape * root[:, None], wanted, rcond=None)[0]
    return solution


def _design_excess(
    room_temperature: Celsius, design_flow_temperature: Celsius, design_drop: Kelvin
) -> Kelvin:
    excess = design_flow_temperature - design_drop / 2 - room_temperature
    check_between("mean water above room at design", excess, 0.1, 80.0, "K")
    return excess


def _in_order(
    outdoor_points: Celsius, flow_points: Celsius
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    outdoor = np.asarray(outdoor_points, dtype=float)
    order = np.argsort(outdoor)
    if outdoor.size < 2 or np.any(np.diff(outdoor[order]) <= 0):
        raise OutOfRange(
            f"the curve has its points at {', '.join(f'{x:g}' for x in outdoor)} °C; "
            "it needs two or more, each at its own outdoor temperature."
        )
    return outdoor[order], np.asarray(flow_points, dtype=float)[order]
