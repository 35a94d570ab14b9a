"""Run test rooms of ANSI/ASHRAE 140 through the room model and write docs/bestest.md.

The weather of the test cases is a third party's and is not kept here: give its file.

    python docs/bestest.py WEATHER_FILE            # writes docs/bestest.md
    python docs/bestest.py WEATHER_FILE --print    # prints it

WEATHER_FILE is the typical year of Denver airport, station 725650, as an EPW file, or as a table
with the columns tdb_C, rh_pct, wind_m_s, ghi, dni, dhi and ir_W_m2, comments behind `#`.
"""

from __future__ import annotations

import csv
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from hearthbook.kernel.free_rooms import Holding, Surroundings, free_rooms, never_held
from hearthbook.kernel.parameters import Links, Rooms
from hearthbook.simulate.sun import irradiance_on, irradiance_through_glass
from hearthbook.simulate.weather import SLOTS_PER_HOUR, Weather
from hearthbook.year.builds import Build
from hearthbook.year.room_masses import RADIANT_HEAT, RoomSurface, room_masses

PAGE = Path(__file__).with_name("bestest.md")
SOURCE = (
    "ANSI/ASHRAE 140-2020, cases as re-published with six programs' results in the open Modelica "
    "libraries of IBPSA and LBNL; the standard itself was not seen"
)
Array = NDArray[np.float64]

FLOOR, VOLUME, GLASS = 48.0, 129.6, 12.0  # m², m³, m²
AREAS = {0.0: 21.6, 90.0: 16.2, 270.0: 16.2, 180.0: 9.6}  # m² of wall by the way it looks
AIR_CHANGES = 0.414  # 1/h of air as dense as at the sea
AIR = 1.2 * 1006.0  # J/(m³·K) at the sea
DENSITY_HERE = 0.82  # of that at the sea, 1650 m up
GAINS, GAINS_RADIANT = 200.0, 0.6  # W, share
ABSORBED, EMITTED = 0.6, 0.9
SUN_THROUGH = 0.769  # at right angles
SUN_KEPT = 0.965  # the rest shines out again; ANSI/ASHRAE 140, from memory
WINDOW = 2.10  # W/(m²·K), 2020 edition, from memory
BY_LAYERS = 2.87  # W/(m²·K); 2 x 3 mm of glass, 12 mm of air, films 0.13 and 0.04; derived
INTO_AIR = 0.09  # share of a home's sun that warms furniture and air at once; here nothing does
OUTSIDE_FILM = 25.0  # W/(m²·K), ISO 6946
STEFAN = 5.67e-8  # W/(m²·K⁴)
SIDING = (0.009, 0.14, 530.0, 900.0)
LIGHT_WALL = ((0.012, 0.16, 950.0, 840.0), (0.066, 0.04, 12.0, 840.0), SIDING)
HEAVY_WALL = ((0.1, 0.51, 1400.0, 1000.0), (0.0615, 0.04, 10.0, 1400.0), SIDING)
ROOF = ((0.01, 0.16, 950.0, 840.0), (0.1118, 0.04, 12.0, 840.0), (0.019, 0.14, 530.0, 900.0))
LIGHT_FLOOR = ((0.025, 0.14, 650.0, 1200.0), (1.003, 0.04, 0.0, 0.0))
HEAVY_FLOOR = ((0.08, 1.13, 1400.0, 1000.0), (1.007, 0.04, 0.0, 0.0))


@dataclass(frozen=True)
class Case:
    """One case: whether it is heavy, how it is held, and what six programs found."""

    name: str
    is_heavy: bool
    held: str  # both, setback or free
    found: tuple[tuple[str, str, float, float], ...]  # what, unit, least, most


