"""From a reading, a target and a band to a judgement in words."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from hearthbook.commissioning.measured import Measured
from hearthbook.commissioning.verdicts import Band, Judgement, Verdict, verdict_of
from hearthbook.commissioning.wording import is_safety, words
from hearthbook.documents.figures import KeyFigure
from hearthbook.units import shown

__all__ = [
    "Subject",
    "judge",
    "judge_by_rule_of_thumb",
    "judge_figure",
    "judge_in_doubt",
    "judge_together",
    "judge_yes_or_no",
    "judged_without_reading",
    "judged_without_target",
]


@dataclass(frozen=True)
class Subject:
    """What is judged.

    Attributes:
        key: a table of the words, such as `flow_rate`.
        place: where in this home.
        part: id of the emitter, room or meter, where there are several.
        name: its name.
    """

    key: str
    place: str
    part: str = ""
    name: str = ""

    @property
    def full_key(self) -> str:
        """The stable name of the judgement."""
        return f"{self.key}.{self.part}" if self.part else self.key

    @property
    def label(self) -> str:
        """What was judged, in the trade's words."""
        return words(self.key, "label", {"name": self.name})


def _next_step(key: str, verdict: Verdict, is_low: bool) -> str:
    if verdict is Verdict.WITHIN:
        return ""
    if verdict is Verdict.LOOK_AGAIN:
        return words(key, "next_look_again")
    return words(key, "next_low" if is_low else "next_high")


def _undecided(
    subject: Subject, why: str, texts: dict[str, str], reading: Measured | None
) -> Judgement:
    return Judgement(
        key=subject.full_key,
        label=subject.label,
        place=subject.place,
        verdict=Verdict.CANNOT_TELL,
        reason=words(subject.key, why, texts),
        next_step=words(subject.key, f"next_{why}"),
        reading=None if reading is None else reading.figure,
        is_safety=is_safety(subject.key),
    )


def judge(
    subject: Subject,
    reading: Measured | None,
    target: KeyFigure | None,
    band: Band,
    states: tuple[str, ...] = ("steady",),
) -> Judgement:
    """A reading of the record, judged.

    Args:
        subject: what is judged.
        reading: the reading; None where it was not taken.
        target: what the design expects.
        band: what is accepted.
        states: states of the system in which the reading counts.
    """
    return judge_together(subject, (reading,), lambda known: known[0].figure, target, band, states)


def judge_together(
    subject: Subject,
    readings: tuple[Measured | None, ...],
    figure_of: Callable[[tuple[Measured, ...]], KeyFigure],
    target: KeyFigure | None,
    band: Band,
    states: tuple[str, ...] = ("steady",),
) -> Judgement:
    """A figure that rests on several readings, judged; it is as good as the worst of them.

    Args:
        subject: what is judged.
        readings: what it rests on; None where one was not taken.
        figure_of: the figure, from the readings once all are there.
        target: what the design expects.
        band: what is accepted.
        states: states of the system in which the readings count.
    """
    known = tuple(reading for reading in readings if reading is not None)
    if len(known) < len(readings):
        return _undecided(subject, "missing", {}, None)
    for reading in known:
        if reading.reading.state not in states:
            state = reading.reading.state.replace("_", " ")
            return _undecided(subject, "unsteady", {"state": state}, reading)
    judgement = judge_figure(subject, figure_of(known), target, band)
    if judgement.verdict is not Verdict.WITHIN or all(one.is_calibrated for one in known):
        return judgement
    return _uncalibrated(subject, judgement, band)


def _uncalibrated(subject: Subject, judgement: Judgement, band: Band) -> Judgement:
    reading = judgement.reading
    texts = {"reading": "" if reading is None else reading.shown(), "band": band.shown()}
    return replace(
        judgement,
        verdict=Verdict.LOOK_AGAIN,
        reason=words(subject.key, "uncalibrated", texts),
        next_step=words(subject.key, "next_uncalibrated"),
    )


def judge_figure(
    subject: Subject, figure: KeyFigure, target: KeyFigure | None, band: Band
) -> Judgement:
    """A figure, measured or computed from readings, judged."""
    error = figure.uncertainty or 0.0
    verdict = verdict_of(figure.value, error, band)
    texts = {
        "reading": figure.shown(),
        "band": band.shown(),
        "error": shown(error, figure.unit, figure.decimals),
    }
    is_low = band.low is not None and figure.value < band.low
    is_exact = verdict is Verdict.OUTSIDE and error == 0
    return Judgement(
        key=subject.full_key,
        label=subject.label,
        place=subject.place,
        verdict=verdict,
        reason=words(subject.key, "exact" if is_exact else str(verdict), texts),
        next_step=_next_step(subject.key, verdict, is_low),
        reading=figure,
        target=target,
        band=band,
        is_safety=is_safety(subject.key),
    )


def judge_by_rule_of_thumb(subject: Subject, figure: KeyFigure, band: Band) -> Judgement:
    """A figure held against what is advised, not required: beyond it is worth another look."""
    judgement = judge_figure(subject, figure, None, band)
    is_outside = judgement.verdict is Verdict.OUTSIDE
    return replace(judgement, verdict=Verdict.LOOK_AGAIN) if is_outside else judgement


def judged_without_reading(subject: Subject) -> Judgement:
    """A thing that cannot be judged because what it rests on is not recorded."""
    return _undecided(subject, "missing", {}, None)


def judged_without_target(subject: Subject, why: str, reading: Measured | None = None) -> Judgement:
    """A thing that cannot be judged because the design has no target for it."""
    return _undecided(subject, "no_target", {"why": why}, reading)


def judge_in_doubt(subject: Subject, values: dict[str, str]) -> Judgement:
    """A thing that is there, and yet may not be enough."""
    return Judgement(
        key=subject.full_key,
        label=subject.label,
        place=subject.place,
        verdict=Verdict.LOOK_AGAIN,
        reason=words(subject.key, "look_again", values),
        next_step=words(subject.key, "next_look_again", values),
        is_safety=is_safety(subject.key),
    )


def judge_yes_or_no(
    subject: Subject, is_yes: bool | None, values: dict[str, str] | None = None
) -> Judgement:
    """A thing looked at or decided: yes is within, no is outside, None is cannot tell."""
    texts = {"note": "", **(values or {})}
    if is_yes is None:
        verdict, reason = Verdict.CANNOT_TELL, words(subject.key, "missing_check", texts)
        next_step = words(subject.key, "next_missing_check")
    elif is_yes:
        verdict, reason, next_step = Verdict.WITHIN, words(subject.key, "yes", texts), ""
    else:
        verdict, reason = Verdict.OUTSIDE, words(subject.key, "no", texts)
        next_step = words(subject.key, "next_no", texts)
    return Judgement(
        key=subject.full_key,
        label=subject.label,
        place=subject.place,
        verdict=verdict,
        reason=reason,
        next_step=next_step,
        is_safety=is_safety(subject.key),
    )
