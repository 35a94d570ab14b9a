"""How much outside air each room and the whole dwelling take at design."""

from __future__ import annotations

from dataclasses import dataclass

from hearthbook.documents.figures import Basis, KeyFigure, Working, assumed, calculated, given
from hearthbook.physics import heat_loss as physics
from hearthbook.record.building import Room, VentilationSystem
from hearthbook.record.home import Home
from hearthbook.survey import air, answers

__all__ = ["AirChange", "dwelling_air", "dwelling_volume", "room_air", "ventilation_figures"]

_STANDARD = "EN 12831-1:2017"
_SYSTEM_SHARE = 0.6  # of air changes given as one number; 0.3 of 0.5 an hour is usual
_EXTRACT_SOURCE = (
    "British standard assessment procedure for dwellings, extract ventilation; from memory"
)


@dataclass(frozen=True)
class AirChange:
    """Outside air of a room or the dwelling.

    Attributes:
        rate: volumes of outside air in an hour.
        flue: the part of it an open flue draws; None where there is none.
        effective: volumes at the outdoor temperature that cost as much heat.
    """

    rate: KeyFigure
    flue: KeyFigure | None
    effective: KeyFigure


def room_air(home: Home, room: Room) -> AirChange:
    """Outside air of a room: as written down, or the larger of leakage and fresh-air need."""
    name = f"heat_loss.rooms.{room.id}.air_changes"
    rate = air.given_air_changes(home, room)
    if rate is not None:
        moved = _moved_of_given(home, name, room.name, rate)
        return AirChange(rate, None, _after_recovery(home, name, room.name, rate, moved))
    rate = _usual_room_rate(home, room, name)
    if not room.has_open_flue:
        return AirChange(rate, None, _after_recovery(home, name, room.name, rate))
    flue = air.open_flue_air_changes(room)
    whole = calculated(
        f"{name}.with_flue",
        f"air changes of the {room.name}, flue included",
        rate.value + flue.value,
        "1/h",
        formula="air changes + flue",
        inputs=(rate, flue),
        source="common practice, no source",
    )
    return AirChange(whole, flue, _after_recovery(home, name, room.name, whole))


def _usual_room_rate(home: Home, room: Room, name: str) -> KeyFigure:
    ventilation = home.building.ventilation
    is_mechanical = ventilation.system in {
        VentilationSystem.CONTINUOUS_EXTRACT,
        VentilationSystem.BALANCED_HEAT_RECOVERY,
    }
    if not is_mechanical and ventilation.air_changes_at_50_pascals is None:
        return air.usual_air_changes(home, room)
    leakage = _room_leakage(home, room, name)
    if is_mechanical:
        return _with_system(home, name, f"the {room.name}", leakage)
    hygiene = air.hygiene_air_changes(room)
    return calculated(
        f"{name}.rate",
        f"air changes of the {room.name}",
        max(leakage.value, hygiene.value),
        "1/h",
        formula="the larger of leakage and fresh-air need",
        inputs=(leakage, hygiene),
        source=f"{_STANDARD}, ventilation of a room",
    )


def _room_leakage(home: Home, room: Room, name: str) -> KeyFigure:
    tightness, sheltering = air.air_changes_at_50_pascals(home), air.sheltering(home)
    label = f"leakage of the {room.name}"
    if all(element.beyond != "outside" for element in room.elements):
        return calculated(
            f"{name}.leakage",
            label,
            0.0,
            "1/h",
            formula="0: no surface to outside",
            inputs=(),
            source=f"{_STANDARD}",
        )
    windward = air.windward()
    return calculated(
        f"{name}.leakage",
        label,
        float(physics.room_infiltration(tightness.value, sheltering.value, windward.value)),
        "1/h",
        formula="air changes at 50 Pa × share × windward",
        inputs=(tightness, sheltering, windward),
        source=f"{_STANDARD}, leakage of a room; from memory",
    )


def _with_system(home: Home, name: str, whose: str, leakage: KeyFigure) -> KeyFigure:
    """Leakage together with a system that moves air all the time."""
    supply = air.supply_air_changes(home)
    if home.building.ventilation.system is VentilationSystem.BALANCED_HEAT_RECOVERY:
        value = leakage.value + supply.value
        formula, source = "leakage + system", f"{_STANDARD}, balanced ventilation"
    else:
        value = float(physics.air_changes_with_extract(leakage.value, supply.value))
        formula = "system, or leakage + half the system where leakage exceeds half of it"
        source = _EXTRACT_SOURCE
    return calculated(
        f"{name}.rate",
        f"air changes of {whose}",
        value,
        "1/h",
        formula=formula,
        inputs=(leakage, supply),
        source=source,
    )


