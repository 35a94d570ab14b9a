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
    calendar.add("x-wr-calname", home.name)
    for event in _events(basis):
        calendar.add_component(event)
    return bytes(calendar.to_ical())


def _events(basis: PackBasis) -> Iterator[Event]:
    home = basis.design.home
    words = _words(basis.language)
    firm = {"firm": home.firm.name, "phone": home.firm.phone, "reference": home.reference}
    commissioning = home.commissioning
    if commissioning is not None and commissioning.next_service is not None:
        yield _event(
            basis,
            "service",
            commissioning.next_service,
            words["service"],
            words["service_text"].format(**firm),
            _YEARLY,
        )
    if commissioning is not None and commissioning.seasonal_visit is not None:
        yield _event(
            basis,
            "curve_visit",
            commissioning.seasonal_visit,
            words["curve_visit"],
            words["curve_visit_text"].format(**firm),
            None,
        )
    first = (home.issued.replace(day=1) + dt.timedelta(days=32)).replace(day=1)
    yield _event(
        basis, "pressure", first, words["pressure"], _pressure_text(basis, words), _MONTHLY
    )
    if home.meters:
        listed = ", ".join(meter.name for meter in home.meters)
        yield _event(
            basis,
            "meters",
            first,
            words["meters"],
            words["meters_text"].format(meters=listed),
            _MONTHLY,
        )
    cold = basis.facts["pressure"]["cold"]
    yield _event(
        basis,
        "autumn",
        _next(home.issued, 10, 1),
        words["autumn"],
        words["autumn_text"].format(cold=cold),
        _YEARLY,
    )
    yield _event(
        basis, "spring", _next(home.issued, 4, 15), words["spring"], words["spring_text"], _YEARLY
    )
    yield _event(
        basis,
        "outdoor_unit",
        _next(home.issued, 11, 15),
        words["filter"],
        words["filter_text"],
        _YEARLY,
    )
    yield from _papers(basis, words, firm)


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
    event.add("summary", summary)
    event.add("description", text)
    event.add("transp", "TRANSPARENT")
    if rule is not None:
        event.add("rrule", rule)
    return event
