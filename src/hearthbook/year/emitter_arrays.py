"""A home's emitters as arrays for the year, each number from the design's schedule."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from hearthbook.design.emitters import EmitterResult
from hearthbook.design.results import Design
from hearthbook.documents.figures import Basis, KeyFigure
from hearthbook.errors import OutOfRange
from hearthbook.kernel.parameters import Emitters, Rooms
from hearthbook.physics.emitter_step import emitter_fit, fitted_output
from hearthbook.physics.emitters import RATED_LOGARITHMIC_EXCESS
from hearthbook.record.emitters import Underfloor
from hearthbook.year.circulating_water import set_flow, water_density, water_heat
from hearthbook.year.emitter_build import STEEL_HEAT, fan_power, metal_mass, radiant_share
from hearthbook.year.emitter_valves import Valve, valve_of

__all__ = [
    "EmitterArrays",
    "FittedFloors",
    "emitter_arrays",
    "floors_to_rooms",
    "on_floors",
    "water_to_floor",
]

_FLOOR_SURFACE = 10.8  # W/(m²·K); EN 1264-2, heat transfer at the floor's surface
_TIGHTEST = 0.85  # of a floor's conductance to its room that its pipes may need; derived
_LEAST_EXCESS = 5.0  # K; where the water cools along an emitter as it does near design, derived
_NO_OUTPUT = 1e-3  # W; an emitter covered altogether still needs a number, derived

_Array = NDArray[np.float64]


@dataclass(frozen=True)
class EmitterArrays:
    """Emitters as arrays.

    Attributes:
        emitters: for the kernel.
        emitter_ids: of the record, in the arrays' order.
        floor_conductance: W/K from water to room by EN 1264 of those in floors, else 0.
        metal: J/K of each one's metal, contained in `emitters.capacity`.
        assumptions: what the record does not hold.
    """

    emitters: Emitters
    emitter_ids: tuple[str, ...]
    floor_conductance: _Array
    metal: _Array
    assumptions: tuple[KeyFigure, ...]


@dataclass(frozen=True)
class _One:
    """One emitter's numbers, named as in `kernel.parameters.Emitters`."""

    numbers: dict[str, float]
    floor_conductance: float
    metal: float
    figures: tuple[KeyFigure, ...]


def emitter_arrays(design: Design, room_ids: tuple[str, ...]) -> EmitterArrays:
    """The emitters of a home.

    Floors are given the surface that EN 1264 counts with; `on_floors` fits them to the rooms.

    Args:
        design: of the home.
        room_ids: ids of the rooms in the order of their arrays.
    """
    results = design.emitters.emitters
    ones = [_one(design, one, room_ids) for one in results]
    columns = {
        field: np.array([one.numbers[field] for one in ones], dtype=float)
        for field in Emitters._fields
    }
    rooms = columns.pop("room").astype(np.int64)
    figures = tuple(figure for one in ones for figure in one.figures)
    return EmitterArrays(
        emitters=Emitters(room=rooms, **columns),
        emitter_ids=tuple(one.emitter.id for one in results),
        floor_conductance=np.array([one.floor_conductance for one in ones], dtype=float),
        metal=np.array([one.metal for one in ones], dtype=float),
        assumptions=tuple(figure for figure in figures if figure.basis is Basis.ASSUMED),
    )


@dataclass(frozen=True)
class FittedFloors:
    """Emitters in floors and the floors they lie in, fitted to each other.

    Attributes:
        arrays: the emitters, those in floors with their conductance to the floor's mass.
        rooms: with floors that pass what their pipes give.
        widened: indices of rooms whose floor was let pass more to its air than the room's own
            reduction has it.
    """

    arrays: EmitterArrays
    rooms: Rooms
    widened: tuple[int, ...]


def on_floors(arrays: EmitterArrays, rooms: Rooms) -> FittedFloors:
    """The emitters with those in floors fitted to the floors of the rooms as modelled.

    A heated floor's mass lies closer to its surface than a plain floor's. Where the floor as
    modelled would pass too little, its conductance to the air is raised.

    Args:
        arrays: from `emitter_arrays`.
        rooms: as modelled.
    """
    emitters = arrays.emitters
    in_floor = emitters.into_floor > 0
    through = np.zeros(rooms.air_floor.size)
    np.add.at(through, emitters.room[in_floor], arrays.floor_conductance[in_floor])
    missing = np.maximum(through / _TIGHTEST - floors_to_rooms(rooms), 0.0)
    fitted = rooms._replace(air_floor=rooms.air_floor + missing)
    to_rooms = floors_to_rooms(fitted)
    linear, conductance = emitters.linear.copy(), emitters.conductance.copy()
    for index in np.flatnonzero(in_floor):
        room = emitters.room[index]
        share = arrays.floor_conductance[index] / through[room]
        linear[index] = water_to_floor(
            arrays.floor_conductance[index], float(to_rooms[room]) * share
        )
        conductance[index] = linear[index]
    new = emitters._replace(linear=linear, conductance=conductance)
    widened = tuple(int(room) for room in np.flatnonzero(missing))
    return FittedFloors(replace(arrays, emitters=new), fitted, widened)


