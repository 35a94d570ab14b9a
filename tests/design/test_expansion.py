"""Vessel, pressures and gauge marks of a home."""

from __future__ import annotations

import math
from typing import Any

import pytest
from iapws import IAPWS97  # type: ignore[import-untyped]  # ships no types

from hearthbook.design.emitters import EmitterSchedule, emitter_schedule
from hearthbook.design.expansion import Expansion, expansion, predicted_pressure
from hearthbook.design.heat_loss import heat_loss
from hearthbook.design.unit_map import unit_map
from hearthbook.design.water_volume import WaterVolume, water_volume
from hearthbook.documents.figures import Basis, figures_in, given, with_inputs
from hearthbook.errors import OutOfRange
from hearthbook.record.commissioning import Commissioning
from hearthbook.record.home import Home
from hearthbook.record.pipework import PipeRun, Pipework
from hearthbook.record.plant import ExpansionVessel, SafetyValve

BAR = 1e5


@pytest.fixture(scope="module")
def home(well_done_home: Home) -> Home:
    """The example home with the figures the sums by hand rest on, whatever the example becomes."""
    plant = well_done_home.plant
    assert plant.cylinder is not None
    assert plant.added_volume is not None
    assert plant.cylinder.hygiene is not None
    assert plant.filling is not None
    hygiene = plant.cylinder.hygiene.model_copy(update={"temperature": 60.0})
    cylinder = {
        "volume": 0.210, "set_temperature": 50.0, "coil_content": 0.018, "hygiene": hygiene,
    }  # fmt: skip
    vessels = [
        {"id": "heating_vessel", "circuit": "heating", "volume": "18 L", "precharge": "0.8 bar"},
        {"id": "other_vessel", "circuit": "drinking_water", "volume": 18, "precharge": 3.0},
    ]
    valves = [{"circuit": "heating", "setting": 3}, {"circuit": "drinking_water", "setting": 6}]
    controls = {"maximum_flow_temperature": 48.0}
    changed = plant.model_copy(
        update={
            "design_flow_temperature": 45.0,
            "design_drop": 5.0,
            "heat_pump": plant.heat_pump.model_copy(update={"water_content": 0.0022}),
            "cylinder": plant.cylinder.model_copy(update=cylinder),
            "added_volume": plant.added_volume.model_copy(update={"volume": 0.030}),
            "expansion_vessels": tuple(ExpansionVessel.model_validate(v) for v in vessels),
            "safety_valves": tuple(SafetyValve.model_validate(v) for v in valves),
            "filling": plant.filling.model_copy(update={"flow": 4e-3 / 60}),
        }
    )
    return well_done_home.model_copy(
        update={
            "plant": changed,
            "controls": well_done_home.controls.model_copy(update=controls),
            "pipework": _pipework(well_done_home),
            "commissioning": _pressures_as_read(),
        }
    )


def _pipework(home: Home) -> Pipework:
    run = {"id": "primary", "name": "primary", "outside_diameter": 28, "length": 20}
    runs = (*(r for r in home.pipework.runs if r.serves), PipeRun.model_validate(run))
    return home.pipework.model_copy(update={"runs": runs, "height_above_vessel": 3.7})


def _pressures_as_read() -> Commissioning:
    readings = [
        {"kind": "vessel_precharge", "of": "heating_vessel", "value": 0.8, "state": "standstill"},
        {"kind": "cold_pressure", "value": 1.2, "state": "standstill"},
    ]
    return Commissioning.model_validate({"date": "2026-10-14", "readings": readings})


def _all(home: Home) -> tuple[EmitterSchedule, WaterVolume, Expansion]:
    emitters = emitter_schedule(home, heat_loss(home))
    volume = water_volume(home, emitters)
    return emitters, volume, expansion(home, volume, emitters)


def _expansion(home: Home) -> Expansion:
    return _all(home)[2]


def _with_plant(home: Home, **changes: Any) -> Home:
    return home.model_copy(update={"plant": home.plant.model_copy(update=changes)})


