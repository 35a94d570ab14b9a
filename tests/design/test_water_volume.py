"""Water in the system: what counts as open, what is needed, and that nothing is lost on the way."""

from __future__ import annotations

import math
from typing import Any

import pytest

from hearthbook.design.emitters import emitter_schedule
from hearthbook.design.heat_loss import heat_loss
from hearthbook.design.water_volume import WaterVolume, water_volume
from hearthbook.documents.figures import Basis, book_of, figures_in, with_inputs
from hearthbook.record.emitters import Tail
from hearthbook.record.home import Home
from hearthbook.record.pipework import PipeRun
from hearthbook.record.plant import FreezeProtection, PerformancePoint


def _volume(home: Home) -> WaterVolume:
    return water_volume(home, emitter_schedule(home, heat_loss(home)))


def _with_plant(home: Home, **changes: Any) -> Home:
    return home.model_copy(update={"plant": home.plant.model_copy(update=changes)})


def _with_unit(home: Home, **changes: Any) -> Home:
    return _with_plant(home, heat_pump=home.plant.heat_pump.model_copy(update=changes))


def _with_emitter(home: Home, emitter_id: str, **changes: Any) -> Home:
    emitters = tuple(
        e.model_copy(update=changes) if e.id == emitter_id else e for e in home.emitters
    )
    return home.model_copy(update={"emitters": emitters})


def _with_run(home: Home, run_id: str, **changes: Any) -> Home:
    runs = tuple(r.model_copy(update=changes) if r.id == run_id else r for r in home.pipework.runs)
    return home.model_copy(update={"pipework": home.pipework.model_copy(update={"runs": runs})})


# Bores in m of EN 1057 half-hard tube, by outside diameter in mm; from memory.
BORES = {10: 0.0088, 15: 0.0136, 22: 0.0202, 28: 0.0262, 35: 0.0326}


def _litres(pipe: PipeRun | Tail | None) -> float:
    """Litres in a copper pipe by plain geometry."""
    if pipe is None:
        return 0.0
    bore = BORES[round(pipe.outside_diameter * 1000)]
    return math.pi / 4 * bore**2 * pipe.length * 1000


def _emitter_litres(home: Home, ids: tuple[str, ...]) -> float:
    """Litres in emitters and their own pipes, all recorded in the well-done home."""
    return sum(
        (e.water_content or math.nan) * 1000 + _litres(e.tail) for e in home.emitters if e.id in ids
    )


def _plant_litres(home: Home) -> float:
    """Litres in the unit and the volumiser."""
    assert home.plant.added_volume is not None
    return ((home.plant.heat_pump.water_content or math.nan) + home.plant.added_volume.volume) * 1e3


def test_the_total_is_the_sum_done_by_hand(well_done_home: Home) -> None:
    home = well_done_home
    assert home.plant.cylinder is not None
    coil = (home.plant.cylinder.coil_content or math.nan) * 1000
    runs = sum(_litres(run) for run in home.pipework.runs)
    emitters = _emitter_litres(home, tuple(e.id for e in home.emitters))
    by_hand = runs + emitters + _plant_litres(home) + coil + 3.0  # the vessel's reserve
    assert _volume(home).total.value * 1000 == pytest.approx(by_hand, abs=0.05)


def test_open_water_is_the_sum_done_by_hand(well_done_home: Home) -> None:
    # Two living-room radiators, the warm floor and the towel rail have nothing that shuts them;
    # one of them hangs on every run but the coil's.
    home = well_done_home
    opened = ("rad_living_front", "rad_living_back", "floor_garden_room", "towel_rail")
    runs = sum(_litres(run) for run in home.pipework.runs if not run.serves_cylinder)
    by_hand = runs + _emitter_litres(home, opened) + _plant_litres(home)
    volume = _volume(home)
    assert volume.open.value * 1000 == pytest.approx(by_hand, abs=0.05)
    assert volume.always_open_emitters == opened


def test_a_home_whose_every_radiator_can_be_shut_has_little_more_than_its_primary_open(
    faulty_home: Home,
) -> None:
    volume = _volume(faulty_home)
    assert volume.always_open_emitters == ()
    by_hand = 2.0 + sum(  # the unit, assumed
        _litres(run)
        for run in faulty_home.pipework.runs
        if not run.serves and not run.serves_cylinder
    )
    assert volume.open.value * 1000 == pytest.approx(by_hand, abs=0.05)
    assert volume.spare.value < 0
    assert volume.added_volume is None
    assert volume.added_volume_needed.value == pytest.approx(-volume.spare.value)


def test_needed_water_is_the_energy_balance_done_by_hand(well_done_home: Home) -> None:
    points = [
        PerformancePoint.model_validate(
            {"outdoor_temperature": outdoor, "flow_temperature": flow, "output": f"{kilowatts} kW",
             "efficiency": 3.0, "load": load}
        )
        for outdoor, flow, kilowatts, load in (
            (2, 45, 6.0, "maximum"), (7, 35, 7.0, "maximum"), (7, 35, 2.2, "minimum"),
        )
    ]  # fmt: skip
    volume = _volume(_with_unit(well_done_home, points=tuple(points), defrost_length=240.0))
    # 6.0 kW for 4 min and 8 K; 2.2 kW least output, half of it wanted, 10 min and 5 K.
    assert volume.needed_for_defrost.value * 1000 == pytest.approx(6.0 * 4 * 60 / 4.186 / 8)
    assert volume.needed_for_run.value * 1000 == pytest.approx(1.1 * 10 * 60 / 4.186 / 5)
    assert volume.governing == "defrost"


