"""Tables, figures and workings as plain data."""

from __future__ import annotations

from dataclasses import asdict

from hearthbook.documents import blocks as b
from hearthbook.documents.figures import KeyFigure
from hearthbook.documents.formulas import pieces
from hearthbook.documents.inline import capitalised
from hearthbook.documents.workings import WorkingLine
from hearthbook.render.pdf.inline import Context, Data, inline

__all__ = ["figure_data", "table_data", "working_data"]


def table_data(table: b.Table, context: Context) -> Data:
    """A table as plain data."""
    return {
        "is": "table",
        "caption": inline(table.caption, context),
        "columns": [
            {"title": inline(one.title, context), "numeric": one.numeric, "share": share}
            for one, share in zip(table.columns, _shares(table), strict=True)
        ],
        "rows": [_row(table, row, context) for row in table.rows],
        "row_headers": table.row_headers,
        "last_is_total": table.last_is_total,
    }


def _row(table: b.Table, row: tuple[b.Cell, ...], context: Context) -> list[Data]:
    """One row; the name that heads it begins with a capital."""
    first, rest = row[:1], row[1:]
    if table.row_headers and row and isinstance(row[0], str):
        first = (capitalised(row[0]),)
    return [_cell(cell, context) for cell in (*first, *rest)]


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


def _cell(cell: b.Cell, context: Context) -> Data:
    """One cell as plain data."""
    if isinstance(cell, KeyFigure):
        return {"is": "words", "parts": [{"is": "words", "text": cell.shown()}]}
    if isinstance(cell, b.Tag):
        return {"is": "tag", "text": cell.text, "tone": cell.tone}
    return {"is": "words", "parts": inline(cell, context)}


def figure_data(figure: KeyFigure, context: Context) -> Data:
    """A figure with its standing and range."""
    return {
        "label": capitalised(figure.label),
        "value": figure.shown_with_range(),
        "standing": context.words["basis"][figure.basis.value],
    }


def working_data(line: WorkingLine, context: Context) -> Data:
    """One line of a working."""
    working = line.figure.working
    return {
        **figure_data(line.figure, context),
        "depth": line.depth,
        "repeated": line.is_repeated,
        "formula": [] if line.is_repeated else [asdict(one) for one in pieces(working.formula)],
        "source": "" if line.is_repeated else working.source,
        "note": "" if line.is_repeated else working.note,
    }
