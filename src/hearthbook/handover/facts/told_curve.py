"""The curve as a householder is told it: as set, or as it will be once a wrong one is mended."""

from __future__ import annotations

from typing import Literal

from hearthbook.commissioning.controls import judge_curve
from hearthbook.commissioning.verdicts import Verdict
from hearthbook.design.results import Design

__all__ = ["curve_finding", "told_flow_temperature"]


def curve_finding(design: Design) -> Literal["hot", "cool"] | None:
    """Whether the set curve was found outside its band, and on which side."""
    found = judge_curve(design)
    if found.verdict is not Verdict.OUTSIDE or found.reading is None:
        return None
    return "hot" if found.reading.value > 0 else "cool"


def told_flow_temperature(design: Design, outdoor: float) -> float:
    """Flow temperature at an outdoor temperature, in °C, as the guide gives it."""
    as_set = design.curve.set_flow_temperature_at(outdoor)
    if as_set is None or curve_finding(design) is not None:
        return design.curve.flow_temperature_at(outdoor)
    return as_set
