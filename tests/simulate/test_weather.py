from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone

import numpy as np
import psychrolib  # type: ignore[import-untyped]  # it carries no types
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.errors import OutOfRange
from hearthbook.simulate.weather import (
    Weather,
    averaged,
    local_time,
    month_of_hours,
    shared_out,
    slots_of,
)
from tests.simulate.invented_weather import invented

HOURS = st.lists(st.floats(0.0, 1200.0), min_size=1, max_size=24)


def test_temperature_is_that_of_the_hour_at_mid_hour_and_straight_between() -> None:
    weather = invented(days=1, outdoor_temperature=np.arange(24.0))
    outdoor = slots_of(weather).outdoor
    assert len(outdoor) == 97
    assert outdoor[2] == 0.0  # half past midnight
    assert outdoor[6] == 1.0
    assert outdoor[4] == pytest.approx(0.5)
    assert outdoor[-1] == 23.0  # level in the last half-hour


def test_humidity_is_that_of_the_reference_library_at_mid_hours() -> None:
    temperature = np.linspace(-12.0, 25.0, 24)
    humidity = np.linspace(1.0, 0.3, 24)
    weather = invented(days=1, outdoor_temperature=temperature, relative_humidity=humidity)
    psychrolib.SetUnitSystem(psychrolib.SI)
    expected = [
        psychrolib.GetHumRatioFromRelHum(t, h, 101_325.0)
        for t, h in zip(temperature, humidity, strict=True)
    ]
    np.testing.assert_allclose(slots_of(weather).humidity[2::4], expected, rtol=2e-3)


def test_humidity_never_exceeds_what_air_holds() -> None:
    temperature = np.tile([20.0, -10.0], 12)
    slots = slots_of(
        invented(days=1, outdoor_temperature=temperature, relative_humidity=np.ones(24))
    )
    psychrolib.SetUnitSystem(psychrolib.SI)
    most = [psychrolib.GetSatHumRatio(t, 101_325.0) for t in slots.outdoor]
    assert np.all(slots.humidity <= np.array(most) * 1.002)


def test_wind_holds_for_its_hour() -> None:
    weather = invented(days=1, wind_speed=np.arange(24.0))
    assert slots_of(weather).wind[:5].tolist() == [0.0, 0.0, 0.0, 0.0, 1.0]


@given(hours=HOURS, seed=st.integers(0, 99))
def test_sharing_an_hour_out_keeps_its_mean(hours: list[float], seed: int) -> None:
    hourly = np.array(hours)
    weights = np.random.default_rng(seed).uniform(-0.5, 1.0, 4 * len(hours))
    shared = shared_out(hourly, weights)
    assert np.all(shared >= 0.0)
    assert np.all(shared[weights <= 0.0] == 0.0)
    has_any = (weights.reshape(-1, 4) > 0.0).any(axis=1)
    np.testing.assert_allclose(shared.reshape(-1, 4).mean(axis=1), hourly * has_any, rtol=1e-12)


def test_damped_mean_reaches_63_percent_of_a_step_in_its_time_constant() -> None:
    outdoor = np.concatenate([np.zeros(4 * 24 + 1), np.full(4 * 24, 10.0)])
    damped = averaged(outdoor, hours=24.0)
    assert damped[-1] == pytest.approx(10.0 * (1.0 - np.exp(-1.0)), abs=1e-9)  # definition of a lag


def test_damped_mean_of_steady_air_is_that_air() -> None:
    np.testing.assert_allclose(averaged(np.full(50, 7.0), hours=36.0), 7.0)


def test_no_damping_leaves_the_air_as_it_is() -> None:
    outdoor = np.array([1.0, 5.0, 2.0])
    assert averaged(outdoor, hours=0.0).tolist() == outdoor.tolist()


def test_damping_beyond_ten_days_is_refused() -> None:
    with pytest.raises(OutOfRange, match="time constant of the outdoor mean is 500 h"):
        averaged(np.zeros(5), hours=500.0)


def test_months_go_by_local_standard_time() -> None:
    weather = invented(days=1, start=datetime(2001, 1, 31, 20, tzinfo=UTC), utc_offset=2.0)
    assert local_time(weather) == datetime(2001, 1, 31, 22)  # noqa: DTZ001 - local on purpose
    assert month_of_hours(weather)[:3].tolist() == [0, 0, 1]


def test_arrays_cannot_be_written_to() -> None:
    with pytest.raises(ValueError, match="read-only"):
        invented(days=1).wind_speed[0] = 3.0


def test_two_weathers_are_told_apart_and_may_be_keys() -> None:
    one, other = invented(days=1), invented(days=1)
    assert one != other
    assert len({one, other, one}) == 2


def _with(field: str, at: int, value: float) -> dict[str, object]:
    values = np.array(getattr(invented(days=2), field))
    values[at] = value
    return {field: values}


REFUSED = [
    (
        _with("outdoor_temperature", 3, 61.0),
        "temperature at 2001-01-01 03:00 UTC is 61 °C",
    ),
    (_with("outdoor_temperature", 3, np.nan), "outdoor temperature at 2001-01-01 03:00 UTC is nan"),
    (_with("relative_humidity", 30, 1.01), r"humidity at 2001-01-02 06:00 UTC is 1.01 of 1"),
    (_with("wind_speed", 0, -0.1), "wind speed at 2001-01-01 00:00 UTC is -0.1 m/s"),
    (_with("global_horizontal", 12, 1501.0), "global radiation .* is 1501 W/m²; .* 0 and 1500"),
    (_with("diffuse_horizontal", 12, np.inf), "diffuse radiation at 2001-01-01 12:00 UTC is inf"),
    (_with("direct_normal", 12, -1.0), "direct radiation at 2001-01-01 12:00 UTC is -1 W/m²"),
    ({"wind_speed": np.zeros(24)}, "wind speed has 24 hours and its outdoor temperature has 48"),
    ({"outdoor_temperature": np.zeros(25)}, "outdoor temperature has 25 hours; .* whole days"),
    ({"outdoor_temperature": np.zeros(0)}, "outdoor temperature has 0 hours"),
    ({"latitude": 91.0}, "latitude is 91 °; it must lie between -90 and 90"),
    ({"longitude": float("nan")}, "longitude is nan °"),
    ({"utc_offset": 15.0}, "offset from UTC is 15 h"),
    ({"start": datetime(2001, 1, 1)}, "start is 2001-01-01 00:00:00; it must be in UTC"),  # noqa: DTZ001 - the fault
    (
        {"start": datetime(2001, 1, 1, tzinfo=timezone(timedelta(hours=1)))},
        r"start is 2001-01-01 00:00:00\+01:00; it must be in UTC",
    ),
    (
        {"start": datetime(2001, 1, 1, 0, 50, tzinfo=UTC)},
        "UTC; it must be a whole quarter",
    ),
]


@pytest.mark.parametrize(("change", "message"), REFUSED)
def test_weather_that_cannot_be_is_refused(change: dict[str, object], message: str) -> None:
    weather: Weather = invented(days=2)
    with pytest.raises(OutOfRange, match=message):
        replace(weather, **change)  # type: ignore[arg-type]  # wrong on purpose