CASES = (
    Case("600", False, "both", (
        ("heating", "MWh", 3.993, 4.504), ("cooling", "MWh", 5.432, 6.162),
        ("peak heating", "kW", 3.020, 3.359), ("peak cooling", "kW", 5.422, 6.481))),
    Case("640", False, "setback", (
        ("heating", "MWh", 2.403, 2.682), ("cooling", "MWh", 5.237, 5.893),
        ("peak heating", "kW", 4.039, 4.658), ("peak cooling", "kW", 5.365, 6.429))),
    Case("900", True, "both", (
        ("heating", "MWh", 1.379, 1.814), ("cooling", "MWh", 2.267, 2.714),
        ("peak heating", "kW", 2.443, 2.778), ("peak cooling", "kW", 2.556, 3.376))),
    Case("600FF", False, "free", (
        ("warmest hour", "°C", 62.4, 68.4), ("coldest hour", "°C", -13.8, -9.9),
        ("mean", "°C", 24.3, 26.1))),
    Case("900FF", True, "free", (
        ("warmest hour", "°C", 43.3, 46.0), ("coldest hour", "°C", 0.6, 2.2),
        ("mean", "°C", 24.5, 25.7))),
)  # fmt: skip
ACCEPTED = {("600", "heating"): (3.75, 4.98), ("600", "cooling"): (5.00, 6.83),
            ("640", "heating"): (1.58, 3.76), ("640", "cooling"): (4.44, 6.86),
            ("900", "heating"): (1.04, 2.28), ("900", "cooling"): (2.35, 2.60)}  # fmt: skip


def weather_of(path: Path) -> tuple[Weather, Array]:
    """The weather, and the warmth the sky sends down, W/m² by the hour."""
    columns = _epw(path) if path.suffix.lower() == ".epw" else _table(path)
    weather = Weather(
        source=path.name,
        is_generated=False,
        latitude=39.83,
        longitude=-104.65,
        altitude=1650.0,
        utc_offset=-7.0,
        start=datetime(2005, 1, 1, tzinfo=UTC) + timedelta(hours=7),
        outdoor_temperature=columns["tdb_C"],
        relative_humidity=np.clip(columns["rh_pct"] / 100.0, 0.0, 1.0),
        wind_speed=columns["wind_m_s"],
        global_horizontal=columns["ghi"],
        diffuse_horizontal=columns["dhi"],
        direct_normal=columns["dni"],
    )
    return weather, columns["ir_W_m2"]


def _table(path: Path) -> dict[str, Array]:
    lines = [line for line in path.read_text().splitlines() if not line.startswith("#")]
    rows = list(csv.DictReader(lines))
    return {name: np.array([float(row[name]) for row in rows]) for name in rows[0]}


def _epw(path: Path) -> dict[str, Array]:
    places = {"tdb_C": 6, "rh_pct": 8, "ir_W_m2": 12, "ghi": 13, "dni": 14, "dhi": 15,
              "wind_m_s": 21}  # fmt: skip
    rows = list(csv.reader(path.read_text(errors="replace").splitlines()[8:]))
    return {name: np.array([float(row[at]) for row in rows]) for name, at in places.items()}


def _build(layers: tuple[tuple[float, ...], ...]) -> Build:
    return Build(np.array(layers).T, is_usual=False)


def _surfaces(case: Case) -> tuple[tuple[RoomSurface, float | None], ...]:
    """Each surface and the way it looks; None for the floor, 0 up for the roof at 360."""
    wall = _build(HEAVY_WALL if case.is_heavy else LIGHT_WALL)
    roof, floor = _build(ROOF), _build(HEAVY_FLOOR if case.is_heavy else LIGHT_FLOOR)

    def loss(build: Build, area: float, inside: float) -> float:
        return area / (inside + build.resistance + 1.0 / OUTSIDE_FILM)

    walls = [
        (RoomSurface("outside", area, wall, loss(wall, area, 0.13)), way)
        for way, area in AREAS.items()
    ]
    return (
        *walls,
        (RoomSurface("outside", FLOOR, roof, loss(roof, FLOOR, 0.13)), 360.0),
        (RoomSurface("suspended", FLOOR, floor, loss(floor, FLOOR, 0.17)), None),
    )