# CoolProp, incompressible MPG: 25 % by mass at 40 °C holds 1009.9 · 3969 J/(m³·K), 4.2 % less than
# the trade's 4.186 MJ/(m³·K); 30 % by volume is 31 % by mass, which holds some 6 % less.
def test_glycol_asks_for_more_water_because_it_holds_less_heat(well_done_home: Home) -> None:
    glycol = FreezeProtection(kind="glycol", glycol_share=0.30)
    plain, mixed = (
        _volume(well_done_home),
        _volume(_with_plant(well_done_home, freeze_protection=glycol)),
    )
    for need in ("needed_for_defrost", "needed_for_run"):
        more = getattr(mixed, need).value / getattr(plain, need).value
        assert 1.045 < more < 1.08


def test_the_makers_minimum_governs_where_it_is_the_largest(well_done_home: Home) -> None:
    volume = _volume(_with_unit(well_done_home, minimum_volume=0.090))
    assert volume.governing == "maker"
    assert volume.needed.value == 0.090
    assert volume.spare.value == pytest.approx(volume.open.value - 0.090)


def test_a_volumiser_is_said_to_be_short_or_spare_by_its_litres(well_done_home: Home) -> None:
    volume = _volume(_with_unit(well_done_home, minimum_volume=0.090))
    assert volume.added_volume is not None
    assert volume.added_volume_spare is not None
    without = volume.open.value - volume.added_volume.value
    assert volume.added_volume_needed.value == pytest.approx(0.090 - without)
    assert volume.added_volume_spare.value == pytest.approx(
        volume.added_volume.value - (0.090 - without)
    )


def test_a_thermostatic_valve_takes_a_radiator_and_its_pipes_out_of_the_open_water(
    well_done_home: Home,
) -> None:
    before = _volume(well_done_home)
    after = _volume(_with_emitter(well_done_home, "rad_living_back", valve="thermostatic"))
    litres = _emitter_litres(well_done_home, ("rad_living_back",))
    assert (before.open.value - after.open.value) * 1000 == pytest.approx(litres, rel=1e-6)
    assert before.total.value == pytest.approx(after.total.value)


def test_a_branch_is_open_only_while_something_on_it_is(well_done_home: Home) -> None:
    # The towel rail alone keeps the upstairs branch open.
    volume = _volume(_with_emitter(well_done_home, "towel_rail", valve="thermostatic"))
    assert "upstairs branch" not in {part.name for part in volume.parts if part.is_open}


def test_a_valve_in_a_branch_shuts_all_beyond_it(well_done_home: Home) -> None:
    volume = _volume(_with_run(well_done_home, "living_branch", is_shut_by_valve=True))
    assert volume.always_open_emitters == ("floor_garden_room", "towel_rail")
    names = {part.name for part in volume.parts if part.is_open}
    assert "branch to the living room and hall" not in names
    assert "airing cupboard to the downstairs radiators" in names


def test_a_valve_in_the_primary_leaves_no_emitter_open(well_done_home: Home) -> None:
    volume = _volume(_with_run(well_done_home, "indoor_primary", is_shut_by_valve=True))
    assert volume.always_open_emitters == ()


def test_behind_a_buffer_only_the_buffer_and_the_primary_are_open(well_done_home: Home) -> None:
    assert well_done_home.plant.added_volume is not None
    buffer = well_done_home.plant.added_volume.model_copy(update={"kind": "buffer"})
    volume = _volume(_with_plant(well_done_home, added_volume=buffer))
    assert {part.name for part in volume.parts if part.is_open} == {
        "heat pump",
        "outside unit to the kitchen cupboard",
        "kitchen cupboard to the airing cupboard",
        "buffer",
    }


def test_the_vessels_water_and_the_coil_are_never_open(well_done_home: Home) -> None:
    is_open = {part.name: part.is_open for part in _volume(well_done_home).parts}
    assert not is_open["expansion vessel"]
    assert not is_open["cylinder coil"]


def test_what_nobody_recorded_is_an_assumption_one_can_read(faulty_home: Home) -> None:
    assumptions = {
        figure.name for figure in book_of(_volume(faulty_home)).values()
        if figure.basis is Basis.ASSUMED
    }  # fmt: skip
    assert "plant.heat_pump.water_content" in assumptions
    assert "water_volume.defrost.length" in assumptions


def test_every_figure_rests_on_the_record_or_on_a_named_source(well_done_home: Home) -> None:
    for figure in figures_in(_volume(well_done_home)):
        for part in with_inputs(figure):
            assert part.working.source, part.name
            assert part.working.inputs or part.basis is not Basis.CALCULATED, part.name
