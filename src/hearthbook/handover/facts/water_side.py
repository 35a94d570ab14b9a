"""Facts about pressure, topping up, water volume and valves."""

from __future__ import annotations

from hearthbook.design.results import Design
from hearthbook.handover.facts.speech import Speech
from hearthbook.handover.facts.tables import listed, table
from hearthbook.handover.wording import Facts, Ready
from hearthbook.record.home import PartName
from hearthbook.units import shown

__all__ = ["water_facts"]


def water_facts(design: Design, speech: Speech) -> Facts:
    """Facts about the heating water and what holds it."""
    plant = design.home.plant
    added = plant.added_volume
    kept_open = [e.name for e in design.home.emitters if e.is_kept_open]
    water = {
        "drop": shown(design.emitters.drop.value, "K", 0).replace("K", "°C"),
        "flow_design": speech.figure(design.curve.design_flow, 0),
        "open_volume": speech.figure(design.volume.open, 0),
        "needed": speech.figure(design.volume.needed, 0),
        "is_enough": design.volume.open.value >= design.volume.needed.value,
    }
    return {
        "water": water,
        "design_outdoor": speech.figure(design.curve.design_outdoor, 0),
        "pressure": _pressure(design, speech),
        "table_pressure": _pressure_table(design, speech),
        "kept_open": listed(kept_open, speech.words("words", "and")) or None,
        "kept_open_names": kept_open,
        "plant": {
            "filter": plant.filter is not None,
            "diverter": plant.diverter_valve is not None,
            "volumiser": added is not None and added.kind == "volumiser",
        },
        "table_valves": _valves_table(design, speech),
    }


def _is_glycol(design: Design) -> bool:
    protection = design.home.plant.freeze_protection
    return protection is not None and protection.kind == "glycol"


def _may_fill(design: Design) -> bool:
    filling = design.home.plant.filling
    allowed = filling is not None and filling.kind != "none" and filling.householder_may_use
    return allowed and not _is_glycol(design)


def _place(design: Design, name: PartName, speech: Speech) -> str:
    return design.home.places.get(name) or speech.words("words", "unknown_place")


def _pressure(design: Design, speech: Speech) -> Facts:
    expansion = design.expansion
    filling = design.home.plant.filling
    bar = {
        "cold": expansion.normal_cold,
        "hot": expansion.normal_hot,
        "hot_high": expansion.normal_hot_high,
        "top_up_below": expansion.top_up_below,
        "call_above": expansion.call_above,
        "precharge": expansion.precharge_wanted,
    }
    said = {name: speech.figure(figure, 1) for name, figure in bar.items()}
    return {
        **said,
        "hot_reheat": None,
        "litres_tenth": speech.figure(expansion.litres_per_tenth_bar, 1),
        "top_up_litres": speech.figure(expansion.top_up_volume, 1),
        "top_up_seconds": speech.duration(expansion.fill_time.value),
        "gauge_place": _place(design, "pressure_gauge", speech),
        "fill_place": _place(design, "filling_connection", speech),
        "hose_place": design.home.places.get("filling_hose"),
        "fill_kind": filling.kind if filling is not None else "none",
        "householder_may": _may_fill(design),
        "glycol": _is_glycol(design),
    }


def _pressure_table(design: Design, speech: Speech) -> Ready:
    expansion = design.expansion
    bar = {
        name: speech.figure(getattr(expansion, name), 1)
        for name in ("top_up_below", "call_above", "normal_cold")
    }
    cold = speech.span(expansion.normal_cold_low.value, expansion.normal_cold_high.value, "bar", 1)
    low = "pressure_low_may" if _may_fill(design) else "pressure_low_not"

    def say(name: str) -> str:
        return speech.words(
            "tables",
            name,
            **bar,
            cold=bar["normal_cold"],
            cold_span=cold,
            hot_high=speech.figure(expansion.normal_hot_high, 1),
        )

    rows = [
        [say("pressure_zero"), say("pressure_zero_meaning")],
        [say("pressure_low"), say(low)],
        [say("pressure_cold"), say("pressure_cold_meaning")],
        [say("pressure_hot"), say("pressure_hot_meaning")],
        [say("pressure_high"), say("pressure_high_meaning")],
    ]
    heads = [say("pressure_reading"), say("pressure_meaning")]
    return table(say("pressure_caption"), heads, rows)


_FILLING_POSITION = {
    "removable_hose": "filling_position",
    "fixed_loop_two_valves": "filling_position_fixed",
    "keyed_link": "filling_position_keyed",
}


def _valves_table(design: Design, speech: Speech) -> Ready:
    home, words = design.home, speech.words
    rows = [[words("valves", f"isolating{end}") for end in ("", "_place", "_position")]]
    filling = home.plant.filling
    if filling is not None and filling.kind != "none":
        position = words("valves", _FILLING_POSITION[filling.kind])
        place = home.places.get("filling_connection", "")
        rows.append([words("valves", "filling"), place, position])
    rows += [
        [words("valves", "vents_auto"), vent.place, words("valves", "vents_position")]
        for vent in home.plant.air_vents
        if vent.kind == "automatic"
    ]
    rows.append([words("valves", f"radiators{end}") for end in ("", "_place", "_position")])
    if home.plant.safety_valves:
        place = home.places.get("safety_valve", "")
        rows.append([words("valves", "safety"), place, words("valves", "safety_position")])
    heads = [words("tables", f"valves_{name}") for name in ("valve", "place", "position")]
    return table(words("tables", "valves_caption"), heads, rows)
