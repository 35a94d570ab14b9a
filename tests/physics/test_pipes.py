"""Pipes and valves, against the open library fluids and plain definitions."""

from __future__ import annotations

import fluids
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.physics import pipes

REYNOLDS = (4e3, 1e4, 5e4, 1e5, 1e6)
ROUGHNESS = (0.0, 1e-5, 1e-4, 1e-3, 1e-2)
flows = st.floats(1e-6, 1e-3)
bores = st.floats(0.008, 0.06)


@pytest.mark.parametrize("reynolds", REYNOLDS)
@pytest.mark.parametrize("roughness", ROUGHNESS)
def test_colebrook_agrees_with_fluids(reynolds: float, roughness: float) -> None:
    expected = fluids.friction.friction_factor(Re=reynolds, eD=roughness, Method="Colebrook")
    found = pipes.friction_factor_colebrook(reynolds, roughness)
    assert found == pytest.approx(expected, rel=1e-6)


@pytest.mark.parametrize("reynolds", REYNOLDS)
@pytest.mark.parametrize("roughness", ROUGHNESS)
def test_haaland_agrees_with_fluids_and_lies_close_to_colebrook(
    reynolds: float, roughness: float
) -> None:
    expected = fluids.friction.friction_factor(Re=reynolds, eD=roughness, Method="Haaland")
    found = pipes.friction_factor_haaland(reynolds, roughness)
    assert found == pytest.approx(expected, rel=1e-9)
    colebrook = fluids.friction.friction_factor(Re=reynolds, eD=roughness, Method="Colebrook")
    assert found == pytest.approx(colebrook, rel=0.021)


def test_slow_water_obeys_hagen_and_poiseuille() -> None:
    flow, bore, viscosity = 3e-6, 0.0136, 1.3e-3
    expected = 128 * viscosity * flow / (np.pi * bore**4)
    found = pipes.pressure_gradient(flow, bore, 1.5e-6, 999.7, viscosity)
    assert found == pytest.approx(expected, rel=1e-9)


def test_friction_has_no_step_where_the_flow_turns() -> None:
    for edge in (pipes.LAMINAR_BELOW, pipes.TURBULENT_FROM):
        below, above = (pipes.friction_factor(edge + step, 1e-4) for step in (-1e-6, 1e-6))
        assert below == pytest.approx(above, rel=1e-6)


def test_still_water_costs_no_pressure() -> None:
    assert pipes.pressure_gradient(0.0, 0.0202, 1.5e-6, 990.0, 0.6e-3) == 0.0


@given(flows, bores, st.floats(1.01, 3.0))
def test_more_flow_costs_more_pressure_and_a_wider_pipe_less(
    flow: float, bore: float, factor: float
) -> None:
    base = pipes.pressure_gradient(flow, bore, 1.5e-6, 990.0, 0.6e-3)
    assert pipes.pressure_gradient(flow * factor, bore, 1.5e-6, 990.0, 0.6e-3) > base
    assert pipes.pressure_gradient(flow, bore * factor, 1.5e-6, 990.0, 0.6e-3) < base


@given(flows, st.floats(0.05, 10.0))
def test_a_valves_relations_invert(flow: float, coefficient: float) -> None:
    drop = pipes.valve_pressure_drop(flow, coefficient)
    assert pipes.valve_flow(drop, coefficient) == pytest.approx(flow)
    assert pipes.valve_coefficient(flow, drop) == pytest.approx(coefficient)


@given(st.floats(100.0, 30_000.0), st.floats(1.0, 20.0))
def test_flow_and_duty_invert(heat: float, drop: float) -> None:
    assert pipes.duty(pipes.flow_for_duty(heat, drop), drop) == pytest.approx(heat)


def test_mass_flow_is_volume_flow_times_density() -> None:
    volume = pipes.flow_for_duty(5000.0, 5.0, 4180.0 * 992.2)
    mass = pipes.mass_flow_for_duty(5000.0, 5.0, 4180.0)
    assert volume * 992.2 == pytest.approx(mass)


@pytest.mark.parametrize(
    ("bore", "flow_l_per_min"), [(0.0136, 8.7), (0.0202, 19.2), (0.0262, 32.3), (0.0326, 50.0)]
)
def test_a_metre_a_second_carries_what_the_trade_reckons(
    bore: float, flow_l_per_min: float
) -> None:
    # Plain geometry: 60 000 · π/4 · d² L/min at 1 m/s, printed to three digits.
    assert pipes.velocity(flow_l_per_min / 60e3, bore) == pytest.approx(1.0, rel=0.005)


def test_arrays_give_what_single_numbers_give() -> None:
    flow = np.array([1e-6, 1e-5, 6e-5, 3e-4])
    together = pipes.pressure_gradient(flow, 0.0202, 1.5e-6, 990.0, 0.6e-3)
    single = [float(pipes.pressure_gradient(float(q), 0.0202, 1.5e-6, 990.0, 0.6e-3)) for q in flow]
    np.testing.assert_allclose(np.asarray(together), single)