def _with_vessel(home: Home, **changes: Any) -> Home:
    vessels = tuple(
        v.model_copy(update=changes) if v.circuit == "heating" else v
        for v in home.plant.expansion_vessels
    )
    return _with_plant(home, expansion_vessels=vessels)


def _without_readings(home: Home) -> Home:
    return home.model_copy(update={"commissioning": None})


def _density(temperature: float) -> float:
    return float(IAPWS97(T=temperature + 273.15, P=0.1).rho)


def _approach(home: Home) -> float:
    """The coil's own approach, by hand: 550 W/(m²·K) is the middle of 400 to 700, no source."""
    cylinder, flow = home.plant.cylinder, home.plant.heat_pump.nominal_flow
    assert cylinder is not None
    assert cylinder.coil_area is not None
    assert flow is not None
    carried = flow * 4.1868e6
    drop = float(unit_map(home.plant).most(7.0, cylinder.set_temperature + 6.0)) / carried
    return drop / (1 - math.exp(-550.0 * cylinder.coil_area / carried))


def test_the_vessel_is_the_standards_sum_done_by_hand(home: Home) -> None:
    _, volume, found = _all(home)
    litres = volume.total.value * 1000
    # hygiene run to 60 °C, the coil's approach over
    growth = litres * (_density(10.0) / _density(60.0 + _approach(home)) - 1)
    assert found.expanded_volume.value * 1000 == pytest.approx(growth, rel=0.005)
    needed = (growth + 3.0) * (2.5 + 1) / (2.5 - 0.8)
    assert found.nominal_vessel_needed.value * 1000 == pytest.approx(needed, rel=0.005)
    assert found.vessel_spare.value * 1000 == pytest.approx(18.0 - needed, rel=0.01)


def test_a_hygiene_run_by_the_unit_counts_for_the_vessel(home: Home) -> None:
    cylinder = home.plant.cylinder
    assert cylinder is not None
    hygiene = cylinder.hygiene
    assert hygiene is not None

    def highest(source: str, most: float | None = 70.0) -> float:
        regime = hygiene.model_copy(update={"heat_source": source})
        unit = home.plant.heat_pump.model_copy(update={"maximum_flow_temperature": most})
        tank = cylinder.model_copy(update={"hygiene": regime})
        changed = _with_plant(home, cylinder=tank, heat_pump=unit)
        return _expansion(changed).temperatures.highest.value

    over = _approach(home)  # reheats to 50 °C, runs to 60 °C, the coil's approach over: derived
    assert highest("immersion_heater") == pytest.approx(50.0 + over)
    assert highest("both") == highest("heat_pump") == pytest.approx(60.0 + over)
    assert highest("heat_pump", None) == pytest.approx(60.0 + over)
    assert highest("heat_pump", 62.0) == 62.0  # the unit makes no hotter water


def test_the_hot_pressure_is_boyles_law_done_by_hand(home: Home) -> None:
    _, volume, found = _all(home)
    litres = volume.total.value * 1000
    growth = litres * (_density(20.0) / _density(42.5) - 1)
    gas = 18.0 * 1.8 / 2.2  # precharge 0.8 bar and cold pressure 1.2 bar, both measured
    by_hand = 18.0 * 1.8 / (gas - growth) - 1
    assert found.hot_pressure.value / BAR == pytest.approx(by_hand, abs=0.005)


def test_a_reheat_is_the_mixture_of_two_waters_done_by_hand(home: Home) -> None:
    _, volume, found = _all(home)
    litres = volume.total.value * 1000
    circuit = (
        2.2 + math.pi / 4 * 26.2**2 / 1000 * 20 + 18.0 + 30.0
    )  # unit, primary, coil, volumiser
    growth = circuit * (_density(20.0) / _density(50.0 + _approach(home)) - 1) + (
        litres - circuit
    ) * (_density(20.0) / _density(42.5) - 1)
    gas = 18.0 * 1.8 / 2.2
    assert found.hot_pressure_hot_water is not None
    assert found.hot_pressure_hot_water.value / BAR == pytest.approx(
        18.0 * 1.8 / (gas - growth) - 1, abs=0.005
    )


