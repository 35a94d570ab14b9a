"""Plain text, eighty characters wide: for a terminal, and for whoever reviews the wording."""

from __future__ import annotations

from hearthbook.documents.blocks import Document
from hearthbook.render.text.lines import Page, block_lines, working_text
from hearthbook.render.wording import long_date, wording

__all__ = ["render", "working_text"]


def render(document: Document) -> str:
    """The document as plain text."""
    words = wording(document.language)
    issued = f"{words['issued']} {long_date(document.issued, words)}"
    head = [document.home, document.title.upper(), "=" * len(document.title)]
    head += [document.subtitle] if document.subtitle else []
    head += [f"{issued}, {words['revision']} {document.revision}", ""]
    page = Page(words)
    body = [line for block in document.blocks for line in (*block_lines(block, 1, page), "")]
    foot = ["-" * 80, document.footer] if document.footer else []
    return "\n".join(_tidied([*head, *body, *foot])) + "\n"


def _tidied(lines: list[str]) -> list[str]:
    """The lines without spaces at their ends, and without two empty ones together."""
    tidied: list[str] = []
    for line in (one.rstrip() for one in lines):
        if line or (tidied and tidied[-1]):
            tidied.append(line)
    return tidied
