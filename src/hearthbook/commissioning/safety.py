"""What keeps hot water from bursting its cylinder or scalding the people who live here."""

from __future__ import annotations

from collections.abc import Iterator

from hearthbook.commissioning.judging import Subject, judge_yes_or_no
from hearthbook.commissioning.verdicts import Judgement
from hearthbook.record.home import Home
from hearthbook.record.household import Vulnerability
from hearthbook.record.plant import Cylinder
from hearthbook.units import shown

__all__ = ["drinking_water_valve", "scald_protection"]

# Who cannot be trusted to notice or leave water that scalds; common practice, no source.
_SCALDS_EASILY = frozenset(
    {
        Vulnerability.OLDER_PERSON,
        Vulnerability.INFANT,
        Vulnerability.LONG_ILLNESS,
        Vulnerability.MEMORY,
        Vulnerability.MOBILITY,
    }
)
_HOTTEST_BATH = 48.0  # °C; Approved Document G, baths of new dwellings, as summarised publicly


def drinking_water_valve(home: Home) -> Iterator[Judgement]:
    """Whether an unvented cylinder has its relief valve."""
    cylinder = home.plant.cylinder
    if cylinder is None or not cylinder.is_unvented:
        return
    valves = [v for v in home.plant.safety_valves if v.circuit == "drinking_water"]
    setting = shown(min(v.setting for v in valves), "bar", 1) if valves else ""
    subject = Subject("drinking_water_valve", home.places.get("cylinder", ""))
    yield judge_yes_or_no(subject, bool(valves), {"setting": setting})


def scald_protection(home: Home) -> Iterator[Judgement]:
    """Whether people who scald easily are kept from water hotter than a bath may be."""
    cylinder = home.plant.cylinder
    people = [str(v).replace("_", " ") for v in home.household.vulnerabilities
              if v in _SCALDS_EASILY]  # fmt: skip
    if cylinder is None or not people:
        return
    hottest = _hottest_at_a_tap(cylinder)
    texts = {"who": ", ".join(people), "hottest": shown(hottest, "°C", 0)}
    subject = Subject("scald_protection", home.places.get("cylinder", ""))
    yield judge_yes_or_no(subject, hottest <= _HOTTEST_BATH, texts)


def _hottest_at_a_tap(cylinder: Cylinder) -> float:
    if cylinder.mixing_valve_temperature is not None:
        return cylinder.mixing_valve_temperature
    if cylinder.hygiene is None:
        return cylinder.set_temperature
    return max(cylinder.set_temperature, cylinder.hygiene.temperature)
