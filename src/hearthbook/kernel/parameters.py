"""What the compiled loops are given: a home's rooms, emitters, plant and weather as arrays.

Everything is SI with °C. `R` rooms, `E` emitters, `L` links between rooms, `K` slots of weather.
A slot is a quarter of an hour: what a person, the sun or a clock decides holds for one slot.
In the loop over many homes the arrays of rooms and emitters have one more, innermost, axis `H`.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from hearthbook.units import Array

__all__ = [
    "CYLINDER_LAYERS",
    "DRIVER",
    "PERFORMANCE_FLOW",
    "PERFORMANCE_OUTDOOR",
    "PLANT",
    "SLOT_SECONDS",
    "Emitters",
    "Links",
    "Performance",
    "Rooms",
]

SLOT_SECONDS = 900.0
CYLINDER_LAYERS = 8
PERFORMANCE_OUTDOOR = np.arange(-30.0, 46.0, 1.0)  # °C; rows of the unit's map
PERFORMANCE_FLOW = np.arange(20.0, 76.0, 5.0)  # °C; columns of the unit's map


class Rooms(NamedTuple):
    """Rooms: one air node and three of fabric each; every array has length R.

    Attributes:
        air_capacity: J/K of air and light things that follow it at once.
        inner_capacity: J/K of inner leaves, partitions and furniture.
        outer_capacity: J/K of the outer part of outside walls and roof.
        floor_capacity: J/K of the floor: a slab, or the upper half of a floor between storeys.
        air_inner: W/K from air to inner fabric.
        air_outer: W/K from air to the outer part; 0 where all heat passes the inner part.
        air_floor: W/K from air to floor.
        inner_outer: W/K from inner to outer fabric.
        inner_floor: W/K by radiation between inner fabric and floor.
        outer_outside: W/K from outer fabric to outdoors.
        floor_ground: W/K from floor to the ground below it.
        air_outside: W/K straight to outdoors: windows, doors, thermal bridges, unheated spaces.
        inner_neighbour: W/K to a neighbour.
        neighbour_temperature: °C of the neighbour's side.
        infiltration: W/K of air leaking in when the driving force is 1 (see `air_leakage`).
        ventilation: W/K of fresh air moved by fans, less what is recovered.
        solar_air: share of the sun's warmth that the air takes at once.
        solar_inner: share that inner fabric takes.
        solar_outer: share that the outer part takes.
        solar_floor: share that the floor takes; the four add up to 1.
        radiant_air: share of radiant warmth that the air takes at once, off surfaces too thin to
            store it.
        radiant_inner: share that inner fabric takes.
        radiant_outer: share that the outer part takes.
        radiant_floor: share that the floor takes; the four add up to 1.
        gain_radiant: share of people's and appliances' warmth that is radiant.
        solar_factor: multiplies the sun through this room's windows.
        gain_factor: multiplies people's and appliances' warmth.
        wanted_shift: K added to the wanted temperature.
    """

    air_capacity: Array
    inner_capacity: Array
    outer_capacity: Array
    floor_capacity: Array
    air_inner: Array
    air_outer: Array
    air_floor: Array
    inner_outer: Array
    inner_floor: Array
    outer_outside: Array
    floor_ground: Array
    air_outside: Array
    inner_neighbour: Array
    neighbour_temperature: Array
    infiltration: Array
    ventilation: Array
    solar_air: Array
    solar_inner: Array
    solar_outer: Array
    solar_floor: Array
    radiant_air: Array
    radiant_inner: Array
    radiant_outer: Array
    radiant_floor: Array
    gain_radiant: Array
    solar_factor: Array
    gain_factor: Array
    wanted_shift: Array


class Links(NamedTuple):
    """Ways heat passes between rooms; every array has length L.

    Attributes:
        first: index of one room.
        second: index of the other.
        wall: W/K between their inner fabrics.
        air: W/K by air through a door that stands open, averaged over how long it does.
    """

    first: NDArray[np.int64]
    second: NDArray[np.int64]
    wall: Array
    air: Array


class Emitters(NamedTuple):
    """Emitters and their valves; every array has length E.

    Output is excess · (linear + quarter · excess^¼ + half · excess^½): see `emitter_fit`.

    Attributes:
        room: index of the room it heats.
        linear: W/K.
        quarter: W/K^1.25.
        half: W/K^1.5.
        conductance: W/K near its design excess, which decides how its water cools on its way.
        capacity: J/K of its water and metal.
        radiant: share of its output that is radiant.
        into_floor: 1 where it warms the floor's mass (underfloor), else 0.
        design_flow: kg/s with its valve open and the pump at its design point.
        least_opening: share of the flow left when its valve has shut; 1 without a valve that acts.
        valve_shift: K between the room's wanted temperature and the middle of the valve's band.
        valve_band: K over which the valve goes from open to shut.
        valve_hysteresis: K by which closing and opening lie apart.
        valve_lag: s, time constant of the head.
        fan_power: W drawn by a fan while warm water passes.
    """

    room: NDArray[np.int64]
    linear: Array
    quarter: Array
    half: Array
    conductance: Array
    capacity: Array
    radiant: Array
    into_floor: Array
    design_flow: Array
    least_opening: Array
    valve_shift: Array
    valve_band: Array
    valve_hysteresis: Array
    valve_lag: Array
    fan_power: Array


class Performance(NamedTuple):
    """The unit's map on `PERFORMANCE_OUTDOOR` by `PERFORMANCE_FLOW`; arrays [76, 12].

    Attributes:
        most: W, output with the compressor at its most, clear of frost.
        most_share: share of Carnot's efficiency then (`heat_pump.relative_efficiency`).
        least: W, output at the compressor's least.
        least_share: share of Carnot's efficiency then.
    """

    most: Array
    most_share: Array
    least: Array
    least_share: Array


PLANT = np.dtype(
    [
        # the water
        ("unit_capacity", "f8"),  # J/K of the unit's water and exchanger
        ("flow_capacity", "f8"),  # J/K of flow pipes, and of an added volume on the flow
        ("return_capacity", "f8"),  # J/K of return pipes, and of an added volume on the return
        ("coil_loop_capacity", "f8"),  # J/K of the pipes that only hot-water making warms
        ("flow_loss", "f8"),  # W/K from flow pipes into the home
        ("return_loss", "f8"),  # W/K from return pipes into the home
        ("outdoor_loss", "f8"),  # W/K from pipes out of doors
        ("pipe_room", "i8"),  # index of the room that gets what pipes lose
        ("heat_capacity", "f8"),  # J/(kg·K) of the heating water
        ("pump_power", "f8"),  # W while it circulates
        ("common_resistance", "f8"),  # share of the pump's head lost before the emitters part, 0..1
        ("has_bypass", "f8"),  # 1 where water may pass by the emitters (buffer or bypass valve)
        ("least_flow", "f8"),  # kg/s below which the unit stops
        ("design_flow", "f8"),  # kg/s with every emitter open
        # the unit
        ("start_loss", "f8"),  # J of heat missing at each start, while the circuit settles
        ("least_run", "f8"),  # s
        ("least_rest", "f8"),  # s
        ("standby_power", "f8"),  # W, always
        ("crankcase_power", "f8"),  # W while the compressor rests and it is cold outside
        ("crankcase_below", "f8"),  # °C outside
        ("fan_power", "f8"),  # W while it runs, where the efficiencies do not count it; else 0
        ("quiet_share", "f8"),  # share of the most output left in quiet hours
        ("lowest_outdoor", "f8"),  # °C below which the compressor stays off
        ("highest_flow", "f8"),  # °C it can make
        # frost
        ("coil_below_air", "f8"),  # K at the most output, clear of frost
        ("reference_heat", "f8"),  # W taken from the air at that output
        ("frost_to_defrost", "f8"),  # kg of frost that calls for a defrost
        ("frost_lift", "f8"),  # K the coil falls further when that much has grown
        ("frost_capacity_loss", "f8"),  # share of output lost then
        ("defrost_power", "f8"),  # W of heat brought to the coil while it defrosts
        ("defrost_from_water", "f8"),  # share of that taken from the water; the rest is electricity
        ("defrost_efficiency", "f8"),  # share of that heat that melts frost
        ("defrost_longest", "f8"),  # s
        ("drip_time", "f8"),  # s of rest while meltwater drains
        ("defrost_lowest_flow", "f8"),  # °C of water below which it gives up
        # controls
        ("curve_least", "f8"),  # °C
        ("curve_most", "f8"),  # °C
        ("flow_hysteresis", "f8"),  # K above the target at which it stops, and below it starts
        ("room_influence", "f8"),  # K of flow per K of room
        ("thermostat_room", "i8"),  # index of the room, -1 for none
        ("thermostat_shift", "f8"),  # K above the room's wanted temperature at which heating stops
        ("thermostat_hysteresis", "f8"),  # K
        ("heating_limit", "f8"),  # °C of outdoor mean above which heating rests
        ("backup_power", "f8"),  # W, 0 without
        ("backup_locked_above", "f8"),  # °C outside
        ("backup_after", "f8"),  # s of flow short of the target
        ("backup_shortfall", "f8"),  # K
        # hot water
        ("has_cylinder", "f8"),  # 1 or 0
        ("layer_capacity", "f8"),  # J/K of one layer
        ("layer_mass", "f8"),  # kg of one layer
        ("layer_loss", "f8"),  # W/K of one layer to the room it stands in
        ("layer_conduction", "f8"),  # W/K between neighbouring layers
        ("cylinder_room", "i8"),  # index of the room, -1 where it stands in the cold
        ("coil_layers", "i8"),  # number of layers from the bottom that the coil reaches
        ("coil_effectiveness", "f8"),  # share of the flow-layer difference given at coil_flow
        ("coil_flow", "f8"),  # kg/s
        ("sensor_layer", "i8"),  # 0 at the bottom
        ("hot_water_set", "f8"),  # °C
        ("hot_water_hysteresis", "f8"),  # K
        ("hot_water_flow_excess", "f8"),  # K of flow above the sensor's layer
        ("hot_water_longest", "f8"),  # s before the rooms get their turn
        ("hot_water_rest", "f8"),  # s of heating between
        ("draw_temperature", "f8"),  # °C at the tap, mixed
        ("draw_factor", "f8"),  # multiplies what is drawn
        ("hygiene_temperature", "f8"),  # °C
        ("hygiene_hold", "f8"),  # s
        ("hygiene_by_unit_up_to", "f8"),  # °C the unit makes before the immersion heater goes on
        ("immersion_power", "f8"),  # W, 0 without
        # the envelope as a whole
        ("leak_stack", "f8"),  # 1/K, of the driving force of leaks: see `air_leakage`
        ("leak_wind", "f8"),  # s²/m²
        ("efficiency_factor", "f8"),  # multiplies the unit's efficiency; usually 1
        ("flow_shift", "f8"),  # K added to the curve
    ],
    align=True,
)  # fmt: skip
"""One home's plant: one record with these fields."""

DRIVER = np.dtype(
    [
        ("outdoor", "f8"),  # °C at the start of the slot; the next slot's is its end
        ("humidity", "f8"),  # kg of vapour in a kg of dry air at the start of the slot
        ("wind", "f8"),  # m/s, mean of the slot
        ("ground", "f8"),  # °C below the floor
        ("curve_flow", "f8"),  # °C asked by the curve for the averaged outdoor temperature
        ("outdoor_mean", "f8"),  # °C, averaged as the controller averages it
        ("heating_allowed", "f8"),  # 1 or 0
        ("hot_water_allowed", "f8"),  # 1 or 0
        ("hygiene_due", "f8"),  # 1 in the slot in which a hygiene run begins
        ("quiet", "f8"),  # 1 in quiet hours
        ("cold_water", "f8"),  # °C of the mains
        ("price", "f8"),  # money per J
        ("day", "i8"),  # day of the run, 0 first, by local calendar
    ],
    align=True,
)  # fmt: skip
"""One slot: K + 1 records, the last only for the end of the last slot."""
