"""The heating water of one home through a step: round the rooms, or round the cylinder's coil.

Functions on single numbers and on one home's records, called by every compiled loop.
"""

from __future__ import annotations

from typing import Any

from numba.extending import register_jitable

from hearthbook.kernel.cylinder_step import coil_zone
from hearthbook.kernel.state import HOT_WATER, Record
from hearthbook.physics.cylinder_layers import heat_layers
from hearthbook.physics.water_loop import return_after, vessel_after

__all__ = ["circulate", "circulate_coil", "ring_after"]


@register_jitable
def circulate(
    plant: Record,
    state: Record,
    now: Record,
    layers: Any,
    air: float,
    heat: float,
    backup: float,
    outdoor: float,
    flow_rate: float,
    past: float,
    constant: float,
    step: float,
) -> float:
    """Move the water of one home; W its pipes lose into the room with air of this temperature."""
    flow_loss = plant.flow_loss * (state.flow - air)
    back_loss = plant.return_loss * (state.back - air)
    now.heat_pipes += (flow_loss + back_loss) * step
    if state.mode == HOT_WATER:
        circulate_coil(plant, state, now, layers, heat, outdoor, flow_rate, step)
        _stand_still(plant, state, flow_loss, back_loss, step)
    else:
        _circulate_rooms(
            plant, state, now, heat, backup - flow_loss, -back_loss, outdoor, flow_rate, constant,
            state.branch_slope + past, step,
        )  # fmt: skip
    return flow_loss + back_loss


@register_jitable
def _circulate_rooms(
    plant: Record,
    state: Record,
    now: Record,
    heat: float,
    flow_heat: float,
    back_heat: float,
    outdoor: float,
    flow_rate: float,
    constant: float,
    slope: float,
    step: float,
) -> None:
    """Water round the unit, the flow pipes, the emitters and the return pipes."""
    outside = plant.outdoor_loss * (state.unit - outdoor)
    state.unit, state.flow, state.back = ring_after(
        state.unit, state.flow, state.back, plant.unit_capacity, plant.flow_capacity,
        plant.return_capacity, heat - outside, flow_heat, back_heat, flow_rate, constant, slope,
        step,
    )  # fmt: skip
    now.heat_pipes_outdoors += outside * step


@register_jitable
def ring_after(
    unit: float,
    flow: float,
    back: float,
    unit_capacity: float,
    flow_capacity: float,
    return_capacity: float,
    unit_heat: float,
    flow_heat: float,
    back_heat: float,
    flow_rate: float,
    constant: float,
    slope: float,
    step: float,
) -> tuple[float, float, float]:
    """Water in the unit, the flow pipes and the return pipes at the end of a step."""
    new_back: Any = return_after(
        unit, flow, back, unit_capacity, flow_capacity, return_capacity, unit_heat, flow_heat,
        back_heat, flow_rate, constant, slope, step,
    )  # fmt: skip
    new_unit: Any = vessel_after(unit, unit_capacity, flow_rate, new_back, unit_heat, step)
    new_flow: Any = vessel_after(flow, flow_capacity, flow_rate, new_unit, flow_heat, step)
    return new_unit, new_flow, new_back


@register_jitable
def circulate_coil(
    plant: Record,
    state: Record,
    now: Record,
    layers: Any,
    heat: float,
    outdoor: float,
    flow_rate: float,
    step: float,
) -> None:
    """Water round the unit and the cylinder's coil; the heating circuit stands still."""
    zone = coil_zone(plant, layers)
    given_share = plant.coil_effectiveness
    outside = plant.outdoor_loss * (state.unit - outdoor)
    unit_rate, loop_rate = plant.unit_capacity / step, plant.coil_loop_capacity / step
    constant = (unit_rate * state.unit + heat - outside) / (unit_rate + flow_rate)
    slope = flow_rate / (unit_rate + flow_rate)
    top = loop_rate * state.coil_loop + flow_rate * (
        (1.0 - given_share) * constant + given_share * zone
    )
    state.coil_loop = top / (loop_rate + flow_rate * (1.0 - (1.0 - given_share) * slope))
    state.unit = constant + slope * state.coil_loop
    given = flow_rate * given_share * (state.unit - zone) * step
    heat_layers(layers, given, plant.layer_capacity, plant.coil_layers)
    now.heat_coil += given
    now.heat_pipes_outdoors += outside * step


@register_jitable
def _stand_still(
    plant: Record, state: Record, flow_loss: float, back_loss: float, step: float
) -> None:
    """Heating pipes cool without flow."""
    state.flow -= flow_loss * step / plant.flow_capacity
    state.back -= back_loss * step / plant.return_capacity
