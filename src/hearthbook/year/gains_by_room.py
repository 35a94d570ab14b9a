"""Warmth of people, lights and appliances in each room over the day; each has the design's mean."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from hearthbook.errors import check_between
from hearthbook.record.building import Room, RoomUse
from hearthbook.record.household import Occupancy
from hearthbook.simulate.calendar_time import CivilTime

__all__ = ["gains_by_room"]

_Array = NDArray[np.float64]

# Warmth for each m² against that of a bedroom: cooking and cold stores in the kitchen, people and
# screens in the living rooms; common practice, no source
_BY_USE: dict[RoomUse, float] = {
    RoomUse.LIVING: 1.6,
    RoomUse.DINING: 1.2,
    RoomUse.KITCHEN: 3.0,
    RoomUse.BEDROOM: 1.0,
    RoomUse.BATHROOM: 1.0,
    RoomUse.HALL: 0.3,
    RoomUse.LANDING: 0.3,
    RoomUse.STUDY: 1.4,
    RoomUse.WC: 0.3,
    RoomUse.UTILITY: 2.0,
}

# Share of a room's warmth in each hour of a day with somebody in, up to a common factor; the same.
_LIVED_IN = [3, 2, 2, 2, 2, 3, 5, 7, 7, 7, 7, 7, 8, 8, 7, 7, 8, 10, 12, 13, 13, 12, 9, 5]
_KITCHEN = [4, 3, 3, 3, 3, 4, 8, 12, 9, 6, 6, 7, 12, 9, 6, 6, 8, 14, 15, 11, 8, 6, 5, 4]
_BEDROOM = [11, 11, 11, 11, 11, 11, 10, 7, 4, 3, 3, 3, 3, 3, 3, 3, 3, 3, 4, 5, 6, 7, 9, 11]
_BATHROOM = [1, 1, 1, 1, 1, 3, 10, 14, 9, 4, 3, 3, 3, 3, 3, 3, 3, 4, 5, 6, 8, 8, 5, 2]
_STEADY = [5] * 24
_PATTERNS: dict[RoomUse, list[int]] = {
    RoomUse.LIVING: _LIVED_IN,
    RoomUse.DINING: _LIVED_IN,
    RoomUse.STUDY: _LIVED_IN,
    RoomUse.KITCHEN: _KITCHEN,
    RoomUse.BEDROOM: _BEDROOM,
    RoomUse.BATHROOM: _BATHROOM,
}
_OUT_HOURS = slice(9, 16)  # o'clock, on working days, where the household is out by day
_LEFT_ON = 0.35  # of the warmth then: cold stores and standby; common practice, no source
_SATURDAY = 5


def gains_by_room(
    rooms: tuple[Room, ...],
    floor_areas: tuple[float, ...],
    mean: float,
    occupancy: Occupancy,
    clock: CivilTime,
) -> _Array:
    """The warmth in each room and slot.

    Args:
        rooms: of the record.
        floor_areas: m² of each.
        mean: W of all rooms together, mean of a day; 0 or more.
        occupancy: when somebody is in; irregular counts as all day.
        clock: of the run.

    Returns:
        W, slots by rooms. Over each day that is run in whole or in part the mean of all rooms is
        the mean asked.

    Source:
        Split by use and hour: common practice, no source.
    """
    check_between("warmth of people and appliances", mean, 0.0, 1e5, "W")
    weight = np.array([_BY_USE[room.use] for room in rooms]) * np.array(floor_areas)
    by_hour = np.array([_PATTERNS.get(room.use, _STEADY) for room in rooms], dtype=float).T
    by_hour /= by_hour.mean(axis=0)
    shape = by_hour[clock.minute // 60]
    if occupancy is Occupancy.OUT_BY_DAY:
        hours = np.ones(24)
        hours[_OUT_HOURS] = _LEFT_ON
        shape *= np.where(clock.weekday < _SATURDAY, hours[clock.minute // 60], 1.0)[:, None]
    first = clock.first_slots()
    lengths = np.diff(np.append(first, clock.slots))
    means = np.add.reduceat(shape, first, axis=0) / lengths[:, None]
    gains: _Array = shape / means[clock.day] * (mean * weight / weight.sum())
    return gains
