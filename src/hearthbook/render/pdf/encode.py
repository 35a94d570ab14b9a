"""A document as the plain data that the page templates lay out.

Templates get no markup, only data, so nothing a householder writes can be taken for a command.
"""

from __future__ import annotations

from dataclasses import asdict
from typing import assert_never

from hearthbook.documents import blocks as b
from hearthbook.documents.charts import Chart
from hearthbook.documents.inline import capitalised
from hearthbook.documents.tables import table_of, turned
from hearthbook.documents.workings import working_lines
from hearthbook.render.chart_look import ORDINARY, ROOMY, SMALL
from hearthbook.render.charts import chart_svg
from hearthbook.render.codes import code_svg
from hearthbook.render.pdf.inline import Context, Data, inline
from hearthbook.render.pdf.tables import figures_table, table_data, working_data
from hearthbook.render.pictures import drawn, sign_on_tint
from hearthbook.render.strips import strips
from hearthbook.render.styles import FAMILY, PALETTE
from hearthbook.render.wording import long_date, wording

__all__ = ["encoded"]

_CARD_EDGES = 24.0  # both edges of a card, in points
_TALLEST = 600.0  # a picture on a page, in points; as the template limits it
_LARGE_LETTERS = 1.4  # what a drawing's letters of 10 points need to be large print
_GUTTER = 18.0  # between columns, in points
_SIZES = {"a4": ORDINARY, "a5": SMALL}
_SHORT = b.Text | b.Steps | b.Bullets | b.Caution | b.Definitions  # kept on one page


def encoded(document: b.Document) -> Data:
    """The whole document as plain data."""
    words = wording(document.language)
    anchors = frozenset(anchor for anchor in map(_anchor, b.blocks_in(document.blocks)) if anchor)
    context = Context(document, words, anchors, _room(document), _small(document))
    language, _, region = document.language.partition("-")
    return {
        "title": document.title,
        "subtitle": capitalised(document.subtitle),
        "kind": document.kind,
        "home": document.home,
        "issued": long_date(document.issued, words),
        "revision": document.revision,
        "footer": document.footer,
        "language": language,
        "region": region or None,
        "large": document.print_size == "large",
        "paper": document.paper,
        "words": words,
        "palette": asdict(PALETTE),
        "family": FAMILY,
        "sign": sign_on_tint(),
        "blocks": _many(document.blocks, 1, context),
    }


def _room(document: b.Document) -> float:
    """The width between the margins, in points; as the template sets them."""
    if document.paper == "a5":
        return 351.0
    return {"guide": 459.0, "report": 459.0, "labels": 538.0}.get(document.kind, 482.0)


def _small(document: b.Document) -> float:
    """The size of letters in tables; a card's may grow by 15 % to fill its page."""
    if document.print_size == "large":
        return 14.7
    size = 7.95 if document.paper == "a5" else 9.05
    return size * 1.15 if document.kind == "card" else size


def _anchor(block: b.Block) -> str:
    """Where a block can be pointed at; empty if nowhere."""
    if isinstance(block, b.Heading | b.Section | b.Question):
        return block.anchor
    return ""


def _many(blocks: tuple[b.Block, ...], level: int, context: Context) -> list[Data]:
    """Blocks under a heading of the level before `level`."""
    return [_block(block, level, context) for block in blocks]


