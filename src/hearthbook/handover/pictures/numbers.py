"""Meters, thermostatic heads and the feel of the radiators, as drawings."""

from __future__ import annotations

from hearthbook.documents.drawings import (
    FeelPoint,
    HandFeelStrip,
    HeadMark,
    HeadScale,
    MeterDisplay,
)
from hearthbook.handover.facts.metering import digits
from hearthbook.handover.facts.rooms import FEEL_OUTDOORS, head_scale
from hearthbook.handover.facts.speech import Speech
from hearthbook.handover.facts.told_curve import told_flow_temperature
from hearthbook.handover.pictures.wording import PictureBasis, capitalised, say
from hearthbook.record.emitters import EmitterValve
from hearthbook.record.metering import Meter
from hearthbook.units import shown

__all__ = ["hand_feel_strip", "meter_display", "thermostatic_scale"]


def meter_display(basis: PictureBasis, meter: Meter) -> MeterDisplay:
    """A meter with its first reading, and which of its digits count."""
    language = basis.language
    before, after = digits(basis.design, meter)
    writes = meter.write_down_decimals and bool(after)
    whole = before.lstrip("0") or "0"
    reading = f"{whole}.{after}" if writes else whole
    return MeterDisplay(
        name=capitalised(meter.name),
        unit=meter.unit,
        before=before,
        after=after,
        writes_after=writes,
        before_label=say(language, "meter.count"),
        after_label=say(language, "meter.also" if writes else "meter.leave"),
        result=say(language, "meter.result", reading=f"{reading}\N{NO-BREAK SPACE}{meter.unit}"),
    )


def thermostatic_scale(basis: PictureBasis) -> HeadScale | None:
    """What the heads' numbers mean; None where no emitter has one."""
    language = basis.language
    if all(e.valve is not EmitterValve.THERMOSTATIC for e in basis.design.home.emitters):
        return None
    scale, is_usual = head_scale(basis.design)
    return HeadScale(
        marks=tuple(HeadMark(number, shown(value, "°C", 0)) for number, value in scale.items()),
        title_number=say(language, "heads.number"),
        title_temperature=say(language, "heads.temperature"),
        note=say(language, "heads.note") if is_usual else "",
    )


def hand_feel_strip(basis: PictureBasis) -> HandFeelStrip | None:
    """How the radiators feel from mild to cold, with the curve as set; None without radiators."""
    design, language = basis.design, basis.language
    if all(emitter.kind == "underfloor" for emitter in design.home.emitters):
        return None
    return HandFeelStrip(
        points=tuple(_feel(basis, outdoor) for outdoor in sorted(FEEL_OUTDOORS, reverse=True)),
        title_outdoor=say(language, "feel.outdoor"),
        title_flow=say(language, "feel.flow"),
        title_feel=say(language, "feel.feel"),
    )


def _feel(basis: PictureBasis, outdoor: float) -> FeelPoint:
    curve = basis.design.curve
    true = curve.flow_temperature_at(outdoor)
    flow = told_flow_temperature(basis.design, outdoor)
    mean = flow - (true - curve.return_temperature_at(outdoor)) / 2
    words = Speech(basis.language).feel(mean)
    return FeelPoint(shown(outdoor, "°C", 0), shown(flow, "°C", 0), flow, words)
