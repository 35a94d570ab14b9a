"""The heating water's ring against a dense solver of linear equations, and its heat balance."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.physics.water_loop import branch_after, kept_share, return_after, vessel_after

STEP = 60.0


def _by_matrix(
    start: list[float], capacities: list[float], heats: list[float], flows: list[float], past: float
) -> list[float]:
    """Unit, flow, return and branches at the end of a step: one matrix, one solve.

    Backward differences: C (T - T0) / dt = sum of flow times what flows in less T, plus heat.
    """
    branches = len(start) - 3
    total = sum(flows) + past
    matrix = np.diag(np.array(capacities) / STEP)
    right = np.array(capacities) / STEP * np.array(start) + np.array(heats)
    for here, there, rate in ((0, 2, total), (1, 0, total)):
        matrix[here, here] += rate
        matrix[here, there] -= rate
    matrix[2, 2] += total
    matrix[2, 1] -= past
    for number in range(branches):
        place, rate = 3 + number, flows[number]
        matrix[place, place] += rate
        matrix[place, 1] -= rate
        matrix[2, place] -= rate
    return [float(value) for value in np.linalg.solve(matrix, right)]


def _by_substitution(
    start: list[float], capacities: list[float], heats: list[float], flows: list[float], past: float
) -> list[float]:
    total = sum(flows) + past
    constant, slope, kept = 0.0, past, []
    for temperature, capacity, heat, rate in zip(
        start[3:], capacities[3:], heats[3:], flows, strict=True
    ):
        share = float(kept_share(capacity, rate, STEP))
        kept.append(share)
        warming = share * STEP / capacity
        constant += rate * float(branch_after(temperature, share, warming, -heat, 0.0))
        slope += rate * (1.0 - share)
    ring = [*start[:3], *capacities[:3], *heats[:3], total, constant, slope, STEP]
    back = float(return_after(*ring))
    unit = float(vessel_after(start[0], capacities[0], total, back, heats[0], STEP))
    flow = float(vessel_after(start[1], capacities[1], total, unit, heats[1], STEP))
    after = [unit, flow, back]
    for place, share in enumerate(kept):
        warming = share * STEP / capacities[3 + place]
        after.append(float(branch_after(start[3 + place], share, warming, -heats[3 + place], flow)))
    return after


rings = st.integers(1, 6).flatmap(
    lambda branches: st.tuples(
        st.lists(st.floats(5.0, 70.0), min_size=3 + branches, max_size=3 + branches),
        st.lists(st.floats(3e3, 5e5), min_size=3 + branches, max_size=3 + branches),
        st.lists(st.floats(-4e3, 9e3), min_size=3 + branches, max_size=3 + branches),
        st.lists(st.floats(0.0, 400.0), min_size=branches, max_size=branches),
        st.floats(0.0, 500.0),
    )
)
Ring = tuple[list[float], list[float], list[float], list[float], float]


@given(rings)
def test_the_ring_is_what_a_dense_solver_finds(ring: Ring) -> None:
    assert _by_substitution(*ring) == pytest.approx(_by_matrix(*ring), abs=1e-6)


@given(rings)
def test_heat_put_in_is_heat_stored(ring: Ring) -> None:
    start, capacities, heats, _, _ = ring
    after = _by_substitution(*ring)
    stored = sum(
        capacity * (late - early)
        for capacity, late, early in zip(capacities, after, start, strict=True)
    )
    through = sum(abs(heat) for heat in heats) + 1e3
    assert stored == pytest.approx(sum(heats) * STEP, abs=1e-7 * through * STEP + 1e-3)


def test_a_defrost_cools_exactly_the_water_there_is() -> None:
    # Dong and others 2012: 1 kg of frost takes 399.0 kJ from the water, 50 l by 1.91 K. Derived.
    capacities = [0.010 * 4.186e6, 0.015 * 4.186e6, 0.015 * 4.186e6, 0.010 * 4.186e6]
    ring = ([35.0] * 4, capacities, [-399.0e3 / STEP, 0.0, 0.0, 0.0], [900.0], 0.0)
    after = _by_substitution(*ring)
    mean = sum(c * t for c, t in zip(capacities, after, strict=True)) / sum(capacities)
    assert 35.0 - mean == pytest.approx(1.91, abs=0.01)


def test_brisk_flow_mixes_and_no_flow_leaves_alone() -> None:
    still = _by_substitution([50.0, 40.0, 30.0, 20.0], [1e4] * 4, [0.0] * 4, [0.0], 0.0)
    assert still == pytest.approx([50.0, 40.0, 30.0, 20.0])
    brisk = _by_substitution([50.0, 40.0, 30.0, 20.0], [1e4] * 4, [0.0] * 4, [1e7], 0.0)
    assert brisk == pytest.approx([35.0] * 4, abs=0.01)
