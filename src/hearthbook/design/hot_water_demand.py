"""How much hot water a household uses, and the heat that takes."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hearthbook.design.coil import reheat_approach
from hearthbook.documents.figures import KeyFigure, assumed, calculated, given
from hearthbook.physics import hot_water as physics
from hearthbook.physics.climate import DAYS_IN_MONTH
from hearthbook.record.home import Home
from hearthbook.record.plant import Cylinder

__all__ = [
    "HotWaterDemand",
    "cold_temperature",
    "hot_water_demand",
    "hygiene_heat",
    "standing_loss",
]

_COLD = 10.0  # °C; cold main of the European profiles, EU 814/2013
_LOSS_PER_VOLUME = 1.6 * 3.6e6 / 86_400  # W for 200 L; 1.0 to 2.0 kWh a day is usual, no source
_TAP_TEMPERATURE = 60.0  # °C; what litres a day are counted at
_DEMAND_SHARE = 0.3  # how far households of a size differ; from memory of metered studies


@dataclass(frozen=True)
class HotWaterDemand:
    """Hot water over a year.

    Attributes:
        daily_volume: drawn in a mean day.
        drawn: heat in the water drawn, in a year.
        standing_loss: heat the cylinder loses, as a power.
        heat: into the cylinder in a year, hygiene runs not counted.
        reheat_flow: flow temperature at the end of a reheat.
        hygiene_heat: heat of a year's hygiene runs above the set temperature; None where no
            regime is decided.
        hygiene_flow: flow temperature of a hygiene run made by the unit, °C.
        hygiene_by_immersion: whether an immersion heater makes the last degrees.
        by_month: heat in J without hygiene runs, January first.
        hygiene_by_month: heat of the hygiene runs in J, January first.
        spread_share: how far households of the size differ, as a share.
    """

    daily_volume: KeyFigure
    drawn: KeyFigure
    standing_loss: KeyFigure
    heat: KeyFigure
    reheat_flow: KeyFigure
    hygiene_heat: KeyFigure | None
    hygiene_flow: float
    hygiene_by_immersion: bool
    by_month: NDArray[np.float64]
    hygiene_by_month: NDArray[np.float64]
    spread_share: KeyFigure


def hot_water_demand(home: Home) -> HotWaterDemand | None:
    """The demand; None where the home has no cylinder."""
    cylinder = home.plant.cylinder
    if cylinder is None:
        return None
    volume, by_month = _volume(home), _drawn_by_month(home)
    loss = standing_loss(cylinder)
    spread = assumed(
        "hot_water.spread_share",
        "how far households of one size differ",
        _DEMAND_SHARE,
        "%",
        source="from memory of studies of metered homes",
    )
    standing = DAYS_IN_MONTH * 86_400.0 * loss.value
    drawn = _drawn(volume, by_month)
    heat = _into_cylinder(drawn, loss, float(standing.sum()))
    hygiene, regime = hygiene_heat(cylinder), cylinder.hygiene
    approach = reheat_approach(home, cylinder)
    runs = 0.0 if hygiene is None else hygiene.value
    return HotWaterDemand(
        daily_volume=volume,
        drawn=drawn,
        standing_loss=loss,
        heat=heat,
        reheat_flow=_reheat_flow(cylinder, approach),
        hygiene_heat=hygiene,
        hygiene_flow=(regime.temperature if regime else cylinder.set_temperature) + approach.value,
        hygiene_by_immersion=regime is not None and regime.heat_source != "heat_pump",
        by_month=by_month + standing,
        hygiene_by_month=runs * DAYS_IN_MONTH / 365.0,
        spread_share=spread,
    )


def _drawn(volume: KeyFigure, by_month: NDArray[np.float64]) -> KeyFigure:
    return calculated(
        "hot_water.drawn",
        "heat in the hot water drawn in a year",
        float(by_month.sum()),
        "kWh",
        formula="Σ over months: litres · 1.163 Wh/(L·K) · rise · days",
        inputs=(*volume.working.inputs, volume),
        source="season and rise by SAP 2012 tables 1c and 1d, from memory; where the household "
        "told its litres at 60 °C, from 10 °C all year",
        uncertainty=float(by_month.sum()) * _DEMAND_SHARE,
    )


def _into_cylinder(drawn: KeyFigure, loss: KeyFigure, standing: float) -> KeyFigure:
    return calculated(
        "hot_water.heat",
        "heat into the cylinder in a year",
        drawn.value + standing,
        "kWh",
        formula="drawn + standing loss · year",
        inputs=(drawn, loss),
        source="heat balance of the cylinder",
        uncertainty=drawn.uncertainty,
    )


def hygiene_heat(cylinder: Cylinder) -> KeyFigure | None:
    """Heat of a year's hygiene runs above the temperature the cylinder has anyway."""
    name, label = "hot_water.hygiene_heat", "heat of the hygiene runs in a year"
    regime = cylinder.hygiene
    if regime is None:
        return None
    stem = "plant.cylinder"
    inputs = (
        given(f"{stem}.volume", "water the cylinder stores", cylinder.volume, "L",
              place=f"{stem}.volume"),
        given(f"{stem}.set_temperature", "temperature it is heated to", cylinder.set_temperature,
              "°C", place=f"{stem}.set_temperature"),
        given(f"{stem}.hygiene.temperature", "temperature of the hygiene run",
              regime.temperature, "°C", place=f"{stem}.hygiene.temperature"),
        given(f"{stem}.hygiene.every", "days between hygiene runs", regime.every, "days",
              place=f"{stem}.hygiene.every"),
    )  # fmt: skip
    run = physics.hygiene_energy(cylinder.volume, cylinder.set_temperature, regime.temperature)
    runs = 365.0 * 86_400.0 / max(regime.every, 86_400.0)
    return calculated(
        name,
        label,
        float(np.sum(run)) * runs,
        "kWh",
        formula="volume · 1.163 Wh/(L·K) · (hygiene - set temperature) · runs in a year",
        inputs=inputs,
        source="heat balance of the cylinder",
    )