def _rooms(case: Case, window: float) -> Rooms:
    surfaces = tuple(surface for surface, _ in _surfaces(case))
    air = AIR_CHANGES / 3600.0 * VOLUME * AIR
    whole = sum(surface.loss for surface in surfaces) + GLASS * window + air
    found = room_masses(surfaces, FLOOR, whole)
    columns = {name: np.zeros(1) for name in Rooms._fields}
    columns |= {name: np.array([value]) for name, value in found.items()}
    for part in ("air", "inner", "floor"):
        at_once = INTO_AIR if part == "air" else 0.0
        columns[f"solar_{part}"] = (columns[f"solar_{part}"] - at_once) / (1.0 - INTO_AIR)
    columns["air_capacity"] = np.array([VOLUME * AIR * DENSITY_HERE])  # the room is empty
    columns["air_outside"] = np.array([GLASS * window])
    columns["ventilation"] = np.array([air])
    return Rooms(**columns)


def _slots(hourly: Array) -> Array:
    """Values of quarter-hours, straight from mid-hour to mid-hour."""
    hours = np.arange(hourly.size) + 0.5
    quarters = (np.arange(hourly.size * SLOTS_PER_HOUR) + 0.5) / SLOTS_PER_HOUR
    return np.interp(quarters, hours, hourly, period=float(hourly.size))


def _told(case: Case, weather: Weather, sky: Array, window: float) -> Surroundings:
    outdoor = _slots(weather.outdoor_temperature)
    sky_temperature = (_slots(sky) / STEFAN) ** 0.25 - 273.15
    radiation = 4 * STEFAN * EMITTED * (outdoor + 268.15) ** 3  # between surface and sky
    colder = radiation / OUTSIDE_FILM * (outdoor - sky_temperature)
    beyond, weight = np.zeros_like(outdoor), 0.0
    for surface, way in _surfaces(case):
        if way is None:
            continue
        tilt, seen = (0.0, 1.0) if way == 360.0 else (90.0, 0.5)
        sun = irradiance_on(weather, way % 360.0, tilt)[: outdoor.size]
        own = outdoor + ABSORBED * sun / OUTSIDE_FILM - seen * colder
        beyond, weight = beyond + surface.loss * own, weight + surface.loss
    through = irradiance_through_glass(weather, 180.0, 90.0)[: outdoor.size]
    lost_by_glass = GLASS * window * 0.5 * colder

    def column(values: Array) -> Array:
        return np.ascontiguousarray(values[:, np.newaxis])

    return Surroundings(
        outdoor=column(outdoor),
        outer_beyond=column(beyond / weight),
        ground=column(outdoor),
        wind=np.zeros_like(outdoor),
        solar=column(through * GLASS * SUN_THROUGH * SUN_KEPT),
        convective=column((1 - GAINS_RADIANT) * GAINS - lost_by_glass),
        radiant=column(np.full_like(outdoor, GAINS_RADIANT * GAINS)),
    )


def _holding(case: Case, slots: int) -> Holding:
    free = never_held(slots, 1)
    if case.held == "free":
        return free
    lowest = np.full(slots, 20.0)
    if case.held == "setback":  # 10 °C from 23 to 7 h, rising evenly to 20 °C at 8 h
        hour = (np.arange(slots) + 1.0) / SLOTS_PER_HOUR % 24
        lowest = np.where((hour > 23) | (hour <= 7), 10.0, np.clip(10 * (hour - 6), 10.0, 20.0))
    most = np.full(1, 1e6)
    return Holding(lowest[:, np.newaxis], np.full((slots, 1), 27.0), most, most,
                   free.heating_shares, free.cooling_shares)  # fmt: skip


