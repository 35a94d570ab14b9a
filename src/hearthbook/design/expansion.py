"""The expansion vessel of a home, its pressures cold and hot, and the marks of its gauge."""

from __future__ import annotations

from dataclasses import dataclass

from hearthbook.design.drinking_water_vessel import DrinkingWaterVessel, drinking_water_vessel
from hearthbook.design.emitters import EmitterSchedule
from hearthbook.design.gauge_marks import GaugeMarks, gauge_marks
from hearthbook.design.hot_pressures import HotPressures, VesselState, hot_pressures, pressure_at
from hearthbook.design.vessel_facts import VesselFacts, standard_size, vessel_facts
from hearthbook.design.water_growth import Temperatures, growth, temperatures
from hearthbook.design.water_volume import WaterVolume
from hearthbook.documents.figures import KeyFigure, calculated
from hearthbook.physics import vessel
from hearthbook.record.home import Home

__all__ = ["DrinkingWaterVessel", "Expansion", "expansion", "predicted_pressure"]

_EN12828 = "EN 12828 annex D, from memory"


@dataclass(frozen=True)
class Expansion:
    """Vessel, pressures and gauge marks of a home.

    Predictions stand on what was found where it was measured, and on what is wanted elsewhere; the
    marks of the gauge stand on a healthy vessel.

    Attributes:
        expanded_volume: growth of the water from filling to the hottest the controls allow.
        reserve: water the vessel keeps in hand.
        precharge_wanted: gas pressure the home asks for.
        precharge_found: as measured, else as recorded; None where neither is known.
        cold_fill: cold pressure wanted.
        cold_fill_found: the last cold pressure read; None where none was.
        hot_pressure: predicted when heating at design.
        hot_pressure_hot_water: predicted at the end of a reheat; None without a cylinder.
        flat_vessel_hot_pressure: the hotter of the two, were the vessel's gas lost.
        nominal_vessel_needed: vessel the home asks for.
        vessel_installed: vessels together; the next usual size, assumed, where none is recorded.
        vessel_spare: installed less needed; negative where too small.
        safety_valve: pressure at which it opens.
        final_pressure: highest pressure allowed below the safety valve.
        margin: final pressure less the hottest predicted; negative where the valve is in reach.
        top_up_below: cold mark under which water is added.
        call_above: mark above which somebody is called.
        normal_cold_low: lowest healthy reading when cold.
        normal_cold: the healthy reading when cold.
        normal_cold_high: highest healthy reading when cold.
        normal_hot_low: lowest healthy reading when hot.
        normal_hot: the healthy reading when hottest.
        normal_hot_high: highest healthy reading when hot.
        litres_per_tenth_bar: water behind the first tenth of a bar lost when cold.
        litres_per_bar: the same at that rate for a whole bar.
        top_up_volume: water from the top-up mark to the healthy cold reading.
        fill_time: how long that takes at the filling connection.
        temperatures: of the water, on which all this rests.
        state: vessel and cold pressure the predictions rest on.
        drinking_water: the hot-water cylinder's own vessel; None where there is none.
    """

    expanded_volume: KeyFigure
    reserve: KeyFigure
    precharge_wanted: KeyFigure
    precharge_found: KeyFigure | None
    cold_fill: KeyFigure
    cold_fill_found: KeyFigure | None
    hot_pressure: KeyFigure
    hot_pressure_hot_water: KeyFigure | None
    flat_vessel_hot_pressure: KeyFigure
    nominal_vessel_needed: KeyFigure
    vessel_installed: KeyFigure
    vessel_spare: KeyFigure
    safety_valve: KeyFigure
    final_pressure: KeyFigure
    margin: KeyFigure
    top_up_below: KeyFigure
    call_above: KeyFigure
    normal_cold_low: KeyFigure
    normal_cold: KeyFigure
    normal_cold_high: KeyFigure
    normal_hot_low: KeyFigure
    normal_hot: KeyFigure
    normal_hot_high: KeyFigure
    litres_per_tenth_bar: KeyFigure
    litres_per_bar: KeyFigure
    top_up_volume: KeyFigure
    fill_time: KeyFigure
    temperatures: Temperatures
    state: VesselState
    drinking_water: DrinkingWaterVessel | None


@dataclass(frozen=True)
class _Sizing:
    """The vessel a home needs."""

    expanded: KeyFigure
    reserve: KeyFigure
    final: KeyFigure
    needed: KeyFigure


