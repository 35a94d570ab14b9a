"""U-values: limits, directions and inverses beside the published values."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.errors import OutOfRange
from hearthbook.physics import fabric

RESISTANCES = st.floats(0.02, 8.0)
SHARES = st.floats(0.0, 1.0)
LAYERS = st.lists(st.tuples(RESISTANCES, RESISTANCES, SHARES), min_size=1, max_size=5)


def test_a_u_value_is_the_inverse_of_the_resistance() -> None:
    assert fabric.u_value(1 / 0.31) == pytest.approx(0.31)


@given(st.floats(0.001, 2.0), st.floats(0.01, 3.0), st.floats(1.01, 4.0))
def test_a_thicker_layer_resists_more(thickness: float, conductivity: float, more: float) -> None:
    thin = fabric.layer_resistance(thickness, conductivity)
    assert fabric.layer_resistance(thickness * more, conductivity) > thin


def test_a_layer_of_no_thickness_resists_nothing() -> None:
    assert fabric.layer_resistance(0.0, 0.04) == 0.0


@given(LAYERS)
def test_the_upper_limit_is_never_below_the_lower(
    layers: list[tuple[float, float, float]],
) -> None:
    main, bridge, share = (np.array(column) for column in zip(*layers, strict=True))
    upper = fabric.upper_resistance(main, bridge, share)
    assert upper >= fabric.lower_resistance(main, bridge, share) * (1 - 1e-12)


@given(LAYERS)
def test_a_bridge_of_the_same_material_changes_nothing(
    layers: list[tuple[float, float, float]],
) -> None:
    main, _, share = (np.array(column) for column in zip(*layers, strict=True))
    plain = fabric.total_resistance(main)
    assert fabric.upper_resistance(main, main, share) == pytest.approx(plain)
    assert fabric.lower_resistance(main, main, share) == pytest.approx(plain)


@pytest.mark.parametrize("limit", [fabric.upper_resistance, fabric.lower_resistance])
def test_a_bridge_that_fills_its_layer_is_the_layer(limit: object) -> None:
    main, bridge = np.array([3.5, 0.4]), np.array([1.2, 0.4])
    assert callable(limit)
    whole = limit(main, bridge, np.array([1.0, 0.0]))
    assert whole == pytest.approx(fabric.total_resistance(bridge))


def test_two_bridged_layers_cross_in_four_paths() -> None:
    # independent arithmetic: shares 0.9·0.8, 0.9·0.2, 0.1·0.8, 0.1·0.2 over 0.17 + R
    paths = [(0.72, 5.17), (0.18, 3.67), (0.08, 3.17), (0.02, 1.67)]
    expected = 1 / sum(share / resistance for share, resistance in paths)
    found = fabric.upper_resistance(
        np.array([3.0, 2.0]), np.array([1.0, 0.5]), np.array([0.1, 0.2]), 0.13, 0.04
    )
    assert found == pytest.approx(expected)


@pytest.mark.parametrize(
    "air_layer",
    [
        fabric.air_layer_resistance_across,
        fabric.air_layer_resistance_upward,
        fabric.air_layer_resistance_downward,
    ],
)
def test_an_air_layer_resists_nothing_at_no_thickness_and_never_less_when_thicker(
    air_layer: object,
) -> None:
    assert callable(air_layer)
    values = air_layer(np.linspace(0.0, 0.3, 61))
    assert values[0] == 0.0
    assert np.all(np.diff(values) >= 0.0)
    assert air_layer(0.020) == pytest.approx((air_layer(0.015) + air_layer(0.025)) / 2)


def test_heat_rises_more_easily_than_it_sinks_through_air() -> None:
    upward = fabric.air_layer_resistance_upward(0.1)
    assert upward < fabric.air_layer_resistance_across(0.1)
    assert upward < fabric.air_layer_resistance_downward(0.1)


def test_an_air_layer_too_wide_for_the_table_is_refused() -> None:
    with pytest.raises(OutOfRange, match=r"air layer is 0\.4 m; it must lie between 0 and 0\.3 m"):
        fabric.air_layer_resistance_across(0.4)


def test_a_conductivity_of_nothing_is_refused() -> None:
    with pytest.raises(OutOfRange, match=r"conductivity is 0 W/\(m·K\)"):
        fabric.layer_resistance(0.1, 0.0)


def test_a_share_above_one_is_refused() -> None:
    with pytest.raises(OutOfRange, match=r"share of the bridge is 1\.2; it must lie between 0 and"):
        fabric.upper_resistance(np.array([1.0]), np.array([0.5]), np.array([1.2]))


def test_a_bridged_layer_without_resistance_is_refused() -> None:
    with pytest.raises(OutOfRange, match="resistance of a bridged layer is 0"):
        fabric.lower_resistance(np.array([1.0]), np.array([0.0]), np.array([0.2]))


def test_no_resistance_has_no_u_value() -> None:
    with pytest.raises(OutOfRange, match="total resistance is 0"):
        fabric.u_value(0.0)
