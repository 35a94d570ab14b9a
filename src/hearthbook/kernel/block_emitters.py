"""All emitters of a block of homes through a step: the sums of `emitters_step`, homes innermost."""

from __future__ import annotations

from typing import Any

from numba.extending import register_jitable
from numpy.typing import NDArray

from hearthbook.kernel.block import WIDTH
from hearthbook.kernel.emitters_step import pumped_flow
from hearthbook.kernel.state import Record
from hearthbook.physics.emitter_step import (
    fitted_output,
    head_position,
    inlet_weight,
    lagged,
    valve_opening,
)
from hearthbook.physics.water_loop import branch_after, kept_share

__all__ = [
    "emit_block",
    "follow_block_flow",
    "move_block_valves",
    "set_block_branches",
    "warm_masses",
]

_STILL = 0.5  # W; what an emitter gives that is looked at only when the valves are; derived


@register_jitable
def move_block_valves(
    emitters: NDArray[Any], rooms: NDArray[Any], homes: Record, step: float
) -> None:
    """Valves follow their rooms; the homes learn what pumps then move."""
    for h in range(WIDTH):
        homes.open_flow[h] = 0.0
    for number in range(emitters.size):
        emitter = emitters[number]
        room = rooms[emitter.room]
        for h in range(WIDTH):
            middle = room.wanted[h] + emitter.valve_shift[h]
            acting = head_position(room.air[h], emitter.held[h], emitter.valve_hysteresis[h])
            goal = valve_opening(acting, middle, emitter.valve_band[h], emitter.least_opening[h])
            opening = lagged(emitter.opening[h], goal, emitter.valve_lag[h], step)
            emitter.opening[h] = opening
            emitter.held[h] = acting
            homes.open_flow[h] += opening * emitter.design_flow[h]
    for h in range(WIDTH):
        homes.pumped[h], homes.each[h] = pumped_flow(
            homes.design_flow[h], homes.open_flow[h], homes.common_resistance[h]
        )


@register_jitable
def set_block_branches(emitters: NDArray[Any], homes: Record, step: float) -> None:
    """What flow does to each emitter while valves and pumps stay as they are."""
    for h in range(WIDTH):
        homes.slope[h] = 0.0
    for number in range(emitters.size):
        emitter = emitters[number]
        for h in range(WIDTH):
            through = emitter.opening[h] * emitter.design_flow[h] * homes.scale[h]
            kept = kept_share(emitter.capacity[h], through, step)
            emitter.through[h] = through
            emitter.weight[h] = inlet_weight(through, emitter.conductance[h])
            emitter.kept[h] = kept
            emitter.warming[h] = kept * step / emitter.capacity[h]
            homes.slope[h] += through * (1.0 - kept)


@register_jitable
def _excess(emitter: Record, room: Record, homes: Record, h: int) -> Any:
    """K by which the mean of an emitter's water is warmer than what it warms."""
    water, air = emitter.water[h], room.air[h]
    mean = water + emitter.weight[h] * (homes.flow[h] - water)
    return mean - air - emitter.into_floor[h] * (room.floor[h] - air)


@register_jitable
def emit_block(emitters: NDArray[Any], rooms: NDArray[Any], homes: Record, is_still: bool) -> None:
    """What each emitter gives, from the temperatures at the start of the step.

    Emitters that stand still, as cold as their rooms, are looked at when the valves are.
    """
    for h in range(WIDTH):
        homes.constant[h], homes.emitted[h] = 0.0, 0.0
    if is_still:
        return
    for number in range(emitters.size):
        emitter = emitters[number]
        room = rooms[emitter.room]
        for h in range(WIDTH):
            heat = fitted_output(
                _excess(emitter, room, homes, h),
                emitter.linear[h], emitter.quarter[h], emitter.half[h],
            )  # fmt: skip
            emitter.given[h] = heat
            emitter.sum_given[h] += heat
            room.heat[h] += heat * emitter.into_air[h]
            homes.emitted[h] += heat
            homes.constant[h] += emitter.through[h] * branch_after(
                emitter.water[h], emitter.kept[h], emitter.warming[h], heat, 0.0
            )


@register_jitable
def _are_still(homes: Record, emitters: int) -> bool:
    """Whether no water flows through any emitter, and all are about as cold as their rooms."""
    is_still = True
    for h in range(WIDTH):
        is_still &= homes.scale[h] == 0.0
        is_still &= homes.emitted[h] < _STILL * emitters
    return is_still


@register_jitable
def follow_block_flow(emitters: NDArray[Any], homes: Record, is_still: bool) -> bool:
    """Water in each emitter at the end of the step; whether all stand still from now on."""
    if is_still:
        return True
    for number in range(emitters.size):
        emitter = emitters[number]
        for h in range(WIDTH):
            emitter.water[h] = branch_after(
                emitter.water[h], emitter.kept[h], emitter.warming[h], emitter.given[h],
                homes.flow[h],
            )  # fmt: skip
    return _are_still(homes, emitters.size)


@register_jitable
def warm_masses(emitters: NDArray[Any], rooms: NDArray[Any]) -> None:
    """Give the masses of the rooms what emitters have given them since they were last moved."""
    for number in range(emitters.size):
        emitter = emitters[number]
        room = rooms[emitter.room]
        for h in range(WIDTH):
            given = emitter.sum_given[h]
            room.inner_heat[h] += given * emitter.into_inner[h]
            room.outer_heat[h] += given * emitter.into_outer[h]
            room.floor_heat[h] += given * emitter.into_floor_mass[h]
            emitter.sum_given[h] = 0.0
