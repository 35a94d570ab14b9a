"""Sound at the neighbours' windows."""

import math

import pytest

from hearthbook.design.sound import SoundVerdict, sound
from hearthbook.record.home import Home
from tests.design.plant_of_a_home import changed, unfounded


def _with_window(home: Home, **values: object) -> Home:
    window = home.siting.neighbours[0].model_copy(update=values)
    return changed(home, "siting", neighbours=(window,))


def test_the_level_by_hand(well_done_home: Home) -> None:
    (window,) = sound(well_done_home)
    by_hand = 54 + 10 * math.log10(4 / (4 * math.pi * 8.5**2))
    assert window.level.value == pytest.approx(by_hand)
    assert window.quiet_level is not None
    assert window.level.value - window.quiet_level.value == pytest.approx(5.0)
    assert window.verdict is SoundVerdict.WITHIN
    assert unfounded(window) == []


def test_at_the_distance_needed_the_limit_is_met(well_done_home: Home) -> None:
    (window,) = sound(well_done_home)
    assert window.distance_needed is not None
    (there,) = sound(_with_window(well_done_home, distance=window.distance_needed.value))
    assert there.spare is not None
    assert there.spare.value == pytest.approx(0.0, abs=1e-9)
    assert there.verdict is SoundVerdict.CLOSE


def test_too_near_is_above_the_limit_and_a_barrier_helps(well_done_home: Home) -> None:
    (near,) = sound(_with_window(well_done_home, distance=3.0))
    assert near.verdict is SoundVerdict.ABOVE
    (hidden,) = sound(_with_window(well_done_home, distance=3.0, barrier="full"))
    assert near.level.value - hidden.level.value == pytest.approx(10.0)
    assert hidden.verdict is SoundVerdict.WITHIN


def test_the_limit_of_the_country_stands_in_and_says_so(well_done_home: Home) -> None:
    (window,) = sound(_with_window(well_done_home, limit=None))
    assert window.limit is not None
    assert window.limit.value == 37.0
    assert "check the current text" in window.limit.working.source


def test_an_unknown_country_has_no_limit(well_done_home: Home) -> None:
    home = changed(_with_window(well_done_home, limit=None), "building", country="elsewhere")
    (window,) = sound(home)
    assert window.verdict is SoundVerdict.NO_LIMIT_KNOWN
    assert (window.limit, window.spare, window.distance_needed) == (None, None, None)


def test_nothing_is_said_without_a_sound_power(well_done_home: Home) -> None:
    assert sound(changed(well_done_home, "plant.heat_pump", sound_power=None)) == ()


def test_no_quiet_level_without_a_quiet_power(well_done_home: Home) -> None:
    (window,) = sound(changed(well_done_home, "plant.heat_pump", sound_power_quiet=None))
    assert window.quiet_level is None


def test_the_faulty_homes_unit_is_too_loud(faulty_home: Home) -> None:
    assert SoundVerdict.ABOVE in {window.verdict for window in sound(faulty_home)}
