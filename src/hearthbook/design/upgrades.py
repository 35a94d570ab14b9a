"""What the next larger emitter in the deciding room wins for the whole home."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from hearthbook.design import typical_emitters as typical
from hearthbook.design.emitter_results import (
    Characteristic,
    EmitterResult,
    RoomEmitters,
    required_flow_temperature,
)
from hearthbook.design.heating_season import HeatingSeason
from hearthbook.documents.figures import KeyFigure, assumed, calculated, given
from hearthbook.record.emitters import Emitter, PanelRadiator

__all__ = ["SAVING_PER_KELVIN", "SAVING_PER_KELVIN_SPREAD", "Season", "Upgrade", "next_larger"]

SAVING_PER_KELVIN = 0.0225  # of electricity per K of flow; middle of 1.5 (derived) and 3 %/K
SAVING_PER_KELVIN_SPREAD = 0.0075  # half of that span
_SAVING_SOURCE = (
    "common practice, no source, for 2 to 3 % per K; 1.5 to 2 % per K derived from a Carnot cycle"
)
_EN442 = "EN 442-2, characteristic equation"
_STEPS = 4  # exchanges looked at, one after another
_WORTH_WHILE = 1.0  # K; the list ends with the last exchange, after the first, that wins as much


@dataclass(frozen=True)
class Season:
    """What turns a win at design into a win over the season.

    Attributes:
        bins: the hours of the season.
        base_temperature: outdoor temperature above which no heat is needed.
        design_outdoor_temperature: outdoor temperature of the design load.
    """

    bins: HeatingSeason
    base_temperature: KeyFigure
    design_outdoor_temperature: KeyFigure


@dataclass(frozen=True)
class Upgrade:
    """One exchange, made after those before it in the list.

    Attributes:
        room_id: the room that decided the flow temperature before it.
        emitter_id: the emitter to be exchanged.
        description: what would take its place.
        rated_output: of what would take its place, at 50 K.
        room_flow_temperature: what the room needs afterwards.
        home_flow_temperature: what the whole home needs afterwards.
        won: K the whole home wins by this exchange at design.
        won_over_season: the same as a mean over the season's heat.
        saving: share of the heating electricity saved, with its range.
        extra_cost: what the exchange costs; None where nobody wrote it down.
    """

    room_id: str
    emitter_id: str
    description: str
    rated_output: KeyFigure
    room_flow_temperature: KeyFigure
    home_flow_temperature: KeyFigure
    won: KeyFigure
    won_over_season: KeyFigure
    saving: KeyFigure
    extra_cost: KeyFigure | None


@dataclass(frozen=True)
class _Larger:
    """What would take an emitter's place."""

    result: EmitterResult
    description: str
    rated: KeyFigure
    characteristic: Characteristic


def next_larger(rooms: tuple[RoomEmitters, ...], season: Season) -> tuple[Upgrade, ...]:
    """The exchanges worth looking at, in the order in which the rooms decide.

    Each is made in the room that then needs the hottest water. The first is always there; those
    after it as far as one of them still wins the home something worth the work, for two rooms
    that need the same water win only together.
    """
    emitters = {room.room.id: [one.characteristic for one in room.emitters] for room in rooms}
    by_id = {room.room.id: room for room in rooms}
    needs = {
        room.room.id: room.required_flow_temperature
        for room in rooms
        if room.required_flow_temperature is not None
    }
    exchanged: set[str] = set()
    found: list[Upgrade] = []
    while needs and len(found) < _STEPS:
        deciding = by_id[max(needs, key=lambda room_id: (needs[room_id].value, room_id))]
        larger = _larger(deciding, exchanged)
        if larger is None:
            break
        emitters[deciding.room.id][deciding.emitters.index(larger.result)] = larger.characteristic
        upgrade = _upgrade(deciding, larger, emitters[deciding.room.id], needs, season)
        if upgrade is None:
            break
        exchanged.add(larger.result.emitter.id)
        needs[deciding.room.id] = upgrade.room_flow_temperature
        found.append(upgrade)
    while len(found) > 1 and found[-1].won.value < _WORTH_WHILE:
        found.pop()
    return tuple(found)


def _upgrade(
    room: RoomEmitters,
    larger: _Larger,
    emitters: list[Characteristic],
    needs: Mapping[str, KeyFigure],
    season: Season,
) -> Upgrade | None:
    """The exchange's figures, given what every room needs before it."""
    flow = required_flow_temperature(emitters, room.load.value, room.temperature.value)
    if flow is None:
        return None
    name = f"emitters.{larger.result.emitter.id}.larger"
    room_flow = calculated(
        f"{name}.room_flow_temperature", "flow temperature its room then needs", flow, "°C",
        formula="ΣΦ(T_f) = Φ_room, solved for T_f", source=_EN442,
        inputs=(room.load, room.temperature, larger.rated, larger.result.exponent),
    )  # fmt: skip
    before = _highest(f"{name}.before", "flow temperature the home needs before", needs)
    after = {**needs, room.room.id: room_flow}
    home_flow = _highest(
        f"{name}.home_flow_temperature", "flow temperature the home then needs", after
    )
    won = calculated(
        f"{name}.won", "won for the whole home at design", before.value - home_flow.value, "K",
        formula="before − after", inputs=(before, home_flow), source="difference",
    )  # fmt: skip
    over_season = _over_season(name, won, larger.result.exponent, season)
    return Upgrade(
        room_id=room.room.id,
        emitter_id=larger.result.emitter.id,
        description=larger.description,
        rated_output=larger.rated,
        room_flow_temperature=room_flow,
        home_flow_temperature=home_flow,
        won=won,
        won_over_season=over_season,
        saving=_saving(name, over_season),
        extra_cost=_extra_cost(name, larger.result.emitter),
    )


