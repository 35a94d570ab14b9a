"""Gas that burns and is heavier than air: drains, openings and sparks within the unit's zone."""

from __future__ import annotations

from typing import Any

import pytest

from hearthbook.commissioning.judgements import judge_home
from hearthbook.commissioning.verdicts import Judgement, Verdict
from hearthbook.commissioning.zone import judge_zone
from hearthbook.record.home import Home
from hearthbook.record.siting import Drain, NearbyOpening
from hearthbook.survey.unknowns import unknowns
from tests.commissioning.changing import with_plant

_DRAIN, _OPENINGS = "drain_in_zone", "openings_in_zone"


def _sited(home: Home, **changes: Any) -> Home:
    return home.model_copy(update={"siting": home.siting.model_copy(update=changes)})


def _judged(home: Home) -> dict[str, Judgement]:
    return {one.key: one for one in judge_zone(home)}


def _drain(kind: str, distance: float | None, has_trap: bool | None) -> Drain:
    given = {"kind": kind, "place": "the yard", "distance": distance, "has_trap": has_trap}
    return Drain.model_validate(given)


def _opening(distance: float, kind: str = "window") -> NearbyOpening:
    return NearbyOpening.model_validate({"name": "x", "kind": kind, "distance": distance})


# The zone of the home is 1 m.
@pytest.mark.parametrize(
    ("kind", "distance", "has_trap", "verdict"),
    [
        ("gully", 0.7, False, Verdict.OUTSIDE),
        ("gully", 0.7, None, Verdict.CANNOT_TELL),
        ("gully", None, False, Verdict.CANNOT_TELL),
        ("gully", 0.7, True, Verdict.WITHIN),
        ("gully", 1.0, False, Verdict.WITHIN),
        ("foul_drain_with_trap", 0.7, None, Verdict.WITHIN),
        ("foul_drain_with_trap", 0.7, False, Verdict.OUTSIDE),
        ("soakaway", None, None, Verdict.WITHIN),
    ],
)
def test_an_open_drain_in_the_zone_forbids_the_handover(
    well_done_home: Home, kind: str, distance: float | None, has_trap: bool | None, verdict: Verdict
) -> None:
    found = _judged(_sited(well_done_home, drain=_drain(kind, distance, has_trap)))[_DRAIN]
    assert found.verdict is verdict
    assert found.is_safety


@pytest.mark.parametrize("kind", ["door", "window", "air_brick", "light_well", "socket", "switch"])
@pytest.mark.parametrize(("distance", "verdict"), [(0.9, Verdict.OUTSIDE), (1.0, Verdict.WITHIN)])
def test_an_opening_or_a_spark_in_the_zone_forbids_the_handover(
    well_done_home: Home, kind: str, distance: float, verdict: Verdict
) -> None:
    found = _judged(_sited(well_done_home, openings=(_opening(distance, kind),)))[_OPENINGS]
    assert found.verdict is verdict
    assert found.is_safety


def test_nobody_looked_is_not_nothing_found(well_done_home: Home) -> None:
    verdicts = [
        _judged(_sited(well_done_home, openings=found))[_OPENINGS].verdict for found in (None, ())
    ]
    assert verdicts == [Verdict.CANNOT_TELL, Verdict.WITHIN]


@pytest.mark.parametrize("missing", ["protective_zone", "drain", "openings"])
def test_what_is_not_recorded_is_asked_for_while_the_refrigerant_burns(
    well_done_home: Home, missing: str
) -> None:
    home = _sited(well_done_home, **{missing: None})
    assert f"siting.{missing}" in {one.place for one in unknowns(home)}
    assert Verdict.CANNOT_TELL in {one.verdict for one in judge_zone(home)}


def test_a_gully_is_asked_its_distance_and_its_trap(well_done_home: Home) -> None:
    home = _sited(well_done_home, drain=_drain("gully", None, None))
    assert {"siting.drain.distance", "siting.drain.has_trap"} <= {u.place for u in unknowns(home)}
    assert not any(one.place.startswith("siting") for one in unknowns(well_done_home))


@pytest.mark.parametrize(
    ("safety_class", "is_judged"), [("A1", False), ("A2L", True), ("A2", True), ("A3", True)]
)
def test_the_zone_is_judged_where_the_refrigerant_burns(
    well_done_home: Home, safety_class: str, is_judged: bool
) -> None:
    changes = {"refrigerant_safety_class": safety_class}
    unit = well_done_home.plant.heat_pump.model_copy(update=changes)
    home = _sited(with_plant(well_done_home, heat_pump=unit), openings=None)
    assert bool(_judged(home)) is is_judged
    assert ("siting.openings" in {one.place for one in unknowns(home)}) is is_judged


def test_the_zone_is_among_all_judgements(well_done: Any) -> None:
    assert {_DRAIN, _OPENINGS} <= {one.key for one in judge_home(well_done).judgements}
