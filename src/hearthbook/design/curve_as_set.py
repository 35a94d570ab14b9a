"""The curve as set against the true one: how far, in which weather, at what cost.

The true curve is held at the lowest flow temperature advised: what that limit adds is no fault.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from hearthbook.design.heating_season import HeatingSeason
from hearthbook.design.true_curve import TrueCurve, set_flow_temperature
from hearthbook.design.upgrades import SAVING_PER_KELVIN, SAVING_PER_KELVIN_SPREAD
from hearthbook.documents.figures import KeyFigure, assumed, calculated, given
from hearthbook.record.controls import Controls, PointsCurve
from hearthbook.record.plant import HeatPump

__all__ = ["CurveComparison", "CurveDifference", "Demand", "curve_as_set", "set_curve_inputs"]

_CONDENSER_APPROACH = 3.0  # K; flow to condensing, derived working figure
_EVAPORATOR_APPROACH = 8.0  # K; outdoor air to evaporating, likewise
_EFFICIENCY_SPREAD = 0.15  # of the seasonal efficiency so estimated; from memory
_SHARE_SOURCE = (
    "common practice, no source, for 2 to 3 % per K; 1.5 to 2 % per K derived from a Carnot cycle"
)


@dataclass(frozen=True)
class CurveDifference:
    """The set curve above the true one at an outdoor temperature.

    Attributes:
        outdoor: outdoor temperature.
        difference: set minus true; negative where the set curve is too low.
    """

    outdoor: KeyFigure
    difference: KeyFigure


@dataclass(frozen=True)
class CurveComparison:
    """How far the curve as set is from the true one over the season.

    Attributes:
        by_outdoor: the difference by outdoor temperature, the coldest first.
        mean: mean difference, by hours.
        largest_above: largest difference upwards; 0 where the set curve is nowhere too high.
        largest_below: largest difference downwards, as a positive number.
        cost_share: share of the heating electricity the excess costs, with its range.
        cost_energy: the same in a year's electricity, with its range.
        seasonal_efficiency: of the unit along the true curve, as used for the cost.
        annual_heat: heat for the rooms in a year.
    """

    by_outdoor: tuple[CurveDifference, ...]
    mean: KeyFigure
    largest_above: KeyFigure
    largest_below: KeyFigure
    cost_share: KeyFigure
    cost_energy: KeyFigure
    seasonal_efficiency: KeyFigure
    annual_heat: KeyFigure


@dataclass(frozen=True)
class Demand:
    """What the cost of a curve is reckoned from.

    Attributes:
        curve: the true curve.
        season: the hours of the home's place.
        coefficient: heat loss of the home per kelvin.
        minimum: lowest flow temperature advised; being held up to it is no excess.
        heat_pump: the unit, for its efficiency.
        inputs: the figures the true curve rests on.
    """

    curve: TrueCurve
    season: HeatingSeason
    coefficient: KeyFigure
    minimum: KeyFigure
    heat_pump: HeatPump
    inputs: tuple[KeyFigure, ...]

    def above(self, controls: Controls, outdoor: NDArray[np.float64]) -> NDArray[np.float64] | None:
        """The set curve less the true one; None where no curve is recorded.

        Between the true curve and the lowest flow temperature advised lies no difference.
        """
        as_set = set_flow_temperature(controls, outdoor)
        if as_set is None:
            return None
        true = self.curve.flow(outdoor)
        return as_set - np.clip(as_set, true, np.maximum(true, self.minimum.value))


def curve_as_set(
    controls: Controls, demand: Demand, outdoors: tuple[float, ...]
) -> CurveComparison | None:
    """The comparison; None where no curve is recorded.

    Args:
        controls: with the curve as set.
        demand: what it is held against.
        outdoors: outdoor temperatures at which the difference is listed.
    """
    bins = demand.season.temperatures
    above = demand.above(controls, bins)
    if above is None:
        return None
    inputs = (*set_curve_inputs(controls), demand.minimum, *demand.inputs, demand.season.length)
    shares = demand.season.load_shares(demand.curve.base_temperature)
    too_hot = calculated(
        "weather_curve.as_set.excess", "excess over the true curve, mean over the season's heat",
        float(np.sum(shares * np.maximum(above, 0.0))), "K",
        formula="Σ share of heat · max(set − true, 0)", inputs=inputs, source="derived",
    )  # fmt: skip
    share = _cost_share(too_hot)
    heat, efficiency = _annual_heat(demand), _seasonal_efficiency(demand)
    likely = bins >= demand.curve.design_outdoor_temperature - 1
    return CurveComparison(
        by_outdoor=_by_outdoor(controls, demand, outdoors),
        mean=calculated(
            "weather_curve.as_set.mean", "set curve above the true one, mean over the season",
            float(np.average(above, weights=demand.season.hours)), "K",
            formula="Σ hours · (set − true) / Σ hours", inputs=inputs, source="derived",
        ),
        largest_above=_largest("largest_above", "most above the true curve",
                               float(above[likely].max()), inputs),
        largest_below=_largest("largest_below", "most below the true curve",
                               float(-above[likely].min()), inputs),
        cost_share=share,
        cost_energy=_cost_energy(share, heat, efficiency),
        seasonal_efficiency=efficiency,
        annual_heat=heat,
    )  # fmt: skip


def set_curve_inputs(controls: Controls) -> tuple[KeyFigure, ...]:
    """The settings the set curve rests on, as figures."""
    curve = controls.curve
    figures: list[KeyFigure] = []
    if isinstance(curve, PointsCurve):
        for number, point in enumerate(curve.points, start=1):
            place = f"controls.curve.points[{number}]"
            name = f"controls.curve.points.{number}"
            figures += [
                given(f"{name}.outdoor", f"outdoor temperature of point {number}", point.outdoor,
                      "°C", place=f"{place}.outdoor"),
                given(f"{name}.flow", f"flow temperature of point {number}", point.flow,
                      "°C", place=f"{place}.flow"),
            ]  # fmt: skip
    elif curve is not None:
        for field, unit in (("slope", ""), ("level", "K"), ("pivot", "°C")):
            figures.append(
                given(f"controls.curve.{field}", f"{field} of the curve", getattr(curve, field),
                      unit, place=f"controls.curve.{field}")
            )  # fmt: skip
    for field, label in (
        ("minimum_flow_temperature", "lowest flow temperature set"),
        ("maximum_flow_temperature", "highest flow temperature set"),
    ):
        value = getattr(controls, field)
        if value is not None:
            place = f"controls.{field}"
            figures.append(given(place, label, value, "°C", place=place))
    return tuple(figures)


def _by_outdoor(
    controls: Controls, demand: Demand, outdoors: tuple[float, ...]
) -> tuple[CurveDifference, ...]:
    above = demand.above(controls, np.array(outdoors))
    if above is None:
        return ()
    inputs = (*set_curve_inputs(controls), demand.minimum, *demand.inputs)
    return tuple(
        CurveDifference(
            assumed(f"weather_curve.as_set.{number}.outdoor", "outdoor temperature", outdoor, "°C",
                    source="chosen for the table"),
            calculated(f"weather_curve.as_set.{number}.difference", "set minus true",
                       float(difference), "K", formula="set − true", inputs=inputs,
                       source="derived"),
        )
        for number, (outdoor, difference) in enumerate(zip(outdoors, above, strict=True), start=1)
    )  # fmt: skip


def _largest(name: str, label: str, value: float, inputs: tuple[KeyFigure, ...]) -> KeyFigure:
    return calculated(
        f"weather_curve.as_set.{name}", label, max(0.0, value), "K",
        formula="max over the season, down to 1 K below the design temperature", inputs=inputs,
        source="derived",
    )  # fmt: skip


def _cost_share(too_hot: KeyFigure) -> KeyFigure:
    per_kelvin = replace(
        assumed("weather_curve.saving_per_kelvin", "electricity per K of flow", SAVING_PER_KELVIN,
                "%", source=_SHARE_SOURCE),
        uncertainty=SAVING_PER_KELVIN_SPREAD, decimals=1,
    )  # fmt: skip
    return calculated(
        "weather_curve.as_set.cost_share", "share of heating electricity the excess costs",
        too_hot.value * SAVING_PER_KELVIN, "%", formula="excess · share per K",
        inputs=(too_hot, per_kelvin), source=_SHARE_SOURCE,
        uncertainty=too_hot.value * SAVING_PER_KELVIN_SPREAD, decimals=1,
    )  # fmt: skip


def _annual_heat(demand: Demand) -> KeyFigure:
    season = demand.season
    below = np.maximum(0.0, demand.curve.base_temperature - season.temperatures)
    heat = demand.coefficient.value * float(np.sum(season.hours * below)) * 3600
    return calculated(
        "weather_curve.annual_heat", "heat for the rooms in a year", heat, "kWh",
        formula="H · Σ hours · (T_b − T_e)", source="steady heat balance of the home",
        inputs=(demand.coefficient, season.length),
    )  # fmt: skip


def _seasonal_efficiency(demand: Demand) -> KeyFigure:
    """The unit's seasonal efficiency along the true curve, by a Carnot cycle met to its points."""
    points = [point for point in demand.heat_pump.points if point.load != "minimum"]
    points = points or list(demand.heat_pump.points)
    quality = math.fsum(
        point.efficiency / _ideal(point.flow_temperature, point.outdoor_temperature)
        for point in points
    ) / len(points)
    bins = demand.season.temperatures
    flow = demand.curve.flow(bins)
    efficiency = quality * np.array([_ideal(*pair) for pair in zip(flow, bins, strict=True)])
    shares = demand.season.load_shares(demand.curve.base_temperature)
    value = 1 / float(np.sum(shares / efficiency))
    given_points = tuple(
        given(f"heat_pump.points.{number}.efficiency",
              f"efficiency at {point.outdoor_temperature:g}/{point.flow_temperature:g} °C",
              point.efficiency, "", place=f"plant.heat_pump.points[{number}].efficiency")
        for number, point in enumerate(points, start=1)
    )  # fmt: skip
    return calculated(
        "weather_curve.seasonal_efficiency", "seasonal efficiency along the true curve", value, "",
        formula="η·(T_f + 276)/(T_f + 3 − T_e + 8) by bins, weighted by heat",
        inputs=(*given_points, *demand.inputs, demand.season.length),
        source="derived: Carnot cycle with 3 K and 8 K approaches, η met to the unit's points",
        uncertainty=_EFFICIENCY_SPREAD * value, note=f"η = {quality:.2f}",
    )  # fmt: skip


def _ideal(flow_temperature: float, outdoor_temperature: float) -> float:
    condensing = flow_temperature + _CONDENSER_APPROACH
    lift = condensing - (outdoor_temperature - _EVAPORATOR_APPROACH)
    return (condensing + 273.15) / max(lift, 5.0)


def _cost_energy(share: KeyFigure, heat: KeyFigure, efficiency: KeyFigure) -> KeyFigure:
    value = share.value * heat.value / efficiency.value
    relative = math.hypot(SAVING_PER_KELVIN_SPREAD / SAVING_PER_KELVIN, _EFFICIENCY_SPREAD)
    return calculated(
        "weather_curve.as_set.cost_energy", "electricity the excess costs in a year", value, "kWh",
        formula="share · heat / seasonal efficiency", inputs=(share, heat, efficiency),
        source="derived", uncertainty=relative * value,
    )  # fmt: skip
