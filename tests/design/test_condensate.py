"""Water under the outdoor unit."""

from dataclasses import replace

import pytest

from hearthbook.design.condensate import DrainVerdict, condensate
from hearthbook.record.home import Home
from hearthbook.record.siting import Drain, Soakaway
from tests.design.plant_of_a_home import PlantOfAHome, changed, plant_of, unfounded


@pytest.fixture(scope="module")
def plant(well_done_home: Home) -> PlantOfAHome:
    return plant_of(well_done_home)


def test_every_figure_rests_on_the_record_or_on_a_named_assumption(plant: PlantOfAHome) -> None:
    assert unfounded(condensate(plant.home, plant.loss, plant.fit)) == []


def test_a_days_water_lies_where_the_trade_finds_it(plant: PlantOfAHome) -> None:
    # 10 to 15 L a day under the unit in a trade page on drains; up to 100 L in public claims
    water = condensate(plant.home, plant.loss, plant.fit)
    assert 8.0 < water.per_day_least.value * 1000 < 15.0
    assert 10.0 < water.per_day.value * 1000 < 100.0


def test_no_more_than_the_physical_bound(plant: PlantOfAHome) -> None:
    # 0.41 kg for each kWh from the air at A2, worked out with PsychroLib; damper here, so 0.5
    water = condensate(plant.home, plant.loss, plant.fit)
    need = plant.loss.coefficient.value * (plant.loss.base_temperature.value - 1.0)
    assert water.per_day.value * 1000 < 0.5 * 24 * need / 1000 / 0.6


def test_one_defrost_is_two_hours_of_water_at_most(plant: PlantOfAHome) -> None:
    water = condensate(plant.home, plant.loss, plant.fit)
    assert water.in_one_defrost.value == pytest.approx(water.per_day.value / 12)


def test_a_draining_pit_of_usual_size_is_enough(plant: PlantOfAHome) -> None:
    water = condensate(plant.home, plant.loss, plant.fit)
    assert water.soakaway_found is not None
    assert water.soakaway_found.value == pytest.approx(1.0 * 0.9 * 0.6)
    assert water.verdict is DrainVerdict.ENOUGH
    assert water.drained_per_day is not None
    by_hand = 0.9 * 0.1 / (14 * 60) / 2 * 86_400  # m³
    assert water.drained_per_day.value == pytest.approx(by_hand, rel=0.05)
    assert water.drained_per_day.shown() == "4,600\u00a0L"  # no more digits than the test has


def _with_pit(home: Home, pit: Soakaway | None, kind: str = "soakaway") -> Home:
    drain = Drain.model_construct(kind=kind, place="here", soakaway=pit, crosses_path=True)
    return changed(home, "siting", drain=drain)


def test_a_small_pit_in_dense_ground_is_not(plant: PlantOfAHome) -> None:
    pit = Soakaway.model_construct(length=0.4, width=0.4, depth=0.4, percolation_time=None)
    water = condensate(_with_pit(plant.home, pit), plant.loss, plant.fit)
    assert water.verdict is DrainVerdict.SMALL
    assert water.drained_per_day is None
    assert water.crosses_path


def test_a_pit_nobody_measured_and_another_drain_are_named(plant: PlantOfAHome) -> None:
    unknown = condensate(_with_pit(plant.home, None), plant.loss, plant.fit)
    assert unknown.verdict is DrainVerdict.NOT_MEASURED
    gully = condensate(_with_pit(plant.home, None, "gully"), plant.loss, plant.fit)
    assert gully.verdict is DrainVerdict.NOT_A_SOAKAWAY
    nothing = condensate(changed(plant.home, "siting", drain=None), plant.loss, plant.fit)
    assert nothing.verdict is DrainVerdict.NOT_A_SOAKAWAY
    assert not nothing.crosses_path


def test_a_larger_loss_makes_more_water(plant: PlantOfAHome) -> None:
    coefficient = plant.loss.coefficient
    larger = replace(plant.loss, coefficient=replace(coefficient, value=1.2 * coefficient.value))
    here = condensate(plant.home, plant.loss, plant.fit)
    there = condensate(plant.home, larger, plant.fit)
    assert there.per_day.value == pytest.approx(1.2 * here.per_day.value)
