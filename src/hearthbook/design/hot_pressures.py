"""Pressures a home's system reaches when it is hot, healthy and with a flat vessel."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hearthbook.design.water_growth import Temperatures, growth
from hearthbook.design.water_volume import WaterVolume
from hearthbook.documents.figures import KeyFigure, assumed, calculated
from hearthbook.physics import vessel

__all__ = ["HotPressures", "VesselState", "hot_pressures", "pressure_at", "pressure_of"]

_BOYLE = "Boyle's law, derived"
_FORMULA = "ph = (p0 + 1)·Vn/(Vg − Ve) − 1, Vg = Vn·(p0 + 1)/(pc + 1)"


@dataclass(frozen=True)
class VesselState:
    """A vessel at rest.

    Attributes:
        installed: its nominal volume.
        precharge: gas pressure with the water side empty.
        cold: pressure of the cold system.
        safety_valve: pressure at which it opens.
    """

    installed: KeyFigure
    precharge: KeyFigure
    cold: KeyFigure
    safety_valve: KeyFigure


@dataclass(frozen=True)
class HotPressures:
    """Predicted pressures.

    Attributes:
        heating: heating at design.
        hot_water: at the end of a reheat; None without a cylinder.
        flat: the hotter of the two, were the gas lost to 0 bar gauge.
        expansion: growth behind the hotter of the two.
    """

    heating: KeyFigure
    hot_water: KeyFigure | None
    flat: KeyFigure
    expansion: KeyFigure

    @property
    def hottest(self) -> KeyFigure:
        """The higher of the predicted pressures."""
        both = [self.heating] if self.hot_water is None else [self.heating, self.hot_water]
        return max(both, key=lambda figure: figure.value)


def hot_pressures(volume: WaterVolume, water: Temperatures, state: VesselState) -> HotPressures:
    """The pressures a system reaches, from its cold pressure as left."""
    heating = _heating_growth(volume, water)
    hot_water = _reheat_growth(volume, water)
    largest = heating if hot_water is None or heating.value > hot_water.value else hot_water
    gone = assumed(
        "expansion.flat_precharge", "precharge of a flat vessel", 0.0, "bar",
        source="the gas has leaked to the pressure of the air",
    )  # fmt: skip
    flat = VesselState(state.installed, gone, state.cold, state.safety_valve)
    return HotPressures(
        heating=pressure_of("expansion.hot_pressure", "pressure when heating at design",
                            state, heating),
        hot_water=None if hot_water is None else pressure_of(
            "expansion.hot_pressure_hot_water", "pressure at the end of a reheat",
            state, hot_water),
        flat=pressure_of("expansion.flat_vessel_hot_pressure",
                         "pressure when hottest, were the vessel flat", flat, largest),
        expansion=largest,
    )  # fmt: skip


def pressure_at(
    volume: WaterVolume, water: Temperatures, state: VesselState, temperature: KeyFigure
) -> KeyFigure:
    """The pressure when all the water has one mean temperature."""
    grown = growth("expansion.growth_at_reading", water.standing, temperature, water.glycol)
    expanded = _expanded("expansion.expanded_at_reading", volume.total, grown)
    return pressure_of(
        "expansion.pressure_at_reading", "pressure expected at the water's temperature",
        state, expanded,
    )  # fmt: skip


def pressure_of(name: str, label: str, state: VesselState, expanded: KeyFigure) -> KeyFigure:
    """The pressure after the water has grown; the safety valve's where the gas has no room."""
    value = float(
        vessel.hot_pressure(
            state.installed.value, state.precharge.value, state.cold.value, expanded.value
        )
    )
    opens = not math.isfinite(value) or value > state.safety_valve.value
    note = "The gas has no room for the water: the safety valve opens." if opens else ""
    return calculated(
        name, label, state.safety_valve.value if opens else value, "bar",
        formula=_FORMULA, source=_BOYLE, note=note,
        inputs=(state.installed, state.precharge, state.cold, expanded, state.safety_valve),
    )  # fmt: skip


def _expanded(name: str, volume: KeyFigure, grown: KeyFigure) -> KeyFigure:
    return calculated(
        name, "growth of the water since cold",
        float(vessel.expansion_volume(volume.value, grown.value)), "L",
        formula="Ve = V·e", inputs=(volume, grown), source="EN 12828 annex D, from memory",
        decimals=2,
    )  # fmt: skip


def _heating_growth(volume: WaterVolume, water: Temperatures) -> KeyFigure:
    grown = growth("expansion.growth_heating", water.standing, water.heating, water.glycol)
    return _expanded("expansion.expanded_heating", volume.total, grown)


def _reheat_growth(volume: WaterVolume, water: Temperatures) -> KeyFigure | None:
    """Growth at the end of a reheat on a design day: coil circuit hot, the rooms' water warm."""
    if water.hot_water is None:
        return None
    parts = tuple(part.volume for part in volume.parts if part.is_reheated)
    circuit = calculated(
        "expansion.reheated_volume", "water heated with the cylinder",
        sum(part.value for part in parts), "L", formula="ΣV", inputs=parts,
        source="sum of the parts",
    )  # fmt: skip
    hot = growth("expansion.growth_hot_water", water.standing, water.hot_water, water.glycol)
    warm = growth("expansion.growth_heating", water.standing, water.heating, water.glycol)
    rest = volume.total.value - circuit.value
    return calculated(
        "expansion.expanded_hot_water", "growth of the water since cold, at the end of a reheat",
        circuit.value * hot.value + rest * warm.value, "L",
        formula="Ve = Vcoil·ehot + (Vs − Vcoil)·ewarm; coil circuit hot, the rooms' water warm",
        inputs=(circuit, volume.total, hot, warm),
        source="mixture of two warm volumes, derived", decimals=2,
    )  # fmt: skip
