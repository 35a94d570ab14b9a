"""A stratified cylinder against plug flow, mixed tanks in a row and the cooling curve."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from hearthbook.physics.cylinder_layers import (
    cool_layers,
    draw_layers,
    drawn_from_store,
    heat_layers,
    mix_layers,
)

Array = NDArray[np.float64]

temperatures = st.lists(st.floats(5.0, 80.0), min_size=8, max_size=8).map(np.array)


def test_a_cylinder_of_one_temperature_cools_by_the_exponential() -> None:
    layers = np.full(8, 60.0)
    capacity, loss = 25.0 * 4186.0, 0.25  # 200 l; 2 W/K in all
    for _ in range(24 * 4):
        cool_layers(layers, 20.0, loss, 1.0, capacity, 900.0)
    exact = 20.0 + 40.0 * math.exp(-loss * 86_400.0 / capacity)
    assert np.allclose(layers, exact, atol=0.01)  # forward difference of a quarter of an hour


def test_conduction_between_layers_follows_the_first_wave() -> None:
    capacity, conduction = 25.0 * 4186.0, 1.5
    places = (np.arange(8) + 0.5) / 8
    layers = 50.0 + 10.0 * np.cos(np.pi * places)
    for _ in range(24 * 4):
        cool_layers(layers, 20.0, 0.0, conduction, capacity, 900.0)
    # eigenvalue of a chain of 8 with closed ends: 2 (1 - cos(pi/8)). Derived.
    rate = 2.0 * (1.0 - math.cos(math.pi / 8)) * conduction / capacity
    exact = 50.0 + 10.0 * np.cos(np.pi * places) * math.exp(-rate * 86_400.0)
    assert np.allclose(layers, exact, atol=0.01)


def test_whole_layers_pass_through_as_a_plug() -> None:
    layers = np.linspace(20.0, 55.0, 8)
    before = layers.copy()
    left = [draw_layers(layers, 25.0, 25.0, 10.0) for _ in range(8)]
    assert left == pytest.approx(before[::-1].tolist())
    assert np.all(layers == 10.0)


def test_small_draws_leave_as_mixed_tanks_in_a_row() -> None:
    layers = np.full(8, 60.0)
    for _ in range(8 * 200):
        draw_layers(layers, 25.0 / 200, 25.0, 10.0)
    # After one content, 8 mixed tanks in a row leave the last with P(Poisson(8) <= 7). Derived.
    left = sum(math.exp(-8.0) * 8.0**k / math.factorial(k) for k in range(8))
    assert layers[-1] == pytest.approx(10.0 + 50.0 * left, abs=0.05)


def test_more_layers_hold_the_front_sharper() -> None:
    warm = []
    for count in (1, 2, 4, 8, 16):
        layers = np.full(count, 60.0)
        for _ in range(400):
            draw_layers(layers, 140.0 / 400, 200.0 / count, 10.0)
        warm.append(layers[-1])
    assert warm == sorted(warm)  # a plug would still leave at 60 °C


def test_one_layer_is_a_mixed_tank() -> None:
    layers = np.array([60.0])
    for _ in range(1000):
        draw_layers(layers, 0.2, 200.0, 10.0)
    assert layers[0] == pytest.approx(10.0 + 50.0 * math.exp(-1.0), abs=0.02)


@given(temperatures, st.floats(0.0, 300.0), st.floats(5.0, 20.0))
def test_what_is_drawn_is_what_was_there(layers: Array, drawn: float, cold: float) -> None:
    before = layers.sum()
    left_at = draw_layers(layers, drawn, 25.0, cold)
    gone = drawn * (left_at - cold)
    assert 25.0 * (before - layers.sum()) == pytest.approx(gone, abs=1e-6)


@given(temperatures, st.floats(0.0, 2e7), st.integers(1, 8))
def test_heating_keeps_heat_and_leaves_the_warm_on_top(
    layers: Array,
    heat: float,
    heated: int,
) -> None:
    before = layers.sum()
    heat_layers(layers, heat, 1e5, heated)
    assert layers.sum() == pytest.approx(before + heat / 1e5, rel=1e-12)
    assert np.all(np.diff(layers) > -1e-9)


@given(temperatures)
def test_mixing_twice_is_mixing_once(layers: Array) -> None:
    low, high = layers.min(), layers.max()
    mix_layers(layers)
    once = layers.copy()
    mix_layers(layers)
    assert np.allclose(layers, once, rtol=0.0, atol=1e-9)
    assert low - 1e-9 <= layers.min()
    assert layers.max() <= high + 1e-9


@given(temperatures, st.floats(-10.0, 40.0))
def test_lost_heat_is_what_the_layers_miss(layers: Array, around: float) -> None:
    before = layers.sum()
    lost = cool_layers(layers, around, 0.25, 1.2, 1e5, 900.0)
    assert 1e5 * (before - layers.sum()) == pytest.approx(float(lost), abs=1e-3)


def test_nothing_drawn_leaves_at_the_mains() -> None:
    layers = np.full(8, 50.0)
    assert float(draw_layers(layers, 0.0, 25.0, 10.0)) == 10.0
    assert np.all(layers == 50.0)


def test_a_hotter_store_gives_less_water_for_the_same_shower() -> None:
    drawn = np.asarray(drawn_from_store(40.0, 40.0, np.array([40.0, 50.0, 60.0]), 10.0))
    assert drawn[0] == pytest.approx(40.0)
    assert np.all(np.diff(drawn) < 0.0)
    assert drawn * (np.array([40.0, 50.0, 60.0]) - 10.0) == pytest.approx(40.0 * 30.0)
