"""Nodes without mass taken out of a network."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.physics.surface_nodes import without_surfaces

conductances = st.lists(st.floats(0.1, 500.0), min_size=10, max_size=10)


def _square(values: list[float]) -> np.ndarray[tuple[int, int], np.dtype[np.float64]]:
    square = np.zeros((5, 5))
    square[np.triu_indices(5, 1)] = values
    return square + square.T


def test_a_star_of_three_becomes_the_mesh_every_textbook_has() -> None:
    star = np.zeros((4, 4))
    star[3, :3] = star[:3, 3] = 2.0, 3.0, 5.0
    mesh = np.asarray(without_surfaces(star, 1).conductances)
    assert mesh[0, 1] == pytest.approx(2.0 * 3.0 / 10.0)
    assert mesh[0, 2] == pytest.approx(2.0 * 5.0 / 10.0)
    assert mesh[1, 2] == pytest.approx(3.0 * 5.0 / 10.0)


@given(conductances, st.lists(st.floats(-50.0, 50.0), min_size=3, max_size=3))
def test_heat_between_the_nodes_left_is_as_before(values: list[float], kept: list[float]) -> None:
    square, warmth = _square(values), np.array([30.0, 70.0])
    temperatures = np.array(kept)
    balance = np.diag(square.sum(axis=1)) - square
    surfaces = np.linalg.solve(balance[3:, 3:], warmth - balance[3:, :3] @ temperatures)
    into = -(balance[:3, :3] @ temperatures + balance[:3, 3:] @ surfaces)
    found = without_surfaces(square, 2)
    between = np.asarray(found.conductances)
    ours = between @ temperatures - between.sum(axis=1) * temperatures
    ours = ours + warmth @ np.asarray(found.shares)
    assert ours == pytest.approx(into, rel=1e-6, abs=1e-6)


@given(conductances)
def test_all_heat_put_on_a_surface_arrives(values: list[float]) -> None:
    shares = np.asarray(without_surfaces(_square(values), 2).shares)
    assert shares.sum(axis=1) == pytest.approx(1.0)
    assert np.all(shares >= 0)
