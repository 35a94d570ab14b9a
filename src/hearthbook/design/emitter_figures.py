"""One emitter's figures: rating, output at the design flow, water."""

from __future__ import annotations

from dataclasses import replace

from hearthbook.design import typical_emitters as typical
from hearthbook.design.emitter_rating import (
    EN442,
    Rating,
    Water,
    figure_name,
    not_answered,
    radiator_rating,
    record_place,
)
from hearthbook.design.emitter_results import EmitterResult
from hearthbook.design.floor_rating import EN1264, floor_rating, floor_surface
from hearthbook.documents.figures import KeyFigure, assumed, calculated, given
from hearthbook.errors import OutOfRange
from hearthbook.physics import emitters as physics
from hearthbook.record.building import Room
from hearthbook.record.emitters import Emitter, PanelRadiator, TowelRail, Underfloor

__all__ = ["emitter_result", "with_duty"]

_TOWEL_RAIL_CONTENT = 0.004  # m³; from memory
_FAN_ASSISTED_CONTENT = 0.0015  # m³; from memory


def emitter_result(
    emitter: Emitter, room: Room, room_temperature: KeyFigure, water: Water
) -> EmitterResult:
    """The figures of one emitter at the design flow temperature.

    Raises:
        Incomplete: a fan-assisted emitter has no rated output; there is no usual one.
    """
    rating = _rating(emitter, room, room_temperature, water)
    excess = _mean_excess(emitter, room_temperature, water.flow, rating)
    output = _output(emitter, rating, excess, water.flow, room_temperature)
    return EmitterResult(
        emitter=emitter,
        room_id=room.id,
        output=output,
        duty=output,
        rated_output=rating.rated,
        exponent=rating.exponent,
        derate=rating.derate,
        mean_excess=excess,
        design_flow_rate=_flow_rate(emitter, output, rating.drop),
        water_content=_water_content(emitter),
        characteristic=rating.characteristic,
        surface_temperature=floor_surface(emitter, output, room_temperature),
        surface_limit=rating.surface_limit,
    )


def with_duty(result: EmitterResult, load: KeyFigure, room_output: KeyFigure) -> EmitterResult:
    """The result with its share of the room's load, and the water it needs for that."""
    share = load.value * result.output.value / room_output.value if room_output.value else 0.0
    duty = calculated(
        f"emitters.{result.emitter.id}.duty",
        "heat it is to carry",
        max(0.0, min(share, result.output.value)),
        "W",
        formula="Φ = min(Φ_room · Φ_emitter / ΣΦ_emitters, Φ_emitter)",
        inputs=(load, result.output, room_output),
        source="heat balance of the room",
    )
    drop = result.design_flow_rate.working.inputs[-1]
    rate = _flow_rate(result.emitter, duty, drop)
    return replace(result, duty=duty, design_flow_rate=rate)


def _rating(emitter: Emitter, room: Room, room_temperature: KeyFigure, water: Water) -> Rating:
    try:
        if isinstance(emitter, Underfloor):
            return floor_rating(emitter, room, room_temperature, water)
        return radiator_rating(emitter, water)
    except OutOfRange as refused:
        raise OutOfRange(f"{emitter.name}: {refused}") from refused
    except ArithmeticError as failed:
        message = f"{emitter.name}: its sizes give no output. Check them."
        raise OutOfRange(message) from failed


def _mean_excess(
    emitter: Emitter, room_temperature: KeyFigure, flow: KeyFigure, rating: Rating
) -> KeyFigure:
    room, drop = room_temperature.value, rating.drop.value
    back = flow.value - drop
    inputs = (flow, rating.drop, room_temperature)
    name, label = figure_name(emitter, "mean_excess"), "mean water above room"
    if back - room < 1e-6:
        return calculated(
            name, label, max(0.0, flow.value - drop / 2 - room), "K",
            formula="ΔT_m = T_f − ΔT/2 − T_i", inputs=inputs, source=EN442,
            note="the return would be colder than the room: no heat is counted",
        )  # fmt: skip
    ratio = float(physics.drop_ratio(flow.value, back, room))
    is_floor = rating.characteristic.is_floor
    if is_floor or ratio >= physics.LOGARITHMIC_FROM:
        why = "as EN 1264-2 has it" if is_floor else f"the drop is {ratio:.2f} of the flow's excess"
        return calculated(
            name, label, float(physics.logarithmic_mean_excess(flow.value, back, room)), "K",
            formula="ΔT_ln = ΔT / ln((T_f − T_i)/(T_r − T_i))", inputs=inputs, source=EN442,
            note=f"logarithmic mean: {why}",
        )  # fmt: skip
    return calculated(
        name, label, float(physics.arithmetic_mean_excess(flow.value, back, room)), "K",
        formula="ΔT_m = T_f − ΔT/2 − T_i", inputs=inputs, source=EN442,
        note=f"arithmetic mean: the drop is {ratio:.2f} of the flow's excess, under 0.3",
    )  # fmt: skip


def _output(
    emitter: Emitter,
    rating: Rating,
    excess: KeyFigure,
    flow: KeyFigure,
    room_temperature: KeyFigure,
) -> KeyFigure:
    value = rating.characteristic.output(flow.value, room_temperature.value)
    is_floor = rating.slope is not None
    spread = rating.rated.uncertainty
    return calculated(
        figure_name(emitter, "output"),
        "output at the design flow temperature",
        value,
        "W",
        formula="Φ = min(K · A · k · ΔT_ln, Φ_G)"
        if is_floor
        else "Φ = Φ_50 · k · (ΔT_m/ΔT_{m,50})^n",
        inputs=tuple(
            part
            for part in (rating.slope, rating.rated, rating.derate, excess, rating.exponent)
            if part is not None
        ),
        source=EN1264 if is_floor else EN442,
        uncertainty=None if spread is None else value * spread / rating.rated.value,
        note="ΔTm,50 is 50 K, or 49.833 K for the logarithmic mean" if not is_floor else "",
    )


def _flow_rate(emitter: Emitter, heat: KeyFigure, drop: KeyFigure) -> KeyFigure:
    return calculated(
        figure_name(emitter, "design_flow_rate"),
        "design flow rate",
        float(physics.design_flow_rate(heat.value, drop.value)),
        "L/min",
        formula="q = Φ / (ρ·c·ΔT), with ρ·c = 4.186 kJ/(L·K)",
        inputs=(heat, drop),
        source="heat balance of the water",
    )


def _water_content(emitter: Emitter) -> KeyFigure:
    name, label = figure_name(emitter, "water_content"), "water in it"
    if emitter.water_content is not None:
        place = record_place(emitter, "water_content")
        return given(name, label, emitter.water_content, "L", place=place)
    missing = not_answered(emitter, "water_content")
    if isinstance(emitter, Underfloor):
        value = float(
            typical.floor_water_content(emitter.area, emitter.spacing, emitter.pipe_diameter)
        )
        return assumed(
            name, label, value, "L", source="geometry, pipe wall 2 mm",
            note=f"{missing}; {emitter.area / emitter.spacing:.0f} m of pipe",
        )  # fmt: skip
    if isinstance(emitter, PanelRadiator):
        value = float(
            typical.panel_water_content(emitter.panel_type, emitter.height, emitter.length)
        )
    else:
        is_rail = isinstance(emitter, TowelRail)
        value = _TOWEL_RAIL_CONTENT if is_rail else _FAN_ASSISTED_CONTENT
    figure = assumed(name, label, value, "L", source=typical.CONTENT_SOURCE, note=missing)
    return replace(figure, uncertainty=typical.CONTENT_SPREAD * value)
