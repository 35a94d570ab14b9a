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
_BIVALENT, _DESIGN = -7.0, -10.0  # °C; average climate, EU 811/2013 table 10: at most 2
_STANDBY = 12.0  # W; common practice, no source


def standard_efficiency(
    unit: HeatPump, design_flow: KeyFigure, points: UnitMap
) -> tuple[KeyFigure, KeyFigure]:
    """The seasonal efficiency in the average climate, and the application it is for.

    The design load is the one the unit carries alone down to -7 °C, as the standard lets a maker
    choose. It is an estimate from the record's points: the maker's declared figure stands above it.
    """
    low = design_flow.value <= _LOW_UP_TO
    application: Literal[35, 55] = 35 if low else 55
    at = assumed("heat_pump.standard_application", "flow temperature the standard rates it for",
                 float(application), "°C", source="EN 14825; the nearer to the design flow",
                 note=f"design flow {design_flow.shown()}")  # fmt: skip
    season = reference_bins("average")
    flow = np.asarray(physics.flow_temperature_of_application(season.temperatures, application))
    ratio = np.asarray(physics.part_load_ratio(season.temperatures, _DESIGN))
    flow_there = physics.flow_temperature_of_application(_BIVALENT, application)
    design_load = float(points.most(_BIVALENT, flow_there)) / float(
        np.sum(physics.part_load_ratio(_BIVALENT, _DESIGN))
    )
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
