"""Dew, frost and meltwater."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.errors import OutOfRange
from hearthbook.physics import frost

airs = st.floats(-20.0, 15.0)
humidities = st.floats(0.3, 1.0)


@given(airs, humidities, st.floats(1.0, 15.0))
def test_water_taken_out_is_never_negative_and_never_all_the_heat(
    air: float, humidity: float, colder: float
) -> None:
    rate = float(np.sum(frost.water_per_heat(air, humidity, air - colder)))
    assert 0.0 <= rate < 1.0 / 2.45e6


@given(st.floats(-15.0, 12.0), st.floats(0.5, 0.9), st.floats(2.0, 12.0))
def test_damper_air_gives_more_water(air: float, humidity: float, colder: float) -> None:
    drier, damper = (
        frost.water_per_heat(air, humidity + more, air - colder) for more in (0.0, 0.1)
    )
    assert np.all(np.asarray(damper) >= np.asarray(drier))


def test_dry_air_gives_no_water() -> None:
    assert frost.water_per_heat(5.0, 0.3, 0.0) == 0.0


def test_dry_cold_gives_less_frost_than_damp_frost() -> None:
    # Dry frosty weather frosts a coil less than damp weather near freezing; common practice
    rates = frost.water_per_heat(np.array([-10.0, 1.0]), 0.85, np.array([-18.0, -7.0]))
    assert np.diff(rates)[0] > 0.0


def test_a_day_of_damp_frost_at_4_kilowatts_from_the_air() -> None:
    # 38 to 40 kg, worked out with PsychroLib by an independent hand; 10 %
    rate = frost.water_per_heat(2.0, 0.838, -5.0)
    assert rate * 4000.0 * 86_400.0 == pytest.approx(39.0, rel=0.1)


def test_a_coil_warmer_than_the_air_is_refused() -> None:
    with pytest.raises(OutOfRange, match="air above coil is -1 K"):
        frost.water_per_heat(2.0, 0.8, 3.0)


def test_a_coil_above_freezing_does_not_frost() -> None:
    assert not frost.is_frosting(10.0, 0.9, 2.0)
    assert frost.is_frosting(2.0, 0.9, -6.0)
    assert not frost.is_frosting(2.0, 0.2, -6.0)


def test_the_coil_is_at_the_airs_temperature_without_load() -> None:
    assert frost.coil_temperature(3.0, 0.0) == 3.0


def test_heat_from_the_air_and_electricity_make_the_output() -> None:
    from_air = frost.evaporator_heat(6000.0, 4.0)
    assert from_air + 6000.0 / 4.0 == 6000.0
    assert frost.evaporator_heat(3000.0, 1.0) == 0.0


def test_twice_the_frost_takes_twice_the_heat() -> None:
    assert frost.defrost_heat_from_water(2.0) == 2.0 * frost.defrost_heat_from_water(1.0)


def test_more_water_cools_less() -> None:
    assert frost.water_cooling(4e5, 0.1) < frost.water_cooling(4e5, 0.05)


def test_no_frost_no_defrost() -> None:
    assert frost.defrosts_per_hour(0.0, 3600.0) == 0.0
    assert frost.defrosts_per_hour(1.0, frost.DEFROST_INTERVAL[0]) == 1.5


def test_slow_ground_lets_less_water_away() -> None:
    assert frost.infiltration(1.0, 6000.0) < frost.infiltration(1.0, 600.0)


def test_the_pit_that_holds_a_volume_has_that_volume_of_voids() -> None:
    pit = frost.soakaway_volume(0.05, 0.4)
    assert pit * 0.4 == pytest.approx(0.05)
    assert frost.pit_volume(1.0, 0.5, 0.25) == 0.125
