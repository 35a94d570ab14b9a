"""The demo homes made ready for the year, once for all tests that run them."""

from __future__ import annotations

import functools
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np

from hearthbook.design.results import Design, design_home
from hearthbook.readers.record_file import read_home
from hearthbook.simulate.drivers import Drivers
from hearthbook.simulate.home_model import HomeModel
from hearthbook.simulate.run import Run, run_year
from hearthbook.simulate.weather import Weather
from hearthbook.year.model import year_model
from hearthbook.year.schedules import build_drivers
from hearthbook.year.weather_of_home import weather_of_home

__all__ = ["DEMOS", "Ready", "ready", "steady_drivers", "year_of"]

DEMOS = ("well_done", "with_faults")
_EXAMPLES = Path(__file__).parents[2] / "examples"
_DAY = 96  # slots


@dataclass(frozen=True, eq=False)
class Ready:
    """A home, its weather and what the loop is told."""

    design: Design
    model: HomeModel
    weather: Weather
    drivers: Drivers


@functools.cache
def ready(name: str) -> Ready:
    """A demo home and a generated year of its place."""
    design = design_home(read_home(_EXAMPLES / name / "home.yaml"))
    model = year_model(design).home
    weather = weather_of_home(design.home)
    return Ready(design, model, weather, build_drivers(design, weather, model.glazing))


@functools.cache
def year_of(name: str, step: float = 60.0) -> Run:
    """Its year."""
    home = ready(name)
    return run_year(home.model, home.drivers, step=step)


def steady_drivers(
    home: Ready, days: int, outdoor: float, humidity: float, curve_flow: float
) -> Drivers:
    """Weather that never changes, no sun, nobody at home, no hot water; heating always allowed.

    Args:
        home: whose drivers are taken and changed.
        days: how many.
        outdoor: °C.
        humidity: kg of vapour in a kg of dry air.
        curve_flow: °C asked for.
    """
    count = days * _DAY
    slots = home.drivers.slots[: count + 1].copy()
    told = {
        "outdoor": outdoor, "humidity": humidity, "outdoor_mean": outdoor, "wind": 4.0,
        "curve_flow": curve_flow, "heating_allowed": 1.0, "hot_water_allowed": 0.0,
        "hygiene_due": 0.0, "quiet": 0.0,
    }  # fmt: skip
    for field, value in told.items():
        slots[field] = value
    slots["day"] = np.minimum(np.arange(count + 1) // _DAY, days - 1)
    return replace(
        home.drivers, slots=slots, solar=home.drivers.solar[:count] * 0.0,
        gains=home.drivers.gains[:count] * 0.0, wanted=home.drivers.wanted[:count],
        draws=home.drivers.draws[: count * 15] * 0.0,
    )  # fmt: skip
