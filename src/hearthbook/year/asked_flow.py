"""The flow temperature the controller asks for in each slot, colder stretches and returns in it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hearthbook.design.true_curve import set_flow_temperature
from hearthbook.design.weather_curve import WeatherCurve
from hearthbook.kernel.parameters import SLOT_SECONDS
from hearthbook.physics import weather_curve as physics
from hearthbook.record.controls import Controls
from hearthbook.year.changes import Changes, ColderStretch

__all__ = ["AveragedOutdoor", "asked_flow", "averaging_hours", "colder_stretch", "warming_again"]

_Array = NDArray[np.float64]

_CURVE_HOURS = 3.0  # h a controller damps the outdoor temperature, common practice, no source
_LIMIT_HOURS = 24.0  # h behind the heating limit: the mean of a day, as the design counts it
_MOST_BOOST = 3.0  # K above the curve while the rooms warm again; common practice, no source
_BOOST_SLOTS = round(3 * 3600.0 / SLOT_SECONDS)  # three hours at most; likewise
_LEAST_DIFFERENCE = 3.0  # K between rooms and outdoors, below which a K of room is not split
_LOWEST, _HIGHEST = 0.0, 90.0  # °C; what a heating curve means, however mild or cold it is


@dataclass(frozen=True)
class AveragedOutdoor:
    """Over how many hours the controller averages the outdoor temperature.

    Attributes:
        curve: for the curve.
        limit: for the heating limit.
        is_recorded: whether the record says so; otherwise usual hours stand in.
    """

    curve: float
    limit: float
    is_recorded: bool


def averaging_hours(controls: Controls) -> AveragedOutdoor:
    """The hours as recorded, for curve and limit alike; else 3 for the curve, 24 for the limit."""
    if controls.averaging_time is None:
        return AveragedOutdoor(_CURVE_HOURS, _LIMIT_HOURS, is_recorded=False)
    hours = controls.averaging_time / 3600.0
    return AveragedOutdoor(hours, hours, is_recorded=True)


def colder_stretch(controls: Controls, changes: Changes) -> ColderStretch | None:
    """The colder stretch that holds: the variant's, else the recorded one; None where none does."""
    if changes.setback is not None:
        return changes.setback if changes.setback.by else None
    recorded = controls.setback
    if recorded is None or recorded.by == 0.0:
        return None
    return ColderStretch(recorded.by, recorded.window.start, recorded.window.end)


def warming_again(is_colder: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Slots of the three hours after each colder stretch; none within the next one."""
    ends = np.concatenate(([False], is_colder[:-1] & ~is_colder[1:]))
    count = np.cumsum(ends)
    before = np.concatenate((np.zeros(min(_BOOST_SLOTS, count.size), dtype=count.dtype),
                             count[:-_BOOST_SLOTS]))  # fmt: skip
    warming: NDArray[np.bool_] = (count > before) & ~is_colder
    return warming


def asked_flow(
    curve: WeatherCurve, changes: Changes, outdoor_mean: _Array, room_shift: _Array
) -> _Array:
    """The flow temperature asked by the curve as it stands.

    Args:
        curve: with the controls as recorded, and what the design advises where they hold none.
        changes: of the variant.
        outdoor_mean: °C outdoors, as the controller averages it for its curve.
        room_shift: K by which all rooms are wanted colder (negative) or warmer than the record
            says; the curve moves by what that takes.

    Returns:
        °C, before the limits the kernel holds it to; within 0 to 90 °C. After a colder stretch it
        stands as many K above the curve as the stretch was colder, 3 at most, for 3 hours.
    """
    flow = _curve(curve, changes, outdoor_mean) + changes.curve_shift
    flow = flow + room_shift * _flow_per_kelvin(curve, outdoor_mean)
    dip = max(0.0, float(room_shift.max() - room_shift.min()))
    if dip > 0.0:
        is_colder = room_shift < room_shift.max()
        flow = flow + min(dip, _MOST_BOOST) * warming_again(is_colder)
    return np.clip(flow, _LOWEST, _HIGHEST)


def _curve(curve: WeatherCurve, changes: Changes, outdoor: _Array) -> _Array:
    points = changes.curve_points
    if points is None and curve.controls.curve is None:
        points = tuple((point.outdoor.value, point.flow.value) for point in curve.fit.points)
    if points is not None:
        at, flow = np.array(points).T
        return np.asarray(physics.flow_temperature_by_points(outdoor, at, flow), dtype=float)
    unlimited = curve.controls.model_copy(
        update={"minimum_flow_temperature": None, "maximum_flow_temperature": None}
    )
    made = set_flow_temperature(unlimited, outdoor)
    assert made is not None  # a curve is recorded
    return made


def _flow_per_kelvin(curve: WeatherCurve, outdoor: _Array) -> _Array:
    true, room = curve.true_curve, curve.true_curve.room_temperature
    cold = np.minimum(outdoor, room - _LEAST_DIFFERENCE)
    excess = np.maximum((true.flow(cold) + true.back(cold)) / 2 - room, 0.0)
    return np.asarray(physics.flow_per_room_kelvin(excess, room, cold, true.exponent), dtype=float)
