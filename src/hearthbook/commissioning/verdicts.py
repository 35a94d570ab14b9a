"""A reading held against its target: four verdicts, and the rule that gives them.

The rule: inside the band is within; outside it by no more than the instrument's own error is look
again; further out is outside. A reading that is missing, unsteady or physically impossible lets
nobody tell.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from hearthbook.documents.figures import KeyFigure
from hearthbook.units import shown

__all__ = ["Band", "Judgement", "Verdict", "verdict_of"]


class Verdict(StrEnum):
    """What a reading says about its target."""

    WITHIN = "within"
    LOOK_AGAIN = "look_again"
    OUTSIDE = "outside"
    CANNOT_TELL = "cannot_tell"


@dataclass(frozen=True)
class Band:
    """What is accepted.

    Attributes:
        low: smallest value accepted, in SI; None where there is no lower limit.
        high: largest value accepted, in SI; None where there is no upper limit.
        unit: the trade unit it is shown in.
        source: standard, instructions or `common practice, no source`.
        decimals: digits after the point when shown.
    """

    low: float | None
    high: float | None
    unit: str
    source: str
    decimals: int | None = None

    def shown(self) -> str:
        """The band as a reader sees it."""
        low = None if self.low is None else shown(self.low, self.unit, self.decimals)
        high = None if self.high is None else shown(self.high, self.unit, self.decimals)
        if low is not None and high is not None:
            return f"{low} to {high}"
        if low is not None:
            return f"{low} or more"
        return f"{high} or less" if high is not None else ""


@dataclass(frozen=True)
class Judgement:
    """One thing judged.

    Attributes:
        key: stable name, such as `flow_rate` or `emitter_drop.rad_kitchen`.
        label: what was judged, in the trade's words.
        place: where in this home.
        verdict: the outcome.
        reason: why, with the numbers.
        next_step: what to do about it; empty when nothing is to be done.
        reading: what was read, as a figure with its instrument's error.
        target: what the design expects.
        band: what is accepted.
        is_safety: whether an open fault here forbids the handover.
    """

    key: str
    label: str
    place: str
    verdict: Verdict
    reason: str
    next_step: str = ""
    reading: KeyFigure | None = None
    target: KeyFigure | None = None
    band: Band | None = None
    is_safety: bool = False


def verdict_of(value: float, instrument_error: float, band: Band) -> Verdict:
    """The verdict on a value, given how far the instrument can be trusted.

    Args:
        value: the reading, in SI.
        instrument_error: the largest error of the instrument, in SI.
        band: what is accepted.

    Returns:
        within, look again or outside; never cannot tell.

    Example:
        >>> band = Band(1.0e5, 1.4e5, "bar", "common practice, no source")
        >>> [str(verdict_of(p, 0.1e5, band)) for p in (1.2e5, 1.45e5, 1.6e5)]
        ['within', 'look_again', 'outside']
    """
    below = 0.0 if band.low is None else band.low - value
    above = 0.0 if band.high is None else value - band.high
    excess = max(below, above, 0.0)
    slack = 1e-9 * max(abs(value), 1.0)
    if excess <= slack:
        return Verdict.WITHIN
    return Verdict.LOOK_AGAIN if excess <= instrument_error + slack else Verdict.OUTSIDE
