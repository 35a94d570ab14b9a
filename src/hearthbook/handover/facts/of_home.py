"""All facts of a home, gathered for the texts of its pack."""

from __future__ import annotations

from hearthbook.design.results import Design
from hearthbook.documents.figures import KeyFigure
from hearthbook.handover.facts.controls import controls_facts
from hearthbook.handover.facts.hot_water import hot_water_facts
from hearthbook.handover.facts.household import household_facts
from hearthbook.handover.facts.metering import metering_facts
from hearthbook.handover.facts.money import money_facts
from hearthbook.handover.facts.rooms import room_facts
from hearthbook.handover.facts.setback import setback_facts
from hearthbook.handover.facts.speech import Speech
from hearthbook.handover.facts.unit import unit_facts
from hearthbook.handover.facts.water_side import water_facts
from hearthbook.handover.wording import Facts

__all__ = ["facts_of"]


def facts_of(design: Design, language: str) -> Facts:
    """The facts of a home in the words of a language."""
    speech = Speech(language)
    facts: Facts = {}
    for part in (
        household_facts,
        unit_facts,
        hot_water_facts,
        water_facts,
        room_facts,
        controls_facts,
        setback_facts,
        metering_facts,
        money_facts,
    ):
        facts.update(part(design, speech))
    facts["glance_figures"] = _glance(design)
    return facts


def _glance(design: Design) -> tuple[KeyFigure, ...]:
    expansion = design.expansion
    figures = [
        design.heat_loss.total,
        design.curve.design_flow,
        design.fit.energy.electricity_per_year,
        None if design.hot_water is None else design.hot_water.stored_mixed_volume,
        expansion.cold_fill,
        expansion.normal_hot,
        None if design.cost is None else design.cost.degree,
    ]
    return tuple(figure for figure in figures if figure is not None)