def run(case: Case, weather: Weather, sky: Array, window: float = WINDOW) -> dict[str, float]:
    """What the room model makes of a case; two years are run and the second counts."""
    told = _told(case, weather, sky, window)
    slots = told.outdoor.shape[0]
    rooms, state = _rooms(case, window), np.full((4, 1), 20.0)
    none = np.zeros(0)
    links = Links(none.astype(np.int64), none.astype(np.int64), none, none)
    for _ in range(2):
        air, power, _ = free_rooms(
            rooms, links, told, _holding(case, slots), state, (0.0, 0.0), 900.0, 60.0
        )
    air, power = (each.reshape(-1, SLOTS_PER_HOUR).mean(axis=1) for each in (air, power))
    return {
        "heating": float(np.maximum(power, 0).sum()) / 1e6,
        "cooling": float(np.maximum(-power, 0).sum()) / 1e6,
        "peak heating": float(power.max()) / 1e3,
        "peak cooling": float(-power.min()) / 1e3,
        "warmest hour": float(air.max()),
        "coldest hour": float(air.min()),
        "mean": float(air.mean()),
    }


def page(path: Path) -> str:
    """The page with every case."""
    weather, sky = weather_of(path)
    return HEAD + "\n".join(_rows(weather, sky)) + "\n"


HEAD = f"""<!-- Written by docs/bestest.py; do not edit. -->

# The room model against ANSI/ASHRAE 140

One room of 48 m² with 12 m² of glass to the south, in the weather of a high plain: light and heavy,
heated, cooled, set back and left alone. The model is the one a home's year is run with: surfaces
reduced to masses, sun by the same sums, steps of a minute. Heavy sun, deep nights and no curtains
ask more of it than a home does.

Source: {SOURCE}.

The weather file is a third party's and is not kept with this project, so no test runs this page;
`python docs/bestest.py WEATHER_FILE` writes it anew. Set for this empty room and otherwise as in a
home: its air stores no more than air does, and no sun warms furniture. From memory: the window's
U-value of the 2020 edition, {WINDOW:.2f} W/(m²·K), and the {1 - SUN_KEPT:.1%} of the sun that
shines out again. What the model leaves out: the outside film is {OUTSIDE_FILM:.0f} W/(m²·K) in any
wind, inside films follow no temperatures, walls and roof see one weighted outdoor temperature (sun
and sky counted), and the loss is exact for heat of which {RADIANT_HEAT:.0%} shines, as radiators
give it, where these cases warm the air.

The middle is half-way between the lowest and the highest of the six programs.

| case | quantity | six programs | here | from their middle | verdict |
| --- | --- | --- | --- | --- | --- |
"""


def _rows(weather: Weather, sky: Array) -> Iterator[str]:
    for case in CASES:
        ours = run(case, weather, sky)
        for what, unit, least, most in case.found:
            value, middle = ours[what], (least + most) / 2
            off = f"{value - middle:+.1f} K" if unit == "°C" else f"{value / middle - 1:+.1%}"
            digits = 1 if unit == "°C" else 2
            verdict = _verdict(value, least, most, ACCEPTED.get((case.name, what)))
            cells = (
                case.name,
                what,
                f"{least:.{digits}f} to {most:.{digits}f} {unit}",
                f"{value:.{digits}f} {unit}",
                off,
                verdict,
            )
            yield "| " + " | ".join(cell.replace("-", "−") for cell in cells) + " |"
    heating = run(CASES[0], weather, sky, BY_LAYERS)["heating"]
    yield ""
    yield (
        f"With {BY_LAYERS:.2f} W/(m²·K), which two panes of clear glass have by their layers, "
        f"heating in case 600 is {heating:.2f} MWh: the window's U-value weighs most."
    )


def _verdict(value: float, least: float, most: float, limits: tuple[float, float] | None) -> str:
    if least <= value <= most:
        return "inside their range"
    if limits is None:
        return "outside their range"
    where = "inside" if limits[0] <= value <= limits[1] else "outside"
    return f"outside their range, {where} the limits of {limits[0]:.2f} to {limits[1]:.2f}"


def main() -> None:
    """Write the page, or print it."""
    words = [word for word in sys.argv[1:] if word != "--print"]
    if len(words) != 1:
        sys.exit(__doc__)
    text = page(Path(words[0]))
    if "--print" in sys.argv:
        print(text)
    else:
        PAGE.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
