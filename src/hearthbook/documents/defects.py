"""What a stranger would notice in a document: leftovers, gaps and links that lead nowhere."""

from __future__ import annotations

import math
import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, fields, is_dataclass
from typing import get_args

from hearthbook import units
from hearthbook.documents import blocks as b
from hearthbook.documents.charts import Chart
from hearthbook.documents.drawings import EmitterKind, FillingKind, ValveKind
from hearthbook.documents.figures import KeyFigure, book_of
from hearthbook.documents.inline import links, plain

__all__ = ["defects"]

# Fields that steer the layout or the program and are never read by anybody.
_SILENT = frozenset(
    {
        "anchor",
        "hazard",
        "kind",
        "language",
        "level",
        "paper",
        "picture",
        "print_size",
        "symbol",
        "synonyms",
        "target",
        "tone",
        "unit",
        "width",
    }
)
# Fields of a document that are printed as they are: a mark in them is a character, never a link.
_HEAD = ("title", "subtitle", "home", "revision", "footer")
# Kinds by which a drawing chooses its symbols; they steer the pen and are never printed.
_KINDS = frozenset(get_args(EmitterKind) + get_args(FillingKind) + get_args(ValveKind))
_UNIT = "|".join(re.escape(symbol) for symbol in units.TRADE_UNITS if symbol)
_LEFTOVERS = {
    "a value that is None": re.compile(r"\bNone\b(?! (?:of|is|are|was|were|needs?|here|yet)\b)"),
    "a number that is not one": re.compile(
        rf"\bNaN\b|(?:^|[\s(±−-])(?:nan|inf)(?=[ \N{{NO-BREAK SPACE}}](?:{_UNIT})|%|$)"
    ),
    "an unfilled placeholder": re.compile(
        r"\{\{|\}\}|\{%|%\}|\{[A-Za-z_][\w.]*\}|\$\{|%\([a-z]\w*\)"
    ),
    "a note to the writer": re.compile(r"\b(?:TODO|FIXME|TBC|TBD|XXX)\b|\?\?\?|[Ll]orem ipsum"),
    "a dash where a number should be": re.compile(
        rf"(?:^|[\s(])[-–—][ \N{{NO-BREAK SPACE}}]?(?:{_UNIT})(?:$|[\s).,;])"
    ),
    "the insides of the program": re.compile(r"<[\w.]+ object at|\bBasis\.|datetime\.|Decimal\("),
    "an empty pair of brackets": re.compile(r"\(\s*\)|\[\s*\]"),
    "a space before a stop": re.compile(r"\w [,.;:](?:\s|$)"),
    "a word said twice": re.compile(r"\b(the|a|an|is|of|to|and|in) \1\b", re.IGNORECASE),
}
_RECORD_NAME = re.compile(r"\b[a-z]+_[a-z_]+\b")
_LONE_DASH = re.compile(r"[-–—−?]+")


@dataclass(frozen=True)
class _Said:
    """A piece of text and where it stands."""

    where: str
    text: str


def defects(document: b.Document) -> tuple[str, ...]:
    """Every defect of a document, in reading order; empty when it can be given away.

    Args:
        document: as it would be rendered.

    Returns:
        One sentence for each, saying where and what.
    """
    texts = tuple(_texts(document))
    found: list[str] = []
    for said in texts:
        found += _of_text(said, is_for_householder=document.kind != "report")
    for block in b.blocks_in(document.blocks):
        found += _of_block(block)
    found += _of_figures(document)
    found += _of_anchors(document, texts)
    found += _of_levels(document.blocks, 1)
    return tuple(dict.fromkeys(found))


def _texts(document: b.Document) -> Iterator[_Said]:
    """Every text a reader meets, with its place."""
    for name in _HEAD:
        yield _Said(name, getattr(document, name))
    for block in b.blocks_in(document.blocks):
        where = f"{type(block).__name__} {_named(block)!r}" if _named(block) else _kind(block)
        for text in _strings(block):
            yield _Said(where, text)


def _kind(block: b.Block) -> str:
    return type(block).__name__


def _named(block: b.Block) -> str:
    """The name by which a writer finds a block again."""
    for name in ("title", "question", "caption", "label", "text"):
        value = getattr(block, name, "")
        if isinstance(value, str) and value:
            return plain(value)[:40]
    return ""


def _strings(thing: object) -> Iterator[str]:
    """The texts a block itself holds, not those of blocks within it."""
    if isinstance(thing, KeyFigure):
        yield thing.label
        yield thing.shown_with_range()
    elif isinstance(thing, str):
        if thing not in _KINDS:
            yield thing
    else:
        for part in _parts(thing):
            if not isinstance(part, b.Block):
                yield from _strings(part)


