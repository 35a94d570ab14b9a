"""The expansion vessel on the cold feed of an unvented cylinder."""

from __future__ import annotations

from dataclasses import dataclass

from hearthbook.design.water_growth import growth
from hearthbook.documents.figures import KeyFigure, assumed, calculated, given
from hearthbook.errors import OutOfRange
from hearthbook.physics import vessel
from hearthbook.record.home import Home
from hearthbook.record.plant import Cylinder

__all__ = ["DrinkingWaterVessel", "drinking_water_vessel"]

_PRACTICE = "common practice, no source"
_COLD = 10.0  # °C; cold mains water, common practice, no source
_PRECHARGE = 3e5  # Pa; usual setting of the pressure-reducing valve, common practice, no source
_LEAST_ROOM = 0.1e5  # Pa between precharge and highest pressure; below it no vessel is large enough
_RELIEF = 6e5  # Pa; usual expansion relief valve of a cylinder, common practice, no source


@dataclass(frozen=True)
class DrinkingWaterVessel:
    """The vessel on the drinking-water side; work on it is for a person qualified for unvented.

    Attributes:
        expanded_volume: growth of the cylinder's water to its hottest.
        precharge: gas pressure, equal to the supply behind its reducing valve.
        relief_valve: pressure at which the relief valve opens.
        nominal_needed: vessel the cylinder asks for.
        installed: vessel fitted.
        spare: installed less needed; negative where too small.
    """

    expanded_volume: KeyFigure
    precharge: KeyFigure
    relief_valve: KeyFigure
    nominal_needed: KeyFigure
    installed: KeyFigure
    spare: KeyFigure


def drinking_water_vessel(home: Home) -> DrinkingWaterVessel | None:
    """The cylinder's own vessel held against its need; None where none is recorded.

    Raises:
        OutOfRange: the precharge leaves no room below the relief valve.
    """
    cylinder = home.plant.cylinder
    vessels = [v for v in home.plant.expansion_vessels if v.circuit == "drinking_water"]
    if cylinder is None or not vessels:
        return None
    first = vessels[0]
    place = "plant.expansion_vessels"
    installed = given(
        "drinking_water_vessel.installed", "drinking-water vessel fitted",
        sum(v.volume for v in vessels), "L", place=place,
    )  # fmt: skip
    name, label = "drinking_water_vessel.precharge", "precharge of the drinking-water vessel"
    if first.precharge is not None:
        precharge = given(name, label, first.precharge, "bar", place=place)
    else:
        precharge = assumed(name, label, _PRECHARGE, "bar", source=_PRACTICE)
    relief = _relief(home)
    expanded = _expanded(cylinder)
    needed = _needed(expanded, precharge, relief)
    spare = calculated(
        "drinking_water_vessel.spare", "spare in the vessel (negative: too small)",
        installed.value - needed.value, "L", formula="Vn − Vn,needed",
        inputs=(installed, needed), source="difference",
    )  # fmt: skip
    return DrinkingWaterVessel(expanded, precharge, relief, needed, installed, spare)


def _relief(home: Home) -> KeyFigure:
    name, label = "drinking_water_vessel.relief_valve", "relief valve opens at"
    settings = [v.setting for v in home.plant.safety_valves if v.circuit == "drinking_water"]
    if settings:
        return given(name, label, min(settings), "bar", place="plant.safety_valves")
    return assumed(name, label, _RELIEF, "bar", source=_PRACTICE)


def _expanded(cylinder: Cylinder) -> KeyFigure:
    volume = given(
        "plant.cylinder.volume", "water in the cylinder", cylinder.volume, "L",
        place="plant.cylinder.volume",
    )  # fmt: skip
    hottest = cylinder.set_temperature
    place = "plant.cylinder.set_temperature"
    if cylinder.hygiene is not None and cylinder.hygiene.temperature > hottest:
        hottest, place = cylinder.hygiene.temperature, "plant.cylinder.hygiene.temperature"
    hot = given("drinking_water_vessel.hottest", "hottest water stored", hottest, "°C", place=place)
    cold = assumed(
        "drinking_water_vessel.cold", "cold water coming in", _COLD, "°C", source=_PRACTICE
    )
    grown = growth("drinking_water_vessel.growth", cold, hot, None)
    return calculated(
        "drinking_water_vessel.expanded_volume", "growth of the cylinder's water",
        volume.value * grown.value, "L", formula="Ve = V·e", inputs=(volume, grown),
        source="EN 12828 annex D, from memory", decimals=2,
    )  # fmt: skip


def _needed(expanded: KeyFigure, precharge: KeyFigure, relief: KeyFigure) -> KeyFigure:
    final = float(vessel.final_pressure(relief.value))
    if precharge.value > final - _LEAST_ROOM:
        raise OutOfRange(
            f"the drinking-water vessel's precharge is {precharge.shown()}, but the cylinder's "
            f"relief valve opens at {relief.shown()}, which leaves the water no room to grow. "
            "Check plant.expansion_vessels and plant.safety_valves."
        )
    value = vessel.classic_vessel(1.0, expanded.value, precharge.value, final)
    return calculated(
        "drinking_water_vessel.nominal_needed", "drinking-water vessel needed", float(value), "L",
        formula="Vn = Ve / (1 − (p0 + 1)/(pe + 1)), pe a tenth below the relief valve",
        inputs=(expanded, precharge, relief), source="Boyle's law, derived",
    )  # fmt: skip
