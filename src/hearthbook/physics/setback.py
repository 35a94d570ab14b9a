"""Whether a colder night pays: a home as one thermal mass with emitters and heat pump."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

import numpy as np
from numpy.typing import NDArray

from hearthbook.errors import check_between
from hearthbook.physics.heat_pump import working_efficiency
from hearthbook.units import (
    Celsius,
    Hours,
    Joules,
    JoulesPerKelvin,
    Kelvin,
    Ratio,
    Unit,
    Watts,
    WattsPerKelvin,
)

__all__ = ["SetbackNight", "setback_night"]

_STEP = 300.0  # s; of the one-mass model
_STEPS_A_DAY = 288
_MOST_DAYS = 20  # equal days in a row, until one ends as it began
_SETTLED = 0.005  # K between the ends of two days
_WARM_ENOUGH = 0.05  # K below the wanted temperature at which the boost ends
_FELT = 0.2  # K; rooms this near the wanted temperature count as warm


@dataclass(frozen=True)
class SetbackNight:
    """One day with a colder night against one kept steady, both repeating for ever.

    Attributes:
        electricity: used in the day with the colder night.
        steady_electricity: used in the day without.
        heat: given in the day with the colder night.
        steady_heat: given in the day without.
        lowest_temperature: of the rooms.
        hours_to_recover: from the end of the colder stretch until the rooms are warm again;
            24 where they never are.
        electricity_by_hour: of the day with the colder night, midnight first.
        steady_by_hour: of the day without.
    """

    electricity: Joules
    steady_electricity: Joules
    heat: Joules
    steady_heat: Joules
    lowest_temperature: Celsius
    hours_to_recover: Hours
    electricity_by_hour: Annotated[NDArray[np.float64], Unit("J")]
    steady_by_hour: Annotated[NDArray[np.float64], Unit("J")]

    @property
    def electricity_change(self) -> Ratio:
        """Change of the electricity against the steady day; negative is less."""
        return self.electricity / self.steady_electricity - 1.0


def setback_night(
    coefficient: WattsPerKelvin,
    capacity: JoulesPerKelvin,
    outdoor_temperature: Celsius,
    base_temperature: Celsius,
    room_temperature: Celsius,
    design_excess: Kelvin,
    design_output: Watts,
    flow_above_mean: Kelvin,
    relative_efficiency: Ratio,
    setback: Kelvin,
    boost: Kelvin,
    begins: Hours = 22.0,
    lasts: Hours = 7.0,
    most_output: Watts = 1e6,
    exponent: Ratio = 1.3,
) -> SetbackNight:
    """A colder night against a steady one, on a day of one outdoor temperature.

    Args:
        coefficient: heat lost for each kelvin.
        capacity: heat stored for each kelvin.
        outdoor_temperature: all day; below the base temperature.
        base_temperature: outdoor temperature above which gains alone keep the rooms warm.
        room_temperature: wanted by day.
        design_excess: mean water above room that gives the design output.
        design_output: of the emitters at that excess.
        flow_above_mean: flow above mean water, half the drop.
        relative_efficiency: of the heat pump, share of Carnot's at its refrigerant.
        setback: how much colder the rooms may become at night, 0 to 8 K.
        boost: how far the flow may rise above the curve to warm the rooms again.
        begins: hour of the day, 0 to 24.
        lasts: hours, at least 1 and at most 16.
        most_output: of the heat pump.
        exponent: of the emitters.

    Raises:
        OutOfRange: the outdoor temperature needs no heat, or the setback is out of range.

    Assumes:
        One mass; the same weather all day; the efficiency is the same share of Carnot's at every
        load; the curve follows the wanted room temperature, and the boost acts until it is reached.
        It leaves out that separate rooms, furniture and walls warm at different speeds: a home
        cools faster in the first hour than this says and its air recovers sooner.

    Source:
        Own derivation: heat balance of one mass, emitters by EN 442, Carnot share.

    Example:
        >>> night = setback_night(
        ...     200.0, 7 * 3.6e6, 5.0, 20.0, 20.0, 22.5, 4600.0, 2.5, 0.5, setback=3.0, boost=6.0)
        >>> night.heat < night.steady_heat, round(night.lowest_temperature, 1)
        (True, 17.3)
    """
    need = base_temperature - outdoor_temperature
    check_between("base temperature above outdoor temperature", need, 0.5, 80.0, "K")
    check_between("setback", setback, 0.0, 8.0, "K")
    check_between("length of the setback", lasts, 1.0, 16.0, "h")
    home = _Home(
        coefficient=float(coefficient),
        capacity=float(capacity),
        balance=float(outdoor_temperature + room_temperature - base_temperature),
        room=float(room_temperature),
        emission=float(design_output / design_excess**exponent),
        exponent=float(exponent),
        most_output=float(most_output),
    )
    water = _Water(float(outdoor_temperature), float(flow_above_mean), float(relative_efficiency))
    plan = _Plan(float(setback), float(boost), float(begins), float(lasts))
    steady = _repeating_day(home, water, _Plan(0.0, 0.0, float(begins), float(lasts)))
    colder = _repeating_day(home, water, plan)
    return SetbackNight(
        electricity=float(colder.electricity.sum()),
        steady_electricity=float(steady.electricity.sum()),
        heat=float(colder.heat.sum()),
        steady_heat=float(steady.heat.sum()),
        lowest_temperature=float(colder.rooms.min()),
        hours_to_recover=_hours_to_recover(colder.rooms, home.room, plan.begins + plan.lasts),
        electricity_by_hour=colder.electricity.reshape(24, -1).sum(axis=1),
        steady_by_hour=steady.electricity.reshape(24, -1).sum(axis=1),
    )


@dataclass(frozen=True)
class _Home:
    """One thermal mass with its emitters; `balance` is where the rooms would settle unheated."""

    coefficient: float
    capacity: float
    balance: float
    room: float
    emission: float
    exponent: float
    most_output: float

    def need(self, room: float) -> float:
        return max(0.0, self.coefficient * (room - self.balance))

    def excess(self, output: float) -> float:
        return float((output / self.emission) ** (1.0 / self.exponent))

    def output(self, mean_water: float, room: float) -> float:
        free = self.emission * max(0.0, mean_water - room) ** self.exponent
        return float(min(free, self.most_output))


@dataclass(frozen=True)
class _Water:
    """What turns heat at a water temperature into electricity."""

    outdoor: float
    flow_above_mean: float
    relative_efficiency: float

    def electricity(
        self, heat: NDArray[np.float64], mean_water: NDArray[np.float64]
    ) -> NDArray[np.float64]:
        carnot = working_efficiency(self.outdoor, mean_water + self.flow_above_mean)
        return np.asarray(heat / (self.relative_efficiency * np.asarray(carnot)))


@dataclass(frozen=True)
class _Plan:
    """How much colder, how hard to warm again, from which hour and for how long."""

    setback: float
    boost: float
    begins: float
    lasts: float

    def is_night(self, step: int) -> bool:
        since = (step * _STEP / 3600.0 - self.begins) % 24.0
        return self.setback > 0.0 and since < self.lasts


@dataclass(frozen=True)
class _Day:
    """Rooms, heat and electricity in each step of a day."""

    rooms: NDArray[np.float64]
    heat: NDArray[np.float64]
    electricity: NDArray[np.float64]


def _repeating_day(home: _Home, water: _Water, plan: _Plan) -> _Day:
    """The day that a long row of equal days settles to."""
    start, day = home.room, _day(home, water, plan, home.room)
    for _ in range(_MOST_DAYS):
        end = float(day.rooms[-1])
        if abs(end - start) < _SETTLED:
            break
        start, day = end, _day(home, water, plan, end)
    return day


def _day(home: _Home, water: _Water, plan: _Plan, start: float) -> _Day:
    rooms, heat, mean_water = (np.zeros(_STEPS_A_DAY) for _ in range(3))
    room, is_warming = start, False
    for step in range(_STEPS_A_DAY):
        if plan.is_night(step):
            is_warming = True
            output = home.need(room) if room <= home.room - plan.setback else 0.0
            output = min(output, home.most_output)
        else:
            is_warming = is_warming and room < home.room - _WARM_ENOUGH
            curve = home.room + home.excess(home.need(home.room))
            output = home.output(curve + (plan.boost if is_warming else 0.0), room)
        mean_water[step] = room + home.excess(output)
        heat[step] = output * _STEP
        room += (output - home.coefficient * (room - home.balance)) * _STEP / home.capacity
        rooms[step] = room
    return _Day(rooms, heat, water.electricity(heat, mean_water))


def _hours_to_recover(rooms: NDArray[np.float64], wanted: float, ends: float) -> float:
    """Hours from the end of the colder stretch until the rooms are within 0.2 K again."""
    first = round(ends * 3600.0 / _STEP)
    in_order = rooms[(first + np.arange(_STEPS_A_DAY)) % _STEPS_A_DAY]
    warm = np.flatnonzero(in_order >= wanted - _FELT)
    return float(warm[0] * _STEP / 3600.0) if warm.size else 24.0
