"""Local clock time of each slot of a run: what people and controllers go by.

Weather is told in standard time all year; a household's clock is put forward in summer. Where the
country keeps Europe's summer time, the clock moves at 01:00 UTC on the last Sunday of March and of
October, in any year that is run. On those two days a stretch of the night over the change is an
hour shorter or longer, as it is in the home.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta

import numpy as np
from numpy.typing import NDArray

from hearthbook.errors import OutOfRange, check_between
from hearthbook.kernel.parameters import SLOT_SECONDS

__all__ = ["CivilTime", "civil_time", "keeps_summer_time", "minutes_of_clock", "summer_time"]

_Whole = NDArray[np.int64]

_SLOT_MINUTES = int(SLOT_SECONDS) // 60
_DAY_MINUTES = 1440
_CHANGES_AT = 1  # o'clock UTC; Directive 2000/84/EC of the European Parliament and of the Council

# Countries whose clocks follow Directive 2000/84/EC or a law of the same effect; from memory
_SUMMER_TIME = frozenset({
    "albania", "andorra", "austria", "belgium", "bosnia_and_herzegovina", "britain", "bulgaria",
    "croatia", "cyprus", "czechia", "denmark", "england", "estonia", "finland", "france", "germany",
    "great_britain", "greece", "hungary", "ireland", "italy", "kosovo", "latvia", "liechtenstein",
    "lithuania", "luxembourg", "malta", "monaco", "montenegro", "netherlands", "north_macedonia",
    "northern_ireland", "norway", "poland", "portugal", "romania", "san_marino", "scotland",
    "serbia", "slovakia", "slovenia", "spain", "sweden", "switzerland", "united_kingdom", "wales",
})  # fmt: skip


@dataclass(frozen=True)
class CivilTime:
    """The local clock over a run, slot by slot; each value is that at the slot's start.

    Attributes:
        start: first moment of the run, UTC.
        offset: minutes the clock is ahead of UTC.
        minute: of the local day, 0 to 1425.
        day: of the run, 0 first; days change at local midnight.
        weekday: 0 for Monday.
        month: 0 for January.
        day_of_year: 0 for 1 January.
        has_summer_time: whether the clock is put forward in summer.
    """

    start: datetime
    offset: _Whole
    minute: _Whole
    day: _Whole
    weekday: _Whole
    month: _Whole
    day_of_year: _Whole
    has_summer_time: bool

    @property
    def slots(self) -> int:
        """How many slots the run has."""
        return int(self.minute.size)

    @property
    def day_count(self) -> int:
        """How many local days the run touches; the first and last may be parts of days."""
        return int(self.day[-1]) + 1

    def first_slots(self) -> _Whole:
        """The slot in which each day begins."""
        return np.searchsorted(self.day, np.arange(self.day_count)).astype(np.int64)

    def is_within(self, start: str, end: str) -> NDArray[np.bool_]:
        """Which slots lie in a stretch of the day.

        Args:
            start: by the clock, such as 22:30.
            end: earlier than the start where it runs over midnight; equal for the whole day.

        Returns:
            True for slots whose middle lies inside, and for the slot in which it begins.
        """
        first, last = minutes_of_clock(start), minutes_of_clock(end)
        lasts = (last - first) % _DAY_MINUTES or _DAY_MINUTES
        middle = self.minute + _SLOT_MINUTES / 2
        begins = self.minute == first - first % _SLOT_MINUTES
        inside: NDArray[np.bool_] = (middle - first) % _DAY_MINUTES < lasts
        return inside | (begins if lasts < _SLOT_MINUTES else False)

    def run_minutes(self, day: _Whole, minute: _Whole) -> _Whole:
        """The minute of the run at which a local clock stands at a time.

        Args:
            day: of the run.
            minute: of that local day, 0 to 1439.

        Returns:
            Counted from the start; -1 where that is not within the run. A time the clock skips in
            spring is taken at the end of the gap, one it passes twice in autumn the first time.
        """
        clock = np.maximum.accumulate(self.day * _DAY_MINUTES + self.minute)
        past = minute % _SLOT_MINUTES
        wanted = day * _DAY_MINUTES + minute - past
        slot = np.searchsorted(clock, wanted)
        inside = (wanted >= clock[0]) & (wanted <= clock[-1]) & (day < self.day_count)
        found = np.minimum(slot, self.slots - 1)
        is_met = clock[found] == wanted
        result: _Whole = np.where(inside, found * _SLOT_MINUTES + np.where(is_met, past, 0), -1)
        return result


def civil_time(start: datetime, slots: int, utc_offset: float, country: str) -> CivilTime:
    """The local clock over a run.

    Args:
        start: first moment, with its time zone.
        slots: quarters of an hour, at least 1.
        utc_offset: hours that local standard time is ahead of UTC.
        country: as the record names it; decides whether there is summer time.

    Raises:
        OutOfRange: the start has no time zone, or the offset is none that the earth has.
    """
    check_between("slots of the run", slots, 1, 4e6, "")
    check_between("local standard time ahead of UTC", utc_offset, -12.0, 14.0, "h")
    if start.tzinfo is None:
        raise OutOfRange(
            f"the weather starts at {start:%Y-%m-%d %H:%M} without a time zone; give it in UTC."
        )
    begins = start.astimezone(UTC)
    standard = np.timedelta64(round(utc_offset * 60), "m")
    steps = np.arange(slots) * np.timedelta64(_SLOT_MINUTES, "m")
    utc = np.datetime64(begins.replace(tzinfo=None), "m") + steps
    has_summer = keeps_summer_time(country)
    offset = standard + _put_forward(utc) * np.timedelta64(60, "m") if has_summer else standard
    return _read(begins, utc, np.broadcast_to(offset, utc.shape), has_summer)


def _read(
    start: datetime,
    utc: NDArray[np.datetime64],
    offset: NDArray[np.timedelta64],
    has_summer_time: bool,
) -> CivilTime:
    local = utc + offset
    date_ = local.astype("datetime64[D]")
    shown = np.maximum.accumulate(date_)
    number = date_.astype(np.int64)
    return CivilTime(
        start=start,
        offset=offset.astype(np.int64),
        minute=(local - date_).astype(np.int64),
        day=np.concatenate(([0], np.cumsum(np.diff(shown.astype(np.int64)) != 0))).astype(np.int64),
        weekday=(number + 3) % 7,  # 1 January 1970 was a Thursday
        month=local.astype("datetime64[M]").astype(np.int64) % 12,
        day_of_year=(date_ - local.astype("datetime64[Y]").astype("datetime64[D]")).astype(
            np.int64
        ),
        has_summer_time=has_summer_time,
    )


def keeps_summer_time(country: str) -> bool:
    """Whether a country's clocks follow Europe's summer time.

    Args:
        country: as the record names it, in small letters.

    Source:
        Directive 2000/84/EC; the list of countries is from memory.

    Example:
        >>> keeps_summer_time("england"), keeps_summer_time("iceland")
        (True, False)
    """
    return country in _SUMMER_TIME


def summer_time(year: int) -> tuple[datetime, datetime]:
    """When Europe's clocks go forward and back in a year, UTC.

    Source:
        Directive 2000/84/EC, articles 2 and 3: last Sunday of March and of October, 01:00 UTC.

    Example:
        >>> [f"{moment:%d %B %H:%M}" for moment in summer_time(2026)]
        ['29 March 01:00', '25 October 01:00']
    """
    return _last_sunday(year, 3), _last_sunday(year, 10)


def minutes_of_clock(clock: str) -> int:
    """Minutes from midnight of a time such as 05:30.

    Raises:
        OutOfRange: it is no time of the clock.

    Example:
        >>> minutes_of_clock("05:30")
        330
    """
    hours, _, minutes = clock.partition(":")
    is_time = hours.isdecimal() and minutes.isdecimal() and len(minutes) == len("00")
    if not is_time or int(hours) > 23 or int(minutes) > 59:
        raise OutOfRange(f"'{clock}' is no time of day; write it from 00:00 to 23:59.")
    return int(hours) * 60 + int(minutes)


def _last_sunday(year: int, month: int) -> datetime:
    last = date(year, month, 31)
    sunday = last - timedelta(days=(last.weekday() + 1) % 7)
    return datetime(year, month, sunday.day, _CHANGES_AT, tzinfo=UTC)


def _put_forward(utc: NDArray[np.datetime64]) -> NDArray[np.bool_]:
    forward = np.zeros(utc.shape, dtype=bool)
    for year in _years(utc):
        begins, ends = (
            np.datetime64(moment.replace(tzinfo=None), "m") for moment in summer_time(year)
        )
        forward |= (utc >= begins) & (utc < ends)
    return forward


def _years(times: NDArray[np.datetime64]) -> list[int]:
    years = times[[0, -1]].astype("datetime64[Y]").astype(np.int64) + 1970
    return list(range(int(years[0]), int(years[1]) + 1))
