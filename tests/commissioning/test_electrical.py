"""Electrical facts: hints against the record's own figures, left to a competent electrician."""

from __future__ import annotations

from typing import Any

import pytest

from hearthbook.commissioning.electrical import judge_electrical
from hearthbook.commissioning.verdicts import Judgement, Verdict
from hearthbook.record.home import Home
from hearthbook.record.plant import BackupHeater
from hearthbook.survey.unknowns import unknowns
from tests.commissioning.changing import with_plant


def _judged(home: Home, **changes: Any) -> dict[str, Judgement]:
    electrical = home.electrical.model_copy(update=changes)
    changed = home.model_copy(update={"electrical": electrical})
    return {one.key: one for one in judge_electrical(changed)}


# 60 A at 230 V are 13.8 kW: 60 · 230 = 13,800.
@pytest.mark.parametrize(
    ("fuse", "demand", "verdict"),
    [
        (60.0, 13.8e3, Verdict.WITHIN),
        (60.0, 13.9e3, Verdict.OUTSIDE),
        (None, 9e3, Verdict.CANNOT_TELL),
        (60.0, None, Verdict.CANNOT_TELL),
    ],
)
def test_the_demand_is_held_against_the_supply_fuse(
    well_done_home: Home, fuse: float | None, demand: float | None, verdict: Verdict
) -> None:
    found = _judged(well_done_home, main_fuse=fuse, maximum_demand=demand)["maximum_demand"]
    assert found.verdict is verdict


# 14 A of the unit, and (3 kW + 6 kW) / 230 V = 39.1 A of heaters: 53.1 A.
@pytest.mark.parametrize(
    ("fuse", "verdict"),
    [(60.0, Verdict.WITHIN), (40.0, Verdict.OUTSIDE), (None, Verdict.CANNOT_TELL)],
)
def test_the_known_loads_are_added_up(
    well_done_home: Home, fuse: float | None, verdict: Verdict
) -> None:
    heater = BackupHeater.model_validate({"power": 6000, "is_enabled": True})
    home = with_plant(well_done_home, backup_heater=heater)
    found = _judged(home, main_fuse=fuse)["known_loads"]
    assert found.verdict is verdict
    if found.reading is not None:
        assert found.reading.value == pytest.approx(53.13, abs=0.01)


# 13.8 kVA and 60 A: network operators' joint connection process, from memory.
@pytest.mark.parametrize(
    ("notice", "demand", "verdict"),
    [
        ("NN-1", 13.8e3, Verdict.WITHIN),
        ("NN-1", 13.9e3, Verdict.LOOK_AGAIN),
        ("NN-1", None, Verdict.WITHIN),
        ("", 9e3, Verdict.CANNOT_TELL),
    ],
)
def test_a_large_demand_needs_more_than_a_notice(
    well_done_home: Home, notice: str, demand: float | None, verdict: Verdict
) -> None:
    found = _judged(well_done_home, network_notice=notice, maximum_demand=demand)["network_notice"]
    assert found.verdict is verdict


@pytest.mark.parametrize(
    ("rating", "verdict"),
    [(13.0, Verdict.OUTSIDE), (14.0, Verdict.WITHIN), (None, Verdict.CANNOT_TELL)],
)
def test_a_circuit_below_the_unit_s_largest_current_forbids_the_handover(
    well_done_home: Home, rating: float | None, verdict: Verdict
) -> None:
    found = _judged(well_done_home, circuit_rating=rating)["circuit_rating"]
    assert found.verdict is verdict
    assert found.is_safety


@pytest.mark.parametrize(("number", "verdict"), [("E-1", Verdict.WITHIN),
                                                 ("", Verdict.CANNOT_TELL)])  # fmt: skip
def test_a_certificate_without_number_cannot_be_found_again(
    well_done_home: Home, number: str, verdict: Verdict
) -> None:
    found = _judged(well_done_home, certificate=number)["electrical_certificate_number"]
    assert found.verdict is verdict


def test_nothing_is_ever_called_safe_and_every_step_is_an_electricians(
    well_done_home: Home,
) -> None:
    empty = dict.fromkeys(("main_fuse", "circuit_rating", "maximum_demand"))
    found = _judged(well_done_home, **empty, network_notice="", certificate="")
    assert {one.verdict for one in found.values()} == {Verdict.CANNOT_TELL}
    for one in (*found.values(), *_judged(well_done_home).values()):
        assert "safe" not in f"{one.label} {one.reason} {one.next_step}".casefold()
        assert not one.next_step or "electrician" in one.next_step


@pytest.mark.parametrize("missing", ["main_fuse", "maximum_demand"])
def test_what_the_supply_can_carry_is_asked_for(well_done_home: Home, missing: str) -> None:
    electrical = well_done_home.electrical.model_copy(update={missing: None})
    home = well_done_home.model_copy(update={"electrical": electrical})
    assert f"electrical.{missing}" in {one.place for one in unknowns(home)}
