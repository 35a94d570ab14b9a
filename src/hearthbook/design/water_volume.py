"""Water in the system, what of it always circulates, and what the unit needs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from hearthbook.design.circuit_water import circuit_water
from hearthbook.design.emitters import EmitterSchedule
from hearthbook.design.water_parts import VolumePart, always_open_emitters, volume_parts
from hearthbook.documents.figures import KeyFigure, assumed, calculated, given
from hearthbook.physics import water_volume as physics
from hearthbook.record.home import Home
from hearthbook.record.plant import HeatPump, PerformancePoint

__all__ = ["Governing", "VolumePart", "WaterVolume", "water_volume"]

Governing = Literal["defrost", "run", "maker"]

_PRACTICE = "common practice, no source"
_BALANCE = "energy balance of the water, derived"
_FROST_OUTDOOR = 2.0  # °C; where frost is worst, EN 14511 frosting point
_MILD_OUTDOOR = 7.0  # °C; EN 14511 standard point, where units begin to cycle
_MILD_FLOW = 35.0  # °C; EN 14511 low-temperature point
_DEFROST_LENGTH = 300.0  # s; five minutes were always enough, Tassou and Marquand
_ALLOWED_FALL = 8.0  # K; common practice, no source
_SHORTEST_RUN = 600.0  # s; common practice, no source
_ALLOWED_RISE = 5.0  # K; common practice, no source
_LEAST_SHARE = 0.4  # least output over full output where not recorded; common practice, no source
_LOAD_SHARE = 0.5  # of the least output; starts per hour are most frequent there (derived)


@dataclass(frozen=True)
class WaterVolume:
    """The water of a heating system.

    Attributes:
        total: all of it, vessel included.
        open: what circulates with every automatic and thermostatic valve shut.
        parts: where it is.
        needed_for_defrost: so that a defrost cools it no further than allowed.
        needed_for_run: so that the unit runs long enough once it has started.
        maker_minimum: what the unit's maker asks for; None where not recorded.
        needed: the largest of the three.
        governing: which of the three that is.
        spare: open less needed; negative where litres are short.
        added_volume_needed: litres a volumiser or buffer must hold here; 0 where none is needed.
        added_volume: what is fitted; None where nothing is.
        added_volume_spare: fitted less needed; negative where short; None where nothing is fitted.
        always_open_emitters: ids of the emitters that no automatic or thermostatic valve shuts.
    """

    total: KeyFigure
    open: KeyFigure
    parts: tuple[VolumePart, ...]
    needed_for_defrost: KeyFigure
    needed_for_run: KeyFigure
    maker_minimum: KeyFigure | None
    needed: KeyFigure
    governing: Governing
    spare: KeyFigure
    added_volume_needed: KeyFigure
    added_volume: KeyFigure | None
    added_volume_spare: KeyFigure | None
    always_open_emitters: tuple[str, ...]


def water_volume(home: Home, emitters: EmitterSchedule) -> WaterVolume:
    """The water of a home's heating system, held against what its unit needs."""
    parts = volume_parts(home, emitters)
    opened = _sum("open", "water that always circulates", [p for p in parts if p.is_open])
    capacity_share = circuit_water(home, emitters).capacity_share
    defrost = _needed_for_defrost(
        home.plant.heat_pump, emitters.flow_temperature.value, capacity_share
    )
    run = _needed_for_run(home.plant.heat_pump, capacity_share)
    maker = _maker_minimum(home.plant.heat_pump)
    needs: dict[Governing, KeyFigure] = {"defrost": defrost, "run": run}
    if maker is not None:
        needs["maker"] = maker
    governing = max(needs, key=lambda need: needs[need].value)
    needed = calculated(
        "water_volume.needed", "water that must always circulate", needs[governing].value, "L",
        formula="the largest need", inputs=tuple(needs.values()), source=_BALANCE,
    )  # fmt: skip
    added = next((p.volume for p in parts if p.name in {"volumiser", "buffer"}), None)
    added_needed = _added_needed(needed, opened, added)
    return WaterVolume(
        total=_sum("total", "water in the heating system", list(parts)),
        open=opened,
        parts=parts,
        needed_for_defrost=defrost,
        needed_for_run=run,
        maker_minimum=maker,
        needed=needed,
        governing=governing,
        spare=_less("spare", "spare water (negative: short)", opened, needed),
        added_volume_needed=added_needed,
        added_volume=added,
        added_volume_spare=None if added is None else _less(
            "added_volume_spare", "spare in the added volume (negative: short)", added, added_needed
        ),
        always_open_emitters=always_open_emitters(home),
    )  # fmt: skip


def _sum(name: str, label: str, parts: list[VolumePart]) -> KeyFigure:
    volumes = tuple(part.volume for part in parts)
    return calculated(
        f"water_volume.{name}", label, sum(v.value for v in volumes), "L",
        formula="ΣV", inputs=volumes, source="sum of the parts",
    )  # fmt: skip


def _less(name: str, label: str, have: KeyFigure, need: KeyFigure) -> KeyFigure:
    return calculated(
        f"water_volume.{name}", label, have.value - need.value, "L",
        formula="V − Vneeded", inputs=(have, need), source="difference",
    )  # fmt: skip


