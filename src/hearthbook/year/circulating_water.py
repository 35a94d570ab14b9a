"""A home's heating water in the year: how heavy, how much heat it holds, how fast it goes round."""

from __future__ import annotations

from hearthbook.design.circuit_water import circuit_water
from hearthbook.design.results import Design
from hearthbook.documents.figures import KeyFigure
from hearthbook.physics import water
from hearthbook.year.plant_fields import reckoned

__all__ = ["set_flow", "water_density", "water_heat"]

_ABOVE_LEAST = 1.1  # of the unit's least flow that a pump is set to at least; common practice
_NO_FLOW = 1e-6  # m³/s; a home whose emitters need nothing still has a pump, derived


def water_density(design: Design) -> KeyFigure:
    """Mass of a cubic metre of the water or mixture."""
    return circuit_water(design.home, design.emitters).density


def water_heat(design: Design) -> KeyFigure:
    """Heat capacity of a kilogram of the water or mixture."""
    label = "heat capacity of the heating water"
    mixture = circuit_water(design.home, design.emitters)
    if mixture.capacity_share is not None:
        return reckoned(
            "heat_capacity", label,
            mixture.capacity_share.value * water.TRADE_HEAT_CAPACITY / mixture.density.value,
            "J/(kg·K)", formula="share · 4.186 MJ/(m³·K) / ρ",
            inputs=(mixture.capacity_share, mixture.density),
            source="mixture of water and propylene glycol (Melinder 2010)",
        )  # fmt: skip
    flow, back = design.emitters.flow_temperature, design.emitters.return_temperature
    return reckoned(
        "heat_capacity", label, float(water.specific_heat((flow.value + back.value) / 2)),
        "J/(kg·K)", formula="c(Tm)", inputs=(flow, back), source="Perry 8th edition, table 2-153",
    )  # fmt: skip


def set_flow(design: Design) -> KeyFigure:
    """Flow with every emitter open, to which the pump is taken to be set.

    It is the sum of what the emitters need, unless the unit would stop for want of flow.
    """
    system, least = design.hydraulics.system_flow, design.hydraulics.minimum_flow
    label = "flow the pump is set to"
    if least is None or system.value >= _ABOVE_LEAST * least.value:
        return reckoned(
            "set_flow", label, max(system.value, _NO_FLOW), "L/min", formula="Σq of the emitters",
            inputs=(system,), source="the design's hydraulics",
        )  # fmt: skip
    return reckoned(
        "set_flow", label, _ABOVE_LEAST * least.value, "L/min", formula="1.1 · least flow",
        inputs=(system, least), source="common practice, no source",
        note="the emitters need less than the unit asks, so its pump is set above that",
    )  # fmt: skip
