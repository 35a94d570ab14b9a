from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given

from hearthbook.readers.record_file import home_from_text, read_home
from hearthbook.readers.record_text import write_home
from hearthbook.record.home import Home
from tests.strategies import homes, printable

SMALL = read_home(Path(__file__).parent / "small.yaml")


def _with_answer(home: Home, text: str) -> Home:
    firm = home.firm.model_copy(update={"answers_within": text})
    return home.model_copy(update={"firm": firm})


@given(homes())
def test_a_home_written_and_read_is_the_same_home(home: Home) -> None:
    assert home_from_text(write_home(home)) == home


@pytest.mark.parametrize("which", ["well_done_home", "faulty_home"])
def test_a_demo_home_written_and_read_is_the_same_home(
    which: str, request: pytest.FixtureRequest
) -> None:
    home: Home = request.getfixturevalue(which)
    assert home_from_text(write_home(home)) == home


@given(printable())
def test_any_text_survives(text: str) -> None:
    home = _with_answer(SMALL, text)
    assert home_from_text(write_home(home)).firm.answers_within == text


@pytest.mark.parametrize(
    "text",
    ["0071", "1.10", "true", "null", "~", "2026-10-01", "0x1F", ".5", "- x", "a: b", "#", "''"],
)
def test_text_that_looks_like_something_else_stays_text(text: str) -> None:
    home = _with_answer(SMALL, text)
    assert home_from_text(write_home(home)).firm.answers_within == text


def test_defaults_are_left_out() -> None:
    assert "revision" not in write_home(SMALL)


def test_numbers_are_written_in_the_documented_unit(well_done_home: Home) -> None:
    written = write_home(well_done_home)
    assert "precharge: 0.8\n" in written
    assert "wall_thickness: 272\n" in written


def test_a_number_in_another_unit_reads_as_the_same_quantity() -> None:
    text = (Path(__file__).parent / "small.yaml").read_text(encoding="utf-8")
    other = text.replace("height: 600 mm", "height: 0.6 m").replace("1.4 kW", "1400")
    assert home_from_text(other) == home_from_text(text)
