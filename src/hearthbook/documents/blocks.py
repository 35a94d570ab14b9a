"""The content model: what a document holds, said once and apart from any medium.

Chapters decide facts and wording and make a `Document`; renderers decide layout. `Block` is a
closed union: a renderer is one match over it that ends in `assert_never`.

Text fields marked *inline* may hold `**strong**`, `*emphasis*` and `[words](#anchor)`; see
`hearthbook.documents.inline`. Text from a record is passed through `inline.escaped` first.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Literal

from hearthbook.documents.charts import Chart
from hearthbook.documents.drawings import Drawing
from hearthbook.documents.figures import KeyFigure

__all__ = [
    "Block",
    "Bullets",
    "Card",
    "CardTone",
    "Caution",
    "Cell",
    "Checklist",
    "ChecklistItem",
    "Code",
    "Column",
    "Columns",
    "Definition",
    "Definitions",
    "Dial",
    "Dials",
    "Document",
    "Figures",
    "Heading",
    "Kind",
    "Label",
    "Labels",
    "PageBreak",
    "Paper",
    "Picture",
    "PrintSize",
    "Question",
    "Section",
    "SignOff",
    "Steps",
    "Table",
    "Tag",
    "Text",
    "Tone",
    "WorkingTree",
    "WriteIn",
    "blocks_in",
]

Kind = Literal["guide", "card", "report", "labels", "order"]
Paper = Literal["a4", "a5"]
PrintSize = Literal["normal", "large"]
Tone = Literal["good", "look", "bad", "unknown"]
CardTone = Literal["plain", "normal", "call", "never"]


@dataclass(frozen=True)
class Heading:
    """A heading without a section of its own; level 1 is a chapter."""

    text: str
    level: int = 2
    anchor: str = ""


@dataclass(frozen=True)
class Text:
    """One paragraph, inline."""

    text: str


@dataclass(frozen=True)
class Steps:
    """What to do, in order; each item inline."""

    items: tuple[str, ...]


@dataclass(frozen=True)
class Bullets:
    """A list without order; each item inline."""

    items: tuple[str, ...]


@dataclass(frozen=True)
class Definition:
    """A word or a subject, and what is to be said of it (inline)."""

    term: str
    meaning: str


@dataclass(frozen=True)
class Definitions:
    """Words with their meanings: a glossary, or facts such as `Outside unit: by the back door`.

    Attributes:
        items: in reading order.
        is_dense: set small and in two columns on paper, for long lists that are looked up.
    """

    items: tuple[Definition, ...]
    is_dense: bool = False


@dataclass(frozen=True)
class Tag:
    """A short judgement in a table, such as `within`; the words say it, the tone only helps."""

    text: str
    tone: Tone


Cell = str | KeyFigure | Tag


@dataclass(frozen=True)
class Column:
    """One column of a table.

    Attributes:
        title: its head, inline; give the unit here when all cells share one.
        numeric: set right-aligned, so that digits stand under digits.
        share: width relative to the other columns; 0 lets the content decide.
    """

    title: str
    numeric: bool = False
    share: float = 0.0


@dataclass(frozen=True)
class Table:
    """Rows under heads.

    Attributes:
        caption: what the table shows.
        columns: the heads, left to right.
        rows: as many cells in each as there are columns; a string is inline.
        row_headers: whether the first cell of a row names the row.
        last_is_total: whether the last row sums the others, and is set apart.
        to_fill: whether a hand is to write in it, so that its rows need height.
    """

    caption: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
    row_headers: bool = True
    last_is_total: bool = False
    to_fill: bool = False

    def __post_init__(self) -> None:
        """Refuse a row that does not fit its columns."""
        for row in self.rows:
            if len(row) != len(self.columns):
                raise ValueError(
                    f"table {self.caption!r}: the row {row!r} has {len(row)} cells; "
                    f"there are {len(self.columns)} columns"
                )


@dataclass(frozen=True)
class Dial:
    """One thing that can be chosen.

    Attributes:
        label: what is chosen.
        choices: in their order, as they are read.
        start: number of the one that stands at first.
    """

    label: str
    choices: tuple[str, ...]
    start: int = 0


@dataclass(frozen=True)
class Dials:
    """Answers that depend on two choices: a page lets one turn them, paper holds the table.

    Attributes:
        anchor: names its parts on a page.
        title: what is tried out.
        first: one choice.
        second: the other.
        answers: plain words, one row for each of the first, one entry for each of the second.
        table: what is read where nothing can be turned, and beside what can.

    Raises:
        ValueError: there is no answer for some pair of choices.
    """

    anchor: str
    title: str
    first: Dial
    second: Dial
    answers: tuple[tuple[str, ...], ...]
    table: Table

    def __post_init__(self) -> None:
        """Refuse choices without an answer."""
        wanted = [len(self.second.choices)] * len(self.first.choices)
        if [len(row) for row in self.answers] != wanted:
            raise ValueError(f"{self.title!r} has not one answer for each pair of choices")


@dataclass(frozen=True)
class Caution:
    """What can hurt somebody, and how not to be hurt.

    Attributes:
        level: `warning` where a person can be injured, `caution` where a thing can be damaged.
        text: inline.
        hazard: what it is about: electricity, scalding, pressure, legionella, refrigerant, heights.
    """

    level: Literal["caution", "warning"]
    text: str
    hazard: str


@dataclass(frozen=True)
class Figures:
    """Figures with their standing and range, one under another."""

    figures: tuple[KeyFigure, ...]


@dataclass(frozen=True)
class WorkingTree:
    """One figure with its formula, inputs and sources, down to the record."""

    figure: KeyFigure


@dataclass(frozen=True)
class Picture:
    """A drawing made from the record.

    Attributes:
        drawing: its description as data, one of `hearthbook.documents.drawings`.
        alt: what a person who cannot see it needs to know.
        caption: what stands under it, inline.
    """

    drawing: Drawing
    alt: str
    caption: str


@dataclass(frozen=True)
class ChecklistItem:
    """One thing to tick off.

    Attributes:
        text: inline.
        write_in: what to write beside it, such as `reading in bar`; empty for a tick alone.
    """

    text: str
    write_in: str = ""


@dataclass(frozen=True)
class Checklist:
    """Things to tick off, with an empty box before each."""

    items: tuple[ChecklistItem, ...]


@dataclass(frozen=True)
class WriteIn:
    """A named space to write a reading or a remark in.

    Attributes:
        label: what to write.
        width: `short` for a reading, `long` for a name, `full` for a remark across the page.
        unit: printed after the space.
        lines: how many lines to write on.
    """

    label: str
    width: Literal["short", "long", "full"] = "short"
    unit: str = ""
    lines: int = 1


@dataclass(frozen=True)
class Question:
    """A question as a householder asks it, and its answer.

    Attributes:
        anchor: stable; labels and cards point at it.
        question: in plain words.
        blocks: the answer.
        place: where in this home it belongs, as read in the filter; empty for the whole home.
        seasons: when it matters, as read in the filter; empty for all year round.
        keywords: further words by which the search finds it.
    """

    anchor: str
    question: str
    blocks: tuple[Block, ...]
    place: str = ""
    seasons: tuple[str, ...] = ()
    keywords: tuple[str, ...] = ()


@dataclass(frozen=True)
class Section:
    """A chapter or a part of one; its heading's level follows from its depth."""

    title: str
    anchor: str
    blocks: tuple[Block, ...]


