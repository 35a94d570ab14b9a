"""Each block of a document as lines of plain text."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from typing import assert_never

from hearthbook.documents import blocks as b
from hearthbook.documents.charts import Chart
from hearthbook.documents.figures import KeyFigure
from hearthbook.documents.inline import capitalised, escaped, plain
from hearthbook.documents.tables import table_of
from hearthbook.documents.workings import WorkingLine, working_lines
from hearthbook.render.text.tables import table_lines
from hearthbook.render.wording import Wording, wording

__all__ = ["WIDTH", "Lines", "Page", "block_lines", "working_text"]

WIDTH = 80

Lines = list[str]


@dataclass
class Page:
    """The words of the language, how wide to write, and what was worked out so far."""

    words: Wording
    width: int = WIDTH
    worked_out: set[str] = field(default_factory=set)

    def narrower(self, by: int) -> Page:
        """The same page with less room."""
        return Page(self.words, self.width - by, self.worked_out)


def working_text(figure: KeyFigure, language: str = "en-GB") -> str:
    """A figure's working, down to the record and the sources."""
    return "\n".join(_working(figure, Page(wording(language)))) + "\n"


def block_lines(block: b.Block, level: int, page: Page) -> Lines:  # noqa: C901, PLR0911, PLR0912 - one case for each block, closed by assert_never
    """One block as lines.

    Args:
        block: what is written.
        level: of a heading in it; 1 is a chapter.
        page: the words and the room there is.
    """
    match block:
        case b.Heading():
            return _heading(plain(block.text), block.level)
        case b.Text():
            return _wrapped(block.text, page)
        case b.Steps():
            numbered = enumerate(block.items, start=1)
            return _joined(_wrapped(item, page, f"{n}. ") for n, item in numbered)
        case b.Bullets():
            return _joined(_wrapped(item, page, "- ") for item in block.items)
        case b.Definitions():
            said = (f"{item.term}: {item.meaning}" for item in block.items)
            return _joined(_wrapped(text, page, "", "    ") for text in said)
        case b.Table():
            return table_lines(block, page.width)
        case b.Dials():
            return table_lines(block.table, page.width)
        case b.Caution():
            hazard = page.words["hazard"].get(block.hazard, block.hazard)
            head = f"! {page.words[block.level].upper()}: {hazard}"
            return [head, *_wrapped(block.text, page, "! ", "! ")]
        case b.Figures():
            return _joined(_figure(figure, page) for figure in block.figures)
        case b.WorkingTree():
            return _working(block.figure, page)
        case b.Picture():
            return _picture(block, page)
        case Chart():
            return _chart(block, page)
        case b.Checklist():
            return _joined(_tick(item, page) for item in block.items)
        case b.WriteIn():
            return _write_in(block, page)
        case b.Question():
            return _question(block, level, page)
        case b.Section():
            return [*_heading(block.title, level), "", *_many(block.blocks, level + 1, page)]
        case b.PageBreak():
            return [" ".join("*" * 3).center(page.width)]
        case b.Columns():
            return _joined(_many(column, level, page) for column in block.columns)
        case b.Card():
            return _boxed(block.title, _many(block.blocks, level, page.narrower(2)))
        case b.SignOff():
            return _sign_off(block, page)
        case b.Code():
            return [f"[{block.label}: {block.target}]"]
        case b.Labels():
            return _joined(_label(item, page) for item in block.items)
        case _:
            assert_never(block)


def _many(blocks: tuple[b.Block, ...], level: int, page: Page) -> Lines:
    """Blocks one after another, an empty line between them."""
    return [line for block in blocks for line in (*block_lines(block, level, page), "")]


def _joined(parts: Iterable[Lines]) -> Lines:
    return [line for part in parts for line in part]


def _wrapped(text: str, page: Page, first: str = "", rest: str | None = None) -> Lines:
    """Inline text over as many lines as it needs."""
    indent = " " * len(first) if rest is None else rest
    lines = textwrap.wrap(
        plain(text),
        page.width,
        initial_indent=first,
        subsequent_indent=indent,
        break_on_hyphens=False,
    )
    return lines or [first]


