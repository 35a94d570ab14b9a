"""The year's emitters against the design's schedule, EN 442 and EN 1264."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.design.results import Design, design_home
from hearthbook.documents.figures import Basis
from hearthbook.errors import OutOfRange
from hearthbook.physics.emitter_step import fitted_output, inlet_weight
from hearthbook.physics.emitters import emitter_output
from hearthbook.record.controls import EmitterSetting
from hearthbook.record.home import Home
from hearthbook.year.emitter_arrays import (
    EmitterArrays,
    emitter_arrays,
    floors_to_rooms,
    on_floors,
    water_to_floor,
)
from hearthbook.year.room_network import room_network


def _room_ids(design: Design) -> tuple[str, ...]:
    return tuple(room.room.id for room in design.heat_loss.rooms)


def _made(home: Home) -> tuple[Design, EmitterArrays]:
    design = design_home(home)
    return design, emitter_arrays(design, _room_ids(design))


def _with_setting(home: Home, emitter: str, number: str) -> Home:
    kept = tuple(s for s in home.controls.emitter_settings if s.emitter != emitter)
    settings = (*kept, EmitterSetting(emitter=emitter, number=number))
    return home.model_copy(
        update={"controls": home.controls.model_copy(update={"emitter_settings": settings})}
    )


@pytest.fixture(scope="module")
def well_done(well_done_home: Home) -> tuple[Design, EmitterArrays]:
    return _made(well_done_home)


@pytest.fixture(scope="module")
def faulty(faulty_home: Home) -> tuple[Design, EmitterArrays]:
    return _made(faulty_home)


@pytest.mark.parametrize("name", ["well_done", "faulty"])
def test_output_at_design_temperatures_is_the_designs(
    name: str, request: pytest.FixtureRequest
) -> None:
    """Flow and return of the design, weighted as the kernel weights them: within 1.5 %."""
    design, made = request.getfixturevalue(name)
    flow = design.emitters.flow_temperature.value
    for index, one in enumerate(design.emitters.emitters):
        room = design.emitters.room(one.room_id).temperature.value
        drop = one.characteristic.drop
        through = made.floor_conductance[index] or made.emitters.conductance[index]
        weight = inlet_weight(one.output.value / drop, through)
        excess = float(np.sum(weight * flow + (1.0 - weight) * (flow - drop) - room))
        output = excess * made.floor_conductance[index]
        if not made.emitters.into_floor[index]:
            output = float(np.sum(fitted_output(
                excess, made.emitters.linear[index], made.emitters.quarter[index],
                made.emitters.half[index],
            )))  # fmt: skip
        assert output == pytest.approx(one.output.value, rel=0.015), one.emitter.id


@pytest.mark.parametrize("excess", [5.0, 15.0, 30.0, 49.83])
def test_output_follows_the_characteristic_equation(
    faulty: tuple[Design, EmitterArrays], excess: float
) -> None:
    """EN 442-2, characteristic equation, at a drop of next to nothing."""
    design, made = faulty
    for index, one in enumerate(design.emitters.emitters):
        known = one.characteristic
        expected = emitter_output(
            known.rated_output, 20.0 + excess + 0.01, 20.0 + excess - 0.01, 20.0, known.exponent
        )
        found = fitted_output(
            excess, made.emitters.linear[index], made.emitters.quarter[index],
            made.emitters.half[index],
        )  # fmt: skip
        assert found == pytest.approx(expected, rel=0.01)


def test_flows_add_up_to_the_systems(well_done: tuple[Design, EmitterArrays]) -> None:
    design, made = well_done
    density = 990.0  # kg/m³ of water between 40 and 45 °C, within 0.3 %; handbook tables
    assert made.emitters.design_flow.sum() == pytest.approx(
        design.hydraulics.system_flow.value * density, rel=0.003
    )


def test_water_and_metal_are_both_counted(well_done: tuple[Design, EmitterArrays]) -> None:
    """Steel panels weigh 18 to 22 kg for each kW at 50 K: from memory of makers' tables."""
    design, made = well_done
    for index, one in enumerate(design.emitters.emitters):
        water = made.emitters.capacity[index] - made.metal[index]
        assert water >= one.water_content.value * 4.1e6
        if one.emitter.kind == "panel_radiator":
            mass = made.metal[index] / 480.0
            assert 18.0 <= mass / (one.rated_output.value / 1000.0) <= 22.0


def test_a_floor_warms_its_mass_and_radiates_nothing_itself(
    well_done: tuple[Design, EmitterArrays],
) -> None:
    _, made = well_done
    index = made.emitter_ids.index("floor_garden_room")
    assert made.emitters.into_floor[index] == 1.0
    assert made.emitters.radiant[index] == 0.0
    assert made.emitters.into_floor.sum() == 1.0


