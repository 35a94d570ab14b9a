"""The true curve as the home's controller can hold it: two points, slope and level, or several."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from hearthbook.design.heating_season import HeatingSeason
from hearthbook.design.true_curve import TrueCurve
from hearthbook.documents.figures import KeyFigure, assumed, calculated
from hearthbook.physics import weather_curve as physics
from hearthbook.record.controls import Controls, SlopeLevelCurve

__all__ = ["CurveFit", "FitPoint", "Target", "curve_fit"]

_Kind = Literal["two_points", "slope_level", "several_points"]

_MILD_END = 15.0  # °C; where a two-point controller's second point usually stands, common practice
_SEVERAL = 4  # points
_FLOW_STEP = 0.5  # K; what controllers usually accept, common practice
_SLOPE_STEP = 0.05  # likewise
_DESIGN_WEIGHT = 0.02  # of all hours, so that the few coldest ones are not forgotten
_FEWEST_BINS = 6  # a curve that lies under the minimum almost everywhere is fitted by its load
_SMALLEST_LOAD = 0.15  # of the design load
_SOURCE = "weighted least squares against the true curve"


@dataclass(frozen=True)
class FitPoint:
    """One point to enter.

    Attributes:
        outdoor: outdoor temperature.
        flow: flow temperature.
    """

    outdoor: KeyFigure
    flow: KeyFigure


@dataclass(frozen=True)
class CurveFit:
    """What to enter in the controller.

    Attributes:
        kind: how the controller holds its curve.
        points: to enter, from cold to mild; for slope and level its two ends.
        slope: to enter; None for points.
        level: to enter; None for points.
        pivot: where a curve without level begins; None for points.
        mean_difference: mean size of what is left between it and the true curve, by hours.
        largest_difference: largest of that.
    """

    kind: _Kind
    points: tuple[FitPoint, ...]
    slope: KeyFigure | None
    level: KeyFigure | None
    pivot: KeyFigure | None
    mean_difference: KeyFigure
    largest_difference: KeyFigure


@dataclass(frozen=True)
class Target:
    """What is fitted.

    Attributes:
        curve: the true curve.
        season: the hours of the home's place.
        minimum: flow temperature below which the controller's limit holds anyway.
        inputs: the figures the true curve rests on.
    """

    curve: TrueCurve
    season: HeatingSeason
    minimum: float
    inputs: tuple[KeyFigure, ...]

    def bins(self) -> tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]:
        """Outdoor temperatures, true flow temperatures and weights, the design point among them."""
        cold = self.curve.design_outdoor_temperature
        bins = self.season.temperatures
        counts = (self.curve.flow(bins) >= self.minimum) & (bins > cold)
        if counts.sum() < _FEWEST_BINS:
            counts = (self.curve.load(bins) >= _SMALLEST_LOAD) & (bins > cold)
        outdoor = np.append(cold, bins[counts])
        hours = self.season.hours[counts]
        weight = np.append(_DESIGN_WEIGHT * max(float(hours.sum()), 1.0), hours)
        return outdoor, self.curve.flow(outdoor), weight


def curve_fit(controls: Controls, target: Target) -> CurveFit:
    """The best fit to the true curve that the controller accepts, rounded as it is entered."""
    fit: dict[_Kind, Callable[[Controls, Target], CurveFit]] = {
        "two_points": _two_points,
        "several_points": _several_points,
        "slope_level": _slope_level,
    }
    return fit[controls.curve_accepts](controls, target)


def _two_points(_: Controls, target: Target) -> CurveFit:
    return _by_points("two_points", _ends(target), target)


def _several_points(_: Controls, target: Target) -> CurveFit:
    cold, mild = _ends(target)
    return _by_points(
        "several_points", np.unique(np.round(np.linspace(cold, mild, _SEVERAL))), target
    )


def _ends(target: Target) -> NDArray[np.float64]:
    """Whole degrees: the design temperature, and a mild day on the curve."""
    cold = np.round(target.curve.design_outdoor_temperature)
    outdoor, _, _ = target.bins()
    mild = min(_MILD_END, np.floor(target.curve.base_temperature - 1), np.floor(outdoor.max()))
    return np.array([cold, max(mild, cold + 3)])


def _by_points(kind: _Kind, at: NDArray[np.float64], target: Target) -> CurveFit:
    outdoor, flow, weight = target.bins()
    exact = np.asarray(physics.points_that_fit(at, outdoor, flow, weight))
    entered = np.round(exact / _FLOW_STEP) * _FLOW_STEP
    made = np.asarray(physics.flow_temperature_by_points(outdoor, at, entered))
    return CurveFit(
        kind, _points(at, entered, target), None, None, None, *_left(made - flow, weight, target)
    )


def _slope_level(controls: Controls, target: Target) -> CurveFit:
    outdoor, flow, weight = target.bins()
    set_curve = controls.curve
    pivot = set_curve.pivot if isinstance(set_curve, SlopeLevelCurve) else 20.0
    ends = _ends(target)
    cold_flow, mild_flow = np.asarray(physics.points_that_fit(ends, outdoor, flow, weight))
    slope = round((cold_flow - mild_flow) / (ends[1] - ends[0]) / _SLOPE_STEP) * _SLOPE_STEP
    left = flow - np.asarray(physics.flow_temperature_by_slope(outdoor, slope, 0.0, pivot))
    level = round(float(np.average(left, weights=weight)) / _FLOW_STEP) * _FLOW_STEP
    made = np.asarray(physics.flow_temperature_by_slope(outdoor, slope, level, pivot))
    entered = np.asarray(physics.flow_temperature_by_slope(ends, slope, level, pivot))
    mean, largest = _left(made - flow, weight, target)
    return CurveFit(
        kind="slope_level",
        points=_points(ends, entered, target),
        slope=_fitted("weather_curve.fit.slope", "slope to enter", slope, "", target),
        level=_fitted("weather_curve.fit.level", "level to enter", level, "K", target),
        pivot=assumed("weather_curve.fit.pivot", "where a curve without level begins", pivot, "°C",
                      source="the controller's own; common practice, no source"),
        mean_difference=mean,
        largest_difference=largest,
    )  # fmt: skip


def _points(
    at: NDArray[np.float64], flows: NDArray[np.float64], target: Target
) -> tuple[FitPoint, ...]:
    return tuple(
        FitPoint(
            calculated(f"weather_curve.fit.points.{number}.outdoor",
                       "outdoor temperature to enter", float(outdoor), "°C",
                       formula="whole degrees from design to a mild day on the curve",
                       inputs=target.inputs, source="common practice, no source", decimals=0),
            _fitted(f"weather_curve.fit.points.{number}.flow", "flow temperature to enter",
                    float(flow), "°C", target),
        )
        for number, (outdoor, flow) in enumerate(zip(at, flows, strict=True), start=1)
    )  # fmt: skip


def _fitted(name: str, label: str, value: float, unit: str, target: Target) -> KeyFigure:
    return calculated(
        name, label, value, unit, formula="min Σ hours · (fit − true curve)²",
        inputs=(*target.inputs, target.season.length), source=_SOURCE,
        note="rounded as controllers accept it; the design point counts as 2 % of the hours",
    )  # fmt: skip


def _left(
    difference: NDArray[np.float64], weight: NDArray[np.float64], target: Target
) -> tuple[KeyFigure, KeyFigure]:
    size = np.abs(difference)
    inputs = (*target.inputs, target.season.length)
    mean = calculated(
        "weather_curve.fit.mean_difference", "mean difference to the true curve",
        float(np.average(size, weights=weight)), "K", formula="Σ hours · |fit − true| / Σ hours",
        inputs=inputs, source=_SOURCE,
    )  # fmt: skip
    largest = calculated(
        "weather_curve.fit.largest_difference", "largest difference to the true curve",
        float(size.max()), "K", formula="max |fit − true|", inputs=inputs, source=_SOURCE,
    )  # fmt: skip
    return mean, largest
