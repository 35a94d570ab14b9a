"""The weather curve: the true one, its best fit, its limits, and the curve as set against it."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from hearthbook.design.curve_as_set import (
    CurveComparison,
    CurveDifference,
    curve_as_set,
    set_curve_inputs,
)
from hearthbook.design.curve_cost import CurveCost, Demand
from hearthbook.design.curve_fit import CurveFit, FitPoint, Target, curve_fit
from hearthbook.design.emitters import ENOUGH, EmitterSchedule
from hearthbook.design.heat_loss import HeatLoss
from hearthbook.design.heating_season import (
    HeatingSeason,
    advised_heating_limit,
    heating_season,
)
from hearthbook.design.true_curve import TrueCurve, set_flow_temperature
from hearthbook.design.unit_map import unit_map
from hearthbook.documents.figures import (
    Basis,
    KeyFigure,
    Working,
    assumed,
    calculated,
    given,
)
from hearthbook.physics import weather_curve as physics
from hearthbook.record.controls import Controls
from hearthbook.record.emitters import Underfloor
from hearthbook.record.home import Home

__all__ = [
    "CurveComparison",
    "CurveCost",
    "CurveDifference",
    "CurveFit",
    "CurvePoint",
    "FitPoint",
    "WeatherCurve",
    "weather_curve",
]

_MILD_END, _COLD_END = 15, -5  # °C; what the table of the curve always covers
_MINIMUM = 25.0  # °C; common practice: 25 to 28 °C with radiators, 25 to 30 °C with floors
_MAXIMUM_ABOVE_DESIGN = 4.0  # K; common practice: 3 to 5 K
_MAXIMUM_FOR_FLOORS = 45.0  # °C at the manifold; from memory, follows from EN 1264's surfaces
_MILD_DAY = 7.0  # °C; where the room influence is given for usual winter weather
_SOURCE = "derived from the EN 442 characteristic, constant pump flow"


@dataclass(frozen=True)
class CurvePoint:
    """The curve at one outdoor temperature.

    Attributes:
        outdoor: outdoor temperature.
        flow: true flow temperature.
        return_: return temperature with it.
        surface: mean surface of a radiator, about the mean of the water.
        set_flow: flow temperature the controller makes as set; None where no curve is recorded.
    """

    outdoor: KeyFigure
    flow: KeyFigure
    return_: KeyFigure
    surface: KeyFigure
    set_flow: KeyFigure | None


@dataclass(frozen=True)
class WeatherCurve:
    """The home's weather curve.

    Attributes:
        points: every whole degree from frost to a mild day, the coldest first.
        exponent: of the emitters, weighted by the heat they carry.
        design_flow: flow temperature at the design outdoor temperature.
        design_outdoor: design outdoor temperature.
        base_temperature: outdoor temperature above which gains alone keep the home warm.
        fit: what to enter in the controller.
        as_set: the set curve against the true one; None where no curve is recorded.
        minimum: lowest flow temperature advised.
        maximum: highest flow temperature advised.
        heating_limit: outdoor mean above which heating rests.
        spare: how much lower the curve could start for the rooms that are covered; None where
            none is.
        mean_flow: flow temperature, mean over the season's heat.
        room_influence: K of flow for 1 K of room at design.
        room_influence_mild: the same on a usual winter day at 7 °C.
        season: the hours of the home's place.
        true_curve: the plain numbers of the curve.
        controls: with the curve as set.
    """

    points: tuple[CurvePoint, ...]
    exponent: KeyFigure
    design_flow: KeyFigure
    design_outdoor: KeyFigure
    base_temperature: KeyFigure
    fit: CurveFit
    as_set: CurveComparison | None
    minimum: KeyFigure
    maximum: KeyFigure
    heating_limit: KeyFigure
    spare: KeyFigure | None
    mean_flow: KeyFigure
    room_influence: KeyFigure
    room_influence_mild: KeyFigure
    season: HeatingSeason
    true_curve: TrueCurve
    controls: Controls

    def flow_temperature_at(self, outdoor: float) -> float:
        """The true flow temperature; the rooms' own temperature where no heat is needed."""
        return float(self.true_curve.flow(outdoor))

    def return_temperature_at(self, outdoor: float) -> float:
        """The return temperature with it."""
        return float(self.true_curve.back(outdoor))

    def set_flow_temperature_at(self, outdoor: float) -> float | None:
        """What the controller makes as set, within its limits; None where no curve is recorded."""
        flow = set_flow_temperature(self.controls, outdoor)
        return None if flow is None else float(flow)


