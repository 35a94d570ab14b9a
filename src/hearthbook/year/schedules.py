"""The drivers of a home's year: clock, people, controls and prices laid over its weather."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from hearthbook.design.hot_water_demand import cold_temperature
from hearthbook.design.results import Design
from hearthbook.errors import NotFound, check_between
from hearthbook.kernel.parameters import DRIVER
from hearthbook.record.controls import Window
from hearthbook.record.plant import HygieneRegime
from hearthbook.record.tariff import RateBand
from hearthbook.simulate.calendar_time import CivilTime, civil_time, minutes_of_clock
from hearthbook.simulate.drivers import MINUTES_PER_SLOT, Drivers, check_drivers
from hearthbook.simulate.home_model import Glazing
from hearthbook.simulate.weather import SLOTS_PER_HOUR, Weather, averaged, slots_of
from hearthbook.survey import answers
from hearthbook.year.asked_flow import asked_flow, averaging_hours, colder_stretch
from hearthbook.year.changes import Changes, ColderStretch
from hearthbook.year.gains_by_room import gains_by_room
from hearthbook.year.water_and_ground import (
    cold_water,
    ground_temperature,
    hot_water_drawn,
    place_wave,
)

__all__ = ["Changes", "ColderStretch", "build_drivers"]

_Array = NDArray[np.float64]

_WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_DAY = 86_400.0  # s
_AS_RECORDED = Changes()


def build_drivers(
    design: Design,
    weather: Weather,
    glazing: tuple[Glazing, ...],
    *,
    seed: int = 0,
    changes: Changes = _AS_RECORDED,
) -> Drivers:
    """Everything the loop is told from outside for a home in a weather.

    Args:
        design: of the home.
        weather: hourly.
        glazing: the home's glass.
        seed: of the household's hot water; the same seed gives the same draws.
        changes: what a variant changes against the record.

    Raises:
        OutOfRange: a change or the record leads to something no home has.
        NotFound: a room is to be closed that the home does not have.
    """
    _check_changes(design, changes)
    slots = weather.hours * SLOTS_PER_HOUR
    clock = civil_time(weather.start, slots, weather.utc_offset, design.home.building.country)
    stretch = colder_stretch(design.home.controls, changes)
    check_between("colder stretch", stretch.by if stretch else 0.0, 0.0, 15.0, "K")
    room_shift = np.full(slots, changes.wanted_shift)
    if stretch is not None:
        room_shift = room_shift - stretch.by * clock.is_within(stretch.start, stretch.end)
    records = _weather_fields(weather, slots)
    _fill_plant(records, design, changes, clock, room_shift)
    built = Drivers(
        slots=records,
        solar=_solar(weather, glazing, (slots, len(design.heat_loss.rooms))),
        gains=_gains(design, clock) * changes.gains_factor,
        wanted=_wanted(design, changes, room_shift),
        draws=_draws(design, records["cold_water"][:-1], clock, seed) * changes.draws_factor,
        has_prices=bool(_bands(design, changes)),
        calendar=clock,
    )
    check_drivers(built, len(design.heat_loss.rooms))
    return built


def _check_changes(design: Design, changes: Changes) -> None:
    check_between("change of the wanted temperature", changes.wanted_shift, -10.0, 10.0, "K")
    check_between("change of the curve", changes.curve_shift, -30.0, 30.0, "K")
    check_between("factor of people's and appliances' warmth", changes.gains_factor, 0.0, 5.0, "")
    check_between("factor of hot water drawn", changes.draws_factor, 0.0, 5.0, "")
    check_between("temperature of closed rooms", changes.closed_temperature, 5.0, 25.0, "°C")
    known = {each.room.id for each in design.heat_loss.rooms}
    for room in changes.closed_rooms:
        if room not in known:
            raise NotFound(f"no room is called '{room}'; the home has {', '.join(sorted(known))}.")


def _weather_fields(weather: Weather, slots: int) -> NDArray[np.void]:
    """The records, with the weather in them."""
    records = np.zeros(slots + 1, dtype=DRIVER)
    by_slot = slots_of(weather)
    records["outdoor"] = by_slot.outdoor
    records["humidity"] = by_slot.humidity
    records["wind"] = np.append(by_slot.wind, by_slot.wind[-1])
    return records


def _fill_plant(
    records: NDArray[np.void],
    design: Design,
    changes: Changes,
    clock: CivilTime,
    room_shift: _Array,
) -> None:
    """Fill in ground, controls, hot water and prices; the record at the end repeats the last."""
    home, outdoor = design.home, records["outdoor"]
    hours = averaging_hours(home.controls)
    months = np.array([mean.value for mean in design.curve.season.monthly_means])
    wave = place_wave(outdoor[:-1], clock, months)
    for_curve = averaged(outdoor, hours.curve)[:-1]
    cylinder = home.plant.cylinder
    fields: dict[str, _Array] = {
        "ground": ground_temperature(wave, clock),
        "curve_flow": asked_flow(design.curve, changes, for_curve, room_shift),
        "outdoor_mean": averaged(outdoor, hours.limit)[:-1],
        "heating_allowed": np.ones(clock.slots),
        "quiet": _within_any(
            clock, (home.controls.quiet_window,) if home.controls.quiet_window else ()
        ),
        "cold_water": cold_water(
            cold_temperature(cylinder).value if cylinder else wave[0], wave[0], clock
        ),
        "price": _prices(_bands(design, changes), clock),
        "day": clock.day.astype(float),
    }
    if cylinder is not None:
        windows = home.controls.hot_water_windows
        fields["hot_water_allowed"] = (
            _within_any(clock, windows) if windows else np.ones(clock.slots)
        )
        if cylinder.hygiene is not None:
            fields["hygiene_due"] = _hygiene_due(cylinder.hygiene, clock)
    for name, values in fields.items():
        records[name] = np.append(values, 0.0 if name == "hygiene_due" else values[-1])


def _wanted(design: Design, changes: Changes, room_shift: _Array) -> _Array:
    rooms = design.heat_loss.rooms
    wanted = np.array([each.temperature.value for each in rooms]) + room_shift[:, None]
    for index, each in enumerate(rooms):
        if each.room.id in changes.closed_rooms:
            wanted[:, index] = np.minimum(wanted[:, index], changes.closed_temperature)
    return wanted


def _gains(design: Design, clock: CivilTime) -> _Array:
    rooms = design.heat_loss.rooms
    mean = answers.internal_gains(design.home, design.heat_loss.floor_area)
    return gains_by_room(
        tuple(each.room for each in rooms),
        tuple(each.floor_area.value for each in rooms),
        mean.value,
        design.home.household.occupancy,
        clock,
    )


def _draws(design: Design, main: _Array, clock: CivilTime, seed: int) -> _Array:
    if design.hot_water is None:
        return np.zeros(clock.slots * MINUTES_PER_SLOT)
    return hot_water_drawn(design.home, design.hot_water, main, clock, seed)


def _solar(weather: Weather, glazing: tuple[Glazing, ...], shape: tuple[int, int]) -> _Array:
    from hearthbook.simulate.sun import irradiance_through_glass

    solar = np.zeros(shape)
    for glass in glazing:
        if np.any(glass.areas):
            sun = irradiance_through_glass(weather, glass.azimuth, glass.tilt)
            solar += np.outer(sun, glass.areas)
    return solar


def _bands(design: Design, changes: Changes) -> tuple[RateBand, ...]:
    if changes.bands is not None:
        return changes.bands
    return design.home.tariff.bands if design.home.tariff is not None else ()


def _prices(bands: tuple[RateBand, ...], clock: CivilTime) -> _Array:
    """The price in each slot, as `prices.band_by_hour` finds the band; 0 without a tariff."""
    if not bands:
        return np.zeros(clock.slots)
    rest = next((band for band in bands if not band.windows), bands[0])
    price = np.full(clock.slots, rest.price)
    for band in reversed(bands):  # the first band that holds counts
        price[_within_any(clock, band.windows) > 0.0] = band.price
    return price


def _within_any(clock: CivilTime, windows: tuple[Window, ...]) -> _Array:
    inside = np.zeros(clock.slots, dtype=bool)
    for window in windows:
        inside |= clock.is_within(window.start, window.end)
    return inside.astype(float)


def _hygiene_due(regime: HygieneRegime, clock: CivilTime) -> _Array:
    """1 in the slot in which a run begins: from the first such weekday on, every so many days."""
    every = max(1, round(regime.every / _DAY))
    weekdays = clock.weekday[clock.first_slots()]
    first = int(np.argmax(weekdays == _WEEKDAYS.index(regime.weekday)))
    if every < len(_WEEKDAYS):
        first %= every
    days = np.arange(first, clock.day_count, every)
    minutes = clock.run_minutes(days, np.full(days.size, minutes_of_clock(regime.start)))
    due = np.zeros(clock.slots)
    due[minutes[minutes >= 0] // MINUTES_PER_SLOT] = 1.0
    return due