def test_predictions_stand_on_readings_and_on_the_design_without_them(home: Home) -> None:
    measured = _expansion(home)
    assert measured.state.cold.basis is Basis.MEASURED
    assert measured.state.precharge.basis is Basis.MEASURED
    designed = _expansion(_without_readings(home))
    assert designed.cold_fill_found is None
    assert designed.state.cold == designed.cold_fill
    assert designed.precharge_found is not None  # as recorded with the vessel
    assert designed.cold_fill.value / BAR == pytest.approx(1.1)


def test_a_flat_vessel_is_seen_against_a_healthy_one(faulty_home: Home) -> None:
    found = _expansion(faulty_home)
    assert found.precharge_found is not None
    assert found.precharge_found.value / BAR == pytest.approx(0.2)
    assert found.precharge_wanted.value / BAR == pytest.approx(0.7)
    assert found.hot_pressure.value < found.flat_vessel_hot_pressure.value
    assert found.normal_hot.value < found.flat_vessel_hot_pressure.value
    # The marks stay those of a mended vessel: top-up mark a tenth over the precharge wanted.
    assert found.top_up_below.value / BAR == pytest.approx(0.8)


def test_the_marks_of_the_gauge_stand_in_order(home: Home, faulty_home: Home) -> None:
    for one in (home, faulty_home, _without_readings(faulty_home)):
        found = _expansion(one)
        marks = [
            found.top_up_below,
            found.normal_cold_low,
            found.normal_cold,
            found.normal_hot,
            found.normal_hot_high,
            found.call_above,
            found.safety_valve,
        ]
        values = [mark.value for mark in marks]
        assert values == sorted(values)
        assert found.normal_cold.value < found.normal_cold_high.value
        assert found.call_above.value / BAR == pytest.approx(2.6)


def test_a_cold_pressure_left_too_low_is_not_taken_for_the_mark(home: Home) -> None:
    commissioning = home.commissioning
    assert commissioning is not None
    readings = tuple(
        r.model_copy(update={"value": 0.6}) if r.kind == "cold_pressure" else r
        for r in commissioning.readings
    )
    changed = home.model_copy(
        update={"commissioning": commissioning.model_copy(update={"readings": readings})}
    )
    found = _expansion(changed)
    assert found.state.cold.value / BAR == pytest.approx(0.6)
    assert found.normal_cold.value == pytest.approx(found.cold_fill.value)


def test_hotter_water_and_a_larger_system_raise_the_pressure(home: Home) -> None:
    base = _expansion(home)
    hotter = _expansion(_with_plant(home, design_flow_temperature=55.0))
    assert hotter.hot_pressure.value > base.hot_pressure.value
    added = home.plant.added_volume
    assert added is not None
    larger = _expansion(_with_plant(home, added_volume=added.model_copy(update={"volume": 0.2})))
    assert larger.hot_pressure.value > base.hot_pressure.value
    assert larger.expanded_volume.value > base.expanded_volume.value


def test_a_vessel_too_small_is_said_to_be_so_and_keeps_the_marks_in_order(
    home: Home,
) -> None:
    found = _expansion(_with_vessel(home, volume=0.004))
    assert found.normal_hot.value == found.call_above.value == found.normal_hot_high.value
    assert "too small" in found.normal_hot.working.note


def test_a_safety_valve_that_opens_before_the_system_is_full_is_refused(
    home: Home,
) -> None:
    changed = home.model_copy(
        update={"pipework": home.pipework.model_copy(update={"height_above_vessel": 20.0})}
    )
    with pytest.raises(OutOfRange, match=r"filled to 2\.56\sbar, but its safety valve .* 3\.00"):
        _expansion(changed)


