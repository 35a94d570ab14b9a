from __future__ import annotations

from datetime import UTC, datetime

import numpy as np
import pandas as pd  # type: ignore[import-untyped]  # it carries no types
import pvlib  # type: ignore[import-untyped]  # it carries no types
import pytest

from hearthbook.errors import OutOfRange
from hearthbook.simulate.monthly_normals import Normals
from hearthbook.simulate.sky import above_air, diffuse_share, position
from hearthbook.simulate.sun import (
    glass_modifier,
    glass_modifier_diffuse,
    incidence_angle,
    irradiance_on,
    irradiance_through_glass,
    on_plane,
    sun_of,
)
from hearthbook.simulate.weather import Weather
from hearthbook.simulate.weather_generator import generate
from tests.simulate.invented_weather import invented

QUARTERS = {"north": 0.0, "east": 90.0, "south": 180.0, "west": 270.0}


@pytest.fixture(scope="module")
def year() -> Weather:
    temperatures = (3.5, 3.9, 6.0, 8.7, 12.1, 15.1, 17.2, 16.8, 14.0, 10.4, 6.6, 4.1)
    return generate(Normals(temperatures), 52.0, -1.5, 100.0, seed=7)


def test_position_is_that_of_the_reference_library_all_year() -> None:
    times = pd.date_range("2001-01-01 00:20", periods=400, freq="21h", tz="UTC")
    expected = pvlib.solarposition.get_solarposition(times, 52.0, -1.5)
    ours = position(np.array([one.timestamp() for one in times]), 52.0, -1.5)
    np.testing.assert_allclose(ours.zenith, expected["zenith"], atol=0.01)
    np.testing.assert_allclose(ours.apparent_zenith, expected["apparent_zenith"], atol=0.02)
    np.testing.assert_allclose(ours.azimuth, expected["azimuth"], atol=0.02)


def test_incidence_is_that_of_the_reference_library() -> None:
    zenith = np.linspace(20.0, 89.0, 40)
    azimuth = np.linspace(60.0, 300.0, 40)
    for plane in QUARTERS.values():
        for tilt in (0.0, 35.0, 90.0):
            expected = pvlib.irradiance.aoi(tilt, plane, zenith, azimuth)
            ours = incidence_angle(plane, tilt, zenith, azimuth)
            np.testing.assert_allclose(ours, expected, atol=1e-5)


def test_diffuse_share_is_that_of_the_reference_library() -> None:
    clearness = np.linspace(0.02, 0.95, 60)
    zenith = np.full(60, 50.0)
    above = pvlib.irradiance.get_extra_radiation(100)
    radiation = clearness * above * np.cos(np.radians(zenith))
    expected = pvlib.irradiance.erbs(radiation, zenith, 100)
    np.testing.assert_allclose(diffuse_share(clearness) * radiation, expected["dhi"], rtol=1e-6)


def test_sun_above_the_air_is_nearest_in_january() -> None:
    days = np.array([datetime(2001, 1, 3, tzinfo=UTC), datetime(2001, 7, 4, tzinfo=UTC)])
    january, july = np.asarray(above_air(np.array([day.timestamp() for day in days])))
    assert january / july == pytest.approx((1.0167 / 0.9833) ** 2, rel=3e-3)  # orbit, from memory


def test_upright_year_sums_are_those_of_the_reference_library_at_mid_hour(year: Weather) -> None:
    times = pd.DatetimeIndex(
        pd.date_range(year.start, periods=year.hours, freq="h") + pd.Timedelta(minutes=30)
    )
    stand = pvlib.solarposition.get_solarposition(times, year.latitude, year.longitude)
    for azimuth in QUARTERS.values():
        expected = pvlib.irradiance.get_total_irradiance(
            90.0, azimuth, stand["apparent_zenith"], stand["azimuth"],
            year.direct_normal, year.global_horizontal, year.diffuse_horizontal,
            dni_extra=pvlib.irradiance.get_extra_radiation(times.day_of_year.to_numpy()),
            airmass=pvlib.atmosphere.get_relative_airmass(stand["apparent_zenith"]),
            albedo=0.2, model="perez",
        )["poa_global"].fillna(0.0)  # fmt: skip
        ours = irradiance_on(year, azimuth, 90.0)
        assert ours.mean() == pytest.approx(expected.mean(), rel=0.03)


