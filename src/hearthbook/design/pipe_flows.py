"""Each pipe of a home at its design flow: velocity, pressure gradient, loss, verdict."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from hearthbook.design.circuit_water import CircuitWater
from hearthbook.design.pipe_sizes import PipeBore, fittings_length, pipe_bore
from hearthbook.documents.figures import Basis, KeyFigure, Working, calculated
from hearthbook.physics import pipes
from hearthbook.record.emitters import Tail
from hearthbook.record.pipework import PipeRun

__all__ = [
    "GRADIENT_LIMIT",
    "SLOWEST",
    "PipeResult",
    "PipeVerdict",
    "Stream",
    "run_result",
    "stream_in",
]

PipeVerdict = Literal["within", "fast", "steep", "slow"]

GRADIENT_LIMIT = 300.0  # Pa/m; lecture notes after CIBSE Guide B (1986)
SLOWEST = 0.3  # m/s; below it water does not carry air along, common practice, no source
_LARGE, _VERY_LARGE = 0.028, 0.050  # m outside diameter, where the velocity limit steps up
_VELOCITY_SOURCE = (
    "1.0 m/s, and 1.5 m/s above 50 mm, lecture notes after CIBSE Guide B (1986); "
    "1.2 m/s from 28 mm, common practice, no source"
)
_DARCY = "Darcy-Weisbach with Haaland's friction factor (1983)"


@dataclass(frozen=True)
class Stream:
    """Water in a pipe.

    Attributes:
        velocity: mean velocity.
        gradient: pressure a metre costs.
        sizes: bore, length and roughness.
    """

    velocity: KeyFigure
    gradient: KeyFigure
    sizes: PipeBore


@dataclass(frozen=True)
class PipeResult:
    """A pipe run at design flow.

    Attributes:
        pipe_id: of the run.
        name: from where to where.
        flow: through it.
        velocity: mean velocity.
        velocity_limit: highest velocity that stays quiet in this size.
        gradient: pressure a metre costs.
        loss: pressure the run costs, flow, return and fittings.
        verdict: within; fast or steep where a limit is passed; slow where air may stay.
    """

    pipe_id: str
    name: str
    flow: KeyFigure
    velocity: KeyFigure
    velocity_limit: KeyFigure
    gradient: KeyFigure
    loss: KeyFigure
    verdict: PipeVerdict


def stream_in(
    pipe: PipeRun | Tail, place: str, label: str, flow: KeyFigure, water: CircuitWater
) -> Stream:
    """The water in a pipe.

    Args:
        pipe: a run or a tail.
        place: its place in the record, such as `pipework.runs.primary`.
        label: what it is called.
        flow: through it.
        water: its properties.
    """
    name = place.removeprefix("pipework.")
    sizes = pipe_bore(pipe, place, label)
    velocity = calculated(
        f"hydraulics.{name}.velocity", f"velocity, {label}",
        float(pipes.velocity(flow.value, sizes.bore.value)), "m/s",
        formula="v = q / (π/4·d²)", inputs=(flow, sizes.bore), source="continuity",
    )  # fmt: skip
    gradient = pipes.pressure_gradient(
        flow.value, sizes.bore.value, sizes.roughness, water.density.value, water.viscosity.value
    )
    return Stream(velocity, calculated(
        f"hydraulics.{name}.gradient", f"pressure gradient, {label}", float(gradient), "Pa/m",
        formula="R = λ/d · ρ·v²/2", inputs=(velocity, sizes.bore, water.density, water.viscosity),
        source=_DARCY, note=f"wall roughness {sizes.roughness * 1000:g} mm",
    ), sizes)  # fmt: skip


def run_result(run: PipeRun, flow: KeyFigure, water: CircuitWater) -> PipeResult:
    """A pipe run at design flow."""
    stream = stream_in(run, f"pipework.runs.{run.id}", run.name, flow, water)
    limit = _velocity_limit(run)
    fittings = fittings_length(run)
    length = stream.sizes.length
    loss = calculated(
        f"hydraulics.runs.{run.id}.loss", f"pressure loss, {run.name}",
        stream.gradient.value * (length.value + fittings.value), "kPa",
        formula="Δp = R·(L + Lfittings)", inputs=(stream.gradient, length, fittings),
        source=_DARCY,
    )  # fmt: skip
    return PipeResult(
        run.id, run.name, flow, stream.velocity, limit, stream.gradient, loss,
        _verdict(stream, limit),
    )  # fmt: skip


def _velocity_limit(run: PipeRun) -> KeyFigure:
    size = run.outside_diameter
    value = 1.5 if size > _VERY_LARGE else 1.2 if size >= _LARGE else 1.0
    return KeyFigure(
        f"hydraulics.runs.{run.id}.velocity_limit", f"highest quiet velocity, {run.name}", value,
        "m/s", Basis.DOCUMENTED, Working(source=_VELOCITY_SOURCE),
    )  # fmt: skip


def _verdict(stream: Stream, limit: KeyFigure) -> PipeVerdict:
    if stream.velocity.value > limit.value:
        return "fast"
    if stream.gradient.value > GRADIENT_LIMIT:
        return "steep"
    return "slow" if stream.velocity.value < SLOWEST else "within"
