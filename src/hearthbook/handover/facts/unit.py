"""Facts about the outdoor unit: its place, its space, its defrosts, its running."""

from __future__ import annotations

from hearthbook.design.heat_pump_fit import OutdoorDay
from hearthbook.design.results import Design
from hearthbook.handover.facts.speech import Speech
from hearthbook.handover.facts.tables import listed, table
from hearthbook.handover.wording import Facts, Ready
from hearthbook.record.electrical import Isolator
from hearthbook.units import shown, shown_distance

__all__ = ["unit_facts"]

_DAMP_DAYS = (-5.0, -3.0, 0.0, 2.0, 5.0)  # °C, around freezing
_COLD_DAY = -3.0  # °C, the cold day the cards speak of
_ALWAYS = 0.97  # of the time; more than that is told as all the time
# Length of a defrost where the record has none: 2 to 5 minutes, common practice, no source.
_DEFROST_MINUTES = (2, 5)


def unit_facts(design: Design, speech: Speech) -> Facts:
    """Facts about the outdoor unit."""
    return {
        "unit": _unit(design, speech),
        "defrost": _defrost(design, speech),
        "condensate": {
            "litres_day": speech.figure(design.condensate.per_day, 0),
            "litres_defrost": speech.figure(design.condensate.in_one_defrost, 1),
        },
        "run": _run(design, speech),
        "neighbours": [
            {
                "name": window.name,
                "level": speech.figure(window.level, 0),
                "limit": speech.figure(window.limit, 0),
                "is_over": window.limit is not None and window.level.value > window.limit.value,
            }
            for window in design.sound
        ],
        "quiet": _window(design),
        "backup": _backup(design, speech),
        "table_defrosts": _defrost_table(design, speech),
    }


def _window(design: Design) -> Facts | None:
    window = design.home.controls.quiet_window
    return None if window is None else {"start": window.start, "end": window.end}


def _unit(design: Design, speech: Speech) -> Facts:
    home = design.home
    pump, siting = home.plant.heat_pump, home.siting
    words = speech.words
    protection = home.plant.freeze_protection
    sides = [
        words(
            "clearance",
            "phrase",
            distance=shown_distance(side.required),
            side=words("sides", side.side),
        )
        for side in siting.clearances
    ]
    drain = siting.drain
    opens = None if protection is None else protection.opens_at
    share = None if protection is None else protection.glycol_share
    return {
        "place": siting.place,
        "refrigerant": pump.refrigerant,
        "refrigerant_words": words(
            "refrigerant", pump.refrigerant_safety_class, name=pump.refrigerant
        ),
        "flammable": pump.refrigerant_safety_class != "A1",
        "zone": None if siting.protective_zone is None else shown_distance(siting.protective_zone),
        "clearances": listed(sides, words("words", "and")) or None,
        "height": None
        if siting.height_above_ground is None
        else shown_distance(siting.height_above_ground),
        "drain_place": None if drain is None else drain.place or words("drain", drain.kind),
        "drain_crosses_path": drain is not None and drain.crosses_path,
        "freeze": "none" if protection is None else protection.kind,
        "freeze_opens_at": None if opens is None else shown(opens, "°C", 0),
        "glycol_share": None if share is None else shown(share, "%", 0),
        "isolator": _isolator(design),
        "standby_year": speech.figure(design.fit.energy.standby_per_year, 0),
    }


def _isolator(design: Design) -> Facts | None:
    found: Isolator | None = next(
        (i for i in design.home.electrical.isolators if "unit" in i.id or "heat_pump" in i.id), None
    )
    return None if found is None else {"name": found.name, "place": found.place}


def _defrost(design: Design, speech: Speech) -> Facts:
    length = design.home.plant.heat_pump.defrost_length
    if length is None:
        low, high = _DEFROST_MINUTES
    else:
        low = max(round(length / 60) - 1, 1)
        high = round(length / 60) + 2
    damp = max(design.fit.by_outdoor, key=lambda day: day.defrosts_high.value)
    return {
        "minutes": speech.words("words", "minutes", low=low, high=high),
        "often": _often(damp, speech),
    }


def _often(day: OutdoorDay, speech: Speech) -> str | None:
    """The most defrosts to expect, in whole numbers; None where there are none."""
    high = day.defrosts_high.value  # an hour
    if high < 1 / 12:
        return None
    if high < 0.75:
        return speech.words("words", "every_few_hours", hours=round(1 / high))
    most = round(high)
    return speech.words("words", "once_an_hour" if most == 1 else "times_an_hour", count=most)


def _defrost_table(design: Design, speech: Speech) -> Ready:
    rows = [
        [shown(day.outdoor.value, "°C", 0), _often(day, speech) or speech.words("words", "none")]
        for day in design.fit.by_outdoor
        if day.outdoor.value in _DAMP_DAYS
    ]
    heads = [speech.words("tables", f"defrosts_{name}") for name in ("outdoor", "per_hour")]
    return table(speech.words("tables", "defrosts_caption"), heads, rows)


def _run(design: Design, speech: Speech) -> Facts:
    cold = min(design.fit.by_outdoor, key=lambda day: abs(day.outdoor.value - _COLD_DAY))
    steady = design.fit.steady_below
    share = min(cold.share_running.value, 1.0)
    return {
        "cold_outdoor": shown(cold.outdoor.value, "°C", 0),
        "cold_share": None if share > _ALWAYS else shown(share, "%", 0),
        "steady_below": speech.figure(steady, 0),
        "kwh_cold": speech.span(cold.low.value, cold.high.value, "kWh/day", 0).replace("/day", ""),
    }


def _backup(design: Design, speech: Speech) -> Facts | None:
    heater = design.home.plant.backup_heater
    if heater is None:
        return None
    locked = heater.locked_above
    limit = (
        speech.words("words", "no_limit")
        if locked is None
        else speech.words("words", "not_above", limit=shown(locked, "°C", 0))
    )
    share = design.fit.backup_share.value
    said = (
        shown(share, "%", 0)
        if share >= 0.01
        else speech.words("words", "less_than_percent", value=shown(0.01, "%", 0))
    )
    return {
        "power": shown(heater.power, "kW", 0),
        "enabled": heater.is_enabled,
        "limit": limit,
        "limited": locked is not None,
        "share": said,
    }
