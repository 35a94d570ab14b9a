"""Hygiene of hot water: what the recorded regime meets, and what its runs take."""

from __future__ import annotations

from enum import StrEnum

import numpy as np

from hearthbook.design.heat_pump_fit import HeatPumpFit
from hearthbook.design.hot_water_demand import HotWaterDemand
from hearthbook.documents.figures import KeyFigure, calculated, given
from hearthbook.physics import hot_water as physics
from hearthbook.record.home import Home
from hearthbook.record.household import Tenure, Vulnerability
from hearthbook.record.plant import Cylinder

__all__ = ["HygieneNeed", "hygiene_need", "hygiene_per_year", "hygiene_run", "is_cautious"]

_SAFE_STORE = 60.0  # °C; HSG274 part 2: stored at 60 °C or more
_USUAL_OUTDOOR = 7.0  # °C; a usual day outdoors, for the efficiency of the runs


class HygieneNeed(StrEnum):
    """What the hygiene regime has to meet; the words are in the texts by language."""

    STORED_HOT = "stored_hot"
    """The store is at 60 °C or more every day."""
    WEEKLY_RUN = "weekly_run"
    """A run to 60 °C or more at intervals, as decided and recorded."""
    BELOW_SIXTY = "below_sixty"
    """A regime is recorded, but its run stays below 60 °C."""
    NOT_DECIDED = "not_decided"
    """Nothing is recorded; nobody may assume it."""


def hygiene_run(cylinder: Cylinder, volume: KeyFigure, set_to: KeyFigure) -> KeyFigure | None:
    """Heat of one run; None where no regime is decided."""
    name, label = "hot_water.hygiene_run", "heat of one hygiene run"
    regime = cylinder.hygiene
    if regime is None:
        return None
    place = "plant.cylinder.hygiene.temperature"
    to = given(place, "temperature of the hygiene run", regime.temperature, "°C", place=place)
    value = physics.hygiene_energy(volume.value, set_to.value, to.value)
    return calculated(
        name, label, float(np.sum(value)), "kWh",
        formula="volume · 1.163 Wh/(L·K) · (hygiene - set temperature)",
        inputs=(volume, set_to, to), source="heat balance of the cylinder", decimals=1,
    )  # fmt: skip


def hygiene_per_year(demand: HotWaterDemand, fit: HeatPumpFit) -> KeyFigure | None:
    """Electricity of a year's runs; None where no regime is decided."""
    if demand.hygiene_heat is None:
        return None
    efficiency = 1.0
    if not demand.hygiene_by_immersion:
        efficiency = float(fit.unit.efficiency_at_most(_USUAL_OUTDOOR, demand.hygiene_flow))
    by = "immersion heater" if demand.hygiene_by_immersion else "heat pump"
    return calculated(
        "hot_water.hygiene_energy_per_year", "electricity of a year's hygiene runs",
        demand.hygiene_heat.value / efficiency, "kWh", formula="heat of the runs / efficiency",
        inputs=(demand.hygiene_heat, *(() if demand.hygiene_by_immersion else fit.unit.figures)),
        source=f"last degrees by the {by}",
    )  # fmt: skip


def hygiene_need(cylinder: Cylinder) -> HygieneNeed:
    """How the recorded regime stands."""
    if cylinder.set_temperature >= _SAFE_STORE:
        return HygieneNeed.STORED_HOT
    if cylinder.hygiene is None:
        return HygieneNeed.NOT_DECIDED
    is_hot = cylinder.hygiene.temperature >= _SAFE_STORE
    return HygieneNeed.WEEKLY_RUN if is_hot else HygieneNeed.BELOW_SIXTY


def is_cautious(home: Home) -> bool:
    """Tenants, landlords and people at risk: a store at 60 °C is the default, HSG274 part 2."""
    at_risk = {
        Vulnerability.OLDER_PERSON,
        Vulnerability.INFANT,
        Vulnerability.LONG_ILLNESS,
        Vulnerability.REDUCED_IMMUNITY,
    }
    household = home.household
    return household.tenure is not Tenure.OWNER or bool(at_risk & set(household.vulnerabilities))
