"""A document as the plain data that the page templates lay out.

Templates get no markup, only data, so nothing a householder writes can be taken for a command.
"""

from __future__ import annotations

from dataclasses import asdict, dataclass, field
from typing import Any, assert_never

from hearthbook.documents import blocks as b
from hearthbook.documents.charts import Chart
from hearthbook.documents.figures import KeyFigure
from hearthbook.documents.formulas import pieces
from hearthbook.documents.inline import Emphasis, Link, Part, Strong, Words, parsed
from hearthbook.documents.tables import table_of, turned
from hearthbook.documents.workings import WorkingLine, working_lines
from hearthbook.render.charts import ChartSize, chart_svg
from hearthbook.render.codes import code_svg
from hearthbook.render.pictures import drawn, sign_on_tint
from hearthbook.render.styles import FAMILY, PALETTE
from hearthbook.render.wording import Wording, long_date, wording

__all__ = ["Data", "encoded"]

Data = dict[str, Any]

_SHORT = b.Text | b.Steps | b.Bullets | b.Caution | b.Definitions  # kept on one page
_LETTERS = {"normal": 9.0, "large": 14.5}  # in charts, in points
_TEXT_WIDTH = {"a4": 459, "a5": 352}  # between the margins, in points
_TICK = {"a4": 170, "a5": 120}  # height of a chart's plot, in points


@dataclass
class _Context:
    """What the encoding of a block depends on."""

    document: b.Document
    words: Wording
    anchors: frozenset[str]
    worked_out: set[str] = field(default_factory=set)


