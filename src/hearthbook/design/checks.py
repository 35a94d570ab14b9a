"""Whether the design is good enough, and if not why and what to do."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from hearthbook.design.bill_check import BillVerdict
from hearthbook.design.condensate import DrainVerdict
from hearthbook.design.heat_pump_fit import CapacityFit
from hearthbook.design.hot_water import CoilFit, HygieneNeed
from hearthbook.design.pipe_flows import PipeResult
from hearthbook.design.results import Design
from hearthbook.documents.figures import KeyFigure
from hearthbook.units import shown

__all__ = ["Shortfall", "rooms_short_at_design", "shortfalls"]

_COVERAGE = 0.95  # of a room's load; common practice, no source
_CURVE = 2.0  # K mean over the season; common practice, no source


@dataclass(frozen=True)
class Shortfall:
    """One thing in which the design falls short.

    Attributes:
        subject: what it is about.
        finding: what was found, with the numbers.
        advice: what to do.
        figures: names of the figures behind it, for `explain`.
    """

    subject: str
    finding: str
    advice: str
    figures: tuple[str, ...]


def shortfalls(design: Design) -> tuple[Shortfall, ...]:
    """Everything in which the design falls short, in the order of the job."""
    parts = (_bill, _rooms, _design_flow, _curve, _volume, _vessel, _pipes, _hot_water,
             _hygiene_run, _unit, _cold_air, _night, _sound, _drain)  # fmt: skip
    return tuple(found for part in parts for found in part(design))


def _found(subject: str, finding: str, advice: str, *figures: KeyFigure | None) -> Shortfall:
    names = tuple(figure.name for figure in figures if figure is not None)
    return Shortfall(subject, finding, advice, names)


def _bill(design: Design) -> Iterator[Shortfall]:
    check = design.heat_loss.bill_check
    if check is not None and check.verdict is not BillVerdict.WITHIN:
        yield _found(
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
        yield _found(
            f"Emitters in the {room.room.name}",
            f"They give {room.output.shown()} of {room.load.shown()} "
            f"({room.coverage.shown()}) at {schedule.flow_temperature.shown()}{needed}.",
            advice,
            room.coverage,
            needs,
        )
    for room_id in schedule.uncovered_rooms:
        room = schedule.room(room_id)
        yield _found(
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
        yield _found(
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
    yield _found(
        "Weather curve as set",
        f"Over the season it lies {comparison.mean.shown()} from the home's own curve; "
        f"cost {comparison.cost_share.shown_with_range()} of the heating electricity.",
        f"Set {points}.",
        comparison.mean,
        comparison.cost_share,
    )


def _volume(design: Design) -> Iterator[Shortfall]:
    volume = design.volume
    if volume.spare.value < 0:
        yield _found(
            "Water that always circulates",
            f"{volume.open.shown()} stay open, {volume.needed.shown()} are needed.",
            "Keep more emitters open for ever and label them, or fit a volumiser of "
            f"{volume.added_volume_needed.shown()}.",
            volume.open,
            volume.needed,
            volume.spare,
        )


def _vessel(design: Design) -> Iterator[Shortfall]:
    expansion = design.expansion
    if expansion.vessel_spare.value < 0:
        yield _found(
            "Expansion vessel",
            f"{expansion.vessel_installed.shown()} fitted, "
            f"{expansion.nominal_vessel_needed.shown()} needed.",
            "Fit a larger or a second vessel.",
            expansion.nominal_vessel_needed,
            expansion.vessel_spare,
        )
    if expansion.margin.value < 0:
        yield _found(
            "Safety valve in reach",
            f"Hot, the pressure comes within {expansion.margin.shown()} of what is allowed.",
            "Set the vessel's gas charge and the cold fill to the targets, then look again.",
            expansion.margin,
        )
    drinking = expansion.drinking_water
    if drinking is not None and drinking.spare.value < 0:
        yield _found(
            "Drinking-water expansion vessel",
            f"{drinking.installed.shown()} fitted, {drinking.nominal_needed.shown()} needed.",
            "Work for a person qualified for unvented hot water: fit a larger vessel.",
            drinking.spare,
        )


def _pipes(design: Design) -> Iterator[Shortfall]:
    hydraulics = design.hydraulics
    for pipe in hydraulics.pipes:
        yield from _pipe(pipe)
    if hydraulics.pump_spare is not None and hydraulics.pump_spare.value < 0:
        yield _found(
            "Pump",
            f"The index circuit costs {hydraulics.index_loss.shown()}; the pump lacks "
            f"{-hydraulics.pump_spare.value / 1e3:.1f} kPa.",
            "Larger pipes on the index circuit, or a second look at filter and valves.",
            hydraulics.index_loss,
            hydraulics.pump_spare,
        )
    margin = hydraulics.minimum_flow_margin
    if margin is not None and margin.value < 0:
        yield _found(
            "Flow below the unit's minimum",
            f"{hydraulics.system_flow.shown()} by design.",
            "Design for a smaller flow–return difference.",
            hydraulics.system_flow,
            margin,
        )


def _pipe(pipe: PipeResult) -> Iterator[Shortfall]:
    if pipe.verdict in ("fast", "steep"):
        yield _found(
            f"Pipe: {pipe.name}",
            f"{pipe.flow.shown()} run at {pipe.velocity.shown()} and cost {pipe.gradient.shown()}.",
            "A larger tube here, or a larger flow–return difference.",
            pipe.velocity,
            pipe.gradient,
        )


def _hygiene_run(design: Design) -> Iterator[Shortfall]:
    """A run left to the unit alone must be within what the unit makes."""
    cylinder, unit = design.home.plant.cylinder, design.home.plant.heat_pump
    regime = None if cylinder is None else cylinder.hygiene
    most, water = unit.maximum_flow_temperature, design.hot_water
    if regime is None or water is None or most is None or regime.heat_source != "heat_pump":
        return
    if water.demand.hygiene_flow > most:
        yield _found(
            "Hygiene run hotter than the unit makes",
            f"{shown(water.demand.hygiene_flow, '°C')} of heating water are needed for "
            f"{shown(regime.temperature, '°C')} in the cylinder; the unit makes at most "
            f"{shown(most, '°C')}.",
            "Let an immersion heater make the last degrees, or choose another regime with whoever "
            "assesses the risk.",
            water.hygiene_run,
        )


def _hot_water(design: Design) -> Iterator[Shortfall]:
    water = design.hot_water
    if water is None:
        return
    if water.spare.value < 0:
        yield _found(
            "Hot water in the busiest hour",
            f"{water.peak.total.shown()} wanted, {water.peak_supply.shown()} there.",
            "Spread the draws, start an extra run before, or a larger cylinder.",
            water.peak.total,
            water.spare,
        )
    if water.flow_spare is not None and water.flow_spare.value < 0:
        yield _found(
            "Hot water hotter than the unit makes",
            f"A reheat to {water.set_temperature.shown()} ends "
            f"{-water.flow_spare.value:.1f} K above the hottest water the unit makes.",
            "Set the cylinder cooler with a hygiene decision to match, or choose another unit.",
            water.flow_spare,
        )
    if water.coil_fit is CoilFit.SMALL:
        yield _found(
            "Coil of the cylinder",
            "Its surface is small for the unit's output.",
            "Expect hotter flow and longer reheats, or a cylinder with a larger coil.",
            water.coil_approach,
        )
    if water.hygiene_need in (HygieneNeed.NOT_DECIDED, HygieneNeed.BELOW_SIXTY):
        undecided = water.hygiene_need is HygieneNeed.NOT_DECIDED
        yield _found(
            "Hot-water hygiene",
            "No regime is recorded." if undecided else "The regime never reaches 60 °C.",
            "Decide it with the household or the landlord's risk assessment, and record it.",
            water.hygiene_run,
        )


def _unit(design: Design) -> Iterator[Shortfall]:
    fit = design.fit
    if fit.capacity_fit is not CapacityFit.RIGHT:
        is_short = fit.capacity_fit is CapacityFit.SHORT
        yield _found(
            "Size of the heat pump",
            f"It gives {fit.capacity_at_design.shown()} at the design temperature, "
            f"{fit.capacity_ratio.shown()} of what is needed with hot water counted.",
            "A larger unit, less loss, or backup with its cost told."
            if is_short
            else "Check the heat loss for stacked margins before ordering; it will stop and start.",
            fit.capacity_at_design,
            fit.capacity_ratio,
        )


def _cold_air(design: Design) -> Iterator[Shortfall]:
    lowest = design.home.plant.heat_pump.lowest_outdoor_temperature
    outdoor = design.heat_loss.outdoor_temperature
    if lowest is not None and outdoor.value < lowest:
        yield _found(
            "Air colder than the unit runs in",
            f"The unit stops below {shown(lowest, '°C')}; the design temperature is "
            f"{outdoor.shown()}.",
            "Another unit, or backup for the whole loss, with its cost told.",
            outdoor,
        )


def _night(design: Design) -> Iterator[Shortfall]:
    """A colder night as planned, held against the deepest that is worth setting."""
    planned, advised = design.home.controls.setback, design.setback.advised_depth
    if planned is None or planned.by <= advised.value + 0.5:
        return
    option = min(design.setback.options, key=lambda one: abs(one.depth.value - planned.by))
    wise = f"At most {advised.shown()}." if advised.value > 0 else "Keep the rooms steady."
    yield _found(
        "Colder night as planned",
        f"{shown(planned.by, 'K')} is planned; {option.depth.shown()} changes the heating's cost "
        f"by {option.low.shown()} to {option.high.shown()}, and the rooms are warm again after "
        f"{option.hours_to_recover.shown()}.",
        f"{wise} A long return leaves rooms cold in the morning.",
        option.cost_change,
        option.hours_to_recover,
        advised,
    )


def _sound(design: Design) -> Iterator[Shortfall]:
    for window in design.sound:
        if window.limit is not None and window.level.value > window.limit.value:
            yield _found(
                f"Sound at {window.name}",
                f"{window.level.shown()} predicted, {window.limit.shown()} allowed.",
                "Move the unit, hide it by a solid barrier, or a quieter unit.",
                window.level,
            )


def _drain(design: Design) -> Iterator[Shortfall]:
    drain = design.condensate
    if drain.verdict is DrainVerdict.SMALL and drain.soakaway_found is not None:
        yield _found(
            "Soakaway for the meltwater",
            f"{drain.soakaway_found.shown()} of gravel, {drain.soakaway_needed.shown()} needed.",
            "Enlarge the pit, or lead the water to a drain with a frost-safe trap.",
            drain.soakaway_needed,
            drain.soakaway_found,
        )
    if drain.crosses_path:
        yield _found(
            "Meltwater reaches a path",
            f"Up to {drain.per_day.shown()} on a damp day can freeze where people walk.",
            "Lead it away under the path.",
            drain.per_day,
        )