@dataclass(frozen=True)
class PageBreak:
    """What follows starts on a new page, where there are pages."""


@dataclass(frozen=True)
class Columns:
    """Blocks side by side on paper, and one under another on a narrow screen."""

    columns: tuple[tuple[Block, ...], ...]


@dataclass(frozen=True)
class Card:
    """A box with a title.

    Attributes:
        title: the box's name.
        blocks: what stands in it.
        tone: `plain`; `normal` for what needs no worry; `call` for when to ring; `never` for what
            is not to be touched or done.
    """

    title: str
    blocks: tuple[Block, ...]
    tone: CardTone = "plain"


@dataclass(frozen=True)
class SignOff:
    """Lines to sign: a statement, then name, signature and date for each role."""

    statement: str
    roles: tuple[str, ...]


@dataclass(frozen=True)
class Code:
    """A square code for a telephone's camera.

    Attributes:
        target: the address or the anchor it opens.
        label: where it leads, in words; printed beside it.
    """

    target: str
    label: str


@dataclass(frozen=True)
class Label:
    """One label to cut out and fix to a part.

    Attributes:
        title: the part's name in this home.
        text: what to know of it, inline.
        code: opens the right place of the guide; None for a label without one.
    """

    title: str
    text: str
    code: Code | None = None


@dataclass(frozen=True)
class Labels:
    """A sheet of labels, all of one size, with cutting lines."""

    items: tuple[Label, ...]


Block = (
    Heading
    | Text
    | Steps
    | Bullets
    | Definitions
    | Table
    | Dials
    | Caution
    | Figures
    | WorkingTree
    | Picture
    | Chart
    | Checklist
    | WriteIn
    | Question
    | Section
    | PageBreak
    | Columns
    | Card
    | SignOff
    | Code
    | Labels
)


@dataclass(frozen=True)
class Document:
    """A document, whole and dated; the same data always gives the same bytes.

    Attributes:
        title: on the first page and in the file's properties.
        subtitle: one line under it.
        kind: guide, card, report, labels or visit order; decides the layout.
        home: the home's name, in every footer.
        issued: the date of issue, from the record; no clock is read.
        blocks: the content.
        revision: such as `1` or `2, after the first winter`.
        footer: one line at the foot of every page, such as the firm's telephone number.
        language: a language tag.
        print_size: `large` sets everything at 16 point and more.
        paper: size of the sheet.
        synonyms: groups of words that mean the same to the search of the page.
    """

    title: str
    subtitle: str
    kind: Kind
    home: str
    issued: date
    blocks: tuple[Block, ...]
    revision: str = "1"
    footer: str = ""
    language: str = "en-GB"
    print_size: PrintSize = "normal"
    paper: Paper = "a4"
    synonyms: tuple[tuple[str, ...], ...] = ()


def blocks_in(blocks: tuple[Block, ...]) -> Iterator[Block]:
    """Every block, then those it holds, in reading order."""
    for block in blocks:
        yield block
        match block:
            case Question() | Section() | Card():
                yield from blocks_in(block.blocks)
            case Dials():
                yield block.table
            case Columns():
                for column in block.columns:
                    yield from blocks_in(column)
            case _:
                pass
