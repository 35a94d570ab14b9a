"""Answers about ventilation: what was measured, and what is usual for the age and the use."""

from __future__ import annotations

from hearthbook.documents.figures import Basis, KeyFigure, given
from hearthbook.record.building import Room
from hearthbook.record.home import Home
from hearthbook.survey.answers import basis_of, basis_of_property
from hearthbook.survey.typical import answered, typical_value

__all__ = [
    "air_changes_at_50_pascals",
    "dwelling_hygiene_flow",
    "dwelling_share_of_rooms",
    "given_air_changes",
    "heat_recovery",
    "hygiene_air_changes",
    "open_flue_air_changes",
    "sheltering",
    "supply_air_changes",
    "usual_air_changes",
    "windward",
]


def _era(home: Home) -> str:
    """The age band of the air-change tables; an unknown age counts as old."""
    built = home.building.built or 0
    return "before_2000" if built < 2000 else "from_2006" if built >= 2006 else "2000_to_2005"


def _ventilation_basis(home: Home) -> Basis:
    return basis_of(home.building.ventilation.evidence)


def given_air_changes(home: Home, room: Room) -> KeyFigure | None:
    """The air changes written down for a room; None where nobody did."""
    if room.air_changes is None:
        return None
    place = f"building.rooms.{room.id}.air_changes"
    label = f"air changes of the {room.name}"
    basis = basis_of_property(home.building.ventilation.evidence)
    return given(place, label, room.air_changes, "1/h", place=place, basis=basis)


def usual_air_changes(home: Home, room: Room) -> KeyFigure:
    """Air changes usual for the room's use and the home's age, where nothing was measured."""
    return typical_value(
        f"air_changes_{_era(home)}",
        room.use.value,
        name=f"building.rooms.{room.id}.air_changes",
        label=f"air changes of the {room.name}",
        note="no pressure test and no rate given; old tables often overstate a tightened home",
    )


def hygiene_air_changes(room: Room) -> KeyFigure:
    """Least air changes for fresh air in a room."""
    return typical_value(
        "hygiene_air_changes",
        room.use.value,
        name=f"assumptions.hygiene_air_changes.{room.use.value}",
        label=f"least air changes of a {room.use.value.replace('_', ' ')}",
    )


def air_changes_at_50_pascals(home: Home) -> KeyFigure:
    """Result of the pressure test, or what is usual for the age."""
    return answered(
        home.building.ventilation.air_changes_at_50_pascals,
        "air_changes_at_50_pascals",
        _era(home),
        name="building.ventilation.air_changes_at_50_pascals",
        label="air changes at 50 Pa",
        basis=_ventilation_basis(home),
    )


def sheltering(home: Home) -> KeyFigure:
    """Share of the pressure-test rate that leaks at usual wind."""
    return answered(
        home.building.ventilation.sheltering,
        "sheltering",
        name="building.ventilation.sheltering",
        label="share of the 50 Pa rate at usual wind",
    )


def windward() -> KeyFigure:
    """How much more air a windward room takes than the dwelling's mean."""
    return typical_value(
        "windward", name="assumptions.windward", label="windward room against the whole dwelling"
    )


def supply_air_changes(home: Home) -> KeyFigure:
    """Air changes moved by a mechanical system."""
    return answered(
        home.building.ventilation.supply_air_changes,
        "supply_air_changes",
        name="building.ventilation.supply_air_changes",
        label="air changes moved by the system",
    )


def heat_recovery(home: Home) -> KeyFigure:
    """Share of heat a balanced system gives back."""
    return answered(
        home.building.ventilation.heat_recovery,
        "heat_recovery",
        name="building.ventilation.heat_recovery",
        label="share of heat the ventilation gives back",
    )


def open_flue_air_changes(room: Room) -> KeyFigure:
    """Air an open flue draws from its room."""
    return typical_value(
        "open_flue_air_changes",
        name=f"assumptions.open_flue_air_changes.{room.id}",
        label=f"air changes drawn by the open flue of the {room.name}",
    )


def dwelling_hygiene_flow() -> KeyFigure:
    """Least fresh air of a dwelling for each square metre of floor."""
    return typical_value(
        "dwelling_hygiene_flow",
        name="assumptions.dwelling_hygiene_flow",
        label="least fresh air for each square metre of floor",
    )


def dwelling_share_of_rooms() -> KeyFigure:
    """Share of the rooms' summed air that the dwelling takes at any one time."""
    return typical_value(
        "dwelling_share_of_rooms",
        name="assumptions.dwelling_share_of_rooms",
        label="the dwelling's air against the rooms' sum",
    )
