"""Small invented buildings for the tests of the heat loss, as record objects."""

from __future__ import annotations

from typing import Any

from hearthbook.record.building import Building
from hearthbook.record.electrical import Electrical
from hearthbook.record.home import Home
from hearthbook.record.plant import ExpansionVessel, HeatPump, Plant
from hearthbook.record.siting import Siting

__all__ = ["EVERYTHING_GIVEN", "home_with", "one_room"]

EVERYTHING_GIVEN: dict[str, Any] = {
    "address": ["1 Nowhere Row"],
    "climate": {
        "design_outdoor_temperature": -3.0,
        "design_basis": "invented",
        "correct_for_altitude": False,
        "annual_mean_temperature": 10.0,
    },
    "neighbour_temperature": 18.0,
    "thermal_bridge_supplement": 0.05,
    "ventilation": {"system": "natural", "air_changes": 0.5, "evidence": "seen"},
    "internal_gains": 300.0,
    "storeys": [{"id": "ground", "name": "downstairs", "height": 2.5}],
    "constructions": [
        {"id": "wall", "name": "wall", "kind": "wall", "u_value": 0.5, "evidence": "seen"},
        {"id": "glass", "name": "window", "kind": "window", "u_value": 1.6, "evidence": "seen"},
        {"id": "inner", "name": "partition", "kind": "wall", "u_value": 2.0, "evidence": "seen"},
    ],
}
"""A building that answers every question but its rooms."""


def home_with(rooms: list[dict[str, Any]], **changes: Any) -> Home:
    """A home of these rooms; little but its building is looked at, so no more is filled in."""
    building = Building.model_validate({**EVERYTHING_GIVEN, "rooms": rooms, **changes})
    vessels = (ExpansionVessel(id="vessel", volume=18.0),)
    unit = HeatPump.model_construct(refrigerant_safety_class="A1")
    plant = Plant.model_construct(expansion_vessels=vessels, heat_pump=unit)
    return Home.model_construct(
        building=building,
        emitters=(),
        plant=plant,
        siting=Siting(place="in the yard"),
        electrical=Electrical.model_validate({"main_fuse": 80, "maximum_demand": 9000}),
    )


def one_room(room_id: str = "parlour", **changes: Any) -> dict[str, Any]:
    """A room of 4 by 5 m with one outside wall and a window."""
    return {
        "id": room_id,
        "name": room_id.replace("_", " "),
        "use": "living",
        "storey": "ground",
        "length": 4.0,
        "width": 5.0,
        "wanted_temperature": 21.0,
        "air_changes": 0.5,
        "elements": [
            {
                "construction": "wall",
                "beyond": "outside",
                "width": 4.0,
                "openings": [{"construction": "glass", "width": 1.5, "height": 1.2}],
            }
        ],
        **changes,
    }
