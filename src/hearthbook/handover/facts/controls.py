"""Facts about the controls: curve, thermostat, settings as left."""

from __future__ import annotations

from hearthbook.design.results import Design
from hearthbook.handover.facts.speech import Speech
from hearthbook.handover.facts.tables import table
from hearthbook.handover.facts.told_curve import curve_finding, told_flow_temperature
from hearthbook.handover.wording import Facts, Ready
from hearthbook.record.emitters import Emitter, EmitterValve
from hearthbook.record.home import Home
from hearthbook.units import shown

__all__ = ["controls_facts"]

_MILD = 12.0  # °C, the mild end of the curve as told to a householder


def controls_facts(design: Design, speech: Speech) -> Facts:
    """Facts about the controls."""
    home = design.home
    controls = home.controls
    thermostat = controls.thermostat
    return {
        "controls": {
            "description": f"{controls.description[:1].upper()}{controls.description[1:]}.",
            "place": home.places.get("heat_pump_controller"),
        },
        "curve": _curve(design, speech),
        "thermostat": None
        if thermostat is None
        else {
            "room": home.room(thermostat.room).name,
            "setting": shown(thermostat.setting, "°C", 1).replace(".0", ""),
            "is_limiter": thermostat.acts_as == "limiter",
            "valves_open": all(
                _is_open(home, emitter) for emitter in home.emitters_of(thermostat.room)
            ),
        },
        "remote": controls.has_remote_access,
        "table_settings": _settings(design, speech),
    }


def _is_open(home: Home, emitter: Emitter) -> bool:
    """Whether nothing throttles an emitter: no thermostatic valve, or one left fully open."""
    if emitter.valve is not EmitterValve.THERMOSTATIC:
        return True
    numbers = {one.emitter: one.number for one in home.controls.emitter_settings}
    return numbers.get(emitter.id) in ("open", "max")


def _curve(design: Design, speech: Speech) -> Facts:
    curve, limit = design.curve, design.home.controls.heating_limit
    cold = curve.design_outdoor.value
    ends = [told_flow_temperature(design, outdoor) for outdoor in (cold, _MILD)]
    words = speech.words(
        "curve",
        "words",
        cold=shown(cold, "°C", 0),
        hot=shown(ends[0], "°C", 0),
        mild=shown(_MILD, "°C", 0),
        low=shown(ends[1], "°C", 0),
    )
    return {
        "words": words,
        "words_long": speech.words("curve", "words_long", words=words),
        "finding": curve_finding(design),
        "heating_limit": None if limit is None else shown(limit, "°C", 0),
        "kelvin_per_degree": speech.figure(curve.room_influence_mild, 0),
    }


def _settings(design: Design, speech: Speech) -> Ready:
    commissioning = design.home.commissioning
    settings = commissioning.settings if commissioning else ()
    if not settings:
        return Ready(speech.words("words", "nobody_yet"))
    rows = [[one.name, f"{one.after} {one.unit}".strip()] for one in settings]
    heads = [speech.words("tables", f"settings_{name}") for name in ("name", "left")]
    return table(speech.words("tables", "settings_caption"), heads, rows)
