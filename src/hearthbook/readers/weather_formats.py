"""How each kind of weather file says where it was, what its columns are and when a row was.

Three kinds: files with the ending .epw (hours 1 to 24, local standard time), the CSV of the
European PVGIS service (UTC), and a plain CSV of our own: docs/weather_files.md.
"""

from __future__ import annotations

import difflib
import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import UTC, datetime, timedelta

from hearthbook.readers.weather_table import Column, Faults, Layout, Place, Row

__all__ = ["Found", "epw", "plain", "pvgis"]

_Lines = Sequence[str]
Found = tuple[Layout | None, list[Row]]

_ANY_YEAR, _ANY_LEAP_YEAR = 2001, 2004

_PLACE = {
    "latitude": (-90.0, 90.0, "degrees north"),
    "longitude": (-180.0, 180.0, "degrees east"),
    "altitude": (-450.0, 6000.0, "m above the sea"),
    "utc_offset": (-12.0, 14.0, "hours by which local standard time is ahead of UTC"),
}

# Position of each quantity in a row, counted from 0: EnergyPlus documentation, "Weather file
# format", data field descriptions
_EPW_COLUMNS = {
    "outdoor_temperature": ("dry bulb temperature", 6),
    "relative_humidity": ("relative humidity", 8),
    "global_horizontal": ("global horizontal radiation", 13),
    "direct_normal": ("direct normal radiation", 14),
    "diffuse_horizontal": ("diffuse horizontal radiation", 15),
    "wind_speed": ("wind speed", 21),
}
_EPW_HEADER_LINES = 8
_EPW_WIDTH = 22  # up to the wind; files differ in what follows

_PVGIS_COLUMNS = {
    "outdoor_temperature": "T2m",
    "relative_humidity": "RH",
    "wind_speed": "WS10m",
    "global_horizontal": "G(h)",
    "diffuse_horizontal": "Gd(h)",
    "direct_normal": "Gb(n)",
}
_PVGIS_HOURLY_COLUMNS = {
    "outdoor_temperature": "T2m",
    "wind_speed": "WS10m",
}
_PVGIS_PLACE = {
    "latitude": "Latitude (decimal degrees)",
    "longitude": "Longitude (decimal degrees)",
    "altitude": "Elevation (m)",
}

_PLAIN_NEEDED = ("outdoor_temperature", "relative_humidity", "wind_speed", "global_horizontal")
_PLAIN_OPTIONAL = ("diffuse_horizontal", "direct_normal")


def epw(name: str, lines: _Lines, faults: Faults) -> Found:
    """An .epw file: eight lines of header, then hours 1 to 24 in local standard time."""
    head = lines[0].split(",")
    written = dict(
        zip(("latitude", "longitude", "utc_offset", "altitude"), head[6:10], strict=False)
    )
    place = _place(written, dict.fromkeys(written, 1), faults)
    rows = _rows(enumerate(lines[_EPW_HEADER_LINES:], start=_EPW_HEADER_LINES + 1))
    if not rows:
        faults.add("the file", "has a header and no hours.")
    if place is None:
        return None, rows
    has_leap_day = any([cell.strip() for cell in cells[1:3]] == ["2", "29"] for _, cells in rows)
    year = _ANY_LEAP_YEAR if has_leap_day else _ANY_YEAR
    layout = Layout(
        source=f"weather file {name}",
        place=place,
        columns=tuple(Column(key, *where) for key, where in _EPW_COLUMNS.items()),
        width=_EPW_WIDTH,
        time_name="date and hour",
        time_of=lambda cells: _epw_time(cells, year),
        is_utc=False,
        is_typical=True,
    )
    return layout, rows


def _epw_time(cells: list[str], year: int) -> datetime:
    written = "-".join(cell.strip() for cell in cells[1:4])
    try:
        month, day, hour = (int(float(cell)) for cell in cells[1:4])
        begins = datetime(year, month, day, hour - 1, tzinfo=UTC)
    except (ValueError, OverflowError) as wrong:
        message = f"is '{written}'; it must be a month, a day of it and an hour from 1 to 24."
        raise ValueError(message) from wrong
    return begins