def _added_needed(needed: KeyFigure, opened: KeyFigure, added: KeyFigure | None) -> KeyFigure:
    fitted = () if added is None else (added,)
    without = opened.value - sum(figure.value for figure in fitted)
    return calculated(
        "water_volume.added_volume_needed", "water a volumiser or buffer must add",
        max(0.0, needed.value - without), "L",
        formula="max(0, Vneeded − (Vopen − Vadded))", inputs=(needed, opened, *fitted),
        source=_BALANCE,
    )  # fmt: skip


def _nearest(points: list[PerformancePoint], outdoor: float, flow: float) -> PerformancePoint:
    return min(
        points,
        key=lambda p: (abs(p.outdoor_temperature - outdoor), abs(p.flow_temperature - flow)),
    )


def _output(unit: HeatPump, point: PerformancePoint, name: str, label: str) -> KeyFigure:
    place = f"plant.heat_pump.points[{unit.points.index(point)}].output"
    return given(name, label, point.output, "kW", place=place)


def _of_mixture(
    volume: float, formula: str, inputs: tuple[KeyFigure, ...], share: KeyFigure | None
) -> tuple[float, str, tuple[KeyFigure, ...]]:
    """Volume, formula and inputs where the water holds less heat than plain water does."""
    if share is None:
        return volume, formula, inputs
    return volume / share.value, f"{formula} / share of plain water's heat", (*inputs, share)


def _needed_for_defrost(
    unit: HeatPump, flow_temperature: float, capacity_share: KeyFigure | None
) -> KeyFigure:
    full = [p for p in unit.points if p.load == "maximum"] or list(unit.points)
    point = _nearest(full, _FROST_OUTDOOR, flow_temperature)
    output = _output(unit, point, "water_volume.defrost.output", "unit's output in frost")
    heat = calculated(
        "water_volume.defrost.heat_flow", "heat taken from the water during a defrost",
        output.value, "kW", formula="taken as the unit's own output in frost", inputs=(output,),
        source=_PRACTICE,
    )  # fmt: skip
    name, label = "water_volume.defrost.length", "length of a defrost"
    if unit.defrost_length is not None:
        place = "plant.heat_pump.defrost_length"
        length = given(name, label, unit.defrost_length, "min", place=place)
    else:
        source = "Tassou and Marquand: five minutes were always enough"
        length = assumed(name, label, _DEFROST_LENGTH, "min", source=source)
    fall = assumed(
        "water_volume.defrost.fall", "fall of the water's temperature allowed in a defrost",
        _ALLOWED_FALL, "K", source=_PRACTICE,
    )  # fmt: skip
    value, formula, inputs = _of_mixture(
        float(physics.defrost_volume(heat.value, length.value, fall.value)),
        "V = Φ·t / (4.186 MJ/(m³·K) · ΔT)", (heat, length, fall), capacity_share,
    )  # fmt: skip
    return calculated(
        "water_volume.needed_for_defrost", "water needed to defrost", value, "L",
        formula=formula, inputs=inputs, source=_BALANCE,
    )  # fmt: skip


def _least_output(unit: HeatPump) -> KeyFigure:
    name, label = "water_volume.run.least_output", "unit's least output in mild weather"
    least = [p for p in unit.points if p.load == "minimum"]
    if least:
        return _output(unit, _nearest(least, _MILD_OUTDOOR, _MILD_FLOW), name, label)
    point = _nearest(list(unit.points), _MILD_OUTDOOR, _MILD_FLOW)
    output = _output(unit, point, "water_volume.run.full_output", "unit's output in mild weather")
    share = assumed(
        "water_volume.run.least_share", "least output as a share of full output", _LEAST_SHARE,
        "%", source=_PRACTICE, note="The maker's data give the least output; record a point.",
    )  # fmt: skip
    return calculated(
        name, label, output.value * share.value, "kW", formula="Φmin = x·Φ",
        inputs=(output, share), source=_PRACTICE,
    )  # fmt: skip


def _needed_for_run(unit: HeatPump, capacity_share: KeyFigure | None) -> KeyFigure:
    least = _least_output(unit)
    share = assumed(
        "water_volume.run.load_share", "heat the home takes, as a share of the least output",
        _LOAD_SHARE, "%", source="derived",
        note="Starts per hour are most frequent where the home takes half the least output.",
    )  # fmt: skip
    run = assumed(
        "water_volume.run.shortest", "shortest run wanted", _SHORTEST_RUN, "min", source=_PRACTICE
    )
    rise = assumed(
        "water_volume.run.rise", "rise of the water's temperature in a run", _ALLOWED_RISE, "K",
        source=_PRACTICE,
    )  # fmt: skip
    load = least.value * share.value
    value, formula, inputs = _of_mixture(
        float(physics.minimum_run_volume(least.value, load, run.value, rise.value)),
        "V = (Φmin − x·Φmin)·t / (4.186 MJ/(m³·K) · ΔT)", (least, share, run, rise),
        capacity_share,
    )  # fmt: skip
    return calculated(
        "water_volume.needed_for_run", "water needed to run long enough", value, "L",
        formula=formula, inputs=inputs, source=_BALANCE,
    )  # fmt: skip


def _maker_minimum(unit: HeatPump) -> KeyFigure | None:
    if unit.minimum_volume is None:
        return None
    return given(
        "water_volume.maker_minimum", "water the unit's maker asks to circulate",
        unit.minimum_volume, "L", place="plant.heat_pump.minimum_volume",
    )  # fmt: skip
