"""Drawings of a home, described as data from its design; words come from `drawings.toml`."""

from hearthbook.handover.pictures.numbers import (
    hand_feel_strip,
    meter_display,
    thermostatic_scale,
)
from hearthbook.handover.pictures.place import clear_space, house_section
from hearthbook.handover.pictures.system import system_parts, system_schematic
from hearthbook.handover.pictures.water import pressure_gauge, top_up_steps, valve_positions

__all__ = [
    "clear_space",
    "hand_feel_strip",
    "house_section",
    "meter_display",
    "pressure_gauge",
    "system_parts",
    "system_schematic",
    "thermostatic_scale",
    "top_up_steps",
    "valve_positions",
]
