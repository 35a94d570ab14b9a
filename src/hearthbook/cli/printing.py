"""How results are printed: documents as text, colour only as a help, JSON for machines."""

from __future__ import annotations

import json
import re
import sys
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

import click

from hearthbook.documents.blocks import Document
from hearthbook.documents.figures import KeyFigure
from hearthbook.render.text import render as render_text

if TYPE_CHECKING:
    from rich.progress import Progress, TaskID

__all__ = ["as_json", "counting", "figure_as_json", "print_document", "print_json", "progress"]

_COLOURS = {
    "within": "green",
    "look again": "yellow",
    "outside": "red",
    "cannot tell": "cyan",
    "falls short": "red",
    "good": "green",
}
_TAGS = re.compile(r"\b(" + "|".join(sorted(_COLOURS, key=len, reverse=True)) + r")\b")


def print_document(document: Document) -> None:
    """Print a document as text; on a terminal the verdict words are coloured."""
    written = render_text(document)
    if sys.stdout.isatty():
        written = _TAGS.sub(lambda match: click.style(match[0], fg=_COLOURS[match[0]]), written)
    click.echo(written)


def print_json(data: Any) -> None:
    """Print data as JSON."""
    click.echo(json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False))


def figure_as_json(figure: KeyFigure) -> dict[str, Any]:
    """A figure with its standing, without its inputs' workings."""
    return {
        "name": figure.name,
        "label": figure.label,
        "value_si": figure.value,
        "shown": figure.shown(),
        "unit": figure.unit,
        "basis": str(figure.basis),
        "uncertainty_si": figure.uncertainty,
        "formula": figure.working.formula,
        "source": figure.working.source,
        "inputs": [part.name for part in figure.working.inputs],
    }


def as_json(figures: Iterable[KeyFigure]) -> dict[str, dict[str, Any]]:
    """Figures by name."""
    return {figure.name: figure_as_json(figure) for figure in figures}


@contextmanager
def progress(total: int, title: str) -> Iterator[Any]:
    """A progress bar on a terminal's error stream; a function that advances it by one step."""
    with _bar() as bar:
        task = bar.add_task(title, total=total)

        def advance(what: str) -> None:
            bar.update(task, advance=1, description=what)

        yield advance


@contextmanager
def counting(sentence: str) -> Iterator[Callable[[int, int], None]]:
    """A bar for what counts itself, and a sentence that says why one waits.

    Nothing is shown before something is counted, so that what is at hand already says nothing.

    Yields:
        A function to be told how many of how many are done.
    """
    with _bar() as bar:
        task: TaskID | None = None

        def advance(done: int, of: int) -> None:
            nonlocal task
            if task is None:
                click.echo(sentence, err=True)
                task = bar.add_task("", total=of)
            bar.update(task, completed=done, total=of)

        yield advance


@contextmanager
def _bar() -> Iterator[Progress]:
    """A progress bar on a terminal's error stream; nothing where there is none."""
    from rich.console import Console
    from rich.progress import BarColumn, Progress, TextColumn

    console = Console(stderr=True)
    columns = (
        TextColumn("{task.description}"),
        BarColumn(),
        TextColumn("{task.completed}/{task.total}"),
    )
    with Progress(
        *columns, console=console, disable=not console.is_terminal, transient=True
    ) as bar:
        yield bar
