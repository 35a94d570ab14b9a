"""One home's hot-water cylinder through a step: draws, coil, hygiene run, immersion heater.

Functions on single numbers and on one home's records, called by every compiled loop.
"""

from __future__ import annotations

from typing import Any

from numba.extending import register_jitable

from hearthbook.kernel.controls_step import hot_water_target
from hearthbook.kernel.state import HOT_WATER, Record
from hearthbook.physics.cylinder_layers import (
    cool_layers,
    draw_layers,
    drawn_from_store,
    heat_layers,
)

__all__ = ["coil_zone", "rest_cylinder", "tap"]

_WATER_HEAT = 4186.0  # J/(kg·K)
_SHORT = 2.0  # K colder at the tap than wanted that a person notices; common practice, no source
_LONGEST_HYGIENE = 12.0 * 3600.0  # s; a run that has not done by then is given up
_HYGIENE_TOLERANCE = 0.5  # K below the temperature of the run that still count as held


@register_jitable
def coil_zone(plant: Record, layers: Any) -> float:
    """Mean temperature of the layers the coil reaches."""
    total = 0.0
    for layer in range(plant.coil_layers):
        total += layers[layer]
    return total / plant.coil_layers


@register_jitable
def tap(
    plant: Record,
    state: Record,
    totals: Record,
    layers: Any,
    drawn: float,
    cold: float,
    step: float,
) -> None:
    """Hot water drawn in a step, in kg a minute at the tap, and the hygiene run."""
    if plant.has_cylinder == 0.0:
        return
    if drawn > 0.0:
        _draw_hot_water(plant, totals, layers, drawn * plant.draw_factor * step / 60.0, cold)
    if state.hygiene > 0.0:
        _run_hygiene(plant, state, totals, layers, layers[plant.sensor_layer], step)


@register_jitable
def _draw_hot_water(plant: Record, totals: Record, layers: Any, mixed: float, cold: float) -> None:
    """Draw mixed water at the tap."""
    top = layers[layers.size - 1]
    drawn = drawn_from_store(mixed, plant.draw_temperature, top, cold)
    left_at = draw_layers(layers, drawn, plant.layer_mass, cold)
    totals.heat_drawn += drawn * plant.layer_capacity / plant.layer_mass * (left_at - cold)
    if left_at < plant.draw_temperature - _SHORT:
        totals.short_water += mixed


@register_jitable
def rest_cylinder(
    plant: Record, state: Record, totals: Record, layers: Any, room: float, slot: float
) -> None:
    """Standing loss of a whole slot, taken at its start and given to the room all through it."""
    lost = cool_layers(
        layers, room, plant.layer_loss, plant.layer_conduction, plant.layer_capacity, slot
    )
    totals.heat_standing += lost
    if plant.cylinder_room >= 0:
        totals.heat_standing_inside += lost
    state.cylinder_loss = lost / slot


@register_jitable
def _run_hygiene(
    plant: Record, state: Record, totals: Record, layers: Any, sensor: float, step: float
) -> None:
    """Hold the whole cylinder at the run's temperature, the last degrees by immersion heater."""
    state.hygiene_seconds += step
    unit_is_done = state.mode != HOT_WATER and sensor >= hot_water_target(plant, state) - 1.0
    wanted = plant.hygiene_temperature
    if unit_is_done and plant.immersion_power > 0.0 and layers[0] < wanted:
        missing = 0.0
        for layer in range(layers.size):
            missing += max(wanted + 1.0 - layers[layer], 0.0) * plant.layer_capacity
        heat = min(plant.immersion_power * step, missing)
        heat_layers(layers, heat, plant.layer_capacity, 1)
        totals.heat_immersion += heat
    if layers[0] >= wanted - _HYGIENE_TOLERANCE:
        state.hygiene_held += step
    if state.hygiene_held >= plant.hygiene_hold or state.hygiene_seconds > _LONGEST_HYGIENE:
        state.hygiene = 0.0
