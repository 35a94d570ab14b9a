"""What each emitter's circuit costs from the unit and back, and how its valve balances it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from hearthbook.design.circuit_water import CircuitWater
from hearthbook.design.pipe_flows import PipeResult, Stream, stream_in
from hearthbook.documents.figures import KeyFigure, assumed, calculated, given
from hearthbook.physics import pipes
from hearthbook.record.emitters import Emitter, Underfloor
from hearthbook.record.home import Home

__all__ = ["Circuit", "Fixed", "circuits", "fixed_losses"]

_PRACTICE = "common practice, no source"
_SERIES = "sum of the losses in series"
_UNIT_LOSS = 15e3  # Pa; common practice, no source
_FILTER_LOSS = 5e3  # Pa, clean; common practice, no source
_DIVERTER_LOSS = 6e3  # Pa; common practice, no source
_RADIATOR_LOSS = 4e3  # Pa, radiator with both valves open; common practice, no source
_FLOOR_LOSS = 15e3  # Pa, longest loop; common practice, no source


@dataclass(frozen=True)
class Fixed:
    """Losses every circuit shares beside the pipes.

    Attributes:
        unit: the unit's exchanger.
        together: what counts against the pump's head.
        is_pump_in_unit: whether the unit's own loss is left out because the head is stated
            outside it.
    """

    unit: KeyFigure
    together: KeyFigure
    is_pump_in_unit: bool


@dataclass(frozen=True)
class Circuit:
    """An emitter's circuit at design flow.

    Attributes:
        emitter_id: of the emitter.
        flow: through it.
        velocity: in its own pipes; None where they are not recorded.
        gradient: in its own pipes; None where they are not recorded.
        loss: from the unit through the emitter and back, its valves open.
        surplus: what its valve must take so that the costliest circuit gets its share.
        valve_coefficient: Kv of its balancing valve for that, in m³/h at 1 bar; None where the
            valve stays open.
    """

    emitter_id: str
    flow: KeyFigure
    velocity: KeyFigure | None
    gradient: KeyFigure | None
    loss: KeyFigure
    surplus: KeyFigure
    valve_coefficient: KeyFigure | None


def fixed_losses(home: Home, flow: KeyFigure, nominal: KeyFigure | None) -> Fixed:
    """The losses every circuit shares beside the pipes."""
    unit = _unit(home, flow, nominal)
    filters, diverter = home.plant.filter is not None, home.plant.diverter_valve is not None
    work = home.pipework
    parts = [
        _given_or_usual("filter_pressure_drop", "clean filter", work.filter_pressure_drop,
                        _FILTER_LOSS if filters else 0.0),
        _given_or_usual("valve_pressure_drop", "diverter valve", work.valve_pressure_drop,
                        _DIVERTER_LOSS if diverter else 0.0),
    ]  # fmt: skip
    is_inside = home.plant.pump.is_in_unit
    counted = tuple(parts) if is_inside else (unit, *parts)
    together = calculated(
        "hydraulics.fixed_loss", "pressure of the parts all circuits share",
        sum(part.value for part in counted), "kPa", formula="ΣΔp", inputs=counted, source=_SERIES,
    )  # fmt: skip
    return Fixed(unit, together, is_inside)


def circuits(
    home: Home,
    flows: Mapping[str, KeyFigure],
    runs: Mapping[str, PipeResult],
    fixed: Fixed,
    water: CircuitWater,
) -> tuple[KeyFigure, tuple[Circuit, ...]]:
    """The pressure the costliest circuit needs, and every circuit balanced to it."""
    paths = [
        (emitter, _loss(home, emitter, runs, fixed, stream), stream)
        for emitter in home.emitters
        if emitter.id in flows
        for stream in (_own_stream(emitter, flows[emitter.id], water),)
    ]
    index = _index(tuple(loss for _, loss, _ in paths), fixed)
    return index, tuple(
        _circuit(emitter, flows[emitter.id], loss, stream, index) for emitter, loss, stream in paths
    )


def _index(losses: tuple[KeyFigure, ...], fixed: Fixed) -> KeyFigure:
    note = (
        "The unit's own exchanger is inside the pump's stated head."
        if fixed.is_pump_in_unit
        else "The unit's exchanger is counted."
    )
    compared = losses or (fixed.together,)
    return calculated(
        "hydraulics.index_loss", "pressure the costliest circuit needs",
        max(one.value for one in compared), "kPa", formula="the largest of all circuits",
        inputs=compared, source=_SERIES, note=note,
    )  # fmt: skip


def _circuit(
    emitter: Emitter, flow: KeyFigure, loss: KeyFigure, stream: Stream | None, index: KeyFigure
) -> Circuit:
    name = f"hydraulics.emitters.{emitter.id}"
    surplus = calculated(
        f"{name}.surplus", f"pressure its valve must take, {emitter.name}",
        index.value - loss.value, "kPa", formula="Δpindex − Δp", inputs=(index, loss),
        source=_SERIES,
    )  # fmt: skip
    return Circuit(
        emitter_id=emitter.id,
        flow=flow,
        velocity=None if stream is None else stream.velocity,
        gradient=None if stream is None else stream.gradient,
        loss=loss,
        surplus=surplus,
        valve_coefficient=_coefficient(name, flow, surplus),
    )


def _coefficient(name: str, flow: KeyFigure, surplus: KeyFigure) -> KeyFigure | None:
    if surplus.value < 1.0 or flow.value <= 0:
        return None
    value = float(pipes.valve_coefficient(flow.value, surplus.value))
    return calculated(
        f"{name}.valve_coefficient", "Kv of its balancing valve", value / 3600, "m³/h",
        formula="Kv = q / √(Δp / 1 bar)", inputs=(flow, surplus),
        source="definition of Kv, EN 60534-2-1", note="m³/h of water at 1 bar",
    )  # fmt: skip


def _own_stream(emitter: Emitter, flow: KeyFigure, water: CircuitWater) -> Stream | None:
    """The water in an emitter's own pipes; None where they are not recorded."""
    if emitter.tail is None:
        return None
    place = f"emitters.{emitter.id}.tail"
    return stream_in(emitter.tail, place, f"pipes of the {emitter.name}", flow, water)


