"""What a person does with a record: read it, check it, start a new one, publish its schema."""

from __future__ import annotations

import json
from dataclasses import dataclass
from importlib.resources import files
from pathlib import Path

from hearthbook.errors import Conflict, NotFound
from hearthbook.readers.files import write_whole
from hearthbook.readers.record_file import read_home
from hearthbook.readers.schema import record_schema
from hearthbook.record.home import Home
from hearthbook.survey.unknowns import Unknown, unknowns

__all__ = ["Checked", "check_record", "demo_records", "schema_text", "start_record", "write_schema"]


@dataclass(frozen=True)
class Checked:
    """A record that can be read, and what nobody has answered in it yet.

    Attributes:
        home: the record.
        unknowns: answers with no defensible default, still to be found out.
    """

    home: Home
    unknowns: tuple[Unknown, ...]


def check_record(path: Path) -> Checked:
    """Read a record and list what is still to be found out.

    Raises:
        Unreadable: with every fault of the file.
    """
    home = read_home(path)
    return Checked(home, unknowns(home))


def start_record(path: Path) -> None:
    """Write a commented starter record.

    Raises:
        Conflict: the file exists already; nothing is overwritten.
    """
    if path.exists():
        raise Conflict(f"{path} exists already; choose another name, nothing was overwritten.")
    if not path.parent.is_dir():
        raise NotFound(f"The folder {path.parent} does not exist; make it first.")
    write_whole(path, files("hearthbook.readers").joinpath("starter.yaml").read_bytes())


def schema_text() -> str:
    """The published schema of the record, as JSON text."""
    return json.dumps(record_schema(), indent=2, ensure_ascii=False, sort_keys=True) + "\n"


def write_schema(path: Path) -> None:
    """Write the published schema of the record."""
    write_whole(path, schema_text().encode())


def demo_records() -> tuple[Path, ...]:
    """The records of the invented demo homes: one well done, one with faults.

    Raises:
        NotFound: the installation came without them.
    """
    package = Path(str(files("hearthbook")))
    for folder in (package / "examples", package.parents[1] / "examples"):
        records = tuple(folder / name / "home.yaml" for name in ("well_done", "with_faults"))
        if all(record.is_file() for record in records):
            return records
    raise NotFound("The demo homes are not part of this installation; install the whole project.")
