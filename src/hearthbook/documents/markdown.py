"""Blocks from a text file, so that wording is written as plain text by whoever knows the language.

    ## A heading {#its-anchor}          a heading; the anchor may be left out
    A paragraph of words,
    over several lines.
    - one                               bullets
    1. first                            steps
    - [ ] done                          a checklist; `- [ ] Pressure :: bar` has a write-in space
    Isolator :: a switch on the wall    a word and its meaning
    > warning scalding: Water may …     a caution or warning, with its hazard
    Table: Caption                      a table, with its caption on the line above
    | Room | Heat (W) |
    |------|---------:|
    | Hall | 520 |
    ---                                 a new page

Blocks are set apart by empty lines; inside a block, an indented line goes on with the one before.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from hearthbook.documents.blocks import (
    Block,
    Bullets,
    Caution,
    Checklist,
    ChecklistItem,
    Column,
    Definition,
    Definitions,
    Heading,
    PageBreak,
    Steps,
    Table,
    Text,
)

__all__ = ["blocks_from"]

_HEADING = re.compile(r"(#{1,4}) +(.+?)(?: +\{#([\w.-]+)\})?")
_CAUTION = re.compile(r"> *(caution|warning) +([\w-]+): *(.+)", re.DOTALL)
_TICK = re.compile(r"- \[ \] +(.+?)(?: +:: +(.+))?")
_STEP = re.compile(r"\d+\. +(.+)")
_CELL_EDGE = re.compile(r"(?<!\\)\|")


def blocks_from(text: str) -> tuple[Block, ...]:
    r"""The blocks a text file describes.

    Args:
        text: in the notation at the head of this module; placeholders already filled in.

    Raises:
        ValueError: a table or a caution is not written as the notation asks.

    Example:
        >>> blocks_from("Do this:\n\n1. Open the valve.\n2. Wait.")
        (Text(text='Do this:'), Steps(items=('Open the valve.', 'Wait.')))
    """
    groups = re.split(r"\n[ \t]*\n", text.strip())
    return tuple(block for group in groups if group.strip() for block in _blocks(_lines(group)))


def _lines(group: str) -> list[str]:
    """The lines of a group, each indented one joined to the one before it."""
    lines: list[str] = []
    for line in group.strip("\n").splitlines():
        if lines and line.startswith((" ", "\t")):
            lines[-1] += " " + line.strip()
        else:
            lines.append(line.strip())
    return lines


def _blocks(lines: list[str]) -> list[Block]:
    """The blocks of one group: runs of lines of the same kind."""
    blocks: list[Block] = []
    while lines:
        kind = _kind(lines[0])
        count = 1
        while count < len(lines) and _goes_on(kind, lines[count]):
            count += 1
        blocks.append(_MAKERS[kind](lines[:count]))
        lines = lines[count:]
    return blocks


def _kind(line: str) -> str:
    """Which kind of block a line begins."""
    starts = (
        ("#", "heading"),
        ("- [ ]", "ticks"),
        ("- ", "bullets"),
        (">", "caution"),
        ("Table:", "table"),
        ("|", "table"),
    )
    if line == "---":
        return "break"
    if _STEP.fullmatch(line):
        return "steps"
    if " :: " in line and not line.startswith("-"):
        return "definitions"
    return next((kind for start, kind in starts if line.startswith(start)), "text")


def _goes_on(kind: str, line: str) -> bool:
    """Whether a line belongs to a block of this kind that has begun."""
    if kind in {"heading", "break"}:
        return False
    return _kind(line) == kind or (kind == "caution" and _kind(line) == "text")


def _heading(lines: list[str]) -> Block:
    found = _HEADING.fullmatch(lines[0])
    if found is None:
        raise ValueError(f"not a heading: {lines[0]!r}; write `## Words {{#anchor}}`")
    return Heading(found[2], len(found[1]), found[3] or "")


def _caution(lines: list[str]) -> Block:
    found = _CAUTION.fullmatch("> " + " ".join(line.lstrip("> ") for line in lines))
    if found is None:
        raise ValueError(f"not a caution: {lines[0]!r}; write `> warning scalding: Words.`")
    return Caution("warning" if found[1] == "warning" else "caution", found[3], found[2])


def _checklist(lines: list[str]) -> Block:
    found = [_TICK.fullmatch(line) for line in lines]
    return Checklist(tuple(ChecklistItem(tick[1], tick[2] or "") for tick in found if tick))


def _definitions(lines: list[str]) -> Block:
    pairs = (line.split(" :: ", 1) for line in lines)
    return Definitions(tuple(Definition(term.strip(), said.strip()) for term, said in pairs))


def _table(lines: list[str]) -> Block:
    caption = ""
    if lines[0].startswith("Table:"):
        caption, lines = lines[0].removeprefix("Table:").strip(), lines[1:]
    rows = [_cells(line) for line in lines]
    if len(rows) < 2 or not all(re.fullmatch(r":?-+:?", cell) for cell in rows[1]):
        raise ValueError(f"the table {caption!r} has no line of dashes under its heads")
    columns = tuple(
        Column(title, numeric=rule.endswith(":"))
        for title, rule in zip(rows[0], rows[1], strict=True)
    )
    return Table(caption, columns, tuple(rows[2:]))


def _cells(line: str) -> tuple[str, ...]:
    return tuple(cell.strip() for cell in _CELL_EDGE.split(line.strip())[1:-1])


_MAKERS: dict[str, Callable[[list[str]], Block]] = {
    "heading": _heading,
    "break": lambda _: PageBreak(),
    "steps": lambda lines: Steps(tuple(line.split(". ", 1)[1].strip() for line in lines)),
    "bullets": lambda lines: Bullets(tuple(line[2:].strip() for line in lines)),
    "ticks": _checklist,
    "definitions": _definitions,
    "caution": _caution,
    "table": _table,
    "text": lambda lines: Text(" ".join(lines)),
}
