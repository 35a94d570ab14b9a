"""A small invented home worked through by hand, against what the design says.

Nothing below calls our physics: every expected figure is plain arithmetic on the same survey.
"""

from __future__ import annotations

import math

import pytest

from hearthbook.design.heat_loss import BillVerdict, HeatLoss, heat_loss
from hearthbook.design.sun import sun_through_windows
from hearthbook.record.building import Building
from hearthbook.record.home import Home

BUILDING = {
    "address": ["The Invented Cottage"],
    "altitude": 180.0,
    "climate": {
        "design_outdoor_temperature": -2.4,
        "design_basis": "invented",
        "reference_altitude": 80.0,
        "annual_mean_temperature": 9.5,
    },
    "storeys": [{"id": "ground", "name": "downstairs", "height": 2.4}],
    "constructions": [
        {
            "id": "wall",
            "name": "timber frame wall",
            "kind": "wall",
            "layers": [
                {"material": "plasterboard", "thickness": "12.5 mm", "conductivity": 0.21},
                {
                    "material": "mineral wool",
                    "thickness": "140 mm",
                    "conductivity": 0.04,
                    "bridge": {"material": "studs", "conductivity": 0.12, "fraction": 0.15},
                },
                {"material": "cavity", "thickness": "50 mm", "is_air": True},
                {"material": "brick", "thickness": "102 mm", "conductivity": 0.77},
            ],
            "evidence": "documented",
        },
        {
            "id": "slab",
            "name": "concrete slab",
            "kind": "ground_floor",
            "layers": [{"material": "foam", "thickness": "50 mm", "conductivity": 0.025}],
            "ground": {
                "exposed_perimeter": 24.0,
                "wall_thickness": "300 mm",
                "soil_conductivity": 1.5,
            },
            "evidence": "documented",
        },
        {"id": "loft", "name": "ceiling", "kind": "ceiling", "u_value": 0.2, "evidence": "seen"},
        {"id": "glass", "name": "window", "kind": "window", "u_value": 1.4, "evidence": "seen"},
        {"id": "door", "name": "door", "kind": "door", "u_value": 1.8, "evidence": "seen"},
        {"id": "inner", "name": "partition", "kind": "wall", "u_value": 1.7, "evidence": "seen"},
    ],
    "unheated_spaces": [{"id": "roof_space", "name": "the loft", "temperature_factor": 0.9}],
    "thermal_bridge_supplement": 0.05,
    "ventilation": {"system": "natural", "air_changes": 0.45, "evidence": "seen"},
    "internal_gains": 250.0,
    "rooms": [
        {
            "id": "day",
            "name": "day room",
            "use": "living",
            "storey": "ground",
            "length": 5.0,
            "width": 4.0,
            "wanted_temperature": 21.0,
            "air_changes": 0.6,
            "elements": [
                {
                    "construction": "wall",
                    "beyond": "outside",
                    "width": 14.0,
                    "openings": [
                        {"construction": "glass", "width": 2.0, "height": 1.2, "count": 2},
                        {"construction": "door", "width": 0.9, "height": 2.0},
                    ],
                },
                {"construction": "slab", "beyond": "ground", "area": 20.0},
                {"construction": "loft", "beyond": "roof_space", "area": 20.0},
                {"construction": "inner", "beyond": "night", "width": 4.0},
            ],
        },
        {
            "id": "night",
            "name": "night room",
            "use": "bedroom",
            "storey": "ground",
            "length": 4.0,
            "width": 4.0,
            "wanted_temperature": 18.0,
            "air_changes": 0.5,
            "elements": [
                {
                    "construction": "wall",
                    "beyond": "outside",
                    "width": 10.0,
                    "openings": [{"construction": "glass", "width": 1.5, "height": 1.2}],
                },
                {"construction": "slab", "beyond": "ground", "area": 16.0},
                {"construction": "loft", "beyond": "roof_space", "area": 16.0},
                {"construction": "inner", "beyond": "day", "width": 4.0},
            ],
        },
    ],
    "fuel_bill": {
        "fuel": "oil",
        "energy": 4000.0,
        "efficiency": 0.85,
        "heating_share": 0.8,
        "degree_days": 2300.0,
    },
}

# outside: −2.4 °C less 0.6 K for 100 m
OUTSIDE = -2.4 - 0.6 * (180 - 80) / 100

# the wall by the combined method: two paths of 85 % and 15 %, then layer by layer
_REST = 0.13 + 0.0125 / 0.21 + 0.18 + 0.102 / 0.77 + 0.04
_WOOL, _STUD = 0.140 / 0.04, 0.140 / 0.12
_UPPER = 1 / (0.85 / (_REST + _WOOL) + 0.15 / (_REST + _STUD))
_LOWER = _REST + 1 / (0.85 / _WOOL + 0.15 / _STUD)
WALL = 1 / ((_UPPER + _LOWER) / 2)

# the slab: B' = 36 / 12 = 3 m, d = 0.3 + 1.5 (0.17 + 2 + 0.04) = 3.615 m, so the floor is thick
SLAB = 1.5 / (0.457 * 3.0 + 3.615)


