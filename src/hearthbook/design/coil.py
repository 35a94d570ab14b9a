"""How far the heating water must lie above the cylinder at the end of a reheat."""

from __future__ import annotations

import numpy as np

from hearthbook.design.unit_map import unit_map
from hearthbook.documents.figures import KeyFigure, assumed, calculated, condition, given
from hearthbook.physics import hot_water as physics
from hearthbook.record.home import Home
from hearthbook.record.plant import Cylinder

__all__ = ["MOST_APPROACH", "coil_approach", "reheat_approach"]

MOST_APPROACH = 10.0  # K; a coil that needs more is small, common practice: 8 to 10 K
_USUAL_APPROACH = 6.0  # K; 5 to 8 K, common practice, no source
_USUAL_FLOW = 16e-3 / 60  # m³/s; where the record has no nominal flow, common practice
_OUTDOOR = 7.0  # °C; a usual day


def reheat_approach(home: Home, cylinder: Cylinder) -> KeyFigure:
    """The approach the design counts with: by the coil's surface, or usual where it is unknown.

    A small coil does not raise the flow without end: the unit throttles, so it is held.
    """
    full = coil_approach(home, cylinder)
    if full is None:
        return _usual_approach()
    return calculated(
        "hot_water.reheat_approach", "flow above the cylinder counted with",
        min(full.value, MOST_APPROACH), "K", formula="approach of the coil, at most 10 K",
        inputs=(full,), source="beyond 10 K the unit throttles: common practice, no source",
    )  # fmt: skip


def coil_approach(home: Home, cylinder: Cylinder) -> KeyFigure | None:
    """The approach the coil needs at the unit's full output; None without a surface."""
    if cylinder.coil_area is None:
        return None
    area = given("plant.cylinder.coil_area", "surface of the coil", cylinder.coil_area, "m²",
                 place="plant.cylinder.coil_area")  # fmt: skip
    transfer = assumed("hot_water.coil_transfer", "heat the coil passes for each m² and K",
                       float(np.mean(physics.COIL_TRANSFER)), "W/(m²·K)",
                       source="common practice, no source: 400 to 700")  # fmt: skip
    output, flow = _output(home, cylinder), _flow(home)
    values = [
        float(np.sum(physics.coil_approach(
            output.value, physics.coil_conductance(area.value, each), flow.value)))
        for each in (transfer.value, *physics.COIL_TRANSFER)
    ]  # fmt: skip
    return calculated(
        "hot_water.coil_approach", "flow above the cylinder at the end of a reheat", values[0], "K",
        formula="drop / (1 - exp(-U·A / (flow · 1.163 Wh/(L·K))))",
        inputs=(output, area, transfer, flow),
        source="UA times logarithmic mean difference, solved for the flow; derived",
        uncertainty=max(abs(value - values[0]) for value in values[1:]),
        note="at full output; the unit may throttle towards the end",
    )  # fmt: skip


def _usual_approach() -> KeyFigure:
    return assumed("hot_water.usual_approach", "flow above the cylinder at the end of a reheat",
                   _USUAL_APPROACH, "K", source="common practice, no source: 5 to 8 K")  # fmt: skip


def _output(home: Home, cylinder: Cylinder) -> KeyFigure:
    """What the coil must pass, at a flow the usual approach above the cylinder.

    The output hardly depends on the flow, so the approach found is not fed back into it.
    """
    unit, usual = unit_map(home.plant), _usual_approach()
    place = "plant.cylinder.set_temperature"
    set_to = given(place, "temperature the cylinder is heated to", cylinder.set_temperature, "°C",
                   place=place)  # fmt: skip
    at = condition("hot_water.coil_outdoor", "outdoor temperature of that day", _OUTDOOR, "°C",
                   why="a usual day, chosen for this figure")  # fmt: skip
    return calculated(
        "hot_water.coil_output", "output the coil must pass",
        float(unit.most(at.value, set_to.value + usual.value)), "kW",
        formula="straight line between tested points, at the flow of a usual approach",
        inputs=(at, set_to, usual, *unit.figures), source="EN 14825, interpolation of capacity",
    )  # fmt: skip


def _flow(home: Home) -> KeyFigure:
    place, label = "plant.heat_pump.nominal_flow", "flow through the coil"
    flow = home.plant.heat_pump.nominal_flow
    if flow is not None:
        return given(place, label, flow, "L/min", place=place)
    return assumed(place, label, _USUAL_FLOW, "L/min", source="common practice, no source",
                   note=f"not answered: {place}")  # fmt: skip
