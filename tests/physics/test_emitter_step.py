"""An emitter's step: the fit without powers, the inlet's weight, valves and pump."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.errors import OutOfRange
from hearthbook.physics.emitter_step import (
    emitter_fit,
    fitted_output,
    head_position,
    inlet_weight,
    lagged,
    pump_flow_share,
    valve_opening,
)
from hearthbook.physics.emitters import output_factor

EXPONENTS = (1.0, 1.1, 1.2, 1.25, 1.3, 1.35, 1.4, 1.5, 1.54, 1.6)


@pytest.mark.parametrize("exponent", EXPONENTS)
def test_fit_follows_the_characteristic_equation(exponent: float) -> None:
    excess = np.geomspace(1.0, 50.0, 2000)
    wanted = 1000.0 * (excess / 50.0) ** exponent  # EN 442-2, characteristic equation
    found = np.asarray(fitted_output(excess, *emitter_fit(1000.0, exponent)))
    claimed = 0.003 if exponent <= 1.54 else 0.01  # by `emitter_fit`
    assert np.max(np.abs(found / wanted - 1.0)) < claimed


def test_fit_at_thirty_kelvin_is_the_printed_factor() -> None:
    # EN 442-2 with exponent 1.3: 0.515 at 30 K; the same value as in the radiators' table
    assert float(fitted_output(30.0, *emitter_fit(1.0, 1.3))) == pytest.approx(0.515, abs=0.002)
    assert float(output_factor(30.0, 1.3)) == pytest.approx(0.515, abs=0.0006)


@pytest.mark.parametrize("exponent", EXPONENTS)
def test_fit_never_falls_and_gives_nothing_without_excess(exponent: float) -> None:
    excess = np.linspace(-20.0, 70.0, 3000)
    heat = np.asarray(fitted_output(excess, *emitter_fit(1500.0, exponent)))
    assert np.all(heat[excess <= 0.0] == 0.0)
    assert np.all(np.diff(heat) >= 0.0)


def test_a_fit_of_a_larger_emitter_is_in_proportion() -> None:
    small, large = emitter_fit(500.0, 1.3), emitter_fit(1500.0, 1.3)
    assert np.allclose(np.array(large), 3.0 * np.array(small), rtol=1e-9)


@pytest.mark.parametrize("exponent", [0.99, 1.61])
def test_an_exponent_no_emitter_has_is_refused(exponent: float) -> None:
    with pytest.raises(OutOfRange, match=str(exponent)):
        emitter_fit(1000.0, exponent)


def test_weight_of_the_inlet_is_the_mean_of_an_exponential() -> None:
    number = np.geomspace(0.02, 50.0, 500)  # conductance over flow rate
    exact = 1.0 / number - 1.0 / np.expm1(number)
    found = np.asarray(inlet_weight(1.0, number))
    assert np.max(np.abs(found - exact)) < 0.011  # what `inlet_weight` claims


def test_weight_of_the_inlet_has_its_limits_and_its_direction() -> None:
    assert float(inlet_weight(0.0, 25.0)) == 0.0
    assert float(inlet_weight(1e6, 25.0)) == pytest.approx(0.5, abs=1e-4)
    rising = np.asarray(inlet_weight(np.linspace(0.0, 400.0, 500), 25.0))
    assert np.all(np.diff(rising) > 0.0)


def test_a_head_moves_only_beyond_its_friction() -> None:
    held = 20.0
    for sensed, expected in ((20.1, 20.0), (20.5, 20.3), (20.2, 20.3), (19.9, 20.1)):
        held = float(head_position(sensed, held, 0.4))
        assert held == pytest.approx(expected)


@given(st.floats(5.0, 35.0), st.floats(5.0, 30.0), st.floats(0.5, 4.0), st.floats(0.0, 1.0))
def test_a_valve_lets_through_between_its_least_and_all(
    acting: float, middle: float, band: float, least: float
) -> None:
    opening = float(valve_opening(acting, middle, band, least))
    assert least <= opening <= 1.0
    assert float(valve_opening(acting + 0.5, middle, band, least)) <= opening


def test_a_lag_neither_overshoots_nor_stands_still() -> None:
    value = 0.0
    for _ in range(40):
        later = float(lagged(value, 1.0, 1200.0, 300.0))
        assert value < later < 1.0
        value = later
    assert value > 0.999
    assert float(lagged(0.3, 0.7, 0.0, 60.0)) == pytest.approx(0.7)


@given(st.floats(0.0, 1.2), st.floats(0.0, 1.0))
def test_the_pumps_flow_keeps_its_head(open_share: float, common: float) -> None:
    share = float(pump_flow_share(open_share, common))
    if open_share > 0.01:  # head of common pipes and of the branches, with the square of flow
        head = common * share**2 + (1.0 - common) * (share / open_share) ** 2
        assert head == pytest.approx(1.0, rel=1e-9)
    else:
        assert 0.0 <= share <= 1.01
