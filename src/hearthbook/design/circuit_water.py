"""The water in the pipes at design: how dense, how thick, how much heat it carries."""

from __future__ import annotations

from dataclasses import dataclass

from hearthbook.design.emitters import EmitterSchedule
from hearthbook.design.water_growth import glycol_share
from hearthbook.documents.figures import KeyFigure, calculated
from hearthbook.physics import water
from hearthbook.record.home import Home

__all__ = ["CircuitWater", "circuit_water"]


@dataclass(frozen=True)
class CircuitWater:
    """The heating water at its mean design temperature.

    Attributes:
        density: mass of a cubic metre.
        viscosity: dynamic.
        capacity_share: heat a litre carries, as a share of what the trade reckons for water; None
            for plain water.
    """

    density: KeyFigure
    viscosity: KeyFigure
    capacity_share: KeyFigure | None = None


def circuit_water(home: Home, emitters: EmitterSchedule) -> CircuitWater:
    """The water of a home at its mean design temperature."""
    mean = calculated(
        "hydraulics.mean_temperature", "mean water temperature at design",
        (emitters.flow_temperature.value + emitters.return_temperature.value) / 2, "°C",
        formula="Tm = (Tf + Tr)/2",
        inputs=(emitters.flow_temperature, emitters.return_temperature), source="definition",
    )  # fmt: skip
    glycol = glycol_share(home)
    if glycol is None:
        return CircuitWater(
            calculated("hydraulics.density", "density of the water",
                       float(water.density(mean.value)), "kg/m³", formula="ρ(Tm)", inputs=(mean,),
                       source="Kell (1975)"),
            calculated("hydraulics.viscosity", "viscosity of the water",
                       float(water.viscosity(mean.value)), "mPa·s", formula="μ(Tm)",
                       inputs=(mean,), source="IAPWS SR6-08(2011)"),
        )  # fmt: skip
    return _mixture(mean, glycol)


def _mixture(mean: KeyFigure, glycol: KeyFigure) -> CircuitWater:
    share = water.glycol_mass_share(glycol.value)
    source = "fitted to CoolProp's mixture of water and propylene glycol (Melinder 2010)"
    density = calculated(
        "hydraulics.density", "density of the water with glycol",
        float(water.glycol_density(mean.value, share)), "kg/m³", formula="ρ(Tm, x)",
        inputs=(mean, glycol), source=source,
    )  # fmt: skip
    viscosity = calculated(
        "hydraulics.viscosity", "viscosity of the water with glycol",
        float(water.glycol_viscosity(mean.value, share)), "mPa·s", formula="μ(Tm, x)",
        inputs=(mean, glycol), source=source,
    )  # fmt: skip
    heat = float(water.glycol_specific_heat(mean.value, share))
    return CircuitWater(density, viscosity, calculated(
        "hydraulics.capacity_share", "heat a litre carries, as a share of plain water's",
        density.value * heat / water.TRADE_HEAT_CAPACITY, "%",
        formula="ρ·c(Tm, x) / 4.186 MJ/(m³·K)", inputs=(density, mean, glycol), source=source,
    ))  # fmt: skip
