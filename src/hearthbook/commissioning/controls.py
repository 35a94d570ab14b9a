"""The controls as set: curve and limits."""

from __future__ import annotations

from collections.abc import Iterator

from hearthbook.commissioning.judging import (
    Subject,
    judge_figure,
    judge_yes_or_no,
    judged_without_target,
)
from hearthbook.commissioning.verdicts import Band, Judgement
from hearthbook.design.results import Design
from hearthbook.design.room_checks import rooms_short_at_design
from hearthbook.documents.figures import KeyFigure, given
from hearthbook.record.emitters import EmitterValve
from hearthbook.record.home import Home

__all__ = ["judge_controls", "judge_curve"]

_PRACTICE = "common practice, no source"
_CURVE_GOOD = 2.0  # K mean over the season; common practice, no source
_CURVE_DOUBT = 1.5  # K further that a designer's own figures may be out; common practice
_MAXIMUM_ABOVE = (0.0, 6.0)  # K above the design flow; 3 to 5 K is advised; common practice
_MINIMUM_SPREAD = 4.0  # K about the advised minimum; common practice, no source
_LIMIT_SPREAD = 2.0  # K about the advised heating limit; common practice, no source
_FULLY_OPEN = ("open", "max", "5", "6")  # settings at which a thermostatic valve never shuts


def judge_controls(design: Design) -> Iterator[Judgement]:
    """The judgements on the controls."""
    place = design.home.places.get("heat_pump_controller", "")
    yield judge_curve(design)
    curve, controls = design.curve, design.home.controls
    design_flow = curve.design_flow
    low, high = _MAXIMUM_ABOVE
    yield _limit(
        Subject("maximum_flow_temperature", place),
        controls.maximum_flow_temperature,
        curve.maximum,
        Band(design_flow.value + low, design_flow.value + high, "°C", _PRACTICE, 0),
    )
    yield _limit(
        Subject("minimum_flow_temperature", place),
        controls.minimum_flow_temperature,
        curve.minimum,
        _around(curve.minimum, _MINIMUM_SPREAD),
    )
    yield _limit(
        Subject("heating_limit", place),
        controls.heating_limit,
        curve.heating_limit,
        _around(curve.heating_limit, _LIMIT_SPREAD),
    )
    yield from _thermostat_room(design.home)


def _thermostat_room(home: Home) -> Iterator[Judgement]:
    """A thermostat needs a room that no thermostatic valve throttles."""
    thermostat = home.controls.thermostat
    if thermostat is None:
        return
    set_to = {setting.emitter: setting.number for setting in home.controls.emitter_settings}
    fighting = [
        emitter.name
        for emitter in home.emitters
        if emitter.room == thermostat.room
        and emitter.valve is EmitterValve.THERMOSTATIC
        and set_to.get(emitter.id) not in _FULLY_OPEN
    ]
    names = ", ".join(fighting)
    subject = Subject("thermostat_room", home.places.get("thermostat", ""))
    yield judge_yes_or_no(subject, not fighting, {"name": f"{names[:1].upper()}{names[1:]}"})


def _around(target: KeyFigure, spread: float) -> Band:
    return Band(target.value - spread, target.value + spread, "°C", _PRACTICE, 0)


def judge_curve(design: Design) -> Judgement:
    """The judgement on the weather curve as set."""
    place = design.home.places.get("heat_pump_controller", "")
    subject = Subject("curve", place)
    comparison = design.curve.as_set
    if comparison is None:
        return judged_without_target(subject, "no curve is recorded (controls.curve).")
    short = rooms_short_at_design(design)
    if len(short) > 1:
        why = f"at its flow temperature {len(short)} rooms are short ({', '.join(short)})."
        return judged_without_target(subject, why)
    mean = comparison.mean
    figure = KeyFigure(
        mean.name, mean.label, mean.value, mean.unit, mean.basis, mean.working, _CURVE_DOUBT
    )
    return judge_figure(subject, figure, None, Band(-_CURVE_GOOD, _CURVE_GOOD, "K", _PRACTICE))


def _limit(subject: Subject, value: float | None, target: KeyFigure, band: Band) -> Judgement:
    if value is None:
        return judged_without_target(subject, f"it is not recorded (controls.{subject.key}).")
    name = f"controls.{subject.key}"
    figure = given(name, subject.label, value, "°C", place=name)
    return judge_figure(subject, figure, target, band)
