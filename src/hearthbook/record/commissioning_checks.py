"""Dates, meter readings, prices and electrical facts that contradict each other."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from hearthbook.record.commissioning import Commissioning, Reading, ReadingKind
from hearthbook.record.contradiction import Contradiction, Path, spelled
from hearthbook.record.home import Home
from hearthbook.record.metering import Meter
from hearthbook.units import TRADE_UNITS

__all__ = ["commissioning_contradictions", "supply_contradictions"]


def commissioning_contradictions(home: Home) -> Iterator[Contradiction]:
    """What dates and readings say against each other."""
    done = home.commissioning
    if done is None:
        return
    yield from _dates(home, done)
    meters = {meter.id: meter for meter in home.meters}
    for position, reading in enumerate(done.readings):
        path: Path = ("commissioning", "readings", position)
        if reading.kind is ReadingKind.METER and reading.of in meters:
            yield from _digits((*path, "value"), reading, meters[reading.of])
        if reading.at is not None and reading.at.date() > home.issued:
            message = (
                f"is {reading.at.date()}, after the record's own date {home.issued}; check both."
            )
            yield Contradiction((*path, "at"), message)


def _dates(home: Home, done: Commissioning) -> Iterator[Contradiction]:
    later: list[tuple[Path, dt.date | None, str]] = [
        (("issued",), home.issued, "an issue after it"),
        (("commissioning", "handover_date"), done.handover_date, "a handover after it"),
        (("commissioning", "next_service"), done.next_service, "a service after it"),
        (("commissioning", "seasonal_visit"), done.seasonal_visit, "a visit after it"),
    ]
    for path, day, wanted in later:
        if day is not None and day < done.date:
            message = f"is {day}, before the commissioning on {done.date}; write {wanted}."
            yield Contradiction(path, message)
    for position, setting in enumerate(done.settings):
        if setting.on is not None and setting.on > home.issued:
            here: Path = ("commissioning", "settings", position, "on")
            yield Contradiction(here, _too_late(setting.on, home.issued))


def _too_late(day: dt.date, issued: dt.date) -> str:
    return f"is {day}, after the record's own date {issued}; check both."


def _digits(path: Path, reading: Reading, meter: Meter) -> Iterator[Contradiction]:
    """A meter shows no more digits than its face has."""
    if meter.unit not in TRADE_UNITS or meter.unit == "m³":
        return
    shown = float(f"{reading.in_si / TRADE_UNITS[meter.unit].size:.10g}")
    if abs(round(shown, meter.digits_after_point) - shown) > 1e-9 * max(1.0, abs(shown)):
        message = (
            f"is {shown:.10g} {meter.unit}, but '{meter.id}' shows "
            f"{meter.digits_after_point} digits after the point; write it as the meter shows it, "
            f"with its unit."
        )
        yield Contradiction(path, message)
    if shown >= 10**meter.digits_before_point:
        message = (
            f"is {shown:.10g} {meter.unit}, but '{meter.id}' has only "
            f"{meter.digits_before_point} digits before the point; check the reading and its unit."
        )
        yield Contradiction(path, message)


def supply_contradictions(home: Home) -> Iterator[Contradiction]:
    """What the electrical chapter, the tariff and the siting say against themselves."""
    electrical, tariff, drain = home.electrical, home.tariff, home.siting.drain
    fuse, circuit = electrical.main_fuse, electrical.circuit_rating
    if fuse is not None and circuit is not None and circuit > fuse:
        message = (
            f"is {spelled(circuit, 'A')}, above the supply fuse of {spelled(fuse, 'A')}; "
            "check both with the electrician."
        )
        yield Contradiction(("electrical", "circuit_rating"), message)
    if tariff is not None:
        all_day = [at for at, band in enumerate(tariff.bands) if not band.windows]
        for position in all_day[1:]:
            message = "has no windows, like another band; only one may hold at all other hours."
            yield Contradiction(("tariff", "bands", position), message)
    if drain is not None and drain.soakaway is not None and drain.kind != "soakaway":
        message = f"has a size, but the drain's kind is {drain.kind}; make them agree."
        yield Contradiction(("siting", "drain", "soakaway"), message)
