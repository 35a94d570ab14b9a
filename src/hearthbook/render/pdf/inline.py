"""The text of a paragraph as plain data, and what that depends on."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from typing import Any

from hearthbook.documents import blocks as b
from hearthbook.documents.inline import Emphasis, Link, Part, Strong, Words, parsed
from hearthbook.render.wording import Wording

__all__ = ["Context", "Data", "breakable", "inline"]

Data = dict[str, Any]

_LONG_WORD = re.compile(r"\S{25,}")
_LINK_OF_WORD = re.compile(r"[._/\\@?&=]+|[^\W_]{16}")


@dataclass(frozen=True)
class Context:
    """What the encoding of a block depends on.

    Attributes:
        document: the whole.
        words: of its language.
        anchors: where it can be pointed at.
        room: the width between the edges of what holds the block, in points.
        small: the size of letters in tables, in points.
        worked_out: the names of figures whose working was laid out before.
    """

    document: b.Document
    words: Wording
    anchors: frozenset[str]
    room: float
    small: float
    worked_out: set[str] = field(default_factory=set)

    def within(self, room: float) -> Context:
        """The same with other room."""
        return replace(self, room=room)


def breakable(text: str) -> str:
    """The text, with places where a word too long for any line may break.

    The template turns each place into one without a character, so that the word can be copied.
    """
    return _LONG_WORD.sub(lambda found: _LINK_OF_WORD.sub("\\g<0>\u200b", found[0]), text)


def inline(text: str, context: Context) -> list[Data]:
    """The parts of a paragraph; a link that leads nowhere in this document is plain words."""
    return _parts(parsed(text), context)


def _parts(parts: tuple[Part, ...], context: Context) -> list[Data]:
    """Each part as plain data."""
    return [_part(part, context) for part in parts]


def _part(part: Part, context: Context) -> Data:
    """One part as plain data."""
    if isinstance(part, Words):
        return {"is": "words", "text": breakable(part.text)}
    inner = _parts(part.parts, context)
    if isinstance(part, Strong):
        return {"is": "strong", "parts": inner}
    if isinstance(part, Emphasis):
        return {"is": "emphasis", "parts": inner}
    return _link(part, inner, context)


def _link(link: Link, inner: list[Data], context: Context) -> Data:
    """A link, or its plain words when it leads to another document's place."""
    if link.target.startswith("#") and link.target[1:] not in context.anchors:
        return {"is": "group", "parts": inner}
    return {"is": "link", "parts": inner, "target": link.target}
