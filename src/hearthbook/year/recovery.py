"""How fast a home cools without heat, and how fast it warms again.

All is read off against the same home left alone in the same steady weather.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from hearthbook.design.results import Design
from hearthbook.simulate.drivers import Drivers
from hearthbook.simulate.home_model import HomeModel
from hearthbook.simulate.run import State, run_year
from hearthbook.year.changed_drivers import coldest_days, constant_weather, stretch_of
from hearthbook.year.pack_numbers import Outage, Return

__all__ = ["outages", "returns"]

_Array = NDArray[np.float64]

_OUTDOORS = (0.0, 5.0)  # °C
_RISES = (1.0, 2.0, 3.0)  # K
_OFF_HOURS = 8.0  # a night, or a day at work
_COOLED_AFTER = (2.0, 4.0, 8.0)  # h, at which the rooms are looked at
_DAYS = 8  # days at one temperature before the change, and watched after it
_NEARLY = 0.5  # K below what is wanted that nobody minds; common practice, no source
_HOUR = 60  # minutes


def returns(design: Design, model: HomeModel, steady: Drivers) -> tuple[Return, ...]:
    """Times to warm again after days kept colder, by the home's own controls: no boost, no sun.

    Args:
        design: of the home.
        model: its arrays.
        steady: its drivers without a colder stretch.
    """
    winter = _winter(steady)
    found = []
    for outdoor in _OUTDOORS:
        usual = constant_weather(design, winter, outdoor)
        alone = _air(model, usual, _settled(model, usual))
        for rise in _RISES:
            state = _settled(model, constant_weather(design, winter, outdoor, -rise))
            found.append(
                Return(outdoor, rise, _warm_after(usual, alone, _air(model, usual, state)))
            )
    return tuple(found)


def outages(design: Design, model: HomeModel, steady: Drivers) -> tuple[Outage, ...]:
    """What eight hours without heat do, people being at home.

    Args:
        design: of the home.
        model: its arrays.
        steady: its drivers without a colder stretch.
    """
    winter = _winter(steady)
    found = []
    for outdoor in _OUTDOORS:
        usual = constant_weather(design, winter, outdoor)
        state = _settled(model, usual)
        slots = usual.slots.copy()
        off = round(_OFF_HOURS * 4)
        slots["heating_allowed"][:off] = 0.0
        alone = _air(model, usual, state)
        cooled = _air(model, replace(usual, slots=slots), state)
        after = [_lost(alone, cooled, hours) for hours in _COOLED_AFTER]
        warm = _warm_after(usual, alone, cooled, off * 15)
        found.append(Outage(outdoor, after[0], after[1], after[2], warm))
    return tuple(found)


def _winter(steady: Drivers) -> Drivers:
    """The household's days in the coldest week, for the clock and the people of it."""
    return stretch_of(steady, coldest_days(steady, _DAYS), _DAYS)


def _settled(model: HomeModel, drivers: Drivers) -> State:
    return run_year(model, drivers).end


def _air(model: HomeModel, drivers: Drivers, start: State) -> _Array:
    """Air temperature of each room in each minute; [minutes, R]."""
    run = run_year(model, drivers, start=start, trace_days=(0, _DAYS))
    assert run.trace is not None  # it was asked for
    return np.stack([run.trace.column(room) for room in model.room_ids], axis=1)


def _lost(alone: _Array, cooled: _Array, hours: float) -> float:
    """K that the rooms are colder in the hour up to so many hours than they are over a day alone.

    A home whose thermostat starts and stops the unit swings by itself; the mean takes that out.
    """
    end = round(hours * _HOUR)
    return max(0.0, float(alone[: 24 * _HOUR].mean() - cooled[end - _HOUR : end].mean()))


def _warm_after(drivers: Drivers, alone: _Array, air: _Array, first: int = 0) -> float:
    """Seconds from a minute on until all rooms have been warm for an hour on end.

    Warm is within half a kelvin of what is wanted, or of what the room reaches anyhow.
    """
    wanted = np.repeat(drivers.wanted, 15, axis=0)
    is_warm = np.all(air >= np.minimum(alone, wanted) - _NEARLY, axis=1)[first:]
    lasting = np.convolve(is_warm, np.ones(_HOUR), mode="valid") >= _HOUR
    minutes = int(np.argmax(lasting)) if lasting.any() else is_warm.size
    return minutes * 60.0
