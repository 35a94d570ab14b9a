"""What must never pass: missing safety devices, scalding water, tests that prove nothing."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest

from hearthbook.commissioning.judgements import judge_home
from hearthbook.commissioning.verdicts import Judgement, Verdict
from hearthbook.design.results import Design, design_home
from hearthbook.record.commissioning import HandedDocument
from hearthbook.record.home import Home
from hearthbook.record.household import Vulnerability
from hearthbook.survey.unknowns import unknowns


def _judged(home: Home) -> dict[str, Judgement]:
    return {one.key: one for one in judge_home(design_home(home)).judgements}


def _with(home: Home, part: str, **changes: Any) -> Home:
    return home.model_copy(update={part: getattr(home, part).model_copy(update=changes)})


def _with_cylinder(home: Home, **changes: Any) -> Home:
    assert home.plant.cylinder is not None
    return _with(home, "plant", cylinder=home.plant.cylinder.model_copy(update=changes))


def _with_look(home: Home, kind: str, result: str) -> Home:
    assert home.commissioning is not None
    checks = tuple(
        c.model_copy(update={"result": result}) if c.kind == kind else c
        for c in home.commissioning.checks
    )
    return _with(home, "commissioning", checks=checks)


def _with_value(home: Home, kind: str, value: float) -> Home:
    assert home.commissioning is not None
    readings = tuple(
        r.model_copy(update={"value": value}) if r.kind == kind else r
        for r in home.commissioning.readings
    )
    return _with(home, "commissioning", readings=readings)


@pytest.mark.parametrize(
    ("circuit", "key"), [("heating", "safety_valve"), ("drinking_water", "drinking_water_valve")]
)
def test_a_missing_safety_valve_forbids_the_handover(
    well_done_home: Home, circuit: str, key: str
) -> None:
    valves = tuple(v for v in well_done_home.plant.safety_valves if v.circuit != circuit)
    found = _judged(_with(well_done_home, "plant", safety_valves=valves))[key]
    assert found.verdict is Verdict.OUTSIDE
    assert found.is_safety
    assert _judged(well_done_home)[key].verdict is Verdict.WITHIN


@pytest.mark.parametrize("kind", ["cut_out_intact", "safety_valve_lifted", "electrical_certificate",
                                  "relief_discharge_safe", "freeze_protection_fitted",
                                  "filling_disconnected"])  # fmt: skip
def test_a_safety_look_that_is_owed_cannot_be_called_not_applicable(
    well_done_home: Home, kind: str
) -> None:
    found = _judged(_with_look(well_done_home, kind, "not_applicable"))[kind]
    assert found.verdict is Verdict.CANNOT_TELL
    assert found.is_safety


def test_another_look_may_be_not_applicable(well_done_home: Home) -> None:
    assert "balanced" not in _judged(_with_look(well_done_home, "balanced", "not_applicable"))


def _scalding(home: Home, who: Vulnerability, mixing: float | None) -> Judgement:
    home = _with(home, "household", vulnerabilities=(who,))
    return _judged(_with_cylinder(home, mixing_valve_temperature=mixing))["scald_protection"]


# Approved Document G: at most 48 °C at a bath. The weekly run reaches 60 °C.
@pytest.mark.parametrize(
    ("mixing", "verdict"),
    [(44.0, Verdict.WITHIN), (48.0, Verdict.WITHIN), (55.0, Verdict.OUTSIDE),
     (None, Verdict.OUTSIDE)],
)  # fmt: skip
def test_a_weekly_run_needs_a_mixing_valve_where_people_scald_easily(
    well_done_home: Home, mixing: float | None, verdict: Verdict
) -> None:
    found = _scalding(well_done_home, Vulnerability.INFANT, mixing)
    assert found.verdict is verdict
    assert found.is_safety


def test_scald_protection_is_not_judged_where_nobody_scalds_easily(well_done_home: Home) -> None:
    home = _with(well_done_home, "household", vulnerabilities=(Vulnerability.HEARING,))
    assert "scald_protection" not in _judged(home)


@pytest.mark.parametrize(
    ("minutes", "verdict"), [(0, Verdict.OUTSIDE), (10, Verdict.OUTSIDE), (30, Verdict.WITHIN)]
)
def test_a_hygiene_run_must_be_held(well_done_home: Home, minutes: float, verdict: Verdict) -> None:
    assert well_done_home.plant.cylinder is not None
    assert well_done_home.plant.cylinder.hygiene is not None
    hygiene = well_done_home.plant.cylinder.hygiene.model_copy(update={"hold": minutes * 60.0})
    found = _judged(_with_cylinder(well_done_home, hygiene=hygiene))
    assert found["hygiene_fits_household"].verdict is verdict


# 1.3 times a safety valve of 3 bar is 3.9 bar: EN 14336, from memory. The gauge is good to 0.1.
@pytest.mark.parametrize(
    ("bar", "verdict"),
    [(1.0, Verdict.OUTSIDE), (3.0, Verdict.OUTSIDE), (3.85, Verdict.LOOK_AGAIN),
     (3.9, Verdict.WITHIN)],
)  # fmt: skip
def test_a_pressure_test_must_go_beyond_the_safety_valve(
    well_done_home: Home, bar: float, verdict: Verdict
) -> None:
    found = _judged(_with_value(well_done_home, "pressure_test", bar))
    assert found["pressure_test_level"].verdict is verdict


def test_the_makers_flow_passes_even_where_the_emitters_need_less(well_done_home: Home) -> None:
    unit = well_done_home.plant.heat_pump.model_copy(update={"nominal_flow": 20e-3 / 60})
    home = _with_value(_with(well_done_home, "plant", heat_pump=unit), "flow_rate", 20.0)
    assert _judged(home)["flow_rate"].verdict is Verdict.WITHIN


def test_no_vessel_recorded_is_not_a_vessel_large_enough(well_done_home: Home) -> None:
    vessels = tuple(v for v in well_done_home.plant.expansion_vessels if v.circuit != "heating")
    found = _judged(_with(well_done_home, "plant", expansion_vessels=vessels))["vessel_size"]
    assert found.verdict is Verdict.CANNOT_TELL


def test_a_thermostatic_valve_in_the_thermostats_room_is_found(
    well_done: Design, faulty: Design
) -> None:
    def verdict(design: Design) -> Verdict:
        found = {one.key: one for one in judge_home(design).judgements}
        return found["thermostat_room"].verdict

    assert verdict(well_done) is Verdict.WITHIN
    assert verdict(faulty) is Verdict.OUTSIDE


def test_a_system_left_at_its_own_top_up_mark_is_not_well_filled(well_done_home: Home) -> None:
    mark = design_home(well_done_home).expansion.top_up_below
    home = _with_value(well_done_home, "cold_pressure", mark.value / 1e5 - 0.01)
    assert _judged(home)["cold_pressure"].verdict is not Verdict.WITHIN


def _heard(home: Home, limit: float, measured: float) -> dict[str, Judgement]:
    windows = tuple(n.model_copy(update={"limit": limit}) for n in home.siting.neighbours)
    return _judged(_with_value(_with(home, "siting", neighbours=windows), "sound_pressure",
                               measured))  # fmt: skip


# The prediction is 30.4 dB(A); a planning limit is met or not.
@pytest.mark.parametrize(("limit", "verdict"), [(31.0, Verdict.WITHIN), (30.0, Verdict.OUTSIDE)])
def test_a_prediction_above_the_limit_is_not_excused_by_its_range(
    well_done_home: Home, limit: float, verdict: Verdict
) -> None:
    assert _heard(well_done_home, limit, 28.0)["sound.window_number_9"].verdict is verdict


def test_a_measurement_above_the_limit_does_not_pass_for_being_as_predicted(
    well_done_home: Home,
) -> None:
    found = _heard(well_done_home, 31.0, 32.0)["sound_measured.window_number_9"]
    assert found.verdict is not Verdict.WITHIN


def _with_papers(home: Home, *names: str, status: str = "handed_over") -> Home:
    papers = tuple(
        HandedDocument.model_validate({"name": name, "where": "folder", "status": status})
        for name in names
    )
    return _with(home, "commissioning", documents=papers)


@pytest.mark.parametrize(
    ("names", "status", "verdict"),
    [
        (("record of the unvented cylinder",), "held_by_firm", Verdict.WITHIN),
        (("record of the unvented cylinder",), "to_follow", Verdict.OUTSIDE),
        (("cylinder maker's instructions",), "handed_over", Verdict.OUTSIDE),
        ((), "handed_over", Verdict.CANNOT_TELL),
    ],
)
def test_an_unvented_cylinder_has_its_commissioning_record(
    well_done_home: Home, names: tuple[str, ...], status: str, verdict: Verdict
) -> None:
    found = _judged(_with_papers(well_done_home, *names, status=status))["cylinder_record"]
    assert found.verdict is verdict
    assert found.is_safety
    assert not found.next_step or "qualified for unvented hot water" in found.next_step


@pytest.mark.parametrize(
    ("is_internal", "verdict"),
    [(True, Verdict.WITHIN), (False, Verdict.OUTSIDE), (None, Verdict.CANNOT_TELL)],
)
def test_an_unvented_cylinder_has_room_for_its_growing_water(
    well_done_home: Home, is_internal: bool | None, verdict: Verdict
) -> None:
    vessels = tuple(v for v in well_done_home.plant.expansion_vessels if v.circuit == "heating")
    home = _with(well_done_home, "plant", expansion_vessels=vessels)
    found = _judged(_with_cylinder(home, has_internal_expansion=is_internal))
    assert found["drinking_water_expansion"].verdict is verdict
    assert found["drinking_water_expansion"].is_safety
    asked = {one.place for one in unknowns(_with_cylinder(home, has_internal_expansion=None))}
    assert "plant.cylinder.has_internal_expansion" in asked


def test_a_vented_cylinder_owes_neither(well_done_home: Home) -> None:
    found = _judged(_with_cylinder(well_done_home, is_unvented=False))
    assert not {"cylinder_record", "drinking_water_expansion"} & set(found)


# Bath 44 °C, shower and basin 41 °C: UK health-estates guidance on mixing valves.
@pytest.mark.parametrize(("mixing", "verdict"), [(41.0, Verdict.WITHIN), (44.0, Verdict.WITHIN),
                                                 (44.5, Verdict.LOOK_AGAIN),
                                                 (48.0, Verdict.LOOK_AGAIN)])  # fmt: skip
def test_water_hotter_than_a_bath_is_looked_at_again_where_people_scald_easily(
    well_done_home: Home, mixing: float, verdict: Verdict
) -> None:
    changed = _with_cylinder(well_done_home, mixing_valve_temperature=mixing)
    found = _judged(changed)["outlet_temperature"]
    assert found.verdict is verdict
    assert not found.is_safety


def _with_test_of(home: Home, minutes: float | None) -> Home:
    assert home.commissioning is not None
    start = next(r for r in home.commissioning.readings if r.kind == "pressure_test")
    assert start.at is not None
    end = None if minutes is None else start.at + dt.timedelta(minutes=minutes)
    readings = tuple(
        r.model_copy(update={"at": end}) if r.kind == "pressure_test_end" else r
        for r in home.commissioning.readings
    )
    return _with(home, "commissioning", readings=readings)


# Half an hour: common practice, no source.
@pytest.mark.parametrize(("minutes", "verdict"), [(30.0, Verdict.WITHIN), (29.0,
                         Verdict.LOOK_AGAIN), (-30.0, Verdict.LOOK_AGAIN),
                         (None, Verdict.CANNOT_TELL)])  # fmt: skip
def test_a_pressure_test_lasts_half_an_hour(
    well_done_home: Home, minutes: float | None, verdict: Verdict
) -> None:
    found = _judged(_with_test_of(well_done_home, minutes))["pressure_test_length"]
    assert found.verdict is verdict
