from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.errors import OutOfRange
from hearthbook.physics import emitters

ROOMS = st.floats(15.0, 24.0)
FLOWS_ABOVE_ROOM = st.floats(12.0, 55.0)
DROPS = st.floats(1.0, 10.0)
EXPONENTS = st.floats(1.0, 1.5)
RATINGS = st.floats(100.0, 5000.0)


@given(room=ROOMS, above=FLOWS_ABOVE_ROOM, step=st.floats(0.5, 10.0), drop=DROPS, n=EXPONENTS)
def test_output_rises_with_flow_temperature(
    room: float, above: float, step: float, drop: float, n: float
) -> None:
    flow = room + above
    low = emitters.emitter_output(1000.0, flow, flow - drop, room, n)
    high = emitters.emitter_output(1000.0, flow + step, flow + step - drop, room, n)
    assert high > low


@given(room=ROOMS, above=FLOWS_ABOVE_ROOM, step=st.floats(0.1, 1.0), drop=DROPS, n=EXPONENTS)
def test_output_falls_when_the_room_is_warmer(
    room: float, above: float, step: float, drop: float, n: float
) -> None:
    flow = room + above
    cool = emitters.emitter_output(1000.0, flow, flow - drop, room, n)
    warm = emitters.emitter_output(1000.0, flow, flow - drop, room + step, n)
    assert warm < cool


@given(room=ROOMS, above=FLOWS_ABOVE_ROOM, drop=DROPS, n=EXPONENTS, rated=RATINGS)
def test_required_flow_temperature_gives_the_output_back(
    room: float, above: float, drop: float, n: float, rated: float
) -> None:
    flow = room + above
    output = emitters.emitter_output(rated, flow, flow - drop, room, n)
    again = emitters.required_flow_temperature(output, rated, room, drop, n)
    assert again == pytest.approx(flow, abs=0.5)  # the choice of the mean steps by up to 0.5 K
    is_clear_of_step = abs(drop / above - emitters.LOGARITHMIC_FROM) > 0.01
    if is_clear_of_step:
        assert again == pytest.approx(flow, abs=1e-6)


@given(room=ROOMS, above=FLOWS_ABOVE_ROOM, drop=DROPS)
def test_logarithmic_mean_never_exceeds_the_arithmetic_one(
    room: float, above: float, drop: float
) -> None:
    flow = room + above
    by_logarithm = emitters.logarithmic_mean_excess(flow, flow - drop, room)
    by_arithmetic = emitters.arithmetic_mean_excess(flow, flow - drop, room)
    assert by_logarithm <= by_arithmetic + 1e-9


@given(above=FLOWS_ABOVE_ROOM, share=st.floats(0.001, 0.299))
def test_means_agree_within_about_one_percent_while_the_drop_is_small(
    above: float, share: float
) -> None:
    flow = 20.0 + above
    back = flow - share * above
    by_arithmetic = emitters.arithmetic_mean_excess(flow, back, 20.0)
    by_logarithm = emitters.logarithmic_mean_excess(flow, back, 20.0)
    assert by_arithmetic / by_logarithm < 1.011


def test_logarithmic_mean_tends_to_the_plain_excess_as_the_drop_vanishes() -> None:
    assert emitters.logarithmic_mean_excess(45.0, 45.0, 20.0) == pytest.approx(25.0)
    assert emitters.logarithmic_mean_excess(45.0, 45.0 - 1e-5, 20.0) == pytest.approx(25.0)


def test_rated_output_comes_out_at_the_rating_point() -> None:
    assert emitters.emitter_output(1234.0, 75.0, 65.0, 20.0) == pytest.approx(1234.0)
    assert emitters.emitter_output_by_logarithmic_mean(1234.0, 75.0, 65.0, 20.0) == pytest.approx(
        1234.0, rel=1e-5
    )


def test_output_is_nothing_when_the_water_is_as_warm_as_the_room() -> None:
    assert emitters.output_factor(0.0) == 0.0


def test_a_large_drop_brings_in_the_logarithmic_mean() -> None:
    assert emitters.emitter_output(1000.0, 45.0, 35.0, 20.0) == pytest.approx(
        emitters.emitter_output_by_logarithmic_mean(1000.0, 45.0, 35.0, 20.0)
    )


def test_arrays_give_what_single_numbers_give() -> None:
    flows = np.array([35.0, 45.0, 55.0])
    together = emitters.emitter_output(1000.0, flows, flows - 5.0, 20.0)
    one_by_one = [emitters.emitter_output(1000.0, f, f - 5.0, 20.0) for f in (35.0, 45.0, 55.0)]
    np.testing.assert_allclose(np.asarray(together), np.asarray(one_by_one, dtype=float))


def test_design_flow_rate_and_drop_are_inverse() -> None:
    rate = emitters.design_flow_rate(6000.0, 5.0)
    assert emitters.design_flow_rate(6000.0, 10.0) == pytest.approx(rate / 2)


def test_water_colder_than_the_room_is_refused() -> None:
    with pytest.raises(OutOfRange, match=r"return above room is -1 K; it must lie between"):
        emitters.emitter_output(1000.0, 25.0, 19.0, 20.0)
    with pytest.raises(OutOfRange, match=r"mean water above room is -5 K"):
        emitters.output_factor(-5.0)
    with pytest.raises(OutOfRange, match=r"wanted heat is 0 W"):
        emitters.required_flow_temperature(0.0, 1000.0, 20.0, 5.0)
    with pytest.raises(OutOfRange, match=r"drop is 0 K"):
        emitters.required_flow_temperature(500.0, 1000.0, 20.0, 0.0)
