"""The flow each emitter and each pipe needs, whatever the water is mixed with."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from hearthbook.design.circuit_water import CircuitWater
from hearthbook.design.emitters import EmitterSchedule
from hearthbook.documents.figures import KeyFigure, calculated
from hearthbook.physics import pipes
from hearthbook.record.pipework import PipeRun

__all__ = ["emitter_flows", "flow_for_loss", "flow_in_run", "sum_of_flows"]


def emitter_flows(emitters: EmitterSchedule, water: CircuitWater) -> dict[str, KeyFigure]:
    """Each emitter's design flow by its id; more of it with glycol, which carries less heat."""
    return {
        one.emitter.id: _thickened(
            f"hydraulics.emitters.{one.emitter.id}.flow",
            f"flow, {one.emitter.name}",
            one.design_flow_rate,
            water,
        )
        for one in emitters.emitters
    }


def sum_of_flows(name: str, label: str, flows: Iterable[KeyFigure]) -> KeyFigure:
    """What several emitters need together."""
    parts = tuple(flows)
    return calculated(
        name, label, sum(flow.value for flow in parts), "L/min", formula="Σq", inputs=parts,
        source="sum of the emitters beyond",
    )  # fmt: skip


def flow_in_run(
    run: PipeRun, system: KeyFigure, nominal: KeyFigure | None, flows: Mapping[str, KeyFigure]
) -> KeyFigure:
    """What the emitters beyond need; the whole flow in the primary; the unit's in the coil's."""
    if run.serves_cylinder:
        return nominal if nominal is not None and nominal.value > 0 else system
    if not run.serves:
        return system
    served = [flow for emitter, flow in flows.items() if emitter in run.serves]
    return sum_of_flows(f"hydraulics.runs.{run.id}.flow", f"flow, {run.name}", served)


def flow_for_loss(total: KeyFigure, drop: KeyFigure, water: CircuitWater) -> KeyFigure:
    """The flow that carries the whole heat loss."""
    plain = calculated(
        "hydraulics.flow_for_loss", "flow that carries the whole heat loss",
        float(pipes.flow_for_duty(total.value, drop.value)), "L/min",
        formula="q = Φ / (4.186·ΔT)", inputs=(total, drop),
        source="energy balance of the water, 4.186 kJ per litre and kelvin",
    )  # fmt: skip
    return _thickened("hydraulics.flow_for_loss_with_glycol", plain.label, plain, water)


def _thickened(name: str, label: str, flow: KeyFigure, water: CircuitWater) -> KeyFigure:
    """The flow itself for plain water; more of it where a litre carries less heat."""
    if water.capacity_share is None:
        return flow
    return calculated(
        name, label, flow.value / water.capacity_share.value, "L/min", formula="q / x",
        inputs=(flow, water.capacity_share), source="energy balance of the water",
    )  # fmt: skip
