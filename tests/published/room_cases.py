"""The test rooms of VDI 6007-1 run through the room model, and how far it lands from them."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from hearthbook.kernel.free_rooms import Holding, Surroundings, free_rooms, never_held
from hearthbook.kernel.parameters import Links, Rooms
from hearthbook.physics.surface_nodes import Condensed, without_surfaces

__all__ = ["Deviation", "deviations", "room_cases"]

FILE = Path(__file__).parent / "rooms" / "vdi_6007_1.toml"
DAYS = 60
BLIND_FROM, BLIND_LETS_PASS = 100.0, 0.15  # W/m², share
HOUR, STEP = 3600.0, 60.0
AIR_CAPACITY = 1.0  # J/K; the guideline's air stores nothing

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Deviation:
    """How far one case lands from the printed values.

    Attributes:
        case: its number.
        what: the room and its day.
        unit: K or W.
        largest: largest difference of the 72 hours.
        mean: root of the mean square.
        within: what the guideline lets pass.
        hours_beyond: hours that differ by more.
    """

    case: int
    what: str
    unit: str
    largest: float
    mean: float
    within: float
    hours_beyond: int


@cache
def room_cases() -> dict[str, Any]:
    """The file of cases."""
    return tomllib.loads(FILE.read_text(encoding="utf-8"))


def _network(case: dict[str, Any]) -> Condensed:
    """Air, inner mass and outer mass after both surfaces, inner and outer, were taken out."""
    outer_area, inner_area = sum(case["outer_areas"]), case["inner_area"]
    square = np.zeros((5, 5))
    for one, other, value in (
        (0, 3, case["inner_convection"] * inner_area),
        (0, 4, case["outer_convection"] * outer_area),
        (3, 4, case["radiation"] * min(outer_area, inner_area)),
        (1, 3, 1.0 / case["inner_surface_to_mass"]),
        (2, 4, 1.0 / case["outer_surface_to_mass"]),
    ):
        square[one, other] = square[other, one] = value
    return without_surfaces(square, 2)


def _rooms(case: dict[str, Any], network: Condensed, sun_on_outer: float) -> Rooms:
    columns = {name: np.zeros(1) for name in Rooms._fields}
    outer_area, inner_area = sum(case["outer_areas"]), case["inner_area"]
    shine = np.array([inner_area, outer_area]) / (inner_area + outer_area)
    sun = np.array([1.0 - sun_on_outer, sun_on_outer])
    shares, between = np.asarray(network.shares), np.asarray(network.conductances)
    radiant, solar = shine @ shares, (1.0 - case["sun_into_air"]) * (sun @ shares)
    outside = case["outer_mass_to_outside"] + 1.0 / case["outside_film"]
    values = {
        "air_capacity": AIR_CAPACITY,
        "inner_capacity": case["inner_capacity"],
        "outer_capacity": case["outer_capacity"],
        "floor_capacity": 1.0,
        "air_inner": between[0, 1],
        "air_outer": between[0, 2],
        "inner_outer": between[1, 2],
        "outer_outside": 1.0 / outside,
        "solar_air": solar[0] + case["sun_into_air"],
        "solar_inner": solar[1],
        "solar_outer": solar[2],
        "radiant_air": radiant[0],
        "radiant_inner": radiant[1],
        "radiant_outer": radiant[2],
    }
    return Rooms(**{**columns, **{name: np.array([value]) for name, value in values.items()}})


def _sun(case: dict[str, Any]) -> tuple[Array, float]:
    """Sun through all windows, and the share of it on the outer wall's inside.

    What a window lets in falls on all surfaces by their areas but not on its own wall. One share
    serves the whole day: the day's.
    """
    if "window_sun" not in case:
        return np.zeros(24), 0.0
    sun = np.array(case["window_sun"])
    open_share = np.where(sun > BLIND_FROM, BLIND_LETS_PASS, 1.0)
    through = sun * open_share * np.array(case["window_areas"])[:, np.newaxis]
    others = sum(case["outer_areas"]) - np.array(case["outer_areas"])
    on_outer = others / (others + case["inner_area"])
    return through.sum(axis=0), float(on_outer @ through.sum(axis=1) / through.sum())


def _beyond(case: dict[str, Any]) -> Array:
    """The temperature outside that acts on the wall."""
    outdoor = np.array(case["outdoor"])
    if "wall_weights" not in case:
        return outdoor
    sky = np.zeros(24)
    walls, windows = np.zeros((1, 24)), np.zeros((1, 24))
    if "sky" in case:
        sky_temperature = (np.array(case["sky"]) / (0.93 * 5.67e-8)) ** 0.25 - 273.15
        sky = (sky_temperature - outdoor) * 5.0 / 25.0
        walls = sky + np.array(case["wall_sun"]) * 0.7 / 25.0
        shut = np.where(np.array(case["window_sun"]) > BLIND_FROM, 1.0, 0.0)
        windows = sky * (1.0 - shut)
    above = np.array(case["wall_weights"]) @ walls + np.array(case["window_weights"]) @ windows
    ground = case.get("ground_weight", 0.0)
    return np.asarray((1.0 - ground) * outdoor + above + ground * case.get("ground", 0.0))


def _told(case: dict[str, Any], sun: Array) -> Surroundings:
    def days(hours: Any) -> Array:
        return np.tile(np.asarray(hours, dtype=float), DAYS)[:, np.newaxis]

    nothing = np.zeros(24)
    return Surroundings(
        outdoor=days(case["outdoor"]),
        outer_beyond=days(_beyond(case)),
        ground=days(nothing),
        wind=np.zeros(24 * DAYS),
        solar=days(sun),
        convective=days(case.get("convective", nothing)),
        radiant=days(case.get("radiant", nothing)),
    )


def _holding(case: dict[str, Any], network: Condensed) -> Holding:
    free = never_held(24 * DAYS, 1)
    if "held" not in case:
        return free
    most = np.array([case.get("most", 1e6)])
    held = np.tile(np.array(case["held"]), DAYS)[:, np.newaxis]
    cooling = free.cooling_shares
    if "most" in case:  # a cooled ceiling: on the inner surface
        cooling = np.append(np.asarray(network.shares)[0], 0.0)[:, np.newaxis]
    return Holding(held, held, most, most, free.heating_shares, cooling)


def hourly(case: dict[str, Any], step: float = STEP) -> tuple[Array, Array]:
    """Air temperature and power of heater or cooler in each hour of 60 days."""
    network = _network(case)
    sun, on_outer = _sun(case)
    none = np.zeros(0)
    links = Links(none.astype(np.int64), none.astype(np.int64), none, none)
    air, power, _ = free_rooms(
        _rooms(case, network, on_outer),
        links,
        _told(case, sun),
        _holding(case, network),
        np.full((4, 1), case["start"]),
        (0.0, 0.0),
        HOUR,
        step,
    )
    return air[:, 0], power[:, 0]


def deviations() -> Iterator[Deviation]:
    """Every quantity of every case."""
    for case in room_cases()["case"]:
        air, power = hourly(case)
        held, within = "held" in case, case["within"]
        sign = -1.0 if case["number"] == 6 else 1.0
        if not held or "most" in case:
            name = "_temperature" if held else ""
            yield _deviation(case, "K", air, name, 0.15 if held else within)
        if held:
            yield _deviation(case, "W", sign * power, "", within)


def _deviation(case: dict[str, Any], unit: str, ours: Array, name: str, within: float) -> Deviation:
    printed = np.array([case[f"day{day}{name}"] for day in (1, 10, 60)])
    found = np.array([ours[24 * (day - 1) : 24 * day] for day in (1, 10, 60)])
    differences = np.abs(found - printed)
    return Deviation(
        case=case["number"],
        what=case["what"],
        unit=unit,
        largest=float(differences.max()),
        mean=float(np.sqrt(np.mean(differences**2))),
        within=within,
        hours_beyond=int(np.sum(differences > within)),
    )
