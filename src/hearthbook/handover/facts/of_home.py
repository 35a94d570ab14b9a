"""All facts of a home, gathered for the texts of its pack."""

from __future__ import annotations

from dataclasses import replace

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
    facts["glance_figures"] = _glance(design, speech)
    return facts


def _glance(design: Design, speech: Speech) -> tuple[KeyFigure, ...]:
    """The figures that say most about this home, under names a householder knows."""
    water, cost = design.hot_water, design.cost
    named = {
        "design_load": design.heat_loss.total,
        "flow": design.curve.design_flow,
        "electricity": design.fit.energy.electricity_per_year,
        "hot_water": None if water is None else water.stored_mixed_volume,
        "pressure_cold": design.expansion.normal_cold,
        "pressure_hot": design.expansion.normal_hot,
        "degree": None if cost is None else cost.degree,
    }
    outdoor = speech.figure(design.curve.design_outdoor, 0)
    return tuple(
        replace(figure, label=speech.words("glance", name, outdoor=outdoor))
        for name, figure in named.items()
        if figure is not None
    )
