"""Flows, velocities and pressure losses at design; every circuit held against the pump."""

from __future__ import annotations

from dataclasses import dataclass

from hearthbook.design.buffer_mixing import flow_temperature_behind_buffer
from hearthbook.design.circuit_flows import (
    emitter_flows,
    flow_for_loss,
    flow_in_run,
    sum_of_flows,
)
from hearthbook.design.circuit_losses import Circuit, circuits, fixed_losses
from hearthbook.design.circuit_water import circuit_water
from hearthbook.design.emitters import EmitterSchedule
from hearthbook.design.heat_loss import HeatLoss
from hearthbook.design.pipe_flows import PipeResult, PipeVerdict, run_result
from hearthbook.documents.figures import KeyFigure, calculated, given
from hearthbook.record.home import Home

__all__ = ["Circuit", "Hydraulics", "PipeResult", "PipeVerdict", "hydraulics"]


@dataclass(frozen=True)
class Hydraulics:
    """The hydraulic figures of a home at design.

    The flow in each pipe is the sum of what the emitters beyond it need; how the water really
    shares itself out is left to a network solver.

    Attributes:
        system_flow: flow of all emitters together.
        flow_for_loss: flow that carries the whole heat loss at the design drop, for comparison.
        drop: flow minus return at design.
        emitters: each emitter's circuit: flow, velocity and gradient in its own pipes, pressure
            from the unit and back, and the valve setting that balances it.
        pipes: each run.
        index_emitter: id of the emitter whose circuit costs most; empty where there is none.
        index_loss: pressure that circuit costs, outside the unit where the pump is in it.
        unit_loss: pressure the unit's own exchanger costs at this flow.
        pump_head: what the pump gives; None where not recorded.
        pump_spare: head less loss; negative where too weak.
        minimum_flow: below which the unit stops; None where not recorded.
        minimum_flow_margin: system flow less that minimum.
        nominal_flow: flow the unit's maker names; None where not recorded.
        nominal_share: system flow over nominal flow.
        flow_temperature_behind_buffer: what the rooms get; None without a four-pipe buffer.
    """

    system_flow: KeyFigure
    flow_for_loss: KeyFigure
    drop: KeyFigure
    emitters: tuple[Circuit, ...]
    pipes: tuple[PipeResult, ...]
    index_emitter: str
    index_loss: KeyFigure
    unit_loss: KeyFigure
    pump_head: KeyFigure | None
    pump_spare: KeyFigure | None
    minimum_flow: KeyFigure | None
    minimum_flow_margin: KeyFigure | None
    nominal_flow: KeyFigure | None
    nominal_share: KeyFigure | None
    flow_temperature_behind_buffer: KeyFigure | None


def hydraulics(home: Home, loss: HeatLoss, emitters: EmitterSchedule) -> Hydraulics:
    """The hydraulic figures of a home at design."""
    water = circuit_water(home, emitters)
    flows = emitter_flows(emitters, water)
    system = sum_of_flows("hydraulics.system_flow", "flow of all emitters", flows.values())
    nominal = _unit_flow(home, "nominal_flow", "flow the unit's maker names")
    minimum = _unit_flow(home, "minimum_flow", "flow below which the unit stops")
    runs = tuple(
        run_result(run, flow_in_run(run, system, nominal, flows), water)
        for run in home.pipework.runs
    )
    fixed = fixed_losses(home, system, nominal)
    by_id = {run.pipe_id: run for run in runs}
    index_loss, paths = circuits(home, flows, by_id, fixed, water)
    index = max(paths, key=lambda path: path.loss.value, default=None)
    head = _pump_head(home)
    return Hydraulics(
        system_flow=system,
        flow_for_loss=flow_for_loss(loss.total, emitters.drop, water),
        drop=emitters.drop,
        emitters=paths,
        pipes=runs,
        index_emitter="" if index is None else index.emitter_id,
        index_loss=index_loss,
        unit_loss=fixed.unit,
        pump_head=head,
        pump_spare=None if head is None else _less(
            "pump_spare", "head to spare (negative: too weak)", head, index_loss, "kPa"),
        minimum_flow=minimum,
        minimum_flow_margin=None if minimum is None else _less(
            "minimum_flow_margin", "flow above the unit's minimum", system, minimum, "L/min"),
        nominal_flow=nominal,
        nominal_share=None if not nominal or nominal.value <= 0 else _share(system, nominal),
        flow_temperature_behind_buffer=flow_temperature_behind_buffer(
            home, emitters, system, nominal),
    )  # fmt: skip


def _unit_flow(home: Home, field: str, label: str) -> KeyFigure | None:
    value: float | None = getattr(home.plant.heat_pump, field)
    if value is None:
        return None
    return given(f"hydraulics.{field}", label, value, "L/min", place=f"plant.heat_pump.{field}")


def _pump_head(home: Home) -> KeyFigure | None:
    head = home.plant.pump.available_head
    if head is None:
        return None
    place = "plant.pump.available_head"
    return given("hydraulics.pump_head", "head the pump gives", head, "kPa", place=place)


def _less(name: str, label: str, have: KeyFigure, need: KeyFigure, unit: str) -> KeyFigure:
    return calculated(
        f"hydraulics.{name}", label, have.value - need.value, unit, formula="have − need",
        inputs=(have, need), source="difference",
    )  # fmt: skip


def _share(system: KeyFigure, nominal: KeyFigure) -> KeyFigure:
    return calculated(
        "hydraulics.nominal_share", "system flow over the flow the maker names",
        system.value / nominal.value, "%", formula="q / qnominal", inputs=(system, nominal),
        source="ratio",
    )  # fmt: skip
