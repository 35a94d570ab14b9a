"""What a curve above the true one costs in a year, by the unit's own points."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from hearthbook.design.heating_season import HeatingSeason
from hearthbook.design.true_curve import TrueCurve, set_flow_temperature
from hearthbook.design.unit_map import UnitMap
from hearthbook.design.upgrades import SAVING_PER_KELVIN_SPREAD
from hearthbook.documents.figures import KeyFigure, calculated
from hearthbook.record.controls import Controls

__all__ = ["CurveCost", "Demand", "curve_cost"]

_JOULES_PER_WATT_HOUR = 3600.0
_SOURCE = "the unit's own points at part load, by bins of outdoor temperature"
_RANGE_SOURCE = "range: 0.75 % per K, half the span from 1.5 (Carnot) to 3 % (common practice)"


@dataclass(frozen=True)
class Demand:
    """What the cost of a curve is reckoned from.

    Attributes:
        curve: the true curve.
        season: the hours of the home's place.
        coefficient: heat loss of the home per kelvin.
        minimum: lowest flow temperature advised; being held up to it is no excess.
        unit: the heat pump.
        inputs: the figures the true curve rests on.
    """

    curve: TrueCurve
    season: HeatingSeason
    coefficient: KeyFigure
    minimum: KeyFigure
    unit: UnitMap
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

    def load(self) -> NDArray[np.float64]:
        """Heat the rooms take in each bin, in W, with the sun taken off."""
        return self.season.load(self.coefficient.value, self.curve.base_temperature)

    def electricity(self, above: NDArray[np.float64]) -> float:
        """A year's electricity with the flow so far above the true one in each bin, in J."""
        outdoor, load = self.season.temperatures, self.load()
        flow = np.maximum(self.curve.flow(outdoor), self.minimum.value) + above
        power = load / self.unit.efficiency(load, outdoor, flow)
        return float(np.sum(self.season.hours * power)) * _JOULES_PER_WATT_HOUR


@dataclass(frozen=True)
class CurveCost:
    """What the excess of a curve costs.

    Attributes:
        excess: mean excess over the season's heat.
        share: share of the heating electricity it costs, with its range.
        energy: electricity it costs in a year, with its range.
        electricity: the rooms' electricity in a year on the true curve.
        heat: the rooms' heat in a year.
    """

    excess: KeyFigure
    share: KeyFigure
    energy: KeyFigure
    electricity: KeyFigure
    heat: KeyFigure


def curve_cost(
    demand: Demand, excess: NDArray[np.float64], inputs: tuple[KeyFigure, ...]
) -> CurveCost:
    """The cost of an excess in each bin, in K, none of it negative."""
    shares = demand.season.load_shares(demand.curve.base_temperature)
    mean = calculated(
        "weather_curve.as_set.excess", "excess over the true curve, mean over the season's heat",
        float(np.sum(shares * excess)), "K", formula="Σ share of heat · max(set − true, 0)",
        inputs=inputs, source="derived",
    )  # fmt: skip
    heat = _heat(demand)
    electricity = _electricity(demand, heat)
    more = demand.electricity(excess) - electricity.value
    spread = mean.value * SAVING_PER_KELVIN_SPREAD
    energy = calculated(
        "weather_curve.as_set.cost_energy", "electricity the excess costs in a year", more, "kWh",
        formula="electricity on the set curve − on the true curve", source=_SOURCE,
        inputs=(electricity, mean, *demand.unit.figures),
        uncertainty=spread * electricity.value, note=_RANGE_SOURCE,
    )  # fmt: skip
    share = calculated(
        "weather_curve.as_set.cost_share", "share of heating electricity the excess costs",
        more / electricity.value, "%", formula="excess electricity / electricity",
        inputs=(energy, electricity), source=_SOURCE, uncertainty=spread, note=_RANGE_SOURCE,
    )  # fmt: skip
    return CurveCost(mean, replace(share, decimals=1), energy, electricity, heat)


def _heat(demand: Demand) -> KeyFigure:
    heat = float(np.sum(demand.season.hours * demand.load())) * _JOULES_PER_WATT_HOUR
    return calculated(
        "weather_curve.annual_heat", "heat for the rooms in a year", heat, "kWh",
        formula="Σ hours · max(0, H · (T_b − T_e) − sun), below the heating limit",
        source="steady heat balance of the home",
        inputs=(demand.coefficient, demand.season.sun.heating_season, demand.season.limit,
                demand.season.length),
    )  # fmt: skip


def _electricity(demand: Demand, heat: KeyFigure) -> KeyFigure:
    return calculated(
        "weather_curve.annual_electricity", "electricity for it on the true curve",
        demand.electricity(np.zeros_like(demand.season.temperatures)), "kWh",
        formula="Σ hours · load / COP(load, T_e, T_f)", source=_SOURCE,
        inputs=(heat, *demand.inputs, demand.minimum, *demand.unit.figures),
    )  # fmt: skip
