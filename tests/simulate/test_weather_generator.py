from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hearthbook.errors import Incomplete, OutOfRange
from hearthbook.record.building import Climate
from hearthbook.simulate.monthly_normals import Normals, completed, normals_of
from hearthbook.simulate.weather import Weather, month_of_hours
from hearthbook.simulate.weather_generator import generate
from hearthbook.units import Array

MARITIME = (4.5, 4.8, 6.6, 8.9, 12.0, 14.9, 17.0, 16.7, 14.2, 10.8, 7.2, 4.9)
INLAND = (-3.0, -1.5, 3.0, 8.5, 14.0, 17.0, 19.0, 18.5, 14.0, 8.5, 3.0, -1.5)
FULL = Normals(
    INLAND,
    daily_range=(5.0, 7, 9, 11, 11, 11, 12, 12, 11, 8, 5, 4.5),
    relative_humidity=(0.86, 0.82, 0.75, 0.68, 0.68, 0.69, 0.69, 0.7, 0.76, 0.83, 0.87, 0.88),
    global_horizontal=(40.0, 72, 122, 173, 213, 229, 226, 195, 142, 84, 45, 32),
    wind_speed=(3.4, 3.3, 3.3, 3.0, 2.7, 2.6, 2.6, 2.4, 2.5, 2.7, 3.0, 3.2),
    spread=5.5,
)


def _means(weather: Weather, values: Array) -> Array:
    months = month_of_hours(weather)
    return np.array([values[months == month].mean() for month in range(12)])


@pytest.fixture(scope="module")
def inland() -> Weather:
    return generate(FULL, 48.0, 12.0, 450.0, seed=3)


@settings(max_examples=10, deadline=None)
@given(
    middle=st.floats(-3.0, 15.0),
    swing=st.floats(0.0, 12.0),
    latitude=st.floats(-65.0, 65.0),
    seed=st.integers(0, 2**31),
)
def test_monthly_means_are_the_normals(
    middle: float, swing: float, latitude: float, seed: int
) -> None:
    side = 1.0 if latitude >= 0.0 else -1.0
    months = middle - side * swing * np.cos(2 * np.pi * np.arange(12) / 12)
    normals, _ = completed(Normals(tuple(months.tolist())), latitude)
    made = generate(normals, latitude, 10.0, 100.0, seed=seed)
    for values, expected in (
        (made.outdoor_temperature, normals.mean_temperature),
        (made.relative_humidity, normals.relative_humidity),
        (made.global_horizontal, normals.global_horizontal),
        (made.wind_speed, normals.wind_speed),
    ):
        assert expected is not None
        np.testing.assert_allclose(_means(made, values), np.array(expected), atol=1e-8)


def test_several_years_have_the_normals_together_and_each_its_own_january() -> None:
    made = generate(Normals(MARITIME), 52.0, -1.0, 60.0, seed=5, years=4)
    assert made.hours == 4 * 8760 + 24  # the fourth year has a 29 February
    np.testing.assert_allclose(
        _means(made, made.outdoor_temperature), np.array(MARITIME), atol=1e-9
    )
    januaries = [made.outdoor_temperature[n * 8760 : n * 8760 + 744].mean() for n in range(4)]
    assert 0.3 < np.std(januaries) < 3.0


@pytest.mark.parametrize("seed", range(5))
def test_each_day_keeps_most_of_the_day_before(seed: int) -> None:
    made = generate(Normals(MARITIME), 52.0, -1.0, 60.0, seed=seed)
    days = made.outdoor_temperature.reshape(-1, 24).mean(axis=1)
    months = month_of_hours(made)[::24]
    departures = days - _means(made, made.outdoor_temperature)[months]
    assert 0.5 < np.corrcoef(departures[1:], departures[:-1])[0, 1] < 0.9


def test_the_same_seed_makes_the_same_weather_and_another_another() -> None:
    one, same, other = (
        generate(Normals(MARITIME), 52.0, 0.0, 0.0, seed=seed) for seed in (11, 11, 12)
    )
    for field in ("outdoor_temperature", "relative_humidity", "wind_speed", "direct_normal"):
        assert np.array_equal(getattr(one, field), getattr(same, field))
        assert not np.array_equal(getattr(one, field), getattr(other, field))


def test_hourly_spread_and_daily_range_are_near_what_was_asked(inland: Weather) -> None:
    months = month_of_hours(inland)
    departures = inland.outdoor_temperature - np.array(INLAND)[months]
    assert departures.std() == pytest.approx(FULL.spread, rel=0.15)
    ranges = np.ptp(inland.outdoor_temperature.reshape(-1, 24), axis=1)
    assert ranges.mean() == pytest.approx(np.mean(FULL.daily_range or ()), rel=0.2)


def test_clear_winter_days_are_colder_and_drier_than_dull_ones(inland: Weather) -> None:
    winter = np.isin(month_of_hours(inland)[::24], (0, 1, 11))
    days = {
        field: getattr(inland, field).reshape(-1, 24).mean(axis=1)[winter]
        for field in ("outdoor_temperature", "global_horizontal", "relative_humidity")
    }
    clear = days["global_horizontal"] > np.quantile(days["global_horizontal"], 0.75)
    dull = days["global_horizontal"] < np.quantile(days["global_horizontal"], 0.25)
    for field in ("outdoor_temperature", "relative_humidity"):
        assert days[field][clear].mean() < days[field][dull].mean()