def _loss(
    home: Home,
    emitter: Emitter,
    runs: Mapping[str, PipeResult],
    fixed: Fixed,
    stream: Stream | None,
) -> KeyFigure:
    """What a circuit costs: the parts all share, the runs on its way, its own pipes, itself."""
    name = f"hydraulics.emitters.{emitter.id}"
    shared = [
        runs[run.id].loss
        for run in home.pipework.runs
        if not run.serves_cylinder and (not run.serves or emitter.id in run.serves)
    ]
    own = [_emitter_loss(emitter)]
    if stream is not None:
        length = stream.sizes.length
        own.append(calculated(
            f"{name}.tail_loss", f"pressure loss, pipes of the {emitter.name}",
            stream.gradient.value * length.value, "kPa", formula="Δp = R·L",
            inputs=(stream.gradient, length), source="Darcy-Weisbach",
        ))  # fmt: skip
    parts = (fixed.together, *shared, *own)
    return calculated(
        f"{name}.loss", f"pressure of the circuit, {emitter.name}",
        sum(part.value for part in parts), "kPa", formula="ΣΔp", inputs=parts, source=_SERIES,
    )  # fmt: skip


def _emitter_loss(emitter: Emitter) -> KeyFigure:
    name, label = f"emitters.{emitter.id}.pressure_drop", f"pressure drop, {emitter.name}"
    if isinstance(emitter, Underfloor):
        if emitter.pressure_drop is not None:
            return given(name, label, emitter.pressure_drop, "kPa", place=name)
        return assumed(name, label, _FLOOR_LOSS, "kPa", source=_PRACTICE)
    note = "Radiator with both valves open."
    return assumed(name, label, _RADIATOR_LOSS, "kPa", source=_PRACTICE, note=note)


def _unit(home: Home, flow: KeyFigure, nominal: KeyFigure | None) -> KeyFigure:
    recorded, place = home.plant.heat_pump.pressure_drop, "plant.heat_pump.pressure_drop"
    label = "pressure drop of the unit's exchanger"
    if recorded is None:
        return assumed("hydraulics.unit_loss", label, _UNIT_LOSS, "kPa", source=_PRACTICE)
    at_nominal = given(place, f"{label} at nominal flow", recorded, "kPa", place=place)
    if nominal is None or nominal.value <= 0:
        return at_nominal
    return calculated(
        "hydraulics.unit_loss", label, recorded * (flow.value / nominal.value) ** 2, "kPa",
        formula="Δp·(q/qnominal)²", inputs=(at_nominal, flow, nominal),
        source="turbulent flow, pressure with the square of the flow",
    )  # fmt: skip


def _given_or_usual(field: str, label: str, value: float | None, usual: float) -> KeyFigure:
    name = f"pipework.{field}"
    if value is not None:
        return given(name, f"pressure drop, {label}", value, "kPa", place=name)
    source = _PRACTICE if usual else "there is none in the record"
    return assumed(name, f"pressure drop, {label}", usual, "kPa", source=source)
