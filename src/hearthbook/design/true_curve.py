"""The home's true weather curve as plain numbers, for those who sum over it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hearthbook.physics import weather_curve as physics
from hearthbook.record.controls import Controls, PointsCurve
from hearthbook.units import Celsius

__all__ = ["TrueCurve", "set_flow_temperature"]


@dataclass(frozen=True)
class TrueCurve:
    """What the true curve is made of, in °C and K.

    Attributes:
        room_temperature: mean of the heated rooms.
        base_temperature: outdoor temperature above which no heat is needed.
        design_outdoor_temperature: outdoor temperature of the design load.
        design_flow_temperature: flow temperature that carries it.
        design_drop: flow minus return there; it falls with the load.
        exponent: of the emitters, weighted by the heat they carry.
    """

    room_temperature: float
    base_temperature: float
    design_outdoor_temperature: float
    design_flow_temperature: float
    design_drop: float
    exponent: float

    def load(self, outdoor: Celsius) -> NDArray[np.float64]:
        """Share of the design load at an outdoor temperature."""
        share = physics.load_fraction(
            outdoor, self.base_temperature, self.design_outdoor_temperature
        )
        return np.asarray(share, dtype=float)

    def flow(self, outdoor: Celsius) -> NDArray[np.float64]:
        """Flow temperature that just carries the load."""
        flow = physics.flow_temperature(
            self.load(outdoor),
            self.room_temperature,
            self.design_flow_temperature,
            self.design_drop,
            self.exponent,
        )
        return np.asarray(flow, dtype=float)

    def back(self, outdoor: Celsius) -> NDArray[np.float64]:
        """Return temperature at that flow temperature."""
        back = physics.return_temperature(self.flow(outdoor), self.load(outdoor), self.design_drop)
        return np.asarray(back, dtype=float)


def set_flow_temperature(controls: Controls, outdoor: Celsius) -> NDArray[np.float64] | None:
    """The flow temperature the controller makes as set, within its limits; None without a curve."""
    curve = controls.curve
    if curve is None:
        return None
    if isinstance(curve, PointsCurve):
        flow = physics.flow_temperature_by_points(
            outdoor,
            np.array([point.outdoor for point in curve.points]),
            np.array([point.flow for point in curve.points]),
        )
    else:
        flow = physics.flow_temperature_by_slope(outdoor, curve.slope, curve.level, curve.pivot)
    low, high = controls.minimum_flow_temperature, controls.maximum_flow_temperature
    made: NDArray[np.float64] = np.clip(
        np.asarray(flow, dtype=float),
        -np.inf if low is None else low,
        np.inf if high is None else high,
    )
    return made
