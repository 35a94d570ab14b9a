"""What a pack holds: its documents and how each is rendered."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from hearthbook.commissioning.judgements import Judged
from hearthbook.design.results import Design
from hearthbook.documents.blocks import Document
from hearthbook.handover.basis import PackBasis
from hearthbook.handover.cards import call_card, next_owner, plant_card, winter_card
from hearthbook.handover.facts.of_home import facts_of
from hearthbook.handover.guide import guide
from hearthbook.handover.labels import labels
from hearthbook.handover.report import report
from hearthbook.handover.visit_order import visit_order
from hearthbook.year.bin_numbers import numbers_by_hours
from hearthbook.year.pack_figures import year_facts
from hearthbook.year.pack_numbers import YearNumbers

__all__ = ["READING_ORDER", "Medium", "PackItem", "pack_basis", "pack_items"]

READING_ORDER = (
    "guide.pdf",
    "guide-large.pdf",
    "guide.html",
    "plant-card.pdf",
    "winter-card.pdf",
    "when-you-call.pdf",
    "next-owner.pdf",
    "labels.pdf",
    "visit-order.pdf",
    "engineers-report.pdf",
    "calendar.ics",
)
"""The files in the order a household meets them."""

Medium = Literal["pdf", "html", "file"]


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
    medium: Medium


def pack_basis(
    design: Design, judged: Judged, numbers: YearNumbers | None = None, why_not: str = ""
) -> PackBasis:
    """What the documents of a home's pack are made from, in its household's language.

    Args:
        design: of the home.
        judged: the verdicts on it.
        numbers: of its simulated years; without them the design's own estimate stands in.
        why_not: why no year could be simulated.
    """
    language = design.home.household.language
    numbers = numbers or numbers_by_hours(design)
    year = year_facts(design, numbers)
    facts = facts_of(design, numbers, year, language)
    return PackBasis(design, judged, numbers, year, facts, language, why_not)


def pack_items(
    design: Design, judged: Judged, numbers: YearNumbers | None = None, why_not: str = ""
) -> Iterator[PackItem]:
    """The files of a home's pack, those first that take longest to set.

    Args:
        design: of the home.
        judged: the verdicts on it.
        numbers: of its simulated years; without them the design's own estimate stands in.
        why_not: why no year could be simulated.

    Raises:
        Incomplete: a text asks for a fact this home does not have.
        NotFound: there are no words in the household's language.
    """
    basis = pack_basis(design, judged, numbers, why_not)
    for name, content, medium in _contents(basis):
        yield PackItem(name, basis.words("purposes", name), content, medium)


def _contents(basis: PackBasis) -> Iterator[tuple[str, Document | bytes, Medium]]:
    yield "engineers-report.pdf", report(basis), "pdf"
    normal = guide(basis)
    yield "guide.pdf", normal, "pdf"
    yield "guide-large.pdf", replace(normal, print_size="large"), "pdf"
    yield "guide.html", normal, "html"
    yield "labels.pdf", labels(basis), "pdf"
    yield "visit-order.pdf", visit_order(basis), "pdf"
    yield "next-owner.pdf", next_owner(basis), "pdf"
    yield "plant-card.pdf", plant_card(basis), "pdf"
    yield "winter-card.pdf", winter_card(basis), "pdf"
    yield "when-you-call.pdf", call_card(basis), "pdf"

    from hearthbook.handover.calendar_file import calendar_file  # slow, and now there is time

    yield "calendar.ics", calendar_file(basis), "file"