def _reheat_flow(cylinder: Cylinder, approach: KeyFigure) -> KeyFigure:
    place = "plant.cylinder.set_temperature"
    set_to = given(place, "temperature the cylinder is heated to", cylinder.set_temperature, "°C",
                   place=place)  # fmt: skip
    return calculated(
        "hot_water.reheat_flow",
        "flow temperature at the end of a reheat",
        set_to.value + approach.value,
        "°C",
        formula="set temperature + approach",
        inputs=(set_to, approach),
        source="derived",
    )


def cold_temperature(cylinder: Cylinder) -> KeyFigure:
    """The cold water coming in: as recorded, or as the European profiles take it."""
    name, label = "hot_water.cold_temperature", "cold water coming in"
    if cylinder.cold_supply_temperature is not None:
        place = "plant.cylinder.cold_supply_temperature"
        return given(name, label, cylinder.cold_supply_temperature, "°C", place=place)
    return assumed(
        name,
        label,
        _COLD,
        "°C",
        source="EU 814/2013, reference cold water",
        note="not answered: plant.cylinder.cold_supply_temperature",
    )


def standing_loss(cylinder: Cylinder) -> KeyFigure:
    """Heat the full cylinder loses: from its label, or usual for its size."""
    name, label = "hot_water.standing_loss", "standing loss of the cylinder"
    if cylinder.standing_loss is not None:
        place = "plant.cylinder.standing_loss"
        return given(name, label, cylinder.standing_loss, "kWh/day", place=place)
    value = _LOSS_PER_VOLUME * (cylinder.volume / 0.2) ** 0.5
    return assumed(
        name,
        label,
        value,
        "kWh/day",
        source="common practice, no source",
        note="1.0 to 2.0 kWh a day is usual; the label of the cylinder has it",
    )


def _people(home: Home) -> KeyFigure:
    return given(
        "household.people",
        "people who live here",
        float(home.household.people),
        "",
        place="household.people",
    )


def _volume(home: Home) -> KeyFigure:
    people = _people(home)
    each = home.household.hot_water.litres_per_person_day
    name, label = "hot_water.daily_volume", "hot water used in a day"
    if each is not None:
        place = "household.hot_water.litres_per_person_day"
        one = given(place, "hot water a person uses in a day, at 60 °C", each, "L", place=place)
        return calculated(
            name,
            label,
            each * people.value,
            "L",
            formula="people · litres each",
            inputs=(people, one),
            source="as the household told",
            decimals=0,
        )
    return calculated(
        name,
        label,
        float(np.sum(physics.daily_volume(people.value))),
        "L",
        formula="25 · people + 36",
        inputs=(people,),
        source="SAP 2012, from memory",
        uncertainty=_DEMAND_SHARE * float(np.sum(physics.daily_volume(people.value))),
        decimals=0,
    )


def _drawn_by_month(home: Home) -> NDArray[np.float64]:
    """Heat drawn in J, January first."""
    volume = _volume(home).value
    if home.household.hot_water.litres_per_person_day is None:
        return np.asarray(physics.monthly_energy(volume), dtype=float)
    a_day = physics.draw_energy(volume, _TAP_TEMPERATURE, _COLD)
    return np.asarray(physics.equal_month_energies(a_day), dtype=float)
