"""What the compiled loops carry from minute to minute, and what they add up."""

from __future__ import annotations

from typing import Any

import numpy as np

__all__ = [
    "BIN_COUNT",
    "COLDEST_BIN",
    "DEFROST",
    "DRIP",
    "EMITTER_STATE",
    "HEATING",
    "HOT_WATER",
    "PLANT_STATE",
    "REST",
    "ROOM_FIGURES",
    "ROOM_STATE",
    "TOTALS",
    "TRACE",
    "Record",
]

Record = Any  # one element of a record array; the compiler knows its fields, mypy does not

# what the unit is doing
REST = 0
HEATING = 1
HOT_WATER = 2
DEFROST = 3
DRIP = 4

COLDEST_BIN = -30  # °C; totals by outdoor temperature in whole degrees
BIN_COUNT = 76

ROOM_STATE = 4  # rows: temperature of air, inner, outer and floor mass
EMITTER_STATE = 3  # rows: water temperature, valve opening, temperature its head acts on

PLANT_STATE = np.dtype(
    [
        ("unit", "f8"),  # °C of the water in the unit
        ("flow", "f8"),  # °C of the flow pipes
        ("back", "f8"),  # °C of the return pipes
        ("coil_loop", "f8"),  # °C of the pipes to the cylinder's coil
        ("frost", "f8"),  # kg on the outdoor coil
        ("mode", "i8"),  # REST, HEATING, HOT_WATER, DEFROST or DRIP
        ("compressor", "f8"),  # 1 while it runs
        ("since_start", "f8"),  # s
        ("since_stop", "f8"),  # s
        ("start_debt", "f8"),  # J of heat still missing after a start
        ("mode_seconds", "f8"),  # s in this mode
        ("since_hot_water", "f8"),  # s
        ("room_calls", "f8"),  # 1 while the thermostat lets heating run
        ("short_seconds", "f8"),  # s the flow has been short of its target
        ("backup", "f8"),  # 1 while the backup heater is on
        ("hygiene", "f8"),  # 1 during a hygiene run
        ("hygiene_seconds", "f8"),  # s since it began
        ("hygiene_held", "f8"),  # s at its temperature
        ("cylinder_loss", "f8"),  # W to the room the cylinder stands in, this slot
        ("target", "f8"),  # °C of flow asked for
        ("mean_air", "f8"),  # °C of the rooms' air, mean
        ("open_flow", "f8"),  # kg/s that the valves let through
        ("branch_scale", "f8"),  # W/K for each open kg/s that the branches were set for
        ("branch_slope", "f8"),  # W/K that return in proportion to the flow's temperature
    ],
    align=True,
)  # fmt: skip
"""The plant between two minutes."""

TOTALS = np.dtype(
    [
        ("seconds", "f8"),
        ("outdoor", "f8"),  # K·s above 0 °C
        ("heat_rooms", "f8"),  # J the unit gave to the heating water
        ("heat_cylinder", "f8"),  # J the unit gave while making hot water
        ("heat_defrost", "f8"),  # J defrosts took from the heating water
        ("heat_backup", "f8"),  # J of the backup heater
        ("heat_immersion", "f8"),  # J of the immersion heater
        ("heat_emitted", "f8"),  # J given by emitters
        ("heat_coil", "f8"),  # J through the coil into the cylinder
        ("heat_drawn", "f8"),  # J drawn as hot water, above the cold
        ("heat_standing", "f8"),  # J the cylinder lost
        ("heat_standing_inside", "f8"),  # J of that into a heated room
        ("heat_pipes", "f8"),  # J pipes lost into the home
        ("heat_pipes_outdoors", "f8"),  # J pipes lost out of doors
        ("heat_sun", "f8"),  # J of the sun into rooms
        ("heat_gains", "f8"),  # J of people and appliances
        ("heat_lost", "f8"),  # J rooms lost to outdoors, ground and neighbours
        ("electricity_rooms", "f8"),  # J of the compressor while heating
        ("electricity_cylinder", "f8"),  # J of the compressor while making hot water
        ("electricity_defrost", "f8"),  # J of the compressor while defrosting
        ("electricity_pump", "f8"),  # J of the pump and of fans
        ("electricity_standby", "f8"),  # J of standby and crankcase heat
        ("cost", "f8"),  # money
        ("starts", "f8"),
        ("run_seconds", "f8"),
        ("heating_seconds", "f8"),  # s the unit gave heat to rooms
        ("hot_water_seconds", "f8"),  # s it made hot water
        ("flow_temperature", "f8"),  # K·s of flow above 0 °C over heating_seconds
        ("target_temperature", "f8"),  # K·s of target above 0 °C over heating_seconds
        ("defrosts", "f8"),
        ("defrost_seconds", "f8"),
        ("frost", "f8"),  # kg grown
        ("meltwater", "f8"),  # kg
        ("condensate", "f8"),  # kg of dew, above freezing
        ("backup_seconds", "f8"),
        ("short_water", "f8"),  # kg at the tap more than 2 K colder than wanted
        ("low_flow_seconds", "f8"),  # s stopped because too few valves were open
    ],
    align=True,
)  # fmt: skip
"""Sums over a slot, a day or a degree of outdoor temperature: every field is a float64."""

ROOM_FIGURES = np.dtype(
    [
        ("seconds", "f8"),
        ("below_seconds", "f8"),  # s more than half a kelvin below wanted, while heating is allowed
        ("below", "f8"),  # K·s below wanted by more than half a kelvin
        ("temperature", "f8"),  # K·s above 0 °C
        ("coldest", "f8"),  # °C
        ("warmest", "f8"),  # °C
        ("above_seconds", "f8"),  # s more than two kelvin above wanted
    ],
    align=True,
)  # fmt: skip
"""What one room was like, sampled every quarter of an hour."""

TRACE = (
    "outdoor",
    "flow",
    "back",
    "target",
    "heat",
    "electricity",
    "mode",
    "frost",
    "cylinder_top",
    "cylinder_sensor",
    "water_flow",
    "backup",
)
"""Columns of a trace, one row for each step; the rooms' air temperatures follow."""
