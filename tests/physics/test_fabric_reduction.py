"""Layers as masses: the exact admittance, and how near one and two masses come."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from hearthbook.errors import OutOfRange
from hearthbook.physics.fabric_reduction import (
    DAY,
    WEEK,
    layer_admittance,
    mass_admittance,
    one_mass,
    two_masses,
)

Array = NDArray[np.float64]
INSIDE, OUTSIDE = 0.13, 0.04
PLASTER = (0.013, 0.57, 1500.0, 1000.0)
BOARD = (0.0125, 0.21, 800.0, 1000.0)
BRICK = (0.102, 0.77, 1750.0, 1000.0)
WALLS: dict[str, tuple[tuple[tuple[float, ...], ...], float]] = {
    # layers from inside to outside, and the bound held for a day and a week
    "timber frame": ((BOARD, (0.14, 0.035, 25.0, 1000.0), (0.02, 0.13, 520.0, 1600.0)), 0.02),
    "filled cavity": ((PLASTER, BRICK, (0.055, 0.042, 25.0, 1000.0), BRICK), 0.05),
    "solid brick": ((PLASTER, (0.215, 0.77, 1750.0, 1000.0)), 0.02),
    "lined brick": ((BOARD, (0.05, 0.021, 32.0, 1400.0), (0.215, 0.77, 1750.0, 1000.0)), 0.02),
    "insulated outside": (
        (PLASTER, (0.215, 0.77, 1750.0, 1000.0), (0.1, 0.035, 20.0, 1400.0)), 0.09),
    "concrete, half a metre": (((0.5, 2.0, 2300.0, 1000.0),), 0.04),
    "ceiling": ((BOARD, (0.2, 0.04, 25.0, 1000.0)), 0.02),
}  # fmt: skip

layers = st.lists(
    st.tuples(
        st.floats(0.005, 0.3), st.floats(0.02, 2.5), st.floats(10.0, 2500.0),
        st.floats(800.0, 2000.0),
    ),
    min_size=1, max_size=5,
)  # fmt: skip


def _columns(wall: tuple[tuple[float, ...], ...]) -> tuple[Array, Array, Array, Array]:
    thickness, conductivity, density, specific_heat = np.array(wall).T
    return thickness, conductivity, density, specific_heat


def _difference(wall: tuple[tuple[float, ...], ...], period: float) -> float:
    two = two_masses(*_columns(wall), INSIDE, OUTSIDE)
    exact = complex(*layer_admittance(*_columns(wall), period, INSIDE, OUTSIDE))
    ours = complex(
        *mass_admittance(
            two.room_inner, two.inner_capacity, two.inner_outer, two.outer_capacity,
            two.outer_outside, period,
        )
    )  # fmt: skip
    return abs(ours - exact) / abs(exact)


@pytest.mark.parametrize("name", list(WALLS))
@pytest.mark.parametrize("period", [DAY, WEEK])
def test_two_masses_answer_a_day_and_a_week_as_the_layers_do(name: str, period: float) -> None:
    wall, bound = WALLS[name]
    assert _difference(wall, period) < bound


@pytest.mark.parametrize("name", list(WALLS))
def test_the_error_stated_is_the_larger_of_day_and_week(name: str) -> None:
    wall, _ = WALLS[name]
    stated = two_masses(*_columns(wall), INSIDE, OUTSIDE).error
    worst = max(_difference(wall, DAY), _difference(wall, WEEK))
    assert stated == pytest.approx(worst, rel=1e-6)


@given(layers)
def test_resistance_and_capacity_are_kept(wall: list[tuple[float, ...]]) -> None:
    thickness, conductivity, density, specific_heat = _columns(tuple(wall))
    two = two_masses(thickness, conductivity, density, specific_heat, INSIDE, OUTSIDE)
    whole = INSIDE + np.sum(thickness / conductivity) + OUTSIDE
    assert two.room_inner + two.inner_outer + two.outer_outside == pytest.approx(whole)
    stored = np.sum(thickness * density * specific_heat)
    assert two.inner_capacity + two.outer_capacity == pytest.approx(stored)
    parts = (two.room_inner, two.inner_outer, two.outer_outside)
    assert all(np.all(part > 0) for part in parts)


def test_a_very_slow_swing_meets_the_u_value() -> None:
    steady, ahead = layer_admittance(*_columns(WALLS["filled cavity"][0]), 1e10, INSIDE, OUTSIDE)
    resistance = 0.13 + 0.013 / 0.57 + 2 * 0.102 / 0.77 + 0.055 / 0.042 + 0.04
    assert steady == pytest.approx(1 / resistance, rel=1e-6)
    assert ahead == pytest.approx(0.0, abs=1e-3)


def test_a_wall_too_thick_to_feel_through_takes_by_its_effusivity() -> None:
    """Half-infinite solid: |Y| = √(2π/T · λ·ρ·c), an eighth of a period ahead; derived."""
    real, ahead = layer_admittance(
        np.array([5.0]), np.array([2.0]), np.array([2300.0]), np.array([1000.0]), DAY, 0.0, 0.04
    )
    expected = np.sqrt(2 * np.pi / DAY * 2.0 * 2300.0 * 1000.0)
    assert np.hypot(real, ahead) == pytest.approx(expected, rel=1e-9)
    assert real == pytest.approx(ahead, rel=1e-9)


def test_a_layer_cut_in_two_is_the_same_layer() -> None:
    whole = layer_admittance(*_columns((BRICK,)), DAY, INSIDE, OUTSIDE)
    half = (BRICK[0] / 2, *BRICK[1:])
    assert layer_admittance(*_columns((half, half)), DAY, INSIDE, OUTSIDE) == pytest.approx(whole)


def test_one_mass_without_heat_behind_meets_a_day_exactly() -> None:
    half = _columns((PLASTER, (0.05, 0.5, 1300.0, 1000.0)))
    one = one_mass(*half, INSIDE)
    exact = layer_admittance(*half, DAY, INSIDE, np.inf)
    ours = mass_admittance(one.room_mass, one.capacity, 0.0, 0.0, np.inf, DAY)
    assert ours == pytest.approx(exact, rel=1e-9)


def test_one_mass_of_a_floor_keeps_the_resistance() -> None:
    one = one_mass(*_columns(((0.05, 1.2, 2100.0, 1000.0), (0.5, 2.0, 1000.0, 2000.0))), 0.17, 1.0)
    assert one.room_mass + one.mass_beyond == pytest.approx(0.17 + 0.05 / 1.2 + 0.25 + 1.0)
    assert np.all(one.error < 0.13)


def test_layers_that_store_nothing_are_refused() -> None:
    nothing = np.array([0.1]), np.array([0.04]), np.array([0.0]), np.array([0.0])
    with pytest.raises(OutOfRange, match="capacity of the layers is 0"):
        two_masses(*nothing, INSIDE, OUTSIDE)
