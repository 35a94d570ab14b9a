"""The unit's seasonal efficiency to the standard, reckoned from the record's own points."""

from __future__ import annotations

from typing import Literal

import numpy as np

from hearthbook.design.unit_map import UnitMap
from hearthbook.documents.figures import KeyFigure, assumed, calculated
from hearthbook.physics import seasonal as physics
from hearthbook.physics.climate import equivalent_hours, reference_bins
from hearthbook.record.plant import HeatPump

__all__ = ["standard_efficiency"]

_LOW_UP_TO = (
    40.0  # °C of design flow; below it the standard's low-temperature application is nearer
)
_DESIGN = -10.0  # °C; average climate, EU 811/2013 table 10
_BIVALENT, _BIVALENT_AT_MOST = -7.0, 2.0  # °C; usual choice of makers, and the table's ceiling
_STANDBY = 12.0  # W; common practice, no source


def standard_efficiency(
    unit: HeatPump, design_flow: KeyFigure, points: UnitMap
) -> tuple[KeyFigure, KeyFigure]:
    """The seasonal efficiency in the average climate, and the application it is for.

    The design load is the one the unit carries alone down to -7 °C, or to the coldest air it runs
    in where that is milder, as the standard lets a maker choose. It is an estimate from the
    record's points: the maker's declared figure stands above it.
    """
    low = design_flow.value <= _LOW_UP_TO
    application: Literal[35, 55] = 35 if low else 55
    at = assumed("heat_pump.standard_application", "flow temperature the standard rates it for",
                 float(application), "°C", source="EN 14825; the nearer to the design flow",
                 note=f"design flow {design_flow.shown()}")  # fmt: skip
    season = reference_bins("average")
    flow = np.asarray(physics.flow_temperature_of_application(season.temperatures, application))
    ratio = np.asarray(physics.part_load_ratio(season.temperatures, _DESIGN))
    design_load = _design_load(points, application)
    load, most = design_load * ratio, points.most(season.temperatures, flow)
    own = np.minimum(load, most)
    result = physics.seasonal_efficiency(
        season.hours, load, most, points.efficiency(own, season.temperatures, flow)
    )
    heat = design_load * equivalent_hours("average") * 3600.0
    idle = (8760.0 - float(np.sum(season.hours))) * 3600.0 * (unit.standby_power or _STANDBY)
    value = float(np.sum(physics.seasonal_efficiency_with_standby(result.efficiency, heat, idle)))
    figure = calculated(
        "heat_pump.seasonal_efficiency_standard",
        "seasonal efficiency to EN 14825, average climate, from the record's points",
        value,
        "",
        formula="Σ heat / Σ (heat / efficiency + backup), with standby, over the standard's hours",
        inputs=(at, *points.figures),
        source="EN 14825; hours from EU 811/2013 Annex VII table 12; applications from memory",
        uncertainty=0.05 * value,
        note="from tested points, not the maker's declared figure, which stands above it",
    )
    return figure, at


def _design_load(points: UnitMap, application: Literal[35, 55]) -> float:
    coldest = _BIVALENT if points.lowest_outdoor is None else points.lowest_outdoor
    bivalent = min(max(_BIVALENT, coldest), _BIVALENT_AT_MOST)
    flow = physics.flow_temperature_of_application(bivalent, application)
    share = float(np.sum(physics.part_load_ratio(bivalent, _DESIGN)))
    return float(points.most_points.capacity_at(bivalent, flow)) / share
