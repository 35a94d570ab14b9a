"""What keeps hot water from bursting its cylinder or scalding the people who live here."""

from __future__ import annotations

from collections.abc import Iterator

from hearthbook.commissioning.judging import Subject, judge_by_rule_of_thumb, judge_yes_or_no
from hearthbook.commissioning.verdicts import Band, Judgement
from hearthbook.documents.figures import KeyFigure, given
from hearthbook.record.home import Home
from hearthbook.record.household import Vulnerability
from hearthbook.record.plant import Cylinder
from hearthbook.units import shown

__all__ = ["drinking_water_valve", "scald_protection", "unvented_cylinder"]

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
_HOTTEST_ADVISED = 44.0  # °C; bath; UK health-estates guidance, mixing-valve settings


def drinking_water_valve(home: Home) -> Iterator[Judgement]:
    """Whether an unvented cylinder has its relief valve."""
    cylinder = home.plant.cylinder
    if cylinder is None or not cylinder.is_unvented:
        return
    valves = [v for v in home.plant.safety_valves if v.circuit == "drinking_water"]
    setting = shown(min(v.setting for v in valves), "bar", 1) if valves else ""
    subject = Subject("drinking_water_valve", home.places.get("cylinder", ""))
    yield judge_yes_or_no(subject, bool(valves), {"setting": setting})


def unvented_cylinder(home: Home) -> Iterator[Judgement]:
    """What an unvented cylinder owes: its commissioning record, and room for water that grows."""
    cylinder = home.plant.cylinder
    if cylinder is None or not cylinder.is_unvented:
        return
    place = home.places.get("cylinder", "")
    subject = Subject("cylinder_record", home.places.get("documents", ""))
    yield judge_yes_or_no(subject, *_record_of_the_cylinder(home))
    vessels = sum(v.volume for v in home.plant.expansion_vessels if v.circuit == "drinking_water")
    how = shown(vessels, "L", 0) if vessels else "an air space inside the cylinder"
    has_room = True if vessels else cylinder.has_internal_expansion
    yield judge_yes_or_no(Subject("drinking_water_expansion", place), has_room, {"note": how})


def _record_of_the_cylinder(home: Home) -> tuple[bool | None, dict[str, str]]:
    """Whether a paper named for the unvented cylinder is there, and which; None if none is listed.

    One that is still to follow is not there.
    """
    papers = home.commissioning.documents if home.commissioning else ()
    if not papers:
        return None, {}
    for paper in papers:
        if "unvented" in paper.name.casefold() and paper.status != "to_follow":
            return True, {"note": f"{paper.name} {paper.reference}".strip()}
    return False, {}


def scald_protection(home: Home) -> Iterator[Judgement]:
    """Whether people who scald easily are kept from water hotter than a bath may be."""
    cylinder = home.plant.cylinder
    people = [str(v).replace("_", " ") for v in home.household.vulnerabilities
              if v in _SCALDS_EASILY]  # fmt: skip
    if cylinder is None or not people:
        return
    hottest = _hottest_at_a_tap(cylinder)
    texts = {"who": ", ".join(people), "hottest": shown(hottest.value, "°C", 0)}
    place = home.places.get("cylinder", "")
    subject = Subject("scald_protection", place)
    yield judge_yes_or_no(subject, hottest.value <= _HOTTEST_BATH, texts)
    band = Band(None, _HOTTEST_ADVISED, "°C", "UK health-estates guidance, bath", 0)
    yield judge_by_rule_of_thumb(Subject("outlet_temperature", place), hottest, band)


def _hottest_at_a_tap(cylinder: Cylinder) -> KeyFigure:
    found = "set_temperature", cylinder.set_temperature
    if cylinder.mixing_valve_temperature is not None:
        found = "mixing_valve_temperature", cylinder.mixing_valve_temperature
    elif cylinder.hygiene is not None and cylinder.hygiene.temperature > cylinder.set_temperature:
        found = "hygiene.temperature", cylinder.hygiene.temperature
    name = f"plant.cylinder.{found[0]}"
    return given(name, "hottest water leaving the cylinder", found[1], "°C", place=name)
