"""Facts about colder nights, warming up and cooling down."""

from __future__ import annotations

from hearthbook.design.results import Design
from hearthbook.design.setback import SetbackVerdict
from hearthbook.handover.facts.speech import Speech
from hearthbook.handover.facts.tables import table
from hearthbook.handover.wording import Facts, Ready
from hearthbook.units import shown

__all__ = ["setback_facts"]

_VERDICTS = {
    SetbackVerdict.PAYS: "pays",
    SetbackVerdict.LITTLE_EITHER_WAY: "even",
    SetbackVerdict.COSTS: "no",
}
_OUTDOOR = 5.0  # °C, as the design's recovery and cooling times
_AWAY = 3.0  # K, how much cooler a home may be left
_RETURN_MARGIN = 2.0  # times the recovery time, so that the home is warm on return


def setback_facts(design: Design, speech: Speech) -> Facts:
    """Facts about colder nights."""
    result, words = design.setback, speech.words
    outdoor = shown(_OUTDOOR, "°C", 0)
    lose = speech.duration(result.cooling_time.value)
    return {
        "setback": {
            "verdict": Ready(
                words("setback", _VERDICTS[result.verdict], by=result.advised_depth.shown())
            ),
            "detail": words("setback", "detail", lose=lose, outdoor=outdoor),
            "at_outdoor": outdoor,
            "hours_per_degree": speech.duration(result.recovery_time.value / 2),
            "hours_to_lose": lose,
            "after_one": speech.duration(result.options[0].hours_to_recover.value),
            "away": _depth(_AWAY),
            "return_hours": speech.duration(_hours_before_return(design)),
        },
        "table_setback": _options(design, speech),
    }


def _hours_before_return(design: Design) -> float:
    """How long before return to let the warmth come back up, in s."""
    result = design.setback
    rise = result.recovery_time.value / 2 * _AWAY * _RETURN_MARGIN
    nights = [o.hours_to_recover.value for o in result.options if o.depth.value <= _AWAY]
    return max(rise, *nights)


def _depth(kelvin: float) -> str:
    """A difference of temperature as a householder says it."""
    return shown(kelvin, "K", 0).replace("K", "°C")


def _options(design: Design, speech: Speech) -> Ready:
    words = speech.words
    rows = [
        [
            _depth(option.depth.value),
            speech.change(option.low.value, option.high.value),
            speech.duration(option.hours_to_recover.value),
        ]
        for option in design.setback.options
    ]
    heads = [words("tables", f"setback_{name}") for name in ("by", "saving", "morning")]
    return table(words("tables", "setback_caption"), heads, rows)
