"""Tables, figures and workings as plain data."""

from __future__ import annotations

from dataclasses import asdict, replace
from math import ceil

from hearthbook.documents import blocks as b
from hearthbook.documents.figures import KeyFigure
from hearthbook.documents.formulas import pieces
from hearthbook.documents.inline import capitalised, escaped
from hearthbook.documents.workings import WorkingLine
from hearthbook.render.pdf.inline import Context, Data, breakable, inline
from hearthbook.render.pdf.widths import column_widths

_SHORT = 430.0  # a table no taller than this, in points, is kept on one page
_LETTER, _LINE, _ROW = 0.5, 1.2, 0.95  # width of a letter, height of a line and of a row's gap
_NO_BREAK = "\N{NO-BREAK SPACE}"

__all__ = ["figures_table", "table_data", "working_data"]


def table_data(table: b.Table, context: Context) -> Data:
    """A table as plain data; one that is too wide for the page has no widths, and is stacked."""
    titles = [breakable(one.title) for one in table.columns]
    widths = column_widths(_broken(table), context.room, context.small)
    return {
        "is": "table",
        "caption": inline(table.caption, context),
        "columns": [
            {"title": inline(title, context), "numeric": one.numeric}
            for title, one in zip(titles, table.columns, strict=True)
        ],
        "widths": widths,
        "whole": widths is not None and _height(table, widths, context.small) < _SHORT,
        "to_fill": table.to_fill,
        "rows": [_row(table, row, context) for row in table.rows],
        "row_headers": table.row_headers,
        "last_is_total": table.last_is_total,
    }


def _height(table: b.Table, widths: list[float], size: float) -> float:
    """About how tall the table becomes, in points."""
    lines = sum(
        max(
            ceil(len(cell if isinstance(cell, str) else _words_of(cell)) * size * _LETTER / width)
            for cell, width in zip(row, widths, strict=True)
        )
        for row in table.rows
    )
    return size * (_LINE * lines + _ROW * len(table.rows))


def _words_of(cell: KeyFigure | b.Tag) -> str:
    """The words of a cell that is not plain text."""
    return cell.shown() if isinstance(cell, KeyFigure) else cell.text


def _broken(table: b.Table) -> b.Table:
    """The same table with places for its long words to break."""
    rows = tuple(
        tuple(breakable(cell) if isinstance(cell, str) else cell for cell in row)
        for row in table.rows
    )
    return replace(table, rows=rows)


def _row(table: b.Table, row: tuple[b.Cell, ...], context: Context) -> list[Data]:
    """One row; the name that heads it begins with a capital."""
    first, rest = row[:1], row[1:]
    if table.row_headers and row and isinstance(row[0], str):
        first = (capitalised(row[0]),)
    return [_cell(cell, context) for cell in (*first, *rest)]


def _cell(cell: b.Cell, context: Context) -> Data:
    """One cell as plain data."""
    if isinstance(cell, KeyFigure):
        return {"is": "words", "parts": [{"is": "words", "text": cell.shown()}]}
    if isinstance(cell, b.Tag):
        return {"is": "tag", "text": cell.text, "tone": cell.tone}
    return {"is": "words", "parts": inline(cell, context)}


def figures_table(block: b.Figures, context: Context) -> b.Table:
    """Figures with their standing and range, as a table."""
    words = context.words
    rows = tuple(
        (
            escaped(capitalised(figure.label)),
            f"**{escaped(figure.shown_with_range()).replace(' ', _NO_BREAK)}**",
            words["basis"][figure.basis.value],
        )
        for figure in block.figures
    )
    heads = (
        b.Column(words["figure"], share=6.0),
        b.Column(words["value"], numeric=True, share=2.1),
        b.Column(words["standing"], share=1.9),
    )
    return b.Table("", heads, rows, row_headers=False)


def working_data(line: WorkingLine, context: Context) -> Data:
    """One line of a working."""
    working = line.figure.working
    return {
        "label": capitalised(line.figure.label),
        "value": line.figure.shown_with_range(),
        "standing": context.words["basis"][line.figure.basis.value],
        "depth": line.depth,
        "repeated": line.is_repeated,
        "formula": [] if line.is_repeated else [asdict(one) for one in pieces(working.formula)],
        "source": "" if line.is_repeated else breakable(working.source),
        "note": "" if line.is_repeated else working.note,
    }
