"""The householder's words, from the text files of a language, filled with this home's facts.

A text file holds pieces, each headed by `@ key`. A piece may begin with `# Title`; a question
begins with `? the question` and `~ further words to find it by`. The rest is in the notation of
`hearthbook.documents.markdown`, with Jinja's placeholders and conditions. A placeholder without a
fact is an error: nothing general is ever printed in its place.
"""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any

from jinja2 import Environment, StrictUndefined, Template, UndefinedError

from hearthbook.documents import inline
from hearthbook.documents.blocks import Block
from hearthbook.documents.markdown import blocks_from
from hearthbook.errors import Incomplete, NotFound

__all__ = ["Facts", "Piece", "Ready", "holds", "keys", "phrase", "phrases", "piece", "sentence"]

Facts = dict[str, Any]

_NUMBER = re.compile(r"(?<=\d) (?=(?:°C|bar|kWh|MWh|kW|L|m|cm|minutes|hours|seconds)\b)")


class Ready(str):
    """Text that is in the blocks' notation already, such as a table; it is not escaped again."""

    __slots__ = ()


@dataclass(frozen=True)
class Piece:
    """One piece of wording, filled in.

    Attributes:
        title: its title, or the question.
        blocks: its text.
        keywords: further words to find it by.
    """

    title: str
    blocks: tuple[Block, ...]
    keywords: tuple[str, ...] = ()


def _finalized(value: Any) -> str:
    if value is None:
        raise Incomplete("a fact is None")
    return str(value) if isinstance(value, Ready) else inline.escaped(str(value))


def sentence(text: str) -> str:
    """Text as it begins a sentence."""
    return text[:1].upper() + text[1:]


@cache
def _environment() -> Environment:
    environment = Environment(
        undefined=StrictUndefined, finalize=_finalized, trim_blocks=False, autoescape=False
    )
    environment.filters["sentence"] = sentence
    return environment


@cache
def _pieces(language: str, name: str) -> dict[str, Template]:
    path = files("hearthbook.handover").joinpath("words", language, *name.split("/"))
    if not path.is_file():
        raise NotFound(f"There is no file {name} of words for the language {language!r}.")
    parts = re.split(r"^@ +(\S+) *$", path.read_text(encoding="utf-8"), flags=re.MULTILINE)
    templates = map(_environment().from_string, parts[2::2])
    return dict(zip(parts[1::2], templates, strict=True)) or {
        "": _environment().from_string(parts[0])
    }


def keys(language: str, name: str) -> tuple[str, ...]:
    """The keys of the pieces in a file, in its order."""
    return tuple(_pieces(language, name))


def piece(language: str, name: str, key: str, facts: Facts) -> Piece:
    """A piece of wording filled with a home's facts.

    Args:
        language: the folder of words.
        name: the file within it, such as `guide.md`.
        key: the piece's key; empty for a file without keys.
        facts: this home's facts.

    Raises:
        NotFound: there is no such piece.
        Incomplete: the piece asks for a fact this home does not have.
    """
    templates = _pieces(language, name)
    if key not in templates:
        raise NotFound(f"The words in {name} for {language!r} hold no piece {key!r}.")
    try:
        text = _NUMBER.sub("\N{NO-BREAK SPACE}", templates[key].render(facts).strip())
    except (UndefinedError, Incomplete) as error:
        raise Incomplete(f"The text {key!r} of {name} asks for a missing fact: {error}.") from error
    title, text = _taken(text, "# ", "? ")
    found_by, text = _taken(text, "~ ")
    return Piece(title, blocks_from(text), tuple(found_by.split()))


def _taken(text: str, *marks: str) -> tuple[str, str]:
    first, _, rest = text.partition("\n")
    for mark in marks:
        if first.startswith(mark):
            return first[len(mark) :].strip(), rest.strip()
    return "", text


@cache
def phrases(language: str) -> dict[str, Any]:
    """The short phrases of a language."""
    path = files("hearthbook.handover").joinpath("words", language, "phrases.toml")
    if not path.is_file():
        raise NotFound(f"There are no words for the language {language!r}.")
    return tomllib.loads(path.read_text(encoding="utf-8"))


def phrase(language: str, group: str, name: str, /, **values: object) -> str:
    """A short phrase with its values.

    Raises:
        NotFound: the language has no such phrase.
    """
    text = phrases(language).get(group, {}).get(name)
    if not isinstance(text, str):
        raise NotFound(f"The phrases for {language!r} hold no {group}.{name}.")
    return text.format(**values)


@cache
def _condition(expression: str) -> Any:
    return _environment().compile_expression(expression, undefined_to_none=False)


def holds(expression: str, facts: Facts) -> bool:
    """Whether a condition of the question index holds for a home; an empty one always does."""
    return not expression or bool(_condition(expression)(facts))
