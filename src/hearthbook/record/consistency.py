"""Whether a record agrees with itself: every name points somewhere, no two figures quarrel."""

from __future__ import annotations

from hearthbook.record.building_checks import building_contradictions, emitter_contradictions
from hearthbook.record.commissioning_checks import (
    commissioning_contradictions,
    supply_contradictions,
)
from hearthbook.record.contradiction import Contradiction
from hearthbook.record.home import Home
from hearthbook.record.plant_checks import control_contradictions, plant_contradictions
from hearthbook.record.references import references

__all__ = ["contradictions"]


def contradictions(home: Home) -> tuple[Contradiction, ...]:
    """Everything the record says against itself, chapter by chapter; empty where it agrees."""
    return (
        *references(home),
        *building_contradictions(home),
        *emitter_contradictions(home),
        *plant_contradictions(home),
        *control_contradictions(home),
        *supply_contradictions(home),
        *commissioning_contradictions(home),
    )
