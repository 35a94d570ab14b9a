"""Hot water: what the cylinder gives in the busiest hour, how long it reheats, what it loses."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from hearthbook.design.coil import MOST_APPROACH, coil_approach
from hearthbook.design.heat_pump_fit import HeatPumpFit
from hearthbook.design.hot_water_demand import (
    HotWaterDemand,
    cold_temperature,
    hot_water_demand,
)
from hearthbook.design.hot_water_hygiene import (
    HygieneNeed,
    hygiene_need,
    hygiene_per_year,
    hygiene_run,
    is_cautious,
)
from hearthbook.design.hot_water_peak import PeakDemand, peak_demand
from hearthbook.design.hot_water_reheat import reheats
from hearthbook.documents.figures import KeyFigure, assumed, calculated, condition, given
from hearthbook.physics import hot_water as physics
from hearthbook.record.home import Home
from hearthbook.record.plant import Cylinder

__all__ = ["CoilFit", "HotWater", "HygieneNeed", "hot_water"]

_REHEAT_OUTDOOR = 7.0  # °C; a usual day outdoors for the reheat time told to the household
_WINTER_OUTDOOR = 2.0  # °C; a winter's day for the busiest hour


class CoilFit(StrEnum):
    """How the coil's surface meets the unit's output."""

    ENOUGH = "enough"
    SMALL = "small"
    UNKNOWN = "unknown"


@dataclass(frozen=True)
class HotWater:
    """The hot water of a home.

    Attributes:
        stored_mixed_volume: water at 40 °C from a full cylinder.
        peak: what the busiest hour asks.
        peak_supply: stored and reheated water in that hour.
        spare: supply less demand; negative is a shortfall.
        shower_time: of one shower of the household's own flow, until the cylinder is used up.
        shower_litres: mixed water of one shower.
        reheat_energy: from the fall that starts it to the set temperature.
        reheat_time: for that, on a day of 7 °C.
        cold_reheat_energy: from cold.
        cold_reheat_time: for that.
        shower_reheat_time: until the heat of one shower of this household is back, that day.
        two_showers_reheat_time: until the heat of two is.
        coil_approach: flow above the cylinder at the end of a reheat; None without a coil area.
        coil_fit: what the coil says to it.
        flow_spare: hottest water the unit makes less what a reheat needs at its end; negative
            where it cannot reach the set temperature alone; None where its limit is not recorded.
        standing_loss: as a power.
        standing_loss_per_year: in heat.
        hygiene_run: heat of one run; None where no regime is decided.
        hygiene_energy_per_year: electricity of a year's runs; None likewise.
        hygiene_need: how the recorded regime stands.
        is_cautious_household: whether tenure or people call for a store at 60 °C by default.
        profile: largest European draw-off profile the full cylinder serves.
        demand: the year's demand.
        reheat_output: of the unit into the cylinder on a day of 7 °C.
        volume: water the cylinder stores.
        set_temperature: it is heated to.
    """

    stored_mixed_volume: KeyFigure
    peak: PeakDemand
    peak_supply: KeyFigure
    spare: KeyFigure
    shower_time: KeyFigure
    shower_litres: KeyFigure
    reheat_energy: KeyFigure
    reheat_time: KeyFigure
    cold_reheat_energy: KeyFigure
    cold_reheat_time: KeyFigure
    shower_reheat_time: KeyFigure
    two_showers_reheat_time: KeyFigure
    coil_approach: KeyFigure | None
    coil_fit: CoilFit
    flow_spare: KeyFigure | None
    standing_loss: KeyFigure
    standing_loss_per_year: KeyFigure
    hygiene_run: KeyFigure | None
    hygiene_energy_per_year: KeyFigure | None
    hygiene_need: HygieneNeed
    is_cautious_household: bool
    profile: physics.Profile
    demand: HotWaterDemand
    reheat_output: KeyFigure
    volume: KeyFigure
    set_temperature: KeyFigure

    def reheat_time_from(self, start: float, output: float | None = None) -> float:
        """Seconds of a reheat from a measured start, at a measured output or the reckoned one."""
        rise_from = min(start, self.set_temperature.value)
        energy = physics.reheat_energy(self.volume.value, rise_from, self.set_temperature.value)
        return float(physics.reheat_time(energy, output or max(self.reheat_output.value, 1.0)))


def hot_water(home: Home, fit: HeatPumpFit) -> HotWater | None:
    """The hot water of a home; None where there is no cylinder."""
    cylinder, demand = home.plant.cylinder, hot_water_demand(home)
    if cylinder is None or demand is None:
        return None
    cold, volume = cold_temperature(cylinder), _volume(cylinder)
    set_to, peak = _set_temperature(cylinder), peak_demand(home)
    output = _output(fit, demand, _REHEAT_OUTDOOR, "reheat_output")
    mixed = _mixed(volume, set_to, cold)
    winter = _output(fit, demand, _WINTER_OUTDOOR, "winter_output")
    is_timed = bool(home.controls.hot_water_windows)
    supply = _stored_alone(mixed) if is_timed else _supply(mixed, winter, peak, cold)
    again = reheats(cylinder, (volume, set_to, cold, output), peak)
    approach = coil_approach(home, cylinder)
    return HotWater(
        stored_mixed_volume=mixed,
        peak=peak,
        peak_supply=supply,
        spare=_spare(supply, peak.total),
        shower_time=_shower_time(mixed, peak),
        shower_litres=peak.shower_litres,
        reheat_energy=again.energy,
        reheat_time=again.time,
        cold_reheat_energy=again.cold_energy,
        cold_reheat_time=again.cold_time,
        shower_reheat_time=again.shower_time,
        two_showers_reheat_time=again.two_showers_time,
        coil_approach=approach,
        coil_fit=_coil_fit(approach),
        flow_spare=_flow_spare(home, demand),
        standing_loss=demand.standing_loss,
        standing_loss_per_year=_loss_per_year(demand),
        hygiene_run=hygiene_run(cylinder, volume, set_to),
        hygiene_energy_per_year=hygiene_per_year(demand, fit),
        hygiene_need=hygiene_need(cylinder),
        is_cautious_household=is_cautious(home),
        profile=physics.largest_profile_served(mixed.value),
        demand=demand,
        reheat_output=output,
        volume=volume,
        set_temperature=set_to,
    )


def _volume(cylinder: Cylinder) -> KeyFigure:
    place = "plant.cylinder.volume"
    return given(place, "water the cylinder stores", cylinder.volume, "L", place=place)


def _set_temperature(cylinder: Cylinder) -> KeyFigure:
    place = "plant.cylinder.set_temperature"
    return given(place, "temperature the cylinder is heated to", cylinder.set_temperature, "°C",
                 place=place)  # fmt: skip


def _output(fit: HeatPumpFit, demand: HotWaterDemand, outdoor: float, part: str) -> KeyFigure:
    at = condition(f"hot_water.{part}_outdoor", "outdoor temperature of that day", outdoor, "°C",
                   why="a usual day, chosen for this figure")  # fmt: skip
    return calculated(
        f"hot_water.{part}", f"output into the cylinder at {outdoor:g} °C outside",
        float(fit.unit.most(outdoor, demand.reheat_flow.value)), "kW",
        formula="straight line between tested points, at the flow at the end of a reheat",
        inputs=(at, demand.reheat_flow, *fit.unit.figures),
        source="EN 14825, interpolation of capacity",
    )  # fmt: skip


def _mixed(volume: KeyFigure, set_to: KeyFigure, cold: KeyFigure) -> KeyFigure:
    share = assumed("hot_water.stratification", "share of a full cylinder that leaves hot",
                    physics.STRATIFICATION, "%", source="common practice, no source")  # fmt: skip
    is_warm = set_to.value >= physics.MIXED_TEMPERATURE
    value = physics.mixed_volume(volume.value, set_to.value, cold.value) if is_warm else 0.0
    return calculated(
        "hot_water.stored_mixed_volume", "water at 40 °C from a full cylinder", float(value), "L",
        formula="share · volume · (set - cold) / (40 - cold)", inputs=(share, volume, set_to, cold),
        source="heat balance of mixing; 40 °C as EU 814/2013 counts it",
        uncertainty=0.1 * float(value), decimals=0,
        note="" if is_warm else "the store is colder than 40 °C",
    )  # fmt: skip


def _supply(mixed: KeyFigure, output: KeyFigure, peak: PeakDemand, cold: KeyFigure) -> KeyFigure:
    added = physics.reheated_volume(output.value, peak.duration.value / 2, 40.0, cold.value)
    return calculated(
        "hot_water.peak_supply", "water at 40 °C in the busiest hour, reheat counted",
        mixed.value + float(added), "L",
        formula="stored + output · half of the hour / (1.163 Wh/(L·K) · (40 - cold))",
        inputs=(mixed, output, peak.duration, cold),
        source="heat balance; half of the hour passes before the reheat is felt, no source",
        uncertainty=mixed.uncertainty, decimals=0,
    )  # fmt: skip


def _stored_alone(mixed: KeyFigure) -> KeyFigure:
    """The supply of a cylinder that is heated at set times only: nobody may count on more."""
    return calculated(
        "hot_water.peak_supply", "water at 40 °C in the busiest hour, no reheat counted",
        mixed.value, "L", formula="what is stored", inputs=(mixed,),
        source="hot water is made at set times only, which the busiest hour may miss",
        uncertainty=mixed.uncertainty, decimals=0,
    )  # fmt: skip


def _spare(supply: KeyFigure, demand: KeyFigure) -> KeyFigure:
    return calculated(
        "hot_water.spare", "water at 40 °C to spare in the busiest hour",
        supply.value - demand.value, "L", formula="supply - demand", inputs=(supply, demand),
        source="balance of the busiest hour; negative is a shortfall", decimals=0,
    )  # fmt: skip


def _shower_time(mixed: KeyFigure, peak: PeakDemand) -> KeyFigure:
    return calculated(
        "hot_water.shower_time", "minutes of shower from a full cylinder",
        mixed.value / max(peak.shower_flow.value, 1e-6), "min",
        formula="water at 40 °C / flow of the shower", inputs=(mixed, peak.shower_flow),
        source="arithmetic; without reheating meanwhile",
    )  # fmt: skip


def _flow_spare(home: Home, demand: HotWaterDemand) -> KeyFigure | None:
    limit = home.plant.heat_pump.maximum_flow_temperature
    if limit is None:
        return None
    place = "plant.heat_pump.maximum_flow_temperature"
    hottest = given(place, "hottest water the unit makes", limit, "°C", place=place)
    return calculated(
        "hot_water.flow_spare", "hottest water the unit makes above what a reheat needs",
        hottest.value - demand.reheat_flow.value, "K", formula="hottest - flow at the end",
        inputs=(hottest, demand.reheat_flow), source="arithmetic; colder air lowers the limit",
    )  # fmt: skip


def _coil_fit(approach: KeyFigure | None) -> CoilFit:
    if approach is None:
        return CoilFit.UNKNOWN
    return CoilFit.SMALL if approach.value > MOST_APPROACH else CoilFit.ENOUGH


def _loss_per_year(demand: HotWaterDemand) -> KeyFigure:
    return calculated(
        "hot_water.standing_loss_per_year", "heat the cylinder loses in a year",
        demand.standing_loss.value * 365.0 * 86_400.0, "kWh", formula="standing loss · 365 days",
        inputs=(demand.standing_loss,), source="label of the cylinder, EN 12897, all year",
    )  # fmt: skip