def test_a_drinking_water_precharge_near_the_relief_valve_is_refused(home: Home) -> None:
    vessels = tuple(
        v.model_copy(update={"precharge": 5.5e5}) if v.circuit == "drinking_water" else v
        for v in home.plant.expansion_vessels
    )
    with pytest.raises(OutOfRange, match=r"precharge is 5\.50\sbar, but the cylinder's relief"):
        _expansion(_with_plant(home, expansion_vessels=vessels))


def test_glycol_asks_for_a_larger_vessel(home: Home) -> None:
    protection = home.plant.freeze_protection
    assert protection is not None
    glycol = protection.model_copy(update={"kind": "glycol", "glycol_share": 0.25})
    mixed = _expansion(_with_plant(home, freeze_protection=glycol))
    ratio = mixed.expanded_volume.value / _expansion(home).expanded_volume.value
    assert 1.3 < ratio < 1.6  # 1.3 to 1.5 with 25 %: common practice, no source


def test_a_vessel_without_room_opens_the_safety_valve(home: Home) -> None:
    found = _expansion(_with_vessel(home, volume=0.002))
    assert found.hot_pressure.value == pytest.approx(3 * BAR)
    assert "safety valve opens" in found.hot_pressure.working.note
    assert found.margin.value < 0
    assert found.vessel_spare.value < 0


def test_a_vessel_nobody_recorded_is_assumed_of_the_next_usual_size(home: Home) -> None:
    found = _expansion(_with_plant(home, expansion_vessels=()))
    assert found.vessel_installed.basis is Basis.ASSUMED
    assert found.vessel_installed.value * 1000 == pytest.approx(12.0)
    assert found.drinking_water is None


def test_two_vessels_act_as_one_by_boyle(home: Home) -> None:
    unread = _without_readings(home)
    heating = unread.plant.expansion_vessels[0]
    halves = tuple(
        heating.model_copy(update={"id": name, "volume": 0.009, "precharge": bar * BAR})
        for name, bar in (("one", 0.7), ("two", 0.9))
    )
    found = _expansion(_with_plant(unread, expansion_vessels=halves))
    assert found.vessel_installed.value == pytest.approx(0.018)
    assert found.precharge_found is not None
    assert found.precharge_found.value / BAR == pytest.approx(0.8)


def test_litres_and_seconds_of_a_top_up_are_boyles_law_done_by_hand(home: Home) -> None:
    found = _expansion(home)
    gas = 18.0 * 1.8
    assert found.litres_per_tenth_bar.value * 1000 == pytest.approx(gas / 2.1 - gas / 2.2)
    litres = gas / 1.9 - gas / 2.2  # from the mark at 0.9 bar to 1.2 bar
    assert found.top_up_volume.value * 1000 == pytest.approx(litres)
    assert found.fill_time.value == pytest.approx(litres / 4.0 * 60)


def test_the_cylinders_own_vessel_is_boyles_law_done_by_hand(home: Home) -> None:
    vessel = _expansion(home).drinking_water
    assert vessel is not None
    growth = 210.0 * (_density(10.0) / _density(60.0) - 1)  # the hygiene run reaches 60 °C
    needed = growth / (1 - 4.0 / 6.4)  # 3 bar precharge, a tenth below 6 bar, absolute
    assert vessel.nominal_needed.value * 1000 == pytest.approx(needed, rel=0.005)


def test_a_pressure_at_the_cold_temperature_is_the_cold_pressure(home: Home) -> None:
    _, volume, found = _all(home)
    cold = given("t", "temperature", 20.0, "°C", place="a test")
    assert predicted_pressure(found, volume, cold).value == pytest.approx(1.2 * BAR)
    warm = given("t", "temperature", 42.5, "°C", place="a test")
    assert predicted_pressure(found, volume, warm).value == pytest.approx(found.hot_pressure.value)


def test_every_figure_rests_on_the_record_or_on_a_named_source(
    home: Home, faulty_home: Home
) -> None:
    for one in (home, faulty_home):
        for figure in figures_in(_expansion(one)):
            for part in with_inputs(figure):
                assert part.working.source, part.name
                assert part.working.inputs or part.basis is not Basis.CALCULATED, part.name
