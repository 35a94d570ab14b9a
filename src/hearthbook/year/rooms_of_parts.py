"""Which room a part of the plant stands in, read from the words that say where it is."""

from __future__ import annotations

from hearthbook.record.building import RoomUse
from hearthbook.record.home import Home, PartName

__all__ = ["room_of_cylinder", "room_of_pipes"]

_COLD_PLACES = ("garage", "loft", "shed", "outside", "cellar", "porch")
_BETWEEN = (RoomUse.UTILITY, RoomUse.LANDING, RoomUse.HALL)  # where pipes usually run


def room_of_cylinder(home: Home, room_ids: tuple[str, ...]) -> int:
    """Index of the room the cylinder stands in; -1 where its place is named as a cold one."""
    words = (home.place("cylinder") or "").lower()
    named = _named_room(home, "cylinder")
    if named is not None:
        return room_ids.index(named)
    if any(place in words for place in _COLD_PLACES):
        return -1
    return room_of_pipes(home, room_ids)


def room_of_pipes(home: Home, room_ids: tuple[str, ...]) -> int:
    """Index of the room that gets what the primary pipes lose.

    The room named where the cylinder, the filter or the filling connection is; else a utility
    room, a landing or a hall; else the first.
    """
    parts: tuple[PartName, ...] = ("cylinder", "filter", "filling_connection")
    for part in parts:
        named = _named_room(home, part)
        if named is not None:
            return room_ids.index(named)
    for use in _BETWEEN:
        for room in home.building.rooms:
            if room.use is use:
                return room_ids.index(room.id)
    return 0


def _named_room(home: Home, part: PartName) -> str | None:
    """The room whose name stands in the words of a part's place; the longest name wins."""
    words = (home.place(part) or "").lower()
    named = [room for room in home.building.rooms if room.name.lower() in words]
    if not named:
        return None
    return max(named, key=lambda room: len(room.name)).id