def _moved_of_given(home: Home, name: str, whose: str, rate: KeyFigure) -> KeyFigure:
    """What the system moves of air changes given as one number: the rest leaks past it."""
    if home.building.ventilation.supply_air_changes is not None:
        return air.supply_air_changes(home)
    share = assumed(
        "assumptions.system_share",
        "share of the air changes that passes the ventilation system",
        _SYSTEM_SHARE,
        "%",
        source="common practice, no source",
        note="not answered: building.ventilation.supply_air_changes; leakage gives nothing back",
    )
    return calculated(
        f"{name}.system",
        f"air changes of the {whose} that pass the system",
        share.value * rate.value,
        "1/h",
        formula="share · air changes",
        inputs=(share, rate),
        source="common practice, no source",
    )


def _after_recovery(
    home: Home, name: str, whose: str, rate: KeyFigure, moved: KeyFigure | None = None
) -> KeyFigure:
    if home.building.ventilation.system is not VentilationSystem.BALANCED_HEAT_RECOVERY:
        return rate
    supply, recovery = moved or air.supply_air_changes(home), air.heat_recovery(home)
    return calculated(
        name,
        f"air changes of the {whose} that cost heat",
        float(physics.air_changes_after_recovery(rate.value, supply.value, recovery.value)),
        "1/h",
        formula="air changes − the system's part × share given back",
        inputs=(rate, supply, recovery),
        source=f"{_STANDARD}, heat recovery",
    )


def dwelling_volume(home: Home) -> KeyFigure:
    """The heated volume: as written down, or the rooms' sum."""
    place = "building.heated_volume"
    if home.building.heated_volume is not None:
        return given(place, "heated volume", home.building.heated_volume, "m³", place=place)
    rooms = tuple(answers.room_volume(home, room) for room in home.building.rooms)
    return calculated(
        "heat_loss.volume",
        "heated volume",
        sum(room.value for room in rooms),
        "m³",
        formula="Σ rooms",
        inputs=rooms,
        source="geometry",
    )


def dwelling_air(
    home: Home, rooms: tuple[AirChange, ...], volume: KeyFigure, area: KeyFigure
) -> AirChange:
    """Outside air of the dwelling, which is less than the rooms' sum.

    Air that enters the windward rooms leaves through the others, so no wind airs all at once.
    """
    name = "heat_loss.air_changes"
    ventilation = home.building.ventilation
    if ventilation.air_changes is not None:
        place = "building.ventilation.air_changes"
        basis = answers.basis_of_property(ventilation.evidence)
        label = "air changes of the dwelling"
        rate = given(place, label, ventilation.air_changes, "1/h", place=place, basis=basis)
        moved = _moved_of_given(home, name, "dwelling", rate)
        return AirChange(rate, None, _after_recovery(home, name, "dwelling", rate, moved))
    rate = _dwelling_rate(home, rooms, volume, area)
    flue = _dwelling_flue(home, rooms, volume)
    if flue is not None:
        rate = calculated(
            f"{name}.with_flue",
            "air changes of the dwelling, flues included",
            rate.value + flue.value,
            "1/h",
            formula="air changes + flues",
            inputs=(rate, flue),
            source="common practice, no source",
        )
    return AirChange(rate, flue, _after_recovery(home, name, "dwelling", rate))


def _dwelling_rate(
    home: Home, rooms: tuple[AirChange, ...], volume: KeyFigure, area: KeyFigure
) -> KeyFigure:
    ventilation = home.building.ventilation
    name = "heat_loss.air_changes"
    is_mechanical = ventilation.system in {
        VentilationSystem.CONTINUOUS_EXTRACT,
        VentilationSystem.BALANCED_HEAT_RECOVERY,
    }
    if not is_mechanical and ventilation.air_changes_at_50_pascals is None:
        return _part_of_rooms(home, rooms, volume, area)
    tightness, sheltering = air.air_changes_at_50_pascals(home), air.sheltering(home)
    leakage = calculated(
        f"{name}.leakage",
        "leakage of the dwelling",
        float(physics.infiltration(tightness.value, sheltering.value)),
        "1/h",
        formula="air changes at 50 Pa × share",
        inputs=(tightness, sheltering),
        source=f"{_STANDARD}, leakage of a dwelling; from memory",
    )
    if is_mechanical:
        return _with_system(home, name, "the dwelling", leakage)
    hygiene = _dwelling_hygiene(volume, area)
    return calculated(
        f"{name}.rate",
        "air changes of the dwelling",
        max(leakage.value, hygiene.value),
        "1/h",
        formula="the larger of leakage and fresh-air need",
        inputs=(leakage, hygiene),
        source=f"{_STANDARD}, ventilation of a dwelling",
    )


