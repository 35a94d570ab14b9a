"""Everything the compiled loop is told from outside, for one home and one weather; its check."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hearthbook.errors import OutOfRange
from hearthbook.kernel.parameters import DRIVER, SLOT_SECONDS
from hearthbook.simulate.calendar_time import CivilTime

__all__ = ["MINUTES_PER_SLOT", "Drivers", "check_drivers"]

MINUTES_PER_SLOT = int(SLOT_SECONDS) // 60

_Array = NDArray[np.float64]

# What a slot may hold at most: wider than any weather or home, narrow enough to catch a wrong unit
_FIELDS: dict[str, tuple[str, float, float, str]] = {
    "outdoor": ("outdoor temperature", -60.0, 60.0, "°C"),
    "humidity": ("water in the air", 0.0, 0.1, "kg/kg"),
    "wind": ("wind", 0.0, 80.0, "m/s"),
    "ground": ("ground below the floor", -20.0, 40.0, "°C"),
    "curve_flow": ("flow temperature asked by the curve", -20.0, 100.0, "°C"),
    "outdoor_mean": ("averaged outdoor temperature", -60.0, 60.0, "°C"),
    "heating_allowed": ("heating allowed", 0.0, 1.0, ""),
    "hot_water_allowed": ("hot water allowed", 0.0, 1.0, ""),
    "hygiene_due": ("hygiene run due", 0.0, 1.0, ""),
    "quiet": ("quiet hours", 0.0, 1.0, ""),
    "cold_water": ("cold water coming in", 0.1, 35.0, "°C"),
    "price": ("price of electricity", -1e-6, 1e-5, "money/J"),
    "day": ("day of the run", 0.0, 1e5, ""),
}
_SWITCHES = ("heating_allowed", "hot_water_allowed", "hygiene_due", "quiet")
_ARRAYS: dict[str, tuple[str, float, float, str]] = {
    "solar": ("sun through the windows of a room", 0.0, 1e5, "W"),
    "gains": ("warmth of people and appliances in a room", 0.0, 1e5, "W"),
    "wanted": ("wanted temperature of a room", 5.0, 35.0, "°C"),
    "draws": ("water drawn in a minute", 0.0, 100.0, "kg"),
}
_NEXT = "Correct the weather or the record this comes from."


@dataclass(frozen=True)
class Drivers:
    """Everything the loop is told from outside, for one home and one weather.

    Attributes:
        slots: records of `DRIVER`, one for each slot and one for the end of the last.
        solar: W of sun through each room's glass, mean of the slot.
        gains: W from people and appliances in each room, mean of the slot.
        wanted: °C wanted in each room, colder stretches already in it.
        draws: kg of mixed water at the taps' temperature drawn in each minute.
        has_prices: whether the prices are a tariff's; without one they are all 0.
        calendar: the local clock of each slot; None where no calendar stands behind the run.
    """

    slots: NDArray[np.void]
    solar: _Array
    gains: _Array
    wanted: _Array
    draws: _Array
    has_prices: bool = False
    calendar: CivilTime | None = None


def check_drivers(drivers: Drivers, rooms: int) -> None:
    """Refuse drivers that the loop could not run on.

    Args:
        drivers: to be checked.
        rooms: how many rooms the home has.

    Raises:
        OutOfRange: lists everything wrong: a shape, a value that is missing, infinite or outside
            what weather and homes have, a switch that is neither on nor off, days out of order.
    """
    faults = _shape_faults(drivers, rooms)
    if not faults:
        faults = [*_field_faults(drivers.slots), *_array_faults(drivers), *_day_faults(drivers)]
    if faults:
        raise OutOfRange("\n".join(faults))


def _shape_faults(drivers: Drivers, rooms: int) -> list[str]:
    if drivers.slots.dtype != DRIVER or drivers.slots.ndim != 1 or drivers.slots.size < 2:
        return ["the slots of the run are not records of `DRIVER`, one for each slot and one more."]
    slots = drivers.slots.size - 1
    asked = {
        "solar": (slots, rooms),
        "gains": (slots, rooms),
        "wanted": (slots, rooms),
        "draws": (slots * MINUTES_PER_SLOT,),
    }
    return [
        f"{_ARRAYS[name][0]}: the shape is {getattr(drivers, name).shape}; it must be {shape} for "
        f"{slots} slots and {rooms} rooms. Build the drivers anew for this home."
        for name, shape in asked.items()
        if getattr(drivers, name).shape != shape
    ]


def _field_faults(slots: NDArray[np.void]) -> list[str]:
    faults = [
        _fault(np.asarray(slots[name], dtype=float), limits, MINUTES_PER_SLOT)
        for name, limits in _FIELDS.items()
    ]
    for name in _SWITCHES:
        values = slots[name]
        between = np.flatnonzero((values > 0.0) & (values < 1.0))
        if between.size:
            faults.append(
                f"{_FIELDS[name][0]} {_when(int(between[0]) * MINUTES_PER_SLOT)} is "
                f"{float(values[between[0]]):.6g}; it must be 0 or 1. {_NEXT}"
            )
    return [fault for fault in faults if fault]


def _array_faults(drivers: Drivers) -> list[str]:
    faults = [
        _fault(getattr(drivers, name), limits, 1 if name == "draws" else MINUTES_PER_SLOT)
        for name, limits in _ARRAYS.items()
    ]
    return [fault for fault in faults if fault]


def _day_faults(drivers: Drivers) -> list[str]:
    days = drivers.slots["day"]
    steps = np.diff(days)
    wrong = np.flatnonzero((steps < 0) | (steps > 1))
    if days[0] == 0 and not wrong.size:
        return []
    place = int(wrong[0]) + 1 if wrong.size else 0
    return [
        f"day of the run {_when(place * MINUTES_PER_SLOT)} is {int(days[place])}; days begin at 0 "
        f"and rise by 1. {_NEXT}"
    ]


def _fault(values: _Array, limits: tuple[str, float, float, str], minutes: int) -> str:
    """What is wrong with some values; empty where nothing is."""
    name, low, high, unit = limits
    right = (values >= low) & (values <= high)
    if np.all(right):
        return ""
    wrong = np.argwhere(~right)
    first = tuple(int(index) for index in wrong[0])
    value = float(values[first])
    shown = "missing" if np.isnan(value) else f"{value:.6g} {unit}".strip()
    room = f", room {first[1] + 1}" if len(first) > 1 else ""
    more = f" (and {len(wrong) - 1} more)" if len(wrong) > 1 else ""
    allowed = f"{low:.6g} and {high:.6g} {unit}".strip()
    return (
        f"{name} {_when(first[0] * minutes)}{room} is {shown}{more}; it must lie between {allowed}."
        f" {_NEXT}"
    )


def _when(minute: int) -> str:
    hours, minutes = divmod(minute, 60)
    return f"{hours} h {minutes:02d} min into the run"
