"""Pump and flows of a home in the year."""

from __future__ import annotations

from hearthbook.design.circuit_losses import fixed_losses
from hearthbook.design.results import Design
from hearthbook.documents.figures import KeyFigure
from hearthbook.year.circulating_water import set_flow, water_density
from hearthbook.year.plant_fields import Fields, reckoned, stands_in

__all__ = ["circulation_fields"]

_PUMP_EFFICIENCY = 0.30  # of small wet-rotor pumps, motor counted: 0.2 to 0.4, from memory
_MOST_COMMON = 0.95  # of the head; the kernel's sum needs some left for the emitters, derived


def circulation_fields(design: Design) -> Fields:
    """The plant's fields about pump and flows."""
    flow, density = set_flow(design), water_density(design)
    added = design.home.plant.added_volume
    passes = float(added is not None and added.kind == "buffer")
    return {
        "design_flow": _mass("design_flow", flow, density),
        "least_flow": _least(design, density),
        "common_resistance": _common(design),
        "has_bypass": reckoned(
            "has_bypass", "water may pass by the emitters (1) or not (0)", passes, "",
            formula="1 with a four-pipe buffer", inputs=(flow,),
            source="record: plant.added_volume",
        ),
        "pump_power": _pump(design, flow),
    }  # fmt: skip


def _mass(field: str, flow: KeyFigure, density: KeyFigure) -> KeyFigure:
    return reckoned(field, flow.label, flow.value * density.value, "kg/s", formula="q · ρ",
                    inputs=(flow, density), source="definition")  # fmt: skip


def _least(design: Design, density: KeyFigure) -> KeyFigure:
    least = design.hydraulics.minimum_flow
    if least is None:
        return stands_in(
            "least_flow", "flow below which the unit stops", 0.0, "kg/s",
            note="not answered: plant.heat_pump.minimum_flow; it is taken never to stop for that",
        )  # fmt: skip
    return _mass("least_flow", least, density)


def _common(design: Design) -> KeyFigure:
    """Share of the costliest circuit's pressure that every circuit shares."""
    hydraulics, home = design.hydraulics, design.home
    shared = {run.id for run in home.pipework.runs if not run.serves and not run.serves_cylinder}
    fixed = fixed_losses(home, hydraulics.system_flow, hydraulics.nominal_flow).together
    losses = (fixed, *(pipe.loss for pipe in hydraulics.pipes if pipe.pipe_id in shared))
    whole = hydraulics.index_loss
    share = sum(loss.value for loss in losses) / whole.value if whole.value > 0.0 else 0.0
    return reckoned(
        "common_resistance", "share of the pump's head lost before the emitters part",
        min(max(share, 0.0), _MOST_COMMON), "%", formula="Σ Δp shared / Δp of the index circuit",
        inputs=(*losses, whole), source="the design's hydraulics",
    )  # fmt: skip


def _pump(design: Design, flow: KeyFigure) -> KeyFigure:
    hydraulics = design.hydraulics
    head = hydraulics.pump_head or hydraulics.index_loss
    own = (hydraulics.unit_loss,) if design.home.plant.pump.is_in_unit else ()
    efficiency = stands_in("pump_efficiency", "efficiency of the pump with its motor",
                           _PUMP_EFFICIENCY, "%", source="from memory",
                           note="0.2 to 0.4 for small wet-rotor pumps")  # fmt: skip
    pressure = head.value + sum(loss.value for loss in own)
    return reckoned(
        "pump_power", "power of the pump", flow.value * pressure / efficiency.value, "W",
        formula="q · Δp / η", inputs=(flow, head, *own, efficiency), source="definition",
    )  # fmt: skip
