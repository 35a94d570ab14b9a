"""The year's plant against the design: water, flows, frost, controls, cylinder."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings

from hearthbook.design.results import Design, design_home
from hearthbook.documents.figures import Basis, book_of
from hearthbook.errors import Incomplete, OutOfRange
from hearthbook.kernel.parameters import CYLINDER_LAYERS, PLANT
from hearthbook.physics.cylinder_layers import cool_layers
from hearthbook.physics.heat_pump import cycling_factor
from hearthbook.record.home import Home
from hearthbook.record.plant import AddedVolume, BackupHeater
from hearthbook.year.emitter_arrays import emitter_arrays
from hearthbook.year.plant_fields import filled
from hearthbook.year.plant_record import PlantRecord, plant_record
from hearthbook.year.water_nodes import loss_of_pipe
from tests.strategies import homes

DEMO = ("well_done_home", "faulty_home")


def _room_ids(design: Design) -> tuple[str, ...]:
    return tuple(room.room.id for room in design.heat_loss.rooms)


def _made(home: Home) -> tuple[Design, PlantRecord]:
    design = design_home(home)
    return design, plant_record(design, _room_ids(design))


def _changed(home: Home, **plant: Any) -> Home:
    return home.model_copy(update={"plant": home.plant.model_copy(update=plant)})


def _with_unit(home: Home, **unit: Any) -> Home:
    return _changed(home, heat_pump=home.plant.heat_pump.model_copy(update=unit))


def _with_controls(home: Home, **controls: Any) -> Home:
    return home.model_copy(update={"controls": home.controls.model_copy(update=controls)})


@pytest.fixture(scope="module")
def well_done(well_done_home: Home) -> tuple[Design, PlantRecord]:
    return _made(well_done_home)


@pytest.fixture(scope="module")
def faulty(faulty_home: Home) -> tuple[Design, PlantRecord]:
    return _made(faulty_home)


@pytest.mark.parametrize("name", ["well_done", "faulty"])
def test_every_field_is_finite_and_has_its_figure(
    name: str, request: pytest.FixtureRequest
) -> None:
    _, made = request.getfixturevalue(name)
    assert made.plant.shape == (1,)
    plain = {
        "pipe_room", "cylinder_room", "thermostat_room", "has_cylinder", "coil_layers",
        "sensor_layer", "draw_factor", "efficiency_factor", "flow_shift",
    }  # fmt: skip
    for field in PLANT.names or ():
        assert np.isfinite(made.plant[0][field]), field
        assert (field in made.fields) is (field not in plain), field


@pytest.mark.parametrize("name", ["well_done", "faulty"])
def test_every_figure_is_founded(name: str, request: pytest.FixtureRequest) -> None:
    _, made = request.getfixturevalue(name)
    for figure in book_of(made.figures).values():
        assert figure.working.source, figure.name
        if figure.basis is Basis.CALCULATED:
            assert figure.working.inputs, figure.name
    for figure in made.figures:
        if figure.basis is Basis.ASSUMED:
            assert figure.name.startswith("year.assumed."), figure.name


def _water_capacity(design: Design, made: PlantRecord) -> float:
    """J/K of all water, metal taken off again."""
    plant = made.plant[0]
    book = book_of(made.figures)
    metal = sum(
        book[name].value
        for name in ("year.assumed.unit_metal", "year.plant.pipes_metal", "year.plant.coil_metal")
    )
    emitters = emitter_arrays(design, _room_ids(design))
    fields = ("unit_capacity", "flow_capacity", "return_capacity", "coil_loop_capacity")
    total = sum(float(plant[field]) for field in fields) - metal
    return total + float((emitters.emitters.capacity - emitters.metal).sum())


@pytest.mark.parametrize("name", ["well_done", "faulty"])
def test_the_water_of_all_parts_is_the_systems(name: str, request: pytest.FixtureRequest) -> None:
    """Litre for litre the design's volume, the expansion vessel's cold water apart.

    A litre of water near 42 °C holds 4.14 kJ/K: handbook tables, 991.4 kg/m³ and 4.179 kJ/(kg·K).
    """
    design, made = request.getfixturevalue(name)
    vessel = next(p.volume.value for p in design.volume.parts if p.name == "expansion vessel")
    litres = (design.volume.total.value - vessel) * 1000.0
    assert _water_capacity(design, made) / litres == pytest.approx(4143.0, rel=0.003)


def test_a_volumiser_stands_where_it_is_recorded(well_done_home: Home) -> None:
    on_return, on_flow, none = (
        _made(_changed(well_done_home, added_volume=added))[1].plant[0]
        for added in (
            AddedVolume(kind="volumiser", volume=30.0, on="return"),
            AddedVolume(kind="volumiser", volume=30.0, on="flow"),
            None,
        )
    )
    assert on_return["return_capacity"] - none["return_capacity"] == pytest.approx(
        30.0 * 4143.0, rel=0.003
    )
    assert on_return["flow_capacity"] == none["flow_capacity"]
    assert on_flow["flow_capacity"] == pytest.approx(on_return["return_capacity"])
    assert none["has_bypass"] == 0.0


def test_water_may_pass_by_the_emitters_through_a_buffer(well_done_home: Home) -> None:
    buffer = AddedVolume(kind="buffer", volume=50.0, on="flow")
    assert _made(_changed(well_done_home, added_volume=buffer))[1].plant[0]["has_bypass"] == 1.0


def test_flows_are_the_designs(well_done: tuple[Design, PlantRecord]) -> None:
    design, made = well_done
    plant = made.plant[0]
    emitters = emitter_arrays(design, _room_ids(design)).emitters
    assert plant["design_flow"] == pytest.approx(emitters.design_flow.sum())
    assert plant["least_flow"] == pytest.approx(9.0 / 60.0 * 0.991, rel=0.002)
    assert plant["coil_flow"] == pytest.approx(16.0 / 60.0 * 0.991, rel=0.002)
    assert 0.0 < plant["common_resistance"] < 0.95


def test_a_small_pump_draws_what_small_pumps_draw(
    well_done: tuple[Design, PlantRecord], faulty: tuple[Design, PlantRecord]
) -> None:
    """20 to 80 W: common practice, no source."""
    for _, made in (well_done, faulty):
        assert 20.0 < made.plant[0]["pump_power"] < 80.0


def test_a_start_costs_what_the_standard_takes_off_for_cycling(
    well_done: tuple[Design, PlantRecord],
) -> None:
    """EN 14825: at half the least output 0.909 of the efficiency is left; runs of ten minutes."""
    design, made = well_done
    run = float(design.fit.unit.least(7.0, 35.0)) * 600.0
    left = 1.0 - made.plant[0]["start_loss"] / run
    assert left == pytest.approx(float(np.sum(cycling_factor(0.5))), abs=1e-9)


@pytest.mark.parametrize("name", ["well_done", "faulty"])
def test_a_defrost_clears_the_coil_long_before_it_is_given_up(
    name: str, request: pytest.FixtureRequest
) -> None:
    _, made = request.getfixturevalue(name)
    plant = made.plant[0]
    melting = (
        plant["frost_to_defrost"] * 334e3 / plant["defrost_efficiency"] / plant["defrost_power"]
    )
    assert 120.0 <= melting <= 300.0  # s; 2 to 5 min, common practice, no source
    assert plant["defrost_longest"] > 1.5 * melting


def test_controls_are_the_records(
    well_done: tuple[Design, PlantRecord], faulty: tuple[Design, PlantRecord]
) -> None:
    (design, made), (faulty_design, other) = well_done, faulty
    plant = made.plant[0]
    assert (plant["curve_least"], plant["curve_most"]) == (25.0, 48.0)
    assert plant["heating_limit"] == 16.0
    assert plant["thermostat_room"] == _room_ids(design).index("living_room")
    assert plant["thermostat_shift"] == pytest.approx(22.5 - 21.0)
    assert plant["backup_power"] == 0.0
    assert other.plant[0]["backup_power"] == 3000.0
    assert other.plant[0]["backup_locked_above"] > 40.0  # no lock is recorded
    assert other.plant[0]["thermostat_room"] == _room_ids(faulty_design).index("hall")


def test_a_disabled_backup_heater_gives_nothing(well_done_home: Home) -> None:
    heater = BackupHeater(power=6.0, is_enabled=False, locked_above=-3.0)
    plant = _made(_changed(well_done_home, backup_heater=heater))[1].plant[0]
    assert plant["backup_power"] == 0.0
    assert plant["backup_locked_above"] == -3.0


def test_a_home_without_a_thermostat_never_stops_for_one(well_done_home: Home) -> None:
    plant = _made(_with_controls(well_done_home, thermostat=None))[1].plant[0]
    assert plant["thermostat_room"] == -1
    assert plant["thermostat_shift"] >= 10.0


def test_a_quieter_night_leaves_less_output(well_done_home: Home) -> None:
    mild, strict = (
        _made(_with_unit(well_done_home, sound_power_quiet=quiet))[1].plant[0]["quiet_share"]
        for quiet in (52.0, 46.0)
    )
    assert strict < mild < 1.0


def test_the_cylinder_holds_its_water_and_loses_its_label(
    well_done: tuple[Design, PlantRecord],
) -> None:
    """EN 12897: the label's loss is that of a store at 65 °C in a room of 20 °C."""
    _, made = well_done
    plant = made.plant[0]
    assert plant["layer_mass"] * CYLINDER_LAYERS == pytest.approx(210.0 * 0.992, rel=0.002)
    layers = np.full(CYLINDER_LAYERS, 65.0)
    step = 900.0
    lost = cool_layers(
        layers, 20.0, float(plant["layer_loss"]), float(plant["layer_conduction"]),
        float(plant["layer_capacity"]), step,
    )  # fmt: skip
    assert lost / step * 86_400.0 / 3.6e6 == pytest.approx(1.35, rel=1e-6)  # kWh a day, its label


