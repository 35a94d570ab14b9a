from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.errors import OutOfRange
from hearthbook.physics import emitters, weather_curve

OUTDOORS = np.linspace(-3.0, 17.0, 41)


@given(
    load=st.floats(0.05, 1.15), flow=st.floats(30.0, 60.0), drop=st.floats(3.0, 10.0),
    n=st.floats(1.0, 1.5),
)  # fmt: skip
def test_curve_rises_with_load(load: float, flow: float, drop: float, n: float) -> None:
    low = weather_curve.flow_temperature(load, 20.0, flow, drop, n)
    high = weather_curve.flow_temperature(load + 0.05, 20.0, flow, drop, n)
    assert high > low


@given(load=st.floats(0.05, 1.0), flow=st.floats(32.0, 60.0), n=st.floats(1.0, 1.5))
def test_on_the_curve_the_emitters_give_just_the_load(load: float, flow: float, n: float) -> None:
    rated = 1000.0 / emitters.output_factor(flow - 2.5 - 20.0, n)
    on_curve = weather_curve.flow_temperature(load, 20.0, flow, 5.0, n)
    back = weather_curve.return_temperature(on_curve, load, 5.0)
    excess = emitters.arithmetic_mean_excess(on_curve, back, 20.0)
    assert emitters.output_from_excess(rated, excess, n) == pytest.approx(1000.0 * load)


def test_curve_meets_the_design_point_and_ends_at_room_temperature() -> None:
    assert weather_curve.flow_temperature(1.0, 20.0, 45.0, 5.0) == pytest.approx(45.0)
    assert weather_curve.flow_temperature(0.0, 20.0, 45.0, 5.0) == pytest.approx(20.0)


def test_a_pump_that_holds_the_drop_asks_for_more_in_mild_weather() -> None:
    constant = weather_curve.flow_temperature_at_constant_drop(0.5, 20.0, 45.0, 5.0)
    assert constant - weather_curve.flow_temperature(0.5, 20.0, 45.0, 5.0) == pytest.approx(1.25)


def test_exponent_of_one_makes_the_curve_straight() -> None:
    loads = np.linspace(0.0, 1.0, 5)
    flows = weather_curve.flow_temperature(loads, 20.0, 40.0, 5.0, 1.0)
    np.testing.assert_allclose(np.diff(np.asarray(flows), 2), 0.0, atol=1e-9)


@given(a=st.floats(-10.0, 0.0), b=st.floats(5.0, 15.0), slope=st.floats(0.2, 2.0))
def test_two_points_on_a_line_are_found_again(a: float, b: float, slope: float) -> None:
    points = np.array([a, b])
    line = 50.0 - slope * OUTDOORS
    found = weather_curve.points_that_fit(points, OUTDOORS, line, np.ones_like(OUTDOORS))
    np.testing.assert_allclose(found, 50.0 - slope * points, atol=1e-6)


def test_points_may_stand_in_any_order() -> None:
    up = weather_curve.flow_temperature_by_points(
        OUTDOORS, np.array([-3.0, 5.0, 15.0]), np.array([45.0, 38.0, 27.0])
    )
    down = weather_curve.flow_temperature_by_points(
        OUTDOORS, np.array([15.0, 5.0, -3.0]), np.array([27.0, 38.0, 45.0])
    )
    np.testing.assert_allclose(up, down)


def test_more_points_never_fit_worse() -> None:
    loads = weather_curve.load_fraction(OUTDOORS, 18.0, -3.0)
    curve = np.asarray(weather_curve.flow_temperature(loads, 20.0, 45.0, 5.0))
    errors = []
    for points in ([-3.0, 15.0], [-3.0, 7.0, 15.0], [-3.0, 2.0, 7.0, 15.0]):
        outdoor = np.array(points)
        flows = weather_curve.points_that_fit(outdoor, OUTDOORS, curve, np.ones_like(OUTDOORS))
        made = weather_curve.flow_temperature_by_points(OUTDOORS, outdoor, flows)
        errors.append(float(np.square(made - curve).sum()))
    assert errors[0] > errors[1]


def test_slope_and_level_say_what_two_points_say() -> None:
    by_slope = weather_curve.flow_temperature_by_slope(OUTDOORS, 1.0, 5.0, 20.0)
    by_points = weather_curve.flow_temperature_by_points(
        OUTDOORS, np.array([0.0, 20.0]), np.array([45.0, 25.0])
    )
    np.testing.assert_allclose(by_slope, by_points)


def test_room_influence_is_one_where_emitters_need_no_excess() -> None:
    assert weather_curve.flow_per_room_kelvin(0.0, 20.0, 0.0) == 1.0


def test_faults_are_refused_with_what_is_allowed() -> None:
    with pytest.raises(OutOfRange, match=r"base temperature above design outdoor temperature is 0"):
        weather_curve.load_fraction(5.0, -3.0, -3.0)
    with pytest.raises(OutOfRange, match=r"its points at 5, 5 °C; it needs two or more"):
        weather_curve.flow_temperature_by_points(0.0, np.array([5.0, 5.0]), np.array([30.0, 40.0]))
    with pytest.raises(OutOfRange, match=r"mean water above room at design is -2.5 K"):
        weather_curve.flow_temperature(1.0, 20.0, 20.0, 5.0)
    with pytest.raises(OutOfRange, match=r"room above outdoor temperature is -5 K"):
        weather_curve.flow_per_room_kelvin(10.0, 20.0, 25.0)
