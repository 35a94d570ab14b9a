from __future__ import annotations

import io
from datetime import UTC, datetime
from pathlib import Path

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from pvlib import iotools  # type: ignore[import-untyped]  # it carries no types

from hearthbook.errors import NotFound, Unreadable
from hearthbook.readers import weather_files
from hearthbook.readers.weather_files import read_weather, read_weather_beside, weather_from_bytes
from hearthbook.simulate.monthly_normals import Normals, usual_humidity
from hearthbook.simulate.weather import HOURLY_RANGES, Weather, month_of_hours
from hearthbook.simulate.weather_generator import generate
from tests.readers.malformed_weather import CASES, Change
from tests.readers.weather_made import (
    YEAR,
    as_epw,
    as_plain,
    as_pvgis_hourly,
    as_pvgis_typical,
)

Lines = list[str]


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


def test_a_record_reads_only_what_lies_in_its_folder(tmp_path: Path) -> None:
    folder = tmp_path / "home"
    folder.mkdir()
    outside = tmp_path / "weather.csv"
    outside.write_text("\n".join(as_plain()), encoding="utf-8")
    (folder / "link.csv").symlink_to(outside)
    for name in ("../weather.csv", "link.csv", str(outside)):
        with pytest.raises(Unreadable, match="lies outside the record's folder"):
            read_weather_beside(folder, name)
    (folder / "own.csv").write_bytes(outside.read_bytes())
    assert read_weather_beside(folder, "own.csv").days == 365


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
@example(content=b"\xa0", head="")  # a space in latin-1, and nothing else
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
