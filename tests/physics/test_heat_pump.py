"""Output and efficiency between tested points."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.errors import OutOfRange
from hearthbook.physics import heat_pump

# An invented unit: three flow temperatures, four outdoor temperatures
AIR = np.tile([-7.0, 2.0, 7.0, 12.0], 3)
WATER = np.repeat([35.0, 45.0, 55.0], 4)
OUTPUT = np.array([5.8, 6.2, 7.0, 7.9, 5.6, 6.0, 6.8, 7.6, 5.4, 5.8, 6.5, 7.2]) * 1e3
COP = np.array([3.05, 4.0, 4.8, 5.6, 2.6, 3.3, 3.85, 4.4, 2.2, 2.7, 3.1, 3.5])

airs = st.floats(-20.0, 18.0)
waters = st.floats(24.0, 65.0)


@pytest.mark.parametrize("index", range(12))
def test_tested_points_come_out_again(index: int) -> None:
    at = float(AIR[index]), float(WATER[index])
    assert heat_pump.efficiency(*at, AIR, WATER, COP) == pytest.approx(COP[index])
    assert heat_pump.capacity(*at, AIR, WATER, OUTPUT) == pytest.approx(OUTPUT[index])


def test_the_order_of_the_points_does_not_matter() -> None:
    order = np.argsort(np.sin(np.arange(12.0)))
    mixed = heat_pump.efficiency(4.0, 41.0, AIR[order], WATER[order], COP[order])
    assert mixed == pytest.approx(heat_pump.efficiency(4.0, 41.0, AIR, WATER, COP))


@given(airs, waters, st.floats(0.5, 15.0))
def test_hotter_water_is_never_better(air: float, water: float, hotter: float) -> None:
    cool, hot = (heat_pump.efficiency(air, water + more, AIR, WATER, COP) for more in (0.0, hotter))
    assert np.all(np.asarray(hot) < np.asarray(cool))


@given(airs, waters, st.floats(0.5, 10.0))
def test_colder_air_is_never_better(air: float, water: float, colder: float) -> None:
    mild, cold = (
        heat_pump.efficiency(air - less, water, AIR, WATER, COP) for less in (0.0, colder)
    )
    assert np.all(np.asarray(cold) < np.asarray(mild))


@given(airs, waters)
def test_it_never_beats_carnot(air: float, water: float) -> None:
    found = heat_pump.efficiency(air, water, AIR, WATER, COP)
    assert np.all(np.asarray(found) < np.asarray(heat_pump.carnot_efficiency(water, air - 8.0)))


@given(st.floats(-40.0, 30.0), waters)
def test_output_is_never_negative(air: float, water: float) -> None:
    assert np.all(np.asarray(heat_pump.capacity(air, water, AIR, WATER, OUTPUT)) >= 0.0)


def test_one_tested_point_holds_its_share_of_carnot() -> None:
    one = np.array([7.0]), np.array([35.0]), np.array([4.8])
    share = heat_pump.relative_efficiency(7.0, 35.0, 4.8)
    elsewhere = heat_pump.efficiency(-3.0, 45.0, *one)
    assert heat_pump.relative_efficiency(-3.0, 45.0, elsewhere) == pytest.approx(share)


def test_between_points_the_efficiency_bends_below_the_straight_line() -> None:
    # Carnot's efficiency is convex in the lift, so a straight line between points lies above it
    ends = np.array([7.0, 7.0]), np.array([35.0, 55.0])
    found = heat_pump.relative_efficiency(*ends, np.array([4.8, 3.1]))
    cop = heat_pump.efficiency(7.0, 45.0, *ends, np.array([4.8, 3.1]))
    assert cop < (4.8 + 3.1) / 2
    assert np.min(found) < heat_pump.relative_efficiency(7.0, 45.0, cop) < np.max(found)


def test_colder_than_tested_the_output_keeps_falling() -> None:
    at = np.array([-7.0, -12.0, -17.0])
    assert np.all(np.diff(np.asarray(heat_pump.capacity(at, 45.0, AIR, WATER, OUTPUT))) < 0.0)


def test_milder_than_tested_the_output_is_held() -> None:
    found = heat_pump.capacity(np.array([12.0, 20.0]), 35.0, AIR, WATER, OUTPUT)
    np.testing.assert_allclose(found, 7900.0)


def test_shapes_broadcast() -> None:
    air, water = np.array([[-3.0], [5.0]]), np.array([35.0, 40.0, 45.0])
    assert np.shape(heat_pump.efficiency(air, water, AIR, WATER, COP)) == (2, 3)


@given(st.floats(0.0, 0.99), st.floats(0.0, 1.0))
def test_cycling_only_costs(ratio: float, coefficient: float) -> None:
    fuller, less = (
        heat_pump.cycling_factor(at, coefficient) for at in (min(1.0, ratio + 0.01), ratio)
    )
    assert 0.0 <= np.sum(less) <= np.sum(fuller) + 1e-12 <= 1.0 + 2e-12


def test_no_cycling_loss_at_full_load_or_without_a_coefficient() -> None:
    assert heat_pump.cycling_factor(1.0, 0.9) == pytest.approx(1.0)
    assert heat_pump.cycling_factor(0.3, 0.0) == pytest.approx(0.3 / 1.0)
    assert heat_pump.cycling_factor(0.3, 1.0) == pytest.approx(1.0)


def test_part_load_joins_its_ends() -> None:
    ends = 2000.0, 6000.0, 4.2, 3.3
    loads = np.array([2000.0, 6000.0, 9000.0, 1000.0])
    found = heat_pump.part_load_efficiency(loads, *ends)
    np.testing.assert_allclose(found, [4.2, 3.3, 3.3, 4.2 * 0.9090909], rtol=1e-6)


def test_an_impossible_efficiency_is_refused() -> None:
    with pytest.raises(OutOfRange, match="efficiency of a tested point is 40"):
        heat_pump.efficiency(7.0, 35.0, np.array([7.0]), np.array([35.0]), np.array([40.0]))


def test_heat_running_downhill_is_refused() -> None:
    with pytest.raises(OutOfRange, match="hot side above cold side is -5 K"):
        heat_pump.carnot_efficiency(10.0, 15.0)


def test_a_load_above_the_least_output_is_not_cycling() -> None:
    with pytest.raises(OutOfRange, match=r"capacity ratio is 1\.5"):
        heat_pump.cycling_factor(1.5)