def _dwelling_hygiene(volume: KeyFigure, area: KeyFigure) -> KeyFigure:
    flow = air.dwelling_hygiene_flow()
    return calculated(
        "heat_loss.air_changes.hygiene",
        "least air changes of the dwelling for fresh air",
        flow.value * area.value * 3600 / volume.value,
        "1/h",
        formula="flow for each m² × floor area / volume",
        inputs=(flow, area, volume),
        source=flow.working.source,
    )


def _part_of_rooms(
    home: Home, rooms: tuple[AirChange, ...], volume: KeyFigure, area: KeyFigure
) -> KeyFigure:
    """Half of the rooms' air, yet no less than fresh air needs and no more than the sum."""
    volumes = tuple(answers.room_volume(home, room) for room in home.building.rooms)
    total = sum(
        (each.rate.value - (each.flue.value if each.flue else 0.0)) * room.value
        for each, room in zip(rooms, volumes, strict=True)
    )
    sum_of_rooms = calculated(
        "heat_loss.air_changes.sum_of_rooms",
        "air changes, were all rooms aired at once",
        total / volume.value,
        "1/h",
        formula="Σ (air changes without flues × volume) / volume of the dwelling",
        inputs=(*(each.rate for each in rooms), *volumes, volume),
        source="geometry",
    )
    share, hygiene = air.dwelling_share_of_rooms(), _dwelling_hygiene(volume, area)
    half = share.value * sum_of_rooms.value
    return calculated(
        "heat_loss.air_changes.rate",
        "air changes of the dwelling",
        min(max(half, hygiene.value), sum_of_rooms.value),
        "1/h",
        formula="the larger of share × sum of rooms and fresh-air need, at most the sum",
        inputs=(share, sum_of_rooms, hygiene),
        source=f"{_STANDARD}, ventilation of a dwelling; from memory",
    )


def _dwelling_flue(home: Home, rooms: tuple[AirChange, ...], volume: KeyFigure) -> KeyFigure | None:
    pairs = [
        (each.flue, answers.room_volume(home, room))
        for each, room in zip(rooms, home.building.rooms, strict=True)
        if each.flue is not None
    ]
    if not pairs:
        return None
    return calculated(
        "heat_loss.air_changes.flues",
        "air changes of the dwelling drawn by flues",
        sum(flue.value * room.value for flue, room in pairs) / volume.value,
        "1/h",
        formula="Σ (flue × volume of its room) / volume of the dwelling",
        inputs=(*(figure for pair in pairs for figure in pair), volume),
        source="common practice, no source",
    )


def ventilation_figures(
    name: str,
    label: str,
    air_changes: KeyFigure,
    volume: KeyFigure,
    temperatures: tuple[KeyFigure, KeyFigure],
) -> tuple[KeyFigure, KeyFigure]:
    """Heat the air takes up: for each kelvin, and at design.

    Args:
        name: the figures' common beginning.
        label: whose air it is.
        air_changes: volumes in an hour that cost heat.
        volume: of the room or dwelling.
        temperatures: inside and outside.
    """
    inside, outside = temperatures
    capacity = KeyFigure(
        "assumptions.air_heat_capacity",
        "heat to warm a cubic metre of air by a kelvin, Wh",
        physics.AIR_HEAT_CAPACITY / 3600,
        "",
        Basis.DOCUMENTED,
        Working(source=f"{_STANDARD}, 0.34 Wh/(m³·K); from memory"),
    )
    coefficient = calculated(
        f"{name}.ventilation_coefficient",
        f"ventilation of the {label}, heat for each kelvin",
        float(physics.ventilation_coefficient(volume.value, air_changes.value)),
        "W/K",
        formula="0.34 · air changes · volume",
        inputs=(capacity, air_changes, volume),
        source=f"{_STANDARD}, ventilation",
    )
    loss = calculated(
        f"{name}.ventilation",
        f"ventilation of the {label}",
        float(physics.heat_flow(coefficient.value, inside.value, outside.value)),
        "W",
        formula="H · (inside − outside)",
        inputs=(coefficient, inside, outside),
        source=f"{_STANDARD}, ventilation",
    )
    return coefficient, loss
