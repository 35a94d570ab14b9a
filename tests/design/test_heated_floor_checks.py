"""Heated floors over leaky ground floors, and fed with water too hot for them."""

from __future__ import annotations

from typing import Any

import pytest

from hearthbook.design.checks import shortfalls
from hearthbook.design.results import design_home
from hearthbook.design.shortfall import Shortfall
from hearthbook.documents.figures import book_of
from hearthbook.record.building import Layer
from hearthbook.record.home import Home

_DOWN, _HOT = "Heat into the ground", "Water too hot"


def _with_floor(home: Home, **changes: Any) -> Home:
    constructions = tuple(
        c.model_copy(update=changes) if c.id == "garden_room_floor" else c
        for c in home.building.constructions
    )
    building = home.building.model_copy(update={"constructions": constructions})
    return home.model_copy(update={"building": building})


def _foam(home: Home, thickness: float) -> tuple[Layer, ...]:
    (floor,) = (c for c in home.building.constructions if c.id == "garden_room_floor")
    return tuple(
        layer.model_copy(update={"thickness": thickness}) if layer.material == "rigid foam"
        else layer
        for layer in floor.layers
    )  # fmt: skip


def _about(home: Home, start: str) -> list[Shortfall]:
    design = design_home(home)
    found = [one for one in shortfalls(design) if one.subject.startswith(start)]
    assert {name for one in found for name in one.figures} <= set(book_of(design))
    return found


# By hand: the other layers resist 0.1 + 0.065/1.2 + 0.1/1.7 = 0.213 m²·K/W, the surface 0.17;
# foam of λ 0.022 then makes 2.0 m²·K/W (0.5 W/(m²·K)) at 35.6 mm. 0.5: common practice, no source
@pytest.mark.parametrize(("millimetres", "is_told"), [(1, True), (34, True), (37, False),
                                                      (120, False)])  # fmt: skip
def test_a_heated_floor_over_a_leaky_ground_floor_is_told(
    well_done_home: Home, millimetres: int, is_told: bool
) -> None:
    layers = _foam(well_done_home, millimetres / 1000)
    assert bool(_about(_with_floor(well_done_home, layers=layers), _DOWN)) is is_told


@pytest.mark.parametrize(("u_value", "is_told"), [(0.7, True), (0.25, False)])
def test_a_floor_known_by_its_u_value_alone_is_held_against_it(
    well_done_home: Home, u_value: float, is_told: bool
) -> None:
    home = _with_floor(well_done_home, layers=(), ground=None, u_value=u_value)
    assert bool(_about(home, _DOWN)) is is_told


def test_the_leaky_floor_of_a_room_with_radiators_is_not(well_done_home: Home) -> None:
    assert _about(well_done_home, _DOWN) == []  # the slab of 1974 lies under its radiators


# 45 °C at the manifold: makers' usual limit, from memory.
@pytest.mark.parametrize(("flow", "is_told"), [(45.0, False), (46.0, True), (55.0, True)])
def test_water_too_hot_for_a_heated_floor_is_told(
    well_done_home: Home, flow: float, is_told: bool
) -> None:
    plant = well_done_home.plant.model_copy(update={"design_flow_temperature": flow})
    found = _about(well_done_home.model_copy(update={"plant": plant}), _HOT)
    assert bool(found) is is_told
    assert all("mixing valve" in one.advice for one in found)


def test_a_home_without_heated_floors_may_have_hotter_water(faulty_home: Home) -> None:
    assert _about(faulty_home, _HOT) == []  # designed for 50 °C, radiators only
