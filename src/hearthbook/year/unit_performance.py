"""The unit's map for the year, clear of frost, from the record's tested points."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hearthbook.design.results import Design
from hearthbook.design.unit_map import UnitMap, unit_map
from hearthbook.documents.figures import KeyFigure
from hearthbook.kernel.parameters import PERFORMANCE_FLOW, PERFORMANCE_OUTDOOR, Performance
from hearthbook.physics import heat_pump as physics
from hearthbook.record.plant import HeatPump, PerformancePoint, Plant
from hearthbook.year.frost_cycle import FrostModel, RatedPoint, clear_of_frost
from hearthbook.year.frost_figures import Frost, frost_of
from hearthbook.year.plant_fields import stands_in

__all__ = ["UnitPerformance", "performance_of", "unit_performance"]

_LEAST_LIFT = 12.0  # K of flow above air for which an efficiency is worked out, as in the kernel
_FLOOR_SHARE = 0.3  # of the output at the coldest tested point, however cold; derived
_TURNDOWN = 0.1  # of the most, below which no least output is believed; derived

_Array = NDArray[np.float64]


@dataclass(frozen=True)
class UnitPerformance:
    """The unit's map for the year.

    Attributes:
        performance: the grid.
        frost: its frost and defrosts.
        figures: the tested points and what was assumed beside them.
    """

    performance: Performance
    frost: Frost
    figures: tuple[KeyFigure, ...]


def unit_performance(design: Design) -> UnitPerformance:
    """The map of a home's unit."""
    return performance_of(design.home.plant)


def performance_of(plant: Plant) -> UnitPerformance:
    """The map of a recorded plant.

    Tested points that count defrosts are put back to what the unit does clear of frost, so that
    the year, which grows frost and defrosts itself, gives the tested mean again.
    """
    points = tuple(
        figure for figure in unit_map(plant).figures if figure.name != "heat_pump.defrost_allowance"
    )
    frost = frost_of(plant.heat_pump, points)
    cleared = _cleared(plant.heat_pump, frost.model)
    unit = plant.heat_pump.model_copy(
        update={"points": cleared, "lowest_outdoor_temperature": None}
    )
    held = stands_in(
        "held_when_colder", "least share of the coldest tested output that is believed in the cold",
        _FLOOR_SHARE, "%", source="derived",
        note="the unit stops at its coldest air anyway; this keeps the map above nothing",
    )  # fmt: skip
    return UnitPerformance(
        _grid(unit_map(plant.model_copy(update={"heat_pump": unit}))), frost, (*points, held)
    )


def _cleared(unit: HeatPump, model: FrostModel) -> tuple[PerformancePoint, ...]:
    return tuple(_clear_point(unit, point, model) for point in unit.points)


def _clear_point(unit: HeatPump, point: PerformancePoint, model: FrostModel) -> PerformancePoint:
    """A point clear of frost; from here on nothing more is to be taken off it."""
    values = {"includes_defrost": True}
    if not point.includes_defrost:
        return point.model_copy(update=values)
    tested = _tested(point)
    clear = clear_of_frost(model, tested, _next_milder(unit, point))
    return point.model_copy(
        update=values | {"output": clear.output, "efficiency": clear.efficiency}
    )


def _next_milder(unit: HeatPump, point: PerformancePoint) -> RatedPoint:
    """The next milder point of the same flow and load; without one, no bound."""
    milder = [
        other
        for other in unit.points
        if other.load == point.load
        and other.flow_temperature == point.flow_temperature
        and other.outdoor_temperature > point.outdoor_temperature
    ]
    if not milder:
        return _tested(point)._replace(output=np.inf, efficiency=np.inf)
    return _tested(min(milder, key=lambda other: other.outdoor_temperature))


def _tested(point: PerformancePoint) -> RatedPoint:
    return RatedPoint(
        point.outdoor_temperature, point.flow_temperature, point.output, point.efficiency
    )


def _grid(unit: UnitMap) -> Performance:
    outdoor, flow = np.meshgrid(PERFORMANCE_OUTDOOR, PERFORMANCE_FLOW, indexing="ij")
    air = np.minimum(outdoor, flow - _LEAST_LIFT)
    most = _above_floor(unit, outdoor, flow)
    least = np.clip(unit.least(outdoor, flow), _TURNDOWN * most, most)
    carnot = np.asarray(physics.working_efficiency(air, flow))
    most_share = unit.most_points.efficiency_at(air, flow) / carnot
    least_share = most_share
    if unit.least_points is not None:
        least_share = unit.least_points.efficiency_at(air, flow) / carnot
    return Performance(
        *(np.ascontiguousarray(each) for each in (most, most_share, least, least_share))
    )


def _above_floor(unit: UnitMap, outdoor: _Array, flow: _Array) -> _Array:
    """The most output, kept above nothing where a steep last slope would end there."""
    coldest = unit.most(float(unit.most_points.outdoor.min()), flow)
    return np.maximum(unit.most(outdoor, flow), _FLOOR_SHARE * coldest)