def test_the_coil_is_an_exchanger_with_a_store(well_done: tuple[Design, PlantRecord]) -> None:
    """1 - exp(-UA/(m·c)) with 3.0 m² at 550 W/(m²·K) and 16 L/min; handbooks of heat transfer."""
    plant = well_done[1].plant[0]
    expected = 1.0 - math.exp(-3.0 * 550.0 / (16.0 / 60.0 * 4143.0))
    assert plant["coil_effectiveness"] == pytest.approx(expected, rel=0.002)
    carries = (
        plant["coil_effectiveness"] * plant["coil_flow"] * plant["heat_capacity"]
        * plant["hot_water_flow_excess"]
    )  # fmt: skip
    assert carries == pytest.approx(6560.0, rel=0.02)  # W; most output at 7/56 °C of the record


def test_a_larger_coil_gives_more(well_done_home: Home) -> None:
    cylinder = well_done_home.plant.cylinder
    assert cylinder is not None
    small, large = (
        _made(_changed(well_done_home, cylinder=cylinder.model_copy(update={"coil_area": area})))[
            1
        ].plant[0]["coil_effectiveness"]
        for area in (1.5, 3.0)
    )
    assert small < large < 1.0


def test_the_sensor_lies_at_its_height(well_done: tuple[Design, PlantRecord]) -> None:
    plant = well_done[1].plant[0]
    assert plant["sensor_layer"] == 2  # 0.35 of eight layers
    assert 1 <= plant["coil_layers"] <= CYLINDER_LAYERS


