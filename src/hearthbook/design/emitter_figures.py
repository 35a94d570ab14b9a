"""One emitter's figures: rating, derates, output at the design flow, water."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from hearthbook.design import typical_emitters as typical
from hearthbook.design.emitter_results import Characteristic, EmitterResult
from hearthbook.documents.figures import KeyFigure, assumed, calculated, given
from hearthbook.errors import Incomplete
from hearthbook.physics import emitters as physics
from hearthbook.physics import underfloor
from hearthbook.record.building import Room, RoomUse
from hearthbook.record.emitters import Emitter, PanelRadiator, TowelRail, Underfloor

__all__ = ["Water", "emitter_result", "with_duty"]

_EN442 = "EN 442-2, characteristic equation"
_EN1264 = "EN 1264-2, type A"
_TOWEL_RAIL_OUTPUT = 400.0  # W at 50 K, 0.5 by 1.2 m rail; from memory, within 40 %
_TOWEL_RAIL_CONTENT = 0.004  # m³; from memory
_FAN_ASSISTED_CONTENT = 0.0015  # m³; from memory
_SURFACE_LIMIT, _SURFACE_LIMIT_BATHROOM, _SURFACE_LIMIT_EDGE = 29.0, 33.0, 35.0  # °C; EN 1264-2


@dataclass(frozen=True)
class Water:
    """The water all emitters share at design.

    Attributes:
        flow: flow temperature.
        drop: flow minus return.
    """

    flow: KeyFigure
    drop: KeyFigure


@dataclass(frozen=True)
class _Rating:
    """Rated output with what the rest of the figures need of it."""

    rated: KeyFigure
    exponent: KeyFigure
    derate: KeyFigure
    drop: KeyFigure
    characteristic: Characteristic
    surface_limit: KeyFigure | None = None
    slope: KeyFigure | None = None


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
        surface_temperature=_surface(emitter, output, room_temperature),
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


def _name(emitter: Emitter, figure: str) -> str:
    return f"emitters.{emitter.id}.{figure}"


def _place(emitter: Emitter, field: str) -> str:
    return f"emitters[{emitter.id}].{field}"


def _rating(emitter: Emitter, room: Room, room_temperature: KeyFigure, water: Water) -> _Rating:
    if isinstance(emitter, Underfloor) and emitter.rated_output is None:
        return _floor_rating(emitter, room, room_temperature, water)
    rated = _rated_output(emitter)
    exponent = _exponent(emitter)
    derate = _derate(emitter)
    characteristic = Characteristic(rated.value * derate.value, exponent.value, water.drop.value)
    return _Rating(rated, exponent, derate, water.drop, characteristic)


def _rated_output(emitter: Emitter) -> KeyFigure:
    name, label = _name(emitter, "rated_output"), "rated output at 50 K"
    if emitter.rated_output is not None:
        return given(name, label, emitter.rated_output, "W", place=_place(emitter, "rated_output"))
    if isinstance(emitter, PanelRadiator):
        value = typical.panel_output(emitter.panel_type, emitter.height, emitter.length)
        figure = assumed(name, label, float(value), "W", source=typical.OUTPUT_SOURCE)
        return replace(figure, uncertainty=float(value) * typical.OUTPUT_SPREAD)
    if isinstance(emitter, TowelRail):
        figure = assumed(
            name, label, _TOWEL_RAIL_OUTPUT, "W", source="from memory", note="a rail 0.5 by 1.2 m"
        )
        return replace(figure, uncertainty=0.4 * _TOWEL_RAIL_OUTPUT)
    raise Incomplete(
        f"{emitter.name} ({emitter.id}) has no rated output and there is no usual one for its "
        f"kind. Take the output at 50 K from its maker's sheet and enter it as rated_output."
    )


def _exponent(emitter: Emitter) -> KeyFigure:
    name, label = _name(emitter, "exponent"), "exponent"
    if emitter.exponent is not None:
        return given(name, label, emitter.exponent, "", place=_place(emitter, "exponent"))
    usual = typical.USUAL_EXPONENT[emitter.kind]
    return assumed(name, label, usual.value, "", source=usual.source, note=usual.note)


def _derate(emitter: Emitter) -> KeyFigure:
    parts = tuple(
        given(
            _name(emitter, field), label, getattr(emitter, field), "", place=_place(emitter, field)
        )
        for field, label in (
            ("covered", "share left by covers"),
            ("connection", "share left by the connection"),
            ("paint", "share left by the paint"),
        )
    )
    return calculated(
        _name(emitter, "derate"),
        "share of output left",
        math.prod(part.value for part in parts),
        "",
        formula="k = covers · connection · paint",
        inputs=parts,
        source="common practice, no source",
    )


def _mean_excess(
    emitter: Emitter, room_temperature: KeyFigure, flow: KeyFigure, rating: _Rating
) -> KeyFigure:
    room, drop = room_temperature.value, rating.drop.value
    back = flow.value - drop
    inputs = (flow, rating.drop, room_temperature)
    name, label = _name(emitter, "mean_excess"), "mean water above room"
    if back - room < 1e-6:
        return calculated(
            name, label, max(0.0, flow.value - drop / 2 - room), "K",
            formula="ΔT_m = T_f − ΔT/2 − T_i", inputs=inputs, source=_EN442,
            note="the return would be colder than the room: no heat is counted",
        )  # fmt: skip
    ratio = float(physics.drop_ratio(flow.value, back, room))
    is_floor = rating.characteristic.is_floor
    if is_floor or ratio >= physics.LOGARITHMIC_FROM:
        why = "as EN 1264-2 has it" if is_floor else f"the drop is {ratio:.2f} of the flow's excess"
        return calculated(
            name, label, float(physics.logarithmic_mean_excess(flow.value, back, room)), "K",
            formula="ΔT_ln = ΔT / ln((T_f − T_i)/(T_r − T_i))", inputs=inputs, source=_EN442,
            note=f"logarithmic mean: {why}",
        )  # fmt: skip
    return calculated(
        name, label, float(physics.arithmetic_mean_excess(flow.value, back, room)), "K",
        formula="ΔT_m = T_f − ΔT/2 − T_i", inputs=inputs, source=_EN442,
        note=f"arithmetic mean: the drop is {ratio:.2f} of the flow's excess, under 0.3",
    )  # fmt: skip


def _output(
    emitter: Emitter,
    rating: _Rating,
    excess: KeyFigure,
    flow: KeyFigure,
    room_temperature: KeyFigure,
) -> KeyFigure:
    value = rating.characteristic.output(flow.value, room_temperature.value)
    is_floor = rating.slope is not None
    spread = rating.rated.uncertainty
    return calculated(
        _name(emitter, "output"),
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
        source=_EN1264 if is_floor else _EN442,
        uncertainty=None if spread is None else value * spread / rating.rated.value,
        note="ΔTm,50 is 50 K, or 49.833 K for the logarithmic mean" if not is_floor else "",
    )


def _flow_rate(emitter: Emitter, heat: KeyFigure, drop: KeyFigure) -> KeyFigure:
    return calculated(
        _name(emitter, "design_flow_rate"),
        "design flow rate",
        float(physics.design_flow_rate(heat.value, drop.value)),
        "L/min",
        formula="q = Φ / (ρ·c·ΔT), with ρ·c = 4.186 kJ/(L·K)",
        inputs=(heat, drop),
        source="heat balance of the water",
    )


def _water_content(emitter: Emitter) -> KeyFigure:
    name, label = _name(emitter, "water_content"), "water in it"
    if emitter.water_content is not None:
        place = _place(emitter, "water_content")
        return given(name, label, emitter.water_content, "L", place=place)
    if isinstance(emitter, Underfloor):
        value = float(
            typical.floor_water_content(emitter.area, emitter.spacing, emitter.pipe_diameter)
        )
        return assumed(
            name, label, value, "L", source="geometry, pipe wall 2 mm",
            note=f"{emitter.area / emitter.spacing:.0f} m of pipe",
        )  # fmt: skip
    if isinstance(emitter, PanelRadiator):
        value = float(
            typical.panel_water_content(emitter.panel_type, emitter.height, emitter.length)
        )
    else:
        is_rail = isinstance(emitter, TowelRail)
        value = _TOWEL_RAIL_CONTENT if is_rail else _FAN_ASSISTED_CONTENT
    figure = assumed(name, label, value, "L", source=typical.CONTENT_SOURCE)
    return replace(figure, uncertainty=typical.CONTENT_SPREAD * value)


def _surface(emitter: Emitter, output: KeyFigure, room_temperature: KeyFigure) -> KeyFigure | None:
    if not isinstance(emitter, Underfloor):
        return None
    area = given(_name(emitter, "area"), "heated floor", emitter.area, "m²",
                 place=_place(emitter, "area"))  # fmt: skip
    flux = output.value / emitter.area
    return calculated(
        _name(emitter, "surface_temperature"),
        "mean floor surface at design",
        float(underfloor.surface_temperature(min(flux, 240.0), room_temperature.value)),
        "°C",
        formula="θ_F = T_i + (Φ/A / 8.92)^(1/1.1)",
        inputs=(output, area, room_temperature),
        source="EN 1264-2, basic characteristic curve",
    )


def _floor_rating(
    emitter: Underfloor, room: Room, room_temperature: KeyFigure, water: Water
) -> _Rating:
    drop = water.drop
    if emitter.own_drop is not None:
        drop = given(_name(emitter, "own_drop"), "flow–return difference of its loops",
                     emitter.own_drop, "K", place=_place(emitter, "own_drop"))  # fmt: skip
    build = _floor_build(emitter)
    slope = float(
        underfloor.characteristic_slope(
            emitter.spacing,
            emitter.pipe_diameter,
            emitter.covering_resistance,
            emitter.screed_thickness,
            emitter.screed_conductivity,
        )
    )
    slope_figure = calculated(
        _name(emitter, "slope"), "heat per m² of floor and K of water above room", slope,
        "W/(m²·K)", formula="K = 6.7 · a_B · a_T^m_T · a_U^m_U · a_D^m_D", inputs=build,
        source=_EN1264,
    )  # fmt: skip
    limit = _surface_limit(emitter, room)
    rated = _limiting_output(emitter, slope_figure, limit, room_temperature)
    derate = _derate(emitter)
    exponent = assumed(
        _name(emitter, "exponent"), "exponent", 1.0, "", source=_EN1264,
        note="the standard's characteristic is a straight line",
    )  # fmt: skip
    at_rating = slope * emitter.area * physics.RATED_LOGARITHMIC_EXCESS * derate.value
    characteristic = Characteristic(at_rating, 1.0, drop.value, True, rated.value)
    return _Rating(rated, exponent, derate, drop, characteristic, limit, slope_figure)


def _floor_build(emitter: Underfloor) -> tuple[KeyFigure, ...]:
    fields = (
        ("spacing", "distance between pipes", "mm"),
        ("pipe_diameter", "pipe, outside", "mm"),
        ("covering_resistance", "resistance of the covering", "m²·K/W"),
        ("screed_thickness", "screed above the pipes", "mm"),
        ("screed_conductivity", "conductivity of the screed", "W/(m·K)"),
    )
    return tuple(
        given(_name(emitter, field), label, getattr(emitter, field), unit,
              place=_place(emitter, field))
        for field, label, unit in fields
    )  # fmt: skip


def _surface_limit(emitter: Underfloor, room: Room) -> KeyFigure:
    value = _SURFACE_LIMIT_BATHROOM if room.use is RoomUse.BATHROOM else _SURFACE_LIMIT
    if emitter.is_edge_zone:
        value = _SURFACE_LIMIT_EDGE
    return assumed(
        _name(emitter, "surface_limit"), "highest floor surface allowed", value, "°C",
        source="EN 1264-2: 29 °C where people stay, 33 °C in bathrooms, 35 °C in edge strips",
    )  # fmt: skip


def _limiting_output(
    emitter: Underfloor, slope: KeyFigure, limit: KeyFigure, room_temperature: KeyFigure
) -> KeyFigure:
    nominal = (
        underfloor.HIGHEST_SURFACE_ABOVE_ROOM_IN_EDGE_ZONE
        if emitter.is_edge_zone
        else underfloor.HIGHEST_SURFACE_ABOVE_ROOM
    )
    allowed = max(0.1, min(nominal, limit.value - room_temperature.value))
    flux = underfloor.limiting_heat_flux(
        slope.value,
        min(emitter.spacing, 0.375),
        emitter.screed_thickness,
        emitter.screed_conductivity,
        allowed,
    )
    area = given(_name(emitter, "area"), "heated floor", emitter.area, "m²",
                 place=_place(emitter, "area"))  # fmt: skip
    return calculated(
        _name(emitter, "rated_output"),
        "largest output its surface limit allows",
        float(flux) * emitter.area,
        "W",
        formula="Φ_G = A · φ · B_G · (Δθ_G/φ)^n_G, where it meets K · Δθ_G",
        inputs=(slope, limit, room_temperature, area),
        source="EN 1264-2, limit curves, tables A.4 to A.7",
        note=f"warmest line of the floor {allowed:.1f} K above the room",
    )
