"""What is still to be found out: answers that nobody may assume, and assumptions that weigh."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from hearthbook.record.building import Construction, ConstructionKind
from hearthbook.record.home import Home
from hearthbook.record.parts import Evidence
from hearthbook.survey.answers import BY_AGE

__all__ = ["Unknown", "unknowns"]


@dataclass(frozen=True)
class Unknown:
    """An answer still to be found out.

    Attributes:
        place: where in the record it belongs.
        question: what to ask or measure.
        why: what it decides.
        is_needed: whether the design stops without it; otherwise a usual value stands in.
    """

    place: str
    question: str
    why: str
    is_needed: bool = False


def unknowns(home: Home) -> tuple[Unknown, ...]:
    """Everything still to be found out about a home, what stops the design first."""
    found = [unknown for ask in _QUESTIONS for unknown in ask(home)]
    return tuple(sorted(found, key=lambda unknown: not unknown.is_needed))


def _climate(home: Home) -> Iterator[Unknown]:
    building, climate = home.building, home.building.climate
    if climate.design_outdoor_temperature is None:
        yield Unknown(
            "building.climate.design_outdoor_temperature",
            "Which design temperature outside holds for this place, and on which percentile?",
            "It sets every room's loss and the size of the heat pump.",
            is_needed=True,
        )
    elif not climate.design_basis:
        yield Unknown(
            "building.climate.design_basis",
            "Which table and percentile does the design temperature outside come from?",
            "A figure without its percentile cannot be checked by anybody else.",
        )
    if not climate.correct_for_altitude:
        return
    for value, place, question in (
        (building.altitude, "building.altitude", "How high above the sea does the home stand?"),
        (
            climate.reference_altitude,
            "building.climate.reference_altitude",
            "How high above the sea is the weather station of the design temperature?",
        ),
    ):
        if value is None:
            why = "Each 100 m of height makes it 0.6 K colder; until then nothing is taken off."
            yield Unknown(place, question, why)


def _constructions(home: Home) -> Iterator[Unknown]:
    for construction in home.building.constructions:
        place = f"building.constructions.{construction.id}"
        if _rests_on_age(construction):
            yield Unknown(
                place,
                f"What is its U-value, or what is it made of: {construction.name}?",
                "Without it the loss through it rests on the age of the home alone.",
                is_needed=home.building.built is None,
            )
        elif construction.evidence is Evidence.ASSUMED:
            yield Unknown(
                place,
                f"How is it really built: {construction.name}?",
                "Its U-value is assumed; measure it, or look, before a heat pump is ordered.",
            )


def _rests_on_age(construction: Construction) -> bool:
    is_on_ground = construction.kind is ConstructionKind.GROUND_FLOOR
    if construction.u_value is not None or construction.layers:
        return False
    if construction.typical is not None:
        return construction.typical == BY_AGE
    return not (is_on_ground and construction.ground is not None)


def _ventilation(home: Home) -> Iterator[Unknown]:
    building = home.building
    ventilation = building.ventilation
    is_rated = all(room.air_changes is not None for room in building.rooms)
    if ventilation.air_changes_at_50_pascals is None and not is_rated:
        yield Unknown(
            "building.ventilation.air_changes_at_50_pascals",
            "How tight is the home? Is there a pressure test, or can one be made?",
            "Usual air changes often overstate the loss of a home that has been tightened.",
        )


def _emitters(home: Home) -> Iterator[Unknown]:
    """Outputs that nobody read off a maker's sheet: they decide the flow temperature."""
    for emitter in home.emitters:
        if emitter.rated_output is None and emitter.kind != "underfloor":
            yield Unknown(
                f"emitters.{emitter.id}.rated_output",
                f"What does its maker's sheet give at 50 K: {emitter.name}?",
                "A usual output of its size stands in; the real one may differ by a sixth or more, "
                "and with it the flow temperature of the whole home.",
            )


def _vessel(home: Home) -> Iterator[Unknown]:
    if not any(vessel.circuit == "heating" for vessel in home.plant.expansion_vessels):
        yield Unknown(
            "plant.expansion_vessels",
            "Where is the heating circuit's expansion vessel, and how many litres does it hold?",
            "Until it is found nobody knows whether it is large enough; pressures are guesses.",
        )


def _zone(home: Home) -> Iterator[Unknown]:
    """What lies around a unit whose refrigerant burns."""
    siting, why = home.siting, "The refrigerant burns and is heavier than air."
    if not home.plant.heat_pump.refrigerant_burns:
        return
    drain = siting.drain
    asked: list[tuple[object, str, str]] = [
        (siting.protective_zone, "protective_zone",
         "How wide is the zone the unit's instructions keep free of openings and sparks?"),
        (siting.openings, "openings",
         "Which doors, windows, air bricks, light wells, sockets, switches and lights lie near "
         "the unit, and how far away?"),
        (drain, "drain", "Where do condensate and meltwater go?"),
    ]  # fmt: skip
    if drain is not None and drain.kind == "gully":
        asked += [
            (drain.distance, "drain.distance", "How far is the drain's opening from the unit?"),
            (drain.has_trap, "drain.has_trap", "Does water in a trap close the drain?"),
        ]
    for answer, place, question in asked:
        if answer is None:
            yield Unknown(f"siting.{place}", question, why)


def _supply(home: Home) -> Iterator[Unknown]:
    electrical = home.electrical
    for answer, place, question in (
        (electrical.main_fuse, "main_fuse",
         "What is the supply fuse rated at? It is read; nobody opens the cut-out."),
        (electrical.maximum_demand, "maximum_demand",
         "What maximum demand did a competent electrician assess, heat pump and heaters included?"),
    ):  # fmt: skip
        if answer is None:
            why = "Above 60 A (13.8 kVA) the network operator is asked before the connection."
            yield Unknown(f"electrical.{place}", question, why)


def _growing_drinking_water(home: Home) -> Iterator[Unknown]:
    cylinder = home.plant.cylinder
    if cylinder is None or not cylinder.is_unvented or cylinder.has_internal_expansion is not None:
        return
    if not any(vessel.circuit == "drinking_water" for vessel in home.plant.expansion_vessels):
        yield Unknown(
            "plant.cylinder.has_internal_expansion",
            "What takes up the cylinder's growing water: a vessel, or an air space inside?",
            "Without either its pressure has no room. Work for a person qualified for unvented "
            "hot water.",
        )


_QUESTIONS: tuple[Callable[[Home], Iterator[Unknown]], ...] = (
    _climate,
    _constructions,
    _ventilation,
    _emitters,
    _vessel,
    _zone,
    _supply,
    _growing_drinking_water,
)
