"""The command that runs a year, and the working of a year's figure."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from hearthbook.actions import whatifs, years
from hearthbook.cli.printing import as_json as figures_as_json
from hearthbook.cli.printing import print_document, print_json, progress
from hearthbook.documents.figures import KeyFigure, figures_in
from hearthbook.record.home import Home

__all__ = ["explained", "year"]

_WRITTEN = 3  # steps of writing: pictures, print, page


def year(
    record: Path,
    asked: years.WeatherAsked,
    out: Path | None,
    *,
    has_ranges: bool = False,
    as_json: bool = False,
) -> int:
    """Run a home's year; print what it says, or write it into a folder."""
    with progress(years.STEPS, "Design") as advance:
        told = years.run_home_year(record, asked, advance)
    if has_ranges:
        told = _with_ranges(told, record, asked)
    data = _data(told)
    files: tuple[tuple[str, str], ...] = ()
    if out:
        with progress(_WRITTEN, "Pictures") as advance:
            files = years.write_year(told, out, data, advance)
    if as_json:
        print_json({**data, "files": [name for name, _ in files]} if out else data)
    elif out:
        _say_what_was_made(told, out, files)
    else:
        print_document(told.document())
    return 0


def _with_ranges(told: years.Told, record: Path, asked: years.WeatherAsked) -> years.Told:
    counted = 0
    with progress(whatifs.RANGE_DRAWS, "Years for the ranges") as advance:

        def say(done: int, of: int) -> None:
            nonlocal counted
            while counted < done:
                counted += 1
                advance(f"Years for the ranges: {counted} of {of}")

        return years.with_ranges(told, record, asked, say)


def explained(record: Path, figure: str) -> tuple[Home, tuple[KeyFigure, ...]]:
    """The home, and a figure of its year, or all below a name."""
    with progress(years.STEPS, "Design") as advance:
        told = years.run_home_year(record, None, advance)
    return told.year.model.design.home, years.explained_year(told, figure)


def _data(told: years.Told) -> dict[str, Any]:
    """A year for machines: its weather and its figures by name."""
    weather, answers = told.year.weather, told.answers
    figures = {figure.name: figure for figure in figures_in(answers)}
    return {
        "weather": {
            "source": weather.source,
            "is_generated": weather.is_generated,
            "days": answers.standing.days,
            "years_shared_out_over": answers.standing.years,
        },
        "figures": figures_as_json(figures.values()),
        "ranges_si": {name: list(found) for name, found in answers.ranges.items()},
    }


def _say_what_was_made(told: years.Told, out: Path, files: tuple[tuple[str, str], ...]) -> None:
    answers, home = told.answers, told.year.model.design.home
    whole, efficiency = answers.whole, answers.efficiency.all_counted
    cost = f", {whole.cost.shown()}" if whole.cost else ""
    click.echo(
        f"{home.name}: {whole.electricity.total.shown()}{cost} {answers.standing.span}, seasonal "
        f"efficiency {efficiency.shown()} with all counted. Calculated, not measured."
    )
    click.echo(f"  The year is in {out}:")
    width = max(len(name) for name, _ in files)
    for name, purpose in files:
        click.echo(f"    {name:<{width}}  {purpose}")