def weather_curve(home: Home, loss: HeatLoss, emitters: EmitterSchedule) -> WeatherCurve:
    """The weather curve of a home.

    The true curve goes through the design flow temperature at the design outdoor temperature;
    where none was chosen that is the lowest which covers every room.
    """
    exponent = _exponent(emitters)
    inputs = (
        loss.indoor_temperature,
        loss.base_temperature,
        loss.outdoor_temperature,
        emitters.flow_temperature,
        emitters.drop,
        exponent,
    )
    curve = TrueCurve(*(figure.value for figure in inputs))
    season = heating_season(home, loss.base_temperature)
    minimum = _minimum(home)
    unit = unit_map(home.plant)
    demand = Demand(curve, season, loss.coefficient, minimum, unit, inputs)
    points = tuple(_point(home, curve, inputs, outdoor) for outdoor in _outdoors(curve))
    return WeatherCurve(
        points=points,
        exponent=exponent,
        design_flow=emitters.flow_temperature,
        design_outdoor=loss.outdoor_temperature,
        base_temperature=loss.base_temperature,
        fit=curve_fit(home.controls, Target(curve, season, minimum.value, inputs)),
        as_set=curve_as_set(home.controls, demand, tuple(point.outdoor for point in points)),
        minimum=minimum,
        maximum=_maximum(home, emitters),
        heating_limit=advised_heating_limit(loss.base_temperature),
        spare=_spare(emitters),
        mean_flow=_mean_flow(demand),
        room_influence=_room_influence("room_influence", curve, inputs,
                                       curve.design_outdoor_temperature),
        room_influence_mild=_room_influence("room_influence_mild", curve, inputs, _MILD_DAY),
        season=season,
        true_curve=curve,
        controls=home.controls,
    )  # fmt: skip


def _exponent(emitters: EmitterSchedule) -> KeyFigure:
    carried = math.fsum(one.output.value for one in emitters.emitters)
    weighted = math.fsum(one.output.value * one.exponent.value for one in emitters.emitters)
    if carried <= 0:
        return assumed("weather_curve.exponent", "exponent of the emitters", 1.3, "",
                       source="usual for panel radiators; no emitter carries heat")  # fmt: skip
    return calculated(
        "weather_curve.exponent", "exponent of the emitters", weighted / carried, "",
        formula="Σ n · Φ / Σ Φ", source="derived",
        inputs=tuple(part for one in emitters.emitters for part in (one.exponent, one.output)),
    )  # fmt: skip


def _outdoors(curve: TrueCurve) -> range:
    coldest = min(_COLD_END, math.floor(curve.design_outdoor_temperature))
    return range(coldest, max(_MILD_END, math.floor(curve.base_temperature)) + 1)


def _point(home: Home, curve: TrueCurve, inputs: tuple[KeyFigure, ...], outdoor: int) -> CurvePoint:
    name = f"weather_curve.at.{'minus_' if outdoor < 0 else ''}{abs(outdoor)}"
    room, base, cold, design_flow, drop, exponent = inputs
    at = KeyFigure(f"{name}.outdoor", "outdoor temperature", float(outdoor), "°C",
                   Basis.DOCUMENTED, Working(source="row of the table"), decimals=0)  # fmt: skip
    load = calculated(f"{name}.load", "share of the design load", float(curve.load(outdoor)), "%",
                      formula="x = (T_b − T_e)/(T_b − T_{e,d})", inputs=(at, base, cold),
                      source="steady heat balance of the home")  # fmt: skip
    flow = calculated(f"{name}.flow", "flow temperature of the true curve",
                      float(curve.flow(outdoor)), "°C",
                      formula="T_f = T_i + ΔT_{m,d} · x^(1/n) + ½ · ΔT_d · x",
                      inputs=(load, room, design_flow, drop, exponent), source=_SOURCE,
                      note="where the pump holds the drop, add ½ · ΔT · (1 − x)")  # fmt: skip
    back = calculated(f"{name}.return", "return temperature with it", float(curve.back(outdoor)),
                      "°C", formula="T_r = T_f − ΔT_d · x", inputs=(flow, drop, load),
                      source="heat balance of the water at constant flow")  # fmt: skip
    surface = calculated(f"{name}.surface", "mean radiator surface", (flow.value + back.value) / 2,
                         "°C", formula="θ ≈ T_f − ½ · ΔT_d · x", inputs=(flow, drop, load),
                         source="derived: a steel panel is within 1 to 2 K of its water",
                         decimals=0)  # fmt: skip
    return CurvePoint(at, flow, back, surface, _set_flow(home.controls, name, at))


