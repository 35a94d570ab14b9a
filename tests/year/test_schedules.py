"""A home's drivers: clock, people, controls and prices laid over its weather."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime

import numpy as np
import pytest
from numpy.typing import NDArray

from hearthbook.design.prices import mean_price
from hearthbook.design.results import Design, design_home
from hearthbook.design.true_curve import set_flow_temperature
from hearthbook.errors import NotFound, OutOfRange
from hearthbook.physics.hot_water import draw_energy
from hearthbook.record.building import RoomUse
from hearthbook.record.controls import Controls, Window
from hearthbook.record.home import Home
from hearthbook.record.household import Occupancy
from hearthbook.record.tariff import RateBand
from hearthbook.simulate.calendar_time import CivilTime
from hearthbook.simulate.drivers import Drivers
from hearthbook.simulate.home_model import Glazing
from hearthbook.simulate.weather import Weather
from hearthbook.survey import answers
from hearthbook.year.schedules import Changes, ColderStretch, build_drivers

DAY = 96  # slots


def _weather(days: int = 365, *, level: float | None = None, sun: float = 0.0) -> Weather:
    """A made-up year: 10 °C on average, coldest in late January and before sunrise; or level."""
    hours = np.arange(days * 24)
    outdoor = (
        10.0
        - 7.0 * np.cos(2 * np.pi * (hours / 24 - 25) / 365)
        - 3.0 * np.cos(2 * np.pi * (hours % 24 - 4) / 24)
    )
    return Weather(
        source="made up for a test",
        is_generated=True,
        latitude=52.0,
        longitude=0.0,
        altitude=50.0,
        utc_offset=0.0,
        start=datetime(2025, 1, 1, tzinfo=UTC),
        outdoor_temperature=outdoor if level is None else np.full(hours.size, level),
        relative_humidity=np.full(hours.size, 0.8),
        wind_speed=np.full(hours.size, 3.0),
        global_horizontal=np.full(hours.size, sun),
        diffuse_horizontal=np.full(hours.size, sun),
        direct_normal=np.zeros(hours.size),
    )


YEAR, WEEKS = _weather(), _weather(28)


@pytest.fixture(scope="module")
def design(well_done_home: Home) -> Design:
    return design_home(well_done_home)


@pytest.fixture(scope="module")
def faulty_design(faulty_home: Home) -> Design:
    return design_home(faulty_home)


@pytest.fixture(scope="module")
def year(design: Design) -> Drivers:
    return build_drivers(design, YEAR, ())


def _clock(drivers: Drivers) -> CivilTime:
    assert drivers.calendar is not None
    return drivers.calendar


def _set(design: Design, **controls: object) -> Design:
    """The same design with other controls in its record and its curve."""
    changed: Controls = design.home.controls.model_copy(update=controls)
    return replace(
        design,
        home=design.home.model_copy(update={"controls": changed}),
        curve=replace(design.curve, controls=changed),
    )


def _by_day(drivers: Drivers, values: NDArray[np.float64]) -> NDArray[np.float64]:
    day = _clock(drivers).day
    return np.asarray(np.bincount(day, values) / np.bincount(day))


# -- people ------------------------------------------------------------------------------------


def test_each_day_has_the_gains_the_design_counts(design: Design, year: Drivers) -> None:
    mean = answers.internal_gains(design.home, design.heat_loss.floor_area).value
    assert _by_day(year, year.gains.sum(axis=1)) == pytest.approx(np.full(365, mean))


def test_a_kitchen_warms_itself_more_than_a_hall(design: Design, year: Drivers) -> None:
    mean = {
        each.room.use: gain / each.floor_area.value
        for each, gain in zip(design.heat_loss.rooms, year.gains.mean(axis=0), strict=True)
    }
    kitchen, living = mean[RoomUse.KITCHEN], mean[RoomUse.LIVING]
    assert kitchen > living > mean[RoomUse.BEDROOM] > mean[RoomUse.HALL] > 0.0


def test_bedrooms_are_warmed_by_night_and_living_rooms_by_evening(
    design: Design, year: Drivers
) -> None:
    hours = _clock(year).minute // 60
    uses = [each.room.use for each in design.heat_loss.rooms]
    living, bedroom = uses.index(RoomUse.LIVING), uses.index(RoomUse.BEDROOM)
    night, evening = hours == 3, hours == 20
    assert year.gains[night, bedroom].mean() > year.gains[evening, bedroom].mean()
    assert year.gains[night, living].mean() < year.gains[evening, living].mean()


def test_a_household_out_by_day_warms_its_evenings_instead(design: Design) -> None:
    away = design.home.household.model_copy(update={"occupancy": Occupancy.OUT_BY_DAY})
    out = replace(design, home=design.home.model_copy(update={"household": away}))
    at_home, gone = (build_drivers(each, WEEKS, ()) for each in (design, out))
    clock = _clock(gone)
    noon = (clock.minute // 60 == 12) & (clock.weekday < 5)
    weekend = clock.weekday >= 5
    assert gone.gains[noon].sum() < 0.7 * at_home.gains[noon].sum()
    assert gone.gains[weekend] == pytest.approx(at_home.gains[weekend])
    assert gone.gains.sum() == pytest.approx(at_home.gains.sum())


def test_the_heat_of_hot_water_is_the_designs_month_by_month(design: Design, year: Drivers) -> None:
    # Source of the figure: SAP 2012 tables 1c and 1d through the design; here the sum of minutes.
    assert design.hot_water is not None
    mass = year.draws.reshape(-1, 15).sum(axis=1)
    heat = mass * draw_energy(1e-3, 40.0, year.slots["cold_water"][:-1])
    assert np.sum(heat) == pytest.approx(design.hot_water.demand.drawn.value, rel=1e-9)


def test_the_same_seed_gives_the_same_draws(design: Design, year: Drivers) -> None:
    again, other = build_drivers(design, YEAR, ()), build_drivers(design, YEAR, (), seed=5)
    assert np.array_equal(year.draws, again.draws)
    assert not np.array_equal(year.draws, other.draws)
    assert np.array_equal(year.slots, other.slots)


# -- clock and controls ------------------------------------------------------------------------


def test_days_are_those_of_the_local_calendar(year: Drivers) -> None:
    lengths = np.bincount(year.slots["day"][:-1])
    assert (lengths[88], lengths[298]) == (92, 100)
    assert year.slots["day"][-1] == 364


def test_hot_water_is_made_in_its_windows_by_the_clock(year: Drivers) -> None:
    clock, allowed = _clock(year), year.slots["hot_water_allowed"][:-1]
    hours = clock.minute // 60
    expected = np.isin(hours, [2, 3, 4, 13, 14, 15])
    assert np.array_equal(allowed > 0.0, expected)
    assert allowed[180 * DAY + 4 : 180 * DAY + 16].all(), "02:00 to 05:00 is 01:00 to 04:00 UTC"


def test_without_windows_hot_water_is_always_allowed(design: Design) -> None:
    free = build_drivers(_set(design, hot_water_windows=()), WEEKS, ())
    assert free.slots["hot_water_allowed"].all()


def test_quiet_hours_run_over_midnight(year: Drivers) -> None:
    quiet = year.slots["quiet"][:DAY]
    assert quiet[:26].all()
    assert quiet[90:].all()
    assert quiet.sum() == 32


def test_no_quiet_window_means_no_quiet_hours(design: Design) -> None:
    assert not build_drivers(_set(design, quiet_window=None), WEEKS, ()).slots["quiet"].any()


def test_the_hygiene_run_comes_once_a_week_on_its_day(year: Drivers) -> None:
    clock = _clock(year)
    due = np.flatnonzero(year.slots["hygiene_due"])
    assert due.size == 52
    assert set(clock.weekday[due].tolist()) == {6}
    assert set(clock.minute[due].tolist()) == {120}


def test_a_hygiene_run_every_so_many_days_and_one_in_the_lost_hour(design: Design) -> None:
    def due(every: float, start: str) -> NDArray[np.intp]:
        assert design.home.plant.cylinder is not None
        regime = design.home.plant.cylinder.hygiene
        assert regime is not None
        regime = regime.model_copy(update={"every": every * 86_400.0, "start": start})
        cylinder = design.home.plant.cylinder.model_copy(update={"hygiene": regime})
        plant = design.home.plant.model_copy(update={"cylinder": cylinder})
        changed = replace(design, home=design.home.model_copy(update={"plant": plant}))
        return np.flatnonzero(build_drivers(changed, YEAR, ()).slots["hygiene_due"])

    assert due(14, "02:00").size == 26
    assert due(1, "03:00").size == 365
    assert set(np.diff(due(3, "12:00")).tolist()) == {288, 284, 292}
    assert due(0, "01:30").size == 365, "the hour skipped in spring and repeated in autumn"


# -- curve and setback -------------------------------------------------------------------------


def test_the_curve_is_the_one_set_fed_with_the_averaged_temperature(design: Design) -> None:
    level = build_drivers(design, _weather(7, level=3.0), ())
    asked = set_flow_temperature(design.home.controls, 3.0)
    assert asked is not None
    assert level.slots["curve_flow"] == pytest.approx(np.full(7 * DAY + 1, float(asked)))


def test_the_averaged_temperature_swings_less_and_later(year: Drivers) -> None:
    outdoor, mean = year.slots["outdoor"][: 7 * DAY], year.slots["outdoor_mean"][: 7 * DAY]
    week = slice(DAY, None)
    assert np.ptp(mean[week]) < np.ptp(outdoor[week])
    assert np.argmin(mean[2 * DAY : 3 * DAY]) > np.argmin(outdoor[2 * DAY : 3 * DAY])


def test_without_a_recorded_curve_the_advised_one_is_run(design: Design) -> None:
    level = build_drivers(_set(design, curve=None), _weather(3, level=5.0), ())
    points = design.curve.fit.points
    line = np.interp(5.0, [each.outdoor.value for each in points],
                     [each.flow.value for each in points])  # fmt: skip
    assert level.slots["curve_flow"][50] == pytest.approx(line)


def test_a_setback_dips_the_rooms_and_the_curve_and_returns_a_little_above(
    design: Design, faulty_design: Design
) -> None:
    cold = _weather(3, level=2.0)
    night, steady = (
        build_drivers(design, cold, (), changes=Changes(setback=ColderStretch(by)))
        for by in (4.0, 0.0)
    )
    dip = night.wanted - steady.wanted
    inside = slice(22 * 4, 24 * 4 + 6 * 4)
    assert np.all(dip[inside] == -4.0)
    assert np.all(dip[30 * 4 : 46 * 4] == 0.0)
    flow = night.slots["curve_flow"] - steady.slots["curve_flow"]
    per_kelvin = -flow[25 * 4] / 4.0
    assert design.curve.room_influence_mild.value * 0.8 < per_kelvin
    assert per_kelvin < design.curve.room_influence_mild.value * 1.2
    assert flow[30 * 4 : 33 * 4] == pytest.approx(3.0), "three hours of the return"
    assert flow[33 * 4 : 46 * 4] == pytest.approx(0.0)
    recorded = build_drivers(faulty_design, cold, ())
    assert recorded.wanted[0] == pytest.approx(recorded.wanted[50] - 4.0)


def test_a_small_setback_returns_no_higher_than_it_was_deep(design: Design) -> None:
    cold = _weather(2, level=2.0)
    night = build_drivers(design, cold, (), changes=Changes(setback=ColderStretch(1.0)))
    steady = build_drivers(design, cold, ())
    raised = night.slots["curve_flow"] - steady.slots["curve_flow"]
    assert raised.max() == pytest.approx(1.0)


def test_a_setback_all_day_has_no_return(design: Design) -> None:
    always = ColderStretch(2.0, "07:00", "07:00")
    cold = build_drivers(design, WEEKS, (), changes=Changes(setback=always))
    warm = build_drivers(design, WEEKS, ())
    assert np.all(cold.wanted == warm.wanted - 2.0)
    assert np.all(cold.slots["curve_flow"] < warm.slots["curve_flow"])


def test_the_night_of_a_change_is_an_hour_shorter_or_longer(design: Design) -> None:
    night = ColderStretch(3.0, "00:00", "06:00")
    drivers = build_drivers(design, YEAR, (), changes=Changes(setback=night))
    is_colder = drivers.wanted[:, 0] < drivers.wanted[:, 0].max()
    by_day = np.bincount(_clock(drivers).day, is_colder)
    assert (by_day[88], by_day[298], by_day[10]) == (20, 28, 24)


# -- what-if -----------------------------------------------------------------------------------


def test_warmer_rooms_are_wanted_of_rooms_and_curve(design: Design) -> None:
    plain, warmer = (
        build_drivers(design, WEEKS, (), changes=Changes(wanted_shift=shift)) for shift in (0, 1)
    )
    assert warmer.wanted == pytest.approx(plain.wanted + 1.0)
    assert np.all(warmer.slots["curve_flow"] >= plain.slots["curve_flow"] + 1.0)


def test_curve_gains_and_draws_change_as_asked(design: Design) -> None:
    plain = build_drivers(design, WEEKS, ())
    changes = Changes(curve_shift=-2.0, gains_factor=1.5, draws_factor=0.5)
    other = build_drivers(design, WEEKS, (), changes=changes)
    assert other.slots["curve_flow"] == pytest.approx(plain.slots["curve_flow"] - 2.0)
    assert other.gains == pytest.approx(plain.gains * 1.5)
    assert other.draws == pytest.approx(plain.draws * 0.5)
    points = Changes(curve_points=((-3.0, 40.0), (15.0, 22.0)))
    level = build_drivers(design, _weather(2, level=6.0), (), changes=points)
    assert level.slots["curve_flow"] == pytest.approx(np.full(2 * DAY + 1, 31.0))


def test_closed_rooms_are_let_go_cold_and_the_others_are_not(design: Design) -> None:
    room = design.heat_loss.rooms[-1].room.id
    closed = build_drivers(design, WEEKS, (), changes=Changes(closed_rooms=(room,)))
    assert np.all(closed.wanted[:, -1] == 15.0)
    assert np.all(closed.wanted[:, :-1] > 15.0)
    with pytest.raises(NotFound, match="no room is called 'ballroom'; the home has"):
        build_drivers(design, WEEKS, (), changes=Changes(closed_rooms=("ballroom",)))


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        (Changes(wanted_shift=float("nan")), "change of the wanted temperature is nan K"),
        (Changes(wanted_shift=20.0), r"is 20 K; it must lie between -10 and 10 K"),
        (Changes(setback=ColderStretch(-1.0)), "colder stretch is -1 K"),
        (Changes(setback=ColderStretch(2.0, "25:00")), "'25:00' is no time of day"),
        (Changes(gains_factor=-1.0), "factor of people's and appliances' warmth is -1"),
        (Changes(curve_points=((0.0, 40.0), (0.0, 30.0))), "the curve has its points at 0, 0 °C"),
    ],
)
def test_a_change_no_home_has_is_refused(design: Design, changes: Changes, message: str) -> None:
    with pytest.raises(OutOfRange, match=message):
        build_drivers(design, WEEKS, (), changes=changes)


# -- prices ------------------------------------------------------------------------------------


def test_prices_follow_the_bands_by_the_clock(design: Design, year: Drivers) -> None:
    assert design.home.tariff is not None
    day, night = (band.price for band in design.home.tariff.bands)
    minute = _clock(year).minute
    is_night = (minute >= 30) & (minute < 5 * 60 + 30)
    assert np.array_equal(year.slots["price"][:-1], np.where(is_night, night, day))
    assert year.has_prices
    usual = mean_price(design.home.tariff, "price", "mean price")
    assert year.slots["price"][: 28 * DAY].mean() == pytest.approx(usual.value)


def test_a_variants_bands_count_the_first_that_holds(design: Design) -> None:
    evening = Window(start="16:00", end="19:00")
    bands = (
        RateBand.model_construct(name="dear", price=3e-7, windows=(evening,)),
        RateBand.model_construct(
            name="cheap", price=-1e-8, windows=(Window(start="18:00", end="20:00"),)
        ),
        RateBand.model_construct(name="other", price=1e-7, windows=()),
    )
    price = build_drivers(design, WEEKS, (), changes=Changes(bands=bands)).slots["price"][:DAY]
    assert price[[0, 16 * 4, 18 * 4, 19 * 4, 20 * 4]].tolist() == [1e-7, 3e-7, 3e-7, -1e-8, 1e-7]


def test_a_home_without_tariff_has_no_prices_and_no_gaps(design: Design) -> None:
    free = replace(design, home=design.home.model_copy(update={"tariff": None}))
    drivers = build_drivers(free, WEEKS, ())
    assert not drivers.has_prices
    assert np.all(drivers.slots["price"] == 0.0)


# -- ground, mains, sun ------------------------------------------------------------------------


def test_ground_and_mains_lag_the_air_and_swing_less(year: Drivers) -> None:
    air = year.slots["outdoor"][:-1].reshape(365, DAY).mean(axis=1)
    ground, main = (year.slots[name][:-1:DAY] for name in ("ground", "cold_water"))
    assert np.mean(ground) == pytest.approx(np.mean(air), abs=0.05)
    assert 0.5 < np.ptp(ground) / np.ptp(air) < 0.7
    assert np.argmin(air) < np.argmin(ground) < np.argmin(air) + 45
    assert main.min() == pytest.approx(8.0, abs=0.01), "as recorded for winter"
    assert np.mean(main) == pytest.approx(10.0, abs=0.05)
    assert 35 < int(np.argmin(main)) < 55


def test_a_few_days_of_weather_stand_on_the_ground_of_the_records_year(design: Design) -> None:
    short, long = build_drivers(design, _weather(2), ()), build_drivers(design, YEAR, ())
    assert short.slots["ground"][0] == pytest.approx(long.slots["ground"][0], abs=1.5)


def test_sun_reaches_each_room_through_its_own_glass(design: Design) -> None:
    rooms = len(design.heat_loss.rooms)
    areas = np.zeros(rooms)
    areas[0], areas[2] = 2.0, 1.0
    roof = Glazing(azimuth=180.0, tilt=0.0, areas=areas)
    lit = build_drivers(design, _weather(2, sun=0.0), (roof,))
    assert not lit.solar.any()
    noon = np.tile(np.where(np.abs(np.arange(24) - 12) < 3, 100.0, 0.0), 2)
    weather = replace(_weather(2), global_horizontal=noon, diffuse_horizontal=noon)
    lit = build_drivers(design, weather, (roof,))
    assert lit.solar[:, 0] == pytest.approx(2.0 * lit.solar[:, 2])
    assert not lit.solar[:, 1].any()
    assert 0.8 * 100.0 < lit.solar[12 * 4 : 13 * 4, 2].mean() < 100.0


def test_a_home_without_cylinder_draws_no_hot_water(design: Design) -> None:
    plant = design.home.plant.model_copy(update={"cylinder": None})
    dry = replace(design, home=design.home.model_copy(update={"plant": plant}), hot_water=None)
    drivers = build_drivers(dry, WEEKS, ())
    assert not drivers.draws.any()
    assert not drivers.slots["hot_water_allowed"].any()
    assert not drivers.slots["hygiene_due"].any()


def test_the_end_of_the_last_slot_repeats_it_and_calls_for_nothing(year: Drivers) -> None:
    assert year.slots.size == 365 * DAY + 1
    for name in ("ground", "curve_flow", "price", "quiet", "cold_water"):
        assert year.slots[name][-1] == year.slots[name][-2]
    assert year.slots["hygiene_due"][-1] == 0.0
