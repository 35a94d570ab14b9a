"""What an emitter is rated at, before any water temperature is chosen."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from hearthbook.design import typical_emitters as typical
from hearthbook.design.emitter_results import Characteristic
from hearthbook.documents.figures import KeyFigure, assumed, calculated, given
from hearthbook.errors import Incomplete
from hearthbook.record.emitters import Emitter, PanelRadiator, TowelRail

__all__ = [
    "EN442",
    "Rating",
    "Water",
    "derate",
    "figure_name",
    "not_answered",
    "radiator_rating",
    "record_place",
]

EN442 = "EN 442-2, characteristic equation"
_TOWEL_RAIL_OUTPUT = 400.0  # W at 50 K, 0.5 by 1.2 m rail; from memory, within 40 %


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
class Rating:
    """Rated output with what the rest of the figures need of it."""

    rated: KeyFigure
    exponent: KeyFigure
    derate: KeyFigure
    drop: KeyFigure
    characteristic: Characteristic
    surface_limit: KeyFigure | None = None
    slope: KeyFigure | None = None


def figure_name(emitter: Emitter, figure: str) -> str:
    """The name by which `explain` finds a figure of an emitter."""
    return f"emitters.{emitter.id}.{figure}"


def record_place(emitter: Emitter, field: str) -> str:
    """Where in the record an emitter's field stands."""
    return f"emitters.{emitter.id}.{field}"


def radiator_rating(emitter: Emitter, water: Water) -> Rating:
    """The rating of anything but a heated floor, from its maker's figure or a usual one.

    Raises:
        Incomplete: a fan-assisted emitter has no rated output; there is no usual one.
    """
    rated = _rated_output(emitter)
    exponent = _exponent(emitter)
    left = derate(emitter)
    characteristic = Characteristic(rated.value * left.value, exponent.value, water.drop.value)
    return Rating(rated, exponent, left, water.drop, characteristic)


def derate(emitter: Emitter) -> KeyFigure:
    """Share of output left by covers, connection and paint."""
    parts = tuple(
        given(
            figure_name(emitter, field),
            label,
            getattr(emitter, field),
            "",
            place=record_place(emitter, field),
        )
        for field, label in (
            ("covered", "share left by covers"),
            ("connection", "share left by the connection"),
            ("paint", "share left by the paint"),
        )
    )
    return calculated(
        figure_name(emitter, "derate"),
        "share of output left",
        math.prod(part.value for part in parts),
        "",
        formula="k = covers · connection · paint",
        inputs=parts,
        source="common practice, no source",
    )


def _rated_output(emitter: Emitter) -> KeyFigure:
    name, label = figure_name(emitter, "rated_output"), "rated output at 50 K"
    if emitter.rated_output is not None:
        return given(
            name, label, emitter.rated_output, "W", place=record_place(emitter, "rated_output")
        )
    if isinstance(emitter, PanelRadiator):
        value = typical.panel_output(emitter.panel_type, emitter.height, emitter.length)
        figure = assumed(
            name, label, float(value), "W", source=typical.OUTPUT_SOURCE,
            note=not_answered(emitter, "rated_output"),
        )  # fmt: skip
        return replace(figure, uncertainty=float(value) * typical.OUTPUT_SPREAD)
    if isinstance(emitter, TowelRail):
        figure = assumed(
            name,
            label,
            _TOWEL_RAIL_OUTPUT,
            "W",
            source="from memory",
            note=f"{not_answered(emitter, 'rated_output')}; a rail 0.5 by 1.2 m",
        )
        return replace(figure, uncertainty=0.4 * _TOWEL_RAIL_OUTPUT)
    raise Incomplete(
        f"{emitter.name} ({emitter.id}) has no rated output and there is no usual one for its "
        f"kind. Take the output at 50 K from its maker's sheet and enter it as rated_output."
    )


def _exponent(emitter: Emitter) -> KeyFigure:
    name, label = figure_name(emitter, "exponent"), "exponent"
    if emitter.exponent is not None:
        return given(name, label, emitter.exponent, "", place=record_place(emitter, "exponent"))
    usual = typical.USUAL_EXPONENT[emitter.kind]
    missing = not_answered(emitter, "exponent")
    note = f"{missing}; {usual.note}" if usual.note else missing
    return assumed(name, label, usual.value, "", source=usual.source, note=note)


def not_answered(emitter: Emitter, field: str) -> str:
    """The note of an assumption that stands in for one of an emitter's fields."""
    return f"not answered: {record_place(emitter, field)}"