def test_afternoons_are_warmer_and_drier_than_nights(inland: Weather) -> None:
    temperature = inland.outdoor_temperature.reshape(-1, 24).mean(axis=0)
    humidity = inland.relative_humidity.reshape(-1, 24).mean(axis=0)
    assert 12 <= int(np.argmax(temperature)) <= 16
    assert 2 <= int(np.argmin(temperature)) <= 6
    assert humidity[14] < humidity[4]


def test_fog_happens_and_air_is_never_wetter_than_full(inland: Weather) -> None:
    assert inland.relative_humidity.max() <= 1.0
    assert np.mean(inland.relative_humidity > 0.95) > 0.02


def test_radiation_adds_up_and_stays_below_that_above_the_air(inland: Weather) -> None:
    assert np.all(inland.diffuse_horizontal <= inland.global_horizontal + 1e-9)
    assert inland.direct_normal.max() < 1100.0
    share = inland.diffuse_horizontal.sum() / inland.global_horizontal.sum()
    assert 0.4 < share < 0.65  # half or so in a temperate climate: common practice, no source


def test_local_midnight_begins_the_year_east_and_west() -> None:
    east = generate(Normals(MARITIME), 52.0, 15.0, 0.0, seed=1)
    assert (east.utc_offset, east.start.isoformat()) == (1.0, "2000-12-31T23:00:00+00:00")


def test_what_was_taken_as_usual_is_named() -> None:
    made = generate(Normals(MARITIME, wind_speed=(3.0,) * 12), 52.0, 0.0, 0.0, seed=1)
    assert made.is_generated
    assert made.source == (
        "generated from twelve monthly normals; usual for a mild climate, without a source: "
        "daily range of temperature, relative humidity, global radiation"
    )
    assert generate(FULL, 48.0, 12.0, 450.0, seed=1).source == (
        "generated from twelve monthly normals"
    )


def test_usual_months_of_a_southern_place_come_half_a_year_later() -> None:
    southern = (*MARITIME[6:], *MARITIME[:6])
    north, _ = completed(Normals(MARITIME), 45.0)
    south, _ = completed(Normals(southern), -45.0)
    assert south.relative_humidity is not None
    assert north.relative_humidity is not None
    assert south.relative_humidity[0] == north.relative_humidity[6]
    assert south.global_horizontal is not None
    assert south.global_horizontal[0] > 5 * south.global_horizontal[5]


def test_record_gives_its_months_with_the_spread_it_knows() -> None:
    wind = (4.0,) * 12
    climate = Climate.model_validate(
        {
            "monthly_mean_temperatures": MARITIME,
            "monthly_relative_humidity": (85,) * 12,
            "monthly_wind_speed": wind,
            "hourly_spread": 4.1,
        }
    )
    normals = normals_of(climate)
    assert normals == Normals(MARITIME, relative_humidity=(0.85,) * 12, wind_speed=wind, spread=4.1)


def test_record_without_months_takes_those_offered_or_says_what_is_missing() -> None:
    assert normals_of(Climate(), MARITIME).mean_temperature == MARITIME
    with pytest.raises(Incomplete, match=r"monthly_mean_temperatures is missing; .* weather_file"):
        normals_of(Climate())


REFUSED = [
    (
        (*MARITIME[6:], *MARITIME[:6]), 52.0,
        r"July \(4 °C\) is colder than January \(17 °C\) at a latitude of 52° north: wrong hem",
    ),
    (
        MARITIME, -42.0,
        r"July \(17 °C\) is warmer than January \(4 °C\) at a latitude of 42° south: wrong hem",
    ),
    (MARITIME, 70.0, "latitude is 70 °; it must lie between -66 and 66"),
]  # fmt: skip


@pytest.mark.parametrize(("months", "latitude", "message"), REFUSED)
def test_a_place_that_cannot_be_is_refused(
    months: tuple[float, ...], latitude: float, message: str
) -> None:
    with pytest.raises(OutOfRange, match=message):
        generate(Normals(months), latitude, 0.0, 0.0, seed=1)


@pytest.mark.parametrize("latitude", [-20.0, 20.0])
def test_between_the_tropics_months_say_nothing_of_the_hemisphere(latitude: float) -> None:
    generate(Normals((24.0,) * 6 + (25.0,) * 6), latitude, 0.0, 0.0, seed=1)


def test_thirty_one_years_are_refused() -> None:
    with pytest.raises(OutOfRange, match="years of weather to make is 31 years"):
        generate(Normals(MARITIME), 52.0, 0.0, 0.0, seed=1, years=31)


def test_more_sun_than_the_sky_gives_is_refused() -> None:
    with pytest.raises(OutOfRange, match=r"month 12 is 90 W/m².* cannot be more than 57 W/m²"):
        generate(Normals(MARITIME, global_horizontal=(90.0,) * 12), 52.0, 0.0, 0.0, seed=1)


def test_normals_must_be_twelve_numbers_in_range() -> None:
    with pytest.raises(OutOfRange, match="monthly mean temperature has 11 values"):
        Normals(MARITIME[:11])
    with pytest.raises(OutOfRange, match="monthly relative humidity is 85 of 1"):
        Normals(MARITIME, relative_humidity=(85.0,) * 12)
    with pytest.raises(OutOfRange, match="monthly wind speed is nan m/s"):
        Normals(MARITIME, wind_speed=(float("nan"),) * 12)
