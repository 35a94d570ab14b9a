"""What must hold of the water side of any home that agrees with itself."""

from __future__ import annotations

import math

from hypothesis import given, settings

from hearthbook.design.emitters import emitter_schedule
from hearthbook.design.expansion import expansion
from hearthbook.design.heat_loss import heat_loss
from hearthbook.design.hydraulics import hydraulics
from hearthbook.design.water_quality import water_quality
from hearthbook.design.water_volume import water_volume
from hearthbook.documents.figures import assumptions_in, book_of, figures_in, with_inputs
from hearthbook.errors import Incomplete
from hearthbook.record.home import Home
from hearthbook.record.plant import FreezeProtection
from tests.strategies import homes


def _results(home: Home) -> tuple[object, ...]:
    loss = heat_loss(home)
    emitters = emitter_schedule(home, loss)
    volume = water_volume(home, emitters)
    return (
        volume,
        expansion(home, volume, emitters),
        hydraulics(home, loss, emitters),
        water_quality(home, volume),
    )


@settings(max_examples=25)
@given(homes())
def test_every_home_has_finite_figures_and_one_value_for_each_name(home: Home) -> None:
    try:
        results = _results(home)
    except Incomplete:
        return  # no flow temperature is chosen and none can cover the load: nothing to design
    values: dict[str, float] = {}
    for figure in figures_in(results):
        for part in with_inputs(figure):
            assert math.isfinite(part.value), part.name
            assert values.setdefault(part.name, part.value) == part.value, part.name


@settings(max_examples=25)
@given(homes())
def test_open_water_is_part_of_all_water_and_the_gauges_marks_stand_in_order(home: Home) -> None:
    try:
        loss = heat_loss(home)
        emitters = emitter_schedule(home, loss)
    except Incomplete:
        return
    volume = water_volume(home, emitters)
    assert 0 < volume.open.value <= volume.total.value
    assert math.isclose(volume.total.value, sum(part.volume.value for part in volume.parts))
    marks = expansion(home, volume, emitters)
    values = [
        mark.value
        for mark in (
            marks.top_up_below,
            marks.normal_cold_low,
            marks.normal_cold,
            marks.normal_hot,
            marks.normal_hot_high,
            marks.call_above,
        )
    ]
    assert values == sorted(values)
    assert marks.litres_per_tenth_bar.value >= 0


@settings(max_examples=25)
@given(homes())
def test_the_primary_carries_what_all_emitters_carry(home: Home) -> None:
    try:
        loss = heat_loss(home)
        emitters = emitter_schedule(home, loss)
    except Incomplete:
        return
    found = hydraulics(home, loss, emitters)
    total = sum(circuit.flow.value for circuit in found.emitters)
    assert math.isclose(found.system_flow.value, total, rel_tol=1e-9, abs_tol=1e-12)
    for circuit in found.emitters:
        assert circuit.surplus.value >= -1e-6


def test_what_a_bare_record_leaves_open_is_assumed_and_said(well_done_home: Home) -> None:
    plant, work = well_done_home.plant, well_done_home.pipework
    unit = plant.heat_pump.model_copy(
        update={"points": tuple(p for p in plant.heat_pump.points if p.load == "maximum")}
    )
    vessels = tuple(v.model_copy(update={"precharge": None}) for v in plant.expansion_vessels)
    protection = FreezeProtection.model_validate({"kind": "glycol"})
    emitters = tuple(e.model_copy(update={"water_content": None}) for e in well_done_home.emitters)
    floors = tuple(
        e.model_copy(update={"pressure_drop": None}) if e.kind == "underfloor" else e
        for e in emitters
    )
    bare = well_done_home.model_copy(
        update={
            "emitters": floors,
            "commissioning": None,
            "pipework": work.model_copy(update={"height_above_vessel": None}),
            "plant": plant.model_copy(
                update={
                    "heat_pump": unit,
                    "expansion_vessels": vessels,
                    "safety_valves": (),
                    "freeze_protection": protection,
                    "filling": None,
                }
            ),
        }
    )
    assumed = {figure.name for figure in assumptions_in(_results(bare))}
    assert {
        "water_volume.run.least_share",
        "expansion.safety_valve",
        "expansion.height_above_vessel",
        "plant.freeze_protection.glycol_share",
        "plant.filling.flow",
        "drinking_water_vessel.precharge",
        "drinking_water_vessel.relief_valve",
        "emitters.floor_garden_room.pressure_drop",
    } <= assumed


def test_a_recorded_wall_is_taken_before_the_usual_one(well_done_home: Home) -> None:
    runs = tuple(
        run.model_copy(update={"wall_thickness": 0.0015}) for run in well_done_home.pipework.runs
    )
    thick = well_done_home.model_copy(
        update={"pipework": well_done_home.pipework.model_copy(update={"runs": runs})}
    )
    book = book_of(_results(thick))
    outside = book["pipework.runs.outdoor_primary.outside_diameter"].value
    assert math.isclose(book["pipework.runs.outdoor_primary.bore"].value, outside - 0.003)
