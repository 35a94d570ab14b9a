"""The curve as set against the true one: how far, in which weather, at what cost.

The true curve is held at the lowest flow temperature advised: what that limit adds is no fault.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hearthbook.design.curve_cost import CurveCost, Demand, curve_cost
from hearthbook.documents.figures import KeyFigure, calculated, given
from hearthbook.record.controls import Controls, PointsCurve

__all__ = ["CurveComparison", "CurveDifference", "curve_as_set", "set_curve_inputs"]


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
        cost: what the excess costs in a year.
    """

    by_outdoor: tuple[CurveDifference, ...]
    mean: KeyFigure
    largest_above: KeyFigure
    largest_below: KeyFigure
    cost: CurveCost

    @property
    def cost_share(self) -> KeyFigure:
        """Share of the heating electricity the excess costs, with its range."""
        return self.cost.share

    @property
    def cost_energy(self) -> KeyFigure:
        """The same in a year's electricity, with its range."""
        return self.cost.energy


def curve_as_set(
    controls: Controls, demand: Demand, outdoors: tuple[KeyFigure, ...]
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
    settings = (*set_curve_inputs(controls), demand.minimum, *demand.inputs)
    inputs = (*settings, demand.season.length)
    likely = above[bins >= demand.curve.design_outdoor_temperature - 1]
    return CurveComparison(
        by_outdoor=_by_outdoor(controls, demand, outdoors, settings),
        mean=calculated(
            "weather_curve.as_set.mean", "set curve above the true one, mean over the season",
            float(np.average(above, weights=demand.season.hours)), "K",
            formula="Σ hours · (set − true) / Σ hours", inputs=inputs, source="derived",
        ),
        largest_above=_largest("largest_above", "most above the true curve", likely, inputs),
        largest_below=_largest("largest_below", "most below the true curve", -likely, inputs),
        cost=curve_cost(demand, np.maximum(above, 0.0), inputs),
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
    controls: Controls,
    demand: Demand,
    outdoors: tuple[KeyFigure, ...],
    inputs: tuple[KeyFigure, ...],
) -> tuple[CurveDifference, ...]:
    above = demand.above(controls, np.array([outdoor.value for outdoor in outdoors]))
    if above is None:
        return ()
    return tuple(
        CurveDifference(
            outdoor,
            calculated(
                outdoor.name.replace(".at.", ".as_set.").replace("outdoor", "difference"),
                "set minus true", float(difference), "K", formula="set − true",
                inputs=(outdoor, *inputs), source="derived",
            ),
        )
        for outdoor, difference in zip(outdoors, above, strict=True)
    )  # fmt: skip


def _largest(
    name: str, label: str, values: NDArray[np.float64], inputs: tuple[KeyFigure, ...]
) -> KeyFigure:
    return calculated(
        f"weather_curve.as_set.{name}", label, float(values.max(initial=0.0)), "K",
        formula="max over the season, down to 1 K below the design temperature", inputs=inputs,
        source="derived",
    )  # fmt: skip
