"""Hot water in a cylinder and at the taps."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.errors import OutOfRange
from hearthbook.physics import hot_water

volumes = st.floats(0.05, 0.5)
stored = st.floats(42.0, 70.0)
colds = st.floats(3.0, 20.0)


@given(volumes, stored, colds)
def test_mixed_water_holds_the_heat_of_the_hot_part(
    volume: float, temperature: float, cold: float
) -> None:
    mixed = hot_water.mixed_volume(volume, temperature, cold)
    drawn = hot_water.draw_energy(mixed, 40.0, cold)
    held = hot_water.reheat_energy(volume, cold, temperature)
    assert drawn == pytest.approx(0.9 * held)


@given(volumes, stored, colds, st.floats(0.5, 10.0))
def test_a_hotter_store_gives_more_mixed_water(
    volume: float, temperature: float, cold: float, hotter: float
) -> None:
    now, then = (hot_water.mixed_volume(volume, temperature + more, cold) for more in (0.0, hotter))
    assert then > now


def test_a_store_at_the_temperature_of_use_gives_its_hot_part() -> None:
    assert hot_water.mixed_volume(0.200, 40.0, 10.0) == pytest.approx(0.180)


@given(st.floats(1e5, 1e8), st.floats(35.0, 60.0), colds)
def test_volume_and_energy_of_a_draw_undo_each_other(
    energy: float, use: float, cold: float
) -> None:
    volume = hot_water.volume_of_energy(energy, use, cold)
    assert hot_water.draw_energy(volume, use, cold) == pytest.approx(energy)


@given(st.floats(1000.0, 15_000.0), st.floats(300.0, 3000.0), st.floats(5e-5, 8e-4))
def test_the_coil_passes_its_heat_by_the_logarithmic_mean(
    heat: float, conductance: float, flow: float
) -> None:
    approach = float(np.sum(hot_water.coil_approach(heat, conductance, flow)))
    leaving = approach - heat / (flow * 4.1868e6)
    if leaving > 1e-3:
        mean = (approach - leaving) / np.log(approach / leaving)
        assert conductance * mean == pytest.approx(heat, rel=1e-6)


def test_an_endless_coil_needs_only_the_drop_of_its_water() -> None:
    drop = 6000.0 / (2.5e-4 * 4.1868e6)
    assert hot_water.coil_approach(6000.0, 1e9, 2.5e-4) == pytest.approx(drop)


def test_a_larger_coil_needs_a_smaller_approach() -> None:
    areas = np.array([0.5, 1.0, 2.0, 4.0])
    approach = hot_water.coil_approach(6000.0, hot_water.coil_conductance(areas), 2.5e-4)
    assert np.all(np.diff(np.asarray(approach)) < 0.0)


def test_a_years_hot_water_by_the_standard_occupancy() -> None:
    # SAP 2012 tables 1b to 1d, from memory: 80 m², N = 1 + 1.76 (1 - exp(-0.000349 (A - 13.9)²))
    # + 0.0013 (A - 13.9) people; recalculated by an independent hand to 1,538.9 kWh, 1 kWh
    extra = 80.0 - 13.9
    people = 1.0 + 1.76 * (1.0 - np.exp(-0.000349 * extra**2)) + 0.0013 * extra
    year = np.sum(hot_water.monthly_energy(hot_water.daily_volume(people)))
    assert year / 3.6e6 == pytest.approx(1538.9, abs=1.0)


def test_a_study_of_metered_homes_lies_above_the_standard_for_a_family() -> None:
    # Energy Saving Trust 2008, 40 + 28 N litres a day, from memory: the same order of size
    for people in (1.0, 2.0, 4.0, 6.0):
        ratio = (40.0 + 28.0 * people) * 1e-3 / hot_water.daily_volume(people)
        assert 1.0 < ratio < 1.2


def test_winter_takes_more_heat_than_summer() -> None:
    months = np.asarray(hot_water.monthly_energy(0.100))
    assert months[0] > months[6]


def test_equal_days_make_the_year() -> None:
    assert np.sum(hot_water.equal_month_energies(2.0)) == 730.0


def test_no_hygiene_energy_where_the_store_is_hot_enough() -> None:
    assert hot_water.hygiene_energy(0.200, 60.0, 60.0) == 0.0
    assert hot_water.hygiene_energy(0.200, 65.0, 60.0) == 0.0


def test_reheating_for_no_time_adds_no_water() -> None:
    assert hot_water.reheated_volume(6000.0, 0.0, 40.0, 10.0) == 0.0


@pytest.mark.parametrize(
    ("litres", "profile"), [(20, "S"), (65, "M"), (129, "M"), (130, "L"), (210, "XL"), (900, "XXL")]
)
def test_the_profile_served_grows_with_the_water(litres: float, profile: str) -> None:
    assert hot_water.largest_profile_served(litres / 1000) == profile


def test_a_store_colder_than_the_shower_is_refused() -> None:
    with pytest.raises(OutOfRange, match="stored above wanted temperature is -2 K"):
        hot_water.mixed_volume(0.2, 38.0, 10.0)


def test_cold_water_warmer_than_the_shower_is_refused() -> None:
    with pytest.raises(OutOfRange, match="wanted above cold temperature is -5 K"):
        hot_water.mixed_volume(0.2, 50.0, 45.0)


def test_a_reheat_downwards_is_refused() -> None:
    with pytest.raises(OutOfRange, match="rise of the cylinder's temperature is -10 K"):
        hot_water.reheat_energy(0.2, 50.0, 40.0)


def test_an_empty_house_has_no_demand() -> None:
    with pytest.raises(OutOfRange, match="people is 0"):
        hot_water.daily_volume(0.0)


def test_nothing_is_asked_of_the_smallest_profile() -> None:
    with pytest.raises(OutOfRange, match="mixed water of profile S is 0 L"):
        hot_water.least_mixed_volume("S")
