from __future__ import annotations

import re
from importlib.resources import files

from hearthbook.readers.record_file import home_from_text
from hearthbook.readers.schema import record_schema
from hearthbook.readers.yaml_tree import read_tree
from hearthbook.record.commissioning import CheckKind, ReadingKind
from hearthbook.record.home import Home
from hearthbook.survey.unknowns import unknowns

STARTER = files("hearthbook.readers").joinpath("starter.yaml").read_text(encoding="utf-8")


def _answered() -> str:
    """The starter with every answer that waits behind one # given."""
    lines = [re.sub(r"^( *)# (?!yaml-lang)", r"\1", line) for line in STARTER.splitlines()]
    return "\n".join(line for line in lines if not line.lstrip().startswith("##"))


def test_it_reads_and_leaves_only_questions() -> None:
    home = home_from_text(STARTER)
    assert any(unknown.is_needed for unknown in unknowns(home))


def test_every_answer_it_offers_is_one_a_record_accepts() -> None:
    home = home_from_text(_answered())
    assert home.commissioning is not None
    assert home.plant.cylinder is not None


def test_it_begins_with_the_schema_an_editor_looks_for() -> None:
    first = STARTER.splitlines()[0]
    assert first == "# yaml-language-server: $schema=record.schema.json"


def test_every_chapter_reading_and_check_is_in_it() -> None:
    words = set(re.findall(r"[a-z_0-9]+", STARTER))
    assert words >= set(Home.model_fields)
    assert words >= {kind.value for kind in ReadingKind} | {kind.value for kind in CheckKind}


def test_every_key_of_the_models_is_in_it() -> None:
    words = set(re.findall(r"[a-z_0-9]+", STARTER))
    parts = record_schema()["$defs"].values()
    assert {key for part in parts for key in part.get("properties", {})} - words == set()


def test_no_key_stands_in_it_twice() -> None:
    assert read_tree(STARTER, "starter").faults == []
