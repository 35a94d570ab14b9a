"""Facts about colder nights, warming up and cooling down."""

from __future__ import annotations

import math

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
_RETURN_MARGIN = 2.0  # times the recovery time, so that the home is warm on return


def setback_facts(design: Design, speech: Speech) -> Facts:
    """Facts about colder nights."""
    result, words = design.setback, speech.words
    outdoor = shown(_OUTDOOR, "°C", 0)
    lose = speech.duration(_cooling_time(design))
    return {
        "setback": {
            "verdict": Ready(
                words("setback", _VERDICTS[result.verdict], by=result.advised_depth.shown())
            ),
            "detail": words("setback", "detail", lose=lose, outdoor=outdoor),
            "at_outdoor": outdoor,
            "hours_per_degree": speech.duration(result.recovery_time.value / 2),
            "hours_to_lose": lose,
            "return_hours": speech.duration(result.recovery_time.value * _RETURN_MARGIN),
        },
        "table_setback": _options(design, speech),
    }


def _cooling_time(design: Design) -> float:
    """Time to fall by 1 K without heating, from the time constant, in s."""
    loss, constant = design.heat_loss, design.setback.time_constant.value
    balance = _OUTDOOR + loss.indoor_temperature.value - loss.base_temperature.value
    above = loss.indoor_temperature.value - balance
    return constant * math.log(above / max(above - 1.0, 0.1))


def _options(design: Design, speech: Speech) -> Ready:
    words = speech.words
    rows = [
        [
            shown(option.depth.value, "K", 0).replace("K", "°C"),
            speech.change(option.low.value, option.high.value),
            speech.duration(option.hours_to_recover.value),
        ]
        for option in design.setback.options
    ]
    heads = [words("tables", f"setback_{name}") for name in ("by", "saving", "morning")]
    return table(words("tables", "setback_caption"), heads, rows, numeric=(0,))
