"""One home's unit through a step: its compressor switched, what it gives and takes, its backup.

Functions on single numbers and on one home's records.
"""

from __future__ import annotations

from typing import Any

from numba.extending import register_jitable

from hearthbook.kernel.controls_step import switch_backup, switch_compressor
from hearthbook.kernel.state import Record
from hearthbook.kernel.unit_step import unit_heat

__all__ = ["run_unit"]


@register_jitable
def run_unit(
    plant: Record,
    state: Record,
    now: Record,
    driver: Record,
    performance: Any,
    sensor: float,
    outdoor: float,
    humidity: float,
    flow_rate: float,
    is_flow_enough: bool,
    step: float,
) -> tuple[float, float, float]:
    """Heat into the unit's water, electricity of the compressor, heat of the backup heater, W."""
    if switch_compressor(plant, state, outdoor, is_flow_enough, step):
        now.starts += 1.0
    heat, electricity, is_at_most = unit_heat(
        plant, state, now, performance, sensor, outdoor, humidity, driver.quiet > 0.0, flow_rate,
        step,
    )  # fmt: skip
    return heat, electricity, switch_backup(plant, state, outdoor, is_at_most, step)