def test_level_plane_has_the_global_radiation(year: Weather) -> None:
    level = irradiance_on(year, 180.0, 0.0)
    assert level.mean() == pytest.approx(year.global_horizontal.mean(), rel=0.01)


def test_every_hour_keeps_its_mean_and_night_is_dark(year: Weather) -> None:
    sun = sun_of(year)
    for ours, hourly in (
        (sun.global_horizontal, year.global_horizontal),
        (sun.diffuse_horizontal, year.diffuse_horizontal),
        (sun.direct_normal, year.direct_normal),
    ):
        np.testing.assert_allclose(ours.reshape(-1, 4).mean(axis=1), hourly, atol=1e-9)
        assert np.all(ours[sun.zenith >= 90.0] == 0.0)
        assert np.all(ours >= 0.0)


def test_south_wall_has_more_winter_sun_than_any_other_and_north_least(year: Weather) -> None:
    january = {
        name: irradiance_on(year, azimuth, 90.0)[: 31 * 96].mean()
        for name, azimuth in QUARTERS.items()
    }
    assert january["south"] > max(january["east"], january["west"])
    assert january["north"] < min(january["east"], january["west"])


def test_nothing_falls_in_the_dark() -> None:
    dark = invented(
        days=1,
        global_horizontal=np.zeros(24),
        diffuse_horizontal=np.zeros(24),
    )
    assert np.all(irradiance_on(dark, 180.0, 90.0) == 0.0)
    assert np.all(irradiance_through_glass(dark, 180.0, 90.0) == 0.0)


def test_glass_lets_through_less_than_falls_on_it(year: Weather) -> None:
    for azimuth in QUARTERS.values():
        share = (
            irradiance_through_glass(year, azimuth, 90.0).mean()
            / irradiance_on(year, azimuth, 90.0).mean()
        )
        assert 0.80 < share < 0.95  # 0.9 is the usual correction: common practice, no source


def test_glass_modifier_falls_from_one_to_nothing() -> None:
    values = np.asarray(glass_modifier(np.linspace(0.0, 120.0, 200)))
    assert values[0] == 1.0
    assert values[-1] == 0.0
    assert np.all(np.diff(values) <= 1e-12)


def test_even_light_passes_less_well_than_straight_light() -> None:
    assert 0.82 < glass_modifier_diffuse() < 0.9  # 0.85 to 0.9 for double glazing, from memory


def test_same_weather_gives_the_very_same_sun(year: Weather) -> None:
    assert sun_of(year) is sun_of(year)


def test_tilt_beyond_upside_down_is_refused() -> None:
    with pytest.raises(OutOfRange, match="tilt of a plane is 190 °"):
        on_plane(100.0, 50.0, 60.0, 180.0, 100.0, (180.0, 190.0))


def test_direct_light_below_the_horizon_counts_for_nothing() -> None:
    below = on_plane(500.0, 0.0, 95.0, 180.0, 100.0, (180.0, 90.0))
    assert float(below.total[0]) == 0.0


def test_southern_sun_shines_on_north_walls() -> None:
    months = (22.0, 22, 20, 17, 14, 11, 10, 12, 14, 16, 18, 20)
    south = generate(Normals(months), -35.0, 150.0, 20.0, seed=1)
    winter = slice(151 * 96, 243 * 96)
    assert (
        irradiance_on(south, 0.0, 90.0)[winter].mean()
        > 2.0 * irradiance_on(south, 180.0, 90.0)[winter].mean()
    )
