"""A weather file's rows as columns of numbers and times, with everything wrong in them."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from itertools import pairwise

import numpy as np

from hearthbook.errors import Fault
from hearthbook.units import Array

__all__ = ["QUANTITIES", "Column", "Faults", "Layout", "Place", "Row", "Table", "filled"]

Row = tuple[int, list[str]]

_SHOWN_OF_A_KIND = 5
_HOUR = timedelta(hours=1)
_MONTHS_OF_CLOCK_CHANGES = {3, 4, 9, 10, 11}
_SUNDAY = 6
_FIRST_YEAR, _LAST_YEAR = 1900, 2100

# What a file may hold of each quantity, in the file's unit; the radiation's and wind's limits are
# those of `simulate.weather`
QUANTITIES: dict[str, tuple[float, float, str]] = {
    "outdoor_temperature": (-60.0, 60.0, "°C"),
    "relative_humidity": (0.0, 100.0, "%"),
    "wind_speed": (0.0, 60.0, "m/s"),
    "global_horizontal": (0.0, 1500.0, "W/m²"),
    "diffuse_horizontal": (0.0, 1500.0, "W/m²"),
    "direct_normal": (0.0, 1500.0, "W/m²"),
    "beam_horizontal": (0.0, 1500.0, "W/m²"),
}


@dataclass(frozen=True)
class Place:
    """Where a file's weather was: degrees north and east, m above the sea, hours before UTC."""

    latitude: float
    longitude: float
    altitude: float
    utc_offset: float


@dataclass(frozen=True)
class Column:
    """One quantity's column.

    Attributes:
        quantity: one of `QUANTITIES`.
        name: as the file calls it.
        index: its position in a row, 0 first.
    """

    quantity: str
    name: str
    index: int


@dataclass(frozen=True)
class Layout:
    """How a file is to be read.

    Attributes:
        source: the words that tell a person what the weather is.
        place: where it was.
        columns: of the quantities wanted.
        width: cells that every row must have.
        time_name: what the file calls the time.
        time_of: the beginning of a row's hour; raises ValueError where there is none.
        is_utc: the times are UTC, not local standard time.
        is_typical: months of several years put together: one year that may be turned round.
    """

    source: str
    place: Place
    columns: tuple[Column, ...]
    width: int
    time_name: str
    time_of: Callable[[list[str]], datetime]
    is_utc: bool
    is_typical: bool


@dataclass(frozen=True)
class Table:
    """The numbers of a file in the file's units, and the time of its first row."""

    start: datetime
    values: dict[str, Array]


@dataclass
class Faults:
    """Faults as they are found; of one kind only the first few are kept and the rest counted."""

    _kept: list[Fault] = field(default_factory=list)
    _of_kind: dict[str, list[int]] = field(default_factory=dict)
    _more: Counter[int] = field(default_factory=Counter)

    def add(self, place: str, message: str, line: int | None = None, kind: str = "") -> None:
        """Keep a fault, or count it where there are enough of its kind."""
        alike = self._of_kind.setdefault(kind or f"{place} {message}", [])
        if len(alike) < _SHOWN_OF_A_KIND:
            alike.append(len(self._kept))
            self._kept.append(Fault(place, message, line))
        else:
            self._more[alike[-1]] += 1

    @property
    def found(self) -> list[Fault]:
        """The faults kept, the last of a kind saying how many more there are."""
        return [self._with_more(one, self._more[at]) for at, one in enumerate(self._kept)]

    def _with_more(self, fault: Fault, more: int) -> Fault:
        message = f"{fault.message} There are {more:,} more like it." if more else fault.message
        return Fault(fault.place, message, fault.line)

    def __len__(self) -> int:
        return len(self._kept)

    def __bool__(self) -> bool:
        return bool(self._kept)


def filled(layout: Layout, rows: Sequence[Row], faults: Faults) -> Table | None:
    """The numbers and the first time of rows, or None where the faults leave none.

    Args:
        layout: how to read a row.
        rows: line number and cells of each.
        faults: what is wrong is added here.
    """
    whole = [row for row in rows if _is_whole(layout, row, faults)]
    times = [_time(layout, row, faults) for row in rows]
    values = {
        column.quantity: np.array([_number(column, line, cells, faults) for line, cells in whole])
        for column in layout.columns
    }
    _check_times(layout, times, [line for line, _ in rows], faults)
    if faults or not times or times[0] is None:
        return None
    return Table(times[0], values)


def _is_whole(layout: Layout, row: Row, faults: Faults) -> bool:
    line, cells = row
    if len(cells) >= layout.width:
        return True
    message = f"has {len(cells)} columns; it must have {layout.width}."
    faults.add("the row", message, line, kind="width")
    return False


