"""All facts of a home, gathered for the texts of its pack."""

from __future__ import annotations

from hearthbook.design.results import Design
from hearthbook.documents.figures import KeyFigure
from hearthbook.handover.facts.controls import controls_facts
from hearthbook.handover.facts.hot_water import hot_water_facts
from hearthbook.handover.facts.household import household_facts
from hearthbook.handover.facts.metering import metering_facts
from hearthbook.handover.facts.money import money_facts
from hearthbook.handover.facts.normal import normal_facts
from hearthbook.handover.facts.rooms import room_facts
from hearthbook.handover.facts.setback import setback_facts
from hearthbook.handover.facts.speech import Speech
from hearthbook.handover.facts.tables import table
from hearthbook.handover.facts.unit import unit_facts
from hearthbook.handover.facts.water_side import water_facts
from hearthbook.handover.wording import Facts, Ready
from hearthbook.year.pack_figures import PackYear
from hearthbook.year.pack_numbers import YearNumbers

__all__ = ["facts_of"]


def facts_of(design: Design, numbers: YearNumbers, year: PackYear, language: str) -> Facts:
    """The facts of a home in the words of a language."""
    speech = Speech(language)
    facts: Facts = {}
    for part in (household_facts, water_facts, room_facts, controls_facts, metering_facts):
        facts.update(part(design, speech))
    for of_year in (unit_facts, hot_water_facts, setback_facts, money_facts, normal_facts):
        facts.update(of_year(design, numbers, speech))
    facts["table_glance"] = _glance(design, year, facts, speech)
    return facts


def _glance(design: Design, year: PackYear, facts: Facts, speech: Speech) -> Ready:
    """The figures that say most about this home, as its texts say them."""
    water, energy = design.hot_water, facts["energy"]
    said_year = speech.words(
        "glance",
        "about",
        value=energy["electricity_year"],
        low=energy["electricity_low"],
        high=energy["electricity_high"],
    )
    said: dict[str, tuple[str | None, KeyFigure | None]] = {
        "design_load": (energy["design_load"], design.heat_loss.total),
        "flow": (facts["water"]["flow_design"], design.curve.design_flow),
        "electricity": (said_year, year.electricity.middle),
        "hot_water": (
            facts["cylinder"]["mixed"] if facts["cylinder"] else None,
            None if water is None else water.stored_mixed_volume,
        ),
        "pressure_cold": (facts["pressure"]["cold"], design.expansion.normal_cold),
        "pressure_hot": (facts["pressure"]["hot"], design.expansion.normal_hot),
        "degree": (
            facts["cost"]["degree"],
            None if year.degree_cost is None else year.degree_cost.middle,
        ),
    }
    outdoor = speech.figure(design.curve.design_outdoor, 0)
    rows = [
        [
            speech.words("glance", name, outdoor=outdoor),
            value,
            speech.words("known", figure.basis),
        ]
        for name, (value, figure) in said.items()
        if figure is not None and value is not None
    ]
    heads = [speech.words("tables", f"glance_{name}") for name in ("what", "value", "known")]
    return table(speech.words("tables", "glance_caption"), heads, rows)
