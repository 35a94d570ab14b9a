"""A home's drivers with its rooms kept warmer or colder, made from those it has."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from hearthbook.design.results import Design
from hearthbook.kernel.parameters import SLOT_SECONDS
from hearthbook.simulate.drivers import MINUTES_PER_SLOT, Drivers
from hearthbook.simulate.weather import averaged
from hearthbook.year.asked_flow import asked_flow, averaging_hours
from hearthbook.year.changes import Changes, ColderStretch

__all__ = ["SLOTS_PER_DAY", "coldest_days", "constant_weather", "shifted", "stretch_of", "within"]

_Array = NDArray[np.float64]

SLOTS_PER_DAY = int(86_400 / SLOT_SECONDS)
_AS_RECORDED = Changes()


def within(drivers: Drivers, stretch: ColderStretch) -> NDArray[np.bool_]:
    """Which slots lie in a stretch of the day by the household's clock."""
    if drivers.calendar is None:
        raise AssertionError("a home's drivers have a calendar")
    return drivers.calendar.is_within(stretch.start, stretch.end)


def shifted(design: Design, steady: Drivers, room_shift: _Array) -> Drivers:
    """Drivers whose rooms are wanted warmer or colder by so many K; the curve follows.

    Args:
        design: of the home.
        steady: drivers without a colder stretch.
        room_shift: K for each slot.
    """
    slots = steady.slots.copy()
    damped = averaged(slots["outdoor"], averaging_hours(design.home.controls).curve)[:-1]
    flow = asked_flow(design.curve, _AS_RECORDED, damped, room_shift)
    slots["curve_flow"] = np.append(flow, flow[-1])
    return replace(steady, slots=slots, wanted=steady.wanted + room_shift[:, None])


def coldest_days(drivers: Drivers, count: int) -> int:
    """The first of that many days on end that are the coldest together."""
    slots = drivers.slots["outdoor"][:-1]
    days = slots[: slots.size // SLOTS_PER_DAY * SLOTS_PER_DAY].reshape(-1, SLOTS_PER_DAY)
    sums = np.concatenate(([0.0], np.cumsum(days.mean(axis=1))))
    count = min(count, days.shape[0])
    return int(np.argmin(sums[count:] - sums[:-count]))


def stretch_of(drivers: Drivers, first_day: int, days: int) -> Drivers:
    """Some days on end of drivers, as a run of their own without a calendar."""
    first = first_day * SLOTS_PER_DAY
    last = min(first + days * SLOTS_PER_DAY, drivers.solar.shape[0])
    slots = drivers.slots[first : last + 1].copy()
    slots["day"] = np.minimum(np.arange(slots.size) // SLOTS_PER_DAY, days - 1)
    return Drivers(
        slots=slots,
        solar=drivers.solar[first:last],
        gains=drivers.gains[first:last],
        wanted=drivers.wanted[first:last],
        draws=drivers.draws[first * MINUTES_PER_SLOT : last * MINUTES_PER_SLOT],
        has_prices=drivers.has_prices,
    )


def constant_weather(
    design: Design, drivers: Drivers, outdoor: float, room_shift: float = 0.0
) -> Drivers:
    """Drivers in weather that stays as it is: one outdoor temperature, the usual damp, no sun."""
    slots = drivers.slots.copy()
    slots["outdoor"] = slots["outdoor_mean"] = outdoor
    for field in ("humidity", "wind"):
        slots[field] = slots[field].mean()
    slots["heating_allowed"] = 1.0
    count = drivers.solar.shape[0]
    flow = asked_flow(
        design.curve, _AS_RECORDED, np.full(count, outdoor), np.full(count, room_shift)
    )
    slots["curve_flow"] = np.append(flow, flow[-1])
    return replace(
        drivers,
        slots=slots,
        solar=np.zeros_like(drivers.solar),
        wanted=drivers.wanted + room_shift,
    )
