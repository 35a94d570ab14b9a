"""The heat loss of a home, room by room and as a whole, at the design temperature outside."""

from __future__ import annotations

from dataclasses import dataclass

from hearthbook.design.bill_check import BillCheck, BillVerdict, bill_check, measured_ratio
from hearthbook.design.design_conditions import Conditions, design_conditions, outdoor_temperature
from hearthbook.design.room_elements import ElementLoss, element_losses
from hearthbook.design.ventilation import (
    AirChange,
    dwelling_air,
    dwelling_volume,
    room_air,
    ventilation_figures,
)
from hearthbook.documents.figures import KeyFigure, calculated
from hearthbook.errors import NotFound
from hearthbook.physics import heat_loss as physics
from hearthbook.physics.degree_days import base_temperature
from hearthbook.record.building import Room
from hearthbook.record.home import Home
from hearthbook.survey import answers

__all__ = [
    "BillCheck",
    "BillVerdict",
    "ElementLoss",
    "HeatLoss",
    "RoomLoss",
    "heat_loss",
    "outdoor_temperature",
]

_STANDARD = "EN 12831-1:2017"


@dataclass(frozen=True)
class RoomLoss:
    """What one room loses at design.

    Attributes:
        room: of the record.
        temperature: it is designed for.
        floor_area: inside.
        volume: inside.
        elements: what passes through each surface.
        transmission: sum of the elements.
        ventilation: heat its outside air takes up.
        reheat: extra for warming up after a setback.
        total: what its emitters must give.
    """

    room: Room
    temperature: KeyFigure
    floor_area: KeyFigure
    volume: KeyFigure
    elements: tuple[ElementLoss, ...]
    transmission: KeyFigure
    ventilation: KeyFigure
    reheat: KeyFigure
    total: KeyFigure


@dataclass(frozen=True)
class HeatLoss:
    """What a home loses at design.

    Attributes:
        outdoor_temperature: at design, corrected for altitude.
        annual_mean_temperature: outside, over the year.
        rooms: each room.
        transmission: of the dwelling; heat between its rooms cancels, heat to neighbours counts.
        ventilation: of the dwelling; less than the rooms' sum.
        total: what the heat pump must give; reheat included where it is asked for.
        coefficient: heat for each kelvin between inside and outside, without reheat.
        base_temperature: outdoor temperature at which gains alone keep the home warm.
        indoor_temperature: mean of the rooms, weighted by floor area.
        floor_area: of all rooms.
        volume: heated volume.
        specific_loss: total for each square metre.
        by_element: loss by kind of element, ventilation last, largest kinds first before it.
        bill_check: the fuel bill's word on it; None where there is no bill.
        measured_ratio: the measured coefficient over the computed one; None where none was
            measured.
    """

    outdoor_temperature: KeyFigure
    annual_mean_temperature: KeyFigure
    rooms: tuple[RoomLoss, ...]
    transmission: KeyFigure
    ventilation: KeyFigure
    total: KeyFigure
    coefficient: KeyFigure
    base_temperature: KeyFigure
    indoor_temperature: KeyFigure
    floor_area: KeyFigure
    volume: KeyFigure
    specific_loss: KeyFigure
    by_element: tuple[tuple[str, KeyFigure], ...]
    bill_check: BillCheck | None
    measured_ratio: KeyFigure | None = None

    def room(self, room_id: str) -> RoomLoss:
        """The loss of the room with this id.

        Raises:
            NotFound: no room has it.
        """
        for each in self.rooms:
            if each.room.id == room_id:
                return each
        raise NotFound(f"no room is called '{room_id}'.")


def heat_loss(home: Home) -> HeatLoss:
    """The heat loss of a home.

    Raises:
        Incomplete: a fact is missing that nobody may assume.
        Conflict: two statements contradict each other, such as openings larger than their wall.
        OutOfRange: a room is not warmer than outside.
    """
    conditions = design_conditions(home)
    airs = tuple(room_air(home, room) for room in home.building.rooms)
    rooms = tuple(
        _room_loss(home, room, each, conditions)
        for room, each in zip(home.building.rooms, airs, strict=True)
    )
    area, volume = _floor_area(rooms), dwelling_volume(home)
    indoor = answers.indoor_temperature(home)
    air = dwelling_air(home, airs, volume, area)
    _, ventilation = ventilation_figures(
        "heat_loss", "dwelling", air.effective, volume, (indoor, conditions.outdoor)
    )
    transmission = _dwelling_transmission(rooms)
    total = _total(transmission, ventilation, rooms)
    coefficient = _coefficient(transmission, ventilation, (indoor, conditions.outdoor))
    base = _base_temperature(home, indoor, coefficient, area)
    return HeatLoss(
        outdoor_temperature=conditions.outdoor,
        annual_mean_temperature=conditions.annual_mean,
        rooms=rooms,
        transmission=transmission,
        ventilation=ventilation,
        total=total,
        coefficient=coefficient,
        base_temperature=base,
        indoor_temperature=indoor,
        floor_area=area,
        volume=volume,
        specific_loss=_specific_loss(total, area),
        by_element=(*_by_element(rooms), ("ventilation", ventilation)),
        bill_check=bill_check(home, coefficient, (indoor, conditions.outdoor), base),
        measured_ratio=measured_ratio(home, coefficient),
    )


