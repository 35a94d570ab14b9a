"""How wide the columns of a table are, so that no word leaves its cell."""

from __future__ import annotations

import re

from hearthbook.documents import blocks as b
from hearthbook.documents.figures import KeyFigure
from hearthbook.documents.inline import plain
from hearthbook.render.drawings.text_width import text_width

__all__ = ["column_widths"]

_GAP = 1.0  # between two columns, of the size of the letters
_WIDEST = 26.0  # a column of words asks for no more than this, of the size of the letters
_WIDEST_HEAD = 8.0  # of the size of the letters
_BREAKS = re.compile(r"[ \n\u200b]+|(?<=-)")


def column_widths(table: b.Table, room: float, size: float) -> list[float] | None:
    """The width of each column, in points; None where the table cannot fit at all.

    Args:
        table: what is to be set.
        room: the width it may fill.
        size: of its letters.

    Assumes:
        Numbers are never broken, words only between each other. Columns of words share what the
        numbers leave, by what each would like; where that is too little, all give way alike, but
        none below its longest word.
    """
    space = room - _GAP * size * (len(table.columns) - 1)
    least = [_least(table, place, size) for place in range(len(table.columns))]
    if sum(least) > space:
        return None
    wished = _by_share(table, space) or [
        max(least[place], _wished(table, place, size)) for place in range(len(least))
    ]
    if sum(wished) <= space:
        wished = _filled(table, wished, space)
    if any(wish < low for wish, low in zip(wished, least, strict=True)) or sum(wished) > space:
        wished = _given_way(wished, least, space)
    return _with_gaps(wished, size)


def _texts(table: b.Table, place: int) -> list[str]:
    """What stands in a column, its head first."""
    return [plain(table.columns[place].title), *(_said(row[place]) for row in table.rows)]


def _said(cell: b.Cell) -> str:
    """What a cell says."""
    if isinstance(cell, KeyFigure):
        return cell.shown()
    return f"{cell.text}mm" if isinstance(cell, b.Tag) else plain(cell)


def _least(table: b.Table, place: int, size: float) -> float:
    """The width below which a word would leave the column."""
    words = [word for text in _texts(table, place) for word in _BREAKS.split(text)]
    return max(text_width(word, size, bold=True) for word in words)


def _wished(table: b.Table, place: int, size: float) -> float:
    """The width at which no line need break, within reason; the head of numbers breaks sooner."""
    head, *cells = (text_width(text, size, bold=True) for text in _texts(table, place))
    if table.columns[place].numeric:
        return max([min(head, _WIDEST_HEAD * size), *cells])
    return min(max([head, *cells]), _WIDEST * size)


def _by_share(table: b.Table, space: float) -> list[float]:
    """The widths the writer asked for; empty if none were."""
    shares = [column.share for column in table.columns]
    return [space * share / sum(shares) for share in shares] if all(shares) else []


def _filled(table: b.Table, widths: list[float], space: float) -> list[float]:
    """The widths that fill the room: words take what is left, or all where there are none."""
    growing = [not column.numeric for column in table.columns]
    growing = growing if any(growing) else [True] * len(widths)
    total = sum(width for width, grows in zip(widths, growing, strict=True) if grows)
    left = space - sum(widths)
    return [
        width * (1 + left / total) if grows and total else width
        for width, grows in zip(widths, growing, strict=True)
    ]


def _given_way(wished: list[float], least: list[float], space: float) -> list[float]:
    """Each between its least and its wish, all giving way in the same proportion."""
    spare = [max(wish - low, 0.0) for wish, low in zip(wished, least, strict=True)]
    part = (space - sum(least)) / sum(spare) if sum(spare) else 0.0
    return [low + part * more for low, more in zip(least, spare, strict=True)]


def _with_gaps(widths: list[float], size: float) -> list[float]:
    """The widths with the gaps beside them: half on each side, none at the table's edges."""
    last = len(widths) - 1
    half = _GAP * size / 2
    return [
        width + (half if place else 0.0) + (half if place < last else 0.0)
        for place, width in enumerate(widths)
    ]
