"""A heated floor's rating: its characteristic, and what its surface limit allows."""

from __future__ import annotations

from dataclasses import replace

from hearthbook.design.emitter_rating import (
    Rating,
    Water,
    derate,
    figure_name,
    radiator_rating,
    record_place,
)
from hearthbook.design.emitter_results import Characteristic
from hearthbook.documents.figures import Basis, KeyFigure, Working, calculated, given
from hearthbook.physics import emitters as physics
from hearthbook.physics import underfloor
from hearthbook.record.building import Room, RoomUse
from hearthbook.record.emitters import Emitter, Underfloor

__all__ = ["EN1264", "floor_rating", "floor_surface"]

EN1264 = "EN 1264-2, type A"
_SURFACE_LIMIT, _SURFACE_LIMIT_BATHROOM, _SURFACE_LIMIT_EDGE = 29.0, 33.0, 35.0  # °C; EN 1264-2


def floor_rating(
    emitter: Underfloor, room: Room, room_temperature: KeyFigure, water: Water
) -> Rating:
    """The rating of a heated floor.

    Raises:
        OutOfRange: its build lies outside EN 1264-2.
    """
    if emitter.rated_output is not None:
        return _rated_floor(emitter, room, room_temperature, water)
    drop = water.drop
    if emitter.own_drop is not None:
        drop = given(figure_name(emitter, "own_drop"), "flow–return difference of its loops",
                     emitter.own_drop, "K", place=record_place(emitter, "own_drop"))  # fmt: skip
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
        figure_name(emitter, "slope"), "heat per m² of floor and K of water above room", slope,
        "W/(m²·K)", formula="K = 6.7 · a_B · a_T^m_T · a_U^m_U · a_D^m_D", inputs=build,
        source=EN1264,
    )  # fmt: skip
    limit = _surface_limit(emitter, room)
    rated = _limiting_output(emitter, slope_figure, limit, room_temperature)
    left = derate(emitter)
    exponent = KeyFigure(
        figure_name(emitter, "exponent"), "exponent", 1.0, "", Basis.DOCUMENTED,
        Working(source=EN1264, note="the standard's characteristic is a straight line"),
    )  # fmt: skip
    at_rating = slope * emitter.area * physics.RATED_LOGARITHMIC_EXCESS * left.value
    characteristic = Characteristic(at_rating, 1.0, drop.value, True, rated.value)
    return Rating(rated, exponent, left, drop, characteristic, limit, slope_figure)


def _rated_floor(
    emitter: Underfloor, room: Room, room_temperature: KeyFigure, water: Water
) -> Rating:
    """A floor with a recorded rating, held to what an evenly warm surface may give."""
    rating, limit = radiator_rating(emitter, water), _surface_limit(emitter, room)
    flux = underfloor.surface_heat_flux(_allowed_above_room(emitter, limit, room_temperature))
    characteristic = replace(rating.characteristic, limit=float(flux) * emitter.area)
    return replace(rating, characteristic=characteristic, surface_limit=limit)


def floor_surface(
    emitter: Emitter, output: KeyFigure, room_temperature: KeyFigure
) -> KeyFigure | None:
    """Mean surface of a heated floor at its output; None for other emitters."""
    if not isinstance(emitter, Underfloor):
        return None
    area = given(figure_name(emitter, "area"), "heated floor", emitter.area, "m²",
                 place=record_place(emitter, "area"))  # fmt: skip
    flux = output.value / emitter.area
    return calculated(
        figure_name(emitter, "surface_temperature"),
        "mean floor surface at design",
        float(underfloor.surface_temperature(min(flux, 240.0), room_temperature.value)),
        "°C",
        formula="θ_F = T_i + (Φ/A / 8.92)^(1/1.1)",
        inputs=(output, area, room_temperature),
        source="EN 1264-2, basic characteristic curve",
    )


def _floor_build(emitter: Underfloor) -> tuple[KeyFigure, ...]:
    fields = (
        ("spacing", "distance between pipes", "mm"),
        ("pipe_diameter", "pipe, outside", "mm"),
        ("covering_resistance", "resistance of the covering", "m²·K/W"),
        ("screed_thickness", "screed above the pipes", "mm"),
        ("screed_conductivity", "conductivity of the screed", "W/(m·K)"),
    )
    return tuple(
        given(figure_name(emitter, field), label, getattr(emitter, field), unit,
              place=record_place(emitter, field))
        for field, label, unit in fields
    )  # fmt: skip


def _surface_limit(emitter: Underfloor, room: Room) -> KeyFigure:
    value = _SURFACE_LIMIT_BATHROOM if room.use is RoomUse.BATHROOM else _SURFACE_LIMIT
    if emitter.is_edge_zone:
        value = _SURFACE_LIMIT_EDGE
    return KeyFigure(
        figure_name(emitter, "surface_limit"), "highest floor surface allowed", value, "°C",
        Basis.DOCUMENTED,
        Working(source="EN 1264-2: 29 °C where people stay, 33 °C in bathrooms, 35 °C in edge "
                "strips"),
    )  # fmt: skip


def _limiting_output(
    emitter: Underfloor, slope: KeyFigure, limit: KeyFigure, room_temperature: KeyFigure
) -> KeyFigure:
    allowed = _allowed_above_room(emitter, limit, room_temperature)
    flux = underfloor.limiting_heat_flux(
        slope.value,
        min(emitter.spacing, 0.375),
        emitter.screed_thickness,
        emitter.screed_conductivity,
        allowed,
    )
    area = given(figure_name(emitter, "area"), "heated floor", emitter.area, "m²",
                 place=record_place(emitter, "area"))  # fmt: skip
    return calculated(
        figure_name(emitter, "rated_output"),
        "largest output its surface limit allows",
        float(flux) * emitter.area,
        "W",
        formula="Φ_G = A · φ · B_G · (Δθ_G/φ)^n_G, where it meets K · Δθ_G",
        inputs=(slope, limit, room_temperature, area),
        source="EN 1264-2, limit curves, tables A.4 to A.7",
        note=f"warmest line of the floor {allowed:.1f} K above the room",
    )


def _allowed_above_room(
    emitter: Underfloor, limit: KeyFigure, room_temperature: KeyFigure
) -> float:
    """How far its surface may lie above the room: to its limit, and never beyond the standard's."""
    nominal = (
        underfloor.HIGHEST_SURFACE_ABOVE_ROOM_IN_EDGE_ZONE
        if emitter.is_edge_zone
        else underfloor.HIGHEST_SURFACE_ABOVE_ROOM
    )
    return max(0.1, min(nominal, limit.value - room_temperature.value))
