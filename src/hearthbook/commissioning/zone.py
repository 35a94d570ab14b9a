"""What must not lie near a unit whose refrigerant burns: ways for gas, and sparks."""

from __future__ import annotations

from collections.abc import Iterator

from hearthbook.commissioning.judging import Subject, judge_yes_or_no
from hearthbook.commissioning.verdicts import Judgement
from hearthbook.record.home import Home
from hearthbook.record.siting import Drain, NearbyOpening
from hearthbook.units import shown_distance

__all__ = ["judge_zone"]

# Into these the water seeps; no pipe leads gas away from them. common practice, no source
_INTO_THE_GROUND = frozenset({"soakaway", "gravel_bed", "open_ground"})


def judge_zone(home: Home) -> Iterator[Judgement]:
    """The judgements on the protective zone; none where the refrigerant does not burn.

    The zone is the one of the unit's instructions; none is taken for granted.
    """
    if not home.plant.heat_pump.refrigerant_burns:
        return
    siting, zone = home.siting, home.siting.protective_zone
    limit = "" if zone is None else shown_distance(zone)
    drain_place = home.places.get("condensate_drain") or siting.place
    yield judge_yes_or_no(
        Subject("drain_in_zone", drain_place),
        _is_drain_harmless(siting.drain, zone),
        {"limit": limit, "note": _how_it_drains(siting.drain)},
    )
    inside = _inside(siting.openings or (), zone)
    yield judge_yes_or_no(
        Subject("openings_in_zone", siting.place),
        None if zone is None or siting.openings is None else not inside,
        {"limit": limit, "note": _list_of(inside)},
    )


def _is_drain_harmless(drain: Drain | None, zone: float | None) -> bool | None:
    if drain is None:
        return None
    if drain.kind in _INTO_THE_GROUND or _has_trap(drain):
        return True
    if drain.distance is not None and zone is not None and drain.distance >= zone:
        return True
    is_known = drain.distance is not None and zone is not None and drain.has_trap is not None
    return False if is_known else None


def _has_trap(drain: Drain) -> bool:
    is_trap_its_kind = drain.kind == "foul_drain_with_trap" and drain.has_trap is None
    return drain.has_trap is True or is_trap_its_kind


def _how_it_drains(drain: Drain | None) -> str:
    if drain is None:
        return ""
    where = "" if drain.distance is None else f", {shown_distance(drain.distance)} from the unit"
    return f"{drain.place}{where}"


def _inside(openings: tuple[NearbyOpening, ...], zone: float | None) -> tuple[NearbyOpening, ...]:
    return tuple(one for one in openings if zone is not None and one.distance < zone)


def _list_of(openings: tuple[NearbyOpening, ...]) -> str:
    return ", ".join(f"{one.name} at {shown_distance(one.distance)}" for one in openings)
