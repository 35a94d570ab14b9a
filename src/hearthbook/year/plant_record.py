"""A home's plant as one record for the year: each field recorded, reckoned or marked as assumed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from numpy.typing import NDArray

from hearthbook.design.results import Design
from hearthbook.documents.figures import KeyFigure, calculated, condition
from hearthbook.record.home import Home
from hearthbook.year.circulation_figures import circulation_fields
from hearthbook.year.control_figures import control_fields, thermostat_room
from hearthbook.year.hot_water_figures import hot_water_fields, hot_water_numbers
from hearthbook.year.leakage import leak_drives
from hearthbook.year.plant_fields import Fields, filled, stands_in
from hearthbook.year.rooms_of_parts import room_of_cylinder, room_of_pipes
from hearthbook.year.unit_figures import unit_fields
from hearthbook.year.unit_performance import unit_performance
from hearthbook.year.water_nodes import water_nodes

__all__ = ["PlantRecord", "plant_record"]

_MILD_OUTDOOR, _MILD_FLOW = 7.0, 35.0  # °C; EN 14511, standard point


@dataclass(frozen=True)
class PlantRecord:
    """The plant for the year.

    Attributes:
        plant: array of one record of `PLANT`.
        fields: the figure behind each field that is a quantity.
        figures: the same, recorded, reckoned and assumed.
    """

    plant: NDArray[Any]
    fields: Fields
    figures: tuple[KeyFigure, ...]


def plant_record(design: Design, room_ids: tuple[str, ...]) -> PlantRecord:
    """The plant of a home.

    Args:
        design: of the home.
        room_ids: ids of the rooms in the order of their arrays.

    Raises:
        Incomplete: a field has no finite value.
    """
    unit = unit_fields(design.home, _least_output(design))
    fields = (
        water_nodes(design)
        | circulation_fields(design)
        | unit
        | unit_performance(design).frost.fields
        | control_fields(design)
        | hot_water_fields(design, unit["highest_flow"])
        | _leaks(design.home)
    )
    numbers = hot_water_numbers(design) | {
        "pipe_room": float(room_of_pipes(design.home, room_ids)),
        "cylinder_room": float(room_of_cylinder(design.home, room_ids)),
        "thermostat_room": float(thermostat_room(design, room_ids)),
        "draw_factor": 1.0,
        "efficiency_factor": 1.0,
        "flow_shift": 0.0,
    }
    return PlantRecord(filled(fields, numbers), fields, tuple(fields.values()))


def _least_output(design: Design) -> KeyFigure:
    unit = design.fit.unit
    at = condition("year.plant.least_outdoor", "outdoor temperature of that point", _MILD_OUTDOOR,
                   "°C", why="EN 14511, standard point")  # fmt: skip
    flow = condition("year.plant.least_flow_temperature", "flow temperature of that point",
                     _MILD_FLOW, "°C", why="EN 14511, low temperature")  # fmt: skip
    return calculated(
        "year.plant.least_output", "least output without stopping, at 7/35 °C",
        float(unit.least(_MILD_OUTDOOR, _MILD_FLOW)), "kW",
        formula="straight line between tested points", inputs=(at, flow, *unit.figures),
        source="EN 14825, interpolation of capacity",
    )  # fmt: skip


def _leaks(home: Home) -> Fields:
    """Stack and wind so scaled that leaks are driven by 1 in the weather they are stated for."""
    source = "ASHRAE Fundamentals, ch. 16, basic model, from memory"
    drives = zip(("stack", "wind"), leak_drives(len(home.building.storeys)), strict=True)
    labels = {"stack": "each K between in and out", "wind": "each (m/s)² of wind"}
    return {
        f"leak_{drive}": stands_in(
            f"leak_{drive}", f"driving force of leaks for {labels[drive]}", value, "",
            source=source, note="1 at 15 K and 4 m/s",
        )
        for drive, value in drives
    }  # fmt: skip