def _number(column: Column, line: int, cells: list[str], faults: Faults) -> float:
    low, high, unit = QUANTITIES[column.quantity]
    written = cells[column.index].strip()
    try:
        value = float(written)
    except ValueError:
        value = math.nan
    if low <= value <= high:
        return value
    if math.isfinite(value):
        message = f"is {written} {unit}; it must lie between {low:g} and {high:g} {unit}."
    elif written:
        message = f"is '{written[:20]}'; it must be a number in {unit}."
    else:
        message = f"is empty; give a number in {unit}."
    faults.add(column.name, message, line, kind=column.quantity)
    return math.nan


def _time(layout: Layout, row: Row, faults: Faults) -> datetime | None:
    line, cells = row
    if len(cells) < layout.width:
        return None
    try:
        time = layout.time_of(cells)
    except ValueError as wrong:
        faults.add(layout.time_name, str(wrong), line, kind="time")
        return None
    if time.minute or time.second or not _FIRST_YEAR <= time.year <= _LAST_YEAR:
        written = time.isoformat(" ")[:19]
        message = f"is {written}; it must be on the hour, {_FIRST_YEAR} to {_LAST_YEAR}."
        faults.add(layout.time_name, message, line, kind="on the hour")
        return None
    return time


def _check_times(
    layout: Layout, times: Sequence[datetime | None], lines: Sequence[int], faults: Faults
) -> None:
    """Hour after hour, none missing, none twice, whole days, a year of them."""
    steps = [
        (before, after, line)
        for (before, after), line in zip(pairwise(times), lines[1:], strict=True)
        if before is not None and after is not None and after - before != _HOUR
    ]
    steps = [step for step in steps if not _is_leap_day_left_out(step[0], step[1])]
    if 2 * len(steps) > len(times):
        _not_hourly(layout, steps, faults)
        return
    changes = [] if layout.is_utc else _clock_changes(layout, steps, faults)
    for step in steps:
        if step not in changes:
            _wrong_step(layout, step, faults)
    if times and not steps and None not in times:
        _whole_days(len(times), faults)


def _is_leap_day_left_out(before: datetime, after: datetime) -> bool:
    return (before.month, before.day, before.hour) == (2, 28, 23) and (
        after - before == timedelta(hours=25) and (after.month, after.day) == (3, 1)
    )


def _not_hourly(
    layout: Layout, steps: Sequence[tuple[datetime, datetime, int]], faults: Faults
) -> None:
    usual = Counter(after - before for before, after, _ in steps).most_common(1)[0][0]
    hours = usual / _HOUR
    message = f"goes in steps of {hours:g} hours; give the mean of every hour."
    faults.add(layout.time_name, message, steps[0][2])


def _clock_changes(
    layout: Layout, steps: Sequence[tuple[datetime, datetime, int]], faults: Faults
) -> list[tuple[datetime, datetime, int]]:
    """The steps that come of a clock put forward in one season and back in the other."""
    likely = [
        step
        for step in steps
        if step[1].weekday() == _SUNDAY
        and step[1].month in _MONTHS_OF_CLOCK_CHANGES
        and step[1].hour <= 4
    ]
    forward = [step for step in likely if step[1] - step[0] == 2 * _HOUR]
    back = [step for step in likely if step[1] == step[0]]
    if not forward or not back:
        return []
    message = (
        f"follows a clock that changes to summer time ({forward[0][0] + _HOUR:%Y-%m-%d %H:%M} is "
        f"missing and {back[0][0]:%Y-%m-%d %H:%M} stands twice); give standard time or UTC."
    )
    faults.add(layout.time_name, message, min(forward[0][2], back[0][2]))
    return forward + back


def _wrong_step(layout: Layout, step: tuple[datetime, datetime, int], faults: Faults) -> None:
    before, after, line = step
    was, now = (f"{time:%Y-%m-%d %H:%M}" for time in (before, after))
    if after == before:
        faults.add(layout.time_name, f"{now} stands twice; leave one out.", line, kind="twice")
    elif after < before:
        message = f"goes back from {was} to {now}; put the rows in order of time."
        faults.add(layout.time_name, message, line, kind="order")
    else:
        missing = round((after - before) / _HOUR) - 1
        hours = "1 hour is" if missing == 1 else f"{missing:,} hours are"
        message = f"{hours} missing between {was} and {now}; fill them or use another source."
        faults.add(layout.time_name, message, line, kind="gap")


def _whole_days(hours: int, faults: Faults) -> None:
    if hours % 24:
        faults.add("the file", f"has {hours:,} hours; give whole days, 24 hours each.")
    elif hours < 365 * 24:
        days = hours // 24
        said = "1 day" if days == 1 else f"{days} days"
        faults.add("the file", f"has {said}; a year needs at least 365, one after another.")
