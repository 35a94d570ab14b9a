"""What heating and hot water cost."""

import pytest

from hearthbook.design.prices import band_by_hour, mean_price
from hearthbook.design.running_cost import RunningCost, running_cost
from hearthbook.record.controls import Window
from hearthbook.record.home import Home
from hearthbook.record.tariff import RateBand, Tariff
from tests.design.plant_of_a_home import PlantOfAHome, changed, plant_of, unfounded

PENCE = 0.01 / 3.6e6  # £/J in one penny for a kilowatt-hour


@pytest.fixture(scope="module")
def plant(well_done_home: Home) -> PlantOfAHome:
    return plant_of(well_done_home)


@pytest.fixture(scope="module")
def cost(plant: PlantOfAHome) -> RunningCost:
    found = running_cost(plant.home, plant.fit)
    assert found is not None
    return found


def test_every_figure_rests_on_the_record_or_on_a_named_assumption(cost: RunningCost) -> None:
    assert unfounded(cost) == []


def test_the_mean_price_by_hand(cost: RunningCost) -> None:
    # 27.4 p for 19 hours and 13.9 p for the 5 from 00:30
    assert cost.price.value / PENCE == pytest.approx((19 * 27.4 + 5 * 13.9) / 24)


def test_the_year_is_electricity_times_price(plant: PlantOfAHome, cost: RunningCost) -> None:
    energy = plant.fit.energy
    rooms = (energy.electricity_space.value + energy.electricity_other.value) * cost.price.value
    water = energy.electricity_hot_water.value * cost.hot_water_price.value
    assert cost.year.value == pytest.approx(rooms + water)
    assert cost.year.uncertainty is not None
    assert 0.1 * cost.year.value < cost.year.uncertainty < 0.4 * cost.year.value


def test_colder_days_cost_more(cost: RunningCost) -> None:
    costs = [day.cost.value for day in cost.days]
    assert costs == sorted(costs, reverse=True)
    assert [day.outdoor.value for day in cost.days] == [-3.0, 0.0, 5.0, 10.0]
    for day in cost.days:
        assert day.low.value < day.cost.value < day.high.value
    found = cost.day_at(5.0)
    assert found is not None
    assert found.cost.shown().startswith("£")
    assert cost.day_at(4.0) is None


def test_a_day_by_hand(plant: PlantOfAHome, cost: RunningCost) -> None:
    day, money = plant.fit.day_at(5.0), cost.day_at(5.0)
    assert day is not None
    assert money is not None
    kilowatt_hours = day.electricity.value * 24 / 1000
    assert money.cost.value == pytest.approx(kilowatt_hours * cost.price.value * 3.6e6)


def test_break_even_against_the_fuel_before_by_hand(cost: RunningCost) -> None:
    # break-even: efficiency = price of electricity · old efficiency / price of the old fuel
    assert cost.previous is not None
    assert cost.previous.price_per_heat.value / PENCE == pytest.approx(6.6 / 0.84)
    price = cost.previous.break_even_efficiency.value * cost.previous.price_per_heat.value
    assert cost.hot_water_price.value < price <= cost.price.value
    saving = cost.previous.year.value - cost.year.value
    assert cost.previous.saving.value == pytest.approx(saving)


def test_above_break_even_the_heat_pump_is_cheaper(plant: PlantOfAHome, cost: RunningCost) -> None:
    assert cost.previous is not None
    is_above = plant.fit.seasonal_efficiency_home.value > cost.previous.break_even_efficiency.value
    assert is_above == (cost.previous.saving.value > 0.0)


def test_an_hour_of_the_immersion_heater_by_hand(cost: RunningCost) -> None:
    assert cost.immersion_hour is not None
    assert cost.immersion_hour.value == pytest.approx(3.0 * cost.price.value * 3.6e6)


def test_standing_charge_and_standby_by_hand(cost: RunningCost) -> None:
    assert cost.standing is not None
    assert cost.standing.value == pytest.approx(0.52 * 365)
    assert cost.standby.value == pytest.approx(0.012 * 8760 * cost.price.value * 3.6e6)


def test_one_degree_is_dear(cost: RunningCost) -> None:
    assert 0.05 * cost.space.value < cost.degree.value < 0.2 * cost.space.value


def test_without_a_tariff_there_is_no_cost(plant: PlantOfAHome) -> None:
    assert running_cost(changed(plant.home, "", tariff=None), plant.fit) is None


def test_a_plain_tariff_in_euro(plant: PlantOfAHome) -> None:
    tariff = Tariff(currency="€", bands=(RateBand(name="all day", price=30.0),))
    home = changed(plant.home, "", tariff=tariff)
    home = changed(home, "plant.cylinder", immersion_power=None)
    found = running_cost(home, plant.fit)
    assert found is not None
    assert found.year.shown().startswith("€")
    assert found.price.unit == "c/kWh"
    assert found.price.value / PENCE == pytest.approx(30.0)
    assert (found.standing, found.previous, found.immersion_hour) == (None, None, None)


def _night(start: str, end: str, *, day_windows: tuple[Window, ...] = ()) -> Tariff:
    return Tariff(
        bands=(
            RateBand(name="day", price=30.0, windows=day_windows),
            RateBand(name="night", price=10.0, windows=(Window(start=start, end=end),)),
        )
    )


@pytest.mark.parametrize(
    ("start", "end", "hours"),
    [("00:00", "06:00", 6.0), ("22:00", "06:00", 8.0), ("23:30", "00:30", 1.0),
     ("00:00", "00:00", 24.0)],
)  # fmt: skip
def test_hours_across_midnight_are_counted(start: str, end: str, hours: float) -> None:
    bands = band_by_hour(_night(start, end))
    assert sum(band.name == "night" for band in bands) / 2 == hours


def test_price_in_the_hours_of_use_alone() -> None:
    tariff = _night("00:00", "06:00")
    window = (Window(start="04:00", end="08:00"),)
    assert mean_price(tariff, "p", "p", window).value / PENCE == pytest.approx(20.0)


def test_hours_no_band_names_fall_to_the_first() -> None:
    day = (Window(start="06:00", end="20:00"),)
    bands = band_by_hour(_night("00:00", "06:00", day_windows=day))
    assert bands[-1].name == "day"
