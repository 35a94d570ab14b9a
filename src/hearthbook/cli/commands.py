"""The commands: each calls one action, prints what it gave, and returns the exit code."""

from __future__ import annotations

import os
import shutil
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from hearthbook.actions import judging, records
from hearthbook.cli.exits import EXIT_FAULTS, EXIT_UNUSABLE
from hearthbook.cli.printing import as_json as figures_as_json
from hearthbook.cli.printing import counting, print_document, print_json, progress
from hearthbook.commissioning.document import commissioning_document
from hearthbook.commissioning.verdicts import Verdict
from hearthbook.design.document import design_document
from hearthbook.documents.blocks import Document, WorkingTree
from hearthbook.documents.figures import KeyFigure, book_of
from hearthbook.errors import Unreadable

if TYPE_CHECKING:
    from hearthbook.actions import kept_years, packs
    from hearthbook.record.home import Home

__all__ = ["check", "commission", "demo", "design", "explain", "handover", "new", "schema"]


def demo(out: Path) -> int:
    """Make both demo packs and say where they are."""
    for record in records.demo_records():
        answer = judging.commission(record)
        folder = out / record.parent.name
        pack = _made(record, folder, answer)
        _say_what_was_made(pack, answer)
    program, faulty = _as_typed(Path(sys.argv[0])), _as_typed(records.demo_records()[-1])
    click.echo("Next: open guide.html of either pack in a browser, or run")
    click.echo(f"  {program} commission {faulty}")
    click.echo(f"  {program} explain {faulty} expansion.hot_pressure")
    return 0


def _as_typed(path: Path) -> str:
    """A path as one would type it here: a program that is found by name needs no folder."""
    if shutil.which(path.name):
        return path.name
    return os.path.relpath(path) if path.is_absolute() and path.exists() else str(path)


def new(record: Path) -> int:
    """Write a starter record."""
    records.start_record(record)
    click.echo(f"Wrote {record}. Fill it in, then run: hearthbook check {record}")
    return 0


def check(record: Path, *, as_json: bool) -> int:
    """Check a record."""
    try:
        checked = records.check_record(record)
    except Unreadable as unreadable:
        faults = unreadable.faults
        if as_json:
            print_json({"faults": [vars(fault) for fault in faults], "unknowns": []})
        else:
            click.echo(str(unreadable), err=True)
        is_of_the_whole = all(fault.place == "the file" for fault in faults)
        return EXIT_UNUSABLE if is_of_the_whole else EXIT_FAULTS
    missing = checked.unknowns
    if as_json:
        print_json({"faults": [], "unknowns": [vars(unknown) for unknown in missing]})
        return 0
    home = checked.home
    click.echo(
        f"{record} is in order: {home.name}, {_counted(len(home.building.rooms), 'room')}, "
        f"{_counted(len(home.emitters), 'emitter')}."
    )
    if missing:
        click.echo(f"Still to be found out ({len(missing)}):")
        for unknown in missing:
            click.echo(f"  {unknown.place}: {unknown.question} {unknown.why}")
    return 0


def design(record: Path, *, as_json: bool) -> int:
    """Print the design and what falls short."""
    result = judging.design(record)
    document, shortfalls = design_document(result)
    if as_json:
        book = book_of(result)
        found = [vars(shortfall) for shortfall in shortfalls]
        print_json({"shortfalls": found, "figures": figures_as_json(book.values())})
    else:
        print_document(document)
    return EXIT_FAULTS if shortfalls else 0


def commission(record: Path, *, as_json: bool) -> int:
    """Print the verdicts."""
    answer = judging.commission(record)
    if as_json:
        print_json(
            [
                {
                    "key": judgement.key,
                    "label": judgement.label,
                    "place": judgement.place,
                    "verdict": str(judgement.verdict),
                    "reason": judgement.reason,
                    "next_step": judgement.next_step,
                    **_figure_of("reading", judgement.reading),
                    **_figure_of("target", judgement.target),
                    "band": judgement.band.shown() if judgement.band else None,
                    "is_safety": judgement.is_safety,
                }
                for judgement in answer.judged.judgements
            ]
        )
    else:
        print_document(commissioning_document(answer.design, answer.judged))
    found = {judgement.verdict for judgement in answer.judged.judgements}
    return EXIT_FAULTS if found - {Verdict.WITHIN} else 0


