"""All emitters of one home through a step: their valves, their flows, what they give."""

from __future__ import annotations

from typing import Any

from numba.extending import register_jitable
from numpy.typing import NDArray

from hearthbook.kernel.rooms_step import AIR, FLOOR, RADIANT
from hearthbook.kernel.state import HOT_WATER, REST, Record
from hearthbook.physics.emitter_step import (
    fitted_output,
    head_position,
    inlet_weight,
    lagged,
    pump_flow_share,
    valve_opening,
)
from hearthbook.physics.water_loop import branch_after, kept_share

__all__ = [
    "HELD",
    "KEPT",
    "OPENING",
    "THROUGH",
    "WARMING",
    "WATER",
    "WEIGHT",
    "choose_flow",
    "emit",
    "flow_of_mode",
    "follow_flow",
    "move_valves",
    "pumped_flow",
    "set_branches",
]

# rows of an emitter's state
WATER = 0
OPENING = 1
HELD = 2
# rows of `set_branches`
THROUGH = 0
WEIGHT = 1
KEPT = 2
WARMING = 3


@register_jitable
def move_valves(
    emitters: NDArray[Any],
    rooms: NDArray[Any],
    nodes: Any,
    valves: Any,
    wanted: Any,
    state: Record,
    step: float,
) -> None:
    """Valves follow their rooms; the plant's state learns what they let through in all."""
    total = 0.0
    for number in range(emitters.size):
        emitter = emitters[number]
        room = emitter.room
        middle = wanted[room] + rooms[room].wanted_shift + emitter.valve_shift
        acting = head_position(nodes[AIR, room], valves[HELD, number], emitter.valve_hysteresis)
        goal = valve_opening(acting, middle, emitter.valve_band, emitter.least_opening)
        opening = lagged(valves[OPENING, number], goal, emitter.valve_lag, step)
        valves[OPENING, number] = opening
        valves[HELD, number] = acting
        total += opening * emitter.design_flow
    state.open_flow = total


@register_jitable
def choose_flow(plant: Record, state: Record) -> tuple[float, float, float, bool]:
    """Flow by mode, W/K: in all, past the emitters, for each open kg/s; and if it is enough."""
    pumped, each = pumped_flow(plant.design_flow, state.open_flow, plant.common_resistance)
    return flow_of_mode(plant, state.mode, pumped, each)


@register_jitable
def pumped_flow(
    design_flow: float, open_flow: float, common_resistance: float
) -> tuple[float, float]:
    """Flow through the emitters in kg/s while the pump runs, and as a share of what is open."""
    share: Any = pump_flow_share(open_flow / design_flow, common_resistance)
    return design_flow * share, design_flow * share / max(open_flow, 1e-9)


@register_jitable
def flow_of_mode(
    plant: Record, mode: int, pumped: float, each: float
) -> tuple[float, float, float, bool]:
    """As `choose_flow`, from `pumped_flow`."""
    if mode == HOT_WATER:
        return plant.coil_flow * plant.heat_capacity, 0.0, 0.0, True
    past = 0.0
    if pumped < plant.least_flow and plant.has_bypass > 0.0:
        past = plant.least_flow - pumped
    is_enough = pumped + past >= plant.least_flow
    if mode == REST:
        return 0.0, 0.0, 0.0, is_enough
    water = plant.heat_capacity
    return (pumped + past) * water, past * water, water * each, is_enough


@register_jitable
def set_branches(
    emitters: NDArray[Any], valves: Any, branches: Any, state: Record, scale: float, step: float
) -> None:
    """What flow does to each emitter while valves and pump stay as they are.

    Args:
        emitters: records of `packing.EMITTER`.
        valves: rows of an emitter's state.
        branches: rows flow W/K, weight of the inlet, share kept, K for each watt; changed.
        state: of the plant, told the scale and how the return follows the flow.
        scale: W/K of flow for each open kg/s.
        step: s.
    """
    slope = 0.0
    for number in range(emitters.size):
        emitter = emitters[number]
        through = valves[OPENING, number] * emitter.design_flow * scale
        kept = kept_share(emitter.capacity, through, step)
        branches[THROUGH, number] = through
        branches[WEIGHT, number] = inlet_weight(through, emitter.conductance)
        branches[KEPT, number] = kept
        branches[WARMING, number] = kept * step / emitter.capacity
        slope += through * (1.0 - kept)
    state.branch_scale = scale
    state.branch_slope = slope


@register_jitable
def emit(
    emitters: NDArray[Any],
    nodes: Any,
    valves: Any,
    flow: float,
    branches: Any,
    given: Any,
    inflow: Any,
) -> tuple[float, float]:
    """What each emitter gives, from the temperatures at the start of the step.

    Returns:
        Sum in W, and what returns from the emitters apart from the flow's temperature in W.
    """
    total, constant = 0.0, 0.0
    for number in range(emitters.size):
        emitter = emitters[number]
        room, into_floor = emitter.room, emitter.into_floor
        water = valves[WATER, number]
        mean = water + branches[WEIGHT, number] * (flow - water)
        air = nodes[AIR, room]
        sink = air + into_floor * (nodes[FLOOR, room] - air)
        heat: Any = fitted_output(mean - sink, emitter.linear, emitter.quarter, emitter.half)
        given[number] = heat
        above = heat * (1.0 - into_floor)
        radiant = above * emitter.radiant
        inflow[RADIANT, room] += radiant
        inflow[AIR, room] += above - radiant
        inflow[FLOOR, room] += heat * into_floor
        total += heat
        constant += branches[THROUGH, number] * branch_after(
            water, branches[KEPT, number], branches[WARMING, number], heat, 0.0
        )
    return total, constant


@register_jitable
def follow_flow(valves: Any, branches: Any, given: Any, flow: float) -> None:
    """Water in each emitter at the end of the step."""
    for number in range(given.size):
        valves[WATER, number] = branch_after(
            valves[WATER, number], branches[KEPT, number], branches[WARMING, number],
            given[number], flow,
        )  # fmt: skip
