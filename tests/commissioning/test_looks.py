"""Things looked at or decided: yes, no, not done, not here; and which of them forbid a handover."""

from __future__ import annotations

from typing import Any

import pytest

from hearthbook.commissioning.judgements import judge_home
from hearthbook.commissioning.verdicts import Judgement, Verdict
from hearthbook.commissioning.wording import is_safety, words
from hearthbook.design.results import Design
from hearthbook.record.commissioning import CheckKind, OpenItem, ReadingKind
from hearthbook.record.home import Home
from hearthbook.record.household import Tenure
from hearthbook.record.plant import BackupHeater, Cylinder
from tests.commissioning.changing import (
    Read,
    commissioned,
    judged,
    with_check,
    with_plant,
    with_reading,
)

# What may burn, scald, poison, burst or electrocute somebody, or foul the drinking water; a list
# made by hand, common practice, no source.
DANGEROUS = {
    CheckKind.FILLING_DISCONNECTED,
    CheckKind.SAFETY_VALVE_LIFTED,
    CheckKind.RELIEF_DISCHARGE_SAFE,
    CheckKind.CUT_OUT_INTACT,
    CheckKind.FREEZE_PROTECTION_FITTED,
    CheckKind.ELECTRICAL_CERTIFICATE,
}
# A look applies to every home unless the part is named here, and only then may it be left out.
NEEDS_A_PART: dict[CheckKind, dict[str, Any]] = {
    CheckKind.AUTOMATIC_VENTS_CLOSED: {"air_vents": ()},
    CheckKind.FILTER_CLEAN: {"filter": None},
    CheckKind.RELIEF_DISCHARGE_SAFE: {"cylinder": None},
    CheckKind.CUT_OUT_INTACT: {"cylinder": None},
    CheckKind.CYLINDER_SENSOR_SECURE: {"cylinder": None},
    CheckKind.FREEZE_PROTECTION_FITTED: {"freeze_protection": None},
    CheckKind.FILLING_DISCONNECTED: {"filling": None},
}


@pytest.mark.parametrize("kind", CheckKind)
@pytest.mark.parametrize(
    ("result", "verdict"),
    [
        ("yes", Verdict.WITHIN),
        ("no", Verdict.OUTSIDE),
        ("not_done", Verdict.CANNOT_TELL),
        ("not_applicable", None),
    ],
)
def test_a_look_gives_the_verdict_of_what_was_found(
    kind: CheckKind, result: str, verdict: Verdict | None, well_done: Design
) -> None:
    if result == "not_applicable" and kind in DANGEROUS:
        verdict = Verdict.CANNOT_TELL  # the record says the part is there: no waving it away
    found = judged(well_done, with_check(well_done.home, kind, result)).get(kind)
    assert (None if found is None else found.verdict) is verdict
    if found is None or verdict is Verdict.WITHIN:
        assert found is None or found.next_step == ""
        return
    name = "next_no" if verdict is Verdict.OUTSIDE else "next_missing_check"
    assert found.next_step == words(kind, name)
    assert "{" not in found.reason + found.next_step


@pytest.mark.parametrize("kind", sorted(set(CheckKind) - {CheckKind.BACKUP_LIMITS_SET}))
def test_a_look_nobody_recorded_is_asked_for_where_the_home_has_the_part(
    kind: CheckKind, well_done: Design
) -> None:
    home = with_check(well_done.home, kind, None)
    assert judged(well_done, home)[kind].verdict is Verdict.CANNOT_TELL
    if kind in NEEDS_A_PART:
        without = with_plant(home, **NEEDS_A_PART[kind])
        assert kind not in judged(well_done, without)


def test_kept_open_emitters_are_looked_at_only_where_there_are_any(well_done: Design) -> None:
    kind = CheckKind.KEPT_OPEN_EMITTERS_OPEN
    home = with_check(well_done.home, kind, None)
    none_kept = tuple(e.model_copy(update={"is_kept_open": False}) for e in home.emitters)
    assert kind not in judged(well_done, home.model_copy(update={"emitters": none_kept}))


