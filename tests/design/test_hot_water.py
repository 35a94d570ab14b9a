"""Hot water in the busiest hour, and over a year."""

import pytest

from hearthbook.design.hot_water import CoilFit, HotWater, HygieneNeed, hot_water
from hearthbook.documents.figures import assumptions_in
from hearthbook.record.home import Home
from hearthbook.record.household import Tenure
from tests.design.plant_of_a_home import PlantOfAHome, changed, plant_of, unfounded


@pytest.fixture(scope="module")
def plant(well_done_home: Home) -> PlantOfAHome:
    return plant_of(well_done_home)


@pytest.fixture(scope="module")
def water(plant: PlantOfAHome) -> HotWater:
    return _hot_water(plant.home, plant)


def _hot_water(home: Home, plant: PlantOfAHome) -> HotWater:
    found = hot_water(home, plant.fit)
    assert found is not None
    return found


def _assumed(thing: object) -> set[str]:
    return {figure.name for figure in assumptions_in(thing)}


def test_a_reheat_is_counted_only_where_it_may_run_at_any_time(
    water: HotWater, plant: PlantOfAHome
) -> None:
    assert plant.home.controls.hot_water_windows
    assert water.peak_supply.value == water.stored_mixed_volume.value
    free = _hot_water(changed(plant.home, "controls", hot_water_windows=()), plant)
    # 5.8 kW for half of the hour warm 5800 · 1800 / (4186 · 32) = 78 L from 8 to 40 °C
    more = (free.peak_supply.value - free.stored_mixed_volume.value) * 1000
    assert more == pytest.approx(78.0, abs=1.0)


def test_every_figure_rests_on_the_record_or_on_a_named_assumption(water: HotWater) -> None:
    assert unfounded(water) == []


def test_the_full_cylinder_gives_its_mixed_water_by_hand(water: HotWater) -> None:
    # 210 L at 50 °C, cold 8 °C, nine tenths of it hot: 0.9 · 210 · 42 / 32 L
    assert water.stored_mixed_volume.value * 1000 == pytest.approx(0.9 * 210 * 42 / 32)
    assert water.profile == "XL"


def test_the_busiest_hour_by_hand(water: HotWater) -> None:
    assert water.peak.total.value * 1000 == pytest.approx(2 * 8 * 7)
    assert water.spare.value == pytest.approx(water.peak_supply.value - water.peak.total.value)
    assert water.shower_litres.value * 1000 == pytest.approx(56.0)
    assert water.shower_time.value / 60 == pytest.approx(0.9 * 210 * 42 / 32 / 8)


def test_reheats_by_hand(water: HotWater) -> None:
    # 1.163 Wh for each litre and kelvin; the fall recorded is 6 K, the cold water 8 °C
    assert water.reheat_energy.value / 3.6e6 == pytest.approx(210 * 1.163e-3 * 6)
    assert water.cold_reheat_energy.value / 3.6e6 == pytest.approx(210 * 1.163e-3 * 42)
    time = water.cold_reheat_energy.value / water.reheat_output.value
    assert water.cold_reheat_time.value == pytest.approx(time)


def test_reheats_after_showers_by_hand(plant: PlantOfAHome, water: HotWater) -> None:
    # a shower of 8 min at 7 L/min mixed to 40 °C from 8 °C takes 56 · 1.163e-3 · 32 = 2.08 kWh
    kilowatts = water.reheat_output.value / 1000
    one = 56 * 1.163e-3 * 32 / kilowatts * 3600
    assert water.shower_reheat_time.value == pytest.approx(one, rel=1e-3)
    assert water.two_showers_reheat_time.value == pytest.approx(2 * one, rel=1e-3)
    assert unfounded(water.two_showers_reheat_time) == []
    tiny = _hot_water(changed(plant.home, "plant.cylinder", volume=0.050), plant)
    assert tiny.two_showers_reheat_time.value == pytest.approx(tiny.cold_reheat_time.value)


def test_a_measured_start_gives_the_time_to_expect(water: HotWater) -> None:
    assert water.reheat_time_from(8.0) == pytest.approx(water.cold_reheat_time.value)
    assert water.reheat_time_from(50.0) == 0.0
    assert water.reheat_time_from(55.0) == 0.0
    by_hand = 210 * 1.163e-3 * 29 / 6.0 * 3600.0  # kWh over 6 kW, in seconds
    assert water.reheat_time_from(21.0, 6000.0) == pytest.approx(by_hand)


def test_hygiene_by_hand(water: HotWater) -> None:
    # 10 K of 210 L once a week by the immersion heater
    assert water.hygiene_run is not None
    assert water.hygiene_energy_per_year is not None
    run = 210 * 1.163e-3 * 10
    assert water.hygiene_run.value / 3.6e6 == pytest.approx(run)
    assert water.hygiene_energy_per_year.value / 3.6e6 == pytest.approx(run * 365 / 7)
    assert water.hygiene_need is HygieneNeed.WEEKLY_RUN
    assert water.is_cautious_household


def test_hygiene_by_the_heat_pump_takes_less_electricity(
    plant: PlantOfAHome, water: HotWater
) -> None:
    home = changed(plant.home, "plant.cylinder.hygiene", heat_source="heat_pump")
    lean = _hot_water(home, plant_of(home))
    assert lean.hygiene_energy_per_year is not None
    assert water.hygiene_energy_per_year is not None
    assert lean.hygiene_energy_per_year.value < 0.6 * water.hygiene_energy_per_year.value


def test_standing_loss_by_hand(water: HotWater) -> None:
    assert water.standing_loss_per_year.value / 3.6e6 == pytest.approx(1.35 * 365)


