"""Which days and minutes of a year are worth a picture, and how many points that takes."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from hearthbook.year.home_year import HomeYear
from hearthbook.year.minutes import Minutes

__all__ = ["WEEK", "cold_week", "extremes", "mild_week", "usual_defrost"]

_Array = NDArray[np.float64]

WEEK = 7  # days
_MILD = 10.0  # °C; a usual day of spring or autumn
_BEFORE, _AFTER = 30, 40  # minutes about a defrost with nothing else in them
_SLOT_MINUTES = 15


def cold_week(year: HomeYear) -> int:
    """First day of the coldest seven days in a row."""
    return int(np.argmin(_week_means(year)))


def mild_week(year: HomeYear) -> int:
    """First day of the seven days in a row nearest to 10 °C."""
    return int(np.argmin(np.abs(_week_means(year) - _MILD)))


def _week_means(year: HomeYear) -> _Array:
    """Mean outdoor temperature of each seven days in a row; of all days where there are fewer."""
    days = year.run.days
    means = days["outdoor"] / days["seconds"]
    return np.convolve(means, np.full(min(WEEK, means.size), 1.0 / min(WEEK, means.size)), "valid")


def usual_defrost(year: HomeYear, minutes: Minutes) -> int | None:
    """The minute a usual defrost began: amid heating, nearest to where half of them are colder.

    Returns:
        None where none stands alone amid heating.
    """
    began = minutes.defrosts
    if not began.size:
        return None
    slots = began // _SLOT_MINUTES
    outdoor = year.drivers.slots["outdoor"][slots]
    gaps = np.diff(np.concatenate(([-_AFTER], began, [began[-1] + _AFTER])))
    alone = (gaps[:-1] >= _AFTER) & (gaps[1:] >= _AFTER)
    last = minutes.is_heating.size - 1
    amid = np.array(
        [
            bool(np.all(minutes.is_heating[max(slot - _BEFORE // _SLOT_MINUTES, 0) : slot] == 1.0))
            and slot + _AFTER // _SLOT_MINUTES + 1 <= last
            and bool(np.all(minutes.is_heating[slot + 1 : slot + 1 + _AFTER // _SLOT_MINUTES] > 0))
            for slot in slots
        ]
    )
    usable = alone & amid
    if not usable.any():
        return None
    distance = np.where(usable, np.abs(outdoor - np.median(outdoor)), np.inf)
    return int(began[np.argmin(distance)])


def extremes(values: _Array, bucket: int) -> _Array:
    """The least and the most of each bucket, in the order they came.

    Args:
        values: minute by minute.
        bucket: how many make one; what is left over at the end is a bucket too.

    Example:
        >>> extremes(np.array([1.0, 5.0, 3.0, 9.0, 2.0, 4.0]), 3).tolist()
        [1.0, 5.0, 9.0, 2.0]
    """
    found = []
    for start in range(0, values.size, bucket):
        part = values[start : start + bucket]
        first, second = sorted((int(np.argmin(part)), int(np.argmax(part))))
        found += [part[first], part[second]]
    return np.array(found)
