from __future__ import annotations

import io
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pvlib import iotools  # type: ignore[import-untyped]  # it carries no types

from hearthbook.errors import NotFound, Unreadable
from hearthbook.readers import weather_files
from hearthbook.readers.weather_files import read_weather, weather_from_bytes
from hearthbook.simulate.monthly_normals import Normals, usual_humidity
from hearthbook.simulate.weather import HOURLY_RANGES, Weather, month_of_hours
from hearthbook.simulate.weather_generator import generate
from tests.readers.weather_made import (
    YEAR,
    as_epw,
    as_plain,
    as_pvgis_hourly,
    as_pvgis_typical,
)

Lines = list[str]
Change = Callable[[Lines], Lines]


def _read(lines: Lines, name: str = "weather.csv") -> Weather:
    return weather_from_bytes("\n".join(lines).encode(), name)


def _same(read: Weather, made: Weather = YEAR) -> None:
    for field in HOURLY_RANGES:
        np.testing.assert_allclose(
            getattr(read, field), getattr(made, field), atol=0.006, err_msg=field
        )


def test_plain_file_comes_back_as_it_was() -> None:
    read = _read(as_plain())
    _same(read)
    assert read.source == "weather file weather.csv"
    assert not read.is_generated
    assert read.start == datetime(2001, 1, 1, tzinfo=UTC)


def test_epw_file_is_read_as_the_reference_library_reads_it() -> None:
    lines = as_epw()
    read = _read(lines, "place.epw")
    data, place = iotools.read_epw(io.StringIO("\n".join(lines)))
    np.testing.assert_allclose(read.outdoor_temperature, data["temp_air"])
    np.testing.assert_allclose(read.relative_humidity, data["relative_humidity"] / 100.0)
    np.testing.assert_allclose(read.wind_speed, data["wind_speed"])
    np.testing.assert_allclose(read.global_horizontal, data["ghi"])
    np.testing.assert_allclose(read.direct_normal, data["dni"])
    np.testing.assert_allclose(read.diffuse_horizontal, data["dhi"])
    assert (read.latitude, read.altitude) == (place["latitude"], place["altitude"])
    assert read.start == data.index[0].to_pydatetime()


def test_pvgis_typical_year_is_read_as_the_reference_library_reads_it(tmp_path: Path) -> None:
    path = tmp_path / "typical.csv"
    path.write_text("\n".join(as_pvgis_typical()), encoding="utf-8")
    read = read_weather(path)
    data, _ = iotools.read_pvgis_tmy(str(path))
    np.testing.assert_allclose(read.outdoor_temperature, data["temp_air"])
    np.testing.assert_allclose(read.direct_normal, data["dni"])
    np.testing.assert_allclose(read.wind_speed, data["wind_speed"])
    assert read.source == (
        "weather file typical.csv, PVGIS typical year; local time taken from the longitude"
    )


def test_pvgis_hourly_series_gets_the_usual_humidity_and_says_so() -> None:
    read = _read(as_pvgis_hourly(), "series.csv")
    np.testing.assert_allclose(read.global_horizontal, YEAR.global_horizontal, atol=0.02)
    np.testing.assert_allclose(read.direct_normal.sum(), YEAR.direct_normal.sum(), rtol=0.02)
    usual = np.array(usual_humidity(52.0))[month_of_hours(read)]
    np.testing.assert_allclose(read.relative_humidity, usual)
    assert "humidity, which the file has not, as usual in a mild climate, no source" in read.source


def test_pvgis_typical_year_is_turned_to_local_midnight() -> None:
    months = (-3.0, -1.5, 3.0, 8.5, 14.0, 17.0, 19.0, 18.5, 14.0, 8.5, 3.0, -1.5)
    made = generate(Normals(months), 48.0, 30.0, 100.0, seed=1)
    # the same hours as a file in UTC has them: two hours of the old year come last
    utc = {field: np.roll(getattr(made, field), -2) for field in HOURLY_RANGES}
    lines = as_pvgis_typical(Weather("", True, 48.0, 30.0, 100.0, 2.0, made.start, **utc))
    read = _read(lines)
    _same(read, made)
    assert (read.utc_offset, read.start.hour, read.start.day) == (2.0, 22, 31)


def test_times_that_tell_their_zone_are_utc() -> None:
    lines = [line.replace(":00,", ":00+00:00,", 1) for line in as_plain()]
    _same(_read(lines))


