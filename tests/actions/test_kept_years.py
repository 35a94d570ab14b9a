"""Numbers of simulated years are kept under what they rest on, and believed only when whole."""

from __future__ import annotations

import json
import os
import tempfile
from dataclasses import replace
from pathlib import Path

import pytest

from hearthbook.actions import kept_years
from hearthbook.actions.judging import design
from hearthbook.actions.kept_years import (
    PackYears,
    cache_folder,
    name_of,
    pack_years,
    read_kept,
    write_kept,
)
from hearthbook.design.results import Design
from hearthbook.errors import Incomplete
from hearthbook.record.home import Home
from hearthbook.year.outcomes import ELECTRICITY
from hearthbook.year.pack_numbers import YearNumbers
from tests.conftest import EXAMPLES, KEPT_YEARS
from tests.year.demo_years import year_of

_RECORD = EXAMPLES / "well_done" / "home.yaml"


@pytest.fixture
def numbers(demo_years: dict[str, PackYears]) -> YearNumbers:
    found = demo_years["well_done"].numbers
    assert found is not None
    return found


@pytest.fixture(scope="module")
def designed() -> Design:
    return design(_RECORD)


def test_what_is_kept_is_read_back_as_it_was(numbers: YearNumbers, tmp_path: Path) -> None:
    write_kept(tmp_path / "new" / "folder", "a.json", numbers)
    assert read_kept(tmp_path / "new" / "folder" / "a.json") == numbers


def test_the_name_changes_with_the_home_and_the_weather_and_not_with_the_firm(
    well_done_home: Home,
) -> None:
    name = name_of(well_done_home)
    assert name == name_of(well_done_home)
    people = well_done_home.household.model_copy(update={"people": 5})
    assert name != name_of(well_done_home.model_copy(update={"household": people}))
    assert name != name_of(well_done_home, b"another weather")
    firm = well_done_home.firm.model_copy(update={"phone": "00000 111111"})
    assert name == name_of(well_done_home.model_copy(update={"firm": firm, "revision": 9}))


@pytest.mark.parametrize(
    "content",
    [
        "",
        "not data",
        "[]",
        "{}",
        '{"is_simulated": true}',
        "nothing of the kind \u0000",
    ],
)
def test_a_file_of_anything_else_counts_as_none(content: str, tmp_path: Path) -> None:
    path = tmp_path / "a.json"
    path.write_text(content)
    assert read_kept(path) is None
    assert read_kept(tmp_path / "missing.json") is None


@pytest.mark.parametrize(
    ("field", "value"),
    [("draws", "many"), ("balance", float("nan")), ("months", 3), ("totals", None), ("rooms", {})],
)
def test_a_field_of_another_kind_makes_the_whole_file_count_as_none(
    field: str, value: object, numbers: YearNumbers, tmp_path: Path
) -> None:
    write_kept(tmp_path, "a.json", numbers)
    data = json.loads((tmp_path / "a.json").read_text())
    data[field] = value
    (tmp_path / "a.json").write_text(json.dumps(data))
    assert read_kept(tmp_path / "a.json") is None


def test_a_number_that_is_none_is_never_kept(numbers: YearNumbers, tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="not JSON compliant"):
        write_kept(tmp_path, "a.json", replace(numbers, balance=float("nan")))
    assert list(tmp_path.iterdir()) == []


def test_only_the_newest_files_are_kept(
    numbers: YearNumbers, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(kept_years, "_MOST_KEPT", 3)
    for number in range(5):
        write_kept(tmp_path, f"{number}.json", numbers)
        os.utime(tmp_path / f"{number}.json", (number, number))
    write_kept(tmp_path, "new.json", numbers)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["3.json", "4.json", "new.json"]


def test_years_are_simulated_once_and_read_afterwards(
    numbers: YearNumbers, designed: Design, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    simulated: list[str] = []

    def once(*_: object, **__: object) -> YearNumbers:
        simulated.append("years")
        return numbers

    monkeypatch.setattr("hearthbook.year.pack_years.year_numbers", once)
    first = pack_years(_RECORD, designed, folder=tmp_path)
    again = pack_years(_RECORD, designed, folder=tmp_path)
    assert simulated == ["years"]
    assert first == again == PackYears(numbers)


def test_a_home_that_cannot_be_simulated_is_told_why(
    designed: Design, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def cannot(*_: object, **__: object) -> YearNumbers:
        raise Incomplete("nothing is known of the emitters of the hall")

    monkeypatch.setattr("hearthbook.year.pack_years.year_numbers", cannot)
    found = pack_years(_RECORD, designed, folder=tmp_path)
    assert found == PackYears(None, "nothing is known of the emitters of the hall")
    assert list(tmp_path.iterdir()) == []


def test_a_cache_that_cannot_be_written_keeps_nothing_and_stops_nobody(
    numbers: YearNumbers, tmp_path: Path
) -> None:
    (tmp_path / "years").write_text("a file stands in the folder's place")
    write_kept(tmp_path / "years", "a.json", numbers)
    assert (tmp_path / "years").read_text().startswith("a file")


def test_the_cache_is_where_the_user_keeps_theirs(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", "/somewhere")
    assert cache_folder() == Path("/somewhere/hearthbook/years")
    monkeypatch.delenv("XDG_CACHE_HOME")
    monkeypatch.setenv("HOME", "/nowhere/somebody")
    assert cache_folder() == Path("/nowhere/somebody/.cache/hearthbook/years")


@pytest.mark.parametrize("name", ["well_done", "with_faults"])
def test_kept_years_are_still_those_of_the_program(name: str) -> None:
    """The year of the home as recorded lies where its kept two hundred do, or they are old."""
    if os.environ.get("HEARTHBOOK_RENEW_YEARS"):
        _renew(name)
    kept, run = read_kept(KEPT_YEARS / f"{name}.json"), year_of(name)
    assert kept is not None
    for span, said in (
        (kept.totals.electricity, run.total(*ELECTRICITY)),
        (kept.totals.defrosts, run.total("defrosts")),
    ):
        assert span.low < said < span.high, "HEARTHBOOK_RENEW_YEARS=1 ./run test -k kept_years"


def _renew(name: str) -> None:
    record = EXAMPLES / name / "home.yaml"
    with tempfile.TemporaryDirectory() as empty:
        found = pack_years(record, design(record), folder=Path(empty)).numbers
    assert found is not None
    write_kept(KEPT_YEARS, f"{name}.json", found)
