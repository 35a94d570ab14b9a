"""Weather files in: .epw, PVGIS and plain CSV; whole, hourly and possible, or refused."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import timedelta
from pathlib import Path

import numpy as np

from hearthbook.errors import Fault, NotFound, OutOfRange, Unreadable
from hearthbook.readers.weather_formats import Found, epw, plain, pvgis
from hearthbook.readers.weather_table import Faults, Layout, Table, filled
from hearthbook.simulate.monthly_normals import seasons_against_latitude, usual_humidity
from hearthbook.simulate.sky import SunByHour, direct_from, parted, sun_by_hour
from hearthbook.simulate.weather import Weather, month_of_hours, months_of
from hearthbook.units import Array

__all__ = [
    "LARGEST_WEATHER",
    "MOST_HOURS",
    "read_weather",
    "read_weather_beside",
    "weather_from_bytes",
]

LARGEST_WEATHER = 100_000_000
"""Bytes; thirty years of the widest hourly file are some 50 million."""
MOST_HOURS = 30 * 366 * 24
"""Thirty years."""

_NIGHT_SHARE = 0.02  # of the sun that twilight and rounding may put below the horizon; no source


def read_weather(path: Path | str) -> Weather:
    """The weather of a file.

    Args:
        path: an .epw file, a PVGIS CSV, or a plain CSV as docs/weather_files.md has it.

    Raises:
        NotFound: there is no such file.
        Unreadable: it is too large, no text, none of the three kinds, or has faults; all of them
            are named together.
    """
    path = Path(path)
    if path.is_dir():
        raise Unreadable(str(path), [Fault("the file", "is a folder; name the file in it.")])
    try:
        with path.open("rb") as file:
            content = file.read(LARGEST_WEATHER + 1)
    except FileNotFoundError as missing:
        message = f"There is no weather file {path}; check its name and folder."
        raise NotFound(message) from missing
    except OSError as refused:
        reason = (refused.strerror or "an error").lower()
        message = f"cannot be opened: {reason}. Check who may read it."
        raise Unreadable(str(path), [Fault("the file", message)]) from refused
    return weather_from_bytes(content, path.name)


def read_weather_beside(folder: Path, name: str) -> Weather:
    """The weather of a file that a record names.

    Args:
        folder: of the record.
        name: as the record has it, from that folder.

    Raises:
        NotFound: there is no such file.
        Unreadable: it lies outside the folder, by its name or by a link, or has faults.
    """
    path = (folder / name).resolve()
    if not path.is_relative_to(folder.resolve()):
        message = "lies outside the record's folder; put it beside the record."
        raise Unreadable(name, [Fault("the file", message)])
    return read_weather(path)


def weather_from_bytes(content: bytes, source: str) -> Weather:
    """The weather of a file's content.

    Args:
        content: as it stands in the file.
        source: the file's name, for the person who reads a fault or a source.

    Raises:
        Unreadable: see `read_weather`.
    """
    faults = Faults()
    lines = _lines(content, source)
    layout, rows = _reader(lines, source)(source, lines, faults)
    if len(rows) > MOST_HOURS:
        message = f"has {len(rows):,} rows; at most thirty years of hours are read."
        raise Unreadable(source, [Fault("the file", message)])
    table = filled(layout, rows, faults) if layout is not None else None
    if faults or layout is None or table is None:
        raise Unreadable(source, faults.found)
    try:
        weather = _weather(layout, table)
    except OutOfRange as wrong:
        raise Unreadable(source, [Fault("the file", str(wrong))]) from wrong
    _check_sense(weather, faults)
    if faults:
        raise Unreadable(source, faults.found)
    return weather


def _lines(content: bytes, source: str) -> list[str]:
    if len(content) > LARGEST_WEATHER:
        message = f"has more than {LARGEST_WEATHER:,} bytes; thirty years of hours have fewer."
        raise Unreadable(source, [Fault("the file", message)])
    if b"\x00" in content[:100_000]:
        message = "is not text; give an .epw file, a PVGIS CSV or a plain CSV."
        raise Unreadable(source, [Fault("the file", message)])
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        text = content.decode("latin-1")  # older .epw files name their places so
    if not text.strip():
        raise Unreadable(source, [Fault("the file", "is empty.")])
    return text.rstrip().splitlines()


def _reader(lines: list[str], source: str) -> Callable[[str, Sequence[str], Faults], Found]:
    first = next(line for line in lines if line.strip())
    if first.startswith("LOCATION,"):
        return epw
    if first.startswith("Latitude (decimal degrees)"):
        return pvgis
    if first.startswith(("{", "[")):
        raise Unreadable(source, [Fault("the file", "is JSON; save the same data as CSV.")])
    return plain


def _weather(layout: Layout, table: Table) -> Weather:
    place, values, words = layout.place, dict(table.values), [layout.source]
    if layout.is_utc and layout.is_typical:
        # a typical year may be turned round, so that it begins at local midnight
        values = {key: np.roll(hours, round(place.utc_offset)) for key, hours in values.items()}
    turned = layout.is_typical or not layout.is_utc
    start = table.start - timedelta(hours=place.utc_offset if turned else 0.0)
    hours = len(values["outdoor_temperature"])
    sun = sun_by_hour(start, hours, (place.latitude, place.longitude))
    radiation = _radiation(values, sun, words)
    if "relative_humidity" not in values:
        words.append("humidity, which the file has not, as usual in a mild climate, no source")
        first = start + timedelta(hours=place.utc_offset)
        usual = 100.0 * np.array(usual_humidity(place.latitude))
        values["relative_humidity"] = usual[months_of(first, hours)]
    return Weather(
        source="; ".join(words),
        is_generated=False,
        latitude=place.latitude,
        longitude=place.longitude,
        altitude=place.altitude,
        utc_offset=place.utc_offset,
        start=start,
        outdoor_temperature=values["outdoor_temperature"],
        relative_humidity=values["relative_humidity"] / 100.0,
        wind_speed=values["wind_speed"],
        global_horizontal=radiation[0],
        diffuse_horizontal=radiation[1],
        direct_normal=radiation[2],
    )


def _radiation(
    values: dict[str, Array], sun: SunByHour, words: list[str]
) -> tuple[Array, Array, Array]:
    """Global, diffuse and direct normal, with what is missing made from what is there."""
    if "beam_horizontal" in values:
        beam, diffuse = values["beam_horizontal"], values["diffuse_horizontal"]
        return beam + diffuse, diffuse, direct_from(beam, sun)
    level = values["global_horizontal"]
    if "diffuse_horizontal" not in values:
        words.append("direct and diffuse sun parted by how clear each hour was")
        return level, *parted(level, sun)
    diffuse = values["diffuse_horizontal"]
    if "direct_normal" in values:
        return level, diffuse, values["direct_normal"]
    return level, diffuse, direct_from(np.maximum(level - diffuse, 0.0), sun)


def _check_sense(weather: Weather, faults: Faults) -> None:
    """The seasons are those of the latitude, and the sun shines by day."""
    temperature, months = weather.outdoor_temperature, month_of_hours(weather)
    means = np.bincount(months, temperature, 12) / np.bincount(months, minlength=12)
    fault = seasons_against_latitude(means.tolist(), weather.latitude)
    if fault is not None:
        message = f"{fault}. A southern latitude is negative; check the place and the months."
        faults.add("latitude", message)
        return
    sun = sun_by_hour(weather.start, weather.hours, (weather.latitude, weather.longitude))
    total = float(weather.global_horizontal.sum())
    by_night = float(weather.global_horizontal[sun.up == 0.0].sum())
    if by_night > _NIGHT_SHARE * total:
        message = (
            f"puts {by_night / total:.0%} of the sun where it is night; check longitude and "
            "utc_offset, and that each time is the beginning of its hour."
        )
        faults.add("the clock", message)
