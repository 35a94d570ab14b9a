"""Names in the record that point at other parts of it: each must point at exactly one."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator

from hearthbook.record.building import ConstructionKind
from hearthbook.record.commissioning import Commissioning, ReadingKind
from hearthbook.record.contradiction import Contradiction, Path, nearest
from hearthbook.record.home import Home

__all__ = ["BEYOND_THE_HOME", "references"]

BEYOND_THE_HOME = ("outside", "ground", "neighbour")

_OF_WHAT: dict[ReadingKind, str] = {
    ReadingKind.METER: "meter",
    ReadingKind.EMITTER_FLOW_TEMPERATURE: "emitter",
    ReadingKind.EMITTER_RETURN_TEMPERATURE: "emitter",
    ReadingKind.ROOM_TEMPERATURE: "room",
    ReadingKind.VESSEL_PRECHARGE: "vessel",
    ReadingKind.SOUND_PRESSURE: "neighbour's window",
}
_MAY_BE_OF: dict[ReadingKind, str] = {
    ReadingKind.TAP_TEMPERATURE: "room",
    ReadingKind.FLOW_RATE: "pipe run",
    ReadingKind.FLOW_TEMPERATURE: "pipe run",
    ReadingKind.RETURN_TEMPERATURE: "pipe run",
}


def references(home: Home) -> Iterator[Contradiction]:
    """Every name that points at nothing, or that two parts share."""
    yield from _doubles(home)
    yield from _of_rooms(home)
    yield from _of_elements(home)
    yield from _of_emitters(home)
    if home.commissioning is not None:
        yield from _of_readings(home, home.commissioning)


def _pointing(path: Path, name: str, known: Collection[str], noun: str) -> Iterator[Contradiction]:
    if name not in known:
        hint = nearest(name, known) or f" The record has {_listed(known)}."
        yield Contradiction(path, f"no {noun} is called '{name}'.{hint}", is_reference=True)


def _listed(known: Collection[str]) -> str:
    names = sorted(known)
    if not names:
        return "none; add it first"
    shown = ", ".join(names[:6])
    return f"{shown} and {len(names) - 6} more" if len(names) > 6 else shown


def _same(
    paths: Iterable[tuple[Path, object]], what: str, advice: str = "give each its own"
) -> Iterator[Contradiction]:
    seen: set[object] = set()
    for path, name in paths:
        if name in seen:
            spoken = f"'{name}'" if isinstance(name, str) else str(name)
            message = f"{what} {spoken} is given twice; {advice}."
            yield Contradiction(path, message, is_reference=True)
        seen.add(name)


def _doubles(home: Home) -> Iterator[Contradiction]:
    building, plant, done = home.building, home.plant, home.commissioning
    lists: list[tuple[Path, Iterable[object]]] = [
        (("building", "storeys"), building.storeys),
        (("building", "constructions"), building.constructions),
        (("emitters",), home.emitters),
        (("pipework", "runs"), home.pipework.runs),
        (("plant", "expansion_vessels"), plant.expansion_vessels),
        (("plant", "air_vents"), plant.air_vents),
        (("meters",), home.meters),
        (("siting", "neighbours"), home.siting.neighbours),
        (("electrical", "isolators"), home.electrical.isolators),
    ]
    if done is not None:
        lists.append((("commissioning", "people"), done.people))
        lists.append((("commissioning", "instruments"), done.instruments))
    for path, parts in lists:
        yield from _same(_keys(path, parts, "id"), "the id")
    yield from _spaces(home)
    yield from _same(_keys(("emitters",), home.emitters, "number"), "the number")
    settings = home.controls.emitter_settings
    path = ("controls", "emitter_settings")
    yield from _same(_keys(path, settings, "emitter"), "the setting of", "keep one")
    clearances = home.siting.clearances
    yield from _same(_keys(("siting", "clearances"), clearances, "side"), "the side", "keep one")
    if done is not None:
        checks = _keys(("commissioning", "checks"), done.checks, "kind")
        yield from _same(checks, "the check", "keep one")


def _keys(path: Path, parts: Iterable[object], key: str) -> Iterator[tuple[Path, object]]:
    for position, part in enumerate(parts):
        value = getattr(part, key)
        yield (*path, position, key), getattr(value, "value", value)


def _spaces(home: Home) -> Iterator[Contradiction]:
    """Rooms, unheated spaces and what lies beyond the home share one set of names."""
    building = home.building
    ids = [
        *_keys(("building", "rooms"), building.rooms, "id"),
        *_keys(("building", "unheated_spaces"), building.unheated_spaces, "id"),
    ]
    yield from _same(ids, "the id")
    for path, name in ids:
        if name in BEYOND_THE_HOME:
            message = f"is '{name}', a word Hearthbook keeps for itself; choose another id."
            yield Contradiction(path, message, is_reference=True)


def _of_rooms(home: Home) -> Iterator[Contradiction]:
    storeys = {storey.id for storey in home.building.storeys}
    rooms = {room.id for room in home.building.rooms}
    for position, room in enumerate(home.building.rooms):
        path = ("building", "rooms", position, "storey")
        yield from _pointing(path, room.storey, storeys, "storey")
    if home.controls.thermostat is not None:
        room_id = home.controls.thermostat.room
        yield from _pointing(("controls", "thermostat", "room"), room_id, rooms, "room")


def _of_elements(home: Home) -> Iterator[Contradiction]:
    kinds = {item.id: item.kind for item in home.building.constructions}
    spaces = {space.id for space in home.building.unheated_spaces}
    rooms = {room.id for room in home.building.rooms}
    beyond = rooms | spaces | set(BEYOND_THE_HOME)
    glazed = (ConstructionKind.WINDOW, ConstructionKind.DOOR)
    for at, room in enumerate(home.building.rooms):
        for where, element in enumerate(room.elements):
            path: Path = ("building", "rooms", at, "elements", where)
            here = (*path, "construction")
            yield from _pointing(here, element.construction, kinds, "construction")
            yield from _pointing((*path, "beyond"), element.beyond, beyond, "space")
            if element.beyond == room.id:
                message = f"is '{room.id}', the room itself; write what lies on the other side."
                yield Contradiction((*path, "beyond"), message, is_reference=True)
            for which, opening in enumerate(element.openings):
                here = (*path, "openings", which, "construction")
                yield from _pointing(here, opening.construction, kinds, "construction")
                if kinds.get(opening.construction, glazed[0]) not in glazed:
                    kind = kinds[opening.construction].value
                    message = (
                        f"is '{opening.construction}', a {kind.replace('_', ' ')}; "
                        "an opening needs a window or a door."
                    )
                    yield Contradiction(here, message, is_reference=True)


def _of_emitters(home: Home) -> Iterator[Contradiction]:
    rooms = {room.id for room in home.building.rooms}
    emitters = {emitter.id for emitter in home.emitters}
    for position, emitter in enumerate(home.emitters):
        yield from _pointing(("emitters", position, "room"), emitter.room, rooms, "room")
    for position, run in enumerate(home.pipework.runs):
        for which, name in enumerate(run.serves):
            path: Path = ("pipework", "runs", position, "serves", which)
            yield from _pointing(path, name, emitters, "emitter")
    for position, setting in enumerate(home.controls.emitter_settings):
        path = ("controls", "emitter_settings", position, "emitter")
        yield from _pointing(path, setting.emitter, emitters, "emitter")


def _of_readings(home: Home, done: Commissioning) -> Iterator[Contradiction]:
    known: dict[str, set[str]] = {
        "meter": {meter.id for meter in home.meters},
        "emitter": {emitter.id for emitter in home.emitters},
        "room": {room.id for room in home.building.rooms},
        "vessel": {vessel.id for vessel in home.plant.expansion_vessels},
        "neighbour's window": {window.id for window in home.siting.neighbours},
        "pipe run": {run.id for run in home.pipework.runs},
    }
    instruments = {instrument.id for instrument in done.instruments}
    people = {person.id for person in done.people}
    for position, reading in enumerate(done.readings):
        path: Path = ("commissioning", "readings", position)
        yield from _of_what(path, reading.kind, reading.of, known)
        if reading.instrument is not None:
            here = (*path, "instrument")
            yield from _pointing(here, reading.instrument, instruments, "instrument")
    for position, setting in enumerate(done.settings):
        if setting.by is not None:
            path = ("commissioning", "settings", position, "by")
            yield from _pointing(path, setting.by, people, "person")


def _of_what(
    path: Path, kind: ReadingKind, of: str | None, known: dict[str, set[str]]
) -> Iterator[Contradiction]:
    noun = _OF_WHAT.get(kind) or _MAY_BE_OF.get(kind)
    words = kind.value.replace("_", " ")
    if of is None:
        if kind in _OF_WHAT:
            message = f"is missing; a {words} reading says of which {noun}, by its id."
            yield Contradiction((*path, "of"), message, is_reference=True)
    elif noun is None:
        message = f"is '{of}'; a {words} reading belongs to the whole system, so leave it out."
        yield Contradiction((*path, "of"), message, is_reference=True)
    else:
        yield from _pointing((*path, "of"), of, known[noun], noun)
