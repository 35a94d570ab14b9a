from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.errors import OutOfRange
from hearthbook.physics import emitter_drop, emitters

RATINGS = st.floats(200.0, 5000.0)
FLOWS = st.floats(30.0, 70.0)
RATES = st.floats(1e-6, 2e-4)


@given(rated=RATINGS, flow=FLOWS, rate=RATES)
def test_heat_from_the_water_equals_heat_from_the_emitter(
    rated: float, flow: float, rate: float
) -> None:
    drop = emitter_drop.drop_at_flow_rate(rated, flow, 20.0, rate)
    heat = emitter_drop.output_at_flow_rate(rated, flow, 20.0, rate)
    back = flow - float(np.asarray(drop))
    if back - 20.0 > 1e-6:
        given_off = emitters.emitter_output_by_logarithmic_mean(rated, flow, back, 20.0)
        assert heat == pytest.approx(given_off, rel=1e-6)


@given(rated=RATINGS, flow=FLOWS, rate=RATES)
def test_more_water_gives_more_heat_and_cools_less(rated: float, flow: float, rate: float) -> None:
    drops = [emitter_drop.drop_at_flow_rate(rated, flow, 20.0, x) for x in (rate, 1.2 * rate)]
    heats = [emitter_drop.output_at_flow_rate(rated, flow, 20.0, x) for x in (rate, 1.2 * rate)]
    assert drops[1] <= drops[0]
    assert heats[1] >= heats[0] * (1 - 1e-9)


def test_drop_and_design_flow_rate_are_inverse() -> None:
    heat = emitters.emitter_output_by_logarithmic_mean(2000.0, 45.0, 40.0, 20.0)
    rate = emitters.design_flow_rate(heat, 5.0)
    assert emitter_drop.drop_at_flow_rate(2000.0, 45.0, 20.0, rate) == pytest.approx(5.0)


def test_a_trickle_cools_to_the_room_and_a_torrent_does_not_cool() -> None:
    assert emitter_drop.drop_at_flow_rate(2000.0, 45.0, 20.0, 1e-8) == pytest.approx(25.0, abs=0.01)
    assert emitter_drop.drop_at_flow_rate(2000.0, 45.0, 20.0, 1e-1) == pytest.approx(0.0, abs=0.01)


def test_arrays_give_what_single_numbers_give() -> None:
    rates = np.array([1e-5, 3e-5, 1e-4])
    together = np.asarray(emitter_drop.drop_at_flow_rate(2000.0, 45.0, 20.0, rates))
    for rate, drop in zip(rates, together, strict=True):
        assert emitter_drop.drop_at_flow_rate(2000.0, 45.0, 20.0, rate) == pytest.approx(drop)


def test_standing_water_is_refused() -> None:
    with pytest.raises(OutOfRange, match=r"flow rate is 0 mL/s"):
        emitter_drop.drop_at_flow_rate(2000.0, 45.0, 20.0, 0.0)
    with pytest.raises(OutOfRange, match=r"flow above room is -2 K"):
        emitter_drop.drop_at_flow_rate(2000.0, 18.0, 20.0, 1e-5)