def _highest(name: str, label: str, needs: Mapping[str, KeyFigure]) -> KeyFigure:
    return calculated(
        name, label, max(need.value for need in needs.values()), "°C",
        formula="highest need of all rooms", inputs=tuple(needs.values()), source=_EN442,
    )  # fmt: skip


def _over_season(name: str, won: KeyFigure, exponent: KeyFigure, season: Season) -> KeyFigure:
    base, cold = season.base_temperature.value, season.design_outdoor_temperature.value
    load = np.clip((base - season.bins.temperatures) / (base - cold), 0.0, 1.2)
    share = float(np.sum(season.bins.load_shares(base) * load ** (1 / exponent.value)))
    return calculated(
        f"{name}.won_over_season",
        "won for the whole home, mean over the season's heat",
        won.value * share,
        "K",
        formula="Σ shares of heat · won · x^(1/n)",
        inputs=(
            won,
            exponent,
            season.base_temperature,
            season.design_outdoor_temperature,
            season.bins.length,
        ),
        source="derived: the curve's excess falls with the load to the power 1/n",
    )


def _saving(name: str, over_season: KeyFigure) -> KeyFigure:
    per_kelvin = replace(
        assumed("emitters.saving_per_kelvin", "electricity saved per K of flow",
                SAVING_PER_KELVIN, "%", source=_SAVING_SOURCE),
        uncertainty=SAVING_PER_KELVIN_SPREAD, decimals=1,
    )  # fmt: skip
    return calculated(
        f"{name}.saving", "heating electricity saved, if the curve is lowered by it",
        over_season.value * SAVING_PER_KELVIN, "%", formula="K won over the season · share per K",
        inputs=(over_season, per_kelvin), source=_SAVING_SOURCE,
        uncertainty=over_season.value * SAVING_PER_KELVIN_SPREAD, decimals=1,
    )  # fmt: skip


def _extra_cost(name: str, emitter: Emitter) -> KeyFigure | None:
    if emitter.larger is None or emitter.larger.extra_cost is None:
        return None
    place = f"emitters.{emitter.id}.larger.extra_cost"
    return given(f"{name}.extra_cost", "cost of the exchange", emitter.larger.extra_cost, "£",
                 place=place)  # fmt: skip


def _larger(room: RoomEmitters, exchanged: set[str]) -> _Larger | None:
    """The emitter of a room to exchange: one with a recorded larger one, else the largest panel."""
    candidates = [one for one in room.emitters if one.emitter.id not in exchanged]
    recorded = [one for one in candidates if one.emitter.larger is not None]
    if recorded:
        return _recorded(max(recorded, key=_recorded_gain))
    panels = [(one, one.emitter) for one in candidates if isinstance(one.emitter, PanelRadiator)]
    if not panels:
        return None
    return _next_in_table(*max(panels, key=lambda pair: (pair[0].rated_output.value, pair[1].id)))


def _recorded_gain(one: EmitterResult) -> tuple[float, str]:
    larger = one.emitter.larger
    gain = 0.0 if larger is None else larger.rated_output - one.rated_output.value
    return gain, one.emitter.id


def _recorded(one: EmitterResult) -> _Larger | None:
    larger = one.emitter.larger
    if larger is None:
        return None
    rated = given(
        f"emitters.{one.emitter.id}.larger.rated_output", "rated output of the larger one at 50 K",
        larger.rated_output, "W", place=f"emitters.{one.emitter.id}.larger.rated_output",
    )  # fmt: skip
    return _Larger(one, larger.description, rated, _exchanged(one, rated.value))


def _next_in_table(one: EmitterResult, panel: PanelRadiator) -> _Larger:
    """The next type of the same size; for the deepest type a quarter longer."""
    bigger = typical.LARGER_PANEL_TYPE.get(panel.panel_type)
    length = panel.length if bigger else panel.length * typical.LONGER
    panel_type = bigger or panel.panel_type.value
    ratio = float(typical.panel_output(panel_type, panel.height, length)) / float(
        typical.panel_output(panel.panel_type, panel.height, panel.length)
    )
    rated = calculated(
        f"emitters.{panel.id}.larger.rated_output",
        "rated output of the larger one at 50 K",
        one.rated_output.value * ratio,
        "W",
        formula="Φ_50 · ratio of usual outputs",
        inputs=(one.rated_output,),
        source=typical.OUTPUT_SOURCE,
        uncertainty=one.rated_output.value * ratio * typical.OUTPUT_SPREAD,
        note=f"ratio {ratio:.2f}; whether it fits the place is not recorded",
    )
    size = f"type {panel_type}, {panel.height * 1000:.0f} by {length * 1000:.0f} mm"
    return _Larger(one, size, rated, _exchanged(one, rated.value))


def _exchanged(one: EmitterResult, rated_output: float) -> Characteristic:
    return replace(one.characteristic, rated_output=rated_output * one.derate.value)