def _set_flow(controls: Controls, name: str, at: KeyFigure) -> KeyFigure | None:
    as_set = set_flow_temperature(controls, at.value)
    if as_set is None:
        return None
    return calculated(f"{name}.set_flow", "flow temperature as set", float(as_set), "°C",
                      formula="the curve as set, within its limits",
                      inputs=(at, *set_curve_inputs(controls)),
                      source="record: controls.curve")  # fmt: skip


def _minimum(home: Home) -> KeyFigure:
    name, label = "weather_curve.minimum", "lowest flow temperature advised"
    defrost = home.plant.heat_pump.lowest_flow_in_defrost
    if defrost is not None and defrost > _MINIMUM:
        return given(name, label, defrost, "°C", place="plant.heat_pump.lowest_flow_in_defrost")
    return assumed(name, label, _MINIMUM, "°C", source="common practice, no source",
                   note="25 to 28 °C with radiators, 25 to 30 °C with floors")  # fmt: skip


def _maximum(home: Home, emitters: EmitterSchedule) -> KeyFigure:
    name, label = "weather_curve.maximum", "highest flow temperature advised"
    flow = emitters.flow_temperature
    inputs = [flow]
    value = float(math.ceil(flow.value + _MAXIMUM_ABOVE_DESIGN))
    hottest = home.plant.heat_pump.maximum_flow_temperature
    if hottest is not None and hottest < value:
        value = hottest
        inputs.append(given("heat_pump.maximum_flow_temperature", "hottest water the unit makes",
                            hottest, "°C",
                            place="plant.heat_pump.maximum_flow_temperature"))  # fmt: skip
    has_floors = any(isinstance(emitter, Underfloor) for emitter in home.emitters)
    note = ""
    if has_floors and value > _MAXIMUM_FOR_FLOORS:
        note = (
            "heated floors need their own limit of 45 °C at the manifold, or less as the maker of "
            "the floor says"
        )
    return calculated(
        name, label, value, "°C", formula="design flow temperature + 4 K, rounded up",
        inputs=tuple(inputs), source="common practice, no source: 3 to 5 K above design", note=note,
    )  # fmt: skip


def _spare(emitters: EmitterSchedule) -> KeyFigure | None:
    needs = tuple(
        room.required_flow_temperature
        for room in emitters.rooms
        if room.required_flow_temperature is not None
        and room.coverage is not None
        and room.coverage.value >= ENOUGH
    )
    if not needs:
        return None
    highest = max(need.value for need in needs)
    return calculated(
        "weather_curve.spare", "how much lower the curve could start for the covered rooms",
        emitters.flow_temperature.value - highest, "K", formula="design flow − highest need",
        inputs=(emitters.flow_temperature, *needs), source="derived",
        note=f"rooms supplied under {ENOUGH:.0%} are left to a larger emitter, not to the curve",
    )  # fmt: skip


def _mean_flow(demand: Demand) -> KeyFigure:
    shares = demand.season.load_shares(demand.curve.base_temperature)
    mean = float(np.sum(shares * demand.curve.flow(demand.season.temperatures)))
    return calculated(
        "weather_curve.mean_flow", "flow temperature, mean over the season's heat", mean, "°C",
        formula="Σ share of heat · T_f", inputs=(*demand.inputs, demand.season.length),
        source="derived",
    )  # fmt: skip


def _room_influence(
    name: str, curve: TrueCurve, inputs: tuple[KeyFigure, ...], outdoor: float
) -> KeyFigure:
    mean = (float(curve.flow(outdoor)) + float(curve.back(outdoor))) / 2
    value = physics.flow_per_room_kelvin(
        mean - curve.room_temperature, curve.room_temperature, outdoor, curve.exponent
    )
    return calculated(
        f"weather_curve.{name}", f"K of flow for 1 K of room, at {outdoor:g} °C outdoors",
        float(value), "", formula="1 + ΔT_m/(n·(T_i − T_e))", inputs=inputs,
        source="derived from the heat balance of emitter and home", decimals=1,
    )  # fmt: skip
