"""Run a home's year, and write what it says: page, print, pictures, days and figures."""

from __future__ import annotations

import difflib
import json
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from hearthbook.actions import whatifs
from hearthbook.actions.judging import design
from hearthbook.actions.whole_folder import check_free, write_folder
from hearthbook.documents.blocks import Document
from hearthbook.documents.defects import defects
from hearthbook.documents.figures import KeyFigure, book_of
from hearthbook.errors import Conflict, Fault, NotFound, Unreadable, check_between
from hearthbook.readers.weather_files import read_weather, read_weather_beside
from hearthbook.record.home import Home
from hearthbook.simulate.preparing import is_prepared
from hearthbook.simulate.weather import Weather
from hearthbook.year.answers import YearAnswers, year_answers
from hearthbook.year.charts import YearCharts, year_charts
from hearthbook.year.days import days_csv
from hearthbook.year.document import year_document
from hearthbook.year.home_year import HomeYear, home_year
from hearthbook.year.minutes import Minutes, minutes_of
from hearthbook.year.range_names import ranges_by_name
from hearthbook.year.ranges import YearRanges
from hearthbook.year.weather_of_home import weather_of_home

__all__ = [
    "STEPS",
    "Told",
    "WeatherAsked",
    "explained_year",
    "run_home_year",
    "with_ranges",
    "write_year",
]

STEPS = 16  # of a year's run: weather, the run, thirteen pieces, the figures
_MARK = "year.json"
_WHAT = "a simulated year"
_MOST_YEARS = 30

_Advance = Callable[[str], None]


@dataclass(frozen=True)
class WeatherAsked:
    """Which weather a home is run through.

    Attributes:
        file: in place of the record's own; None leaves that.
        years: of generated weather; None for one.
        seed: of generated weather and of the household's draws.
    """

    file: Path | None = None
    years: int | None = None
    seed: int = 1


@dataclass(frozen=True)
class Told:
    """A home's year and what it says.

    Attributes:
        year: as it was run.
        minutes: of it.
        answers: what it says.
        ranges: of it, where they were asked for.
    """

    year: HomeYear
    minutes: Minutes
    answers: YearAnswers
    ranges: YearRanges | None = None

    def document(self, charts: YearCharts | None = None) -> Document:
        """The year as a document, with pictures where they are given."""
        return year_document(self.year, self.answers, charts, self.ranges)


def run_home_year(
    record: Path, asked: WeatherAsked | None = None, advance: _Advance = lambda _: None
) -> Told:
    """Run the home in a record file through a year.

    Args:
        record: the file.
        asked: the weather; as the record says where it is not given.
        advance: called before each step with what it is.

    Raises:
        NotFound: there is no such file.
        Unreadable: the record or the weather has faults.
        Conflict: years of generated weather are asked for, and the weather is a file's.
        OutOfRange: what no loop can run on.
        Incomplete: a fact the year rests on is missing and nobody may assume it.
    """
    asked = asked or WeatherAsked()
    designed = design(record)
    advance("Weather")
    weather = _weather(record, designed.home, asked)
    advance(
        "The year, minute by minute"
        if is_prepared()
        else "Preparing the simulation for this machine, once"
    )
    year = home_year(designed, weather, seed=asked.seed)
    minutes = minutes_of(year, advance)
    advance("Figures")
    return Told(year, minutes, year_answers(year, minutes))


def with_ranges(
    told: Told,
    record: Path,
    asked: WeatherAsked,
    advance: Callable[[int, int], None] = lambda _, __: None,
) -> Told:
    """The year with its ranges: two hundred homes that the record may mean are run.

    Args:
        told: the year as recorded.
        record: the same record's file.
        asked: the same weather; of generated weather the years are those of the ranges.
        advance: told how many of how many years are done.
    """
    given = whatifs.Given(weather=asked.file, seed=asked.seed)
    _, found = whatifs.ranges_of_year(record, given, advance)
    answers = replace(told.answers, ranges=ranges_by_name(found))
    return replace(told, answers=answers, ranges=found)


def _weather(record: Path, home: Home, asked: WeatherAsked) -> Weather:
    named = home.building.climate.weather_file
    if asked.file is None and named is None:
        years = 1 if asked.years is None else asked.years
        check_between("years of weather", years, 1, _MOST_YEARS, "years")
        check_between("seed", asked.seed, 0, 999_999, "")
        return weather_of_home(home, seed=asked.seed, years=years)
    if asked.years is not None:
        raise Conflict(
            f"the weather is that of {asked.file or named}, which has its own years; years can be "
            "chosen only of generated weather. Leave --years out."
        )
    if asked.file is not None:
        return read_weather(asked.file)
    return read_weather_beside(record.parent, str(named))


def explained_year(told: Told, name: str) -> tuple[KeyFigure, ...]:
    """The figure of a name, or every figure of the year below it.

    Raises:
        NotFound: no figure has this name; the nearest names are given.
    """
    book = book_of(told.answers)
    if name in book:
        return (book[name],)
    below = tuple(book[key] for key in sorted(book) if key.startswith(f"{name}."))
    if below:
        return below
    near = difflib.get_close_matches(name, [key for key in book if key.startswith("year.")], n=3)
    hint = f" Did you mean {', '.join(near)}?" if near else ""
    raise NotFound(f"No figure of the year is called {name!r}.{hint}")


def write_year(
    told: Told, folder: Path, figures: dict[str, Any], advance: _Advance = lambda _: None
) -> tuple[tuple[str, str], ...]:
    """Write a year into a folder, whole or not at all; an earlier year there is replaced.

    Args:
        told: the year.
        folder: where to.
        figures: for machines, as JSON has them.
        advance: called before each file with what it is.

    Returns:
        Name and purpose of each file.

    Raises:
        Conflict: the folder holds something other than an earlier year.
        Unreadable: the document has a defect a stranger would notice; nothing is written.
    """
    from hearthbook.render.chart_look import ORDINARY
    from hearthbook.render.charts import chart_svg
    from hearthbook.render.html import render as render_html
    from hearthbook.render.pdf import render as render_pdf

    check_free(folder, _MARK, _WHAT)
    charts = year_charts(told.year, told.minutes)
    document = told.document(charts)
    found = defects(document)
    if found:
        raise Unreadable("The year's document", [Fault("year.html", one) for one in found])
    advance("Pictures")
    named = [(f"{name}.svg", chart) for name, chart in charts.named]
    files = {name: chart_svg(chart, ORDINARY).encode() for name, chart in named}
    purposes = {name: chart.title for name, chart in named}
    advance("year.pdf")
    files["year.pdf"] = render_pdf(document)
    advance("year.html")
    files["year.html"] = render_html(document).encode()
    files["days.csv"] = days_csv(told.year).encode()
    files[_MARK] = (json.dumps(figures, indent=2, ensure_ascii=False) + "\n").encode()
    purposes |= {
        "year.html": "everything, to read on a screen",
        "year.pdf": "the same, to print",
        "days.csv": "a line for each day",
        _MARK: "every figure, for machines",
    }
    write_folder(folder, files, _MARK, _WHAT)
    order = ["year.html", "year.pdf", "days.csv", _MARK, *(name for name, _ in named)]
    return tuple((name, purposes[name]) for name in order)
