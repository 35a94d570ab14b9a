"""What is still to be found out."""

from __future__ import annotations

from typing import Any

import pytest

from hearthbook.survey.unknowns import unknowns
from tests.design.buildings import EVERYTHING_GIVEN, home_with, one_room


def _places(**changes: Any) -> dict[str, bool]:
    found = unknowns(home_with([one_room()], **changes))
    return {unknown.place: unknown.is_needed for unknown in found}


def _with_wall(**values: Any) -> list[dict[str, Any]]:
    wall = {"id": "wall", "name": "wall", "kind": "wall", "evidence": "seen", **values}
    return [wall, *EVERYTHING_GIVEN["constructions"][1:]]


def test_a_home_that_answers_everything_leaves_nothing_to_find_out() -> None:
    assert _places() == {}


def test_the_design_temperature_is_needed_and_comes_first() -> None:
    home = home_with([one_room()], climate={}, constructions=_with_wall(typical="by_age"))
    first = unknowns(home)[0]
    assert first.place == "building.climate.design_outdoor_temperature"
    assert first.is_needed


def test_a_design_temperature_without_its_table_is_asked_for() -> None:
    climate = {"design_outdoor_temperature": -3.0, "correct_for_altitude": False}
    assert _places(climate=climate) == {"building.climate.design_basis": False}


def test_altitudes_are_asked_for_where_the_correction_is_wanted() -> None:
    climate = {"design_outdoor_temperature": -3.0, "design_basis": "invented"}
    assert set(_places(climate=climate)) == {
        "building.altitude",
        "building.climate.reference_altitude",
    }


@pytest.mark.parametrize(("built", "is_needed"), [(None, True), (1950, False)])
def test_a_wall_known_by_age_alone_needs_the_age(built: int | None, is_needed: bool) -> None:
    for wall in ({}, {"typical": "by_age"}):
        places = _places(constructions=_with_wall(**wall), built=built)
        assert places == {"building.constructions.wall": is_needed}


def test_an_assumed_wall_is_asked_for() -> None:
    places = _places(constructions=_with_wall(u_value=1.0, evidence="assumed"))
    assert places == {"building.constructions.wall": False}


def test_tightness_is_asked_for_where_rooms_take_usual_air_changes() -> None:
    found = unknowns(home_with([one_room(air_changes=None)]))
    assert [u.place for u in found] == ["building.ventilation.air_changes_at_50_pascals"]