def _block(block: b.Block, level: int, context: Context) -> Data:  # noqa: C901, PLR0911, PLR0912 - one case for each block, closed by assert_never
    """One block as plain data, named by its `is`."""
    match block:
        case b.Heading():
            return {
                "is": "heading",
                "text": inline(block.text, context),
                "level": block.level,
                "anchor": block.anchor,
            }
        case b.Text():
            return {"is": "text", "text": inline(block.text, context)}
        case b.Steps():
            return {"is": "steps", "items": [inline(item, context) for item in block.items]}
        case b.Bullets():
            return {"is": "bullets", "items": [inline(item, context) for item in block.items]}
        case b.Definitions():
            return {
                "is": "definitions",
                "dense": block.is_dense,
                "items": [
                    {"term": inline(item.term, context), "meaning": inline(item.meaning, context)}
                    for item in block.items
                ],
            }
        case b.Table():
            return table_data(block, context)
        case b.Dials():
            return table_data(block.table, context)
        case b.Caution():
            return {
                "is": "caution",
                "level": block.level,
                "hazard": context.words["hazard"].get(block.hazard, block.hazard),
                "text": inline(block.text, context),
            }
        case b.Figures():
            return table_data(figures_table(block, context), context)
        case b.WorkingTree():
            lines = working_lines(block.figure, context.worked_out)
            return {"is": "working", "lines": [working_data(line, context) for line in lines]}
        case b.Picture():
            return _picture(block, context)
        case Chart():
            return _chart(block, context)
        case b.Checklist():
            return {
                "is": "checklist",
                "items": [
                    {"text": inline(item.text, context), "write_in": item.write_in}
                    for item in block.items
                ],
            }
        case b.WriteIn():
            return {"is": "write-in", **asdict(block)}
        case b.Question():
            return {
                "is": "question",
                "question": block.question,
                "short": len(block.blocks) <= 4
                and all(isinstance(o, _SHORT) for o in block.blocks),
                "level": level,
                "anchor": block.anchor,
                "place": block.place,
                "seasons": [capitalised(season) for season in block.seasons],
                "blocks": _many(block.blocks, level + 1, context),
            }
        case b.Section():
            return {
                "is": "section",
                "asked": any(isinstance(one, b.Question) for one in b.blocks_in(block.blocks)),
                "title": block.title,
                "level": level,
                "anchor": block.anchor,
                "blocks": _many(block.blocks, level + 1, context),
            }
        case b.PageBreak():
            return {"is": "page-break"}
        case b.Columns():
            return _columns(block, level, context)
        case b.Card():
            return {
                "is": "card",
                "title": block.title,
                "level": level,
                "tone": block.tone,
                "blocks": _many(
                    block.blocks, level + 1, context.within(context.room - _CARD_EDGES)
                ),
            }
        case b.SignOff():
            return {
                "is": "sign-off",
                "statement": inline(block.statement, context),
                "roles": list(block.roles),
            }
        case b.Code():
            return {"is": "code", **_code(block)}
        case b.Labels():
            return {
                "is": "labels",
                "items": [
                    {
                        "title": item.title,
                        "text": inline(item.text, context),
                        "code": _code(item.code) if item.code else None,
                    }
                    for item in block.items
                ],
            }
        case _:
            assert_never(block)


def _are_short(blocks: tuple[b.Block, ...]) -> bool:
    """Whether an answer holds only what a page can keep together."""
    return all(isinstance(one, _SHORT) for one in blocks)


def _columns(block: b.Columns, level: int, context: Context) -> Data:
    """Columns side by side; in large print one under another."""
    if context.document.print_size == "large":
        columns = [_many(column, level, context) for column in block.columns]
        return {"is": "columns", "columns": columns, "stacked": True}
    count = len(block.columns)
    each = context.within((context.room - _GUTTER * (count - 1)) / count)
    columns = [_many(column, level, each) for column in block.columns]
    return {"is": "columns", "columns": columns, "stacked": False}


def _picture(picture: b.Picture, context: Context) -> Data:
    """A drawing in the layout whose letters suit the print, in strips where it is too tall."""
    large = context.document.print_size == "large"
    narrow = large or context.document.paper == "a5"
    made = drawn(picture.drawing, "narrow" if narrow else "wide")
    is_legible = made.height * _LARGE_LETTERS <= _TALLEST
    parts = (
        strips(made, _TALLEST * made.width / context.room) if large and not is_legible else (made,)
    )
    many = len(parts) > 1
    return {
        "is": "picture",
        "parts": [
            {
                "svg": part.svg,
                "width": part.width,
                "height": part.height,
                "alt": f"{picture.alt} ({number}/{len(parts)})" if many else picture.alt,
            }
            for number, part in enumerate(parts, start=1)
        ],
        "caption": inline(capitalised(picture.caption), context),
    }


def _chart(chart: Chart, context: Context) -> Data:
    """A chart drawn to the width of the page, with its table."""
    document = context.document
    size = ROOMY if document.print_size == "large" else _SIZES[document.paper]
    return {
        "is": "chart",
        "svg": chart_svg(chart, size),
        "title": chart.title,
        "sentence": chart.sentence,
        "table": table_data(_numbers(chart, context), context),
    }


def _numbers(chart: Chart, context: Context) -> b.Table:
    """A chart's numbers; across the page where they fit, which saves half of it."""
    low, high = context.words["low"], context.words["high"]
    table = table_of(chart, low=low, high=high)
    fits = len(table.rows) <= 13 and all(len(cell) <= 6 for row in table.rows for cell in row)  # type: ignore[arg-type] # a chart's cells are strings
    wide = context.document.paper == "a4" and context.document.print_size == "normal"
    return turned(table) if fits and wide else table


def _code(code: b.Code) -> Data:
    """A square code and where it leads."""
    return {"svg": code_svg(code.target), "label": code.label, "target": code.target}