def expansion(home: Home, volume: WaterVolume, emitters: EmitterSchedule) -> Expansion:
    """Vessel, pressures and gauge marks of a home.

    Args:
        home: the record.
        volume: its water.
        emitters: its design temperatures.

    Raises:
        OutOfRange: a safety valve opens before its water is filled.
    """
    water = temperatures(home, emitters)
    facts = vessel_facts(home)
    sizing = _sizing(volume, water, facts)
    installed = facts.installed or standard_size(sizing.needed)
    state = VesselState(
        installed, facts.precharge_found or facts.precharge_wanted,
        facts.cold_fill_found or facts.cold_fill, facts.safety_valve,
    )  # fmt: skip
    hot = hot_pressures(volume, water, state)
    marks = gauge_marks(home, facts, installed, hot)
    return Expansion(
        expanded_volume=sizing.expanded,
        reserve=sizing.reserve,
        precharge_wanted=facts.precharge_wanted,
        precharge_found=facts.precharge_found,
        cold_fill=facts.cold_fill,
        cold_fill_found=facts.cold_fill_found,
        hot_pressure=hot.heating,
        hot_pressure_hot_water=hot.hot_water,
        flat_vessel_hot_pressure=hot.flat,
        nominal_vessel_needed=sizing.needed,
        vessel_installed=installed,
        vessel_spare=_spare(installed, sizing.needed),
        safety_valve=facts.safety_valve,
        final_pressure=sizing.final,
        margin=_margin(sizing.final, hot),
        **_marks(marks),
        temperatures=water,
        state=state,
        drinking_water=drinking_water_vessel(home),
    )


def predicted_pressure(
    expanded: Expansion, volume: WaterVolume, mean_temperature: KeyFigure
) -> KeyFigure:
    """The pressure as left when all the water has a mean temperature, such as one just read.

    Args:
        expanded: the home's vessel.
        volume: its water.
        mean_temperature: of the water in the whole system.
    """
    return pressure_at(volume, expanded.temperatures, expanded.state, mean_temperature)


def _marks(marks: GaugeMarks) -> dict[str, KeyFigure]:
    return {name: getattr(marks, name) for name in GaugeMarks.__dataclass_fields__}


def _sizing(volume: WaterVolume, water: Temperatures, facts: VesselFacts) -> _Sizing:
    grown = growth("expansion.growth", water.fill, water.highest, water.glycol)
    expanded = calculated(
        "expansion.expanded_volume", "growth of the water, filling to hottest",
        float(vessel.expansion_volume(volume.total.value, grown.value)), "L",
        formula="Ve = Vs·e", inputs=(volume.total, grown), source=_EN12828, decimals=2,
    )  # fmt: skip
    reserve = calculated(
        "expansion.reserve", "water the vessel keeps in hand",
        float(vessel.water_reserve(volume.total.value)), "L",
        formula="max(0.5 % · Vs, 3 L)", inputs=(volume.total,), source=_EN12828,
    )  # fmt: skip
    final = calculated(
        "expansion.final_pressure", "highest pressure allowed",
        float(vessel.final_pressure(facts.safety_valve.value)), "bar",
        formula="pe = psv − 0.5 bar (a tenth above 5 bar)", inputs=(facts.safety_valve,),
        source=_EN12828,
    )  # fmt: skip
    needed = vessel.nominal_vessel(
        expanded.value, reserve.value, facts.precharge_wanted.value, final.value
    )
    return _Sizing(expanded, reserve, final, calculated(
        "expansion.nominal_vessel_needed", "vessel needed", float(needed), "L",
        formula="Vn = (Ve + Vr)·(pe + 1)/(pe − p0)",
        inputs=(expanded, reserve, facts.precharge_wanted, final), source=_EN12828,
    ))  # fmt: skip


def _spare(installed: KeyFigure, needed: KeyFigure) -> KeyFigure:
    return calculated(
        "expansion.vessel_spare", "spare in the vessel (negative: too small)",
        installed.value - needed.value, "L", formula="Vn − Vn,needed",
        inputs=(installed, needed), source="difference",
    )  # fmt: skip


def _margin(final: KeyFigure, hot: HotPressures) -> KeyFigure:
    return calculated(
        "expansion.margin", "room below the highest pressure allowed",
        final.value - hot.hottest.value, "bar", formula="pe − ph", inputs=(final, hot.hottest),
        source="difference",
    )  # fmt: skip
