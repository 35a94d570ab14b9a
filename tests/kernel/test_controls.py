"""What the controls of a home decide, rule by rule; rules are common practice, no source."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.kernel.controls_step import (
    between,
    decide,
    hot_water_target,
    switch_backup,
    switch_compressor,
)
from hearthbook.kernel.state import DEFROST, DRIP, HEATING, HOT_WATER, REST
from tests.kernel.plant_at_hand import driver, plant, state

STEP = 60.0
HOT = 60.0  # °C at the cylinder's sensor: nothing to do there


@given(st.floats(-20.0, 90.0), st.floats(-5.0, 5.0))
def test_flow_asked_for_stays_within_the_curves_limits(curve: float, shift: float) -> None:
    home, now = plant(flow_shift=shift, curve_least=25, curve_most=50), state()
    decide(home, now, driver(curve_flow=curve), 0.0, HOT)
    assert 25.0 <= now.target <= 50.0
    if 25.0 <= curve + shift <= 50.0:
        assert now.target == pytest.approx(curve + shift)


def test_a_cold_room_raises_the_flow_by_the_rooms_influence() -> None:
    now = state()
    decide(plant(room_influence=3.0), now, driver(curve_flow=35.0), 0.5, HOT)
    assert now.target == pytest.approx(36.5)


@pytest.mark.parametrize(
    ("slot", "mode"),
    [
        ({}, HEATING),
        ({"heating_allowed": 0.0}, REST),
        ({"outdoor_mean": 16.5}, REST),  # limit 16 °C
        ({"outdoor_mean": 15.5}, HEATING),
    ],
)
def test_heating_rests_when_not_allowed_and_in_summer(slot: dict[str, float], mode: int) -> None:
    now = state()
    decide(plant(), now, driver(**slot), 0.0, HOT)
    assert now.mode == mode


@pytest.mark.parametrize("place", ["unit", "flow", "back"])
def test_water_near_freezing_is_warmed_even_in_summer_stop(place: str) -> None:
    home, now = plant(), state(**{place: 4.0})
    decide(home, now, driver(heating_allowed=0.0, outdoor_mean=25.0), 0.0, HOT)
    assert now.mode == HEATING


def test_the_thermostat_stops_and_releases_with_its_hysteresis_between() -> None:
    home, now = plant(thermostat_shift=1.5, thermostat_hysteresis=0.5), state()
    modes = []
    for short in (0.0, -1.7, -1.8, -1.6, -1.3, -1.2):
        decide(home, now, driver(), short, HOT)
        modes.append(int(now.mode))
    assert modes == [HEATING, HEATING, REST, REST, REST, HEATING]


def test_hot_water_begins_below_its_hysteresis_and_ends_at_its_setting() -> None:
    home, now = plant(hot_water_set=50, hot_water_hysteresis=6), state()
    modes = []
    for sensor in (44.5, 43.9, 47.0, 49.9, 50.0):
        decide(home, now, driver(), 0.0, sensor)
        modes.append(int(now.mode))
    assert modes == [HEATING, HOT_WATER, HOT_WATER, HOT_WATER, HEATING]
    assert now.since_hot_water == 0.0


def test_rooms_get_their_turn_after_the_longest_hot_water() -> None:
    home, now = plant(hot_water_longest=5400, hot_water_rest=1800), state()
    decide(home, now, driver(), 0.0, 30.0)
    now.mode_seconds = 5400.0
    decide(home, now, driver(), 0.0, 35.0)
    assert now.mode == HEATING
    now.since_hot_water = 1799.0
    decide(home, now, driver(), 0.0, 35.0)
    assert now.mode == HEATING
    now.since_hot_water = 1800.0
    decide(home, now, driver(), 0.0, 35.0)
    assert now.mode == HOT_WATER


def test_hot_water_waits_for_its_window_but_a_hygiene_run_does_not() -> None:
    shut = driver(hot_water_allowed=0.0)
    now = state()
    decide(plant(), now, shut, 0.0, 30.0)
    assert now.mode == HEATING
    now = state(hygiene=1.0)
    decide(plant(), now, shut, 0.0, 50.0)
    assert now.mode == HOT_WATER
    assert hot_water_target(plant(), now) == 55.0  # the unit's part of 60 °C


def test_a_home_without_cylinder_never_makes_hot_water() -> None:
    now = state()
    decide(plant(has_cylinder=0), now, driver(), 0.0, 5.0)
    assert now.mode == HEATING


def test_no_hot_water_is_begun_in_air_too_cold_for_the_compressor() -> None:
    """Else the diverter keeps the rooms from the backup heater for nothing."""
    home = plant(lowest_outdoor=-20)
    for outdoor, mode in ((-19.0, HOT_WATER), (-21.0, HEATING)):
        now = state()
        decide(home, now, driver(outdoor=outdoor), 0.0, 30.0)
        assert now.mode == mode


def test_a_full_coat_of_frost_calls_for_a_defrost_only_while_running() -> None:
    home = plant(frost_to_defrost=1.2)
    running, resting = state(frost=1.2, compressor=1.0), state(frost=1.2)
    for now in (running, resting):
        decide(home, now, driver(), 0.0, HOT)
    assert (running.mode, resting.mode) == (DEFROST, HEATING)


def test_a_defrost_ends_clear_of_frost_or_out_of_time_or_of_warm_water() -> None:
    home = plant(defrost_longest=480, defrost_lowest_flow=12)
    for fields, mode in (
        ({"frost": 0.5, "mode_seconds": 120.0}, DEFROST),
        ({"frost": 0.0, "mode_seconds": 120.0}, DRIP),
        ({"frost": 0.5, "mode_seconds": 480.0}, DRIP),
        ({"frost": 0.5, "mode_seconds": 120.0, "unit": 11.9}, DRIP),
    ):
        now = state(mode=DEFROST, compressor=1.0, **fields)
        decide(home, now, driver(), 0.0, HOT)
        assert now.mode == mode, fields
    now = state(mode=DRIP, mode_seconds=0.0, compressor=1.0)
    decide(home, now, driver(), 0.0, HOT)
    assert now.mode == DRIP
    now.mode_seconds = 60.0
    decide(home, now, driver(), 0.0, HOT)
    assert now.mode == HEATING


def test_a_compressor_rests_and_runs_its_least() -> None:
    home = plant(least_run=480, least_rest=360, flow_hysteresis=3)
    now = state(mode=HEATING, mode_seconds=7200.0, target=35.0, unit=25.0, since_stop=300.0)
    assert not switch_compressor(home, now, 5.0, True, STEP)
    assert switch_compressor(home, now, 5.0, True, STEP)
    assert now.start_debt == home.start_loss
    now.unit = 45.0  # far above its target
    ran = 0
    while now.compressor > 0.0:
        switch_compressor(home, now, 5.0, True, STEP)
        ran += 1
    assert ran * STEP == 480.0


def test_a_compressor_rides_over_the_hot_water_left_in_the_unit() -> None:
    """Without a stop, and so without a start more, for each run of hot water."""
    home = plant(least_run=480, flow_hysteresis=3, hot_water_set=50, highest_flow=60)
    now = state(mode=HOT_WATER, mode_seconds=2400.0, compressor=1.0, since_start=9000.0, unit=54.0)
    decide(home, now, driver(curve_flow=35.0), 0.0, HOT)
    assert (now.mode, now.mode_seconds) == (HEATING, 0.0)
    for unit in (54.0, 46.0, 39.0, 36.0, 35.0, 35.0, 35.0, 35.0, 35.0):
        now.unit = unit
        assert not switch_compressor(home, now, 5.0, True, STEP)
        assert now.compressor == 1.0
        now.mode_seconds += STEP
    now.unit = 39.0  # the radiators take too little for long: it stops as ever
    switch_compressor(home, now, 5.0, True, STEP)
    assert now.compressor == 0.0


@pytest.mark.parametrize(
    ("outdoor", "is_flow_enough", "unit"),
    [(-21.0, True, 25.0), (5.0, False, 25.0), (5.0, True, 61.5)],
)
def test_a_compressor_stops_at_once_where_it_may_not_run(
    outdoor: float, is_flow_enough: bool, unit: float
) -> None:
    now = state(mode=HEATING, target=35.0, unit=unit, compressor=1.0, since_start=60.0)
    switch_compressor(
        plant(lowest_outdoor=-20, highest_flow=60), now, outdoor, is_flow_enough, STEP
    )
    assert now.compressor == 0.0


def test_the_backup_heater_waits_its_time_and_stops_at_the_target() -> None:
    home = plant(backup_power=3000, backup_locked_above=-3, backup_after=1800, backup_shortfall=4)
    now = state(mode=HEATING, target=45.0, flow=40.0)
    given = [float(switch_backup(home, now, -5.0, True, STEP)) for _ in range(31)]
    assert given == [0.0] * 29 + [3000.0] * 2
    now.flow = 44.0
    assert float(switch_backup(home, now, -5.0, True, STEP)) == 3000.0
    now.flow = 45.0
    assert float(switch_backup(home, now, -5.0, True, STEP)) == 0.0


@pytest.mark.parametrize(
    "fields",
    [{"outdoor": -2.0}, {"is_at_most": False}, {"mode": HOT_WATER}, {"power": 0.0}],
)
def test_the_backup_heater_stays_off_where_it_is_locked(fields: dict[str, float]) -> None:
    home = plant(backup_power=fields.get("power", 3000.0), backup_locked_above=-3, backup_after=60)
    now = state(mode=fields.get("mode", HEATING), target=45.0, flow=30.0)
    for _ in range(100):
        given = switch_backup(
            home, now, fields.get("outdoor", -5.0), bool(fields.get("is_at_most", True)), STEP
        )
        assert float(given) == 0.0


def test_weather_runs_straight_between_two_slots() -> None:
    early, late = driver(outdoor=-4.0, humidity=0.002), driver(outdoor=0.0, humidity=0.003)
    assert between(early, late, 0.25) == pytest.approx((-3.0, 0.00225))
