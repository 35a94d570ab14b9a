"""Tables in plain text."""

from __future__ import annotations

import textwrap

from hearthbook.documents import blocks as b
from hearthbook.documents.figures import KeyFigure
from hearthbook.documents.inline import capitalised, plain

__all__ = ["table_lines"]

_GAP = "  "


def table_lines(table: b.Table, width: int) -> list[str]:
    """A table whose cells break over lines where the width asks for it."""
    heads = [plain(column.title) for column in table.columns]
    rows = [_cells(row, named=table.row_headers) for row in table.rows]
    widths = _widths([heads, *rows], width)
    numeric = [column.numeric for column in table.columns]
    rule = _GAP.join("-" * one for one in widths)
    lines = textwrap.wrap(plain(table.caption), width)
    lines += [*_row(heads, widths, numeric), rule]
    for place, row in enumerate(rows):
        if table.last_is_total and place == len(rows) - 1:
            lines.append(rule)
        lines += _row(row, widths, numeric)
    return lines


def _cells(row: tuple[b.Cell, ...], *, named: bool) -> list[str]:
    """What a row says; the name that heads it begins with a capital."""
    said = [_cell(cell) for cell in row]
    return [capitalised(said[0]), *said[1:]] if named and said else said


def _cell(cell: b.Cell) -> str:
    """What a cell says."""
    if isinstance(cell, KeyFigure):
        return cell.shown()
    return cell.text if isinstance(cell, b.Tag) else plain(cell)


def _widths(rows: list[list[str]], width: int) -> list[int]:
    """How wide each column is: as its longest cell, the widest giving way until all fit."""
    widths = [max(1, *(len(cell) for cell in column)) for column in zip(*rows, strict=True)]
    room = max(width - len(_GAP) * (len(widths) - 1), 4 * len(widths))
    while sum(widths) > room:
        widths[widths.index(max(widths))] -= 1
    return widths


def _row(cells: list[str], widths: list[int], numeric: list[bool]) -> list[str]:
    """One row over as many lines as its longest cell needs."""
    broken = [textwrap.wrap(cell, size) or [""] for cell, size in zip(cells, widths, strict=True)]
    lines = []
    for at in range(max(len(one) for one in broken)):
        parts = [one[at] if at < len(one) else "" for one in broken]
        lines.append(
            _GAP.join(
                part.rjust(size) if right else part.ljust(size)
                for part, size, right in zip(parts, widths, numeric, strict=True)
            ).rstrip()
        )
    return lines
