"""This home's plant and emitters as a schematic."""

from __future__ import annotations

from collections.abc import Iterator

from hearthbook.documents.blocks import Definition
from hearthbook.documents.drawings import (
    EmitterKind,
    EmitterSymbol,
    PartKind,
    PartSymbol,
    StoreyOfEmitters,
    SystemSchematic,
    SystemWords,
    ValveKind,
)
from hearthbook.documents.inline import escaped
from hearthbook.handover.pictures.wording import PictureBasis, capitalised, say, word_table
from hearthbook.record.home import Home, PartName
from hearthbook.record.plant import Plant

__all__ = ["system_parts", "system_schematic"]

_PLACE: dict[PartKind, PartName] = {
    "outdoor_unit": "outdoor_unit",
    "freeze_valves": "freeze_valves",
    "backup_heater": "backup_heater",
    "pump": "pump",
    "air_vent": "air_vents",
    "safety_valve": "safety_valve",
    "pressure_gauge": "pressure_gauge",
    "diverter_valve": "diverter_valve",
    "cylinder": "cylinder",
    "buffer": "buffer",
    "volumiser": "volumiser",
    "expansion_vessel": "expansion_vessel",
    "filling_connection": "filling_connection",
    "filter": "filter",
    "underfloor_manifold": "underfloor_manifold",
    "drinking_water_vessel": "drinking_water_vessel",
}
_VALVES: tuple[ValveKind, ...] = ("thermostatic", "manual", "lockshield_only", "motorised")
_EMITTERS: tuple[EmitterKind, ...] = (
    "panel_radiator",
    "fan_assisted",
    "towel_rail",
    "underfloor",
)


def system_schematic(basis: PictureBasis, *, shows_key: bool = True) -> SystemSchematic:
    """How the water runs in this home, with only the parts it has.

    Args:
        basis: the home's design and the language.
        shows_key: False where the document lists the parts and their places itself.
    """
    home, language = basis.design.home, basis.language
    names = word_table(language, "system.parts")
    added = home.plant.added_volume
    parts = tuple(
        PartSymbol(
            kind=kind,
            number=number,
            name=names[kind],
            place=_place(home, kind),
            on=added.on if added is not None and kind == "volumiser" else "flow",
        )
        for number, kind in enumerate(_kinds(home), start=1)
    )
    return SystemSchematic(parts, _storeys(home), _words(home, language), shows_key)


def system_parts(basis: PictureBasis) -> tuple[Definition, ...]:
    """The key of the schematic as text: number and name of each part, and where it is."""
    return tuple(
        Definition(f"{part.number} {part.name}", escaped(part.place))
        for part in system_schematic(basis).parts
    )


def _place(home: Home, kind: PartKind) -> str:
    part = _PLACE.get(kind)
    return (home.place(part) or "") if part is not None else ""


def _kinds(home: Home) -> Iterator[PartKind]:
    """The parts this home has, in the order one follows the water."""
    plant = home.plant
    yield "outdoor_unit"
    if plant.heat_pump.arrangement == "split":
        yield "indoor_unit"
    yield from _flow_parts(plant)
    yield from _pressure_parts(plant)
    yield from _hot_water_parts(plant)
    if any(emitter.kind == "underfloor" for emitter in home.emitters):
        yield "underfloor_manifold"
    if plant.added_volume is not None:
        yield plant.added_volume.kind
    if plant.filter is not None:
        yield "filter"


def _flow_parts(plant: Plant) -> Iterator[PartKind]:
    protection = plant.freeze_protection
    if protection is not None and protection.kind == "freeze_valves":
        yield "freeze_valves"
    if plant.backup_heater is not None:
        yield "backup_heater"
    if not plant.pump.is_in_unit:
        yield "pump"
    if plant.air_vents:
        yield "air_vent"


def _pressure_parts(plant: Plant) -> Iterator[PartKind]:
    if any(valve.circuit == "heating" for valve in plant.safety_valves):
        yield "safety_valve"
    yield "pressure_gauge"
    if any(vessel.circuit == "heating" for vessel in plant.expansion_vessels):
        yield "expansion_vessel"
    if plant.filling is not None and plant.filling.kind != "none":
        yield "filling_connection"


def _hot_water_parts(plant: Plant) -> Iterator[PartKind]:
    if plant.diverter_valve is not None:
        yield "diverter_valve"
    if plant.cylinder is None:
        return
    yield "cylinder"
    if any(vessel.circuit == "drinking_water" for vessel in plant.expansion_vessels):
        yield "drinking_water_vessel"
    if any(valve.circuit == "drinking_water" for valve in plant.safety_valves):
        yield "drinking_water_safety_valve"


def _storeys(home: Home) -> tuple[StoreyOfEmitters, ...]:
    return tuple(
        StoreyOfEmitters(
            capitalised(storey.name),
            tuple(
                EmitterSymbol(str(e.number), e.kind, e.valve.value, e.is_kept_open)
                for e in sorted(home.emitters, key=lambda emitter: emitter.number)
                if home.room(e.room).storey == storey.id
            ),
        )
        for storey in home.building.storeys
    )


def _words(home: Home, language: str) -> SystemWords:
    valves, emitters = (word_table(language, f"system.{g}") for g in ("valves", "emitters"))
    fitted = {emitter.valve.value for emitter in home.emitters}
    kinds = {emitter.kind for emitter in home.emitters}
    has_cylinder = home.plant.cylinder is not None
    is_split = home.plant.heat_pump.arrangement == "split"
    return SystemWords(
        outside=say(language, "system.outside"),
        inside=say(language, "system.inside"),
        flow=say(language, "system.flow"),
        return_=say(language, "system.return"),
        kept_open=say(language, "system.kept_open"),
        refrigerant=say(language, "system.refrigerant") if is_split else "",
        hot_water=say(language, "system.hot_water") if has_cylinder else "",
        cold_water=say(language, "system.cold_water") if has_cylinder else "",
        valves=tuple((kind, valves[kind]) for kind in _VALVES if kind in fitted),
        emitters=tuple((kind, emitters[kind]) for kind in _EMITTERS if kind in kinds),
    )
