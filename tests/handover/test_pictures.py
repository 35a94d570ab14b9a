from __future__ import annotations

from dataclasses import dataclass

import pytest

from hearthbook.design.results import Design, design_home
from hearthbook.documents.drawings import Drawing
from hearthbook.errors import NotFound
from hearthbook.handover import pictures
from hearthbook.handover.pictures.place import room_named_in
from hearthbook.handover.pictures.wording import say
from hearthbook.record.home import Home
from hearthbook.render.drawings import draw
from tests.render.drawings.lettering import faults_in, lettering_of


@dataclass(frozen=True)
class Basis:
    design: Design
    language: str = "en-GB"


@pytest.fixture(scope="module")
def well_done(well_done_home: Home) -> Basis:
    return Basis(design_home(well_done_home))


@pytest.fixture(scope="module")
def faulty(faulty_home: Home) -> Basis:
    return Basis(design_home(faulty_home))


def every_drawing(basis: Basis) -> list[Drawing]:
    found = [
        pictures.system_schematic(basis),
        pictures.pressure_gauge(basis),
        pictures.house_section(basis),
        pictures.clear_space(basis),
        pictures.valve_positions(basis),
        pictures.top_up_steps(basis),
        pictures.thermostatic_scale(basis),
        pictures.hand_feel_strip(basis),
        *(pictures.meter_display(basis, meter) for meter in basis.design.home.meters),
    ]
    return [drawing for drawing in found if drawing is not None]


@pytest.mark.parametrize("home", ["well_done", "faulty"])
def test_the_drawings_of_the_demo_homes_have_no_fault(
    home: str, request: pytest.FixtureRequest
) -> None:
    for drawing in every_drawing(request.getfixturevalue(home)):
        for svg in (draw(drawing, "wide"), draw(drawing, "narrow")):
            assert faults_in(svg) == []
            words = " ".join(item.words for item in lettering_of(svg))
            assert "None" not in words
            assert "{" not in words


def test_the_schematic_shows_only_the_parts_of_the_home(well_done: Basis, faulty: Basis) -> None:
    kinds = [
        {part.kind for part in pictures.system_schematic(basis).parts}
        for basis in (well_done, faulty)
    ]
    assert "volumiser" in kinds[0]
    assert "volumiser" not in kinds[1]
    assert "backup_heater" in kinds[1]
    assert "backup_heater" not in kinds[0]


def test_the_parts_are_numbered_from_one_without_a_gap(well_done: Basis) -> None:
    numbers = [part.number for part in pictures.system_schematic(well_done).parts]
    assert numbers == list(range(1, len(numbers) + 1))


def test_the_key_can_stand_in_the_text_instead_of_the_drawing(well_done: Basis) -> None:
    drawing = pictures.system_schematic(well_done, shows_key=False)
    listed = pictures.system_parts(well_done)
    assert len(listed) == len(drawing.parts)
    assert listed[0].term == f"1 {drawing.parts[0].name}"
    words = {item.words for item in lettering_of(draw(drawing))}
    assert drawing.parts[0].name not in words


def test_every_emitter_stands_once_on_schematic_and_section(well_done: Basis) -> None:
    tags = sorted(str(emitter.number) for emitter in well_done.design.home.emitters)
    system = pictures.system_schematic(well_done)
    house = pictures.house_section(well_done)
    assert sorted(e.tag for storey in system.storeys for e in storey.emitters) == tags
    rooms = [room for storey in house.storeys for room in storey.rooms]
    assert sorted(radiator.tag for room in rooms for radiator in room.radiators) == tags


def test_the_cylinder_stands_in_the_room_its_place_names(well_done: Basis) -> None:
    rooms = [r for storey in pictures.house_section(well_done).storeys for r in storey.rooms]
    holding = [r.name for r in rooms if any(mark.kind == "cylinder" for mark in r.marks)]
    assert holding == ["Landing"]


def test_the_longest_room_name_decides_where_a_part_is(well_done_home: Home) -> None:
    found = room_named_in(well_done_home, "In the cupboard of the Small Bedroom")
    assert found is not None
    assert found.id == "small_bedroom"
    assert room_named_in(well_done_home, "in the garage") is None


def test_the_gauge_carries_the_marks_of_the_design(well_done: Basis) -> None:
    gauge, found = pictures.pressure_gauge(well_done), well_done.design.expansion
    marks = {mark.kind: mark.at_bar * 1e5 for mark in gauge.marks}
    assert marks["top_up"] == pytest.approx(found.top_up_below.value)
    assert marks["call"] == pytest.approx(found.call_above.value)
    assert marks["safety"] == pytest.approx(found.safety_valve.value)
    assert [band.tone for band in gauge.bands] == ["cold", "hot"]


def test_a_household_that_may_not_fill_is_told_to_call(well_done: Basis, faulty: Basis) -> None:
    filling = faulty.design.home.plant.filling
    assert filling is not None
    assert not filling.householder_may_use
    assert pictures.top_up_steps(faulty) is None
    assert pictures.top_up_steps(well_done) is not None
    said = [
        next(m.label for m in pictures.pressure_gauge(basis).marks if m.kind == "top_up")
        for basis in (well_done, faulty)
    ]
    assert said[0].startswith("Top up")
    assert said[1].startswith("Call us")


def test_a_meter_in_megawatt_hours_shows_its_first_reading_in_them(well_done: Basis) -> None:
    # 236 kWh are 0.236 MWh
    meter = next(m for m in well_done.design.home.meters if m.unit == "MWh")
    display = pictures.meter_display(well_done, meter)
    assert (display.before, display.after) == ("0000", "236")
    assert "0.236" in display.result


def test_radiators_get_warmer_as_it_gets_colder(well_done: Basis) -> None:
    strip = pictures.hand_feel_strip(well_done)
    assert strip is not None
    flows = [point.flow_celsius for point in strip.points]
    assert flows == sorted(flows)


def test_missing_words_are_named() -> None:
    with pytest.raises(NotFound, match=r"hold no gauge\.nowhere"):
        say("en-GB", "gauge.nowhere")
    with pytest.raises(NotFound, match="'xx'"):
        say("xx", "gauge.cold")
