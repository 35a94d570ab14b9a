"""Electrical facts held against each other: hints for a competent electrician, who decides."""

from __future__ import annotations

from collections.abc import Iterator

from hearthbook.commissioning.judging import (
    Subject,
    judge_figure,
    judge_in_doubt,
    judge_yes_or_no,
    judged_without_reading,
)
from hearthbook.commissioning.verdicts import Band, Judgement
from hearthbook.documents.figures import KeyFigure, calculated, given
from hearthbook.record.home import Home

__all__ = ["judge_electrical"]

_VOLTAGE = 230.0  # V; nominal between line and neutral, EN 50160; one phase is taken
# W; 60 A at 230 V, above which the operator is asked first. Network operators' joint connection
# process, from memory. Heating loads draw little reactive power, so kW are held against kVA.
_ASK_FIRST = 13.8e3


def judge_electrical(home: Home) -> Iterator[Judgement]:
    """The judgements on supply, circuit and papers; none of them says that anything is safe."""
    place = home.places.get("consumer_unit", "")
    yield _maximum_demand(home, place)
    yield _known_loads(home, place)
    yield _network_notice(home, place)
    yield _circuit_rating(home, place)
    number = home.electrical.certificate
    subject = Subject("electrical_certificate_number", place)
    yield judge_yes_or_no(subject, True if number else None, {"note": number})


def _given(name: str, label: str, value: float, unit: str) -> KeyFigure:
    return given(name, label, value, unit, place=name)


def _main_fuse(home: Home) -> KeyFigure | None:
    fuse = home.electrical.main_fuse
    name = "electrical.main_fuse"
    return None if fuse is None else _given(name, "supply fuse", fuse, "A")


def _maximum_demand(home: Home, place: str) -> Judgement:
    subject = Subject("maximum_demand", place)
    demand, fuse = home.electrical.maximum_demand, _main_fuse(home)
    if demand is None or fuse is None:
        return judged_without_reading(subject)
    name = "electrical.maximum_demand"
    carried = calculated(
        "electrical.carried_by_fuse", "what the supply fuse carries", fuse.value * _VOLTAGE, "kW",
        formula="P = I · 230 V", inputs=(fuse,), source="one phase, nominal voltage of EN 50160",
    )  # fmt: skip
    band = Band(None, carried.value, "kW", "supply fuse at 230 V, one phase: a hint")
    return judge_figure(subject, _given(name, "maximum demand", demand, "kW"), carried, band)


def _known_loads(home: Home, place: str) -> Judgement:
    subject = Subject("known_loads", place)
    current, fuse = home.plant.heat_pump.maximum_current, _main_fuse(home)
    if current is None or fuse is None:
        return judged_without_reading(subject)
    name = "plant.heat_pump.maximum_current"
    unit = _given(name, "largest current of the unit", current, "A")
    heaters = _electric_heaters(home)
    total = calculated(
        "electrical.known_loads", "known heating loads together",
        unit.value + sum(heater.value for heater in heaters) / _VOLTAGE, "A",
        formula="I = I_unit + Σ P_heaters / 230 V", inputs=(unit, *heaters),
        source="sum, all on at once, one phase; nominal voltage of EN 50160",
    )  # fmt: skip
    band = Band(
        None, fuse.value, "A", "the supply fuse: a hint, the home's other loads come on top"
    )
    return judge_figure(subject, total, fuse, band)


def _electric_heaters(home: Home) -> tuple[KeyFigure, ...]:
    backup, cylinder = home.plant.backup_heater, home.plant.cylinder
    powers = {
        ("plant.backup_heater.power", "backup heater"): None if backup is None else backup.power,
        ("plant.cylinder.immersion_power", "immersion heater"): (
            None if cylinder is None else cylinder.immersion_power
        ),
    }
    return tuple(
        _given(name, label, power, "kW")
        for (name, label), power in powers.items()
        if power is not None
    )


def _network_notice(home: Home, place: str) -> Judgement:
    """A notice that came after the connection is too late where the demand is large."""
    subject = Subject("network_notice", place)
    electrical = home.electrical
    if electrical.network_notice and (electrical.maximum_demand or 0.0) > _ASK_FIRST:
        return judge_in_doubt(subject, {"note": electrical.network_notice})
    is_recorded = True if electrical.network_notice else None
    return judge_yes_or_no(subject, is_recorded, {"note": electrical.network_notice})


def _circuit_rating(home: Home, place: str) -> Judgement:
    subject = Subject("circuit_rating", place)
    rating, current = home.electrical.circuit_rating, home.plant.heat_pump.maximum_current
    if rating is None or current is None:
        return judged_without_reading(subject)
    needed = _given("plant.heat_pump.maximum_current", "largest current of the unit", current, "A")
    found = _given("electrical.circuit_rating", "the unit's own circuit", rating, "A")
    return judge_figure(subject, found, needed, Band(current, None, "A", "the unit's data"))
