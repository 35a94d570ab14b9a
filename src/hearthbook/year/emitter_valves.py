"""How each emitter's valve acts in the year: where its band lies, how slow and how tight it is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from hearthbook.documents.figures import KeyFigure, given
from hearthbook.record.controls import Controls, EmitterSetting
from hearthbook.record.emitters import Emitter, EmitterValve
from hearthbook.year.plant_fields import stands_in

__all__ = ["Valve", "valve_of"]

_BAND = 2.0  # K; EN 215, nominal flow at 2 K below closing, from memory
_HYSTERESIS = 0.4  # K; EN 215 allows 1 K, heads in use 0.3 to 0.5 K, from memory
_LAG = 1200.0  # s; EN 215 allows 40 min, liquid heads 15 to 25 min, from memory
_ACTUATOR_BAND, _ACTUATOR_HYSTERESIS, _ACTUATOR_LAG = 0.5, 0.5, 180.0  # K, K, s; common practice
_LIMITER_MARGIN = 1.5  # K above wanted; common practice, no source
_ZONE_MARGIN = 0.25  # K above wanted; derived: shut once the room is half a kelvin too warm
_FROST_MARK = 7.0  # °C at the snowflake; from memory
_USUAL_MIDDLE, _USUAL_STEP = 20.0, 4.0  # °C at number 3 and K for a number; common practice
_ALWAYS_OPEN = frozenset({"open", "max"})
_SHUT_BY_ITSELF = frozenset({EmitterValve.THERMOSTATIC, EmitterValve.MOTORISED})


@dataclass(frozen=True)
class Valve:
    """A valve in plain numbers, with the figures behind them.

    Attributes:
        least_opening: 1 where nothing shuts it, else 0.
        shift: K of the middle of its band above the wanted temperature.
        band: K from open to shut.
        hysteresis: K.
        lag: s.
        figures: recorded and assumed.
    """

    least_opening: float
    shift: float
    band: float
    hysteresis: float
    lag: float
    figures: tuple[KeyFigure, ...]


def valve_of(emitter: Emitter, controls: Controls, wanted: KeyFigure) -> Valve:
    """The valve of an emitter.

    Args:
        emitter: as recorded.
        controls: with the settings of heads and what their numbers mean.
        wanted: temperature wanted in its room.
    """
    setting = next((s for s in controls.emitter_settings if s.emitter == emitter.id), None)
    number = "" if setting is None else setting.number
    is_open = emitter.is_kept_open or emitter.valve not in _SHUT_BY_ITSELF
    if is_open or number in _ALWAYS_OPEN:
        return Valve(1.0, _LIMITER_MARGIN, _BAND, _HYSTERESIS, _LAG, ())
    if emitter.valve is EmitterValve.MOTORISED:
        return _actuator(emitter)
    middle = _middle(emitter, setting, controls.head_scale, wanted)
    makings = (
        _makings(emitter, "valve_band", "band of its valve", _BAND, "K",
                 "EN 215, nominal flow at 2 K below closing; from memory"),
        _makings(emitter, "valve_hysteresis", "hysteresis of its head", _HYSTERESIS, "K",
                 "EN 215 allows 1 K, heads in use 0.3 to 0.5 K; from memory"),
        _makings(emitter, "valve_lag", "lag of its head", _LAG, "min",
                 "liquid-filled heads 15 to 25 min; from memory"),
    )  # fmt: skip
    band, hysteresis, lag = (figure.value for figure in makings)
    return Valve(
        0.0, middle.value - wanted.value, band, hysteresis, lag, (middle, wanted, *makings)
    )


def _actuator(emitter: Emitter) -> Valve:
    """A motorised valve, which its room's own thermostat opens and shuts."""
    figures = (
        _makings(emitter, "valve_shift", "middle of its band above wanted", _ZONE_MARGIN, "K",
                 "derived: shut once the room is half a kelvin too warm"),
        _makings(emitter, "valve_band", "band of its room thermostat", _ACTUATOR_BAND, "K",
                 "common practice, no source"),
        _makings(emitter, "valve_hysteresis", "hysteresis of its room thermostat",
                 _ACTUATOR_HYSTERESIS, "K", "common practice, no source"),
        _makings(emitter, "valve_lag", "travel of its valve", _ACTUATOR_LAG, "min",
                 "common practice, no source"),
    )  # fmt: skip
    shift, band, hysteresis, lag = (figure.value for figure in figures)
    return Valve(0.0, shift, band, hysteresis, lag, figures)


def _middle(
    emitter: Emitter,
    setting: EmitterSetting | None,
    scale: Mapping[str, float],
    wanted: KeyFigure,
) -> KeyFigure:
    """Temperature at which a thermostatic valve is half open."""
    label = f"middle of the valve's band, {emitter.name}"
    if setting is None:
        return stands_in(
            f"emitters.{emitter.id}.valve_middle", label, wanted.value + _LIMITER_MARGIN, "°C",
            note=f"its number is not recorded: a limiter {_LIMITER_MARGIN:g} K above wanted",
        )  # fmt: skip
    known = {float(mark): value for mark, value in scale.items() if _is_number(mark)}
    place = f"controls.emitter_settings.{emitter.id}"
    if setting.number == "*":
        return stands_in(f"emitters.{emitter.id}.valve_middle", label,
                         scale.get("*", _FROST_MARK), "°C", source="from memory")  # fmt: skip
    number = float(setting.number)
    if number in known:
        return given(f"{place}.middle", label, known[number], "°C", place=place)
    value = _between(number, known)
    note = f"number {setting.number} on the head; "
    note += "between the marks recorded" if known else "3 is 20 °C and a number is 4 K"
    return stands_in(f"emitters.{emitter.id}.valve_middle", label, value, "°C", note=note)


def _between(number: float, known: Mapping[float, float]) -> float:
    if len(known) < 2:
        return _USUAL_MIDDLE + _USUAL_STEP * (number - 3.0)
    marks = sorted(known)
    inside = float(np.interp(number, marks, [known[mark] for mark in marks]))
    beyond = number - min(max(number, marks[0]), marks[-1])
    return inside + _USUAL_STEP * beyond


def _is_number(mark: str) -> bool:
    return mark.replace(".", "", 1).isdigit()


def _makings(
    emitter: Emitter, field: str, label: str, value: float, unit: str, source: str
) -> KeyFigure:
    return stands_in(
        f"emitters.{emitter.id}.{field}", f"{label}, {emitter.name}", value, unit, source=source
    )
