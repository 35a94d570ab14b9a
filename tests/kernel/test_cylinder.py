"""Hot water drawn from a cylinder, its standing loss, and the hygiene run."""

from __future__ import annotations

import numpy as np
import pytest

from hearthbook.kernel.cylinder_step import rest_cylinder, tap
from hearthbook.kernel.state import HEATING
from tests.kernel.plant_at_hand import plant, state, totals

WATER = 4186.0  # J/(kg·K)


def test_a_shower_takes_its_heat_above_the_mains() -> None:
    layers, sums = np.full(8, 55.0), totals()
    before = layers.sum()
    tap(plant(), state(), sums, layers, 40.2, 10.0, 60.0)
    # 40.2 l at 40 °C over mains of 10 °C are 1.4 kWh; profile M of EU 814/2013. To 0.5 %.
    assert sums.heat_drawn == pytest.approx(1.4 * 3.6e6, rel=0.005)
    assert sums.heat_drawn == pytest.approx(31 * WATER * (before - layers.sum()))
    assert sums.short_water == 0.0


@pytest.mark.parametrize("step", [60.0, 30.0, 15.0])
def test_a_minute_of_drawing_is_the_same_in_any_steps(step: float) -> None:
    layers, sums = np.full(8, 55.0), totals()
    for _ in range(round(60.0 / step)):
        tap(plant(), state(), sums, layers, 8.0, 10.0, step)
    assert sums.heat_drawn == pytest.approx(8.0 * WATER * 30.0)


def test_a_cylinder_too_small_runs_cold_and_says_how_much() -> None:
    layers, sums = np.full(8, 50.0), totals()
    home = plant(layer_mass=5, layer_capacity=5 * WATER)  # 40 l
    for _ in range(15):
        tap(home, state(), sums, layers, 8.0, 10.0, 60.0)
    assert 0.0 < sums.short_water < 120.0
    assert sums.heat_drawn < 120.0 * WATER * 30.0
    assert layers.min() >= 10.0


def test_no_cylinder_no_hot_water() -> None:
    layers, sums = np.full(8, 50.0), totals()
    tap(plant(has_cylinder=0), state(), sums, layers, 40.0, 10.0, 60.0)
    assert sums.heat_drawn == 0.0
    assert np.all(layers == 50.0)


@pytest.mark.parametrize(("room", "inside"), [(1, 1.0), (-1, 0.0)])
def test_standing_loss_goes_to_the_room_it_stands_in(room: int, inside: float) -> None:
    layers, sums, now = np.full(8, 60.0), totals(), state()
    rest_cylinder(plant(cylinder_room=room, layer_loss=0.2), now, sums, layers, 20.0, 900.0)
    assert sums.heat_standing == pytest.approx(8 * 0.2 * 40.0 * 900.0)
    assert sums.heat_standing_inside == inside * sums.heat_standing
    assert now.cylinder_loss * 900.0 == pytest.approx(sums.heat_standing)


def test_a_hygiene_run_reaches_and_holds_the_whole_cylinder() -> None:
    home = plant(hygiene_temperature=60, hygiene_hold=1800, immersion_power=3000)
    layers, sums, now = np.full(8, 55.0), totals(), state(mode=HEATING, hygiene=1.0)
    held = 0.0
    while now.hygiene > 0.0:
        tap(home, now, sums, layers, 0.0, 10.0, 60.0)
        held += 60.0 if layers[0] >= 59.5 else 0.0
    assert layers.min() >= 60.0  # the coldest part of it
    assert held >= 1800.0
    missing = 8 * 31 * WATER * 6.0  # up to a kelvin above
    assert sums.heat_immersion <= missing + 1.0
    assert sums.heat_immersion == pytest.approx(8 * 31 * WATER * (layers.mean() - 55.0))


def test_a_hygiene_run_that_cannot_be_done_is_given_up_after_half_a_day() -> None:
    home = plant(hygiene_temperature=60, immersion_power=0)
    layers, now = np.full(8, 50.0), state(mode=HEATING, hygiene=1.0)
    steps = 0
    while now.hygiene > 0.0:
        tap(home, now, totals(), layers, 0.0, 10.0, 60.0)
        steps += 1
    assert steps * 60.0 == pytest.approx(12 * 3600.0, abs=61.0)
