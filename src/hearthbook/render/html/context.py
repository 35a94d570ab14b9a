"""What the markup of a block depends on."""

from __future__ import annotations

from dataclasses import dataclass, field

from hearthbook.documents import blocks as b
from hearthbook.documents.inline import Emphasis, Link, Part, Strong, Words, parsed
from hearthbook.render.html.tags import Html, joined, tag
from hearthbook.render.wording import Wording

__all__ = ["Context"]


@dataclass
class Context:
    """The document, its words, where it can be pointed at, and what was worked out so far."""

    document: b.Document
    words: Wording
    anchors: frozenset[str]
    worked_out: set[str] = field(default_factory=set)

    def spoken(self, text: str) -> Html:
        """A paragraph's text with its strong words, emphasis and links."""
        return self._parts(parsed(text))

    def _parts(self, parts: tuple[Part, ...]) -> Html:
        return joined(*(self._part(part) for part in parts))

    def _part(self, part: Part) -> str:
        if isinstance(part, Words):
            return part.text
        inner = self._parts(part.parts)
        if isinstance(part, Strong):
            return tag("strong", inner)
        if isinstance(part, Emphasis):
            return tag("em", inner)
        return self._link(part, inner)

    def _link(self, link: Link, inner: Html) -> Html:
        """A link, or plain words when it leads to another document's place."""
        if link.target.startswith("#") and link.target[1:] not in self.anchors:
            return inner
        outside = link.target.startswith("https://")
        return tag("a", inner, href=link.target, rel="noreferrer" if outside else None)
