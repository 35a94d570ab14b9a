"""Floors on the ground: limits and directions beside the published tables."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.errors import OutOfRange
from hearthbook.physics import ground

AREAS = st.floats(5.0, 500.0)
SHAPES = st.floats(1.0, 3.0)  # edge against a square's


def _edge(area: float, shape: float) -> float:
    return 4 * math.sqrt(area) * shape


@given(AREAS, SHAPES, st.floats(0.0, 6.0), st.floats(0.1, 3.0))
def test_more_insulation_never_loses_more(
    area: float, shape: float, resistance: float, more: float
) -> None:
    before = ground.slab_u_value(area, _edge(area, shape), 0.3, 1.5, resistance)
    assert ground.slab_u_value(area, _edge(area, shape), 0.3, 1.5, resistance + more) < before


@given(AREAS, SHAPES, st.floats(1.05, 2.0))
def test_a_longer_edge_loses_more(area: float, shape: float, more: float) -> None:
    short = ground.slab_u_value(area, _edge(area, shape), 0.3, 1.5)
    assert ground.slab_u_value(area, _edge(area, shape) * more, 0.3, 1.5) > short


@given(st.floats(3.0, 20.0))
def test_the_two_formulas_meet_where_thickness_equals_width(width: float) -> None:
    # at d = B' the slab's formula gives 2λ ln(π + 1) / ((π + 1) B'), the other λ / (1.457 B')
    thin = 2 * math.log(math.pi + 1) / (math.pi + 1)
    assert thin == pytest.approx(1 / 1.457, rel=0.001)
    resistance = width / 1.5 - 0.3 / 1.5 - 0.21
    near = [
        ground.slab_u_value(100.0, 200.0 / width, 0.3, 1.5, resistance + shift)
        for shift in (-1e-6, 1e-6)
    ]
    assert near[0] == pytest.approx(near[1], rel=0.002)


def test_a_floor_far_from_any_edge_hardly_loses() -> None:
    assert ground.slab_u_value(1e6, 1.0, 0.3, 1.5) < 1e-4


def test_a_floor_takes_arrays() -> None:
    found = ground.slab_u_value(np.array([50.0, 100.0]), 30.0, 0.3, 1.5)
    assert isinstance(found, np.ndarray)
    assert found.shape == (2,)


@given(st.floats(0.1, 3.0), st.floats(1.1, 3.0))
def test_a_suspended_floor_loses_less_than_its_boards_alone(u_value: float, more: float) -> None:
    def whole(boards: float) -> float:
        return float(
            ground.suspended_floor_u_value(boards, 40.0, 20.0, 0.3, 1.5, 0.3, 1.5, 0.003, 5.0, 0.05)
        )

    assert whole(u_value) < u_value
    assert whole(u_value * more) > whole(u_value)


def test_wind_makes_a_suspended_floor_lose_more() -> None:
    calm, windy = (
        float(
            ground.suspended_floor_u_value(1.7, 40.0, 20.0, 0.3, 1.5, 0.3, 1.5, 0.003, speed, 0.05)
        )
        for speed in (0.0, 8.0)
    )
    assert calm < windy


def test_a_floor_without_an_edge_is_refused() -> None:
    with pytest.raises(OutOfRange, match="exposed perimeter is 0 m"):
        ground.slab_u_value(40.0, 0.0, 0.3, 1.5)
