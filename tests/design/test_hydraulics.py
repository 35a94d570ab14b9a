"""Flows and pressure losses of a home, against the open library fluids and sums done by hand."""

from __future__ import annotations

import math
from typing import Any

import fluids
import pytest
from iapws import IAPWS97  # type: ignore[import-untyped]  # ships no types

from hearthbook.design.emitters import emitter_schedule
from hearthbook.design.heat_loss import heat_loss
from hearthbook.design.hydraulics import Hydraulics, hydraulics
from hearthbook.design.pipe_sizes import fittings_length, usual_wall
from hearthbook.documents.figures import Basis, figures_in, with_inputs
from hearthbook.record.home import Home
from hearthbook.record.pipework import PipeRun

L_PER_MIN = 1e-3 / 60


def _hydraulics(home: Home) -> Hydraulics:
    loss = heat_loss(home)
    return hydraulics(home, loss, emitter_schedule(home, loss))


def _with_plant(home: Home, **changes: Any) -> Home:
    return home.model_copy(update={"plant": home.plant.model_copy(update=changes)})


def _with_runs(home: Home, **changes: Any) -> Home:
    runs = tuple(run.model_copy(update=changes) for run in home.pipework.runs)
    return home.model_copy(update={"pipework": home.pipework.model_copy(update={"runs": runs})})


def test_what_divides_at_a_branch_adds_up_again(well_done_home: Home) -> None:
    found = _hydraulics(well_done_home)
    flow = {pipe.pipe_id: pipe.flow.value for pipe in found.pipes}
    emitters = {circuit.emitter_id: circuit.flow.value for circuit in found.emitters}
    assert sum(emitters.values()) == pytest.approx(found.system_flow.value)
    assert flow["outdoor_primary"] == flow["indoor_primary"] == found.system_flow.value
    assert flow["downstairs_main"] + flow["upstairs_branch"] == pytest.approx(
        found.system_flow.value
    )
    assert flow["living_branch"] + flow["rear_branch"] == pytest.approx(flow["downstairs_main"])
    assert flow["coil_pipes"] == pytest.approx(16 * L_PER_MIN)


def test_the_flow_for_the_loss_is_the_trades_sum(well_done_home: Home) -> None:
    loss = heat_loss(well_done_home).total.value
    by_hand = 14.33 * loss / 1000 / 5  # L/min from kW and K
    found = _hydraulics(well_done_home)
    assert found.flow_for_loss.value / L_PER_MIN == pytest.approx(by_hand, rel=1e-3)


def test_each_runs_gradient_agrees_with_fluids(well_done_home: Home) -> None:
    water = IAPWS97(T=42.5 + 273.15, P=0.1)
    bores = {35: 0.0326, 28: 0.0262, 22: 0.0202, 15: 0.0136}
    found = {pipe.pipe_id: pipe for pipe in _hydraulics(well_done_home).pipes}
    for run in well_done_home.pipework.runs:
        bore = bores[round(run.outside_diameter * 1000)]
        pipe = found[run.id]
        speed = pipe.flow.value / (math.pi / 4 * bore**2)
        assert pipe.velocity.value == pytest.approx(speed)
        reynolds = fluids.Reynolds(V=speed, D=bore, rho=water.rho, mu=water.mu)
        factor = fluids.friction_factor(Re=reynolds, eD=1.5e-6 / bore)
        expected = factor / bore * water.rho * speed**2 / 2
        assert pipe.gradient.value == pytest.approx(expected, rel=0.02)
        metres = run.length + fittings_length(run).value
        assert pipe.loss.value == pytest.approx(pipe.gradient.value * metres)


def test_fittings_cost_what_the_trade_associations_table_says() -> None:
    # Soldered elbow, square tee, straight valve at 15, 22 and 28 mm.
    table = {15: (0.37, 1.00, 0.30), 22: (0.60, 1.60, 0.40), 28: (0.83, 2.00, 0.60)}
    for diameter, lengths in table.items():
        for field, expected in zip(("elbows", "tees", "valves"), lengths, strict=True):
            run = PipeRun.model_validate(
                {"id": "a", "name": "a", "outside_diameter": diameter, "length": 1, field: 3}
            )
            assert fittings_length(run).value == pytest.approx(3 * expected)


def test_a_tube_of_no_usual_size_gets_a_wall_in_proportion() -> None:
    assert 0.0007 < usual_wall("copper", 0.016) < 0.0009
    assert usual_wall("steel", 0.0269) == pytest.approx(0.0026)


def test_a_circuit_is_the_sum_of_what_lies_on_its_way(well_done_home: Home) -> None:
    found = _hydraulics(well_done_home)
    floor = next(c for c in found.emitters if c.emitter_id == "floor_garden_room")
    losses = {pipe.pipe_id: pipe.loss.value for pipe in found.pipes}
    way = ("outdoor_primary", "indoor_primary", "downstairs_main", "rear_branch")
    tail = well_done_home.emitter("floor_garden_room").tail
    assert tail is not None
    assert floor.gradient is not None
    by_hand = sum(losses[run] for run in way) + floor.gradient.value * tail.length
    by_hand += 11e3 + 3e3 + 4e3  # the loops, the clean filter, the diverter valve
    assert floor.loss.value == pytest.approx(by_hand)
    assert found.index_loss.value == max(circuit.loss.value for circuit in found.emitters)
    assert found.pump_head is not None
    assert found.pump_spare is not None
    assert found.pump_spare.value == pytest.approx(found.pump_head.value - found.index_loss.value)