def test_a_hygiene_run_is_shared_as_decided(well_done_home: Home) -> None:
    cylinder = well_done_home.plant.cylinder
    assert cylinder is not None
    assert cylinder.hygiene is not None
    found = {}
    for source in ("immersion_heater", "both", "heat_pump"):
        regime = cylinder.hygiene.model_copy(update={"heat_source": source})
        home = _changed(well_done_home, cylinder=cylinder.model_copy(update={"hygiene": regime}))
        found[source] = _made(home)[1].plant[0]["hygiene_by_unit_up_to"]
    assert found["immersion_heater"] == 50.0 < found["both"] < found["heat_pump"] == 60.0


def test_a_home_without_a_cylinder_works(well_done_home: Home) -> None:
    design, made = _made(_changed(well_done_home, cylinder=None, diverter_valve=None))
    plant = made.plant[0]
    assert design.hot_water is None
    assert plant["has_cylinder"] == 0.0
    assert plant["layer_capacity"] > 0.0
    assert plant["coil_layers"] >= 1


def test_the_cylinder_stands_where_the_record_says(well_done_home: Home, faulty_home: Home) -> None:
    for home, room in ((well_done_home, "landing"), (faulty_home, "bathroom")):
        design, made = _made(home)
        assert made.plant[0]["cylinder_room"] == _room_ids(design).index(room)
    cold = well_done_home.model_copy(
        update={"places": well_done_home.places | {"cylinder": "in the garage"}}
    )
    assert _made(cold)[1].plant[0]["cylinder_room"] == -1


def test_glycol_holds_less_heat(well_done_home: Home) -> None:
    protection = well_done_home.plant.freeze_protection
    assert protection is not None
    glycol = protection.model_copy(update={"kind": "glycol", "glycol_share": 0.3})
    plain, mixed = (
        _made(home)[1].plant[0]
        for home in (well_done_home, _changed(well_done_home, freeze_protection=glycol))
    )
    assert mixed["heat_capacity"] < plain["heat_capacity"]
    assert mixed["flow_capacity"] < plain["flow_capacity"]


def test_insulation_keeps_pipes_warm() -> None:
    """A bare 22 mm tube at 10 W/(m²·K): π·D·α = 0.691 W/(m·K), geometry."""
    assert loss_of_pipe(0.022, 0.0) == pytest.approx(math.pi * 0.022 * 10.0)
    assert loss_of_pipe(0.022, 0.04) < loss_of_pipe(0.022, 0.02) < loss_of_pipe(0.022, 0.0)


def test_a_field_left_out_is_refused() -> None:
    with pytest.raises(Incomplete, match="the plant's unit_capacity"):
        filled({}, {})


@settings(max_examples=25)
@given(home=homes())
def test_any_home_has_a_plant(home: Home) -> None:
    try:
        design = design_home(home)
    except (Incomplete, OutOfRange):
        return
    made = plant_record(design, _room_ids(design))
    for field in PLANT.names or ():
        assert np.isfinite(made.plant[0][field]), field
    emitters = emitter_arrays(design, _room_ids(design)).emitters
    for values in emitters:
        assert np.all(np.isfinite(values))
    assert made.plant[0]["design_flow"] == pytest.approx(emitters.design_flow.sum(), rel=1e-6)