def _room_loss(home: Home, room: Room, air: AirChange, conditions: Conditions) -> RoomLoss:
    name = f"heat_loss.rooms.{room.id}"
    temperature = conditions.rooms[room.id]
    area, volume = answers.floor_area(room), answers.room_volume(home, room)
    elements = element_losses(home, room, conditions)
    transmission = _sum(
        f"{name}.transmission",
        f"transmission of the {room.name}",
        tuple(element.loss for element in elements),
    )
    _, ventilation = ventilation_figures(
        name, room.name, air.effective, volume, (temperature, conditions.outdoor)
    )
    reheat = _reheat(home, room, area)
    total = _sum(
        f"{name}.total", f"heat loss of the {room.name}", (transmission, ventilation, reheat)
    )
    return RoomLoss(
        room, temperature, area, volume, elements, transmission, ventilation, reheat, total
    )


def _sum(name: str, label: str, parts: tuple[KeyFigure, ...]) -> KeyFigure:
    return calculated(
        name,
        label,
        sum(part.value for part in parts),
        "W",
        formula=" + ".join("Φ" for _ in parts) if len(parts) <= 3 else "Σ Φ",
        inputs=parts,
        source=f"{_STANDARD}, design heat loss",
    )


def _reheat(home: Home, room: Room, area: KeyFigure) -> KeyFigure:
    per_area = answers.reheat_power_per_area(home)
    return calculated(
        f"heat_loss.rooms.{room.id}.reheat",
        f"reheat of the {room.name}",
        float(physics.reheat_power(area.value, per_area.value)),
        "W",
        formula="floor area × reheat power for each m²",
        inputs=(area, per_area),
        source=f"{_STANDARD}, additional heating-up power; 0 for steady weather-led heating",
    )


def _floor_area(rooms: tuple[RoomLoss, ...]) -> KeyFigure:
    areas = tuple(room.floor_area for room in rooms)
    return calculated(
        "heat_loss.floor_area",
        "heated floor area",
        sum(area.value for area in areas),
        "m²",
        formula="Σ rooms",
        inputs=areas,
        source="geometry",
    )


def _dwelling_transmission(rooms: tuple[RoomLoss, ...]) -> KeyFigure:
    """What leaves the dwelling; heat from room to room stays in it."""
    return _sum(
        "heat_loss.transmission",
        "transmission of the dwelling",
        tuple(
            element.loss
            for room in rooms
            for element in room.elements
            if element.kind != "between_rooms"
        ),
    )


def _total(
    transmission: KeyFigure, ventilation: KeyFigure, rooms: tuple[RoomLoss, ...]
) -> KeyFigure:
    reheat = tuple(room.reheat for room in rooms if room.reheat.value > 0)
    return _sum(
        "heat_loss.total", "heat loss of the dwelling", (transmission, ventilation, *reheat)
    )


def _coefficient(
    transmission: KeyFigure, ventilation: KeyFigure, temperatures: tuple[KeyFigure, KeyFigure]
) -> KeyFigure:
    indoor, outdoor = temperatures
    return calculated(
        "heat_loss.coefficient",
        "heat the dwelling loses for each kelvin, H",
        (transmission.value + ventilation.value) / (indoor.value - outdoor.value),
        "W/K",
        formula="(transmission + ventilation) / (inside − outside)",
        inputs=(transmission, ventilation, indoor, outdoor),
        source=f"{_STANDARD}",
    )


def _base_temperature(
    home: Home, indoor: KeyFigure, coefficient: KeyFigure, area: KeyFigure
) -> KeyFigure:
    gains = answers.internal_gains(home, area)
    return calculated(
        "heat_loss.base_temperature",
        "outdoor temperature at which gains alone keep the home warm",
        float(base_temperature(indoor.value, gains.value, coefficient.value)),
        "°C",
        formula="inside − gains / H",
        inputs=(indoor, gains, coefficient),
        source="balance of gains and losses; derived",
        note="sun is not counted; on bright days heating rests at a lower outdoor temperature",
    )


def _specific_loss(total: KeyFigure, area: KeyFigure) -> KeyFigure:
    return calculated(
        "heat_loss.specific_loss",
        "heat loss for each square metre of floor",
        total.value / area.value,
        "W/m²",
        formula="heat loss / floor area",
        inputs=(total, area),
        source="common practice, no source: 25–45 new, 45–70 insulated, 70–110 solid walls",
    )


def _by_element(rooms: tuple[RoomLoss, ...]) -> tuple[tuple[str, KeyFigure], ...]:
    kinds: dict[str, list[KeyFigure]] = {}
    for room in rooms:
        for element in room.elements:
            if element.kind != "between_rooms":
                kinds.setdefault(element.kind, []).append(element.loss)
    sums = [
        (
            kind,
            _sum(
                f"heat_loss.by_element.{kind}", f"loss by {kind.replace('_', ' ')}", tuple(losses)
            ),
        )
        for kind, losses in kinds.items()
    ]
    return tuple(sorted(sums, key=lambda pair: -pair[1].value))
