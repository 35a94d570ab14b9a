"""The design as a document: for the command line in short, for the engineer's report in full."""

from __future__ import annotations

from collections.abc import Iterator

from hearthbook.design.checks import shortfalls
from hearthbook.design.results import Design
from hearthbook.design.shortfall import Shortfall
from hearthbook.documents.blocks import (
    Block,
    Bullets,
    Cell,
    Column,
    Document,
    Figures,
    Section,
    Table,
    Tag,
    Text,
)
from hearthbook.documents.figures import KeyFigure, assumptions_in
from hearthbook.documents.inline import escaped

__all__ = ["design_document", "design_sections", "shortfall_section"]


def design_document(design: Design) -> tuple[Document, tuple[Shortfall, ...]]:
    """The design's results as a document, and what falls short."""
    home = design.home
    found = shortfalls(design)
    document = Document(
        title=f"Design of {home.name}",
        subtitle=f"{home.reference}, revision {home.revision}",
        kind="report",
        home=home.name,
        issued=home.issued,
        blocks=(shortfall_section(found), *design_sections(design)),
        revision=str(home.revision),
    )
    return document, found


def design_sections(design: Design) -> tuple[Section, ...]:
    """The chapters of the design, in the order of the job."""
    return (
        _heat_loss(design),
        _emitters(design),
        _curve(design),
        _water(design),
        _hydraulics(design),
        *_hot_water(design),
        _heat_pump(design),
        *_cost(design),
        *_outside(design),
        *_open_answers(design),
    )


def shortfall_section(found: tuple[Shortfall, ...]) -> Section:
    """What falls short, and what to do about it."""
    blocks: tuple[Block, ...]
    if found:
        columns = (Column("What", share=2), Column("Found", share=4), Column("What to do", share=4))
        rows = tuple(
            (escaped(one.subject), escaped(one.finding), escaped(one.advice)) for one in found
        )
        blocks = (Table("What falls short", columns, rows),)
    else:
        blocks = (Text("Nothing falls short of the working limits."),)
    return Section("What falls short", "shortfalls", blocks)


def _cell(figure: KeyFigure | None) -> Cell:
    return "not known" if figure is None else figure


def _known(*figures: KeyFigure | None) -> Figures:
    return Figures(tuple(figure for figure in figures if figure is not None))


def _numbers(*titles: str) -> tuple[Column, ...]:
    first, *rest = titles
    return (Column(first, share=2), *(Column(title, numeric=True) for title in rest))


def _heat_loss(design: Design) -> Section:
    loss = design.heat_loss
    rows = tuple(
        (escaped(r.room.name), r.temperature, r.transmission, r.ventilation, r.total)
        for r in loss.rooms
    )
    rooms = Table(
        "Design heat loss, room by room",
        _numbers("Room", "Wanted", "Transmission", "Ventilation", "Total"),
        rows,
    )
    blocks: list[Block] = [
        _known(
            loss.outdoor_temperature,
            loss.total,
            loss.transmission,
            loss.ventilation,
            loss.coefficient,
            loss.specific_loss,
            loss.base_temperature,
        ),
        rooms,
    ]
    if loss.bill_check is not None:
        check = loss.bill_check
        blocks += [_known(check.coefficient, check.ratio), Text(escaped(check.advice))]
    return Section("Heat loss", "heat-loss", tuple(blocks))


def _emitters(design: Design) -> Section:
    schedule = design.emitters
    rooms = Table(
        "Rooms and the flow temperature each needs",
        _numbers("Room", "Load", "Output", "Covered", "Needs flow of", "Deciding"),
        tuple(
            (
                escaped(r.room.name),
                r.load,
                r.output,
                _cell(r.coverage),
                _cell(r.required_flow_temperature),
                "yes" if r.is_limiting else "no",
            )
            for r in schedule.rooms
        ),
    )
    blocks: list[Block] = [
        _known(
            schedule.flow_temperature,
            schedule.return_temperature,
            schedule.required_flow_temperature,
        ),
        rooms,
        _schedule(design),
    ]
    if schedule.next_larger:
        blocks.append(_upgrades(design))
    return Section("Emitters", "emitters", tuple(blocks))


