"""What a picture is made from: a home's design, and the words for drawings in a language."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files
from typing import Any, Protocol

from hearthbook.design.results import Design
from hearthbook.errors import NotFound

__all__ = ["PictureBasis", "capitalised", "say", "word_list", "word_table"]


class PictureBasis(Protocol):
    """Anything that holds a home's design and the language of the pack."""

    @property
    def design(self) -> Design:
        """The home's design."""

    @property
    def language(self) -> str:
        """The folder of words."""


@cache
def _table(language: str) -> dict[str, Any]:
    path = files("hearthbook.handover").joinpath("words", language, "drawings.toml")
    if not path.is_file():
        raise NotFound(f"There are no words for drawings in the language {language!r}.")
    return tomllib.loads(path.read_text(encoding="utf-8"))


def say(language: str, name: str, /, **values: object) -> str:
    """The words of a name such as `gauge.cold`, with this home's figures in them.

    Raises:
        NotFound: the language has no such words.
    """
    found: Any = _table(language)
    for step in name.split("."):
        found = found.get(step, {}) if isinstance(found, dict) else {}
    if not isinstance(found, str):
        raise NotFound(f"The words for drawings in {language!r} hold no {name}.")
    return found.format(**values)


def word_table(language: str, group: str) -> dict[str, str]:
    """The words of a group such as `system.parts`, by name."""
    found: Any = _table(language)
    for step in group.split("."):
        found = found[step]
    return {name: text for name, text in found.items() if isinstance(text, str)}


def word_list(language: str, group: str, name: str) -> tuple[str, ...]:
    """Words in order, such as the captions of four pictures."""
    return tuple(_table(language)[group][name])


def capitalised(words: str) -> str:
    """Words from a record with a capital to begin with, as they stand alone on a drawing."""
    return words[:1].upper() + words[1:]
