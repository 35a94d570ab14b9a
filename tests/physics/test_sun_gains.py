"""Warmth from the sun."""

import numpy as np
import pytest

from hearthbook.physics import sun_gains


def test_a_low_winter_sun_favours_a_south_wall() -> None:
    south = np.asarray(sun_gains.monthly_irradiance("south"))
    flat = np.asarray(sun_gains.monthly_irradiance("horizontal"))
    north = np.asarray(sun_gains.monthly_irradiance("north"))
    assert south[0] > flat[0]
    assert south[5] < flat[5]
    assert np.all(north < south)


def test_any_direction_is_the_mean_of_the_four_quarters() -> None:
    sides = [np.asarray(sun_gains.monthly_irradiance(side)) for side in ("north", "south")]
    side = np.asarray(sun_gains.monthly_irradiance("east_or_west"))
    by_hand = (sides[0] + sides[1] + 2 * side) / 4
    np.testing.assert_allclose(sun_gains.monthly_irradiance("any"), by_hand)


def test_the_year_on_upright_walls_against_the_horizontal() -> None:
    # Year sums at 40° of latitude by pvlib and the Perez model: south 1368.0, east 1059.2, west
    # 967.0, north 432.6, horizontal 1670.2 kWh/m²; derived. Farther north the sun is lower, so that
    # an upright south wall gains on the horizontal: between those ratios and a quarter above.
    flat, south, east = (
        float(np.sum(irradiance))
        for irradiance in (
            sun_gains.monthly_irradiance("horizontal"),
            sun_gains.monthly_irradiance("south"),
            sun_gains.monthly_irradiance("east_or_west"),
        )
    )
    for upright, ratio in ((south, 1368.0 / 1670.2), (east, 1013.1 / 1670.2)):
        assert 0.95 * ratio < upright / flat < 1.25 * ratio


def test_no_glass_no_sun() -> None:
    assert sun_gains.open_area(2.0, 0.0, 0.3, 1.0) == 0.0
    assert sun_gains.open_area(2.0, 0.6, 1.0, 1.0) == 0.0
    assert sun_gains.solar_gain(0.0, 100.0) == 0.0


def test_a_window_lets_in_its_share() -> None:
    assert sun_gains.open_area(1.0, 1.0, 0.0, 1.0) == pytest.approx(0.9)
