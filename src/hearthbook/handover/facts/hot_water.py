"""Facts about the cylinder and the water from it."""

from __future__ import annotations

from hearthbook.design.hot_water import HotWater
from hearthbook.design.results import Design
from hearthbook.handover.facts.speech import Speech
from hearthbook.handover.facts.tables import listed, table
from hearthbook.handover.wording import Facts, Ready
from hearthbook.record.plant import Cylinder, HygieneRegime
from hearthbook.units import shown
from hearthbook.year.pack_numbers import YearNumbers

__all__ = ["hot_water_facts"]

_DAY, _WEEK = 86400.0, 7 * 86400.0


def hot_water_facts(design: Design, numbers: YearNumbers, speech: Speech) -> Facts:
    """Facts about hot water; the cylinder is None where there is none."""
    cylinder, water = design.home.plant.cylinder, design.hot_water
    if cylinder is None or water is None:
        return {"cylinder": None}
    times = f"{_efficiency(numbers):.1f}"
    facts = _cylinder(design, cylinder, water, speech)
    facts["per_unit"] = times
    facts["immersion"] = _immersion(design, cylinder, times, speech)
    return {"cylinder": facts, "table_hot_water": _table(facts, speech)}


def _cylinder(design: Design, cylinder: Cylinder, water: HotWater, speech: Speech) -> Facts:
    home, words = design.home, speech.words
    has_peak = water.peak.total.value > 0
    shower = water.shower_litres.value
    return {
        "place": home.places.get("cylinder") or words("words", "unknown_place"),
        "volume": shown(cylinder.volume, "L", 0),
        "set_temperature": shown(cylinder.set_temperature, "°C", 0),
        "unvented": cylinder.is_unvented,
        "relief": cylinder.relief_discharge or home.places.get("relief_discharge"),
        "mixed": speech.figure(water.stored_mixed_volume, 0),
        "showers": words(
            "words", "showers", count=max(int(water.stored_mixed_volume.value / shower), 1)
        ),
        "shower_words": words(
            "words",
            "showers_words",
            minutes=speech.duration(water.peak.shower_length.value),
            flow=speech.figure(water.peak.shower_flow, 0),
        ),
        "peak": speech.figure(water.peak.total, 0) if has_peak else None,
        "peak_verdict": _peak_verdict(water, speech),
        "shower_reheat": speech.duration(water.shower_reheat_time.value),
        "two_showers_reheat": speech.duration(water.two_showers_reheat_time.value),
        "cold_reheat_time": speech.duration(water.cold_reheat_time.value),
        "windows": _windows(design, speech),
        "mixing": None
        if cylinder.mixing_valve_temperature is None
        else shown(cylinder.mixing_valve_temperature, "°C", 0),
        "hygiene": _hygiene(cylinder.hygiene, water, speech),
    }


def _peak_verdict(water: HotWater, speech: Speech) -> str:
    if water.spare.value < 0:
        return speech.words("words", "peak_short", litres=shown(-water.spare.value, "L", 0))
    is_stored = water.peak.total.value <= water.stored_mixed_volume.value
    return speech.words("words", "peak_enough" if is_stored else "peak_reheated")


def _windows(design: Design, speech: Speech) -> str | None:
    windows = design.home.controls.hot_water_windows
    said = [speech.words("words", "between", start=w.start, end=w.end) for w in windows]
    return listed(said, speech.words("words", "and")) or speech.words("words", "any_time")


def _every(regime: HygieneRegime, speech: Speech) -> str:
    if regime.every <= _DAY:
        return speech.words("words", "every_day")
    if regime.every == _WEEK:
        return speech.words("words", "every_week")
    return speech.words("words", "every_days", days=shown(regime.every, "days", 0))


def _hygiene(regime: HygieneRegime | None, water: HotWater, speech: Speech) -> Facts | None:
    if regime is None:
        return None
    weekday = speech.words("weekdays", regime.weekday)
    is_weekly = regime.every == _WEEK
    energy = water.hygiene_energy_per_year
    return {
        "temperature": shown(regime.temperature, "°C", 0),
        "hold": speech.duration(regime.hold),
        "when": speech.words("words", "hygiene_when", weekday=weekday, start=regime.start)
        if is_weekly
        else _every(regime, speech).capitalize(),
        "when_short": speech.words(
            "words", "hygiene_when_short", weekday=weekday, start=regime.start
        )
        if is_weekly
        else _every(regime, speech),
        "every": _every(regime, speech),
        "energy": None if energy is None else speech.two_digits(energy.value, "kWh"),
        "decided_by": regime.decided_by,
        "reason": regime.reason,
    }


def _efficiency(numbers: YearNumbers) -> float:
    """Units of warmth in the water for each unit of electricity."""
    totals = numbers.totals
    return totals.hot_water_efficiency.middle or totals.efficiency.middle


def _immersion(design: Design, cylinder: Cylinder, times: str, speech: Speech) -> Facts | None:
    if cylinder.immersion_power is None:
        return None
    switch = next((i for i in design.home.electrical.isolators if "immersion" in i.id), None)
    return {
        "power": shown(cylinder.immersion_power, "kW", 0),
        "switch": design.home.places.get("immersion_switch")
        or (switch.place if switch is not None else None),
        "normally": speech.words("words", switch.normally if switch is not None else "on"),
        "times": times,
    }


def _table(facts: Facts, speech: Speech) -> Ready:
    words = speech.words
    rows = [
        [words("tables", "hot_water_set"), facts["set_temperature"]],
        [words("tables", "hot_water_times"), facts["windows"]],
        [words("tables", "hot_water_reheat"), facts["two_showers_reheat"]],
        [words("tables", "hot_water_cold"), facts["cold_reheat_time"]],
        [words("tables", "hot_water_mixed"), facts["mixed"]],
    ]
    if facts["hygiene"]:
        hygiene = facts["hygiene"]
        said = f"{hygiene['when_short']}, {hygiene['temperature']}, {hygiene['hold']}"
        rows.append([words("tables", "hot_water_hygiene"), said])
    heads = [words("tables", "hot_water_what"), words("tables", "hot_water_value")]
    return table(words("tables", "hot_water_caption"), heads, rows)
