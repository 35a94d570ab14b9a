"""The questions of a home: those that apply to it, answered with its own facts."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files
from typing import Any

from hearthbook.documents.blocks import Question
from hearthbook.handover.wording import Facts, holds, phrase, piece

__all__ = ["PLACES", "questions_of"]


@cache
def _index() -> dict[str, dict[str, Any]]:
    text = files("hearthbook.handover").joinpath("questions.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


PLACES: tuple[str, ...] = (
    "outdoor_unit",
    "hot_water",
    "pressure",
    "rooms",
    "controls",
    "meters",
    "board",
    "life",
    "calling",
)


def questions_of(place: str, facts: Facts, language: str) -> tuple[Question, ...]:
    """The questions that belong to a place and apply to this home, in reading order.

    Raises:
        Incomplete: an answer asks for a fact this home does not have.
    """
    return tuple(
        _question(place, key, entry, facts, language)
        for key, entry in _index()[place].items()
        if holds(entry.get("when", ""), facts)
    )


def _question(place: str, key: str, entry: dict[str, Any], facts: Facts, language: str) -> Question:
    text = piece(language, f"questions/{place}.md", key, facts)
    return Question(
        anchor=f"q-{key}",
        question=text.title,
        blocks=text.blocks,
        place=phrase(language, "places", place),
        seasons=tuple(phrase(language, "seasons", season) for season in entry.get("seasons", [])),
        keywords=text.keywords,
    )
