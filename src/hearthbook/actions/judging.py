"""What a person asks of a record: its design, its verdicts, one figure's working."""

from __future__ import annotations

import difflib
from dataclasses import dataclass
from pathlib import Path

from hearthbook.commissioning.judgements import Judged, judge_home
from hearthbook.design.results import Design, design_home
from hearthbook.documents.figures import KeyFigure, book_of
from hearthbook.errors import NotFound
from hearthbook.readers.record_file import read_home

__all__ = [
    "Answer",
    "commission",
    "design",
    "explained",
]


@dataclass(frozen=True)
class Answer:
    """The design of a home and the verdicts on it."""

    design: Design
    judged: Judged


def design(path: Path) -> Design:
    """The design of the home in a record file."""
    return design_home(read_home(path))


def commission(path: Path) -> Answer:
    """The verdicts on the home in a record file."""
    result = design(path)
    return Answer(result, judge_home(result))


def explained(answer: Answer, name: str, *more: object) -> tuple[KeyFigure, ...]:
    """The figure of a name, or every figure below it.

    Args:
        answer: the design and the verdicts.
        name: of a figure, or of a group of them.
        more: further results whose figures are looked through.

    Raises:
        NotFound: no figure has this name; the nearest names are given.
    """
    book = book_of((answer, *more))
    if name in book:
        return (book[name],)
    below = tuple(book[key] for key in sorted(book) if key.startswith(f"{name}."))
    if below:
        return below
    near = difflib.get_close_matches(name, book, n=3, cutoff=0.4)
    hint = f" Did you mean {', '.join(near)}?" if near else ""
    raise NotFound(f"No figure is called {name!r}.{hint} Run explain without a name to list them.")
