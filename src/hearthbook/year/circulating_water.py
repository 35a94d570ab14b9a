"""The heat that a litre of a home's heating water holds, at its mean temperature at design."""

from __future__ import annotations

from hearthbook.design.circuit_water import circuit_water
from hearthbook.design.results import Design
from hearthbook.documents.figures import KeyFigure
from hearthbook.physics import water
from hearthbook.year.plant_fields import reckoned

__all__ = ["water_density", "water_heat"]


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
