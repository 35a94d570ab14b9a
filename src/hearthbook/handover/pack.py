"""What a pack holds: its documents in the order a household meets them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from hearthbook.documents.blocks import Document

__all__ = ["PackItem"]


@dataclass(frozen=True)
class PackItem:
    """One file of a pack.

    Attributes:
        name: its file name.
        purpose: who it is for and what it does, in a few words.
        content: a document to render, or bytes that are ready.
        medium: what the document is rendered as.
    """

    name: str
    purpose: str
    content: Document | bytes
    medium: Literal["pdf", "html", "text", "file"]
