"""What the verdicts say about the two demo homes: nothing of the one, every fault of the other."""

from __future__ import annotations

import pytest

from hearthbook.commissioning.document import commissioning_document
from hearthbook.commissioning.judgements import judge_home
from hearthbook.commissioning.verdicts import Verdict
from hearthbook.commissioning.wording import words
from hearthbook.design.checks import shortfalls
from hearthbook.design.results import Design
from hearthbook.documents.defects import defects
from hearthbook.documents.figures import Basis, KeyFigure, figures_in, with_inputs
from hearthbook.render.text import render
from tests.commissioning.changing import judged

# The faults built into the home with faults: how they show, and what to do about each.
PLANTED = {
    "undersized bedroom radiator": ("room_coverage.front_bedroom", "next_low", "larger"),
    "cold bedroom": ("room_temperature.front_bedroom", "next_low", "emitter"),
    "flat vessel, as measured": ("vessel_precharge", "next_low", "pump the vessel up"),
    "flat vessel, as the gauge shows it": ("hot_pressure", "next_high", "gas charge"),
    "curve set too high": ("curve", "next_high", "proposed points"),
    "vents left open": ("automatic_vents_closed", "next_no", "Close them"),
    "too little open volume": ("open_volume", "next_low", "volumiser"),
    "loop left connected": ("filling_disconnected", "next_no", "Disconnect and cap"),
    "filter full of dirt": ("filter_clean", "next_no", "clean it"),
    "open gully beside gas that burns": ("drain_in_zone", "next_no", "keep the unit off"),
    "cylinder nobody signed for": ("cylinder_record", "next_no", "signs"),
    "too little flow through it": ("flow_rate", "next_low", "filter"),
}


def test_nothing_is_outside_in_the_well_done_home(well_done: Design) -> None:
    found = judge_home(well_done)
    assert {j.key: j.reason for j in found.judgements if j.verdict is not Verdict.WITHIN} == {}
    assert found.open_safety_items == ()


def test_nothing_falls_short_in_the_design_of_the_well_done_home(well_done: Design) -> None:
    assert shortfalls(well_done) == ()


@pytest.mark.parametrize(("key", "step", "word"), PLANTED.values(), ids=PLANTED)
def test_every_planted_fault_is_found_with_what_to_do(
    key: str, step: str, word: str, faulty: Design
) -> None:
    found = judged(faulty)[key]
    assert found.verdict is Verdict.OUTSIDE
    assert found.next_step == words(key.partition(".")[0], step)
    assert word in found.next_step


def test_the_curve_of_the_faulty_home_is_some_eight_kelvin_too_high(faulty: Design) -> None:
    reading = judged(faulty)["curve"].reading
    assert reading is not None
    assert reading.value == pytest.approx(8.0, abs=1.0)


def test_the_design_finds_what_can_be_found_before_anybody_measures(faulty: Design) -> None:
    subjects = " ".join(found.subject for found in shortfalls(faulty))
    for about in ("front bedroom", "curve", "Water that always circulates"):
        assert about in subjects


def test_the_faulty_home_must_not_be_handed_over(faulty: Design) -> None:
    keys = [found.key for found in judge_home(faulty).open_safety_items]
    assert keys == [
        "filling_disconnected",
        "drain_in_zone",
        "openings_in_zone",
        "cylinder_record",
        "open_item.2",
    ]


@pytest.mark.parametrize("name", ["well_done", "faulty"])
def test_the_verdicts_as_a_document_have_no_defect_and_name_everything(
    name: str, request: pytest.FixtureRequest
) -> None:
    design: Design = request.getfixturevalue(name)
    found = judge_home(design)
    document = commissioning_document(design, found)
    assert defects(document) == ()
    written = " ".join(render(document).replace("|", " ").split())
    for judgement in found.judgements:
        if judgement.verdict is not Verdict.WITHIN:
            assert judgement.next_step in written


def test_the_dangers_stand_before_all_other_faults(faulty: Design) -> None:
    written = render(commissioning_document(faulty, judge_home(faulty)))
    assert written.index("do not hand over") < written.index("Outside\n")


@pytest.mark.parametrize("name", ["well_done", "faulty"])
def test_every_reading_and_target_can_be_followed_to_the_record(
    name: str, request: pytest.FixtureRequest
) -> None:
    for judgement in judge_home(request.getfixturevalue(name)).judgements:
        for figure in figures_in((judgement.reading, judgement.target)):
            assert all(_has_its_ground(part) for part in with_inputs(figure)), judgement.key


def _has_its_ground(figure: KeyFigure) -> bool:
    working = figure.working
    if figure.basis is Basis.CALCULATED:
        return bool(working.formula and working.inputs and working.source)
    return bool(working.source)
