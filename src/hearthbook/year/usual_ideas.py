"""The questions people ask of a home, as far as they apply to this one."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from hearthbook.design.fabric import construction_u_value
from hearthbook.design.results import Design
from hearthbook.design.room_surfaces import surfaces
from hearthbook.record.building import Construction, ConstructionKind, RoomUse
from hearthbook.record.controls import Thermostat, Window
from hearthbook.record.emitters import EmitterValve
from hearthbook.year.changes import ColderStretch
from hearthbook.year.ideas import Idea
from hearthbook.year.variants import Variant, variant

__all__ = ["DAMP", "usual_variants"]

DAMP = "a cold room is a damp room: air it, and keep its door shut"
_WOOL = 0.044  # W/(m·K), mineral wool rolled out in a loft; ISO 10456 and older tables, from memory
_ADDED_WOOL = 0.2  # m, as is laid across joists; common practice, no source
_WORTH_INSULATING = 0.15  # W/(m²·K), below which nobody lays more
_SETBACKS = (2.0, 4.0)  # K
_MORE_WATER = 20e-3  # m³
_WARMEST = Window(start="12:00", end="16:00")  # of the day outdoors; common practice, no source
_BEDROOMS = {RoomUse.BEDROOM, RoomUse.STUDY}
_LIMIT = 2.0  # K above wanted at which a thermostat that only limits is set; 2 to 3 K is common
# practice, no source
_CURVE_IS_OFF = 1.5  # K of mean difference to the true curve, from which the fit is worth trying


@dataclass(frozen=True)
class _Question:
    """An idea with its name for figures, its plain words and a note."""

    name: str
    label: str
    idea: Idea
    note: str = ""


def usual_variants(
    design: Design, advance: Callable[[str], None] = lambda _: None
) -> tuple[Variant, ...]:
    """The home under each of the usual ideas that apply to it.

    Args:
        design: of the home as recorded.
        advance: told the words of each idea when its home is ready.
    """
    made = []
    for question in _questions(design):
        made.append(
            variant(design, question.idea, question.name, question.label, note=question.note)
        )
        advance(question.label)
    return tuple(made)


def _questions(design: Design) -> Iterator[_Question]:
    yield _Question("warmer", "all rooms 1 K warmer", Idea(warmer=1.0))
    yield _Question("cooler", "all rooms 1 K cooler", Idea(warmer=-1.0))
    yield from _setbacks(design)
    yield from _curves(design)
    yield from _rooms(design)
    yield from _emitters(design)
    yield from _fabric(design)
    yield from _water(design)
    yield from _hot_water(design)


def _setbacks(design: Design) -> Iterator[_Question]:
    recorded = design.home.controls.setback
    if recorded is not None and recorded.by > 0.0:
        yield _Question("no_setback", "nights as warm as days",
                        Idea(setback=ColderStretch(0.0)))  # fmt: skip
    for by in _SETBACKS:
        if recorded is None or recorded.by != by:
            yield _Question(
                f"setback_{by:.0f}", f"{by:.0f} K colder from 22:00 to 06:00",
                Idea(setback=ColderStretch(by)),
            )  # fmt: skip


def _curves(design: Design) -> Iterator[_Question]:
    as_set, thermostat = design.curve.as_set, design.home.controls.thermostat
    is_off = as_set is not None and abs(as_set.cost.excess.value) >= _CURVE_IS_OFF
    switches = (
        thermostat is not None
        and thermostat.acts_as == "controller"
        and _is_low(design, thermostat)
    )
    limit = f"the thermostat only as a limit {_LIMIT:.0f} K above the wanted temperature"
    if is_off:
        yield _Question("advised_curve", "the curve the design advises",
                        Idea(is_curve_as_advised=True))  # fmt: skip
    if switches:
        yield _Question("thermostat_limits", limit, Idea(thermostat_limit=_LIMIT))
    if is_off and switches:
        yield _Question("advised_controls", f"the curve the design advises, and {limit}",
                        Idea(is_curve_as_advised=True, thermostat_limit=_LIMIT))  # fmt: skip
    yield _Question("lower_curve", "the curve 2 K lower", Idea(curve=-2.0),
                    "rooms that were just warm enough become colder")  # fmt: skip


def _is_low(design: Design, thermostat: Thermostat) -> bool:
    """Whether a thermostat stops heating about when its room is as warm as wanted."""
    wanted = design.emitters.room(thermostat.room).temperature.value
    return thermostat.setting < wanted + _LIMIT / 2.0


def _rooms(design: Design) -> Iterator[_Question]:
    """The smallest bedroom whose heat can be shut off."""
    home = design.home
    found = [
        each
        for each in design.heat_loss.rooms
        if each.room.use in _BEDROOMS
        and home.emitters_of(each.room.id)
        and all(
            one.valve is EmitterValve.THERMOSTATIC and not one.is_kept_open
            for one in home.emitters_of(each.room.id)
        )
    ]
    if len(found) > 1:
        room = min(found, key=lambda each: each.floor_area.value).room
        yield _Question(f"close_{room.id}", f"the {room.name} let go cold, its valve shut",
                        Idea(close=(room.id,)),
                        DAMP)  # fmt: skip


def _emitters(design: Design) -> Iterator[_Question]:
    upgrades = design.emitters.next_larger[:2]
    tried = [
        tuple(one.emitter_id for one in upgrades[:count]) for count in range(1, len(upgrades) + 1)
    ]
    for exchanged, last in zip(tried, upgrades, strict=True):
        names = " and ".join(design.home.emitter(one).name for one in exchanged)
        yield _Question(
            f"larger_{last.emitter_id}", f"larger: {names}; the curve lowered to match",
            Idea(larger=exchanged),
            f"{last.description}; the home then needs {last.home_flow_temperature.shown()} of flow"
            f" in place of {design.emitters.required_flow_temperature.shown()}",
        )  # fmt: skip
    recorded = tuple(one.id for one in design.home.emitters if one.larger is not None)
    if len(recorded) > 1 and set(recorded) not in [set(one) for one in tried]:
        names = ", ".join(design.home.emitter(one).name for one in recorded)
        yield _Question(
            "larger_recorded", "every recorded larger emitter; the curve lowered to match",
            Idea(larger=recorded), names,
        )  # fmt: skip


def _fabric(design: Design) -> Iterator[_Question]:
    losses = _loss_by_construction(design)
    ceilings = [each for each, _ in losses if each.kind is ConstructionKind.CEILING]
    for ceiling in ceilings[:1]:
        before = construction_u_value(design.home, ceiling, "inside").value
        after = 1.0 / (1.0 / before + _ADDED_WOOL / _WOOL)
        if before > _WORTH_INSULATING:
            yield _Question(
                f"insulate_{ceiling.id}", f"200 mm more wool on the {ceiling.name}",
                Idea(insulate=((ceiling.id, after),)), f"U {before:.2f} to {after:.2f} W/(m²·K)",
            )  # fmt: skip
    others = [each for each, _ in losses if each.kind is not ConstructionKind.CEILING]
    for construction in others[:1]:
        before = construction_u_value(design.home, construction, "outside").value
        yield _Question(
            f"insulate_{construction.id}", f"half the loss through: {construction.name}",
            Idea(insulate=((construction.id, before / 2.0),)),
            f"U {before:.2f} to {before / 2.0:.2f} W/(m²·K)",
        )  # fmt: skip


def _loss_by_construction(design: Design) -> list[tuple[Construction, float]]:
    """Constructions by what passes them to outside or unheated space, the largest first."""
    home, found = design.home, dict[str, float]()
    inside = {room.id for room in home.building.rooms} | {"neighbour", "ground"}
    for each in design.heat_loss.rooms:
        listed = surfaces(home, each.room)
        for surface, element in zip(listed, each.elements, strict=False):  # then what others list
            if surface.beyond not in inside:
                key = surface.construction.id
                found[key] = found.get(key, 0.0) + element.coefficient.value
    ordered = sorted(found.items(), key=lambda pair: (-pair[1], pair[0]))
    return [(home.construction(key), value) for key, value in ordered]


def _water(design: Design) -> Iterator[_Question]:
    recorded = design.home.plant.added_volume
    before = 0.0 if recorded is None else recorded.volume
    after = before + _MORE_WATER
    kind = "volumiser" if recorded is None else recorded.kind
    yield _Question("more_water", f"a {kind} of {after * 1e3:.0f} L, 20 L more than now",
                    Idea(volumiser=after))  # fmt: skip


def _hot_water(design: Design) -> Iterator[_Question]:
    if design.home.plant.cylinder is None:
        return
    yield _Question("hot_water_by_day", f"hot water made from {_WARMEST.start} to {_WARMEST.end}",
                    Idea(hot_water_windows=(_WARMEST,)))  # fmt: skip
    tariff = design.home.tariff
    if tariff is None or len(tariff.bands) < 2:
        return
    cheapest = min(tariff.bands, key=lambda band: band.price)
    if cheapest.windows and cheapest.windows != design.home.controls.hot_water_windows:
        yield _Question("hot_water_cheap", f"hot water made in the hours of {cheapest.name}",
                        Idea(hot_water_windows=cheapest.windows))  # fmt: skip
