"""A home's plant as one record for the year: each field recorded, reckoned or marked as assumed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from numpy.typing import NDArray

from hearthbook.design.results import Design
from hearthbook.documents.figures import KeyFigure, calculated, condition
from hearthbook.year.circulation_figures import circulation_fields
from hearthbook.year.control_figures import control_fields, thermostat_room
from hearthbook.year.hot_water_figures import hot_water_fields, hot_water_numbers
from hearthbook.year.plant_fields import Fields, filled, stands_in
from hearthbook.year.rooms_of_parts import room_of_cylinder, room_of_pipes
from hearthbook.year.unit_figures import unit_fields
from hearthbook.year.unit_performance import unit_performance
from hearthbook.year.water_nodes import water_nodes

__all__ = ["PlantRecord", "plant_record"]

_MILD_OUTDOOR, _MILD_FLOW = 7.0, 35.0  # °C; EN 14511, standard point
_LEAK_DIFFERENCE, _LEAK_WIND = 20.0, 4.0  # K, m/s; usual winter weather, common practice
_STACK_SHARE = 0.4  # of the driving force there; Sherman and Grimsrud 1980, from memory


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
        | _leaks()
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


def _leaks() -> Fields:
    """Stack and wind so scaled that leaks are driven by 1 in usual winter weather."""
    wind = (1.0 - _STACK_SHARE) / _LEAK_WIND**2
    note = "the driving force is 1 at 20 K and 4 m/s"
    source = "Sherman and Grimsrud 1980, from memory"
    return {
        "leak_stack": stands_in("leak_stack", "stack's part of leakage, for each K",
                                _STACK_SHARE / _LEAK_DIFFERENCE, "", source=source, note=note),
        "leak_wind": stands_in("leak_wind", "wind's part of leakage, for each (m/s)²", wind, "",
                               source=source, note=note),
    }  # fmt: skip
