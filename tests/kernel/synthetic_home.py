"""An invented home with round numbers, and invented weather, for tests of the compiled loops."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from hearthbook.kernel.parameters import (
    DRIVER,
    PERFORMANCE_FLOW,
    PERFORMANCE_OUTDOOR,
    PLANT,
    Emitters,
    Links,
    Performance,
    Rooms,
)
from hearthbook.physics.emitter_step import emitter_fit
from hearthbook.physics.moist_air import humidity_ratio
from hearthbook.simulate.drivers import Drivers
from hearthbook.simulate.home_model import HomeModel

__all__ = ["synthetic_drivers", "synthetic_home"]

_ROOM = {
    "air_capacity": 100e3, "inner_capacity": 2.5e6, "outer_capacity": 3e6, "floor_capacity": 1.5e6,
    "air_inner": 120.0, "air_outer": 30.0, "air_floor": 40.0, "inner_outer": 15.0,
    "inner_floor": 20.0, "outer_outside": 12.0, "floor_ground": 2.0, "air_outside": 6.0,
    "inner_neighbour": 1.0, "neighbour_temperature": 18.0, "infiltration": 5.0,
    "ventilation": 1.0, "solar_air": 0.1, "solar_inner": 0.4, "solar_outer": 0.1,
    "solar_floor": 0.4, "radiant_air": 0.0, "radiant_inner": 0.6, "radiant_outer": 0.2,
    "radiant_floor": 0.2, "gain_radiant": 0.5, "solar_factor": 1.0, "gain_factor": 1.0,
    "wanted_shift": 0.0,
}  # fmt: skip
_EMITTER = {
    "conductance": 25.0, "capacity": 50e3, "radiant": 0.3, "into_floor": 0.0,
    "design_flow": 0.025, "least_opening": 0.0, "valve_shift": 0.5, "valve_band": 2.0,
    "valve_hysteresis": 0.4, "valve_lag": 1200.0, "fan_power": 0.0,
}  # fmt: skip
_PLANT = {
    "unit_capacity": 4e4, "flow_capacity": 8e4, "return_capacity": 16e4,
    "coil_loop_capacity": 3e4, "flow_loss": 1, "return_loss": 1, "outdoor_loss": 0.5,
    "pipe_room": 0, "heat_capacity": 4186, "pump_power": 30, "common_resistance": 0.5,
    "has_bypass": 0, "least_flow": 0.08, "start_loss": 2e5, "least_run": 480, "least_rest": 480,
    "standby_power": 8, "crankcase_power": 20, "crankcase_below": 5, "fan_power": 0,
    "quiet_share": 0.7, "lowest_outdoor": -20, "highest_flow": 60, "coil_below_air": 8,
    "reference_heat": 4200, "frost_to_defrost": 1.2, "frost_lift": 4, "frost_capacity_loss": 0.15,
    "defrost_power": 4500, "defrost_from_water": 0.718, "defrost_efficiency": 0.601,
    "defrost_longest": 480, "drip_time": 60, "defrost_lowest_flow": 12, "curve_least": 25,
    "curve_most": 50, "flow_hysteresis": 3, "room_influence": 0, "thermostat_room": 0,
    "thermostat_shift": 1.5, "thermostat_hysteresis": 0.5, "heating_limit": 16,
    "backup_power": 3000, "backup_locked_above": -3, "backup_after": 1800, "backup_shortfall": 4,
    "has_cylinder": 1, "layer_capacity": 31 * 4186.0, "layer_mass": 31, "layer_loss": 0.2,
    "layer_conduction": 1.5, "coil_layers": 5, "coil_effectiveness": 0.5,
    "coil_flow": 0.25, "sensor_layer": 3, "hot_water_set": 50, "hot_water_hysteresis": 6,
    "hot_water_flow_excess": 8, "hot_water_longest": 5400, "hot_water_rest": 1800,
    "draw_temperature": 40, "draw_factor": 1, "hygiene_temperature": 60, "hygiene_hold": 1800,
    "hygiene_by_unit_up_to": 55, "immersion_power": 3000, "leak_stack": 0.02,
    "leak_wind": 0.0375, "efficiency_factor": 1, "flow_shift": 0,
}  # fmt: skip
_SLOTS_A_DAY = 96


def synthetic_home(rooms: int = 10, **plant: float) -> HomeModel:
    """A home of equal rooms in a row, each with one radiator.

    Args:
        rooms: how many.
        plant: fields of `PLANT` that differ from the usual ones.
    """
    number = np.arange(rooms)
    fit = emitter_fit(1200.0, 1.3)
    emitter = {**_EMITTER, "linear": fit.linear, "quarter": fit.quarter, "half": fit.half}
    outdoor, flow = np.meshgrid(PERFORMANCE_OUTDOOR, PERFORMANCE_FLOW, indexing="ij")
    most = np.clip(rooms * (600.0 + 12.0 * (outdoor - 2.0) - 2.0 * (flow - 35.0)), 1500.0, 1e5)
    doors = np.arange(rooms - 1)
    return HomeModel(
        rooms=Rooms(**{name: np.full(rooms, value) for name, value in _ROOM.items()}),
        links=Links(doors, doors + 1, np.full(rooms - 1, 10.0), np.full(rooms - 1, 15.0)),
        emitters=Emitters(
            room=number, **{name: np.full(rooms, value) for name, value in emitter.items()}
        ),
        performance=Performance(
            most, np.full_like(most, 0.5), most * 0.3, np.full_like(most, 0.52)
        ),
        plant=_plant({"design_flow": 0.025 * rooms, "cylinder_room": rooms // 2, **plant}),
        glazing=(),
        room_ids=tuple(f"room_{place}" for place in number),
        room_names=tuple(f"Room {place}" for place in number),
        emitter_ids=tuple(f"radiator_{place}" for place in number),
    )


def _plant(values: dict[str, float]) -> NDArray[Any]:
    plant = np.zeros(1, PLANT)
    for name, value in {**_PLANT, **values}.items():
        plant[name] = value
    return plant


def synthetic_drivers(rooms: int = 10, days: int = 365, colder: float = 0.0) -> Drivers:
    """Weather of smooth waves, two showers in the morning and a bath at night.

    Args:
        rooms: of the home.
        days: from the first of January.
        colder: K.
    """
    count = days * _SLOTS_A_DAY
    day = np.arange(count + 1) / _SLOTS_A_DAY
    season = 10.0 - 6.5 * np.cos(2 * np.pi * (day - 20) / 365) - colder
    slots = np.zeros(count + 1, DRIVER)
    slots["outdoor"] = (
        season + 3 * np.sin(2 * np.pi * (day - 0.4)) + 3 * np.sin(2 * np.pi * day / 9.3)
    )
    slots["humidity"] = humidity_ratio(slots["outdoor"], 0.85)
    slots["wind"], slots["ground"], slots["cold_water"] = 4.0, 10.0, 10.0
    slots["curve_flow"] = np.clip(42.0 - slots["outdoor"], 20.0, 50.0)
    slots["outdoor_mean"] = season
    slots["heating_allowed"] = slots["hot_water_allowed"] = 1.0
    slots["price"] = 0.28 / 3.6e6
    slots["day"] = np.minimum(day.astype(int), days - 1)
    slots["hygiene_due"][8 + np.arange(0, days, 7) * _SLOTS_A_DAY] = 1.0
    hour = day[:-1] * 24 % 24
    sun = np.clip(np.sin((hour - 6) / 12 * np.pi), 0.0, None) * 100.0
    return Drivers(
        slots=slots,
        solar=np.outer(sun, np.ones(rooms)),
        gains=np.full((count, rooms), 30.0),
        wanted=np.full((count, rooms), 20.0),
        draws=_draws(days),
        has_prices=True,
    )


def _draws(days: int) -> NDArray[np.float64]:
    """Kilograms in each minute, each draw five minutes long."""
    draws = np.zeros((days, 1440))
    for hour, mass in ((7.0, 40.0), (7.5, 40.0), (12.0, 6.0), (18.0, 20.0), (21.0, 30.0)):
        first = int(hour * 60)
        draws[:, first : first + 5] = mass / 5
    return draws.ravel()
