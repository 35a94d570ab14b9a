"""Whether the rooms get their heat, at the right flow temperature and at the right times."""

from __future__ import annotations

from collections.abc import Iterator

from hearthbook.design.bill_check import BillVerdict
from hearthbook.design.results import Design
from hearthbook.design.shortfall import Shortfall, falling_short
from hearthbook.documents.figures import KeyFigure
from hearthbook.units import shown

__all__ = ["room_shortfalls", "rooms_short_at_design"]

_COVERAGE = 0.95  # of a room's load; common practice, no source
_CURVE = 2.0  # K mean over the season; common practice, no source


def room_shortfalls(design: Design) -> Iterator[Shortfall]:
    """Where heat loss, emitters, flow temperature, curve or night fall short."""
    for part in (_bill, _rooms, _design_flow, _curve, _night):
        yield from part(design)


def _bill(design: Design) -> Iterator[Shortfall]:
    check = design.heat_loss.bill_check
    if check is not None and check.verdict is not BillVerdict.WITHIN:
        yield falling_short(
            "Heat loss against the fuel bill",
            f"By the bill the home loses {check.coefficient.shown()}, "
            f"by calculation {design.heat_loss.coefficient.shown()}.",
            check.advice,
            check.coefficient,
            check.ratio,
        )


def _rooms(design: Design) -> Iterator[Shortfall]:
    schedule = design.emitters
    for room in schedule.rooms:
        if room.coverage is None or room.coverage.value >= _COVERAGE or not room.emitters:
            continue
        needs = room.required_flow_temperature
        advice = _advice_on_room(design, needs)
        upgrade = next((u for u in schedule.next_larger if u.room_id == room.room.id), None)
        if upgrade is not None:
            advice = (
                f"A {upgrade.description} here brings what the whole home needs down by "
                f"{upgrade.won.shown()} of flow temperature (saving "
                f"{upgrade.saving.shown_with_range()} against a curve hot enough for this room)."
            )
        needed = "" if needs is None else f"; it would need {needs.shown()}"
        yield falling_short(
            f"Emitters in the {room.room.name}",
            f"They give {room.output.shown()} of {room.load.shown()} "
            f"({room.coverage.shown()}) at {schedule.flow_temperature.shown()}{needed}.",
            advice,
            room.coverage,
            needs,
        )
    for room_id in schedule.uncovered_rooms:
        room = schedule.room(room_id)
        yield falling_short(
            f"No emitter in the {room.room.name}",
            f"It loses {room.load.shown()} and has nothing to give it.",
            "Fit an emitter, or record the heat it gets through its neighbours.",
            room.load,
        )


def _advice_on_room(design: Design, needs: KeyFigure | None) -> str:
    """A hotter curve is only offered where the emitters may have it and the unit can make it."""
    most = design.home.plant.heat_pump.maximum_flow_temperature
    if needs is None:
        return (
            "Fit more emitter here: no flow temperature the emitters may have gives the room "
            "enough. A hotter curve would not help."
        )
    if most is not None and needs.value > most:
        return "Fit a larger emitter here: the unit does not make water so hot."
    return "Fit a larger emitter here, or accept a hotter curve for the whole home."


def rooms_short_at_design(design: Design) -> tuple[str, ...]:
    """Rooms whose emitters give too little at the design flow temperature.

    One such room wants a larger emitter. Where there are several, the design flow temperature is
    too low, and the curve that rests on it is no measure of the one that is set.
    """
    return tuple(
        room.room.name
        for room in design.emitters.rooms
        if room.emitters and room.coverage is not None and room.coverage.value < _COVERAGE
    )


def _design_flow(design: Design) -> Iterator[Shortfall]:
    short, schedule = rooms_short_at_design(design), design.emitters
    if len(short) > 1:
        yield falling_short(
            "Design flow temperature",
            f"{schedule.flow_temperature.shown()} leaves {len(short)} rooms short: "
            f"{', '.join(short)}.",
            "Choose a hotter one or larger emitters. Until then do not set the curve that rests on "
            "it: the home would stay cold.",
            schedule.flow_temperature,
            schedule.required_flow_temperature,
        )


def _curve(design: Design) -> Iterator[Shortfall]:
    comparison = design.curve.as_set
    if comparison is None or abs(comparison.mean.value) <= _CURVE:
        return
    if comparison.mean.value > 0 and len(rooms_short_at_design(design)) > 1:
        return  # a curve is not too hot for rooms that are short of heat: see the emitters
    points = ", ".join(f"{p.flow.shown()} at {p.outdoor.shown()}" for p in design.curve.fit.points)
    yield falling_short(
        "Weather curve as set",
        f"Over the season it lies {comparison.mean.shown()} from the home's own curve; "
        f"cost {comparison.cost_share.shown_with_range()} of the heating electricity.",
        f"Set {points}.",
        comparison.mean,
        comparison.cost_share,
    )


def _night(design: Design) -> Iterator[Shortfall]:
    """A colder night as planned, held against the deepest that is worth setting."""
    planned, advised = design.home.controls.setback, design.setback.advised_depth
    if planned is None or planned.by <= advised.value + 0.5:
        return
    option = min(design.setback.options, key=lambda one: abs(one.depth.value - planned.by))
    wise = f"At most {advised.shown()}." if advised.value > 0 else "Keep the rooms steady."
    yield falling_short(
        "Colder night as planned",
        f"{shown(planned.by, 'K')} is planned; {option.depth.shown()} changes the heating's cost "
        f"by {option.low.shown()} to {option.high.shown()}, and the rooms are warm again after "
        f"{option.hours_to_recover.shown()}.",
        f"{wise} A long return leaves rooms cold in the morning.",
        option.cost_change,
        option.hours_to_recover,
        advised,
    )
