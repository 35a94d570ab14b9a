"""What a shortfall advises must be able to help."""

from __future__ import annotations

from typing import Any

import pytest

from hearthbook.commissioning.judgements import judge_home
from hearthbook.commissioning.verdicts import Verdict
from hearthbook.design.checks import shortfalls
from hearthbook.design.results import Design, design_home
from hearthbook.design.shortfall import Shortfall
from hearthbook.record.home import Home
from hearthbook.survey.unknowns import unknowns


def _with_emitters(home: Home, without: set[str], **changes: dict[str, Any]) -> Home:
    """The home without some emitters, and with others changed."""
    emitters = tuple(
        e.model_copy(update=changes.get(e.id, {})) for e in home.emitters if e.id not in without
    )
    runs = tuple(
        run.model_copy(update={"serves": tuple(s for s in run.serves if s not in without)})
        for run in home.pipework.runs
    )
    pipework = home.pipework.model_copy(update={"runs": runs})
    return home.model_copy(update={"emitters": emitters, "pipework": pipework})


def _about(design: Design, name: str) -> list[Shortfall]:
    return [found for found in shortfalls(design) if name in found.subject]


@pytest.fixture(scope="module")
def only_a_small_rail(well_done_home: Home) -> Design:
    rail = {"rated_output": 200.0}
    return design_home(_with_emitters(well_done_home, {"rad_bathroom"}, towel_rail=rail))


# 496 W from a rail of 200 W at 50 K and exponent 1.24: 50 · (496/200)^(1/1.24) + 22 + 2.5 = 128 °C.
def test_a_hotter_curve_is_not_offered_where_none_would_do(only_a_small_rail: Design) -> None:
    (found,) = _about(only_a_small_rail, "bathroom")
    assert "or accept a hotter curve" not in found.advice


def test_the_flow_temperature_does_not_claim_to_cover_a_room_it_cannot(
    only_a_small_rail: Design, well_done_home: Home
) -> None:
    figure = only_a_small_rail.emitters.required_flow_temperature
    assert figure.label.endswith("every room that can be covered")
    assert "bathroom" in figure.working.note
    assert design_home(well_done_home).emitters.required_flow_temperature.label.endswith("room")


def test_a_room_without_emitter_is_told_once(well_done_home: Home) -> None:
    found = _about(design_home(_with_emitters(well_done_home, {"rad_landing"})), "landing")
    assert [one.subject for one in found] == ["No emitter in the landing"]


def test_an_output_nobody_read_is_asked_for(well_done_home: Home) -> None:
    changed = _with_emitters(well_done_home, set(), rad_hall={"rated_output": None})
    assert "emitters.rad_hall.rated_output" in {one.place for one in unknowns(changed)}
    assert not any("rated_output" in one.place for one in unknowns(well_done_home))


def test_a_vessel_nobody_found_is_asked_for(well_done_home: Home) -> None:
    plant = well_done_home.plant.model_copy(update={"expansion_vessels": ()})
    places = {one.place for one in unknowns(well_done_home.model_copy(update={"plant": plant}))}
    assert "plant.expansion_vessels" in places


@pytest.mark.parametrize(("source", "to", "is_told"), [
    ("heat_pump", 68.0, True),  # 68 °C needs about 74 °C of heating water; the unit makes 70 °C
    ("heat_pump", 60.0, False),
    ("both", 68.0, False),
])  # fmt: skip
def test_a_hygiene_run_the_unit_cannot_make_is_told(
    well_done_home: Home, source: str, to: float, is_told: bool
) -> None:
    plant = well_done_home.plant
    assert plant.cylinder is not None
    assert plant.cylinder.hygiene is not None
    regime = plant.cylinder.hygiene.model_copy(update={"heat_source": source, "temperature": to})
    cylinder = plant.cylinder.model_copy(update={"hygiene": regime})
    changed = plant.model_copy(update={"cylinder": cylinder})
    design = design_home(well_done_home.model_copy(update={"plant": changed}))
    assert bool(_about(design, "Hygiene run")) is is_told


@pytest.mark.parametrize(("most", "is_told"), [(52.0, True), (70.0, False), (None, False)])
def test_a_cylinder_hotter_than_the_unit_makes_is_told(
    well_done_home: Home, most: float | None, is_told: bool
) -> None:
    unit = well_done_home.plant.heat_pump.model_copy(update={"maximum_flow_temperature": most})
    plant = well_done_home.plant.model_copy(update={"heat_pump": unit})
    design = design_home(well_done_home.model_copy(update={"plant": plant}))
    assert bool(_about(design, "Hot water hotter")) is is_told  # 50 °C, and 6 K over it


def test_air_colder_than_the_unit_runs_in_is_told(well_done_home: Home) -> None:
    unit = well_done_home.plant.heat_pump.model_copy(update={"lowest_outdoor_temperature": -2.0})
    plant = well_done_home.plant.model_copy(update={"heat_pump": unit})
    design = design_home(well_done_home.model_copy(update={"plant": plant}))
    assert _about(design, "Air colder")  # −3.2 °C at this home
    assert not _about(design_home(well_done_home), "Air colder")


def test_a_planned_night_deeper_than_is_worth_setting_is_told(
    well_done_home: Home, faulty_home: Home
) -> None:
    (found,) = _about(design_home(faulty_home), "Colder night")
    assert "4.0" in found.finding
    assert not _about(design_home(well_done_home), "Colder night")


def _in_a_colder_place(home: Home, outdoor: float) -> Design:
    climate = home.building.climate.model_copy(update={"design_outdoor_temperature": outdoor})
    building = home.building.model_copy(update={"climate": climate})
    return design_home(home.model_copy(update={"building": building}))


# At −12 °C every room of the well-done home needs 48 °C or more, and 45 °C is its design flow.
def test_a_curve_is_not_called_too_hot_where_rooms_are_short(well_done_home: Home) -> None:
    design = _in_a_colder_place(well_done_home, -12.0)
    assert _about(design, "Weather curve") == []
    assert len(_about(design, "Design flow temperature")) == 1
    curve = {one.key: one for one in judge_home(design).judgements}["curve"]
    assert curve.verdict is Verdict.CANNOT_TELL


def test_one_short_room_does_not_excuse_a_curve_too_hot(faulty_home: Home) -> None:
    assert len(_about(design_home(faulty_home), "Weather curve")) == 1
    assert _about(design_home(faulty_home), "Design flow temperature") == []
