"""The heat pump between its tested points: output, efficiency, part load and cycling."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from hearthbook.errors import check_between
from hearthbook.units import Celsius, Ratio, Watts

__all__ = [
    "AIR_APPROACH",
    "DEFAULT_CYCLING_COEFFICIENT",
    "WATER_APPROACH",
    "capacity",
    "carnot_efficiency",
    "cycling_factor",
    "efficiency",
    "part_load_efficiency",
    "relative_efficiency",
    "working_efficiency",
]

DEFAULT_CYCLING_COEFFICIENT = 0.9  # EU 813/2013 Annex II table 2 note 2, where not measured
WATER_APPROACH = 3.0  # K; refrigerant above the water leaving, common practice, no source
AIR_APPROACH = 8.0  # K; refrigerant below the air entering, common practice, no source

_KELVIN = 273.15  # °C to K


def carnot_efficiency(hot: Celsius, cold: Celsius) -> Ratio:
    """The most that any heat pump can give between two temperatures.

    Args:
        hot: where heat is given; above the cold side.
        cold: where heat is taken.

    Raises:
        OutOfRange: the hot side is not above the cold one.

    Source:
        Carnot: hot over the difference, in kelvin.

    Example:
        >>> round(carnot_efficiency(35.0, 7.0), 3)
        11.005
    """
    lift = hot - cold
    check_between("hot side above cold side", lift, 0.01, 300.0, "K")
    return (hot + _KELVIN) / lift


def working_efficiency(outdoor_temperature: Celsius, flow_temperature: Celsius) -> Ratio:
    """Carnot's efficiency between the temperatures the refrigerant itself has.

    Args:
        outdoor_temperature: of the air.
        flow_temperature: of the water leaving; more than 11 K below the air is refused.

    Raises:
        OutOfRange: the refrigerant would not have to be lifted at all.

    Assumes:
        The refrigerant condenses 3 K above the water and boils 8 K below the air.

    Source:
        Carnot; the approaches are common practice, no source.

    Example:
        >>> round(working_efficiency(7.0, 35.0), 2)
        7.98
    """
    return carnot_efficiency(flow_temperature + WATER_APPROACH, outdoor_temperature - AIR_APPROACH)


def relative_efficiency(
    outdoor_temperature: Celsius, flow_temperature: Celsius, efficiency: Ratio
) -> Ratio:
    """A tested efficiency as a share of Carnot's at the refrigerant.

    Args:
        outdoor_temperature: of the test.
        flow_temperature: of the test.
        efficiency: coefficient of performance found.

    Source:
        Own derivation; see `working_efficiency`.

    Example:
        >>> round(relative_efficiency(7.0, 35.0, 4.8), 3)
        0.602
    """
    return efficiency / working_efficiency(outdoor_temperature, flow_temperature)


def efficiency(
    outdoor_temperature: Celsius,
    flow_temperature: Celsius,
    point_outdoor: Celsius,
    point_flow: Celsius,
    point_efficiency: Ratio,
) -> Ratio:
    """The efficiency between tested points.

    Args:
        outdoor_temperature: of the air.
        flow_temperature: of the water leaving.
        point_outdoor: outdoor temperatures of the tested points.
        point_flow: flow temperatures of the tested points.
        point_efficiency: coefficients of performance of the tested points.

    Shapes:
        The three of the points have one length; the result has the shape of the first two.

    Raises:
        OutOfRange: an efficiency is not between 0.5 and 15, or the lift is nothing.

    Assumes:
        The share of Carnot's efficiency changes in a straight line between points and is held
        beyond the last one, so that the efficiency itself bends as physics bends it.

    Source:
        Own derivation; the share of Carnot varies far less than the efficiency does.

    Example:
        >>> import numpy as np
        >>> points = np.array([2.0, 7.0]), np.array([35.0, 35.0]), np.array([4.0, 4.8])
        >>> round(efficiency(7.0, 35.0, *points), 2), round(efficiency(7.0, 45.0, *points), 2)
        (4.8, 3.94)
    """
    found = np.asarray(point_efficiency, dtype=float)
    check_between("efficiency of a tested point", found, 0.5, 15.0, "")
    shares = np.asarray(relative_efficiency(point_outdoor, point_flow, found))
    share = _between_points(
        outdoor_temperature, flow_temperature, point_outdoor, point_flow, shares
    )
    result: Ratio = share * working_efficiency(outdoor_temperature, flow_temperature)
    return result


def capacity(
    outdoor_temperature: Celsius,
    flow_temperature: Celsius,
    point_outdoor: Celsius,
    point_flow: Celsius,
    point_output: Watts,
) -> Watts:
    """The heat output between tested points.

    Args:
        outdoor_temperature: of the air.
        flow_temperature: of the water leaving.
        point_outdoor: outdoor temperatures of the tested points.
        point_flow: flow temperatures of the tested points.
        point_output: outputs of the tested points.

    Shapes:
        As `efficiency`.

    Returns:
        Straight between points; colder than the coldest point the last slope goes on, never below
        nothing; milder than the mildest and beyond the flow temperatures the last value holds.

    Source:
        EN 14825 interpolates capacity in a straight line between tested points.

    Example:
        >>> import numpy as np
        >>> points = np.array([-7.0, 2.0]), np.array([35.0, 35.0]), np.array([5000.0, 6000.0])
        >>> round(capacity(-2.5, 35.0, *points)), round(capacity(-16.0, 35.0, *points))
        (5500, 4000)
    """
    outputs = np.asarray(point_output, dtype=float)
    found = _between_points(
        outdoor_temperature, flow_temperature, point_outdoor, point_flow, outputs, True
    )
    return _plain(np.maximum(np.asarray(found), 0.0))


def cycling_factor(
    capacity_ratio: Ratio, coefficient: Ratio = DEFAULT_CYCLING_COEFFICIENT
) -> Ratio:
    """What stopping and starting leaves of the efficiency.

    Args:
        capacity_ratio: load over the least the unit can give, 0 to 1.
        coefficient: degradation coefficient, 0 to 1; 0.9 where it was not measured.

    Raises:
        OutOfRange: the ratio is not between 0 and 1.

    Source:
        EN 14825, fixed-capacity units with water: CR / (Cc CR + 1 - Cc). From memory.

    Example:
        >>> round(cycling_factor(0.5), 4)
        0.9091
    """
    check_between("capacity ratio", capacity_ratio, 0.0, 1.0, "")
    ratio = np.asarray(capacity_ratio, dtype=float)
    bottom = coefficient * ratio + 1.0 - coefficient
    factor = np.divide(ratio, bottom, out=np.ones_like(ratio), where=bottom > 0.0)
    return _plain(factor)


def part_load_efficiency(
    load: Watts,
    least_output: Watts,
    most_output: Watts,
    least_efficiency: Ratio,
    most_efficiency: Ratio,
    coefficient: Ratio = DEFAULT_CYCLING_COEFFICIENT,
) -> Ratio:
    """The efficiency of a unit that throttles between its least and its most, and cycles below.

    Args:
        load: heat asked for; above `most_output` the unit runs at its most.
        least_output: at these temperatures, above 0.
        most_output: at these temperatures, not below the least.
        least_efficiency: at its least.
        most_efficiency: at its most.
        coefficient: degradation coefficient of stopping and starting.

    Assumes:
        A straight line between least and most.

    Source:
        Own derivation on EN 14825's part-load method.

    Example:
        >>> part_load_efficiency(3500.0, 2000.0, 5000.0, 4.0, 3.0)
        3.5
    """
    asked = np.asarray(load, dtype=float)
    least, most = np.broadcast_arrays(np.asarray(least_output), np.asarray(most_output))
    span = np.maximum(most - least, 1e-9)
    share = np.clip((asked - least) / span, 0.0, 1.0)
    throttled = least_efficiency + share * (np.asarray(most_efficiency) - least_efficiency)
    ratio = np.clip(asked / np.maximum(least, 1e-9), 0.0, 1.0)
    return _plain(np.asarray(throttled * cycling_factor(ratio, coefficient)))


def _between_points(
    outdoor_temperature: Celsius,
    flow_temperature: Celsius,
    point_outdoor: Celsius,
    point_flow: Celsius,
    values: NDArray[np.float64],
    goes_on_when_colder: bool = False,
) -> float | NDArray[np.float64]:
    """Values between points that stand in rows of equal flow temperature."""
    outdoor, flow = np.broadcast_arrays(
        np.asarray(outdoor_temperature, dtype=float), np.asarray(flow_temperature, dtype=float)
    )
    point_air, point_water = np.asarray(point_outdoor, float), np.asarray(point_flow, float)
    rows = np.unique(point_water)
    per_row = []
    for row in rows:
        member = point_water == row
        order = np.argsort(point_air[member])
        known, held = point_air[member][order], values[member][order]
        found = np.interp(outdoor, known, held)
        if goes_on_when_colder:
            found = np.where(outdoor < known[0], _straight(outdoor, known, held), found)
        per_row.append(found)
    return _plain(_across_rows(flow, rows, np.stack(per_row)))


def _across_rows(
    flow: NDArray[np.float64], rows: NDArray[np.float64], per_row: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Straight between the rows' flow temperatures, held beyond the last."""
    if rows.size == 1:
        return np.asarray(per_row[0])
    upper = np.clip(np.searchsorted(rows, flow), 1, rows.size - 1)
    share = np.clip((flow - rows[upper - 1]) / (rows[upper] - rows[upper - 1]), 0.0, 1.0)
    below = np.take_along_axis(per_row, (upper - 1)[np.newaxis], axis=0)[0]
    above = np.take_along_axis(per_row, upper[np.newaxis], axis=0)[0]
    return np.asarray(below + share * (above - below))


def _straight(
    at: NDArray[np.float64], known: NDArray[np.float64], held: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Straight lines through known values, the last slope going on at both ends."""
    if known.size == 1:
        return np.full(at.shape, held[0])
    upper = np.clip(np.searchsorted(known, at), 1, known.size - 1)
    slope = (held[upper] - held[upper - 1]) / (known[upper] - known[upper - 1])
    return np.asarray(held[upper - 1] + slope * (at - known[upper - 1]))


def _plain(value: NDArray[np.float64]) -> float | NDArray[np.float64]:
    """A plain number where a single one was asked for."""
    return value if np.ndim(value) else float(value)
