"""The numbers of a home's simulated years, kept in the user's cache so that a pack is made at once.

What is kept is named by a checksum of all it rests on: the record as it was read, the weather, and
the text of every formula between them. A kept number can be no older than any of these.
"""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Callable
from dataclasses import asdict, dataclass
from pathlib import Path

import hearthbook
from hearthbook.design.results import Design
from hearthbook.errors import Incomplete, OutOfRange
from hearthbook.readers.files import write_whole
from hearthbook.readers.plain_data import made_from
from hearthbook.readers.weather_files import read_weather_beside
from hearthbook.record.home import Home
from hearthbook.simulate.weather import Weather
from hearthbook.year.pack_numbers import YearNumbers
from hearthbook.year.weather_years import generated_years, single_years

__all__ = [
    "PackYears",
    "cache_folder",
    "name_of",
    "pack_years",
    "read_kept",
    "write_kept",
]

_SEED = 1  # of made weather
_MOST_KEPT = 200  # files; some megabytes
_LARGEST = 1_000_000  # bytes of a kept file; one has some 20 thousand
_FORMULAS = ("units.py", "physics", "kernel", "record", "simulate", "survey", "design", "year")
_TELLS_NOTHING = {"firm", "issued", "revision"}  # of a record: who made the pack, and when


def cache_folder() -> Path:
    """Where the numbers are kept: in the user's cache, as the XDG base directories have it."""
    base = os.environ.get("XDG_CACHE_HOME")
    return (Path(base) if base else Path.home() / ".cache") / "hearthbook" / "years"


def name_of(home: Home, weather: bytes = b"") -> str:
    """The name under which a home's numbers are kept.

    Args:
        home: the record as read.
        weather: content of the weather's file; empty where the weather is made from the record.
    """
    digest = hashlib.sha256()
    digest.update(home.model_dump_json(exclude=_TELLS_NOTHING).encode())
    digest.update(hashlib.sha256(weather).digest())
    package = Path(hearthbook.__file__).parent
    for name in _FORMULAS:
        path = package / name
        for file in sorted(path.rglob("*.py")) if path.is_dir() else [path]:
            digest.update(hashlib.sha256(file.read_bytes()).digest())
    return f"{digest.hexdigest()}.json"


@dataclass(frozen=True)
class PackYears:
    """The numbers for a home's pack, or why there are none.

    Attributes:
        numbers: of the simulated years; None where the home cannot be simulated.
        why_not: what is missing then.
    """

    numbers: YearNumbers | None
    why_not: str = ""


def pack_years(
    record: Path,
    design: Design,
    advance: Callable[[int, int], None] = lambda done, of: None,  # noqa: ARG005
    folder: Path | None = None,
) -> PackYears:
    """The numbers of a home's years: as kept, else simulated now and kept.

    Args:
        record: the record's file; weather that it names lies beside it.
        design: of the home.
        advance: told how many of how many years are simulated; not called where they are kept.
        folder: where they are kept; in the user's cache where it is not given.

    Raises:
        NotFound: the record names weather that is not there.
        Unreadable: that weather has faults.
    """
    folder = folder or cache_folder()
    named = design.home.building.climate.weather_file
    content = b"" if named is None else _content(record.parent / named)
    name = name_of(design.home, content)
    found = read_kept(folder / name)
    if found is not None:
        return PackYears(found)
    from hearthbook.year.pack_years import year_numbers  # here: it takes time to import

    try:
        numbers = year_numbers(design, _weathers(record, design.home), progress=advance)
    except (Incomplete, OutOfRange) as why:
        return PackYears(None, str(why))
    write_kept(folder, name, numbers)
    return PackYears(numbers)


def _content(path: Path) -> bytes:
    """What stands in a weather file; nothing where it cannot be read, which its reader tells."""
    try:
        return path.read_bytes()
    except OSError:
        return b""


def _weathers(record: Path, home: Home) -> tuple[Weather, ...]:
    """Years of the home's weather: its file's, else made from its place's months."""
    named = home.building.climate.weather_file
    if named is None:
        return generated_years(home, _SEED)
    return single_years(read_weather_beside(record.parent, named))


def read_kept(path: Path) -> YearNumbers | None:
    """The numbers in a file; None where there is no such file, or it holds anything else."""
    try:
        if path.stat().st_size > _LARGEST:
            return None
        return made_from(json.loads(path.read_text(encoding="utf-8")), YearNumbers)
    except (OSError, ValueError, Incomplete):
        return None


def write_kept(folder: Path, name: str, numbers: YearNumbers) -> None:
    """Keep numbers; the oldest files go where there are too many. A full disk keeps nothing."""
    content = json.dumps(asdict(numbers), allow_nan=False).encode()
    try:
        folder.mkdir(parents=True, exist_ok=True)
        write_whole(folder / name, content)
        kept = sorted(folder.glob("*.json"), key=lambda file: file.stat().st_mtime)
        for file in kept[:-_MOST_KEPT]:
            file.unlink(missing_ok=True)
    except OSError:
        return