@pytest.mark.parametrize("kind", CheckKind)
@pytest.mark.parametrize("result", ["no", "not_done", "not_applicable"])
def test_an_open_danger_forbids_the_handover_and_nothing_else_does(
    kind: CheckKind, result: str, well_done: Design
) -> None:
    home = with_check(well_done.home, kind, result)
    assert _forbidding(well_done, home) == ({str(kind)} if kind in DANGEROUS else set())
    assert is_safety(kind) == (kind in DANGEROUS)


def _forbidding(design: Design, home: Home) -> set[str]:
    return {key for key, found in judged(design, home).items() if _forbids(found)}


def _forbids(found: Judgement) -> bool:
    return found.is_safety and found.verdict is not Verdict.WITHIN


def test_a_note_is_told_as_a_sentence(well_done: Design) -> None:
    done = commissioned(well_done.home)
    checks = tuple(c.model_copy(update={"note": "as agreed"}) for c in done.checks)
    changed = done.model_copy(update={"checks": checks})
    found = judged(well_done, well_done.home.model_copy(update={"commissioning": changed}))
    assert found["filter_clean"].reason == "Cleaned. As agreed."


def test_a_system_without_a_safety_valve_is_never_in_order(well_done: Design) -> None:
    home = with_plant(well_done.home, safety_valves=())
    found = judged(well_done, home)["safety_valve"]
    assert found.verdict is Verdict.OUTSIDE
    assert "must never run without one" in found.next_step


def test_a_drinking_water_valve_does_not_guard_the_heating_water(well_done: Design) -> None:
    drinking = tuple(v for v in well_done.home.plant.safety_valves if v.circuit != "heating")
    assert drinking
    home = with_plant(well_done.home, safety_valves=drinking)
    assert judged(well_done, home)["safety_valve"].verdict is Verdict.OUTSIDE


def test_an_unvented_cylinder_without_its_relief_valve_must_not_be_used(well_done: Design) -> None:
    heating = tuple(v for v in well_done.home.plant.safety_valves if v.circuit == "heating")
    home = with_plant(well_done.home, safety_valves=heating)
    found = judged(well_done, home)["drinking_water_valve"]
    assert found.verdict is Verdict.OUTSIDE
    assert "drinking_water_valve" in _forbidding(well_done, home)


@pytest.mark.parametrize(
    ("mixing", "verdict"), [(46.0, Verdict.WITHIN), (48.0, Verdict.WITHIN), (None, Verdict.OUTSIDE)]
)
def test_people_who_scald_easily_are_kept_from_water_hotter_than_a_bath_may_be(
    mixing: float | None, verdict: Verdict, well_done: Design
) -> None:
    """48 °C at a bath: Approved Document G for new dwellings in England, from memory."""
    cylinder = well_done.home.plant.cylinder
    assert cylinder is not None
    changed = cylinder.model_copy(update={"mixing_valve_temperature": mixing})
    home = with_plant(well_done.home, cylinder=changed)
    assert judged(well_done, home)["scald_protection"].verdict is verdict


def test_a_thermostatic_valve_in_the_thermostat_s_room_is_a_fault(faulty: Design) -> None:
    found = judged(faulty)["thermostat_room"]
    assert found.verdict is Verdict.OUTSIDE
    assert "two controls fight" in found.reason
    opened = tuple(
        setting.model_copy(update={"number": "open"})
        for setting in faulty.home.controls.emitter_settings
    )
    controls = faulty.home.controls.model_copy(update={"emitter_settings": opened})
    home = faulty.home.model_copy(update={"controls": controls})
    assert judged(faulty, home)["thermostat_room"].verdict is Verdict.WITHIN


@pytest.mark.parametrize(
    ("heater", "verdict"),
    [
        (None, None),
        (BackupHeater(power=3000, is_enabled=False), None),
        (BackupHeater(power=3000, is_enabled=True), Verdict.OUTSIDE),
        (BackupHeater(power=3000, is_enabled=True, locked_above=-3), Verdict.WITHIN),
    ],
)
def test_a_backup_heater_needs_an_outdoor_limit(
    heater: BackupHeater | None, verdict: Verdict | None, well_done: Design
) -> None:
    found = judged(well_done, with_plant(well_done.home, backup_heater=heater))
    assert (found["backup_heater"].verdict if "backup_heater" in found else None) is verdict


