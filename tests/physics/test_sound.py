"""Sound at a distance."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.errors import OutOfRange
from hearthbook.physics import sound

distances = st.floats(0.5, 200.0)
levels = st.floats(30.0, 80.0)
surfaces = st.sampled_from([2.0, 4.0, 8.0])


@given(levels, distances, surfaces)
def test_twice_the_distance_is_six_decibels_quieter(
    power: float, distance: float, directivity: float
) -> None:
    # 6.02 dB, two handbook pages on sound, to 0.01 dB
    near, far = (
        sound.sound_pressure_level(power, distance * times, directivity) for times in (1.0, 2.0)
    )
    assert near - far == pytest.approx(6.02, abs=0.01)


@given(levels, distances, surfaces)
def test_the_distance_for_a_level_gives_that_level(
    power: float, distance: float, directivity: float
) -> None:
    level = sound.sound_pressure_level(power, distance, directivity)
    assert sound.distance_for_level(power, level, directivity) == pytest.approx(distance)


def test_each_surface_adds_three_decibels() -> None:
    at = np.array([sound.directivity(1), sound.directivity(2), sound.directivity(3)])
    steps = np.diff(np.asarray(sound.distance_correction(5.0, at)))
    np.testing.assert_allclose(steps, 3.01, atol=0.005)


@given(levels, levels)
def test_two_sources_are_louder_than_one_by_no_more_than_three(first: float, second: float) -> None:
    both = sound.together(first, second)
    louder = max(first, second)
    assert louder <= both + 1e-9
    assert np.all(np.asarray(both) <= louder + 3.02)


def test_a_source_far_quieter_does_not_count() -> None:
    assert sound.together(50.0, 0.0) == pytest.approx(50.0, abs=1e-4)


def test_a_barrier_is_taken_off() -> None:
    bare = sound.sound_pressure_level(58.0, 5.0, 4.0)
    hidden = sound.sound_pressure_level(58.0, 5.0, 4.0, sound.BARRIER_ALLOWANCE["full"])
    assert bare - hidden == pytest.approx(10.0)


def test_a_place_inside_the_unit_is_refused() -> None:
    with pytest.raises(OutOfRange, match=r"distance from the unit is 0\.1 m"):
        sound.sound_pressure_level(58.0, 0.1, 4.0)