def test_the_units_own_loss_counts_where_the_pump_is_outside_it(well_done_home: Home) -> None:
    inside = _hydraulics(well_done_home)
    pump = well_done_home.plant.pump.model_copy(update={"is_in_unit": False})
    outside = _hydraulics(_with_plant(well_done_home, pump=pump))
    share = inside.system_flow.value / (16 * L_PER_MIN)
    assert inside.unit_loss.value == pytest.approx(9e3 * share**2)
    assert outside.index_loss.value - inside.index_loss.value == pytest.approx(9e3 * share**2)


def test_every_valve_takes_what_the_costliest_circuit_has_more(well_done_home: Home) -> None:
    found = _hydraulics(well_done_home)
    for circuit in found.emitters:
        assert circuit.loss.value + circuit.surplus.value == pytest.approx(found.index_loss.value)
        if circuit.valve_coefficient is None:
            assert circuit.emitter_id == found.index_emitter
        else:
            flow = circuit.valve_coefficient.value * math.sqrt(circuit.surplus.value / 1e5)
            assert flow == pytest.approx(circuit.flow.value)


def test_flows_are_held_against_what_the_unit_asks(well_done_home: Home) -> None:
    found = _hydraulics(well_done_home)
    assert found.minimum_flow_margin is not None
    assert found.minimum_flow_margin.value == pytest.approx(found.system_flow.value - 9 * L_PER_MIN)
    assert found.nominal_share is not None
    assert found.nominal_share.value == pytest.approx(found.system_flow.value / (16 * L_PER_MIN))


def test_a_pipe_too_small_is_fast_and_one_too_large_slow(well_done_home: Home) -> None:
    small = _hydraulics(_with_runs(well_done_home, outside_diameter=0.012))
    assert {pipe.verdict for pipe in small.pipes if not pipe.pipe_id.startswith("coil")} >= {"fast"}
    large = _hydraulics(_with_runs(well_done_home, outside_diameter=0.054))
    assert {pipe.verdict for pipe in large.pipes} == {"slow"}


def test_a_smaller_pipe_costs_more(well_done_home: Home) -> None:
    base = _hydraulics(well_done_home)
    small = _hydraulics(_with_runs(well_done_home, outside_diameter=0.018))
    assert small.index_loss.value > base.index_loss.value


def test_glycol_costs_more_pressure(well_done_home: Home) -> None:
    protection = well_done_home.plant.freeze_protection
    assert protection is not None
    glycol = protection.model_copy(update={"kind": "glycol", "glycol_share": 0.25})
    mixed = _hydraulics(_with_plant(well_done_home, freeze_protection=glycol))
    plain = _hydraulics(well_done_home)
    # 1010 kg/m³ and 3970 J/(kg·K) at 42 °C and 25 % (CoolProp) carry 4 % less than 4.186 kJ/L.
    assert mixed.system_flow.value / plain.system_flow.value == pytest.approx(1.045, abs=0.01)
    for before, after in zip(plain.pipes, mixed.pipes, strict=True):
        # Where the flow is turbulent; in slow branches it turns laminar and may even cost less.
        if before.velocity.value > 0.4:
            assert after.loss.value > before.loss.value


def test_a_buffer_cools_the_flow_where_the_rooms_move_more_water(well_done_home: Home) -> None:
    added = well_done_home.plant.added_volume
    assert added is not None
    assert _hydraulics(well_done_home).flow_temperature_behind_buffer is None
    buffer = added.model_copy(update={"kind": "buffer"})
    for unit_flow in (10 * L_PER_MIN, 20 * L_PER_MIN):
        unit = well_done_home.plant.heat_pump.model_copy(update={"nominal_flow": unit_flow})
        found = _hydraulics(_with_plant(well_done_home, added_volume=buffer, heat_pump=unit))
        share = min(1.0, unit_flow / found.system_flow.value)
        assert found.flow_temperature_behind_buffer is not None
        assert found.flow_temperature_behind_buffer.value == pytest.approx(
            share * 45.0 + (1 - share) * 40.0
        )


def test_what_the_record_does_not_hold_is_none_or_assumed(well_done_home: Home) -> None:
    unit = well_done_home.plant.heat_pump.model_copy(
        update={"nominal_flow": None, "minimum_flow": None, "pressure_drop": None}
    )
    pump = well_done_home.plant.pump.model_copy(update={"available_head": None})
    found = _hydraulics(_with_plant(well_done_home, heat_pump=unit, pump=pump))
    assert found.nominal_flow is None
    assert found.nominal_share is None
    assert found.minimum_flow_margin is None
    assert found.pump_spare is None
    assert found.unit_loss.basis is Basis.ASSUMED


def test_every_figure_rests_on_the_record_or_on_a_named_source(
    well_done_home: Home, faulty_home: Home
) -> None:
    for home in (well_done_home, faulty_home):
        for figure in figures_in(_hydraulics(home)):
            for part in with_inputs(figure):
                assert part.working.source, part.name
                assert part.working.inputs or part.basis is not Basis.CALCULATED, part.name