def test_missing_direct_and_diffuse_sun_are_parted_from_global() -> None:
    read = _read([",".join(line.split(",")[:5]) for line in as_plain()])
    # the made year was parted the same way, so it must come out again
    np.testing.assert_allclose(read.diffuse_horizontal, YEAR.diffuse_horizontal, atol=0.1)
    assert read.source.endswith("; direct and diffuse sun parted by how clear each hour was")


def test_missing_direct_sun_is_what_diffuse_leaves_of_global() -> None:
    read = _read([",".join(line.split(",")[:6]) for line in as_plain()])
    assert read.direct_normal.sum() == pytest.approx(YEAR.direct_normal.sum(), rel=1e-3)


@pytest.mark.parametrize("is_left_out", [False, True])
def test_leap_day_may_be_kept_or_left_out(is_left_out: bool) -> None:
    hours = np.arange(np.datetime64("2004-01-01T00"), np.datetime64("2005-01-01T00"))
    if is_left_out:
        hours = hours[hours.astype("datetime64[D]") != np.datetime64("2004-02-29")]
    lines = as_plain()
    rows = [
        f"{str(time).replace('T', ' ')}:00,{row.split(',', 1)[1]}"
        for time, row in zip(hours[:8760], lines[5:], strict=True)
    ]
    assert _read([*lines[:5], *rows]).days == 365


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
            "latitude: July (3.97 °C) is colder than January (15.8 °C) at a latitude of 52° north: "
            "wrong hemisphere. A southern latitude is negative; check the place and the months."
        ],
    ),
    "a southern latitude": (
        _put(1, "52.0", "-52.0"),
        [
            "latitude: July (15.8 °C) is warmer than January (4 °C) at a latitude of 52° south: "
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


@pytest.mark.parametrize(("lines", "change", "faults"), CASES)
def test_a_malformed_file_is_refused_in_exactly_these_words(
    lines: Lines, change: Change, faults: list[str]
) -> None:
    with pytest.raises(Unreadable, match=r"weather\.csv has \d+ fault") as refused:
        _read(change(lines))
    assert [str(fault) for fault in refused.value.faults] == faults


WHOLE = [
    (b"", "the file: is empty."),
    (b" \n\n", "the file: is empty."),
    (b"\x89PNG\r\n\x1a\n\x00\x00", "the file: is not text; give an .epw file, a PVGIS CSV or a"),
    ("time,1".encode("utf-16"), "the file: is not text"),
    (b'{"inputs": {}}', "the file: is JSON; save the same data as CSV."),
]


@pytest.mark.parametrize(("content", "message"), WHOLE)
def test_what_is_no_weather_file_is_refused_at_once(content: bytes, message: str) -> None:
    with pytest.raises(Unreadable, match="weather has 1 fault") as refused:
        weather_from_bytes(content, "weather")
    assert str(refused.value.faults[0]).startswith(message)


def test_a_file_that_is_not_there_or_a_folder_is_refused(tmp_path: Path) -> None:
    with pytest.raises(NotFound, match=r"There is no weather file .*none\.epw"):
        read_weather(tmp_path / "none.epw")
    with pytest.raises(Unreadable, match="the file: is a folder; name the file in it"):
        read_weather(tmp_path)


def test_a_file_too_large_is_refused_before_it_is_read_whole(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(weather_files, "LARGEST_WEATHER", 1000)
    path = tmp_path / "large.csv"
    path.write_text("x" * 5000, encoding="utf-8")
    with pytest.raises(Unreadable, match="has more than 1,000 bytes"):
        read_weather(path)


def test_more_than_thirty_years_are_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(weather_files, "MOST_HOURS", 8000)
    with pytest.raises(Unreadable, match="has 8,760 rows; at most thirty years of hours"):
        _read(as_plain())


@settings(max_examples=60, deadline=None)
@given(content=st.binary(max_size=300), head=st.sampled_from(["", "LOCATION,", "Latitude (de"]))
def test_no_bytes_break_the_reader(content: bytes, head: str) -> None:
    with pytest.raises(Unreadable, match=r"has \d+ fault"):
        weather_from_bytes(head.encode() + content, "noise")


@settings(max_examples=15, deadline=None)
@given(line=st.integers(0, 60), text=st.text(max_size=40))
def test_no_line_put_in_gives_a_number_that_is_none(line: int, text: str) -> None:
    lines = as_plain()[: 5 + 24 * 3]
    with pytest.raises(Unreadable, match=r"has \d+ fault"):  # three days are no year
        _read([*lines[:line], text, *lines[line:]])
