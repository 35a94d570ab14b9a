"""Where the heating water of a home is, part by part, and what of it always circulates."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from hearthbook.design.emitters import EmitterSchedule
from hearthbook.design.pipe_sizes import pipe_bore
from hearthbook.documents.figures import KeyFigure, assumed, calculated, given
from hearthbook.physics import pipes, vessel
from hearthbook.record.emitters import Emitter, EmitterValve, Tail
from hearthbook.record.home import Home
from hearthbook.record.pipework import PipeRun

__all__ = ["VolumePart", "always_open_emitters", "volume_parts"]

_SHUT_BY_ITSELF = {EmitterValve.THERMOSTATIC, EmitterValve.MOTORISED}
_UNIT_CONTENT = 2e-3  # m³; common practice, no source
_COIL_BORE_AREA = 8e-3  # m; litres in a cylinder coil per m² of its surface, 32 mm tube, derived
_COIL_CONTENT = 15e-3  # m³; common practice, no source


@dataclass(frozen=True)
class VolumePart:
    """Water in one part of the system.

    Attributes:
        name: what holds it.
        volume: how much.
        is_open: whether it circulates with every automatic and thermostatic valve shut.
        is_reheated: whether it is heated with the cylinder when the rooms get nothing.
    """

    name: str
    volume: KeyFigure
    is_open: bool
    is_reheated: bool = False


def always_open_emitters(home: Home) -> tuple[str, ...]:
    """The emitters no automatic or thermostatic valve can shut, on their own or on the way."""
    shut = {name for run in home.pipework.runs if run.is_shut_by_valve for name in run.serves}
    if any(_is_primary(run) and run.is_shut_by_valve for run in home.pipework.runs):
        return ()
    return tuple(
        emitter.id
        for emitter in home.emitters
        if emitter.valve not in _SHUT_BY_ITSELF and emitter.id not in shut
    )


def volume_parts(home: Home, emitters: EmitterSchedule) -> tuple[VolumePart, ...]:
    """All water of the heating system; the vessel's own comes last.

    Behind a four-pipe buffer the rooms' water does not count as open: the pump that would bring
    it to the unit may stand still.
    """
    added = home.plant.added_volume
    is_separated = added is not None and added.kind == "buffer"
    reachable = frozenset() if is_separated else frozenset(always_open_emitters(home))
    parts = (
        _unit(home),
        *_runs(home, reachable),
        *_tails(home, reachable),
        *(
            VolumePart(one.emitter.name, one.water_content, one.emitter.id in reachable)
            for one in emitters.emitters
        ),
        *_coil(home),
        *_added(home),
    )
    return (*parts, _in_vessel(parts))


def _is_primary(run: PipeRun) -> bool:
    return not run.serves and not run.serves_cylinder


def _unit(home: Home) -> VolumePart:
    name, label = "plant.heat_pump.water_content", "water in the heat pump"
    content = home.plant.heat_pump.water_content
    if content is not None:
        return VolumePart("heat pump", given(name, label, content, "L", place=name), True, True)
    figure = assumed(name, label, _UNIT_CONTENT, "L", source="common practice, no source")
    return VolumePart("heat pump", figure, True, True)


def _pipe_volume(pipe: PipeRun | Tail, name: str, label: str) -> KeyFigure:
    sizes = pipe_bore(pipe, name, label)
    return calculated(
        f"{name}.volume", f"water in the pipe, {label}",
        float(pipes.volume_of_pipe(sizes.bore.value, sizes.length.value)), "L",
        formula="V = π/4·d²·L", inputs=(sizes.bore, sizes.length), source="geometry",
    )  # fmt: skip


def _runs(home: Home, reachable: frozenset[str]) -> Iterator[VolumePart]:
    for run in home.pipework.runs:
        is_open = not run.is_shut_by_valve and not run.serves_cylinder
        if run.serves:
            is_open = is_open and not reachable.isdisjoint(run.serves)
        volume = _pipe_volume(run, f"pipework.runs.{run.id}", run.name)
        yield VolumePart(run.name, volume, is_open, not run.serves)


def _tails(home: Home, reachable: frozenset[str]) -> Iterator[VolumePart]:
    for emitter in home.emitters:
        if emitter.tail is not None:
            yield _tail(emitter, emitter.tail, emitter.id in reachable)


def _tail(emitter: Emitter, tail: Tail, is_open: bool) -> VolumePart:
    label = f"pipes of the {emitter.name}"
    return VolumePart(label, _pipe_volume(tail, f"emitters.{emitter.id}.tail", label), is_open)


def _coil(home: Home) -> Iterator[VolumePart]:
    cylinder = home.plant.cylinder
    if cylinder is None:
        return
    name, label = "plant.cylinder.coil_content", "heating water in the cylinder's coil"
    if cylinder.coil_content is not None:
        figure = given(name, label, cylinder.coil_content, "L", place=name)
    elif cylinder.coil_area is not None:
        area_name = "plant.cylinder.coil_area"
        area = given(area_name, "surface of the coil", cylinder.coil_area, "m²", place=area_name)
        figure = calculated(
            name, label, area.value * _COIL_BORE_AREA, "L", formula="8 L/m² · A",
            inputs=(area,), source="a coil of 32 mm tube holds its surface times a quarter of its "
            "diameter, derived",
        )  # fmt: skip
    else:
        figure = assumed(name, label, _COIL_CONTENT, "L", source="common practice, no source")
    yield VolumePart("cylinder coil", figure, is_open=False, is_reheated=True)


def _added(home: Home) -> Iterator[VolumePart]:
    added = home.plant.added_volume
    if added is not None:
        name = "plant.added_volume.volume"
        figure = given(name, f"water in the {added.kind}", added.volume, "L", place=name)
        is_reheated = added.kind == "volumiser"
        yield VolumePart(added.kind, figure, is_open=True, is_reheated=is_reheated)


def _in_vessel(parts: tuple[VolumePart, ...]) -> VolumePart:
    volumes = tuple(part.volume for part in parts)
    value = float(vessel.water_reserve(sum(volume.value for volume in volumes)))
    figure = calculated(
        "water_volume.in_vessel", "cold water kept in the expansion vessel", value, "L",
        formula="max(0.5 % · ΣV, 3 L)", inputs=volumes,
        source="EN 12828 annex D, from memory",
    )  # fmt: skip
    return VolumePart("expansion vessel", figure, is_open=False)
