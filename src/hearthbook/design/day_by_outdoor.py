"""What a day at an outdoor temperature looks like: heat, water, electricity, running, defrosts."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from hearthbook.design.annual_energy import AnnualEnergy
from hearthbook.design.energy_ranges import together
from hearthbook.design.heat_loss import HeatLoss
from hearthbook.design.unit_map import UnitMap
from hearthbook.design.weather_curve import WeatherCurve
from hearthbook.documents.figures import KeyFigure, assumed, calculated, condition
from hearthbook.physics import frost
from hearthbook.units import shown

__all__ = ["OutdoorDay", "days_by_outdoor"]

_OUTDOORS = (-15.0, -10.0, -7.0, -5.0, -3.0, 0.0, 3.0, 5.0, 7.0, 10.0, 12.0, 15.0)
_ALWAYS_FROM = -3.0  # °C; what every household asks about
_DRY, _DAMP = 0.75, 0.95  # relative humidity of a dry and a damp winter's day; from memory
_GAINS_NOTE = (
    "gains of people and appliances are taken off; the curve takes none off at design, so that it "
    "copes with a dull day in an empty home"
)
_BEYOND_NOTE = (
    "extrapolated: the air is milder or the flow cooler than any tested point, and only half of "
    "the gain Carnot promises there is believed"
)
_YEAR = 365.0 * 86_400.0  # s


@dataclass(frozen=True)
class OutdoorDay:
    """A day of one outdoor temperature.

    Attributes:
        outdoor: outdoor temperature, mean of the day.
        heat: for the rooms.
        flow_temperature: that carries it.
        efficiency: of the unit for rooms.
        electricity: of the day as a mean power, hot water and standby counted.
        low: its low end.
        high: its high end.
        share_running: share of the time the unit runs.
        defrosts_low: in an hour of running time in dry air; 0 where no frost forms.
        defrosts_high: in an hour in damp air.
    """

    outdoor: KeyFigure
    heat: KeyFigure
    flow_temperature: KeyFigure
    efficiency: KeyFigure
    electricity: KeyFigure
    low: KeyFigure
    high: KeyFigure
    share_running: KeyFigure
    defrosts_low: KeyFigure
    defrosts_high: KeyFigure


def days_by_outdoor(
    loss: HeatLoss, curve: WeatherCurve, unit: UnitMap, energy: AnnualEnergy
) -> tuple[OutdoorDay, ...]:
    """Days from the design temperature, or a little below, to the heating limit."""
    coldest = min(loss.outdoor_temperature.value - 3.0, _ALWAYS_FROM)
    base = loss.base_temperature.value
    return tuple(
        _Row(loss, curve, unit, energy, outdoor).day()
        for outdoor in _OUTDOORS
        if coldest <= outdoor < base - 0.5
    )


@dataclass(frozen=True)
class _Row:
    """One row of the table as it is worked out."""

    loss: HeatLoss
    curve: WeatherCurve
    unit: UnitMap
    energy: AnnualEnergy
    at: float

    @property
    def stem(self) -> str:
        sign = "minus_" if self.at < 0 else ""
        return f"heat_pump.at_{sign}{abs(self.at):.0f}"

    def day(self) -> OutdoorDay:
        outdoor = self._outdoor()
        flow = self._figure(
            "flow_temperature",
            "flow temperature",
            self.curve.flow_temperature_at(self.at),
            "°C",
            "the true curve",
            (outdoor, self.curve.design_flow, self.curve.exponent),
        )
        heat = self._heat(outdoor)
        efficiency = self._efficiency(outdoor, heat, flow)
        electricity, low, high = self._electricity(heat, flow, efficiency)
        defrosts = self._defrosts(heat, flow, efficiency)
        return OutdoorDay(
            outdoor,
            heat,
            flow,
            efficiency,
            electricity,
            low,
            high,
            self._share_running(heat, flow),
            *defrosts,
        )

    def _heat(self, outdoor: KeyFigure) -> KeyFigure:
        heat = self._figure(
            "heat",
            "heat for the rooms",
            self.loss.coefficient.value * (self.loss.base_temperature.value - self.at),
            "kW",
            "H · (T_b - T_e)",
            (self.loss.coefficient, self.loss.base_temperature, outdoor),
        )
        return _noted(_GAINS_NOTE, heat)

    def _efficiency(self, outdoor: KeyFigure, heat: KeyFigure, flow: KeyFigure) -> KeyFigure:
        efficiency = self._figure(
            "efficiency",
            "efficiency for the rooms",
            float(self.unit.efficiency(self._own(heat, flow), self.at, flow.value)),
            "",
            "share of Carnot between tested points, part load and cycling counted",
            (heat, flow, outdoor, *self.unit.figures),
        )
        is_beyond = self.unit.is_beyond_points(self.at, flow.value)
        return _noted(_BEYOND_NOTE, efficiency) if is_beyond else efficiency

    def _outdoor(self) -> KeyFigure:
        figure = condition(f"{self.stem}.outdoor", "outdoor temperature", self.at, "°C",
                           why="chosen for the table")  # fmt: skip
        return replace(figure, decimals=0)

    def _figure(
        self,
        part: str,
        label: str,
        value: float,
        unit: str,
        formula: str,
        inputs: tuple[KeyFigure, ...],
    ) -> KeyFigure:
        return calculated(
            f"{self.stem}.{part}",
            f"{label} at {shown(self.at, '°C', 0)} outside",
            value,
            unit,
            formula=formula,
            inputs=inputs,
            source="derived",
        )

    def _own(self, heat: KeyFigure, flow: KeyFigure) -> float:
        return float(np.minimum(heat.value, self.unit.most(self.at, flow.value)))

    def _electricity(
        self, heat: KeyFigure, flow: KeyFigure, efficiency: KeyFigure
    ) -> tuple[KeyFigure, KeyFigure, KeyFigure]:
        energy, ranges = self.energy, self.energy.ranges
        space, water = self._space(heat, flow, efficiency), energy.electricity_hot_water
        total = space + (water.value + energy.electricity_other.value) / _YEAR
        half = together(
            space * ranges.heat_share.value,
            space * ranges.efficiency_share.value,
            (water.uncertainty or 0.0) / _YEAR,
        )
        inputs = (heat, efficiency, water, energy.electricity_other, ranges.heat_share,
                  ranges.efficiency_share)  # fmt: skip
        formula = "heat / efficiency + a mean day's hot water, pump and standby"
        middle = self._figure("electricity", "electricity of a day", total, "kWh/day", formula,
                              inputs)  # fmt: skip
        low = self._figure("electricity_low", "electricity of a day, low end,",
                           max(total - half, 0.0), "kWh/day", f"{formula}, less its range",
                           inputs)  # fmt: skip
        high = self._figure("electricity_high", "electricity of a day, high end,", total + half,
                            "kWh/day", f"{formula}, with its range", inputs)  # fmt: skip
        return replace(middle, uncertainty=half), low, high

    def _space(self, heat: KeyFigure, flow: KeyFigure, efficiency: KeyFigure) -> float:
        own = self._own(heat, flow)
        return own / efficiency.value + (heat.value - own)

    def _share_running(self, heat: KeyFigure, flow: KeyFigure) -> KeyFigure:
        least = float(self.unit.least(self.at, flow.value))
        share = min(1.0, heat.value / max(least, 1.0))
        return self._figure(
            "share_running",
            "share of the time the unit runs",
            share,
            "%",
            "heat / least output, at most 1",
            (heat, flow, *self.unit.figures),
        )

    def _defrosts(
        self, heat: KeyFigure, flow: KeyFigure, efficiency: KeyFigure
    ) -> tuple[KeyFigure, KeyFigure]:
        inputs = (heat, flow, efficiency)
        slow, quick = frost.DEFROST_INTERVAL[1], frost.DEFROST_INTERVAL[0]
        formula = "frost growing over frost at full load at 2 °C, by the usual interval there"
        return (
            self._figure(
                "defrosts_low",
                "defrosts in an hour of dry air",
                self._rate(heat, flow, efficiency, _DRY) * 3600.0 / slow,
                "1/h",
                formula,
                (*inputs, _usual("longest rest between defrosts", "low", slow)),
            ),
            self._figure(
                "defrosts_high",
                "defrosts in an hour of damp air",
                self._rate(heat, flow, efficiency, _DAMP) * 3600.0 / quick,
                "1/h",
                formula,
                (*inputs, _usual("shortest rest between defrosts", "high", quick)),
            ),
        )

    def _rate(
        self, heat: KeyFigure, flow: KeyFigure, efficiency: KeyFigure, humidity: float
    ) -> float:
        """Frost growing while it runs, as a share of that at full load in damp air at 2 °C."""
        output = max(self._own(heat, flow), float(self.unit.least(self.at, flow.value)))
        full = self._from_air(
            float(self.unit.most(2.0, flow.value)),
            float(self.unit.efficiency_at_most(2.0, flow.value)),
        )
        here = self._from_air(output, efficiency.value)
        load = min(1.0, here / full)
        coil = float(np.sum(frost.coil_temperature(self.at, load)))
        if load <= 0.01 or not frost.is_frosting(self.at, humidity, coil):
            return 0.0
        reference = frost.water_per_heat(2.0, frost.RATING_HUMIDITY, frost.coil_temperature(2.0))
        grows = frost.water_per_heat(self.at, humidity, coil)
        return float(np.sum(grows / reference)) * load

    def _from_air(self, output: float, efficiency: float) -> float:
        return float(np.sum(frost.evaporator_heat(output, max(efficiency, 1.05))))


def _noted(note: str, figure: KeyFigure) -> KeyFigure:
    return replace(figure, working=replace(figure.working, note=note))


def _usual(label: str, end: str, interval: float) -> KeyFigure:
    return assumed(
        f"heat_pump.defrost_interval_{end}",
        label,
        interval,
        "min",
        source="common practice, no source",
    )
