"""A working as nested lists."""

from __future__ import annotations

from hearthbook.documents.figures import KeyFigure
from hearthbook.documents.formulas import pieces
from hearthbook.documents.inline import capitalised
from hearthbook.documents.workings import WorkingLine, working_lines
from hearthbook.render.html.context import Context
from hearthbook.render.html.tags import Html, joined, tag

__all__ = ["working_markup"]


def working_markup(figure: KeyFigure, context: Context) -> Html:
    """A figure to fold out into its formula, inputs and sources."""
    lines = list(working_lines(figure, context.worked_out))
    first, rest = lines[0], lines[1:]
    inner = joined(_said(first, context), _nested(rest, 1, context))
    return tag("details", tag("summary", _head(first, context)), inner, class_="working")


def _nested(lines: list[WorkingLine], depth: int, context: Context) -> Html:
    """The lines from one depth on as a list, those below each as a list within it."""
    starts = [index for index, line in enumerate(lines) if line.depth == depth]
    if not starts:
        return Html("")
    items = []
    for start, end in zip(starts, [*starts[1:], len(lines)], strict=True):
        line = lines[start]
        below = _nested(lines[start + 1 : end], depth + 1, context)
        items.append(tag("li", _head(line, context), _said(line, context), below))
    return tag("ul", *items)


def _head(line: WorkingLine, context: Context) -> Html:
    """What the figure is, its value and its standing."""
    figure, words = line.figure, context.words
    standing = words["basis"][figure.basis.value]
    note = f"({standing}; {words['see_above']})" if line.is_repeated else f"({standing})"
    value = tag("strong", figure.shown_with_range())
    return joined(
        f"{capitalised(figure.label)} = ", value, " ", tag("span", note, class_="standing")
    )


def _said(line: WorkingLine, context: Context) -> Html:
    """Its formula, source and note."""
    if line.is_repeated:
        return Html("")
    working = line.figure.working
    said = (("formula", working.formula), ("source", working.source), ("note", working.note))
    parts = (
        tag("span", f"{context.words[key]}: ", _formula(text) if key == "formula" else text)
        for key, text in said
        if text
    )
    return tag("span", *parts, class_="said")


def _formula(text: str) -> Html:
    """A formula with what stands below the line."""
    parts = (tag("sub", piece.text) if piece.sub else piece.text for piece in pieces(text))
    return tag("em", *parts)