def floors_to_rooms(rooms: Rooms) -> _Array:
    """W/K from each room's floor to its air, straight and by way of the inner fabric.

    Args:
        rooms: as modelled.

    Source:
        Conductances in series and side by side. Derived.
    """
    by_fabric = rooms.inner_floor * rooms.air_inner / (rooms.inner_floor + rooms.air_inner)
    return np.asarray(rooms.air_floor + by_fabric)


def water_to_floor(water_to_room: float, floor_to_room: float) -> float:
    """Conductance from the water to the floor's mass, in W/K.

    Args:
        water_to_room: W/K, from the characteristic of EN 1264-2.
        floor_to_room: W/K from the floor's mass to the room.

    Raises:
        OutOfRange: the floor passes less heat to its room than the pipes are to give.

    Source:
        Two resistances in series. Derived.

    Example:
        >>> round(water_to_floor(50.0, 100.0), 6)
        100.0
    """
    if not 0.0 < water_to_room < floor_to_room:
        raise OutOfRange(
            f"a heated floor gives {water_to_room:.1f} W/K by EN 1264, and the floor as modelled "
            f"passes {floor_to_room:.1f} W/K to its room. Check the area with pipes against the "
            f"room's floor area."
        )
    return 1.0 / (1.0 / water_to_room - 1.0 / floor_to_room)


def _one(design: Design, result: EmitterResult, room_ids: tuple[str, ...]) -> _One:
    emitter = result.emitter
    wanted = design.emitters.room(result.room_id).temperature
    valve = valve_of(emitter, design.home.controls, wanted)
    metal, radiant, fan = metal_mass(result), radiant_share(emitter), fan_power(emitter)
    heat, mass = water_heat(design), water_density(design)
    own_water = result.water_content.value + _tail_water(design, emitter.id)
    capacity = own_water * mass.value * heat.value + metal.value * STEEL_HEAT
    output, floor_conductance = _output(result)
    figures = (result.rated_output, result.exponent, result.water_content, metal, radiant)
    return _One(
        numbers={
            "room": float(room_ids.index(result.room_id)),
            **output,
            "capacity": capacity,
            "radiant": radiant.value,
            "into_floor": float(isinstance(emitter, Underfloor)),
            "design_flow": _flow(design, emitter.id) * mass.value,
            **_valve_numbers(valve),
            "fan_power": 0.0 if fan is None else fan.value,
        },
        floor_conductance=floor_conductance,
        metal=metal.value * STEEL_HEAT,
        figures=(*figures, *valve.figures, *(() if fan is None else (fan,))),
    )


def _output(result: EmitterResult) -> tuple[dict[str, float], float]:
    """Coefficients of the output, and W/K from water to room of a heated floor.

    The kernel's mean excess is the logarithmic one, so a rating at 50 K of arithmetic mean is
    taken at its logarithmic mean of 49.83 K, as the design takes it.
    """
    known = result.characteristic
    rated = max(known.rated_output, _NO_OUTPUT)
    if isinstance(result.emitter, Underfloor):
        through = rated / RATED_LOGARITHMIC_EXCESS
        surface = _FLOOR_SURFACE * result.emitter.area
        linear = water_to_floor(min(through, _TIGHTEST * surface), surface)
        return {"linear": linear, "quarter": 0.0, "half": 0.0, "conductance": linear}, through
    fit = emitter_fit(rated, known.exponent, RATED_LOGARITHMIC_EXCESS)
    excess = max(result.mean_excess.value, _LEAST_EXCESS)
    conductance = float(np.sum(fitted_output(excess, *fit))) / excess
    return {**fit._asdict(), "conductance": conductance}, 0.0


def _valve_numbers(valve: Valve) -> dict[str, float]:
    return {
        "least_opening": valve.least_opening,
        "valve_shift": valve.shift,
        "valve_band": valve.band,
        "valve_hysteresis": valve.hysteresis,
        "valve_lag": valve.lag,
    }


def _flow(design: Design, emitter_id: str) -> float:
    """Its share of what the pump is set to, in m³/s, as the design balances the circuits."""
    flows = {circuit.emitter_id: circuit.flow.value for circuit in design.hydraulics.emitters}
    system = sum(flows.values())
    share = flows[emitter_id] / system if system > 0.0 else 1.0 / len(flows)
    return share * set_flow(design).value


def _tail_water(design: Design, emitter_id: str) -> float:
    """Water in an emitter's own pipes, which stands still with it when its valve is shut."""
    return sum(part.value for part in _tail_volumes(design, emitter_id))


def _tail_volumes(design: Design, emitter_id: str) -> tuple[KeyFigure, ...]:
    """The design's figure of the water in an emitter's own pipes; nothing without a tail."""
    name = f"emitters.{emitter_id}.tail.volume"
    return tuple(part.volume for part in design.volume.parts if part.volume.name == name)