def pvgis(name: str, lines: _Lines, faults: Faults) -> Found:
    """A PVGIS typical year or hourly series as CSV, in UTC."""
    top = next((at for at, line in enumerate(lines) if line.startswith("time")), None)
    if top is None:
        faults.add("the file", "has no line of column names that begins with 'time'.")
        return None, []
    said = {
        key.strip(): (value.strip(), number)
        for number, line in enumerate(lines[:top], start=1)
        for key, colon, value in [line.partition(":")]
        if colon
    }
    known = {key: said[words] for key, words in _PVGIS_PLACE.items() if words in said}
    header = [cell.strip() for cell in lines[top].split(",")]
    is_typical = header[0] == "time(UTC)"
    columns = _pvgis_columns(header, said, (is_typical, top + 1), faults)
    written = {key: value for key, (value, _) in known.items()}
    written["utc_offset"] = _nearest_zone(written.get("longitude", ""))
    place = _place(written, {key: number for key, (_, number) in known.items()}, faults)
    rows = _rows(_until_blank(lines, top + 1))
    if not rows:
        faults.add("the file", "has a header and no hours.")
    if place is None or not columns:
        return None, rows
    year = _ANY_LEAP_YEAR if any(row[0][4:8] == "0229" for _, row in rows) else _ANY_YEAR
    kind = "typical year" if is_typical else "hourly series"
    return Layout(
        source=f"weather file {name}, PVGIS {kind}; local time taken from the longitude",
        place=place,
        columns=columns,
        width=max(column.index for column in columns) + 1,
        time_name=header[0],
        time_of=lambda cells: _pvgis_time(cells[0], year if is_typical else None),
        is_utc=True,
        is_typical=is_typical,
    ), rows


def _pvgis_columns(
    header: list[str],
    said: dict[str, tuple[str, int]],
    kind_and_line: tuple[bool, int],
    faults: Faults,
) -> tuple[Column, ...]:
    is_typical, line = kind_and_line
    wanted = dict(_PVGIS_COLUMNS if is_typical else _PVGIS_HOURLY_COLUMNS)
    if not is_typical:
        slope = said.get("Slope", ("", 0))
        if slope[0].split(" ")[:1] not in (["0"], ["0.0"], ["0."]):
            written = f"is '{slope[0]}'" if slope[0] else "is not given"
            message = f"{written}; the sun on a level plane is needed: ask for a slope of 0."
            faults.add("Slope", message, slope[1] or None)
        if "G(i)" in header:
            wanted["global_horizontal"] = "G(i)"
        else:
            wanted |= {"beam_horizontal": "Gb(i)", "diffuse_horizontal": "Gd(i)"}
    for name in wanted.values():
        if name not in header:
            faults.add("the columns", f"have no {name}.", line)
    return tuple(
        Column(key, name, header.index(name)) for key, name in wanted.items() if name in header
    )


def _pvgis_time(written: str, year: int | None) -> datetime:
    """The hour that a stamp lies in: the satellite looks some minutes after the hour."""
    try:
        time = datetime.strptime(written.strip(), "%Y%m%d:%H%M").replace(tzinfo=UTC, minute=0)
    except ValueError as wrong:
        message = f"is '{written[:20]}'; it must look like 20050131:1300."
        raise ValueError(message) from wrong
    return time if year is None else time.replace(year=year)


def _nearest_zone(longitude: str) -> str:
    try:
        return f"{round(float(longitude) / 15.0)}"
    except (ValueError, OverflowError):
        return "0"


def plain(name: str, lines: _Lines, faults: Faults) -> Found:
    """Our own plain CSV: four lines that say where, a line of column names, then the hours."""
    said: dict[str, str] = {}
    numbers: dict[str, int] = {}
    top = 0
    for top, line in enumerate(lines):
        if not line.startswith("#") and line.strip():
            break
        key, colon, value = line.lstrip("# ").partition(":")
        if colon and key.strip() in _PLACE:
            said[key.strip()], numbers[key.strip()] = value.strip(), top + 1
    place = _place(said, numbers, faults)
    header = [cell.strip() for cell in lines[top].split(",")]
    columns = _plain_columns(lines[top], header, top + 1, faults)
    rows = _rows(enumerate(lines[top + 1 :], start=top + 2))
    if not rows and columns:
        faults.add("the file", "has column names and no hours.")
    if place is None or not columns or not rows:
        return None, rows
    is_utc = _tells_zone(rows[0][1][header.index("time")] if len(rows[0][1]) else "")
    return Layout(
        source=f"weather file {name}",
        place=place,
        columns=columns,
        width=len(header),
        time_name="time",
        time_of=_plain_clock(header.index("time"), is_utc=is_utc),
        is_utc=is_utc,
        is_typical=False,
    ), rows


