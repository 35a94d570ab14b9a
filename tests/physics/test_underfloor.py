from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.errors import OutOfRange
from hearthbook.physics import underfloor

SPACINGS = st.floats(0.05, 0.35)
COVERINGS = st.floats(0.0, 0.149)


@given(spacing=SPACINGS, covering=COVERINGS)
def test_closer_pipes_give_more(spacing: float, covering: float) -> None:
    near = underfloor.characteristic_slope(spacing, 0.016, covering)
    wide = underfloor.characteristic_slope(spacing + 0.02, 0.016, covering)
    assert near > wide


@given(spacing=SPACINGS, covering=COVERINGS)
def test_thicker_covering_gives_less(spacing: float, covering: float) -> None:
    bare = underfloor.characteristic_slope(spacing, 0.016, covering)
    covered = underfloor.characteristic_slope(spacing, 0.016, covering + 0.001)
    assert covered < bare


@given(spacing=SPACINGS, covering=COVERINGS, thickness=st.floats(0.03, 0.065))
def test_thicker_screed_gives_less_but_a_higher_limit(
    spacing: float, covering: float, thickness: float
) -> None:
    thin = underfloor.characteristic_slope(spacing, 0.016, covering, thickness)
    thick = underfloor.characteristic_slope(spacing, 0.016, covering, thickness + 0.01)
    assert thick < thin
    lower = underfloor.limiting_heat_flux(5.0, spacing, thickness)
    higher = underfloor.limiting_heat_flux(5.0, spacing, thickness + 0.01)
    assert higher >= lower * 0.995  # the tables fall back by up to 0.5 % near their ceiling


@given(excess=st.floats(1.0, 30.0), slope=st.floats(1.5, 7.0))
def test_required_excess_gives_the_flux_back(excess: float, slope: float) -> None:
    flux = underfloor.heat_flux(slope, excess)
    assert underfloor.required_mean_excess(slope, flux) == pytest.approx(excess)


@given(above=st.floats(0.1, 19.0), room=st.floats(15.0, 25.0))
def test_surface_temperature_and_flux_are_inverse(above: float, room: float) -> None:
    flux = underfloor.surface_heat_flux(above)
    assert underfloor.surface_temperature(flux, room) == pytest.approx(room + above)


def test_limit_never_exceeds_what_an_evenly_warm_floor_would_give() -> None:
    limits = underfloor.limiting_heat_flux(
        np.array([3.0, 4.0, 5.0, 6.5]), np.array([0.3, 0.2, 0.15, 0.05])
    )
    assert np.all(limits <= 100.0)
    edge = underfloor.limiting_heat_flux(5.0, 0.15, surface_above_room=15.0)
    assert edge == pytest.approx(underfloor.limiting_heat_flux(5.0, 0.15) * (15 / 9) ** 1.1)


def test_the_two_tables_of_the_limit_meet_where_one_takes_over() -> None:
    thin = underfloor.limiting_heat_flux(4.0, 0.3, 0.0791, 1.0)
    thick = underfloor.limiting_heat_flux(4.0, 0.3, 0.0793, 1.0)
    assert thick == pytest.approx(thin, rel=0.05)  # the source's own step


def test_spacing_beyond_the_widest_gives_in_proportion() -> None:
    widest = underfloor.characteristic_slope(0.375, 0.016, 0.05)
    assert underfloor.characteristic_slope(0.5, 0.016, 0.05) == pytest.approx(widest * 0.75)


def test_dimensions_outside_the_method_are_refused() -> None:
    with pytest.raises(OutOfRange, match=r"resistance of the covering is 0.2 m²·K/W"):
        underfloor.characteristic_slope(0.15, 0.016, 0.2)
    with pytest.raises(OutOfRange, match=r"pipe spacing is 0.6 m"):
        underfloor.characteristic_slope(0.6, 0.016, 0.0)
