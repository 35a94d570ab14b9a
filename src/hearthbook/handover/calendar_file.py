"""The calendar of a home: services, checks and readings, as an iCalendar file (RFC 5545)."""

from __future__ import annotations

import datetime as dt
import tomllib
from collections.abc import Iterator
from functools import cache
from importlib.resources import files

from icalendar import Calendar, Event

from hearthbook import __version__
from hearthbook.handover.basis import PackBasis

__all__ = ["calendar_file"]

_YEARLY = {"freq": "yearly"}
_MONTHLY = {"freq": "monthly"}


@cache
def _words(language: str) -> dict[str, str]:
    path = files("hearthbook.handover").joinpath("words", language, "calendar.toml")
    return dict(tomllib.loads(path.read_text(encoding="utf-8"))["events"])


def calendar_file(basis: PackBasis) -> bytes:
    """The calendar file; the same record always gives the same bytes."""
    home = basis.design.home
    calendar = Calendar()
    calendar.add("prodid", f"-//Hearthbook//{__version__}//")
    calendar.add("version", "2.0")
    calendar.add("x-wr-calname", _on_one_line(home.name))
    for event in _events(basis):
        calendar.add_component(event)
    return bytes(calendar.to_ical())


def _events(basis: PackBasis) -> Iterator[Event]:
    words = _words(basis.language)
    home = basis.design.home
    firm = {"firm": home.firm.name, "phone": home.firm.phone, "reference": home.reference}
    yield from _visits(basis, words, firm)
    yield from _readings(basis, words)
    yield from _seasons(basis, words)
    yield from _papers(basis, words, firm)


def _visits(basis: PackBasis, words: dict[str, str], firm: dict[str, str]) -> Iterator[Event]:
    """The service of each year and the look at the curve in the first winter, where agreed."""
    commissioning = basis.design.home.commissioning
    if commissioning is None:
        return
    visits = (
        ("service", commissioning.next_service, _YEARLY),
        ("curve_visit", commissioning.seasonal_visit, None),
    )
    for key, day, rule in visits:
        if day is not None:
            yield _event(basis, key, day, words[key], words[f"{key}_text"].format(**firm), rule)


def _readings(basis: PackBasis, words: dict[str, str]) -> Iterator[Event]:
    """What the household reads each month, from the month after the pack."""
    home = basis.design.home
    first = (home.issued.replace(day=1) + dt.timedelta(days=32)).replace(day=1)
    pressure = _pressure_text(basis, words)
    yield _event(basis, "pressure", first, words["pressure"], pressure, _MONTHLY)
    if home.meters:
        text = words["meters_text"].format(meters=", ".join(meter.name for meter in home.meters))
        yield _event(basis, "meters", first, words["meters"], text, _MONTHLY)


def _seasons(basis: PackBasis, words: dict[str, str]) -> Iterator[Event]:
    """What comes round with the seasons."""
    autumn = words["autumn_text"].format(cold=basis.facts["pressure"]["cold"])
    seasons = (
        ("autumn", (10, 1), words["autumn"], autumn),
        ("spring", (4, 15), words["spring"], words["spring_text"]),
        ("outdoor_unit", (11, 15), words["filter"], words["filter_text"]),
    )
    for key, (month, day), summary, text in seasons:
        on = _next(basis.design.home.issued, month, day)
        yield _event(basis, key, on, summary, text, _YEARLY)


def _papers(basis: PackBasis, words: dict[str, str], firm: dict[str, str]) -> Iterator[Event]:
    commissioning = basis.design.home.commissioning
    for number, paper in enumerate(commissioning.documents if commissioning else ()):
        if paper.status == "to_follow" and paper.due is not None:
            yield _event(
                basis,
                f"paper-{number}",
                paper.due,
                words["paper"].format(name=paper.name),
                words["paper_text"].format(**firm),
                None,
            )


def _pressure_text(basis: PackBasis, words: dict[str, str]) -> str:
    pressure = basis.facts["pressure"]
    may = pressure["householder_may"]
    action = words["low_may"].format(cold=pressure["cold"]) if may else words["low_not"]
    return words["pressure_text"].format(
        cold=pressure["cold"],
        top_up_below=pressure["top_up_below"],
        call_above=pressure["call_above"],
        low_action=action,
        phone=basis.design.home.firm.phone,
    )


def _on_one_line(text: str) -> str:
    """Text from a record without its line breaks, which would end the line of a calendar."""
    return " ".join(text.split())


def _next(after: dt.date, month: int, day: int) -> dt.date:
    this_year = dt.date(after.year, month, day)
    return this_year if this_year > after else this_year.replace(year=after.year + 1)


def _event(
    basis: PackBasis, key: str, day: dt.date, summary: str, text: str, rule: dict[str, str] | None
) -> Event:
    home = basis.design.home
    event = Event()
    event.add("uid", f"{home.reference}-{key}@hearthbook.invalid")
    event.add("dtstamp", dt.datetime.combine(home.issued, dt.time(), dt.UTC))
    event.add("dtstart", day)
    event.add("dtend", day + dt.timedelta(days=1))
    event.add("summary", _on_one_line(summary))
    event.add("description", _on_one_line(text))
    event.add("transp", "TRANSPARENT")
    if rule is not None:
        event.add("rrule", rule)
    return event
