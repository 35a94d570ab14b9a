"""The home as found: what is given stands, what is missing is assumed with its source."""

from __future__ import annotations

from typing import Any

import pytest

from hearthbook.design.heat_loss import heat_loss
from hearthbook.documents.figures import Basis, KeyFigure, book_of
from hearthbook.errors import Incomplete, NotFound
from hearthbook.record.building import RoomUse
from hearthbook.record.home import Home
from hearthbook.record.parts import Evidence
from hearthbook.survey import air, answers
from hearthbook.survey.typical import _table, answered, typical_cases, typical_value
from hearthbook.units import TRADE_UNITS
from tests.design.buildings import home_with, one_room


@pytest.mark.parametrize("subject", list(_table()))
def test_every_typical_value_has_a_unit_a_number_and_a_source_with_its_mark(subject: str) -> None:
    entry = _table()[subject]
    assert entry["unit"] in TRADE_UNITS
    assert entry["source"].strip()
    cases = typical_cases(subject)
    assert cases
    assert all(isinstance(entry[case], int | float) for case in cases)


@pytest.mark.parametrize("use", list(RoomUse))
def test_every_use_of_a_room_has_a_temperature_and_air_changes(use: RoomUse) -> None:
    room = one_room(use=use.value, wanted_temperature=None, air_changes=None)
    for built in (1960, 2003, 2015, None):
        home = home_with([room], built=built)
        found = home.building.rooms[0]
        assert answers.room_temperature(found).basis is Basis.ASSUMED
        assert air.usual_air_changes(home, found).value > 0
        assert air.hygiene_air_changes(found).value > 0


def test_an_answer_in_the_record_is_taken_as_it_stands() -> None:
    figure = answered(17.5, "room_temperature", "living", name="a.b", label="room")
    assert (figure.value, figure.basis) == (17.5, Basis.DOCUMENTED)
    assert figure.working.source == "record: a.b"


def test_a_missing_answer_is_assumed_and_says_so() -> None:
    figure = answered(None, "room_temperature", "living", name="a.b", label="room")
    assert (figure.value, figure.basis) == (21.0, Basis.ASSUMED)
    assert figure.working.note == "not answered: a.b"
    assert "from memory" in figure.working.source


def test_an_unknown_case_names_those_there_are() -> None:
    with pytest.raises(NotFound, match=r"'straw_bale' is not among the typical values of constru"):
        typical_value("construction", "straw_bale", name="u", label="U")


def test_an_unknown_subject_is_refused() -> None:
    with pytest.raises(NotFound, match="no subject 'moon_phase'"):
        typical_cases("moon_phase")


def test_a_typical_value_is_held_in_si() -> None:
    wall = typical_value("wall_thickness", name="w", label="wall")
    assert wall.value == pytest.approx(0.3)
    assert wall.shown() == "300\u00a0mm"


@pytest.mark.parametrize(
    ("built", "band"),
    [(1700, "until_1929"), (1929, "until_1929"), (1930, "until_1975"), (2012, "later")],
)
def test_a_home_falls_into_the_band_of_its_year(built: int, band: str) -> None:
    assert answers.age_band(built) == band


@pytest.mark.parametrize(
    ("evidence", "basis"),
    [
        (Evidence.SEEN, Basis.MEASURED),
        (Evidence.DOCUMENTED, Basis.DOCUMENTED),
        (Evidence.ASSUMED, Basis.ASSUMED),
    ],
)
def test_evidence_becomes_the_standing_of_a_figure(evidence: Evidence, basis: Basis) -> None:
    assert answers.basis_of(evidence) is basis


def test_what_no_eye_can_see_is_never_called_measured() -> None:
    for evidence in Evidence:
        assert answers.basis_of_property(evidence) is not Basis.MEASURED
    assert answers.basis_of_property(Evidence.ASSUMED) is Basis.ASSUMED


def test_a_wall_that_was_seen_has_measured_lengths_and_looked_up_properties(
    well_done_home: Home,
) -> None:
    book = book_of(heat_loss(well_done_home))
    stem = "building.constructions.loft_ceiling.layers.2"
    assert book[f"{stem}.thickness"].basis is Basis.MEASURED
    assert book[f"{stem}.conductivity"].basis is Basis.DOCUMENTED
    assert book["heat_loss.constructions.window_1998.u_value"].basis is Basis.DOCUMENTED
    assert book["building.rooms.kitchen.air_changes"].basis is Basis.DOCUMENTED


def _climate(**values: Any) -> KeyFigure:
    return answers.annual_mean_temperature(home_with([one_room()], climate=values))


def test_the_year_s_mean_is_given_or_comes_from_the_months_or_is_usual() -> None:
    months = [4.0, 4.2, 5.9, 8.1, 11.2, 13.9, 15.8, 15.6, 13.3, 10.0, 6.7, 4.4]
    given = _climate(annual_mean_temperature=9.0, monthly_mean_temperatures=months)
    computed = _climate(monthly_mean_temperatures=months)
    assert (given.value, given.basis) == (9.0, Basis.DOCUMENTED)
    assert computed.value == pytest.approx(sum(months) / 12)
    assert len(computed.working.inputs) == 12
    assert (_climate().value, _climate().basis) == (10.0, Basis.ASSUMED)


def test_gains_nobody_gave_follow_the_floor_area() -> None:
    home = home_with([one_room()], internal_gains=None)
    gains = answers.internal_gains(home, answers.floor_area(home.building.rooms[0]))
    assert gains.value == pytest.approx(20.0 * 5.0)
    assert gains.working.inputs[0].basis is Basis.ASSUMED


def test_a_room_s_own_height_goes_before_its_storey_s() -> None:
    home = home_with([one_room(height=3.0), one_room("den")])
    heights = [answers.room_height(home, room).value for room in home.building.rooms]
    assert heights == [3.0, 2.5]


def test_listed_bridges_leave_no_supplement_and_silence_the_usual_one() -> None:
    bridge = {"name": "lintel", "length": 10.0, "transmittance": 0.3}
    listed = home_with([one_room()], thermal_bridge_supplement=None, thermal_bridges=[bridge])
    silent = home_with([one_room()], thermal_bridge_supplement=None)
    assert answers.thermal_bridge_supplement(listed).value == 0.0
    assert answers.thermal_bridge_supplement(silent).value == pytest.approx(0.10)


def test_no_design_temperature_is_assumed() -> None:
    with pytest.raises(Incomplete, match=r"climate\.design_outdoor_temperature is missing"):
        answers.design_outdoor_temperature(home_with([one_room()], climate={}))


@pytest.mark.parametrize("subject", list(_table()))
def test_no_typical_value_is_shown_as_nothing(subject: str) -> None:
    for case in typical_cases(subject):
        figure = typical_value(subject, case, name=f"assumptions.{subject}", label=subject)
        digits = figure.shown().split("\N{NO-BREAK SPACE}")[0].replace(",", "")
        assert figure.value == 0 or float(digits.rstrip("%").replace("−", "-")) != 0
