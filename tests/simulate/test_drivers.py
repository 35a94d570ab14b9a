"""What the loop is told from outside, and what it is never told."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from hearthbook.errors import OutOfRange
from hearthbook.kernel.parameters import DRIVER
from hearthbook.simulate.drivers import Drivers, check_drivers

SLOTS, ROOMS = 200, 3


def _drivers() -> Drivers:
    slots = np.zeros(SLOTS + 1, dtype=DRIVER)
    slots["outdoor"], slots["humidity"], slots["curve_flow"] = 5.0, 0.005, 35.0
    slots["cold_water"], slots["ground"] = 10.0, 10.0
    slots["day"] = np.arange(SLOTS + 1) // 96
    by_room = np.full((SLOTS, ROOMS), 20.0)
    return Drivers(slots, by_room, by_room, by_room, np.zeros(SLOTS * 15))


def _with_field(name: str, slot: int, value: float) -> Drivers:
    right = _drivers()
    slots = right.slots.copy()
    slots[name][slot] = value
    return replace(right, slots=slots)


def test_what_is_right_passes() -> None:
    check_drivers(_drivers(), ROOMS)


@pytest.mark.parametrize("name", [name for name in DRIVER.names or () if name != "day"])
@pytest.mark.parametrize("value", [np.nan, np.inf, -np.inf])
def test_no_field_of_a_slot_may_be_missing_or_endless(name: str, value: float) -> None:
    with pytest.raises(OutOfRange, match=r"25 h 00 min into the run is (missing|-?inf)"):
        check_drivers(_with_field(name, 100, value), ROOMS)


@pytest.mark.parametrize("name", ["solar", "gains", "wanted", "draws"])
@pytest.mark.parametrize("value", [np.nan, np.inf, -1.0])
def test_no_array_may_hold_what_is_not_possible(name: str, value: float) -> None:
    right = _drivers()
    wrong = getattr(right, name).copy()
    wrong[(7, 1) if wrong.ndim > 1 else 7] = value
    fields: dict[str, Any] = {name: wrong}
    where = "0 h 07 min into the run" if name == "draws" else "1 h 45 min into the run, room 2"
    with pytest.raises(OutOfRange, match=rf"{where} is .*; it must lie between .*Correct"):
        check_drivers(replace(right, **fields), ROOMS)


def test_the_message_says_what_where_how_many_and_what_to_do() -> None:
    wrong = _with_field("outdoor", 3, 293.0)
    with pytest.raises(OutOfRange, match=r"outdoor temperature 0 h 45 min into the run is 293 °C; "
                       "it must lie between -60 and 60 °C. Correct the weather"):  # fmt: skip
        check_drivers(wrong, ROOMS)
    right = _drivers()
    with pytest.raises(OutOfRange, match=r"is 50 °C \(and 599 more\)"):
        check_drivers(replace(right, wanted=right.wanted + 30.0), ROOMS)


def test_all_faults_are_told_together() -> None:
    wrong = _with_field("wind", 0, -1.0)
    with pytest.raises(OutOfRange, match=r"(?s)wind .* is -1 m/s.*wanted temperature .* is 99 °C"):
        check_drivers(replace(wrong, wanted=np.full((SLOTS, ROOMS), 99.0)), ROOMS)


@pytest.mark.parametrize("name", ["heating_allowed", "hot_water_allowed", "hygiene_due", "quiet"])
def test_a_switch_is_on_or_off(name: str) -> None:
    with pytest.raises(OutOfRange, match=r"is 0\.5; it must be 0 or 1"):
        check_drivers(_with_field(name, 4, 0.5), ROOMS)


def test_days_begin_at_0_and_rise_by_1() -> None:
    with pytest.raises(OutOfRange, match="day of the run 2 h 30 min into the run is 5"):
        check_drivers(_with_field("day", 10, 5), ROOMS)
    with pytest.raises(OutOfRange, match="days begin at 0"):
        check_drivers(_with_field("day", 0, 1), ROOMS)


def test_arrays_of_another_home_are_refused() -> None:
    right = _drivers()
    with pytest.raises(OutOfRange, match=r"the shape is \(200, 3\); it must be \(200, 4\)"):
        check_drivers(right, 4)
    with pytest.raises(OutOfRange, match=r"water drawn in a minute: the shape is \(2999,\)"):
        check_drivers(replace(right, draws=right.draws[1:]), ROOMS)
    with pytest.raises(OutOfRange, match="are not records of `DRIVER`"):
        check_drivers(replace(right, slots=right.slots[:1]), ROOMS)