@pytest.mark.parametrize("name", ["well_done", "faulty"])
@pytest.mark.parametrize("passes", [1.0, 0.2])
def test_a_floor_and_its_room_in_series_give_the_standards_output(
    name: str, passes: float, request: pytest.FixtureRequest
) -> None:
    """EN 1264-2: water to room as its characteristic has it, however little a floor passes on."""
    design, made = request.getfixturevalue(name)
    rooms = room_network(design).rooms
    rooms = rooms._replace(
        air_floor=rooms.air_floor * passes, inner_floor=rooms.inner_floor * passes
    )
    fitted = on_floors(made, rooms)
    to_rooms = floors_to_rooms(fitted.rooms)
    emitters = fitted.arrays.emitters
    for index in np.flatnonzero(emitters.into_floor):
        series = 1.0 / (1.0 / emitters.linear[index] + 1.0 / to_rooms[emitters.room[index]])
        assert series == pytest.approx(made.floor_conductance[index])
    others = emitters.into_floor == 0.0
    assert np.array_equal(emitters.linear[others], made.emitters.linear[others])
    assert np.all(fitted.rooms.air_floor >= rooms.air_floor)
    is_raised = fitted.rooms.air_floor > rooms.air_floor
    assert set(np.flatnonzero(is_raised)) == set(fitted.widened)
    assert set(fitted.widened) <= set(emitters.room[~others])


@given(through=st.floats(1.0, 200.0), more=st.floats(1.2, 50.0))
def test_series_conductance_has_an_inverse(through: float, more: float) -> None:
    to_floor = water_to_floor(through, more * through)
    assert 1.0 / (1.0 / to_floor + 1.0 / (more * through)) == pytest.approx(through)
    assert to_floor > through


def test_a_floor_that_passes_too_little_is_refused() -> None:
    with pytest.raises(OutOfRange, match=r"gives 50\.0 W/K by EN 1264.*passes 40\.0 W/K"):
        water_to_floor(50.0, 40.0)


def test_open_valves_stay_open_and_heads_shut(well_done: tuple[Design, EmitterArrays]) -> None:
    design, made = well_done
    for index, one in enumerate(design.emitters.emitters):
        is_open = one.emitter.is_kept_open or one.emitter.valve.value != "thermostatic"
        assert made.emitters.least_opening[index] == float(is_open), one.emitter.id


def test_the_middle_of_a_band_is_read_from_the_heads_scale(well_done_home: Home) -> None:
    """The record's scale: number 3 is 20 °C, number 4 is 24 °C; the dining room wants 21 °C."""
    _, made = _made(_with_setting(well_done_home, "rad_dining", "3"))
    index = made.emitter_ids.index("rad_dining")
    assert made.emitters.valve_shift[index] == pytest.approx(20.0 - 21.0)
    _, between = _made(_with_setting(well_done_home, "rad_dining", "3.5"))
    assert between.emitters.valve_shift[index] == pytest.approx(22.0 - 21.0)
    _, fully = _made(_with_setting(well_done_home, "rad_dining", "max"))
    assert fully.emitters.least_opening[index] == 1.0


def test_a_head_without_a_number_is_a_limiter(faulty_home: Home) -> None:
    silent = faulty_home.controls.model_copy(update={"emitter_settings": ()})
    _, made = _made(faulty_home.model_copy(update={"controls": silent}))
    assert np.all(made.emitters.valve_shift > 0.5)


def test_what_is_assumed_is_marked(faulty: tuple[Design, EmitterArrays]) -> None:
    _, made = faulty
    names = {figure.name for figure in made.assumptions}
    assert "year.assumed.emitters.rad_hall.metal_mass" in names
    assert "year.assumed.emitters.rad_hall.valve_lag" in names
    for figure in made.assumptions:
        assert figure.basis is Basis.ASSUMED
        assert figure.working.source, figure.name


@pytest.mark.parametrize("name", ["well_done", "faulty"])
def test_every_number_is_finite(name: str, request: pytest.FixtureRequest) -> None:
    _, made = request.getfixturevalue(name)
    for field, values in made.emitters._asdict().items():
        assert values.shape == (len(made.emitter_ids),), field
        assert np.all(np.isfinite(values)), field
    assert made.emitters.room.dtype == np.int64
    assert np.all(made.emitters.capacity > 0.0)
    assert np.all(made.emitters.conductance > 0.0)


def test_a_unit_that_asks_for_more_water_gets_it(well_done_home: Home) -> None:
    plant = well_done_home.plant
    unit = plant.heat_pump.model_copy(update={"minimum_flow": 20e-3 / 60, "nominal_flow": None})
    thirsty = well_done_home.model_copy(
        update={"plant": plant.model_copy(update={"heat_pump": unit})}
    )
    _, made = _made(thirsty)
    assert made.emitters.design_flow.sum() == pytest.approx(1.1 * 20.0 / 60.0, rel=0.015)