def _figure_of(name: str, figure: KeyFigure | None) -> dict[str, float | str | None]:
    return {
        f"{name}_si": None if figure is None else figure.value,
        f"{name}_shown": None if figure is None else figure.shown(),
    }


def handover(record: Path, out: Path | None, *, as_json: bool) -> int:
    """Make the pack."""
    answer = judging.commission(record)
    folder = out or Path("packs") / answer.design.home.reference.replace("/", "-")
    pack = _made(record, folder, answer)
    if as_json:
        print_json(
            {
                "folder": str(pack.folder),
                "files": [vars(file) for file in pack.files],
                "open_safety_items": list(pack.open_safety_items),
            }
        )
    else:
        _say_what_was_made(pack, answer)
    return EXIT_FAULTS if pack.open_safety_items else 0


def explain(record: Path, figure: str, *, as_json: bool) -> int:
    """Print workings, or the list of figures; those of the year take a run."""
    if figure.startswith("year.pack"):
        return _explain_pack(record, figure, as_json=as_json)
    if figure.split(".", maxsplit=1)[0] == "year":
        from hearthbook.cli import year_commands

        home, found = year_commands.explained(record, figure)
        _print_workings(figure, found, home, as_json=as_json)
        return 0
    answer = judging.commission(record)
    if not figure:
        book = book_of(answer)
        if as_json:
            print_json(figures_as_json(book.values()))
        else:
            width = max(len(name) for name in book)
            for name in sorted(book):
                click.echo(f"{name:<{width}}  {book[name].shown()}  ({book[name].basis})")
            click.echo("year.…: figures of the simulated year; `explain HOME year` lists them")
        return 0
    found = judging.explained(answer, figure)
    _print_workings(figure, found, answer.design.home, as_json=as_json)
    return 0


def _explain_pack(record: Path, figure: str, *, as_json: bool) -> int:
    """Print workings of what the pack says of the year."""
    from hearthbook.year.bin_numbers import numbers_by_hours
    from hearthbook.year.pack_figures import year_facts

    answer = judging.commission(record)
    numbers = _years(record, answer).numbers or numbers_by_hours(answer.design)
    found = judging.explained(answer, figure, year_facts(answer.design, numbers))
    _print_workings(figure, found, answer.design.home, as_json=as_json)
    return 0


def _print_workings(
    figure: str, found: tuple[KeyFigure, ...], home: Home, *, as_json: bool
) -> None:
    if as_json:
        print_json(figures_as_json(found))
        return
    print_document(
        Document(
            title=f"Working of {figure}",
            subtitle=home.name,
            kind="report",
            home=home.name,
            issued=home.issued,
            blocks=tuple(WorkingTree(part) for part in found),
        )
    )


def schema(out: Path | None) -> int:
    """Print or write the schema."""
    if out is None:
        click.echo(records.schema_text(), nl=False)
    else:
        records.write_schema(out)
        click.echo(f"Wrote {out}.")
    return 0


def _made(record: Path, folder: Path, answer: judging.Answer) -> packs.Pack:
    from hearthbook.actions import packs

    packs.check_ready(folder, answer)
    years = _years(record, answer)
    with progress(packs.STEPS, f"Pack of {answer.design.home.name}") as advance:
        return packs.make_pack(record, folder, answer, advance, years)


def _years(record: Path, answer: judging.Answer) -> kept_years.PackYears:
    """The numbers of the home's years; who has to wait for them is told why."""
    from hearthbook.actions import kept_years

    name = answer.design.home.name
    sentence = f"{name}: running 200 and some years of it through its weather, once ..."
    with counting(sentence) as advance:
        return kept_years.pack_years(record, answer.design, advance)


def _say_what_was_made(pack: packs.Pack, answer: judging.Answer) -> None:
    home = answer.design.home
    counts = answer.judged.counts()
    verdicts = ", ".join(f"{count} {str(verdict).replace('_', ' ')}" for verdict, count in counts)
    click.echo(f"{home.name}: {len(answer.judged.judgements)} things judged ({verdicts}).")
    for item in pack.open_safety_items:
        click.echo(f"  Do not hand over before this is mended: {item}")
    click.echo(f"  The pack is in {pack.folder}:")
    width = max(len(file.name) for file in pack.files)
    for file in pack.files:
        click.echo(f"    {file.name:<{width}}  {file.purpose}")
    click.echo("")


def _counted(count: int, noun: str) -> str:
    return f"{count} {noun}" if count == 1 else f"{count} {noun}s"