def test_the_years_heat_is_drawn_and_lost(water: HotWater) -> None:
    demand = water.demand
    total = demand.drawn.value + water.standing_loss_per_year.value
    assert demand.heat.value == pytest.approx(total)
    assert demand.by_month.sum() == pytest.approx(total)


def test_a_large_coil_is_enough_and_a_small_one_is_not(
    plant: PlantOfAHome, water: HotWater
) -> None:
    # 0.25 to 0.35 m² for each kilowatt of output: common practice, no source
    assert water.coil_fit is CoilFit.ENOUGH
    small = _hot_water(changed(plant.home, "plant.cylinder", coil_area=0.9), plant)
    assert small.coil_fit is CoilFit.SMALL
    unknown = _hot_water(changed(plant.home, "plant.cylinder", coil_area=None), plant)
    assert unknown.coil_fit is CoilFit.UNKNOWN
    assert unknown.coil_approach is None


def test_the_coils_own_approach_decides_how_hot_the_reheat_ends(plant: PlantOfAHome) -> None:
    def ends(area: float | None) -> float:
        home = changed(plant.home, "plant.cylinder", coil_area=area)
        return _hot_water(home, plant_of(home)).demand.reheat_flow.value

    # 5 to 8 K is usual where nothing is known; a small coil is held where the unit throttles
    assert ends(None) == pytest.approx(56.0)
    assert ends(4.0) < ends(2.5) <= ends(0.3) == pytest.approx(60.0)


def test_a_bath_more_in_the_hour_makes_a_small_cylinder_fall_short(plant: PlantOfAHome) -> None:
    home = changed(plant.home, "plant.cylinder", volume=0.120)
    home = changed(home, "household.hot_water", baths_in_peak_hour=2)
    assert _hot_water(home, plant).spare.value < 0.0


@pytest.mark.parametrize(
    ("store", "run", "need"),
    [
        (60.0, 60.0, HygieneNeed.STORED_HOT),
        (50.0, 60.0, HygieneNeed.WEEKLY_RUN),
        (50.0, 55.0, HygieneNeed.BELOW_SIXTY),
    ],
)
def test_the_regime_is_named(
    plant: PlantOfAHome, store: float, run: float, need: HygieneNeed
) -> None:
    home = changed(plant.home, "plant.cylinder.hygiene", temperature=run)
    home = changed(home, "plant.cylinder", set_temperature=store)
    assert _hot_water(home, plant).hygiene_need is need


def test_no_regime_is_never_assumed(plant: PlantOfAHome) -> None:
    home = changed(plant.home, "plant.cylinder", hygiene=None)
    bare = _hot_water(home, plant_of(home))
    assert bare.hygiene_need is HygieneNeed.NOT_DECIDED
    assert bare.hygiene_run is None
    assert bare.hygiene_energy_per_year is None


def test_tenants_are_treated_with_caution(plant: PlantOfAHome) -> None:
    calm = changed(plant.home, "household", vulnerabilities=())
    assert not _hot_water(calm, plant).is_cautious_household
    let = changed(calm, "household", tenure=Tenure.TENANT)
    assert _hot_water(let, plant).is_cautious_household


def test_missing_answers_become_named_assumptions(plant: PlantOfAHome) -> None:
    home = changed(
        plant.home, "plant.cylinder", standing_loss=None, cold_supply_temperature=None,
        hysteresis=None,
    )  # fmt: skip
    home = changed(
        home, "household.hot_water", shower_flow=None, shower_length=None, showers_in_peak_hour=0
    )
    home = changed(home, "plant.heat_pump", nominal_flow=None)
    found = _hot_water(home, plant)
    assert unfounded(found) == []
    assert _assumed(found) >= {
        "hot_water.standing_loss",
        "hot_water.cold_temperature",
        "plant.cylinder.hysteresis",
        "plant.heat_pump.nominal_flow",
        "household.hot_water.shower_flow",
        "household.hot_water.shower_length",
        "household.hot_water.showers_in_peak_hour",
    }
    assert found.peak.total.value * 1000 == pytest.approx(2 * 64.0)  # three people, two showers


def test_a_store_too_cold_to_shower_gives_nothing_mixed(plant: PlantOfAHome) -> None:
    cold = _hot_water(changed(plant.home, "plant.cylinder", set_temperature=38.0), plant)
    assert cold.stored_mixed_volume.value == 0.0
    assert cold.profile == "S"


def test_litres_told_by_the_household_are_used(plant: PlantOfAHome) -> None:
    home = changed(plant.home, "household.hot_water", litres_per_person_day=0.030)
    told = _hot_water(home, plant)
    by_hand = 3 * 30 * 1.163e-3 * 50 * 365  # kWh a year: 30 L each at 60 °C from 10 °C
    assert told.demand.drawn.value / 3.6e6 == pytest.approx(by_hand)


def test_a_unit_that_cannot_make_the_water_hot_enough_is_seen(
    plant: PlantOfAHome, water: HotWater
) -> None:
    assert water.flow_spare is not None
    assert water.coil_approach is not None
    assert water.flow_spare.value == pytest.approx(70.0 - 50.0 - water.coil_approach.value)
    low = changed(plant.home, "plant.heat_pump", maximum_flow_temperature=52.0)
    found = _hot_water(low, plant).flow_spare
    assert found is not None
    assert found.value < 0.0
    unknown = changed(plant.home, "plant.heat_pump", maximum_flow_temperature=None)
    assert _hot_water(unknown, plant).flow_spare is None