def _parts(thing: object) -> tuple[object, ...]:
    """What a tuple or a dataclass holds for a reader."""
    if isinstance(thing, tuple):
        return thing
    if not is_dataclass(thing):
        return ()
    names = (field.name for field in fields(thing))
    return tuple(getattr(thing, name) for name in names if name not in _SILENT)


def _of_text(said: _Said, *, is_for_householder: bool) -> list[str]:
    """The leftovers in one text."""
    text = plain(said.text)
    found = [
        f"{said.where}: {what}: {_around(text, match)}"
        for what, pattern in _LEFTOVERS.items()
        if (match := pattern.search(text))
    ]
    if is_for_householder and (match := _RECORD_NAME.search(text)):
        found.append(f"{said.where}: a name from the record: {_around(text, match)}")
    return found


def _around(text: str, match: re.Match[str]) -> str:
    """What stands around a match, to find it by."""
    start, end = max(0, match.start() - 20), match.end() + 20
    return f"“{text[start:end].strip()}”"


def _of_block(block: b.Block) -> list[str]:
    """What a block lacks."""
    place = f"{_kind(block)} {_named(block)!r}"
    if isinstance(block, b.Table):
        return _of_table(block, place)
    if isinstance(block, Chart):
        return _of_chart(block, place)
    return [f"{place}: {lack}" for lack in _lacks(block)]


def _lacks(block: b.Block) -> Iterator[str]:
    """What is empty and must not be."""
    for name in ("items", "blocks", "figures", "columns", "roles"):
        if getattr(block, name, True) == ():
            yield "has nothing in it"
    if isinstance(block, b.Text | b.Heading | b.Caution) and not block.text.strip():
        yield "is empty"
    if isinstance(block, b.Steps | b.Bullets) and not all(item.strip() for item in block.items):
        yield "has an empty line"
    if isinstance(block, b.Picture) and not block.alt.strip():
        yield "has no words for who cannot see it"


def _of_table(table: b.Table, place: str) -> list[str]:
    """A table without rows, or with a dash for a number."""
    found = [] if table.rows else [f"{place}: has no rows"]
    for row in table.rows:
        for column, cell in zip(table.columns, row, strict=True):
            if column.numeric and isinstance(cell, str) and _LONE_DASH.fullmatch(cell.strip()):
                name = plain(column.title)
                found.append(f"{place}: a dash where a number should be, under “{name}”")
    return found


def _of_chart(chart: Chart, place: str) -> list[str]:
    """A chart with a value that is not a number, or without its sentence."""
    found = [] if chart.sentence.strip() else [f"{place}: has no sentence that says what it shows"]
    for series in chart.series:
        values = (*series.values, *series.low, *series.high)
        if not all(value is None or math.isfinite(value) for value in values):
            found.append(f"{place}: {series.name} has a value that is not a number")
    return found


def _of_figures(document: b.Document) -> list[str]:
    """Figures, or what they rest on, that are not numbers."""
    book = book_of(document.blocks)
    return [
        f"figure {name}: is not a number"
        for name, figure in book.items()
        if not math.isfinite(figure.value)
    ]


def _of_anchors(document: b.Document, texts: tuple[_Said, ...]) -> list[str]:
    """Places named twice, and links to places that are not there."""
    anchors = Counter(
        block.anchor
        for block in b.blocks_in(document.blocks)
        if isinstance(block, b.Heading | b.Section | b.Question) and block.anchor
    )
    found = [f"the place #{anchor} is there {n} times" for anchor, n in anchors.items() if n > 1]
    for said in texts:
        if said.where in _HEAD or said.where.startswith(("Picture", "Chart")):
            continue
        found += [
            f"{said.where}: a link to {target}, which is not in this document"
            for target in links(said.text)
            if target.startswith("#") and target[1:] not in anchors
        ]
    return found


def _of_levels(blocks: tuple[b.Block, ...], level: int) -> list[str]:
    """Headings deeper than one step below what they stand under."""
    found: list[str] = []
    under = level - 1
    for block in blocks:
        if isinstance(block, b.Heading):
            if block.level > under + 1:
                found.append(f"Heading {_named(block)!r}: its level skips one")
            under = block.level
        elif isinstance(block, b.Section | b.Question):
            found += _of_levels(block.blocks, level + 1)
            under = level
        elif isinstance(block, b.Card):
            found += _of_levels(block.blocks, level)
    return found
