"""The local clock of a run, held against the world's own table of time zones."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.errors import OutOfRange
from hearthbook.simulate.calendar_time import (
    CivilTime,
    civil_time,
    keeps_summer_time,
    minutes_of_clock,
    summer_time,
)

DAY = 96  # slots


def _year(year: int = 2025, *, country: str = "england", offset: float = 0.0) -> CivilTime:
    start = datetime(year, 1, 1, tzinfo=UTC) - timedelta(hours=offset)
    return civil_time(start, 365 * DAY, offset, country)


@pytest.mark.parametrize(
    ("zone", "country", "offset"),
    [
        ("Europe/London", "england", 0.0),
        ("Europe/Berlin", "germany", 1.0),
        ("Europe/Athens", "greece", 2.0),
        ("Atlantic/Reykjavik", "iceland", 0.0),
    ],
)
@pytest.mark.parametrize("year", [2019, 2024, 2026])
def test_the_clock_is_that_of_the_time_zone_database(
    zone: str, country: str, offset: float, year: int
) -> None:
    # Source: IANA time zone database, through Python's zoneinfo.
    start = datetime(year - 1, 12, 31, 22, tzinfo=UTC)
    clock = civil_time(start, 366 * DAY, offset, country)
    for slot in range(0, clock.slots, 2):
        there = (start + timedelta(minutes=15 * slot)).astimezone(ZoneInfo(zone))
        found = (clock.minute[slot], clock.weekday[slot], clock.month[slot])
        assert found == (there.hour * 60 + there.minute, there.weekday(), there.month - 1)
        assert clock.day_of_year[slot] == there.timetuple().tm_yday - 1


def test_days_of_the_change_have_23_and_25_hours() -> None:
    lengths = np.bincount(_year().day)
    assert sorted(set(lengths.tolist())) == [92, 96, 100]
    assert lengths[88] == 92, "30 March 2025"
    assert lengths[298] == 100, "26 October 2025"
    assert lengths.sum() == 365 * DAY


def test_days_rise_by_one_at_local_midnight() -> None:
    clock = _year(country="germany", offset=1.0)
    assert clock.day[0] == 0
    assert set(np.diff(clock.day).tolist()) == {0, 1}
    assert np.all(clock.minute[clock.first_slots()] == 0)
    assert clock.day_count == 365


def test_a_country_without_summer_time_keeps_standard_time() -> None:
    clock = _year(country="iceland")
    assert not clock.has_summer_time
    assert np.all(clock.offset == 0)
    assert not keeps_summer_time("nowhere_known")


def test_clocks_change_on_the_last_sunday_at_one_utc() -> None:
    # Source: Directive 2000/84/EC; dates of 2024 from the Commission's communication, from memory
    assert summer_time(2024) == (
        datetime(2024, 3, 31, 1, tzinfo=UTC),
        datetime(2024, 10, 27, 1, tzinfo=UTC),
    )


def test_a_window_holds_the_slots_whose_middle_lies_in_it() -> None:
    clock = _year()
    assert clock.is_within("13:00", "16:00")[:DAY].sum() == 12
    inside = np.flatnonzero(clock.is_within("00:10", "00:50")[:DAY])
    assert inside.tolist() == [1, 2], "of 00:00 the middle, 00:07, lies before it"


def test_a_window_over_midnight_holds_both_ends_of_the_day() -> None:
    inside = _year().is_within("22:30", "06:30")[:DAY]
    assert inside.sum() == 32
    assert inside[:26].all()
    assert inside[90:].all()
    assert not inside[26:90].any()


def test_a_window_without_length_is_the_whole_day() -> None:
    assert _year().is_within("07:00", "07:00").all()


@given(st.integers(0, 95), st.integers(0, 95))
def test_a_window_and_the_rest_of_the_day_share_out_all_slots(start: int, end: int) -> None:
    first, last = (f"{slot // 4:02d}:{slot % 4 * 15:02d}" for slot in (start, end))
    clock = civil_time(datetime(2025, 3, 29, tzinfo=UTC), 3 * DAY, 0.0, "england")
    inside, rest = clock.is_within(first, last), clock.is_within(last, first)
    if start == end:
        assert inside.all()
    else:
        assert np.array_equal(inside, ~rest)
        assert inside[:DAY].sum() == (end - start) % 96


def test_a_window_shorter_than_a_slot_is_not_lost() -> None:
    inside = np.flatnonzero(_year().is_within("13:00", "13:05")[:DAY])
    assert inside.tolist() == [52]


def test_windows_over_a_change_are_an_hour_shorter_or_longer() -> None:
    clock = _year()
    night = clock.is_within("00:00", "06:00")
    by_day = np.bincount(clock.day, night)
    assert by_day[88] == 20
    assert by_day[298] == 28
    assert np.all(np.delete(by_day, [88, 298]) == 24)


def test_a_window_by_day_starts_an_hour_earlier_in_utc_in_summer() -> None:
    inside = np.flatnonzero(_year().is_within("13:00", "14:00"))
    assert inside[0] == 13 * 4
    june = inside[(inside >= 160 * DAY) & (inside < 161 * DAY)]
    assert june[0] == 160 * DAY + 12 * 4


def test_a_time_of_the_clock_is_found_in_the_run() -> None:
    clock = _year()
    days, minutes = np.array([0, 160, 88, 298]), np.array([425, 425, 90, 90])
    found = clock.run_minutes(days, minutes)
    assert found[0] == 425
    assert found[1] == 160 * 1440 + 425 - 60
    assert found[2] == 88 * 1440 + 60, "01:30 is skipped: taken at the end of the gap"
    assert found[3] == 298 * 1440 + 90 - 60, "01:30 comes twice: the first time"


def test_times_outside_the_run_are_told_apart() -> None:
    clock = civil_time(datetime(2025, 1, 1, 0, tzinfo=UTC), DAY, 1.0, "germany")
    assert clock.minute[0] == 60
    found = clock.run_minutes(np.array([0, 0, 1, 1, 5]), np.array([30, 61, 59, 60, 0]))
    assert found.tolist() == [-1, 1, 23 * 60 + 59, -1, -1]


def test_what_is_no_time_of_day_is_refused() -> None:
    assert minutes_of_clock("23:59") == 1439
    for wrong in ("24:00", "7", "ab:cd", "12:60", "12:5", "-1:00"):
        with pytest.raises(OutOfRange, match=f"'{wrong}' is no time of day"):
            minutes_of_clock(wrong)


def test_a_start_without_zone_and_an_impossible_offset_are_refused() -> None:
    with pytest.raises(OutOfRange, match="2025-01-01 00:00 without a time zone"):
        civil_time(datetime(2025, 1, 1), DAY, 0.0, "england")  # noqa: DTZ001 - that is the fault
    with pytest.raises(OutOfRange, match="is 15 h; it must lie between -12 and 14"):
        civil_time(datetime(2025, 1, 1, tzinfo=UTC), DAY, 15.0, "england")
    with pytest.raises(OutOfRange, match="slots of the run is 0"):
        civil_time(datetime(2025, 1, 1, tzinfo=UTC), 0, 0.0, "england")
