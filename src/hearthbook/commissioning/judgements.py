"""Every judgement on a home, in the order of the commissioning."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from hearthbook.commissioning import looks, safety
from hearthbook.commissioning.controls import judge_controls
from hearthbook.commissioning.electrical import judge_electrical
from hearthbook.commissioning.flow import judge_flow
from hearthbook.commissioning.hot_water import judge_hot_water
from hearthbook.commissioning.pressure import judge_pressure
from hearthbook.commissioning.rooms import judge_rooms
from hearthbook.commissioning.verdicts import Judgement, Verdict
from hearthbook.commissioning.water import judge_sound, judge_water
from hearthbook.commissioning.zone import judge_zone
from hearthbook.design.results import Design

__all__ = ["Judged", "judge_home"]


@dataclass(frozen=True)
class Judged:
    """The verdicts on a home.

    Attributes:
        judgements: one for each thing judged.
    """

    judgements: tuple[Judgement, ...]

    def counts(self) -> tuple[tuple[Verdict, int], ...]:
        """How often each verdict was given, in the verdicts' order, zeros left out."""
        counted = Counter(judgement.verdict for judgement in self.judgements)
        return tuple((verdict, counted[verdict]) for verdict in Verdict if counted[verdict])

    def of(self, verdict: Verdict) -> tuple[Judgement, ...]:
        """The judgements with a verdict."""
        return tuple(j for j in self.judgements if j.verdict is verdict)

    @property
    def open_safety_items(self) -> tuple[Judgement, ...]:
        """What forbids the handover: safety items that are not known to be in order."""
        return tuple(j for j in self.judgements if j.is_safety and j.verdict is not Verdict.WITHIN)


def judge_home(design: Design) -> Judged:
    """Hold everything read and looked at in a home against its design."""
    home = design.home
    return Judged(
        (
            *looks.safety_valve(home),
            *safety.drinking_water_valve(home),
            *looks.checks(home),
            *looks.clearances(home),
            *judge_zone(home),
            *judge_electrical(home),
            *judge_flow(design),
            *judge_pressure(design),
            *judge_controls(design),
            *looks.backup_heater(home),
            *judge_hot_water(design),
            *looks.hygiene(home),
            *safety.unvented_cylinder(home),
            *safety.scald_protection(home),
            *judge_rooms(design),
            *judge_water(design),
            *judge_sound(design),
            *looks.meter_baselines(home),
            *looks.open_items(home),
        )
    )
