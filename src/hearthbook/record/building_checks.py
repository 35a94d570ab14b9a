"""Figures of the property and its emitters that contradict each other."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from hearthbook.record.building import (
    Building,
    Construction,
    ConstructionKind,
    Element,
    Layer,
    Room,
    VentilationSystem,
)
from hearthbook.record.contradiction import Contradiction, Path, spelled
from hearthbook.record.emitters import EmitterBase, EmitterValve, Underfloor
from hearthbook.record.home import Home

__all__ = ["building_contradictions", "emitter_contradictions"]

_SAME_AREA = 0.05
"""Two people measure one wall alike within this share; common practice, no source."""

_SAME_FIGURE = 0.02
"""A product of rounded figures agrees with the rounded product within this share; derived."""


def building_contradictions(home: Home) -> Iterator[Contradiction]:
    """What the property's chapter says against itself."""
    building = home.building
    for position, construction in enumerate(building.constructions):
        yield from _construction(("building", "constructions", position), construction)
    for position, room in enumerate(building.rooms):
        yield from _room(("building", "rooms", position), room, building)
    yield from _shared_walls(building)
    yield from _air_and_climate(building)


def _differ(first: float, second: float, share: float) -> bool:
    return abs(first - second) > share * max(abs(first), abs(second))


def _two_areas(
    path: Path, given: float | None, product: float | None, words: str
) -> Iterator[Contradiction]:
    if given is None or product is None or not _differ(given, product, _SAME_AREA):
        return
    message = (
        f"is {spelled(given, 'm²')}, but {words} is {product:.4g} m²; "
        "leave out the one that is wrong."
    )
    yield Contradiction(path, message)


def _construction(path: Path, construction: Construction) -> Iterator[Contradiction]:
    is_ground_floor = construction.kind is ConstructionKind.GROUND_FLOOR
    for position, layer in enumerate(construction.layers):
        yield from _layer((*path, "layers", position), layer)
    if construction.ground is not None and not is_ground_floor:
        message = "belongs to a ground floor; leave it out, or make the kind ground_floor."
        yield Contradiction((*path, "ground"), message)


def _layer(path: Path, layer: Layer) -> Iterator[Contradiction]:
    thickness, conductivity, resistance = layer.thickness, layer.conductivity, layer.resistance
    if resistance is None and (thickness is None or (conductivity is None and not layer.is_air)):
        wanted = "a thickness" if layer.is_air else "a thickness and a conductivity"
        yield Contradiction(path, f"needs {wanted}, or a resistance.")
    if resistance is not None and thickness is not None and conductivity is not None:
        by_thickness = thickness / conductivity
        if _differ(by_thickness, resistance, _SAME_FIGURE):
            message = (
                f"is {spelled(resistance, 'm²·K/W')}, but thickness and conductivity give "
                f"{by_thickness:.3g} m²·K/W; leave one of the two out."
            )
            yield Contradiction((*path, "resistance"), message)
    if layer.bridge is None:
        return
    if layer.bridge.fraction > 0.5:
        message = (
            f"is {layer.bridge.fraction:.6g}; a bridge takes at most half of its layer. "
            "Name the larger material as the layer and the smaller as the bridge."
        )
        yield Contradiction((*path, "bridge", "fraction"), message)
    if thickness is None:
        message = "needs the layer's thickness; give it beside the bridge."
        yield Contradiction((*path, "bridge"), message)


def _room(path: Path, room: Room, building: Building) -> Iterator[Contradiction]:
    sides = None if room.length is None or room.width is None else room.length * room.width
    if room.floor_area is None and sides is None:
        yield Contradiction(path, "needs a floor_area, or a length and a width.")
    yield from _two_areas((*path, "floor_area"), room.floor_area, sides, "length times width")
    if not room.elements:
        message = "is empty; a room loses heat through at least one surface. Add its outer ones."
        yield Contradiction((*path, "elements"), message)
    heights = {storey.id: storey.height for storey in building.storeys}
    height = room.height if room.height is not None else heights.get(room.storey)
    kinds = {item.id: item.kind for item in building.constructions}
    for position, element in enumerate(room.elements):
        here: Path = (*path, "elements", position)
        yield from _element(here, element, height)
        on_ground = kinds.get(element.construction) is ConstructionKind.GROUND_FLOOR
        if on_ground and element.beyond != "ground":
            message = (
                f"is '{element.beyond}', but '{element.construction}' is a floor on the ground; "
                "write ground, or another construction."
            )
            yield Contradiction((*here, "beyond"), message)


def _element(path: Path, element: Element, room_height: float | None) -> Iterator[Contradiction]:
    height = element.height if element.height is not None else room_height
    sides = None if element.width is None or height is None else element.width * height
    area = element.area if element.area is not None else sides
    if element.area is None and element.width is None:
        yield Contradiction(path, "needs an area, or a width.")
    if element.height is not None:
        yield from _two_areas((*path, "area"), element.area, sides, "width times height")
    openings = sum(item.width * item.height * item.count for item in element.openings)
    if area is not None and openings > area * (1 + 1e-9):
        message = (
            f"have {openings:.4g} m² together, more than the element's {area:.4g} m²; "
            "check the sizes, in metres where no unit is written."
        )
        yield Contradiction((*path, "openings"), message)


