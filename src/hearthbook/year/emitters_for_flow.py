"""Which emitters must become larger so that cooler water heats every room."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from hearthbook.design.emitter_results import EmitterResult, RoomEmitters
from hearthbook.design.emitters import ENOUGH, EmitterSchedule, emitter_schedule
from hearthbook.design.results import Design
from hearthbook.documents.figures import KeyFigure, calculated, given
from hearthbook.record.emitters import Emitter, Underfloor
from hearthbook.record.home import Home

__all__ = ["Exchange", "Exchanges", "exchanged_home", "exchanges_for"]

_LARGEST = 2.5  # times the rated output there is now: more does not fit where one emitter stood;
# common practice, no source
_EN442 = "EN 442-2, characteristic equation"


@dataclass(frozen=True)
class Exchange:
    """An emitter that is too small for a flow temperature.

    Attributes:
        emitter_id: which.
        name: as the household would point to it.
        needed: rated output its place then needs, at 50 K.
        cost: of the recorded larger one, where that is enough; None where nobody wrote it down.
        fits: whether an emitter of that output may be thought of in its place.
    """

    emitter_id: str
    name: str
    needed: KeyFigure
    cost: KeyFigure | None
    fits: bool


@dataclass(frozen=True)
class Exchanges:
    """What a flow temperature asks of a home's emitters.

    Attributes:
        emitters: that must become larger.
        rooms_beyond: names of rooms with a load that no exchange lets this water carry.
    """

    emitters: tuple[Exchange, ...]
    rooms_beyond: tuple[str, ...]


def exchanges_for(design: Design, flow: float, stem: str) -> Exchanges:
    """The emitters that are too small for a flow temperature.

    In a room that is too cold the emitter with a recorded larger one is exchanged, else the one
    that gives most; a heated floor stays as it is.

    Args:
        design: of the home.
        flow: °C at the design outdoor temperature.
        stem: of the figures' names.
    """
    at_flow = _schedule(design, flow)
    found, beyond = [], []
    for room in at_flow.rooms:
        if not room.emitters or room.output.value >= ENOUGH * room.load.value:
            continue
        exchange = _exchange(room, at_flow, stem)
        if exchange is None:
            beyond.append(room.room.name)
        else:
            found.append(exchange)
    return Exchanges(tuple(found), tuple(beyond))


def _schedule(design: Design, flow: float) -> EmitterSchedule:
    return emitter_schedule(_at(design.home, flow), design.heat_loss)


def _at(home: Home, flow: float) -> Home:
    plant = home.plant.model_copy(update={"design_flow_temperature": flow})
    return home.model_copy(update={"plant": plant})


def _exchange(room: RoomEmitters, at_flow: EmitterSchedule, stem: str) -> Exchange | None:
    candidates = [
        one
        for one in room.emitters
        if not isinstance(one.emitter, Underfloor) and one.output.value > 0.0
    ]
    if not candidates:
        return None
    chosen = max(candidates, key=_preferred)
    emitter, now = chosen.emitter, chosen.rated_output
    missing = room.load.value - room.output.value
    value = now.value * (chosen.output.value + missing) / chosen.output.value
    needed = calculated(
        f"{stem}.{emitter.id}.needed", f"rated output needed in place of: {emitter.name}", value,
        "W", formula="Φ_50 · (Φ + load − ΣΦ) / Φ, all at this flow temperature", source=_EN442,
        inputs=(now, chosen.output, room.load, room.output, at_flow.flow_temperature),
    )  # fmt: skip
    return Exchange(
        emitter.id, emitter.name, needed, _cost(emitter, value, stem), value <= _LARGEST * now.value
    )


def _preferred(one: EmitterResult) -> tuple[bool, float, str]:
    return one.emitter.larger is not None, one.output.value, one.emitter.id


def _cost(emitter: Emitter, needed: float, stem: str) -> KeyFigure | None:
    larger = emitter.larger
    if larger is None or larger.extra_cost is None or larger.rated_output < ENOUGH * needed:
        return None
    place = f"emitters.{emitter.id}.larger.extra_cost"
    return given(f"{stem}.{emitter.id}.cost", f"cost of exchanging: {emitter.name}",
                 larger.extra_cost, "£", place=place)  # fmt: skip


def exchanged_home(design: Design, exchanges: Sequence[Exchange], flow: float) -> Home:
    """The record with those emitters exchanged and the flow temperature chosen."""
    needed = {one.emitter_id: one.needed.value for one in exchanges}

    def changed(emitter: Emitter) -> Emitter:
        if emitter.id not in needed:
            return emitter
        before = design.emitters.emitter(emitter.id)
        water = before.water_content.value * needed[emitter.id] / before.rated_output.value
        return emitter.model_copy(
            update={"rated_output": needed[emitter.id], "water_content": water, "larger": None}
        )

    home = _at(design.home, flow)
    return home.model_copy(update={"emitters": tuple(changed(one) for one in home.emitters)})
