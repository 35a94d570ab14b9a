"""A home with one reading or one look changed, and the judgements on it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from hearthbook.commissioning.judgements import judge_home
from hearthbook.commissioning.verdicts import Judgement
from hearthbook.design.results import Design
from hearthbook.record.commissioning import Check, CheckKind, Commissioning, Reading, ReadingKind
from hearthbook.record.home import Home

__all__ = ["Read", "commissioned", "judged", "reading", "with_check", "with_plant", "with_reading"]


@dataclass(frozen=True)
class Read:
    """One reading of a home: what it is of, and of which part."""

    kind: ReadingKind
    of: str | None = None

    def is_of(self, found: Reading) -> bool:
        return found.kind is self.kind and (self.of is None or found.of == self.of)


def commissioned(home: Home) -> Commissioning:
    assert home.commissioning is not None
    return home.commissioning


def reading(home: Home, which: Read) -> Reading:
    """The last reading of that kind, the one that counts."""
    return [found for found in commissioned(home).readings if which.is_of(found)][-1]


def with_reading(home: Home, which: Read, **changes: Any) -> Home:
    """The home with that reading changed, put in, or, without changes, taken out."""
    done = commissioned(home)
    others = tuple(found for found in done.readings if not which.is_of(found))
    if changes:
        known = [found for found in done.readings if which.is_of(found)]
        base = known[-1] if known else Reading(kind=which.kind, value=0, of=which.of)
        others = (*others, base.model_copy(update=changes))
    return home.model_copy(update={"commissioning": done.model_copy(update={"readings": others})})


def with_check(home: Home, kind: CheckKind, result: str | None) -> Home:
    """The home with what was found at a look, or, for None, without that look."""
    done = commissioned(home)
    checks = tuple(check for check in done.checks if check.kind is not kind)
    if result is not None:
        checks = (*checks, Check.model_validate({"kind": kind, "result": result}))
    return home.model_copy(update={"commissioning": done.model_copy(update={"checks": checks})})


def with_plant(home: Home, **changes: Any) -> Home:
    return home.model_copy(update={"plant": home.plant.model_copy(update=changes)})


def judged(design: Design, home: Home | None = None) -> dict[str, Judgement]:
    """The judgements by key; a changed record is held against the design as it stands.

    No target rests on what was read, so the design need not be made anew for a changed reading.
    """
    found = judge_home(design if home is None else replace(design, home=home))
    by_key = {judgement.key: judgement for judgement in found.judgements}
    assert len(by_key) == len(found.judgements)
    return by_key
