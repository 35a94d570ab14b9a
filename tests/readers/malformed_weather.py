"""Malformed weather files and the exact words they are refused with.

Each case changes a good file. The words were written for the person who reads them; a change here
is a change of the interface.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.readers.weather_made import as_epw, as_plain, as_pvgis_hourly, as_pvgis_typical

__all__ = ["CASES", "Change"]

Lines = list[str]
Change = Callable[[Lines], Lines]


def _put(line: int, old: str, new: str) -> Change:
    def change(lines: Lines) -> Lines:
        assert old in lines[line - 1], lines[line - 1]
        return [*lines[: line - 1], lines[line - 1].replace(old, new, 1), *lines[line:]]

    return change


def _cell(line: int, index: int, new: str) -> Change:
    def change(lines: Lines) -> Lines:
        cells = lines[line - 1].split(",")
        cells[index] = new
        return [*lines[: line - 1], ",".join(cells), *lines[line:]]

    return change


def _without(first: int, last: int) -> Change:
    return lambda lines: [*lines[: first - 1], *lines[last:]]


def _again(line: int) -> Change:
    return lambda lines: [*lines[:line], *lines[line - 1 :]]


def _swapped(line: int) -> Change:
    return lambda lines: [*lines[: line - 1], lines[line], lines[line - 1], *lines[line + 1 :]]


def _summer_time(lines: Lines) -> Lines:
    spring = next(n for n, line in enumerate(lines) if line.startswith("2001-03-25 01:00"))
    autumn = next(n for n, line in enumerate(lines) if line.startswith("2001-10-28 01:00"))
    return [*lines[:spring], *lines[spring + 1 : autumn], lines[autumn], *lines[autumn:]]


def _half_year_on(lines: Lines) -> Lines:
    hours = [line.split(",", 1) for line in lines[5:]]
    half = len(hours) // 2
    values = [rest for _, rest in hours[half:] + hours[:half]]
    return lines[:5] + [f"{time},{rest}" for (time, _), rest in zip(hours, values, strict=True)]


def _column(index: int, value: str) -> Change:
    def change(lines: Lines) -> Lines:
        rows = [line.split(",") for line in lines[5:]]
        return lines[:5] + [",".join([*row[:index], value, *row[index + 1 :]]) for row in rows]

    return change


PLAIN: dict[str, tuple[Change, list[str]]] = {
    "no latitude": (
        _without(1, 1),
        ["latitude: is missing; give degrees north."],
    ),
    "latitude in words": (
        _put(1, "52.0", "north"),
        ["line 1, latitude: is 'north'; it must be degrees north, -90 to 90."],
    ),
    "latitude beyond the pole": (
        _put(1, "52.0", "520"),
        ["line 1, latitude: is '520'; it must be degrees north, -90 to 90."],
    ),
    "latitude not a number": (
        _put(1, "52.0", "nan"),
        ["line 1, latitude: is 'nan'; it must be degrees north, -90 to 90."],
    ),
    "a misspelt column": (
        _put(5, "outdoor_temperature", "outdor_temperature"),
        [
            "line 5, the columns: have no outdoor_temperature. "
            "Is it 'outdor_temperature'? Name it outdoor_temperature."
        ],
    ),
    "a misspelt optional column": (
        _put(5, "diffuse_horizontal", "difuse_horizontal"),
        [
            "line 5, the columns: have no diffuse_horizontal. "
            "Is it 'difuse_horizontal'? Name it diffuse_horizontal.",
            "line 5, the columns: have direct_normal without diffuse_horizontal; give both, "
            "or neither.",
        ],
    ),
    "a column twice": (
        _put(5, "diffuse_horizontal", "wind_speed"),
        [
            "line 5, the columns: have wind_speed more than once.",
            "line 5, the columns: have direct_normal without diffuse_horizontal; give both, "
            "or neither.",
        ],
    ),
    "no humidity and no wind": (
        _put(5, "relative_humidity,wind_speed", "pressure,rain"),
        [
            "line 5, the columns: have no relative_humidity.",
            "line 5, the columns: have no wind_speed.",
        ],
    ),
    "semicolons": (
        lambda lines: [line.replace(",", ";") for line in lines],
        [
            "line 5, the columns: are not parted by commas; part them by commas, with a point "
            "for decimals."
        ],
    ),
    "names and no hours": (
        lambda lines: lines[:5],
        ["the file: has column names and no hours."],
    ),
    "an hour missing": (
        _without(20, 20),
        [
            "line 20, time: 1 hour is missing between 2001-01-01 13:00 and 2001-01-01 15:00; "
            "fill them or use another source."
        ],
    ),
    "three days missing": (
        _without(30, 101),
        [
            "line 30, time: 72 hours are missing between 2001-01-01 23:00 and 2001-01-05 00:00; "
            "fill them or use another source."
        ],
    ),
    "an hour twice": (
        _again(20),
        ["line 21, time: 2001-01-01 14:00 stands twice; leave one out."],
    ),
    "two hours in the wrong order": (
        _swapped(20),
        [
            "line 20, time: 1 hour is missing between 2001-01-01 13:00 and 2001-01-01 15:00; "
            "fill them or use another source.",
            "line 21, time: goes back from 2001-01-01 15:00 to 2001-01-01 14:00; put the rows in "
            "order of time.",
            "line 22, time: 1 hour is missing between 2001-01-01 14:00 and 2001-01-01 16:00; "
            "fill them or use another source.",
        ],
    ),
    "a clock with summer time": (
        _summer_time,
        [
            "line 1999, time: follows a clock that changes to summer time (2001-03-25 01:00 is "
            "missing and 2001-10-28 01:00 stands twice); give standard time or UTC."
        ],
    ),
    "every third hour": (
        lambda lines: [*lines[:5], *lines[5::3]],
        ["line 7, time: goes in steps of 3 hours; give the mean of every hour."],
    ),
    "half-hours": (
        _put(20, "14:00", "14:30"),
        [
            "line 20, time: is 2001-01-01 14:30:00; it must be on the hour, 1900 to 2100.",
        ],
    ),
    "a day that is none": (
        _put(9, "2001-01-01 03:00", "31/01/2001"),
        [
            "line 9, time: is '31/01/2001'; it must look like 2019-01-31 13:00 or with Z for UTC.",
        ],
    ),
    "one time with a zone": (
        _put(8765, "23:00", "23:00Z"),
        ["line 8765, time: is '2001-12-31 23:00Z'; either every time tells its zone or none does."],
    ),
    "an hour too few": (
        _without(8765, 8765),
        ["the file: has 8,759 hours; give whole days, 24 hours each."],
    ),
    "a month only": (
        lambda lines: lines[: 5 + 31 * 24],
        ["the file: has 31 days; a year needs at least 365, one after another."],
    ),
    "too hot": (
        _cell(12, 1, "99.9"),
        ["line 12, outdoor_temperature: is 99.9 °C; it must lie between -60 and 60 °C."],
    ),
    "humidity as if it were a pressure": (
        _cell(12, 2, "1013"),
        ["line 12, relative_humidity: is 1013 %; it must lie between 0 and 100 %."],
    ),
    "wind below nothing": (
        _cell(12, 3, "-0.5"),
        ["line 12, wind_speed: is -0.5 m/s; it must lie between 0 and 60 m/s."],
    ),
    "more sun than there is": (
        _cell(18, 4, "1600"),
        ["line 18, global_horizontal: is 1600 W/m²; it must lie between 0 and 1500 W/m²."],
    ),
    "an empty cell": (
        _cell(12, 1, ""),
        ["line 12, outdoor_temperature: is empty; give a number in °C."],
    ),
    "not a number": (
        _cell(12, 1, "NaN"),
        ["line 12, outdoor_temperature: is 'NaN'; it must be a number in °C."],
    ),
    "without end": (
        _cell(12, 6, "inf"),
        ["line 12, direct_normal: is 'inf'; it must be a number in W/m²."],
    ),
    "a decimal comma": (
        _cell(12, 1, "4;2"),
        ["line 12, outdoor_temperature: is '4;2'; it must be a number in °C."],
    ),
    "a short row": (
        lambda lines: [*lines[:8764], lines[8764].rsplit(",", 2)[0]],
        ["line 8765, the row: has 5 columns; it must have 7."],
    ),
    "a column of the missing sign": (
        _column(3, "999"),
        [
            "line 6, wind_speed: is 999 m/s; it must lie between 0 and 60 m/s.",
            "line 7, wind_speed: is 999 m/s; it must lie between 0 and 60 m/s.",
            "line 8, wind_speed: is 999 m/s; it must lie between 0 and 60 m/s.",
            "line 9, wind_speed: is 999 m/s; it must lie between 0 and 60 m/s.",
            "line 10, wind_speed: is 999 m/s; it must lie between 0 and 60 m/s. "
            "There are 8,755 more like it.",
        ],
    ),
    "several faults at once": (
        lambda lines: _cell(12, 1, "70")(_cell(40, 3, "x")(_again(60)(lines))),
        [
            "line 12, outdoor_temperature: is 70 °C; it must lie between -60 and 60 °C.",
            "line 40, wind_speed: is 'x'; it must be a number in m/s.",
            "line 61, time: 2001-01-03 06:00 stands twice; leave one out.",
        ],
    ),
    "an eastern place as a western one": (
        _put(2, "1.0", "-120"),
        [
            "the clock: puts 59% of the sun where it is night; check longitude and utc_offset, "
            "and that each time is the beginning of its hour."
        ],
    ),
    "the seasons of the other hemisphere": (
        _half_year_on,
        [
            "latitude: July (4 °C) is colder than January (16 °C) at a latitude of 52° north: "
            "wrong hemisphere. A southern latitude is negative; check the place and the months."
        ],
    ),
    "a southern latitude": (
        _put(1, "52.0", "-52.0"),
        [
            "latitude: July (16 °C) is warmer than January (4 °C) at a latitude of 52° south: "
            "wrong hemisphere. A southern latitude is negative; check the place and the months."
        ],
    ),
}

EPW: dict[str, tuple[Change, list[str]]] = {
    "a header only": (lambda lines: lines[:8], ["the file: has a header and no hours."]),
    "a place without numbers": (
        lambda lines: ["LOCATION,Mosswick", *lines[1:]],
        [
            "altitude: is missing; give m above the sea.",
            "latitude: is missing; give degrees north.",
            "longitude: is missing; give degrees east.",
            "utc_offset: is missing; give hours by which local standard time is ahead of UTC.",
        ],
    ),
    "the sign of a missing temperature": (
        _cell(12, 6, "99.9"),
        ["line 12, dry bulb temperature: is 99.9 °C; it must lie between -60 and 60 °C."],
    ),
    "an hour 25": (
        _cell(8768, 3, "25"),
        [
            "line 8768, date and hour: is '12-31-25'; it must be a month, a day of it and an hour "
            "from 1 to 24."
        ],
    ),
    "hours from 0 to 23": (
        _cell(9, 3, "0"),
        [
            "line 9, date and hour: is '1-1-0'; it must be a month, a day of it and an hour "
            "from 1 to 24."
        ],
    ),
    "a day missing": (
        _without(33, 56),
        [
            "line 33, date and hour: 24 hours are missing between 2001-01-01 23:00 and "
            "2001-01-03 00:00; fill them or use another source."
        ],
    ),
}

PVGIS: dict[str, tuple[Change, list[str]]] = {
    "no column names": (
        lambda lines: lines[:3],
        ["the file: has no line of column names that begins with 'time'."],
    ),
    "no humidity": (_put(18, ",RH,", ",rel,"), ["line 18, the columns: have no RH."]),
    "a stamp in another form": (
        _put(8778, ":2300", " 23:00"),
        ["line 8778, time(UTC): is '20071231 23:00'; it must look like 20050131:1300."],
    ),
    "no elevation": (_without(3, 3), ["altitude: is missing; give m above the sea."]),
}

SERIES: dict[str, tuple[Change, list[str]]] = {
    "a sloping plane": (
        _put(7, "0 deg.", "35 deg."),
        ["line 7, Slope: is '35 deg.'; the sun on a level plane is needed: ask for a slope of 0."],
    ),
    "no sun": (
        _put(9, "Gb(i),Gd(i)", "P,Q"),
        [
            "line 9, the columns: have no Gb(i).",
            "line 9, the columns: have no Gd(i).",
        ],
    ),
}

CASES = [
    pytest.param(lines, *case, id=f"{kind} {name}")
    for kind, lines, table in (
        ("plain", as_plain(), PLAIN),
        ("epw", as_epw(), EPW),
        ("pvgis", as_pvgis_typical(), PVGIS),
        ("series", as_pvgis_hourly(), SERIES),
    )
    for name, case in table.items()
]
