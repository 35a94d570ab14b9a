"""The test rooms of VDI 6007-1: every case within what the guideline lets pass, or said how far."""

from __future__ import annotations

from functools import cache

import pytest

from tests.published.room_cases import Deviation, deviations, hourly, room_cases

NUMBERS = [case["number"] for case in room_cases()["case"]]

# Power is printed to 1 W and beside changes of the set temperature: case 6 misses the 1.5 W of the
# guideline by half a watt, case 11 in the two hours in which heating gives way to cooling.
BEYOND = {6: (2.1, 12), 11: (4.6, 2)}  # W, hours


@cache
def found() -> tuple[Deviation, ...]:
    return tuple(deviations())


@pytest.mark.parametrize("number", NUMBERS)
def test_the_room_lands_within_what_the_guideline_lets_pass(number: int) -> None:
    for one in found():
        if one.case != number:
            continue
        most, hours = BEYOND.get(number, (0.0, 0)) if one.unit == "W" else (one.within, 0)
        assert one.largest <= most, one.unit
        assert one.hours_beyond <= hours, one.unit


def test_every_case_has_its_seventy_two_hours() -> None:
    for case in room_cases()["case"]:
        assert all(len(case[f"day{day}"]) == 24 for day in (1, 10, 60)), case["number"]


def test_half_the_step_changes_next_to_nothing() -> None:
    case = next(one for one in room_cases()["case"] if one["number"] == 5)
    whole, half = (hourly(case, step)[0] for step in (60.0, 30.0))
    assert abs(whole - half).max() < 0.02
