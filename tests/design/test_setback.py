"""Whether a colder night pays."""

import math

import pytest

from hearthbook.design.setback import Setback, SetbackVerdict, setback
from hearthbook.record.building import ThermalMass
from hearthbook.record.controls import Setback as PlannedSetback
from hearthbook.record.controls import Window
from hearthbook.record.home import Home
from hearthbook.record.tariff import RateBand, Tariff
from tests.design.plant_of_a_home import PlantOfAHome, changed, plant_of, unfounded


@pytest.fixture(scope="module")
def plant(well_done_home: Home) -> PlantOfAHome:
    return plant_of(well_done_home)


def _setback(home: Home, plant: PlantOfAHome) -> Setback:
    return setback(home, plant.loss, plant.fit, plant.curve)


def test_every_figure_rests_on_the_record_or_on_a_named_assumption(plant: PlantOfAHome) -> None:
    assert unfounded(_setback(plant.home, plant)) == []


def test_time_constant_and_cooling_by_hand(plant: PlantOfAHome) -> None:
    found = _setback(plant.home, plant)
    capacity = 250e3 * plant.loss.floor_area.value
    constant = capacity / plant.loss.coefficient.value
    assert found.time_constant.value == pytest.approx(constant)
    room, base = plant.loss.indoor_temperature.value, plant.loss.base_temperature.value
    balance = 5.0 + room - base
    by_hand = balance + (room - balance) * math.exp(-8 * 3600 / constant)
    assert found.after_eight_hours.value == pytest.approx(by_hand)


def test_ranges_hold_their_middle(plant: PlantOfAHome) -> None:
    for option in _setback(plant.home, plant).options:
        assert option.low.value <= option.cost_change.value <= option.high.value
        assert option.lowest_temperature.value < plant.loss.indoor_temperature.value


def test_a_deeper_setback_takes_longer_to_recover(plant: PlantOfAHome) -> None:
    hours = [option.hours_to_recover.value for option in _setback(plant.home, plant).options]
    assert hours == sorted(hours)


def test_cheap_nights_speak_against_a_colder_night(plant: PlantOfAHome) -> None:
    flat = Tariff(bands=(RateBand(name="all day", price=27.0),))
    even = _setback(changed(plant.home, "", tariff=flat), plant)
    night = _setback(plant.home, plant)
    for with_night, without in zip(night.options, even.options, strict=True):
        assert with_night.cost_change.value > without.cost_change.value
    assert night.verdict is SetbackVerdict.COSTS
    assert night.advised_depth.value == 0.0


def test_without_a_tariff_electricity_decides(plant: PlantOfAHome) -> None:
    flat = Tariff(bands=(RateBand(name="all day", price=27.0),))
    none = _setback(changed(plant.home, "", tariff=None), plant)
    even = _setback(changed(plant.home, "", tariff=flat), plant)
    for one, other in zip(none.options, even.options, strict=True):
        assert one.cost_change.value == pytest.approx(other.cost_change.value)


def test_a_heavier_home_cools_less_and_gains_less(plant: PlantOfAHome) -> None:
    flat = changed(plant.home, "", tariff=None)
    light = _setback(changed(flat, "building", thermal_mass=ThermalMass.LIGHT), plant)
    heavy = _setback(changed(flat, "building", thermal_mass=ThermalMass.HEAVY), plant)
    assert light.after_eight_hours.value < heavy.after_eight_hours.value
    assert light.options[1].low.value < heavy.options[1].low.value


def test_an_unknown_build_is_a_named_assumption(plant: PlantOfAHome) -> None:
    found = _setback(changed(plant.home, "building", thermal_mass=None), plant)
    each = found.heat_capacity.working.inputs[1]
    assert each.basis.value == "assumed"


def test_the_planned_night_is_the_one_tried(plant: PlantOfAHome) -> None:
    flat = changed(plant.home, "", tariff=None)
    window = Window(start="00:00", end="03:00")
    planned = PlannedSetback.model_construct(by=2.0, window=window)
    short = _setback(changed(flat, "controls", setback=planned), plant)
    usual = _setback(changed(flat, "controls", setback=None), plant)
    assert short.options[3].lowest_temperature.value > usual.options[3].lowest_temperature.value


def test_a_leaky_home_on_a_flat_price_may_save(faulty_home: Home) -> None:
    faulty = plant_of(faulty_home)
    found = _setback(changed(faulty_home, "", tariff=None), faulty)
    assert found.verdict is not SetbackVerdict.COSTS