def _room(inside: float, area: float, wall: float, glass: float, door: float) -> float:
    """Transmission of a room to everything but the other room, W."""
    outward = wall * (WALL + 0.05) + glass * (1.4 + 0.05) + door * (1.8 + 0.05)
    upward = area * (0.2 + 0.05) * 0.9
    downward = area * (SLAB + 0.05) * 1.45 * (inside - 9.5)
    return (outward + upward) * (inside - OUTSIDE) + downward


DAY = _room(21.0, 20.0, 14.0 * 2.4 - 4.8 - 1.8, 4.8, 1.8)
NIGHT = _room(18.0, 16.0, 10.0 * 2.4 - 1.8, 1.8, 0.0)
BETWEEN = 4.0 * 2.4 * 1.7 * 3.0
DAY_AIR = 0.34 * 0.6 * 20.0 * 2.4 * (21.0 - OUTSIDE)
NIGHT_AIR = 0.34 * 0.5 * 16.0 * 2.4 * (18.0 - OUTSIDE)
INSIDE = (21.0 * 20.0 + 18.0 * 16.0) / 36.0
AIR = 0.34 * 0.45 * 36.0 * 2.4 * (INSIDE - OUTSIDE)
TOTAL = DAY + NIGHT + AIR


HOME = Home.model_construct(building=Building.model_validate(BUILDING))


@pytest.fixture(scope="module")
def loss() -> HeatLoss:
    return heat_loss(HOME)


def test_outside_is_colder_at_the_height_of_the_home(loss: HeatLoss) -> None:
    assert loss.outdoor_temperature.value == pytest.approx(-3.0)


def test_the_wall_and_the_slab_have_their_u_values(loss: HeatLoss) -> None:
    wall, *_ = loss.room("day").elements
    slab = next(e for e in loss.room("day").elements if e.kind == "ground_floor")
    assert wall.u_value.value == pytest.approx(WALL, rel=1e-9)
    assert slab.u_value.value == pytest.approx(SLAB, rel=1e-9)
    assert pytest.approx(0.3035, abs=0.0005) == WALL
    assert pytest.approx(0.3008, abs=0.0005) == SLAB


def test_each_room_loses_what_the_hand_calculation_says(loss: HeatLoss) -> None:
    assert loss.room("day").transmission.value == pytest.approx(DAY + BETWEEN, rel=1e-9)
    assert loss.room("night").transmission.value == pytest.approx(NIGHT - BETWEEN, rel=1e-9)
    assert loss.room("day").ventilation.value == pytest.approx(DAY_AIR, rel=1e-9)
    assert loss.room("day").total.value == pytest.approx(DAY + BETWEEN + DAY_AIR, rel=1e-9)
    assert loss.room("night").total.value == pytest.approx(NIGHT - BETWEEN + NIGHT_AIR, rel=1e-9)


def test_the_dwelling_loses_what_the_hand_calculation_says(loss: HeatLoss) -> None:
    assert loss.indoor_temperature.value == pytest.approx(INSIDE)
    assert loss.transmission.value == pytest.approx(DAY + NIGHT, rel=1e-9)
    assert loss.ventilation.value == pytest.approx(AIR, rel=1e-9)
    assert loss.total.value == pytest.approx(TOTAL, rel=1e-9)
    assert loss.coefficient.value == pytest.approx(TOTAL / (INSIDE - OUTSIDE), rel=1e-9)
    assert loss.specific_loss.value == pytest.approx(TOTAL / 36.0, rel=1e-9)
    assert loss.volume.value == pytest.approx(86.4)


def test_the_base_temperature_is_the_rooms_less_gains_over_loss(loss: HeatLoss) -> None:
    expected = INSIDE - 250.0 / (TOTAL / (INSIDE - OUTSIDE))
    assert loss.base_temperature.value == pytest.approx(expected, rel=1e-9)


DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
# a mild maritime year, from memory, moved to a mean of 9.5 °C
USUAL = (4.5, 4.8, 6.6, 9.0, 12.0, 14.9, 16.9, 16.7, 14.3, 10.9, 7.3, 4.9)
MEANS = [mean + 9.5 - sum(USUAL) / 12 for mean in USUAL]


def _degree_days(days: int, mean: float, base: float) -> float:
    return days * (base - mean) / (1 - math.exp(-0.71 * (base - mean)))


def test_the_fuel_bill_agrees_with_the_hand_calculation(loss: HeatLoss) -> None:
    # degree days to the home's own base, by Hitchin's formula month by month, 0.71 per kelvin
    sun = sun_through_windows(HOME).heating_season.value  # its own tests stand elsewhere
    base = INSIDE - (250.0 + sun) / (TOTAL / (INSIDE - OUTSIDE))
    assert 13.0 < base < 15.0
    usual, own = (sum(map(_degree_days, DAYS, MEANS, [to] * 12)) for to in (15.5, base))
    by_bill = 4_000_000.0 * 0.85 * 0.8 / (24.0 * 2300.0 * own / usual)
    assert loss.bill_check is not None
    assert loss.bill_check.coefficient.value == pytest.approx(by_bill, rel=1e-9)
    ratio = by_bill / (TOTAL / (INSIDE - OUTSIDE))
    assert loss.bill_check.ratio.value == pytest.approx(ratio, rel=1e-9)
    assert math.isclose(loss.bill_check.design_loss.value, by_bill * (INSIDE - OUTSIDE))
    assert loss.bill_check.verdict is BillVerdict.WITHIN