def _schedule(design: Design) -> Table:
    return Table(
        "Emitter schedule",
        _numbers("Emitter", "At 50 K", "Exponent", "At design", "Flow rate", "Water"),
        tuple(
            (
                f"{e.emitter.number} {escaped(e.emitter.name)}",
                e.rated_output,
                e.exponent,
                e.output,
                e.design_flow_rate,
                e.water_content,
            )
            for e in design.emitters.emitters
        ),
    )


def _upgrades(design: Design) -> Table:
    return Table(
        "What a larger emitter in the deciding room wins for the whole home, one after another",
        _numbers("Exchange", "Home then needs", "Won at design", "Saving", "Extra cost"),
        tuple(
            (
                escaped(f"{design.home.emitter(u.emitter_id).name}: {u.description}"),
                u.home_flow_temperature,
                u.won,
                u.saving.shown_with_range(),
                _cell(u.extra_cost),
            )
            for u in design.emitters.next_larger
        ),
    )


def _curve(design: Design) -> Section:
    curve = design.curve
    wanted = (-5.0, -3.0, 0.0, 3.0, 5.0, 7.0, 10.0, 13.0, 15.0)
    points = tuple(p for p in curve.points if p.outdoor.value in wanted)
    table = Table(
        "The home's own curve, and as set",
        _numbers("Outdoor", "Flow", "Return", "As set"),
        tuple((p.outdoor.shown(), p.flow, p.return_, _cell(p.set_flow)) for p in points),
    )
    fit = curve.fit
    entered = ", ".join(f"{p.flow.shown()} at {p.outdoor.shown()}" for p in fit.points)
    blocks: list[Block] = [
        _known(curve.design_flow, curve.exponent, curve.base_temperature, curve.room_influence),
        table,
        Text(escaped(f"To enter: {entered}.")),
        _known(
            fit.slope,
            fit.level,
            fit.largest_difference,
            curve.minimum,
            curve.maximum,
            curve.heating_limit,
            curve.mean_flow,
        ),
    ]
    if curve.as_set is not None:
        comparison = curve.as_set
        blocks.append(
            _known(
                comparison.mean,
                comparison.largest_above,
                comparison.largest_below,
                comparison.cost_share,
                comparison.cost_energy,
            )
        )
    return Section("Weather curve", "curve", tuple(blocks))


def _water(design: Design) -> Section:
    volume = design.volume
    parts = Table(
        "Water in the system",
        (*_numbers("Part", "Volume"), Column("Always circulates")),
        tuple((escaped(p.name), p.volume, "yes" if p.is_open else "no") for p in volume.parts),
    )
    return Section(
        "Water, vessel and pressures",
        "water",
        (
            parts,
            _known(
                volume.total,
                volume.open,
                volume.needed_for_defrost,
                volume.needed_for_run,
                volume.maker_minimum,
                volume.spare,
                volume.added_volume_needed,
                volume.added_volume_spare,
            ),
            *_pressures(design),
        ),
    )


def _pressures(design: Design) -> tuple[Figures, Figures]:
    """The vessel with its pressures, then the marks of the gauge."""
    expansion = design.expansion
    return (
        _known(
            expansion.expanded_volume,
            expansion.reserve,
            expansion.nominal_vessel_needed,
            expansion.vessel_installed,
            expansion.precharge_wanted,
            expansion.precharge_found,
            expansion.cold_fill,
            expansion.cold_fill_found,
            expansion.hot_pressure,
            expansion.hot_pressure_hot_water,
            expansion.flat_vessel_hot_pressure,
            expansion.safety_valve,
            expansion.margin,
        ),
        _known(
            expansion.top_up_below,
            expansion.normal_cold,
            expansion.normal_hot,
            expansion.call_above,
            expansion.litres_per_tenth_bar,
            expansion.top_up_volume,
            expansion.fill_time,
        ),
    )


_PIPE_TAGS = {
    "within": Tag("good", "good"),
    "fast": Tag("fast", "bad"),
    "steep": Tag("steep", "bad"),
    "slow": Tag("slow", "look"),
}


def _hydraulics(design: Design) -> Section:
    hydraulics = design.hydraulics
    pipes = Table(
        "Pipes at design flow",
        (*_numbers("Run", "Flow", "Velocity", "Gradient", "Loss"), Column("Limit")),
        tuple(
            (escaped(p.name), p.flow, p.velocity, p.gradient, p.loss, _PIPE_TAGS[p.verdict])
            for p in hydraulics.pipes
        ),
    )
    return Section(
        "Flow rates and pressure losses",
        "hydraulics",
        (
            _known(
                hydraulics.system_flow,
                hydraulics.minimum_flow,
                hydraulics.nominal_flow,
                hydraulics.index_loss,
                hydraulics.unit_loss,
                hydraulics.pump_head,
                hydraulics.pump_spare,
            ),
            pipes,
        ),
    )


