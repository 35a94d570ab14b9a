"""The emitter schedule: what each room gets, and the flow temperature the home needs."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from hearthbook.design.emitter_figures import emitter_result, with_duty
from hearthbook.design.emitter_rating import Water
from hearthbook.design.emitter_results import (
    EmitterResult,
    RoomEmitters,
    required_flow_temperature,
)
from hearthbook.design.heat_loss import HeatLoss, RoomLoss
from hearthbook.design.heating_season import heating_season
from hearthbook.design.upgrades import Season, Upgrade, next_larger
from hearthbook.documents.figures import KeyFigure, assumed, calculated, given
from hearthbook.errors import Incomplete, NotFound
from hearthbook.record.home import Home

__all__ = [
    "ENOUGH",
    "EmitterResult",
    "EmitterSchedule",
    "RoomEmitters",
    "Upgrade",
    "emitter_schedule",
]

ENOUGH = 0.95  # of a room's load; common practice, no source
_USUAL_DROP = 5.0  # K; common practice, no source
_SOURCE = "EN 442-2, characteristic equation"


@dataclass(frozen=True)
class EmitterSchedule:
    """Every room's emitters at the design flow temperature.

    Attributes:
        flow_temperature: design flow temperature: the one chosen, else the one needed.
        return_temperature: design return temperature.
        drop: flow minus return.
        rooms: all heated rooms, in the record's order.
        limiting_rooms: ids of the rooms that decide or are supplied too little, hottest first.
        uncovered_rooms: ids of the rooms that have a load and no emitter; their heat comes from
            their neighbours.
        required_flow_temperature: the highest need of all rooms that can be met.
        next_larger: what exchanging emitters wins, one after another.
        output: heat of all emitters at design.
        water_content: water in all emitters.
    """

    flow_temperature: KeyFigure
    return_temperature: KeyFigure
    drop: KeyFigure
    rooms: tuple[RoomEmitters, ...]
    limiting_rooms: tuple[str, ...]
    uncovered_rooms: tuple[str, ...]
    required_flow_temperature: KeyFigure
    next_larger: tuple[Upgrade, ...]
    output: KeyFigure
    water_content: KeyFigure

    def room(self, room_id: str) -> RoomEmitters:
        """The room with this id.

        Raises:
            NotFound: there is no such room.
        """
        for room in self.rooms:
            if room.room.id == room_id:
                return room
        raise NotFound(f"there is no room '{room_id}' in the emitter schedule.")

    def emitter(self, emitter_id: str) -> EmitterResult:
        """The emitter with this id.

        Raises:
            NotFound: there is no such emitter.
        """
        for one in self.emitters:
            if one.emitter.id == emitter_id:
                return one
        raise NotFound(f"there is no emitter '{emitter_id}' in the emitter schedule.")

    @property
    def emitters(self) -> tuple[EmitterResult, ...]:
        """All emitters, room by room."""
        return tuple(one for room in self.rooms for one in room.emitters)


def emitter_schedule(home: Home, loss: HeatLoss) -> EmitterSchedule:
    """The emitter schedule of a home.

    Raises:
        Incomplete: a fan-assisted emitter has no rated output, or no room can be met at any flow
            temperature and none was chosen.
        OutOfRange: a heated floor's build lies outside EN 1264-2.
    """
    drop = _drop(home)
    needs = _needs(home, loss, drop)
    required = _required(needs, loss)
    flow = _flow_temperature(home, required)
    hottest = max((need.value for need in needs.values() if need is not None), default=math.inf)
    rooms = tuple(
        _room(home, room, Water(flow, drop), needs[room.room.id], hottest) for room in loss.rooms
    )
    season = Season(
        heating_season(home, loss.base_temperature),
        loss.base_temperature,
        loss.outdoor_temperature,
    )
    return EmitterSchedule(
        flow_temperature=flow,
        return_temperature=_return_temperature(flow, drop),
        drop=drop,
        rooms=rooms,
        limiting_rooms=_limiting(rooms),
        uncovered_rooms=tuple(
            room.room.id for room in rooms if not room.emitters and room.load.value > 0
        ),
        required_flow_temperature=required or flow,
        next_larger=next_larger(rooms, season),
        output=_sum("emitters.output", "heat of all emitters at design", "W",
                    tuple(one.output for room in rooms for one in room.emitters)),
        water_content=_sum("emitters.water_content", "water in all emitters", "L",
                           tuple(one.water_content for room in rooms for one in room.emitters)),
    )  # fmt: skip


def _drop(home: Home) -> KeyFigure:
    name, label = "emitters.drop", "flow–return difference at design"
    if home.plant.design_drop is not None:
        return given(name, label, home.plant.design_drop, "K", place="plant.design_drop")
    return assumed(name, label, _USUAL_DROP, "K", source="common practice, no source",
                   note="not answered: plant.design_drop")  # fmt: skip


def _needs(home: Home, loss: HeatLoss, drop: KeyFigure) -> dict[str, KeyFigure | None]:
    return {room.room.id: _need(home, room, drop) for room in loss.rooms}


def _need(home: Home, loss: RoomLoss, drop: KeyFigure) -> KeyFigure | None:
    """What flow temperature a room needs; None where no flow temperature meets its load."""
    any_flow = assumed("emitters.any_flow", "any flow temperature", 45.0, "°C", source="derived")
    emitters = [
        emitter_result(emitter, loss.room, loss.temperature, Water(any_flow, drop))
        for emitter in home.emitters_of(loss.room.id)
    ]
    value = required_flow_temperature(
        [one.characteristic for one in emitters], loss.total.value, loss.temperature.value
    )
    if value is None:
        return None
    ratings = tuple(
        part for one in emitters for part in (one.rated_output, one.derate, one.exponent)
    )
    return calculated(
        f"emitters.rooms.{loss.room.id}.required_flow_temperature",
        "lowest flow temperature that covers its load",
        value,
        "°C",
        formula="ΣΦ(T_f) = Φ_room; with one T_f = T_i + ΔT_{m,50}·(Φ/Φ_50)^(1/n) + ΔT/2",
        inputs=(loss.total, loss.temperature, drop, *ratings),
        source=_SOURCE,
    )


def _required(needs: dict[str, KeyFigure | None], loss: HeatLoss) -> KeyFigure | None:
    known = tuple(need for need in needs.values() if need is not None)
    if not known:
        return None
    beyond = [r.room.name for r in loss.rooms if needs[r.room.id] is None and r.total.value > 0]
    label = "lowest flow temperature that covers every room"
    return calculated(
        "emitters.required_flow_temperature",
        f"{label} that can be covered" if beyond else label,
        max(need.value for need in known),
        "°C",
        formula="highest need of all rooms",
        inputs=known,
        source="the room that needs the hottest water decides",
        note=f"no flow temperature covers: {', '.join(beyond)}" if beyond else "",
    )


def _flow_temperature(home: Home, required: KeyFigure | None) -> KeyFigure:
    name, label = "emitters.flow_temperature", "design flow temperature"
    chosen = home.plant.design_flow_temperature
    if chosen is not None:
        return given(name, label, chosen, "°C", place="plant.design_flow_temperature")
    if required is None:
        raise Incomplete(
            "no room's load can be covered by its emitters at any flow temperature, and no design "
            "flow temperature is chosen. Enter plant.design_flow_temperature, or check the "
            "emitters' rated outputs."
        )
    return calculated(
        name, label, required.value, "°C", formula="the lowest that covers every room",
        inputs=(required,), source="no design flow temperature is recorded",
    )  # fmt: skip


def _return_temperature(flow: KeyFigure, drop: KeyFigure) -> KeyFigure:
    return calculated(
        "emitters.return_temperature", "design return temperature", flow.value - drop.value, "°C",
        formula="T_r = T_f − ΔT", inputs=(flow, drop), source="definition",
    )  # fmt: skip


def _room(
    home: Home, loss: RoomLoss, water: Water, need: KeyFigure | None, hottest: float
) -> RoomEmitters:
    name = f"emitters.rooms.{loss.room.id}"
    results = tuple(
        emitter_result(emitter, loss.room, loss.temperature, water)
        for emitter in home.emitters_of(loss.room.id)
    )
    output = _sum(f"{name}.output", "heat of its emitters at design", "W",
                  tuple(one.output for one in results))  # fmt: skip
    coverage = _coverage(name, output, loss.total)
    is_short = bool(results) and coverage is not None and coverage.value < ENOUGH
    decides = need is not None and need.value >= hottest
    return RoomEmitters(
        room=loss.room,
        temperature=loss.temperature,
        load=loss.total,
        output=output,
        coverage=coverage,
        required_flow_temperature=need,
        is_limiting=is_short or decides,
        emitters=tuple(with_duty(one, loss.total, output) for one in results),
    )


def _coverage(name: str, output: KeyFigure, load: KeyFigure) -> KeyFigure | None:
    if load.value <= 0:
        return None
    spread = output.uncertainty
    return calculated(
        f"{name}.coverage", "output over load", output.value / load.value, "%",
        formula="ΣΦ / Φ_room", inputs=(output, load),
        source=f"{ENOUGH:.0%} to 115 % is wanted; common practice, no source",
        uncertainty=None if spread is None else spread / load.value,
    )  # fmt: skip


def _limiting(rooms: tuple[RoomEmitters, ...]) -> tuple[str, ...]:
    def heat(room: RoomEmitters) -> tuple[float, str]:
        need = room.required_flow_temperature
        return (math.inf if need is None else need.value), room.room.id

    limiting = [room for room in rooms if room.is_limiting]
    return tuple(room.room.id for room in sorted(limiting, key=heat, reverse=True))


def _sum(name: str, label: str, unit: str, parts: tuple[KeyFigure, ...]) -> KeyFigure:
    spread = math.sqrt(math.fsum((part.uncertainty or 0.0) ** 2 for part in parts))
    figure = calculated(
        name, label, math.fsum(part.value for part in parts), unit, formula="sum",
        inputs=parts, source="sum",
    )  # fmt: skip
    return replace(figure, uncertainty=spread or None)
