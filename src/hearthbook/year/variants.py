"""A home changed as somebody asks: its record, its design and what the year is told."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from hearthbook.design.curve_fit import Target, curve_fit
from hearthbook.design.results import Design, design_home
from hearthbook.design.true_curve import TrueCurve, set_flow_temperature
from hearthbook.documents.figures import KeyFigure
from hearthbook.errors import Incomplete
from hearthbook.physics.weather_curve import flow_temperature_by_points
from hearthbook.record.building import Construction
from hearthbook.record.controls import Thermostat
from hearthbook.record.emitters import Emitter
from hearthbook.record.home import Home
from hearthbook.record.plant import AddedVolume
from hearthbook.year.changes import Changes
from hearthbook.year.ideas import Idea, checked

__all__ = ["AS_RECORDED", "Variant", "as_recorded", "variant"]

AS_RECORDED = "as_recorded"
_MILD = (0.0, 5.0, 10.0, 15.0)  # °C, where a changed curve is held besides the design temperature

_Points = tuple[tuple[float, float], ...]


@dataclass(frozen=True)
class Variant:
    """A home as it might be.

    Attributes:
        name: for figures, such as `warmer`.
        label: in plain words, such as `all rooms 1 K warmer`.
        changes: what the year is told differently.
        design: of the home as it might be.
        note: what a reader must know of it.
        once: what the change costs once, where the record says so.
    """

    name: str
    label: str
    changes: Changes
    design: Design
    note: str = ""
    once: KeyFigure | None = None


def as_recorded(design: Design) -> Variant:
    """The home as it is recorded, against which every variant is held."""
    return Variant(AS_RECORDED, "as recorded", Changes(), design)


def variant(design: Design, idea: Idea, name: str, label: str, *, note: str = "") -> Variant:
    """A home changed by an idea.

    Args:
        design: of the home as recorded.
        idea: what is changed; parts by id or name.
        name: for its figures.
        label: in plain words.
        note: what a reader must know of it.

    Raises:
        NotFound: it names a part the home does not have.
        Incomplete: no larger emitter is known for one that is to be exchanged.
        OutOfRange: it asks for what no home has, or this one cannot.
    """
    asked = checked(design, idea)
    home = _home(design, asked)
    is_rebuilt = bool(asked.larger or asked.insulate or asked.heat_pump or
                      asked.volumiser is not None)  # fmt: skip
    changed = design if home is design.home else replace(design, home=home)
    if is_rebuilt:
        changed = design_home(home)
    changes = Changes(
        wanted_shift=asked.warmer,
        setback=asked.setback,
        curve_shift=asked.curve,
        curve_points=_curve_points(design, changed, asked),
        closed_rooms=asked.close,
    )
    return Variant(name, label, changes, changed, note, _once(design, asked))


def _home(design: Design, idea: Idea) -> Home:
    """The record as the idea has it; itself where nothing in it changes."""
    home = design.home
    changed = {**_plant(home, idea), **_controls(design, idea)}
    if idea.insulate:
        u_values = dict(idea.insulate)
        constructions = tuple(_insulated(each, u_values) for each in home.building.constructions)
        changed["building"] = home.building.model_copy(update={"constructions": constructions})
    if idea.larger:
        changed["emitters"] = tuple(
            _exchanged(design, each) if each.id in idea.larger else each for each in home.emitters
        )
    if idea.tariff is not None:
        changed["tariff"] = idea.tariff
    return home.model_copy(update=changed) if changed else home


def _plant(home: Home, idea: Idea) -> dict[str, object]:
    changed: dict[str, object] = {}
    if idea.heat_pump is not None:
        changed["heat_pump"] = idea.heat_pump
    if idea.volumiser is not None:
        changed["added_volume"] = _added(home, idea.volumiser)
    return {"plant": home.plant.model_copy(update=changed)} if changed else {}


def _controls(design: Design, idea: Idea) -> dict[str, object]:
    controls, changed = design.home.controls, dict[str, object]()
    if idea.hot_water_windows is not None:
        changed["hot_water_windows"] = idea.hot_water_windows
    if idea.thermostat_limit is not None and controls.thermostat is not None:
        changed["thermostat"] = _limiter(design, controls.thermostat, idea.thermostat_limit)
    return {"controls": controls.model_copy(update=changed)} if changed else {}


def _limiter(design: Design, thermostat: Thermostat, above: float) -> Thermostat:
    wanted = design.emitters.room(thermostat.room).temperature.value
    return thermostat.model_copy(update={"acts_as": "limiter", "setting": wanted + above})


def _added(home: Home, volume: float) -> AddedVolume | None:
    if volume == 0.0:
        return None
    recorded = home.plant.added_volume
    if recorded is not None:
        return recorded.model_copy(update={"volume": volume})
    return AddedVolume.model_validate(
        {"kind": "volumiser", "volume": f"{volume * 1e3:g} L", "on": "return"}
    )


def _insulated(construction: Construction, u_values: dict[str, float]) -> Construction:
    if construction.id not in u_values:
        return construction
    changed = {"u_value": u_values[construction.id], "layers": (), "typical": None, "ground": None}
    return construction.model_copy(update=changed)


def _exchanged(design: Design, emitter: Emitter) -> Emitter:
    """An emitter exchanged for the recorded larger one, else for the one the design looks at."""
    if emitter.larger is not None:
        output = emitter.larger.rated_output
    else:
        found = [one for one in design.emitters.next_larger if one.emitter_id == emitter.id]
        if not found:
            raise Incomplete(
                f"No larger emitter is known for {emitter.name}. Write its description and "
                f"rated_output under larger at emitters, {emitter.id}."
            )
        output = found[0].rated_output.value
    before = design.emitters.emitter(emitter.id)
    water = before.water_content.value * output / before.rated_output.value
    return emitter.model_copy(
        update={"rated_output": output, "water_content": water, "larger": None}
    )


def _once(design: Design, idea: Idea) -> KeyFigure | None:
    """What a single exchange costs, where the record says so."""
    if len(idea.larger) != 1:
        return None
    found = (one for one in design.emitters.next_larger if one.emitter_id == idea.larger[0])
    return next((one.extra_cost for one in found), None)


def _curve_points(design: Design, changed: Design, idea: Idea) -> _Points | None:
    """The curve in place of the one as set; None where that stays."""
    if idea.is_curve_as_advised:
        return _fitted(design, changed.curve.true_curve)
    if idea.flow_temperature is not None:
        through = replace(changed.curve.true_curve, design_flow_temperature=idea.flow_temperature)
        return _fitted(design, through)
    if idea.larger or idea.insulate:
        return _lowered(design, changed)
    return None


def _fitted(design: Design, true: TrueCurve) -> _Points:
    """The best fit to a true curve that the home's controller holds."""
    curve, loss = design.curve, design.heat_loss
    inputs = (loss.indoor_temperature, loss.base_temperature, loss.outdoor_temperature,
              design.emitters.flow_temperature, design.emitters.drop, curve.exponent)  # fmt: skip
    target = Target(true, curve.season, curve.minimum.value, inputs)
    points = curve_fit(design.home.controls, target).points
    return tuple((point.outdoor.value, point.flow.value) for point in points)


