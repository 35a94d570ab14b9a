"""The heat pump's tested points as a map: what it gives and takes at any temperatures and load."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hearthbook.documents.figures import KeyFigure, assumed, given
from hearthbook.physics import heat_pump as physics
from hearthbook.record.plant import HeatPump, PerformancePoint, Plant
from hearthbook.units import Celsius, Watts

__all__ = ["UnitMap", "unit_map"]

_LEAST_SHARE = 0.35  # of the most; 30 to 40 % is usual, common practice, no source
_LEAST_LOAD = 0.02  # of the least output; keeps a bin of next to no load out of the sum of losses
_DEFROST_ALLOWANCE = 0.10  # 5 to 15 % between -3 and 4 °C, common practice, no source
_BEYOND_SHARE = 0.5  # of Carnot's gain beyond the tested points; common practice, no source
_GLYCOL_LOSS = 0.03  # of output and efficiency; 2 to 5 %, common practice, no source
_DEFROST_FROM, _DEFROST_TO = -5.0, 5.0  # °C; where points without defrost are lowered


@dataclass(frozen=True)
class _Points:
    """Points of one load, in °C and W."""

    outdoor: NDArray[np.float64]
    flow: NDArray[np.float64]
    output: NDArray[np.float64]
    efficiency: NDArray[np.float64]

    def capacity_at(self, outdoor: Celsius, flow: Celsius) -> NDArray[np.float64]:
        found = physics.capacity(outdoor, flow, self.outdoor, self.flow, self.output)
        return np.asarray(found, dtype=float)

    def efficiency_at(self, outdoor: Celsius, flow: Celsius) -> NDArray[np.float64]:
        """Between points as physics has it; beyond them half of what Carnot promises is believed.

        In milder air or cooler water than was tested the lift shrinks and Carnot's efficiency
        soars, yet fan, pump and controls go on and a compressor has a least pressure ratio.
        """
        mildest, coolest = self.edges
        found, held = (
            np.asarray(
                physics.efficiency(air, water, self.outdoor, self.flow, self.efficiency),
                dtype=float,
            )
            for air, water in (
                (outdoor, flow),
                (np.minimum(outdoor, mildest), np.maximum(flow, coolest)),
            )
        )
        return np.where(found > held, held + _BEYOND_SHARE * (found - held), found)

    @property
    def edges(self) -> tuple[float, float]:
        """The mildest air and the coolest flow that were tested."""
        return float(self.outdoor.max()), float(self.flow.min())


@dataclass(frozen=True)
class UnitMap:
    """What a heat pump gives and takes.

    Attributes:
        figures: the record's points and the assumptions that stand beside them.
        most_points: at full speed.
        least_points: throttled as far as it goes; None where the record has none.
        lowest_outdoor: coldest air it runs in; None where not known.
    """

    figures: tuple[KeyFigure, ...]
    most_points: _Points
    least_points: _Points | None
    lowest_outdoor: float | None

    def is_beyond_points(self, outdoor: float, flow: float) -> bool:
        """Whether the air is milder or the flow cooler than any tested point."""
        mildest, coolest = self.most_points.edges
        return outdoor > mildest or flow < coolest

    def most(self, outdoor: Celsius, flow: Celsius) -> NDArray[np.float64]:
        """The most heat it gives, defrosts counted; nothing in air colder than it runs in."""
        output = self.most_points.capacity_at(outdoor, flow)
        if self.lowest_outdoor is None:
            return output
        return np.where(np.asarray(outdoor) < self.lowest_outdoor, 0.0, output)

    def least(self, outdoor: Celsius, flow: Celsius) -> NDArray[np.float64]:
        """The least heat it gives without stopping."""
        most = self.most(outdoor, flow)
        if self.least_points is None:
            return _LEAST_SHARE * most
        return np.minimum(self.least_points.capacity_at(outdoor, flow), most)

    def efficiency(self, load: Watts, outdoor: Celsius, flow: Celsius) -> NDArray[np.float64]:
        """Heat over electricity at a load, stopping and starting counted.

        Loads below 2 % of the least output are counted as that; where the unit does not run, the
        efficiency is the one it would have.
        """
        at_most = self.most_points.efficiency_at(outdoor, flow)
        at_least = at_most
        if self.least_points is not None:
            at_least = self.least_points.efficiency_at(outdoor, flow)
        least, most = self.least(outdoor, flow), self.most(outdoor, flow)
        found = physics.part_load_efficiency(
            np.maximum(load, _LEAST_LOAD * least), least, most, at_least, at_most
        )
        return np.where(most > 0.0, found, at_most)

    def efficiency_at_most(self, outdoor: Celsius, flow: Celsius) -> NDArray[np.float64]:
        """Heat over electricity at full speed, as while it heats a cylinder."""
        return self.most_points.efficiency_at(outdoor, flow)


def unit_map(plant: Plant) -> UnitMap:
    """The map of a recorded heat pump, on the water or mixture it heats."""
    unit, glycol = plant.heat_pump, _has_glycol(plant)
    least = [point for point in unit.points if point.load == "minimum"]
    most = [point for point in unit.points if point.load == "maximum"]
    most = most or [point for point in unit.points if point.load != "minimum"] or least
    left = 1.0 - _GLYCOL_LOSS if glycol else 1.0
    return UnitMap(
        figures=(*_figures(unit, has_least=bool(least)), *_glycol(has_glycol=glycol)),
        most_points=_points(most, left),
        least_points=_points(least, left) if least else None,
        lowest_outdoor=unit.lowest_outdoor_temperature,
    )


def _has_glycol(plant: Plant) -> bool:
    protection = plant.freeze_protection
    return protection is not None and protection.kind == "glycol"


def _glycol(*, has_glycol: bool) -> Iterator[KeyFigure]:
    if has_glycol:
        yield assumed(
            "heat_pump.glycol_loss",
            "taken off output and efficiency for the glycol in the water",
            _GLYCOL_LOSS,
            "%",
            source="common practice, no source",
            note="2 to 5 % is usual: the mixture carries heat worse through the exchanger",
        )


def _points(points: list[PerformancePoint], share: float) -> _Points:
    left = share * np.array([1.0 - _allowance(point) for point in points])
    return _Points(
        np.array([point.outdoor_temperature for point in points]),
        np.array([point.flow_temperature for point in points]),
        np.array([point.output for point in points]) * left,
        np.array([point.efficiency for point in points]) * left,
    )


def _allowance(point: PerformancePoint) -> float:
    frosts = _DEFROST_FROM <= point.outdoor_temperature <= _DEFROST_TO
    return _DEFROST_ALLOWANCE if frosts and not point.includes_defrost else 0.0


def _figures(unit: HeatPump, *, has_least: bool) -> Iterator[KeyFigure]:
    for number, point in enumerate(unit.points, start=1):
        place = f"plant.heat_pump.points[{number}]"
        at = f"at {point.outdoor_temperature:g}/{point.flow_temperature:g} °C, {point.load}"
        stem = f"plant.heat_pump.points.{number}"
        yield given(f"{stem}.output", f"output {at}", point.output, "kW", place=f"{place}.output")
        yield given(
            f"{stem}.efficiency",
            f"efficiency {at}",
            point.efficiency,
            "",
            place=f"{place}.efficiency",
        )
    yield assumed(
        "heat_pump.beyond_share",
        "share of Carnot's gain that is believed beyond the tested points",
        _BEYOND_SHARE,
        "%",
        source="common practice, no source",
        note="in milder air or cooler water than was tested: extrapolated, and held back because "
        "fan, controls and a least pressure ratio remain",
    )
    if not has_least:
        yield assumed(
            "heat_pump.least_share",
            "least output as a share of the most",
            _LEAST_SHARE,
            "%",
            source="common practice, no source",
            note="the record has no points at least load; 30 to 40 % is usual",
        )
    if any(_allowance(point) for point in unit.points):
        yield assumed(
            "heat_pump.defrost_allowance",
            "taken off points that leave defrosts out",
            _DEFROST_ALLOWANCE,
            "%",
            source="common practice, no source",
            note="5 to 15 % is usual between -3 and 4 °C in damp air",
        )
