"""A home's arrays as one draw of what is uncertain would have them."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from hearthbook.design.heat_loss import RoomLoss
from hearthbook.design.results import Design
from hearthbook.design.room_surfaces import mirrored, surfaces
from hearthbook.kernel.parameters import Links, Rooms
from hearthbook.record.home import Home
from hearthbook.record.parts import Evidence
from hearthbook.simulate.home_model import HomeModel
from hearthbook.year.uncertainties import Draw

__all__ = ["Grounds", "grounds_of", "perturbed"]

_Array = NDArray[np.float64]

_STEP, _STEADY = 60.0, 0.45  # s, and the largest share of a time constant a step is left to be
_LEAST_FACTOR, _MOST_FACTOR = 0.1, 10.0
_ROUNDS = 8  # of the secant; it is within 1e-6 after five


@dataclass(frozen=True)
class Grounds:
    """What must be known of a home, beside its arrays, to perturb it.

    Attributes:
        assumed: share of each room's loss through fabric that is only assumed.
        fabric_share: share of the home's loss that passes the fabric; the rest is outside air.
        flow_per_kelvin: K by which the curve rises for each K of room.
        excess: K of mean water above the rooms, mean over the season's heat.
        exponent: of the emitters.
    """

    assumed: _Array
    fabric_share: float
    flow_per_kelvin: float
    excess: float
    exponent: float


def grounds_of(design: Design) -> Grounds:
    """What perturbing a home rests on."""
    loss, curve = design.heat_loss, design.curve
    whole = loss.transmission.value + loss.ventilation.value
    rooms = curve.true_curve.room_temperature
    half_drop = design.emitters.drop.value / 4  # half of the drop at half of the load
    return Grounds(
        assumed=np.array([_assumed_share(design.home, each) for each in loss.rooms]),
        fabric_share=float(np.clip(loss.transmission.value / whole, 0.0, 1.0)),
        flow_per_kelvin=curve.room_influence_mild.value,
        excess=max(curve.mean_flow.value - half_drop - rooms, 1.0),
        exponent=curve.exponent.value,
    )


def _assumed_share(home: Home, each: RoomLoss) -> float:
    """By what passes them, of the surfaces to anywhere but other rooms."""
    known = assumed = 0.0
    rooms = {room.id for room in home.building.rooms}
    found = (*surfaces(home, each.room), *mirrored(home, each.room))
    for surface, element in zip(found, each.elements, strict=False):  # listed bridges come last
        if surface.beyond in rooms:
            continue
        if surface.construction.evidence is Evidence.ASSUMED:
            assumed += abs(element.coefficient.value)
        else:
            known += abs(element.coefficient.value)
    return assumed / (assumed + known) if assumed + known > 0 else 0.0


def perturbed(model: HomeModel, draw: Draw, grounds: Grounds) -> HomeModel:
    """A home as a draw has it; the draw in which nothing differs gives the same arrays.

    Assumes:
        Whoever commissions the home sets the curve by how warm the rooms become, so the curve
        follows what the home loses, and how warm its rooms are kept.
    """
    fabric = draw.known_fabric + grounds.assumed * (draw.assumed_fabric - draw.known_fabric)
    loss = grounds.fabric_share * float(np.mean(fabric))
    loss += (1.0 - grounds.fabric_share) * draw.ventilation
    plant = model.plant.copy()
    plant["efficiency_factor"] *= draw.efficiency
    plant["draw_factor"] *= draw.hot_water
    plant["flow_shift"] += draw.wanted * grounds.flow_per_kelvin
    plant["flow_shift"] += grounds.excess * (loss ** (1.0 / grounds.exponent) - 1.0)
    return replace(model, rooms=_rooms(model, draw, fabric), plant=plant)


def _rooms(model: HomeModel, draw: Draw, fabric: _Array) -> Rooms:
    rooms = model.rooms
    factor = _chain_factor(rooms, fabric)
    changed = rooms._replace(
        inner_outer=rooms.inner_outer * factor,
        outer_outside=rooms.outer_outside * factor,
        floor_ground=rooms.floor_ground * factor,
        air_outside=rooms.air_outside * fabric,
        inner_neighbour=rooms.inner_neighbour * fabric,
        infiltration=rooms.infiltration * draw.ventilation,
        ventilation=rooms.ventilation * draw.ventilation,
        solar_factor=rooms.solar_factor * draw.solar,
        gain_factor=rooms.gain_factor * draw.gains,
        wanted_shift=rooms.wanted_shift + draw.wanted,
    )
    inner, outer, floor = _least_capacities(changed, model.links)
    return changed._replace(
        inner_capacity=np.maximum(rooms.inner_capacity * draw.mass, inner),
        outer_capacity=np.maximum(rooms.outer_capacity * draw.mass, outer),
        floor_capacity=np.maximum(rooms.floor_capacity * draw.mass, floor),
    )


def _chain_factor(rooms: Rooms, wanted: _Array) -> _Array:
    """The factor on the fabric's inner ways that multiplies its whole loss by another.

    The films on the surfaces stay as they are, so the two differ.
    """
    if np.all(wanted == 1.0):
        return np.ones_like(wanted)
    whole = _through_fabric(rooms, np.ones_like(wanted))
    target = whole * wanted
    before, now = np.ones_like(wanted), wanted.copy()
    missed = whole - target
    for _ in range(_ROUNDS):
        left = _through_fabric(rooms, now) - target
        slope = np.where(np.abs(left - missed) > 0, left - missed, 1.0)
        step = np.where(left == 0.0, 0.0, left * (now - before) / slope)
        before, missed = now, left
        now = np.clip(now - step, _LEAST_FACTOR, _MOST_FACTOR)
    return now


def _through_fabric(rooms: Rooms, factor: _Array) -> _Array:
    """W lost for each kelvin through walls, roof and floor, with their inner ways multiplied."""
    between, out, down = (
        ways * factor for ways in (rooms.inner_outer, rooms.outer_outside, rooms.floor_ground)
    )
    count = factor.size
    sums, given = np.zeros((count, 3, 3)), np.zeros((count, 3))
    sums[:, 0, 0] = rooms.air_inner + between + rooms.inner_floor
    sums[:, 1, 1] = rooms.air_outer + between + out
    sums[:, 2, 2] = rooms.air_floor + rooms.inner_floor + down
    sums[:, 0, 1] = sums[:, 1, 0] = -between
    sums[:, 0, 2] = sums[:, 2, 0] = -rooms.inner_floor
    given[:, 0], given[:, 1], given[:, 2] = rooms.air_inner, rooms.air_outer, rooms.air_floor
    for mass in range(3):  # a mass a room does not have is tied to nothing
        sums[:, mass, mass] = np.where(sums[:, mass, mass] > 0, sums[:, mass, mass], 1.0)
    temperatures = np.linalg.solve(sums, given[:, :, None])[:, :, 0]
    lost: _Array = out * temperatures[:, 1] + down * temperatures[:, 2]
    return lost


def _least_capacities(rooms: Rooms, links: Links) -> tuple[_Array, _Array, _Array]:
    """J/K below which a mass could not be stepped through minutes."""
    walls = np.zeros_like(rooms.air_inner)
    for ends in (links.first, links.second):
        np.add.at(walls, ends, links.wall)
    inner = rooms.air_inner + rooms.inner_outer + rooms.inner_floor + rooms.inner_neighbour + walls
    outer = rooms.air_outer + rooms.inner_outer + rooms.outer_outside
    floor = rooms.air_floor + rooms.inner_floor + rooms.floor_ground
    share = _STEP / _STEADY
    return inner * share, outer * share, floor * share