def _lowered(design: Design, changed: Design) -> _Points:
    """The curve as set, moved as the true curve moves: every room stays as well covered as it was.

    The room that needs the hottest water decides by how much.
    """
    before = design.curve.true_curve
    won = (
        design.emitters.required_flow_temperature.value
        - changed.emitters.required_flow_temperature.value
    )
    after = replace(
        changed.curve.true_curve, design_flow_temperature=before.design_flow_temperature - won
    )
    outdoors = np.unique([before.design_outdoor_temperature, *_MILD])
    moved = np.minimum(after.flow(outdoors) - before.flow(outdoors), 0.0)
    flows = _set_flow(design, outdoors) + moved
    return tuple(zip(outdoors.tolist(), flows.tolist(), strict=True))


def _set_flow(design: Design, outdoors: NDArray[np.float64]) -> NDArray[np.float64]:
    """The curve as set without its limits; what the design advises where none is recorded."""
    controls = design.home.controls.model_copy(
        update={"minimum_flow_temperature": None, "maximum_flow_temperature": None}
    )
    made = set_flow_temperature(controls, outdoors)
    if made is not None:
        return made
    points = design.curve.fit.points
    at = np.array([point.outdoor.value for point in points])
    flows = np.array([point.flow.value for point in points])
    return np.asarray(flow_temperature_by_points(outdoors, at, flows), dtype=float)