def encoded(document: b.Document) -> Data:
    """The whole document as plain data."""
    words = wording(document.language)
    anchors = frozenset(anchor for anchor in map(_anchor, b.blocks_in(document.blocks)) if anchor)
    context = _Context(document, words, anchors)
    language, _, region = document.language.partition("-")
    return {
        "title": document.title,
        "subtitle": document.subtitle,
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


def _anchor(block: b.Block) -> str:
    """Where a block can be pointed at; empty if nowhere."""
    if isinstance(block, b.Heading | b.Section | b.Question):
        return block.anchor
    return ""


def _many(blocks: tuple[b.Block, ...], level: int, context: _Context) -> list[Data]:
    """Blocks under a heading of the level before `level`."""
    return [_block(block, level, context) for block in blocks]


def _block(block: b.Block, level: int, context: _Context) -> Data:  # noqa: C901, PLR0911, PLR0912 - one case for each block, closed by assert_never
    """One block as plain data, named by its `is`."""
    match block:
        case b.Heading():
            return {
                "is": "heading",
                "text": _inline(block.text, context),
                "level": block.level,
                "anchor": block.anchor,
            }
        case b.Text():
            return {"is": "text", "text": _inline(block.text, context)}
        case b.Steps():
            return {"is": "steps", "items": [_inline(item, context) for item in block.items]}
        case b.Bullets():
            return {"is": "bullets", "items": [_inline(item, context) for item in block.items]}
        case b.Definitions():
            return {
                "is": "definitions",
                "items": [
                    {"term": _inline(item.term, context), "meaning": _inline(item.meaning, context)}
                    for item in block.items
                ],
            }
        case b.Table():
            return _table(block, context)
        case b.Caution():
            return {
                "is": "caution",
                "level": block.level,
                "hazard": context.words["hazard"].get(block.hazard, block.hazard),
                "text": _inline(block.text, context),
            }
        case b.Figures():
            return {"is": "figures", "items": [_figure(item, context) for item in block.figures]}
        case b.WorkingTree():
            lines = working_lines(block.figure, context.worked_out)
            return {"is": "working", "lines": [_working(line, context) for line in lines]}
        case b.Picture():
            return _picture(block, context)
        case Chart():
            return _chart(block, context)
        case b.Checklist():
            return {
                "is": "checklist",
                "items": [
                    {"text": _inline(item.text, context), "write_in": item.write_in}
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
                "seasons": list(block.seasons),
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
            columns = [_many(column, level, context) for column in block.columns]
            return {"is": "columns", "columns": columns}
        case b.Card():
            return {
                "is": "card",
                "title": block.title,
                "tone": block.tone,
                "blocks": _many(block.blocks, level, context),
            }
        case b.SignOff():
            return {
                "is": "sign-off",
                "statement": _inline(block.statement, context),
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
                        "text": _inline(item.text, context),
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


def _inline(text: str, context: _Context) -> list[Data]:
    """The parts of a paragraph; a link that leads nowhere in this document is plain words."""
    return _parts(parsed(text), context)


def _parts(parts: tuple[Part, ...], context: _Context) -> list[Data]:
    """Each part as plain data."""
    return [_part(part, context) for part in parts]


def _part(part: Part, context: _Context) -> Data:
    """One part as plain data."""
    if isinstance(part, Words):
        return {"is": "words", "text": part.text}
    inner = _parts(part.parts, context)
    if isinstance(part, Strong):
        return {"is": "strong", "parts": inner}
    if isinstance(part, Emphasis):
        return {"is": "emphasis", "parts": inner}
    return _link(part, inner, context)


def _link(link: Link, inner: list[Data], context: _Context) -> Data:
    """A link, or its plain words when it leads to another document's place."""
    if link.target.startswith("#") and link.target[1:] not in context.anchors:
        return {"is": "group", "parts": inner}
    return {"is": "link", "parts": inner, "target": link.target}


def _picture(picture: b.Picture, context: _Context) -> Data:
    """A drawing in the layout whose letters suit the print."""
    large = context.document.print_size == "large" or context.document.paper == "a5"
    made = drawn(picture.drawing, "narrow" if large else "wide")
    return {
        "is": "picture",
        "svg": made.svg,
        "width": made.width,
        "height": made.height,
        "alt": picture.alt,
        "caption": _inline(picture.caption, context),
    }


def _table(table: b.Table, context: _Context) -> Data:
    """A table as plain data."""
    return {
        "is": "table",
        "caption": _inline(table.caption, context),
        "columns": [
            {"title": _inline(one.title, context), "numeric": one.numeric, "share": share}
            for one, share in zip(table.columns, _shares(table), strict=True)
        ],
        "rows": [[_cell(cell, context) for cell in row] for row in table.rows],
        "row_headers": table.row_headers,
        "last_is_total": table.last_is_total,
    }


def _shares(table: b.Table) -> list[float]:
    """The width of each column relative to the others; 0 for as wide as its content.

    Words share what the numbers leave, by the length of the longest; so a table fills the page.
    """
    if any(one.share for one in table.columns):
        return [one.share for one in table.columns]
    shares = []
    for place, column in enumerate(table.columns):
        longest = max([len(column.title), *(_length(row[place]) for row in table.rows)])
        shares.append(0.0 if column.numeric else float(min(max(longest, 8), 60)))
    return shares


def _length(cell: b.Cell) -> int:
    """How many characters a cell holds."""
    if isinstance(cell, KeyFigure):
        return len(cell.shown())
    return len(cell.text) if isinstance(cell, b.Tag) else len(cell)


def _cell(cell: b.Cell, context: _Context) -> Data:
    """One cell as plain data."""
    if isinstance(cell, KeyFigure):
        return {"is": "words", "parts": [{"is": "words", "text": cell.shown()}]}
    if isinstance(cell, b.Tag):
        return {"is": "tag", "text": cell.text, "tone": cell.tone}
    return {"is": "words", "parts": _inline(cell, context)}


def _figure(figure: KeyFigure, context: _Context) -> Data:
    """A figure with its standing and range."""
    return {
        "label": figure.label,
        "value": figure.shown_with_range(),
        "standing": context.words["basis"][figure.basis.value],
    }


def _working(line: WorkingLine, context: _Context) -> Data:
    """One line of a working."""
    working = line.figure.working
    return {
        **_figure(line.figure, context),
        "depth": line.depth,
        "repeated": line.is_repeated,
        "formula": [] if line.is_repeated else [asdict(one) for one in pieces(working.formula)],
        "source": "" if line.is_repeated else working.source,
        "note": "" if line.is_repeated else working.note,
    }


def _chart(chart: Chart, context: _Context) -> Data:
    """A chart drawn to the width of the page, with its table."""
    document = context.document
    large = document.print_size == "large"
    width = _TEXT_WIDTH[document.paper]
    size = ChartSize(
        width=width - 24 if large else width,
        height=_TICK[document.paper] + (60 if large else 0),
        letters=_LETTERS[document.print_size],
    )
    return {
        "is": "chart",
        "svg": chart_svg(chart, size),
        "title": chart.title,
        "sentence": chart.sentence,
        "table": _table(_numbers(chart, context), context),
    }


def _numbers(chart: Chart, context: _Context) -> b.Table:
    """A chart's numbers; across the page where they fit, which saves half of it."""
    low, high = context.words["low"], context.words["high"]
    table = table_of(chart, low=low, high=high)
    fits = len(table.rows) <= 13 and all(len(cell) <= 6 for row in table.rows for cell in row)  # type: ignore[arg-type] # a chart's cells are strings
    wide = context.document.paper == "a4" and context.document.print_size == "normal"
    return turned(table) if fits and wide else table


def _code(code: b.Code) -> Data:
    """A square code and where it leads."""
    return {"svg": code_svg(code.target), "label": code.label, "target": code.target}
