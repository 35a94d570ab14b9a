"""Facts about colder nights, warming up and cooling down."""

from __future__ import annotations

import math

from hearthbook.design.results import Design
from hearthbook.handover.facts.speech import Speech
from hearthbook.handover.facts.tables import table
from hearthbook.handover.wording import Facts, Ready, sentence
from hearthbook.record.building import RoomUse
from hearthbook.units import shown, to_trade
from hearthbook.year.pack_numbers import NightNumbers, YearNumbers

__all__ = [
    "NIGHT",
    "advised",
    "change",
    "coldest",
    "depth_words",
    "money_or_energy",
    "setback_facts",
    "warm_again",
]

NIGHT = 8.0  # h; the night that is told where one can not be chosen
_OUTDOOR = 5.0  # °C, the day that cooling is told for
_AWAY = 3.0  # K, how much cooler a home may be left
_CLEARLY = 0.02  # of the heating's cost; smaller changes are lost in weather and habits
_MOST_WAIT = 2.0 * 3600.0  # s on a cold morning; longer is not what the night was for
_NOTHING = 1.5  # of money or kWh in a year
_WARMTH = 16.0  # °C a room to live or sleep in keeps, so that no damp settles; common practice
_LIVED_IN = (RoomUse.LIVING, RoomUse.DINING, RoomUse.BEDROOM, RoomUse.STUDY)
_LATE = 11.0 * 3600.0  # s; who waits so long waits all day


def setback_facts(design: Design, numbers: YearNumbers, speech: Speech) -> Facts:
    """Facts about colder nights."""
    words = speech.words
    outdoor = shown(_OUTDOOR, "°C", 0)
    out = numbers.outage(_OUTDOOR)
    best = advised(design, numbers)
    verdict = _verdict(design, numbers)
    return {
        "setback": {
            "verdict": Ready(
                words(
                    "setback",
                    verdict,
                    by=depth_words(best.depth),
                    saving=money_or_energy(design, best, speech),
                )
            ),
            "detail": words(
                "setback",
                "detail",
                four=_lost(out.lost_in_four_hours),
                eight=_lost(out.lost_in_eight_hours),
                outdoor=outdoor,
            ),
            "warmth": Ready(words("setback", "warmth")),
            "at_outdoor": outdoor,
            "lost_four": _lost(out.lost_in_four_hours),
            "lost_eight": _lost(out.lost_in_eight_hours),
            "after_outage": speech.duration(out.warm_after),
            "after_two": speech.duration(numbers.night(2.0, NIGHT).recovery.high),
            "away": depth_words(_AWAY),
            "return_hours": speech.duration(max(r.seconds for r in numbers.returns)),
        },
        "table_setback": _options(design, numbers, speech),
    }


def advised(design: Design, numbers: YearNumbers) -> NightNumbers:
    """The night that saves most, cheaper in every case, warm again in time and nowhere too cold.

    The steady night where there is none.
    """
    deepest = _deepest(design)
    steady = numbers.night(0.0, NIGHT)
    good = [
        night
        for night in numbers.nights
        if night.hours == steady.hours
        and night.share.high < 0.0
        and night.recovery.high <= _MOST_WAIT
        and night.depth <= deepest
    ]
    return min(good, key=lambda night: night.share.middle, default=steady)


def _deepest(design: Design) -> float:
    """K that the rooms people live and sleep in can be kept cooler without damp settling."""
    agreed = [
        room.temperature.value for room in design.heat_loss.rooms if room.room.use in _LIVED_IN
    ]
    return min((one - _WARMTH for one in agreed if one >= _WARMTH), default=math.inf)


def _verdict(design: Design, numbers: YearNumbers) -> str:
    if advised(design, numbers).share.middle < -_CLEARLY:
        return "pays"
    deep = [night for night in numbers.nights if night.depth >= 2.0]
    return "no" if all(night.share.middle > _CLEARLY for night in deep) else "even"


def depth_words(kelvin: float) -> str:
    """A difference of temperature as a householder says it."""
    return shown(kelvin, "K", 0).replace("K", "°C")


def _lost(kelvin: float) -> str:
    """To the half degree: nobody feels it closer."""
    return shown(round(kelvin * 2) / 2, "K", 1).replace("K", "°C").replace(".0", "")


def money_or_energy(design: Design, night: NightNumbers, speech: Speech) -> str:
    """What a night saves in a year, without its sign: money, or energy where no price is known."""
    span, unit = night.electricity, "kWh"
    if night.cost is not None and design.home.tariff is not None:
        span, unit = night.cost, design.home.tariff.currency
    ends = sorted(abs(value) for value in (span.low, span.high))
    if max(ends) >= _NOTHING > to_trade(ends[0], unit):
        return speech.words("words", "up_to", high=shown(ends[1], unit, 0))
    return speech.span(ends[0], ends[1], unit, 0)


def coldest(design: Design, night: NightNumbers, speech: Speech) -> str:
    """The room that suffers most on a cold morning, with what was agreed for it."""
    temperature = shown(night.coldest, "°C", 0)
    if not night.coldest_room:
        return temperature
    room = design.heat_loss.room(night.coldest_room)
    wanted = speech.figure(room.temperature, 0)
    return speech.words(
        "setback", "coldest", room=sentence(room.room.name), temperature=temperature, wanted=wanted
    )


def change(design: Design, night: NightNumbers, speech: Speech) -> str:
    """Less or more in a year, in money or energy; both ends where they differ in sign."""
    has_price = night.cost is not None and design.home.tariff is not None
    unit = design.home.tariff.currency if has_price and design.home.tariff else "kWh"
    span = night.cost if night.cost is not None and has_price else night.electricity
    if max(abs(to_trade(value, unit)) for value in (span.low, span.high)) < _NOTHING:
        return speech.words("words", "no_change")
    said = money_or_energy(design, night, speech)
    if span.high <= 0.0:
        return speech.words("words", "less", share=said)
    if span.low >= 0.0:
        return speech.words("words", "more", share=said)
    ends = [speech.words("words", name, share=shown(abs(value), unit, 0))
            for name, value in (("less", span.low), ("more", span.high))]  # fmt: skip
    return speech.words("words", "from_to", low=ends[0], high=ends[1])


def _options(design: Design, numbers: YearNumbers, speech: Speech) -> Ready:
    words = speech.words
    steady = numbers.night(0.0, NIGHT)
    rows = [
        [
            depth_words(night.depth),
            change(design, night, speech),
            coldest(design, night, speech),
            warm_again(night, speech),
        ]
        for night in numbers.nights
        if night.hours == steady.hours and night.depth > 0.0
    ]
    heads = [words("tables", f"setback_{name}") for name in ("by", "saving", "coldest", "morning")]
    caption = words("tables", "setback_caption", hours=f"{steady.hours:.0f}")
    return table(caption, heads, rows)


def warm_again(night: NightNumbers, speech: Speech) -> str:
    """How long until the rooms are warm again, on usual and on cold mornings."""
    usual, cold = night.recovery.middle, night.recovery.high
    if cold > _LATE:
        return speech.words("setback", "late", usual=speech.duration(usual))
    if round(usual / 900) == round(cold / 900):
        return speech.duration(usual)
    return speech.words(
        "setback", "usual_and_cold", usual=speech.duration(usual), cold=speech.duration(cold)
    )
