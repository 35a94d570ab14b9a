"""The little markup inside a paragraph: strong, emphasis and links, and nothing else.

`**strong**`, `*emphasis*`, `[words](#anchor)` or `[words](https://…)`. A backslash before a mark
makes it a plain character. Marks that do not close are plain characters too, so no text is refused.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

__all__ = [
    "Emphasis",
    "Link",
    "Part",
    "Strong",
    "Words",
    "capitalised",
    "escaped",
    "links",
    "parsed",
    "plain",
]


@dataclass(frozen=True)
class Words:
    """Plain characters."""

    text: str


@dataclass(frozen=True)
class Strong:
    """Words that must not be missed."""

    parts: tuple[Part, ...]


@dataclass(frozen=True)
class Emphasis:
    """Words said with a little weight."""

    parts: tuple[Part, ...]


@dataclass(frozen=True)
class Link:
    """Words that lead somewhere: `#anchor`, or an https, mailto or tel address."""

    parts: tuple[Part, ...]
    target: str


Part = Words | Strong | Emphasis | Link

_MARKS = re.compile(
    r"\\(?P<plain>[\\*\[\]`|])"
    r"|\*\*(?P<strong>(?:\\.|[^\\])+?)\*\*(?!\*)"
    r"|\*(?P<emphasis>(?![\s*])(?:\\.|[^\\*])*?[^\s\\*])\*"
    r"|\[(?P<label>(?:\\.|[^\\\[\]])+)\]\((?P<target>(?:#|https://|mailto:|tel:)[^\s()<>\"']*)\)",
    re.DOTALL,
)
_SPACES = re.compile(r"[^\S\xa0]+")  # a hard space stays, so that a number keeps its unit
_SPECIAL = re.compile(r"([\\*\[\]`|])")


def escaped(text: str) -> str:
    r"""Text from a record, with every mark made a plain character and its line breaks removed.

    Example:
        >>> escaped("Sam's *room* [loft]")
        "Sam's \\*room\\* \\[loft\\]"
    """
    return _SPECIAL.sub(r"\\\1", " ".join(filter(None, _SPACES.split(text))))


def capitalised(text: str) -> str:
    """Text that begins a line, with a capital; a unit or a symbol such as kWh or pH keeps its form.

    Example:
        >>> capitalised("living room"), capitalised("kWh a year"), capitalised("pH of the water")
        ('Living room', 'kWh a year', 'pH of the water')
    """
    return text[:1].upper() + text[1:] if text[1:2].islower() or text[1:2] == " " else text


@lru_cache(maxsize=8192)  # a text is looked through for defects, then set in several documents
def parsed(text: str) -> tuple[Part, ...]:
    """The parts of a paragraph.

    Example:
        >>> parsed("Turn it **slowly**.")
        (Words(text='Turn it '), Strong(parts=(Words(text='slowly'),)), Words(text='.'))
    """
    parts: list[Part] = []
    position = 0
    for found in _MARKS.finditer(text):
        if found.start() > position:
            parts.append(Words(text[position : found.start()]))
        parts.append(_part(found))
        position = found.end()
    if position < len(text):
        parts.append(Words(text[position:]))
    return tuple(_joined(parts))


def _part(found: re.Match[str]) -> Part:
    """The part a mark stands for."""
    if found["strong"] is not None:
        return Strong(parsed(found["strong"]))
    if found["emphasis"] is not None:
        return Emphasis(parsed(found["emphasis"]))
    if found["label"] is not None:
        return Link(parsed(found["label"]), found["target"])
    return Words(found["plain"])


def _joined(parts: list[Part]) -> list[Part]:
    """The same parts, with neighbouring words made one."""
    joined: list[Part] = []
    for part in parts:
        last = joined[-1] if joined else None
        if isinstance(part, Words) and isinstance(last, Words):
            joined[-1] = Words(last.text + part.text)
        else:
            joined.append(part)
    return joined


def plain(text: str) -> str:
    """A paragraph as a reader hears it, without marks.

    Example:
        >>> plain("See [the gauge](#gauge), and **never** force it.")
        'See the gauge, and never force it.'
    """
    return "".join(_spoken(part) for part in parsed(text))


def _spoken(part: Part) -> str:
    """The characters of a part."""
    if isinstance(part, Words):
        return part.text
    return "".join(_spoken(inner) for inner in part.parts)


def links(text: str) -> tuple[str, ...]:
    """Where a paragraph's links lead, in order."""
    return tuple(_targets(parsed(text)))


def _targets(parts: tuple[Part, ...]) -> list[str]:
    """Where the links among these parts lead."""
    found: list[str] = []
    for part in parts:
        if isinstance(part, Link):
            found.append(part.target)
        if not isinstance(part, Words):
            found.extend(_targets(part.parts))
    return found
