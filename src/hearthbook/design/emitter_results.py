"""What the emitter schedule says, and the plain numbers it is solved with."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from hearthbook.documents.figures import KeyFigure
from hearthbook.physics import emitters as physics
from hearthbook.record.building import Room
from hearthbook.record.emitters import Emitter

__all__ = ["Characteristic", "EmitterResult", "RoomEmitters", "required_flow_temperature"]

_HOTTEST_WATER = 90.0  # °C; a room that needs more cannot be met by its emitters


@dataclass(frozen=True)
class Characteristic:
    """An emitter as the solver sees it.

    Attributes:
        rated_output: at 50 K, derates taken off, in W.
        exponent: of the characteristic equation.
        drop: flow minus return, in K.
        is_floor: whether the logarithmic mean holds whatever the drop, as EN 1264 has it.
        limit: output its surface limit allows, in W.
    """

    rated_output: float
    exponent: float
    drop: float
    is_floor: bool = False
    limit: float = math.inf

    def output(self, flow_temperature: float, room_temperature: float) -> float:
        """Heat it gives, in W; none while the return would be colder than the room."""
        back = flow_temperature - self.drop
        if back - room_temperature < 1e-6:
            return 0.0
        formula = (
            physics.emitter_output_by_logarithmic_mean if self.is_floor else physics.emitter_output
        )
        heat = formula(self.rated_output, flow_temperature, back, room_temperature, self.exponent)
        return min(float(heat), self.limit)


@dataclass(frozen=True)
class EmitterResult:
    """One emitter at the design flow temperature.

    Attributes:
        emitter: as recorded.
        room_id: the room it heats.
        output: heat it gives.
        duty: the share of the room's load it is to carry; the basis of its flow rate.
        rated_output: at 50 K; for a heated floor what its surface limit allows.
        exponent: of the characteristic equation.
        derate: share of output left by covers, connection and paint.
        mean_excess: mean water above room.
        design_flow_rate: water it needs for its duty.
        water_content: water in it.
        characteristic: the plain numbers behind the output.
        surface_temperature: mean surface of a heated floor; None for other emitters.
        surface_limit: highest surface allowed on a heated floor; None for other emitters.
    """

    emitter: Emitter
    room_id: str
    output: KeyFigure
    duty: KeyFigure
    rated_output: KeyFigure
    exponent: KeyFigure
    derate: KeyFigure
    mean_excess: KeyFigure
    design_flow_rate: KeyFigure
    water_content: KeyFigure
    characteristic: Characteristic
    surface_temperature: KeyFigure | None = None
    surface_limit: KeyFigure | None = None


@dataclass(frozen=True)
class RoomEmitters:
    """A room and what heats it.

    Attributes:
        room: as recorded.
        temperature: wanted in it.
        load: heat it loses at design.
        output: heat its emitters give at the design flow temperature.
        coverage: output over load; None where there is nothing to cover.
        required_flow_temperature: lowest flow temperature that covers the load; None where the
            room has no emitter, no load, or emitters that cannot cover it at any temperature.
        is_limiting: whether it decides the flow temperature of the whole home, or is supplied
            too little at the design flow temperature.
        emitters: what heats it.
    """

    room: Room
    temperature: KeyFigure
    load: KeyFigure
    output: KeyFigure
    coverage: KeyFigure | None
    required_flow_temperature: KeyFigure | None
    is_limiting: bool
    emitters: tuple[EmitterResult, ...]


def required_flow_temperature(
    emitters: Sequence[Characteristic], load: float, room_temperature: float
) -> float | None:
    """The lowest flow temperature at which emitters sharing it carry a load together.

    Returns:
        None where they cannot at any temperature, or there are none.
    """
    if not emitters or load <= 0:
        return None
    low, high = room_temperature, _HOTTEST_WATER
    if _together(emitters, high, room_temperature) < load:
        return None
    while high - low > 1e-6:
        middle = (low + high) / 2
        if _together(emitters, middle, room_temperature) < load:
            low = middle
        else:
            high = middle
    return high


def _together(emitters: Sequence[Characteristic], flow: float, room_temperature: float) -> float:
    return math.fsum(one.output(flow, room_temperature) for one in emitters)
