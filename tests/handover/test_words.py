"""Every piece of wording is used by some home, and every place that asks for one finds it."""

from __future__ import annotations

import tomllib
from importlib.resources import files
from pathlib import Path
from typing import Any, get_args

import pytest

from hearthbook.documents.blocks import Question, blocks_in
from hearthbook.documents.figures import Basis
from hearthbook.documents.inline import plain
from hearthbook.errors import Incomplete, NotFound
from hearthbook.handover import wording
from hearthbook.handover.questions import PLACES
from hearthbook.record.building import ConstructionKind
from hearthbook.record.metering import Measurand
from tests.handover.conftest import Items, document_of
from tests.handover.variants import VARIANTS

_LANGUAGE = "en-GB"
_WORDS = files("hearthbook.handover").joinpath("words", _LANGUAGE)
_PAGES = ("guide.md", "cards.md", "labels.md", "visit.md", "topping_up.md")
# Groups with a text for every answer the record allows; no set of homes gives every answer.
_BY_ANSWER = {"weekdays", "months", "measures", "drain", "sides", "refrigerant", "parts", "feel"}
# Said only in a situation that these homes are not in; each is asked for by name in the code.
_BY_SITUATION = {
    "cost.dearer", "cost.level", "digits.gigajoule",
    "words.every_day", "words.every_days", "words.every_few_hours", "words.half_hour",
    "words.not_above", "words.peak_reheated", "words.peak_short", "words.times_an_hour",
    "words.to_follow_undated",
}  # fmt: skip
_CODE = "".join(
    path.read_text(encoding="utf-8")
    for path in Path(str(files("hearthbook.handover"))).rglob("*.py")
)


def _index(name: str) -> dict[str, Any]:
    return tomllib.loads(files("hearthbook.handover").joinpath(name).read_text(encoding="utf-8"))


@pytest.mark.parametrize("page", _PAGES)
def test_every_piece_of_a_page_is_used(page: str, packs: dict[str, Items], asked: set[str]) -> None:
    assert packs
    unused = [key for key in wording.keys(_LANGUAGE, page) if f"{page}.{key}" not in asked]
    assert unused == []


def test_every_phrase_is_used(packs: dict[str, Items], asked: set[str]) -> None:
    assert packs
    names = [
        f"{group}.{name}"
        for group, table in wording.phrases(_LANGUAGE).items()
        if isinstance(table, dict) and group not in _BY_ANSWER
        for name in table
    ]
    assert len(names) > 100
    unused = {name for name in names if name not in asked}
    assert unused <= _BY_SITUATION | {f"known.{basis}" for basis in Basis}
    for name in _BY_SITUATION:
        assert f'"{name.partition(".")[2]}"' in _CODE, name


def test_every_answer_the_record_allows_has_its_phrase() -> None:
    table = wording.phrases(_LANGUAGE)
    assert set(table["measures"]) == set(get_args(Measurand))
    assert list(table["weekdays"]) == [
        "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday",
    ]  # fmt: skip
    assert len(table["months"]["names"]) == len(table["months"]["short"]) == 12
    assert {"A1", "A2L", "A2", "A3"} == set(table["refrigerant"])
    assert {str(kind) for kind in ConstructionKind} <= set(table["parts"])


@pytest.mark.parametrize("place", PLACES)
def test_questions_and_their_texts_are_the_same_in_the_same_order(place: str) -> None:
    index = _index("questions.toml")
    assert tuple(index) == PLACES
    assert tuple(index[place]) == wording.keys(_LANGUAGE, f"questions/{place}.md")


def test_every_question_is_asked_in_some_home(packs: dict[str, Items], asked: set[str]) -> None:
    assert packs
    for place, entries in _index("questions.toml").items():
        for key in entries:
            assert f"questions/{place}.md.{key}" in asked, key


@pytest.mark.parametrize("name", ["as it is", "with faults"])
def test_a_demo_home_has_at_least_fifty_questions_answered(
    name: str, packs: dict[str, Items]
) -> None:
    found = _questions(packs[name])
    assert len(found) >= 50
    assert len({question.anchor for question in found}) == len(found)
    assert len({question.question for question in found}) == len(found)
    for question in found:
        assert plain(question.question).endswith("?") or not question.question.endswith("."), (
            question.question
        )
        assert question.blocks, question.question
        assert question.place


def _questions(items: Items) -> list[Question]:
    document = document_of(items, "guide.pdf")
    return [block for block in blocks_in(document.blocks) if isinstance(block, Question)]


def test_most_answers_hold_a_number_or_a_place_of_the_home(packs: dict[str, Items]) -> None:
    """An answer that reads the same in both demo homes is general; most must not be."""
    one, other = (
        {q.anchor: q.blocks for q in _questions(packs[n])} for n in ("as it is", "with faults")
    )
    shared = set(one) & set(other)
    own = [anchor for anchor in shared if one[anchor] != other[anchor]]
    assert len(own) >= len(shared) / 2


def test_every_stop_of_the_visit_has_its_words_and_its_question_back() -> None:
    stops = _index("visit_order.toml")["stop"]
    keys = wording.keys(_LANGUAGE, "visit.md")
    for stop in stops:
        assert stop["key"] in keys
        assert (f"{stop['key']}_ask" in keys) == bool(stop.get("asks"))
        assert 1 <= stop["minutes"] <= 15
    assert 60 <= sum(stop["minutes"] for stop in stops) <= 120


def test_the_calendar_s_words_are_all_used() -> None:
    text = _WORDS.joinpath("calendar.toml").read_text(encoding="utf-8")
    code = files("hearthbook.handover").joinpath("calendar_file.py").read_text(encoding="utf-8")
    names = list(tomllib.loads(text)["events"])
    composed = {"service_text", "curve_visit_text"}
    assert [n for n in names if f'"{n}"' not in code and n not in composed] == []


@pytest.mark.parametrize("name", sorted(VARIANTS))
def test_the_pack_of_a_home_asks_for_no_word_that_is_not_there(
    name: str, packs: dict[str, Items]
) -> None:
    assert packs[name]


def test_missing_words_and_missing_facts_are_named() -> None:
    with pytest.raises(NotFound, match=r"hold no piece 'nowhere'"):
        wording.piece(_LANGUAGE, "guide.md", "nowhere", {})
    with pytest.raises(NotFound, match=r"no file guide\.md of words for the language 'xx'"):
        wording.piece("xx", "guide.md", "glance", {})
    with pytest.raises(NotFound, match=r"hold no words\.nonsense"):
        wording.phrase(_LANGUAGE, "words", "nonsense")
    with pytest.raises(Incomplete, match=r"'glance' of guide\.md asks for a missing fact"):
        wording.piece(_LANGUAGE, "guide.md", "glance", {})
    with pytest.raises(Incomplete, match="a fact is None"):
        wording.piece(_LANGUAGE, "guide.md", "outdoor", {"unit": {"place": None}, "cylinder": 0})
