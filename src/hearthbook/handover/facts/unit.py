"""Facts about the outdoor unit: its place, its space, its defrosts, its running."""

from __future__ import annotations

import math

from hearthbook.design.results import Design
from hearthbook.handover.facts.speech import Speech
from hearthbook.handover.facts.tables import listed, table
from hearthbook.handover.wording import Facts, Ready
from hearthbook.record.electrical import Isolator
from hearthbook.units import shown, shown_distance
from hearthbook.year.pack_numbers import Span, YearNumbers

__all__ = ["counted", "unit_facts"]

_COLDEST, _MILDEST = -12.0, 7.0  # °C, where frost can grow
_COLD_DAY = -3.0  # °C, the cold day the cards speak of
_ALWAYS = 0.97  # of the time; more than that is told as all the time
# Length of a defrost where the record has none: 2 to 5 minutes, common practice, no source.
_DEFROST_MINUTES = (2, 5)


def unit_facts(design: Design, numbers: YearNumbers, speech: Speech) -> Facts:
    """Facts about the outdoor unit."""
    return {
        "unit": _unit(design, numbers, speech),
        "defrost": _defrost(numbers, speech),
        "condensate": _water(design, numbers),
        "run": _run(numbers, speech),
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
        "backup": _backup(design, numbers, speech),
        "table_defrosts": _defrost_table(numbers, speech),
    }


def _window(design: Design) -> Facts | None:
    window = design.home.controls.quiet_window
    return None if window is None else {"start": window.start, "end": window.end}


def _unit(design: Design, numbers: YearNumbers, speech: Speech) -> Facts:
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
        "standby_year": speech.two_digits(numbers.totals.standby.middle, "kWh"),
    }


def _isolator(design: Design) -> Facts | None:
    found: Isolator | None = next(
        (i for i in design.home.electrical.isolators if "unit" in i.id or "heat_pump" in i.id), None
    )
    return None if found is None else {"name": found.name, "place": found.place}


def _defrost(numbers: YearNumbers, speech: Speech) -> Facts:
    lengths = [day.defrost_seconds for day in numbers.days if day.defrost_seconds is not None]
    if lengths:
        low = max(math.floor(min(one.low for one in lengths) / 60), 1)
        high = max(math.ceil(max(one.high for one in lengths) / 60), low + 1)
    else:
        low, high = _DEFROST_MINUTES
    most = max(day.defrosts.high for day in numbers.days)
    return {
        "minutes": speech.words("words", "minutes", low=low, high=high),
        "often": _often(most / 24.0, speech),
    }


def _often(an_hour: float, speech: Speech) -> str | None:
    """The most defrosts to expect, in whole numbers; None where there are none."""
    if an_hour < 1 / 24:
        return None
    if an_hour < 0.75:
        return speech.words("words", "every_few_hours", hours=max(round(1 / an_hour), 2))
    most = round(an_hour)
    return speech.words("words", "once_an_hour" if most == 1 else "times_an_hour", count=most)


def _defrost_table(numbers: YearNumbers, speech: Speech) -> Ready:
    rows = [
        [
            shown(day.outdoor, "°C", 0),
            (counted(day.defrosts, speech) or speech.words("words", "none")).replace(
                " ", "\N{NO-BREAK SPACE}"
            ),
            _often(day.defrosts.high / 24.0, speech) or speech.words("words", "none"),
            speech.span(day.water.low / 1e3, day.water.high / 1e3, "L", 0),
        ]
        for day in numbers.days
        if _COLDEST <= day.outdoor <= _MILDEST
    ]
    names = ("outdoor", "per_day", "per_hour", "water")
    heads = [speech.words("tables", f"defrosts_{name}") for name in names]
    return table(speech.words("tables", "defrosts_caption"), heads, rows)


def counted(span: Span, speech: Speech) -> str | None:
    """How many times in a day; None where it hardly ever happens."""
    low, high = round(span.low), round(span.high)
    if high < 1:
        return None
    return f"{low}" if low == high else speech.words("words", "from_to", low=low, high=high)


def _water(design: Design, numbers: YearNumbers) -> Facts:
    """What runs off the unit on a wet day, and at one defrost."""
    wettest = max(numbers.days, key=lambda day: day.defrosts.high)
    most = max(day.water.high for day in numbers.days if day.outdoor <= _MILDEST)
    often = max(wettest.defrosts.middle, 1.0)
    in_one = min(wettest.water.middle / often, wettest.water.high)
    if not numbers.is_simulated:
        in_one = design.condensate.in_one_defrost.value * 1e3  # 1 kg/L
    return {
        "litres_day": shown(most / 1e3, "L", 0),
        "litres_defrost": shown(in_one / 1e3, "L", 1),
    }


def _run(numbers: YearNumbers, speech: Speech) -> Facts:
    cold = numbers.day_near(_COLD_DAY)
    steady = numbers.steady_below
    return {
        "cold_outdoor": shown(cold.outdoor, "°C", 0),
        "cold_share": None if cold.run_share > _ALWAYS else shown(cold.run_share, "%", 0),
        "steady_below": None if steady is None else shown(steady, "°C", 0),
        "kwh_cold": speech.reach(cold.electricity, "kWh", 0),
    }


def _backup(design: Design, numbers: YearNumbers, speech: Speech) -> Facts | None:
    heater = design.home.plant.backup_heater
    if heater is None:
        return None
    locked = heater.locked_above
    limit = (
        speech.words("words", "no_limit")
        if locked is None
        else speech.words("words", "not_above", limit=shown(locked, "°C", 0))
    )
    share = numbers.totals.backup_share
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
