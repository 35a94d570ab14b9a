"""Gauge, topping up and valves of this home, as drawings."""

from __future__ import annotations

from hearthbook.documents.drawings import (
    GaugeBand,
    GaugeMark,
    PressureGauge,
    TopUpSteps,
    ValvePicture,
    ValvePosition,
    ValvePositions,
)
from hearthbook.documents.figures import KeyFigure
from hearthbook.handover.facts.rooms import setting
from hearthbook.handover.facts.speech import Speech
from hearthbook.handover.pictures.wording import PictureBasis, say, word_list
from hearthbook.record.emitters import EmitterValve
from hearthbook.record.plant import FillingConnection
from hearthbook.units import to_trade

__all__ = ["pressure_gauge", "top_up_steps", "valve_positions"]

_USUAL_FULL_SCALE = 4e5  # Pa; common practice, no source

_FILLING_PICTURE: dict[str, ValvePicture] = {
    "removable_hose": "filling_hose_removed",
    "fixed_loop_two_valves": "filling_hose_removed",
    "keyed_link": "filling_key_removed",
}


def _bar(figure: KeyFigure) -> float:
    return to_trade(figure.value, "bar")


def _full_scale(basis: PictureBasis) -> float:
    return to_trade(basis.design.home.plant.gauge_full_scale or _USUAL_FULL_SCALE, "bar")


def _filling(basis: PictureBasis) -> FillingConnection | None:
    """The filling connection, where the household may use it."""
    plant = basis.design.home.plant
    filling, protection = plant.filling, plant.freeze_protection
    if filling is None or filling.kind == "none" or not filling.householder_may_use:
        return None
    return None if protection is not None and protection.kind == "glycol" else filling


def pressure_gauge(basis: PictureBasis) -> PressureGauge:
    """The gauge with this home's marks, its needle at the healthy cold reading."""
    language, found = basis.language, basis.design.expansion
    speech = Speech(language)

    def band(low: KeyFigure, high: KeyFigure, tone: str) -> GaugeBand:
        span = speech.span(low.value, high.value, "bar", 1).replace(" ", "\N{NO-BREAK SPACE}")
        words = say(language, f"gauge.{tone}", span=span)
        return GaugeBand(_bar(low), _bar(high), words, "cold" if tone == "cold" else "hot")

    def mark(figure: KeyFigure, words: str) -> str:
        return say(language, f"gauge.{words}", value=speech.figure(figure, 1))

    low = "top_up" if _filling(basis) else "low"
    return PressureGauge(
        full_scale_bar=_full_scale(basis),
        unit=say(language, "gauge.unit"),
        bands=(
            band(found.normal_cold_low, found.normal_cold_high, "cold"),
            band(found.normal_hot_low, found.normal_hot_high, "hot"),
        ),
        marks=(
            GaugeMark(_bar(found.top_up_below), mark(found.top_up_below, low), "top_up"),
            GaugeMark(_bar(found.call_above), mark(found.call_above, "call"), "call"),
            GaugeMark(_bar(found.safety_valve), mark(found.safety_valve, "safety"), "safety"),
        ),
        needle_bar=_bar(found.normal_cold),
    )


def top_up_steps(basis: PictureBasis) -> TopUpSteps | None:
    """Adding water with this home's fitting; None where the household may not."""
    filling = _filling(basis)
    if filling is None or filling.kind == "none":
        return None
    stop = basis.design.expansion.normal_cold
    first, second, third, fourth = word_list(basis.language, "top_up", filling.kind)
    value = Speech(basis.language).figure(stop, 1)
    return TopUpSteps(
        filling=filling.kind,
        captions=(first, second, third, fourth),
        stop_at_bar=_bar(stop),
        stop_label=say(basis.language, "top_up.stop", value=value),
        full_scale_bar=_full_scale(basis),
    )


def valve_positions(basis: PictureBasis) -> ValvePositions:
    """The kinds of valve this home has, each as it is to stand."""
    home = basis.design.home

    def position(picture: ValvePicture, name: str, number: str = "") -> ValvePosition:
        label, detail = (say(basis.language, f"valves.{name}{end}") for end in ("", "_detail"))
        return ValvePosition(picture, label, detail, number)

    positions = [position("lever_open", "open")]
    filling = home.plant.filling
    if filling is not None and filling.kind != "none":
        positions.append(position(_FILLING_PICTURE[filling.kind], filling.kind))
    heads = [e for e in home.emitters if e.valve is EmitterValve.THERMOSTATIC]
    if heads:
        number = setting(basis.design, heads[0], Speech(basis.language))
        positions.append(position("thermostatic_head", "head", number))
    if any(e.kind != "underfloor" for e in home.emitters):
        positions.append(position("lockshield", "balance"))
    if home.plant.diverter_valve is not None:
        positions.append(position("motorised", "changeover"))
    return ValvePositions(tuple(positions))