def _shared_walls(building: Building) -> Iterator[Contradiction]:
    heights = {storey.id: storey.height for storey in building.storeys}
    rooms = {room.id for room in building.rooms}
    areas: defaultdict[tuple[str, str], float] = defaultdict(float)
    first: dict[tuple[str, str], Path] = {}
    for at, room in enumerate(building.rooms):
        for where, element in enumerate(room.elements):
            if element.beyond not in rooms:
                continue
            pair = (room.id, element.beyond)
            height = element.height or room.height or heights.get(room.storey, 0.0)
            areas[pair] += element.area or (element.width or 0.0) * height
            first.setdefault(pair, ("building", "rooms", at, "elements", where))
    for (one, other), area in areas.items():
        seen_back = areas.get((other, one))
        if one < other and seen_back is not None and _differ(area, seen_back, _SAME_AREA):
            message = (
                f"the surface to '{other}' is {area:.4g} m² from here but {seen_back:.4g} m² "
                "from the other side; make both alike."
            )
            yield Contradiction(first[one, other], message)


def _air_and_climate(building: Building) -> Iterator[Contradiction]:
    ventilation, climate = building.ventilation, building.climate
    balanced = ventilation.system is VentilationSystem.BALANCED_HEAT_RECOVERY
    if ventilation.heat_recovery is not None and not balanced:
        message = (
            f"is {ventilation.heat_recovery:.6g}, but {ventilation.system.value} ventilation "
            "gives no heat back; leave it out, or make the system balanced_heat_recovery."
        )
        yield Contradiction(("building", "ventilation", "heat_recovery"), message)
    if building.thermal_bridges and building.thermal_bridge_supplement is not None:
        message = "stands beside listed thermal_bridges; keep one of the two."
        yield Contradiction(("building", "thermal_bridge_supplement"), message)
    months, year = climate.monthly_mean_temperatures, climate.annual_mean_temperature
    if months is not None and year is not None and abs(sum(months) / 12 - year) > 1.0:
        message = (
            f"is {year:.6g} °C, but the twelve months have a mean of {sum(months) / 12:.3g} °C; "
            "check both."
        )
        yield Contradiction(("building", "climate", "annual_mean_temperature"), message)
    if climate.weather_file is not None and not _is_in_folder(climate.weather_file):
        message = (
            f"is '{climate.weather_file}'; it must be a file in the record's own folder, named "
            "from there with / between folders. Put it beside the record."
        )
        yield Contradiction(("building", "climate", "weather_file"), message)
    for position, space in enumerate(building.unheated_spaces):
        if space.temperature is not None and space.temperature_factor is not None:
            path = ("building", "unheated_spaces", position, "temperature_factor")
            yield Contradiction(path, "stands beside a temperature; keep one of the two.")


def _is_in_folder(name: str) -> bool:
    """Whether a file's name stays in the folder it is named from, on any system."""
    is_odd = any(sign in name for sign in "\\:\0~") or name != name.strip()
    return not is_odd and all(part not in {"", ".", ".."} for part in name.split("/"))


def emitter_contradictions(home: Home) -> Iterator[Contradiction]:
    """What emitters, pipes and valve settings say against each other and the rooms."""
    rooms = {room.id: room for room in home.building.rooms}
    for position, emitter in enumerate(home.emitters):
        path: Path = ("emitters", position)
        room = rooms.get(emitter.room)
        if isinstance(emitter, Underfloor) and room is not None:
            floor = room.floor_area or (room.length or 0.0) * (room.width or 0.0)
            if floor and emitter.area > floor * (1 + _SAME_FIGURE):
                message = (
                    f"is {spelled(emitter.area, 'm²')}, more than the {floor:.4g} m² floor of "
                    f"'{room.id}'; check both."
                )
                yield Contradiction((*path, "area"), message)
        if isinstance(emitter, Underfloor) and emitter.own_drop is not None:
            yield from _positive((*path, "own_drop"), emitter.own_drop)
        yield from _larger(path, emitter)
    yield from _pipes(home)
    yield from _valves(home)


def _larger(path: Path, emitter: EmitterBase) -> Iterator[Contradiction]:
    larger, present = emitter.larger, emitter.rated_output
    if larger is not None and present is not None and larger.rated_output <= present:
        message = (
            f"is {spelled(larger.rated_output, 'W')}, no more than the {spelled(present, 'W')} "
            "of the emitter that is there; give a larger one, or leave it out."
        )
        yield Contradiction((*path, "larger", "rated_output"), message)


def _positive(path: Path, value: float) -> Iterator[Contradiction]:
    if value <= 0:
        message = f"is {spelled(value, 'K')}; it must be more than 0 K. Write it without a sign."
        yield Contradiction(path, message)


def _pipes(home: Home) -> Iterator[Contradiction]:
    pipes: list[tuple[Path, float, float | None]] = [
        (("pipework", "runs", at), run.outside_diameter, run.wall_thickness)
        for at, run in enumerate(home.pipework.runs)
    ]
    pipes += [
        (("emitters", at, "tail"), emitter.tail.outside_diameter, emitter.tail.wall_thickness)
        for at, emitter in enumerate(home.emitters)
        if emitter.tail is not None
    ]
    for path, outside, wall in pipes:
        if wall is not None and 2 * wall >= outside:
            message = (
                f"is {spelled(wall, 'mm')}, which leaves no bore in a tube of "
                f"{spelled(outside, 'mm')}; check both."
            )
            yield Contradiction((*path, "wall_thickness"), message)


def _valves(home: Home) -> Iterator[Contradiction]:
    valves = {emitter.id: emitter.valve for emitter in home.emitters}
    for position, setting in enumerate(home.controls.emitter_settings):
        valve = valves.get(setting.emitter, EmitterValve.THERMOSTATIC)
        if valve is not EmitterValve.THERMOSTATIC and setting.number != "open":
            message = (
                f"is '{setting.number}', but the emitter has no thermostatic head; write open."
            )
            yield Contradiction(("controls", "emitter_settings", position, "number"), message)
