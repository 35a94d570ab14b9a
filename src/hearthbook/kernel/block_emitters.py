"""All emitters of a block of homes through a step: the sums of `emitters_step`, homes innermost."""

from __future__ import annotations

from typing import Any

from numba.extending import register_jitable
from numpy.typing import NDArray

from hearthbook.physics.emitter_step import (
    fitted_output,
    head_position,
    inlet_weight,
    lagged,
    valve_opening,
)
from hearthbook.physics.water_loop import branch_after, kept_share

__all__ = ["emit_block", "follow_block_flow", "move_block_valves", "set_block_branches"]

Record = Any  # one element of a record array; the compiler knows its fields, mypy does not


@register_jitable
def move_block_valves(
    emitters: NDArray[Any], rooms: NDArray[Any], lanes: Record, step: float, width: int
) -> None:
    """Valves follow their rooms; the lanes learn what they let through in all."""
    for h in range(width):
        lanes.open_flow[h] = 0.0
    for number in range(emitters.size):
        emitter = emitters[number]
        room = rooms[emitter.room]
        for h in range(width):
            middle = room.wanted[h] + emitter.valve_shift[h]
            acting = head_position(room.air[h], emitter.held[h], emitter.valve_hysteresis[h])
            goal = valve_opening(acting, middle, emitter.valve_band[h], emitter.least_opening[h])
            opening = lagged(emitter.opening[h], goal, emitter.valve_lag[h], step)
            emitter.opening[h] = opening
            emitter.held[h] = acting
            lanes.open_flow[h] += opening * emitter.design_flow[h]


@register_jitable
def set_block_branches(emitters: NDArray[Any], lanes: Record, step: float, width: int) -> None:
    """What flow does to each emitter while valves and pumps stay as they are."""
    for h in range(width):
        lanes.slope[h] = 0.0
    for number in range(emitters.size):
        emitter = emitters[number]
        for h in range(width):
            through = emitter.opening[h] * emitter.design_flow[h] * lanes.scale[h]
            kept = kept_share(emitter.capacity[h], through, step)
            emitter.through[h] = through
            emitter.weight[h] = inlet_weight(through, emitter.conductance[h])
            emitter.kept[h] = kept
            emitter.warming[h] = kept * step / emitter.capacity[h]
            lanes.slope[h] += through * (1.0 - kept)


@register_jitable
def emit_block(emitters: NDArray[Any], rooms: NDArray[Any], lanes: Record, width: int) -> None:
    """What each emitter gives, from the temperatures at the start of the step."""
    for h in range(width):
        lanes.emitted[h] = 0.0
        lanes.constant[h] = 0.0
    for number in range(emitters.size):
        emitter = emitters[number]
        room = rooms[emitter.room]
        for h in range(width):
            water, into_floor, air = emitter.water[h], emitter.into_floor[h], room.air[h]
            mean = water + emitter.weight[h] * (lanes.flow[h] - water)
            sink = air + into_floor * (room.floor[h] - air)
            heat = fitted_output(
                mean - sink, emitter.linear[h], emitter.quarter[h], emitter.half[h]
            )
            emitter.given[h] = heat
            above = heat * (1.0 - into_floor)
            radiant = above * emitter.radiant[h]
            room.radiant_heat[h] += radiant
            room.heat[h] += above - radiant
            room.floor_heat[h] += heat * into_floor
            lanes.emitted[h] += heat
            lanes.constant[h] += emitter.through[h] * branch_after(
                water, emitter.kept[h], emitter.warming[h], heat, 0.0
            )


@register_jitable
def follow_block_flow(emitters: NDArray[Any], lanes: Record, width: int) -> None:
    """Water in each emitter at the end of the step."""
    for number in range(emitters.size):
        emitter = emitters[number]
        for h in range(width):
            emitter.water[h] = branch_after(
                emitter.water[h], emitter.kept[h], emitter.warming[h], emitter.given[h],
                lanes.flow[h],
            )  # fmt: skip