def _plain_columns(
    written: str, header: list[str], line: int, faults: Faults
) -> tuple[Column, ...]:
    if len(header) == 1 and (";" in written or "\t" in written):
        message = "are not parted by commas; part them by commas, with a point for decimals."
        faults.add("the columns", message, line)
        return ()
    count = len(faults)
    for message in _wrong_columns(header):
        faults.add("the columns", message, line)
    if len(faults) > count:
        return ()
    wanted = (*_PLAIN_NEEDED, *_PLAIN_OPTIONAL)
    return tuple(Column(name, name, header.index(name)) for name in wanted if name in header)


def _wrong_columns(header: list[str]) -> Iterator[str]:
    for name in sorted({name for name in header if name and header.count(name) > 1}):
        yield f"have {name} more than once."
    for name in ("time", *_PLAIN_NEEDED):
        if name not in header:
            yield f"have no {name}.{_like(name, header)}"
    for name in _PLAIN_OPTIONAL:
        if name not in header and _like(name, header, cutoff=0.85):
            yield f"have no {name}.{_like(name, header, cutoff=0.85)}"
    if "direct_normal" in header and "diffuse_horizontal" not in header:
        yield "have direct_normal without diffuse_horizontal; give both, or neither."


def _like(name: str, header: Iterable[str], cutoff: float = 0.6) -> str:
    """The sentence that offers the column most like a name that is missing; else empty."""
    known = {"time", *_PLAIN_NEEDED, *_PLAIN_OPTIONAL, *_PVGIS_COLUMNS.values()}
    others = [one for one in header if one not in known]
    close = difflib.get_close_matches(name, others, n=1, cutoff=cutoff)
    return f" Is it '{close[0]}'? Name it {name}." if close else ""


def _tells_zone(written: str) -> bool:
    try:
        return datetime.fromisoformat(written.strip()).tzinfo is not None
    except ValueError:
        return False


def _plain_clock(index: int, *, is_utc: bool) -> Callable[[list[str]], datetime]:
    def time_of(cells: list[str]) -> datetime:
        written = cells[index].strip()
        try:
            time = datetime.fromisoformat(written)
            begins = time.replace(tzinfo=UTC) - (time.utcoffset() or timedelta(0))
        except (ValueError, OverflowError) as wrong:
            message = f"is '{written[:30]}'; it must look like 2019-01-31 13:00 or with Z for UTC."
            raise ValueError(message) from wrong
        if (time.tzinfo is not None) != is_utc:
            message = f"is '{written[:30]}'; either every time tells its zone or none does."
            raise ValueError(message)
        return begins

    return time_of


def _place(written: dict[str, str], lines: dict[str, int], faults: Faults) -> Place | None:
    """Where a file says it was, with what is wrong in it among the faults."""
    values = {}
    for key, (low, high, words) in _PLACE.items():
        text = written.get(key)
        if text is None:
            faults.add(key, f"is missing; give {words}.")
            continue
        try:
            value = float(text)
        except ValueError:
            value = math.nan
        if not low <= value <= high:
            message = f"is '{text[:20]}'; it must be {words}, {low:g} to {high:g}."
            faults.add(key, message, lines.get(key))
        values[key] = value
    if len(values) < len(_PLACE) or any(not math.isfinite(value) for value in values.values()):
        return None
    return Place(**values)


def _rows(numbered: Iterable[tuple[int, str]]) -> list[Row]:
    return [
        (number, [cell.strip().strip('"') for cell in line.split(",")])
        for number, line in numbered
        if line.strip() and not line.startswith("#")
    ]


def _until_blank(lines: _Lines, first: int) -> Iterable[tuple[int, str]]:
    for at in range(first, len(lines)):
        if not lines[at].strip():
            return
        yield at + 1, lines[at]
