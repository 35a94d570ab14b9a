"""The engineer's report: results, verdicts, assumptions, and every working."""

from __future__ import annotations

from hearthbook.commissioning.document import verdict_sections
from hearthbook.design.checks import shortfalls
from hearthbook.design.document import design_sections, shortfall_section
from hearthbook.documents.blocks import Block, Definition, Definitions, Document, Section, Text
from hearthbook.documents.figures import Basis, KeyFigure, book_of
from hearthbook.documents.formulas import pieces
from hearthbook.documents.inline import escaped
from hearthbook.handover import charts
from hearthbook.handover.basis import PackBasis
from hearthbook.handover.pictures_of_home import picture
from hearthbook.handover.year_section import year_section

__all__ = ["report"]

_SHOWN = 12  # inputs printed of one working; `explain` lists them all


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
        year_section(basis),
        _workings(basis),
    )
    return basis.document("report", "report", blocks)


def _workings(basis: PackBasis) -> Section:
    """Every calculated figure once, by chapter and numbered; inputs point to numbers."""
    book = book_of((basis.design, basis.judged, basis.year))
    names = sorted(
        name for name in book if book[name].basis is Basis.CALCULATED and not _is_edge(name)
    )
    numbers = {name: number for number, name in enumerate(names, start=1)}
    chapters: dict[str, list[Definition]] = {}
    for name in names:
        entry = _working(book[name], numbers)
        chapters.setdefault(name.split(".", maxsplit=1)[0], []).append(entry)
    sections = tuple(
        Section(
            _chapter(chapter),
            f"working-{chapter}",
            (Definitions(tuple(entries), is_dense=True),),
        )
        for chapter, entries in chapters.items()
    )
    how = Text(basis.words("report", "how_to_read"))
    return Section(basis.words("report", "workings"), "workings", (how, *sections))


def _is_edge(name: str) -> bool:
    """Whether a figure is an end of a simulated range, whose middle has the same working."""
    return name.startswith("year.pack.") and name.endswith((".low", ".high"))


def _chapter(name: str) -> str:
    return name.replace("_", " ").capitalize()


def _working(figure: KeyFigure, numbers: dict[str, int]) -> Definition:
    working = figure.working
    inputs = [_input(part, numbers) for part in working.inputs[:_SHOWN]]
    if len(working.inputs) > _SHOWN:
        inputs.append(f"… ({len(working.inputs)})")
    formula = "".join(piece.text for piece in pieces(working.formula))
    parts = [f"= {formula}", "; ".join(inputs), working.source, working.note, figure.name]
    said = ". ".join(escaped(part) for part in parts if part.strip())
    term = f"{numbers[figure.name]}. {figure.label}"
    return Definition(escaped(term), f"**{escaped(figure.shown_with_range())}** {said}")


def _input(part: KeyFigure, numbers: dict[str, int]) -> str:
    number = numbers.get(part.name)
    named = f"{part.label} {part.shown()}"
    return f"{named} [{number}]" if number else f"{named} ({part.basis})"
