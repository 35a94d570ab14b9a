"""The house cut open and the outdoor unit's clear space, as drawings."""

from __future__ import annotations

from hearthbook.documents.drawings import (
    ClearanceDrawn,
    ClearSpace,
    HouseMark,
    HouseSection,
    RadiatorTag,
    RoomDrawn,
    StoreyDrawn,
)
from hearthbook.handover.facts.rooms import setting
from hearthbook.handover.facts.speech import Speech
from hearthbook.handover.pictures.wording import PictureBasis, capitalised, say
from hearthbook.record.building import Room
from hearthbook.record.emitters import Emitter, EmitterValve
from hearthbook.record.home import Home
from hearthbook.survey.answers import floor_area
from hearthbook.units import shown, shown_distance

__all__ = ["clear_space", "house_section", "room_named_in"]

_GRAVEL = ("soakaway", "gravel_bed", "open_ground")


def room_named_in(home: Home, place: str) -> Room | None:
    """The room a place's words name, such as `in the airing cupboard on the landing`.

    The longest name found decides, so that `back bedroom` is not taken for `bedroom`.
    """
    words = place.casefold()
    found = [room for room in home.building.rooms if room.name.casefold() in words]
    return max(found, key=lambda room: len(room.name), default=None)


def house_section(basis: PictureBasis) -> HouseSection:
    """Each room with its emitters and their numbers, and what stands in it."""
    home, language = basis.design.home, basis.language
    place = home.place("cylinder") or ""
    cylinder = room_named_in(home, place) if home.plant.cylinder is not None else None
    storeys = tuple(
        StoreyDrawn(
            capitalised(storey.name),
            tuple(
                _room(basis, room, has_cylinder=room is cylinder)
                for room in home.building.rooms
                if room.storey == storey.id
            ),
        )
        for storey in home.building.storeys
    )
    notes: tuple[str, ...] = ()
    if home.plant.cylinder is not None and cylinder is None and place:
        name = say(language, "house.cylinder")
        notes = (say(language, "house.note", name=name, place=place),)
    kept = any(emitter.is_kept_open for emitter in home.emitters)
    return HouseSection(
        storeys=tuple(storey for storey in storeys if storey.rooms),
        outdoor_unit=say(language, "house.outdoor_unit"),
        key_radiator=say(language, "house.key_radiator"),
        key_setting=say(language, "house.key_setting"),
        key_kept_open=say(language, "house.key_kept_open") if kept else "",
        notes=notes,
    )


def _room(basis: PictureBasis, room: Room, *, has_cylinder: bool) -> RoomDrawn:
    home, language = basis.design.home, basis.language
    thermostat = home.controls.thermostat
    marks = []
    if thermostat is not None and thermostat.room == room.id:
        marks.append(HouseMark("thermostat", say(language, "house.thermostat")))
    if has_cylinder:
        marks.append(HouseMark("cylinder", say(language, "house.cylinder")))
    wanted = basis.design.heat_loss.room(room.id).temperature
    return RoomDrawn(
        name=capitalised(room.name),
        floor_area=floor_area(room).value,
        temperature=shown(wanted.value, "°C", 0),
        radiators=tuple(_radiator(basis, emitter) for emitter in home.emitters_of(room.id)),
        marks=tuple(marks),
    )


def _radiator(basis: PictureBasis, emitter: Emitter) -> RadiatorTag:
    language = basis.language
    if emitter.is_kept_open:
        words = say(language, "house.keep_open")
    elif emitter.valve is EmitterValve.THERMOSTATIC:
        words = setting(basis.design, emitter, Speech(language))
    elif emitter.valve is EmitterValve.MOTORISED:
        words = say(language, "house.by_itself")
    else:
        words = say(language, "house.leave")
    return RadiatorTag(str(emitter.number), emitter.kind, words, emitter.is_kept_open)


def clear_space(basis: PictureBasis) -> ClearSpace:
    """The outdoor unit with the free space asked for and found, its zone, height and drain."""
    siting, language = basis.design.home.siting, basis.language
    clearances = tuple(
        ClearanceDrawn(
            side=clearance.side,
            required=clearance.required,
            found=clearance.found,
            label=say(
                language,
                f"space.sides.{clearance.side}",
                required=shown_distance(clearance.required),
                found=shown_distance(clearance.found),
            ),
        )
        for clearance in siting.clearances
    )
    zone, height = siting.protective_zone, siting.height_above_ground
    return ClearSpace(
        unit=say(language, "space.unit"),
        plan_title=say(language, "space.plan"),
        side_title=say(language, "space.side"),
        clearances=clearances,
        air_in=say(language, "space.air_in"),
        air_out=say(language, "space.air_out"),
        zone="" if not zone else say(language, "space.zone", distance=shown_distance(zone)),
        drain="" if not siting.drain else say(language, "space.drain", place=siting.drain.place),
        drains_into_gravel=siting.drain is None or siting.drain.kind in _GRAVEL,
        height="" if not height else say(language, "space.height", height=shown_distance(height)),
        ground=say(language, "space.ground"),
        snow=say(language, "space.snow") if height else "",
    )
