"""The calendar file, read by another reader than wrote it."""

from __future__ import annotations

import datetime as dt

import icalendar
import pytest

from hearthbook.record.home import Home
from tests.handover.conftest import Items, items_of
from tests.handover.variants import VARIANTS


def _events(items: Items) -> dict[str, icalendar.Event]:
    content = items["calendar.ics"].content
    assert isinstance(content, bytes)
    calendar = icalendar.Calendar.from_ical(content)
    found = [event for event in calendar.walk() if isinstance(event, icalendar.Event)]
    events = {str(event["UID"]): event for event in found}
    assert len(events) == len(found)
    return events


def _rule(event: icalendar.Event) -> str:
    rule = event.get("RRULE")
    return "" if rule is None else str(rule["FREQ"][0])


def test_the_services_and_checks_are_in_it_on_their_days(packs: dict[str, Items]) -> None:
    days = {uid.split("@")[0]: event.start for uid, event in _events(packs["as it is"]).items()}
    assert days == {
        "QH-0147-service": dt.date(2027, 10, 12),
        "QH-0147-curve_visit": dt.date(2027, 1, 20),
        "QH-0147-pressure": dt.date(2026, 11, 1),
        "QH-0147-meters": dt.date(2026, 11, 1),
        "QH-0147-autumn": dt.date(2027, 10, 1),
        "QH-0147-spring": dt.date(2027, 4, 15),
        "QH-0147-outdoor_unit": dt.date(2026, 11, 15),
        "QH-0147-paper-5": dt.date(2026, 11, 13),
    }


def test_services_come_every_year_and_readings_every_month(packs: dict[str, Items]) -> None:
    rules = {
        uid.split("@")[0].removeprefix("QH-0147-"): _rule(event)
        for uid, event in _events(packs["as it is"]).items()
    }
    assert rules["service"] == "YEARLY"
    assert rules["pressure"] == rules["meters"] == "MONTHLY"
    assert rules["curve_visit"] == rules["paper-5"] == ""


def test_an_event_says_whom_to_call_and_what_to_look_for(packs: dict[str, Items]) -> None:
    events = {uid.split("@")[0]: e for uid, e in _events(packs["as it is"]).items()}
    assert "01632 960147" in str(events["QH-0147-service"]["DESCRIPTION"])
    pressure = str(events["QH-0147-pressure"]["DESCRIPTION"])
    assert pressure.count("bar") >= 3
    for event in events.values():
        assert str(event["SUMMARY"])
        assert "{" not in str(event["SUMMARY"]) + str(event["DESCRIPTION"])


@pytest.mark.parametrize("name", sorted(VARIANTS))
def test_the_calendar_of_any_home_can_be_read(name: str, packs: dict[str, Items]) -> None:
    events = _events(packs[name])
    assert ("QH-0147-service@hearthbook.invalid" in events) == (name != "bare")
    assert ("QH-0147-meters@hearthbook.invalid" in events) == (name != "bare")


def test_a_later_revision_renews_the_same_events(well_done_home: Home) -> None:
    """Source: RFC 5545, 3.8.4.7: what has the same UID is the same event, so none is doubled."""
    later = well_done_home.model_copy(update={"revision": 2, "issued": dt.date(2026, 12, 20)})
    assert set(_events(items_of(later))) == set(_events(items_of(well_done_home)))


@pytest.mark.parametrize("breaks", ["\r", "\n", "\r\n", "\x85", "\u2028", "\x0b", "\x1e"])
def test_a_line_break_in_a_record_breaks_no_line_of_the_calendar(
    breaks: str, well_done_home: Home
) -> None:
    firm = well_done_home.firm.model_copy(update={"name": f"Nobody's{breaks}Heating"})
    home = well_done_home.model_copy(update={"name": f"7 Tarn{breaks}Close", "firm": firm})
    events = _events(items_of(home))
    assert "Nobody's Heating" in str(events["QH-0147-service@hearthbook.invalid"]["DESCRIPTION"])


def test_lines_are_short_and_end_as_the_standard_asks(packs: dict[str, Items]) -> None:
    """Source: RFC 5545, 3.1: CRLF, and no line beyond 75 octets."""
    for items in packs.values():
        content = items["calendar.ics"].content
        assert isinstance(content, bytes)
        lines = content.split(b"\r\n")
        assert max(map(len, lines)) <= 75
        assert all(b"\n" not in line for line in lines)