def test_people_at_risk_need_sixty_degrees_stored_or_run_to_every_week(well_done: Design) -> None:
    """Source: HSE HSG274 part 2 (2014), hot water stored at 60 °C or above."""
    cylinder = well_done.home.plant.cylinder
    assert cylinder is not None
    assert cylinder.hygiene is not None
    regimes = {
        "none": (cylinder.model_copy(update={"hygiene": None}), Verdict.OUTSIDE),
        "cooler": (_regime(cylinder, temperature=55.0), Verdict.OUTSIDE),
        "rarer": (_regime(cylinder, every=10 * 86400.0), Verdict.OUTSIDE),
        "shorter": (_regime(cylinder, hold=10 * 60.0), Verdict.OUTSIDE),
        "weekly": (cylinder, Verdict.WITHIN),
        "stored": (
            cylinder.model_copy(update={"hygiene": None, "set_temperature": 60.0}),
            Verdict.WITHIN,
        ),
    }
    for name, (changed, verdict) in regimes.items():
        found = judged(well_done, with_plant(well_done.home, cylinder=changed))
        assert found["hygiene_fits_household"].verdict is verdict, name


def _regime(cylinder: Cylinder, **changes: float) -> Cylinder:
    assert cylinder.hygiene is not None
    return cylinder.model_copy(update={"hygiene": cylinder.hygiene.model_copy(update=changes)})


def test_a_let_home_needs_the_cautious_regime_whoever_lives_there(well_done: Design) -> None:
    people = well_done.home.household.model_copy(update={"vulnerabilities": ()})
    owned = well_done.home.model_copy(update={"household": people})
    assert "hygiene_fits_household" not in judged(well_done, owned)
    let = people.model_copy(update={"tenure": Tenure.TENANT})
    found = judged(well_done, owned.model_copy(update={"household": let}))
    assert "a let home" in found["hygiene_fits_household"].reason or (
        found["hygiene_fits_household"].verdict is Verdict.WITHIN
    )


def test_without_a_cylinder_nothing_is_said_about_hot_water(well_done: Design) -> None:
    home = with_plant(well_done.home, cylinder=None)
    about = ("hygiene", "cylinder", "reheat", "end_approach", "tap_temperature")
    assert [key for key in judged(well_done, home) if key.startswith(about)] == [
        "cylinder_sensor_secure"
    ]  # it was looked at, so it is told


def test_a_meter_s_first_reading_is_told_in_the_meter_s_own_unit(well_done: Design) -> None:
    """The record keeps energy in kWh; 236 kWh are 0.236 MWh on the meter's face."""
    found = judged(well_done)["meter_baseline.heat_meter"]
    assert found.reason == "Recorded: 0.236 MWh."
    missing = with_reading(well_done.home, Read(ReadingKind.METER, "heat_meter"))
    assert judged(well_done, missing)["meter_baseline.heat_meter"].verdict is Verdict.OUTSIDE


def test_a_side_without_its_free_space_is_outside(well_done: Design) -> None:
    sides = tuple(
        side.model_copy(update={"found": side.required - 0.001 if side.side == "left" else 9.0})
        for side in well_done.home.siting.clearances
    )
    siting = well_done.home.siting.model_copy(update={"clearances": sides})
    found = judged(well_done, well_done.home.model_copy(update={"siting": siting}))
    verdicts = {key: f.verdict for key, f in found.items() if key.startswith("clearance.")}
    assert verdicts.pop("clearance.left") is Verdict.OUTSIDE
    assert set(verdicts.values()) == {Verdict.WITHIN}


def test_an_open_item_is_outside_and_a_dangerous_one_forbids_the_handover(
    well_done: Design,
) -> None:
    items = (
        OpenItem(what="paint the pipe", owner="a painter"),
        OpenItem(what="fit the lid", owner="an electrician", is_safety=True),
    )
    done = commissioned(well_done.home).model_copy(update={"open_items": items})
    home = well_done.home.model_copy(update={"commissioning": done})
    assert _forbidding(well_done, home) == {"open_item.2"}
    assert judged(well_done, home)["open_item.1"].verdict is Verdict.OUTSIDE


def test_the_counts_add_up(faulty: Design) -> None:
    found = judge_home(faulty)
    assert sum(count for _, count in found.counts()) == len(found.judgements)
    assert [len(found.of(verdict)) for verdict, _ in found.counts()] == [
        count for _, count in found.counts()
    ]
