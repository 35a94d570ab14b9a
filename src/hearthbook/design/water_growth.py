"""How warm a home's heating water gets, and how much it grows."""

from __future__ import annotations

from dataclasses import dataclass

from hearthbook.design.coil import reheat_approach
from hearthbook.design.emitters import EmitterSchedule
from hearthbook.documents.figures import KeyFigure, assumed, calculated, given
from hearthbook.physics import water
from hearthbook.record.home import Home

__all__ = ["Temperatures", "glycol_share", "growth", "temperatures"]

_PRACTICE = "common practice, no source"
_FILL = 10.0  # °C; cold mains water, common practice, no source
_STANDING = 20.0  # °C; a system that has stood in a warm house, common practice, no source
_GLYCOL_SHARE = 0.25  # by volume; common practice, no source


@dataclass(frozen=True)
class Temperatures:
    """Temperatures of the heating water.

    Attributes:
        fill: when it is filled in.
        standing: when the gauge is read cold.
        heating: mean of flow and return at design.
        hot_water: at the end of a reheat of the cylinder; None without one.
        highest: the hottest the controls allow, hygiene runs counted; the vessel is sized for it.
        glycol: share of propylene glycol by volume; None for plain water.
    """

    fill: KeyFigure
    standing: KeyFigure
    heating: KeyFigure
    hot_water: KeyFigure | None
    highest: KeyFigure
    glycol: KeyFigure | None


def temperatures(home: Home, emitters: EmitterSchedule) -> Temperatures:
    """The temperatures of a home's heating water."""
    hot_water = _hot_water(home)
    return Temperatures(
        fill=assumed("expansion.fill_temperature", "temperature of the water filled in", _FILL,
                     "°C", source=_PRACTICE),
        standing=assumed("expansion.standing_temperature", "temperature when the gauge is read "
                         "cold", _STANDING, "°C", source=_PRACTICE),
        heating=calculated(
            "expansion.heating_temperature", "mean water temperature at design",
            (emitters.flow_temperature.value + emitters.return_temperature.value) / 2, "°C",
            formula="Tm = (Tf + Tr)/2",
            inputs=(emitters.flow_temperature, emitters.return_temperature), source="definition",
        ),
        hot_water=hot_water,
        highest=_highest(home, emitters, hot_water),
        glycol=glycol_share(home),
    )  # fmt: skip


def growth(name: str, cold: KeyFigure, hot: KeyFigure, glycol: KeyFigure | None) -> KeyFigure:
    """The share water grows by between two temperatures."""
    source = (
        "Kell (1975), density of water"
        if glycol is None
        else "density of water with propylene glycol, fitted to CoolProp (Melinder 2010)"
    )
    value = (
        water.expansion_fraction(cold.value, hot.value)
        if glycol is None
        else water.glycol_expansion_fraction(
            cold.value, hot.value, water.glycol_mass_share(glycol.value)
        )
    )
    return calculated(
        name, "growth of the water", float(value), "%",
        formula="e = ρcold/ρhot − 1", inputs=(cold, hot, *(() if glycol is None else (glycol,))),
        source=source, decimals=2,
    )  # fmt: skip


def _hot_water(home: Home) -> KeyFigure | None:
    cylinder = home.plant.cylinder
    if cylinder is None:
        return None
    name = "plant.cylinder.set_temperature"
    setting = given(name, "cylinder set to", cylinder.set_temperature, "°C", place=name)
    approach = reheat_approach(home, cylinder)
    return calculated(
        "expansion.hot_water_temperature", "heating water at the end of a reheat",
        setting.value + approach.value, "°C", formula="T = Tset + ΔT", inputs=(setting, approach),
        source=_PRACTICE,
    )  # fmt: skip


def _hygiene_run(home: Home) -> KeyFigure | None:
    """Heating water at the end of a hygiene run; None where an immersion heater makes it."""
    cylinder = home.plant.cylinder
    regime = None if cylinder is None else cylinder.hygiene
    if cylinder is None or regime is None or regime.heat_source == "immersion_heater":
        return None
    name = "plant.cylinder.hygiene.temperature"
    to = given(name, "cylinder run to", regime.temperature, "°C", place=name)
    approach = reheat_approach(home, cylinder)
    hottest = to.value + approach.value
    inputs: tuple[KeyFigure, ...] = (to, approach)
    most = home.plant.heat_pump.maximum_flow_temperature
    if most is not None:
        name = "plant.heat_pump.maximum_flow_temperature"
        inputs = (*inputs, given(name, "hottest water the unit makes", most, "°C", place=name))
        hottest = min(hottest, most)
    return calculated(
        "expansion.hygiene_temperature", "heating water at the end of a hygiene run",
        hottest, "°C", formula="T = min(Thygiene + ΔT, hottest the unit makes)", inputs=inputs,
        source=_PRACTICE,
    )  # fmt: skip


def _highest(home: Home, emitters: EmitterSchedule, hot_water: KeyFigure | None) -> KeyFigure:
    candidates = [emitters.flow_temperature]
    if hot_water is not None:
        candidates.append(hot_water)
    hygiene = _hygiene_run(home)
    if hygiene is not None:
        candidates.append(hygiene)
    allowed, name = home.controls.maximum_flow_temperature, "controls.maximum_flow_temperature"
    if allowed is None:
        allowed = home.plant.heat_pump.maximum_flow_temperature
        name = "plant.heat_pump.maximum_flow_temperature"
    if allowed is not None:
        candidates.append(given(name, "hottest flow allowed", allowed, "°C", place=name))
    return calculated(
        "expansion.highest_temperature", "hottest water the vessel is sized for",
        max(one.value for one in candidates), "°C", formula="the hottest of these",
        inputs=tuple(candidates), source="EN 12828, highest operating temperature, from memory",
    )  # fmt: skip


def glycol_share(home: Home) -> KeyFigure | None:
    """Propylene glycol in the heating water by volume; None for plain water."""
    protection = home.plant.freeze_protection
    if protection is None or protection.kind != "glycol":
        return None
    name, label = "plant.freeze_protection.glycol_share", "propylene glycol by volume"
    if protection.glycol_share is not None:
        return given(name, label, protection.glycol_share, "%", place=name)
    return assumed(name, label, _GLYCOL_SHARE, "%", source=_PRACTICE)