def _heading(text: str, level: int) -> Lines:
    rule = "=" if level == 1 else "-"
    return ["", text, rule * len(text)] if level < 3 else ["", text]


def _standing(figure: KeyFigure, page: Page) -> str:
    basis: str = page.words["basis"][figure.basis.value]
    return basis


def _figure(figure: KeyFigure, page: Page) -> Lines:
    """Label and standing to the left, the value at the right."""
    value = figure.shown_with_range()
    label = f"{capitalised(figure.label)} ({_standing(figure, page)})"
    dots = page.width - len(label) - len(value) - 2
    if dots >= 3:
        return [f"{label} {'.' * dots} {value}"]
    return [*_hung(f"{label}:", page, ""), f"    {value}"]


def _working(figure: KeyFigure, page: Page) -> Lines:
    return _joined(_working_line(line, page) for line in working_lines(figure, page.worked_out))


def _working_line(line: WorkingLine, page: Page) -> Lines:
    """One figure, and under it its formula, source and note."""
    figure, working, words = line.figure, line.figure.working, page.words
    room = "  " * line.depth
    known = _standing(figure, page) + (f"; {words['see_above']}" if line.is_repeated else "")
    head = f"{capitalised(figure.label)} = {figure.shown_with_range()} ({known})"
    lines = _hung(head, page, room)
    if line.is_repeated:
        return lines
    said = (("formula", working.formula), ("source", working.source), ("note", working.note))
    for key, text in said:
        if text:
            lines += _hung(f"{words[key]}: {text}", page, f"{room}    ")
    return lines


def _hung(text: str, page: Page, room: str) -> Lines:
    """Text without marks, its further lines set in."""
    return textwrap.wrap(
        text,
        page.width,
        initial_indent=room,
        subsequent_indent=f"{room}    ",
        break_on_hyphens=False,
    )


def _picture(block: b.Picture, page: Page) -> Lines:
    caption = _wrapped(block.caption, page) if block.caption else []
    return [*caption, *_wrapped(escaped(f"[{block.alt}]"), page)]


def _chart(chart: Chart, page: Page) -> Lines:
    table = table_of(chart, low=page.words["low"], high=page.words["high"])
    said = [chart.title, *textwrap.wrap(chart.sentence, page.width), ""]
    return [*said, *table_lines(replace(table, caption=""), page.width)]


def _tick(item: b.ChecklistItem, page: Page) -> Lines:
    space = f" ________ {item.write_in}" if item.write_in else ""
    return _wrapped(item.text + space, page, "[ ] ")


def _write_in(block: b.WriteIn, page: Page) -> Lines:
    room = {"short": 12, "long": 32, "full": max(12, page.width - len(block.label) - 2)}
    first = f"{block.label}: {'_' * room[block.width]} {block.unit}".rstrip()
    return [first, *("_" * page.width for _ in range(block.lines - 1))]


def _question(block: b.Question, level: int, page: Page) -> Lines:
    notes = [*([block.place] if block.place else []), *block.seasons]
    note = [f"({', '.join(notes)})"] if notes else []
    answer = _many(block.blocks, level + 1, page)
    return [*_heading(block.question, level), *note, "", *answer]


def _boxed(title: str, lines: Lines) -> Lines:
    return [f"+ {title}", *(f"| {line}" for line in lines[:-1])]


def _sign_off(block: b.SignOff, page: Page) -> Lines:
    words = page.words
    heads = f"{words['name']} ________________ {words['signature']} ________________"
    rows = (f"{role}: {heads} {words['date']} ________" for role in block.roles)
    return [*_wrapped(block.statement, page), *_joined(textwrap.wrap(r, page.width) for r in rows)]


def _label(item: b.Label, page: Page) -> Lines:
    code = [f"[{item.code.label}: {item.code.target}]"] if item.code else []
    return _boxed(item.title, [*_wrapped(item.text, page.narrower(2)), *code, ""])