def _hot_water(design: Design) -> Iterator[Section]:
    water = design.hot_water
    if water is None:
        return
    yield Section(
        "Hot water",
        "hot-water",
        (
            _known(
                water.stored_mixed_volume,
                water.peak.total,
                water.peak_supply,
                water.spare,
                water.reheat_energy,
                water.reheat_time,
                water.shower_reheat_time,
                water.two_showers_reheat_time,
                water.cold_reheat_time,
                water.coil_approach,
                water.standing_loss_per_year,
                water.hygiene_run,
                water.hygiene_energy_per_year,
            ),
        ),
    )


def _heat_pump(design: Design) -> Section:
    fit, energy = design.fit, design.fit.energy
    months = Table(
        "The year by month",
        _numbers("Month", "Heat", "Electricity", "Low", "High"),
        tuple((m.name, m.heat, m.electricity, m.low, m.high) for m in fit.monthly),
    )
    return Section(
        "Heat pump and year",
        "heat-pump",
        (
            _known(
                fit.capacity_at_design,
                fit.capacity_ratio,
                fit.balance_point,
                fit.least_output,
                fit.steady_below,
                fit.share_of_hours_steady,
                fit.backup_share,
                fit.seasonal_efficiency_standard,
                energy.seasonal_efficiency,
                energy.heat_per_year,
                energy.electricity_per_year,
                energy.electricity_space,
                energy.electricity_hot_water,
            ),
            _days(design),
            months,
        ),
    )


def _days(design: Design) -> Table:
    return Table(
        "A day at several outdoor temperatures",
        _numbers(
            "Outdoor", "Heat", "Flow", "Efficiency", "Electricity", "Runs", "Defrosts an hour"
        ),
        tuple(
            (
                day.outdoor.shown(),
                day.heat,
                day.flow_temperature,
                day.efficiency,
                day.electricity,
                day.share_running,
                day.defrosts_high,
            )
            for day in design.fit.by_outdoor
        ),
    )


def _cost(design: Design) -> Iterator[Section]:
    cost = design.cost
    if cost is None:
        return
    previous = cost.previous
    blocks: list[Block] = [
        _known(
            cost.price,
            cost.year,
            cost.space,
            cost.hot_water,
            cost.standing,
            cost.price_per_heat,
            cost.degree,
            cost.backup_unit,
        )
    ]
    if previous is not None:
        blocks.append(
            _known(
                previous.price_per_heat,
                previous.year,
                previous.saving,
                previous.break_even_efficiency,
            )
        )
    yield Section("Running cost", "cost", tuple(blocks))


def _outside(design: Design) -> Iterator[Section]:
    if design.sound:
        rows = tuple(
            (
                escaped(w.name),
                w.level,
                _cell(w.quiet_level),
                _cell(w.limit),
                _cell(w.distance_needed),
            )
            for w in design.sound
        )
        heads = _numbers("Window", "Full load", "Quiet", "Limit", "Distance for the limit")
        yield Section("Sound", "sound", (Table("Sound at neighbours' windows", heads, rows),))
    drain = design.condensate
    yield Section(
        "Condensate and meltwater",
        "condensate",
        (
            _known(
                drain.per_day,
                drain.per_day_least,
                drain.in_one_defrost,
                drain.soakaway_needed,
                drain.soakaway_found,
                drain.drained_per_day,
            ),
        ),
    )


def _open_answers(design: Design) -> Iterator[Section]:
    if design.unknowns:
        items = tuple(escaped(f"{u.question} ({u.place}) {u.why}") for u in design.unknowns)
        yield Section("Still to be found out", "unknowns", (Bullets(items),))
    assumed = assumptions_in(design)
    if assumed:
        rows = tuple(
            (escaped(f.label), f.shown_with_range(), escaped(f.working.source)) for f in assumed
        )
        columns = (
            Column("Assumed", share=4),
            Column("Value", numeric=True),
            Column("Source", share=3),
        )
        yield Section("Assumptions", "assumptions", (Table("Assumptions", columns, rows),))
