"""The engineer's report: results, verdicts, assumptions, and every working."""

from __future__ import annotations

from hearthbook.commissioning.document import verdict_sections
from hearthbook.design.checks import shortfalls
from hearthbook.design.document import design_sections, shortfall_section
from hearthbook.documents.blocks import Block, Document, Section, WorkingTree
from hearthbook.documents.figures import Basis, KeyFigure, book_of
from hearthbook.handover import charts
from hearthbook.handover.basis import PackBasis
from hearthbook.handover.pictures_of_home import picture

__all__ = ["report"]


def report(basis: PackBasis) -> Document:
    """The engineer's report of a home."""
    schematic = picture(basis, "system_schematic")
    overview: tuple[Block, ...] = (
        charts.loss_by_room_chart(basis),
        charts.loss_by_element_chart(basis),
        *(() if schematic is None else (schematic,)),
    )
    blocks: tuple[Block, ...] = (
        shortfall_section(shortfalls(basis.design)),
        *verdict_sections(basis.design, basis.judged),
        Section(basis.words("report", "pictures"), "pictures", overview),
        *design_sections(basis.design),
        _workings(basis),
    )
    return basis.document("report", "report", blocks)


def _workings(basis: PackBasis) -> Section:
    """Every calculated figure once, by chapter; inputs are named, each with its own entry."""
    book = book_of((basis.design, basis.judged))
    chapters: dict[str, list[KeyFigure]] = {}
    for name in sorted(book):
        if book[name].basis is Basis.CALCULATED:
            chapters.setdefault(name.split(".", maxsplit=1)[0], []).append(book[name])
    sections = tuple(
        Section(
            chapter.replace("_", " ").capitalize(),
            f"working-{chapter}",
            tuple(WorkingTree(figure) for figure in figures),
        )
        for chapter, figures in chapters.items()
    )
    return Section(basis.words("report", "workings"), "workings", sections)
