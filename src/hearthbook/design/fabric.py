"""The U-value of each construction of a home: given, computed from layers, or usual."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

import numpy as np

from hearthbook.design.ground_floor import ground_floor_u_value
from hearthbook.documents.figures import Basis, KeyFigure, Working, calculated, given
from hearthbook.errors import Incomplete
from hearthbook.physics import fabric
from hearthbook.record.building import Construction, ConstructionKind, Layer
from hearthbook.record.home import Home
from hearthbook.survey.answers import BY_AGE, age_band, basis_of, basis_of_property
from hearthbook.survey.typical import typical_value
from hearthbook.units import Metres, SquareMetreKelvinPerWatt

__all__ = ["Side", "construction_u_value"]

Side = Literal["outside", "inside"]
"""What lies beyond: outdoor air, or the still air of another room or space."""

_STANDARD = "ISO 6946:2017"

_INSIDE = {
    ConstructionKind.ROOF: fabric.INSIDE_UPWARD,
    ConstructionKind.CEILING: fabric.INSIDE_UPWARD,
    ConstructionKind.FLOOR: fabric.INSIDE_DOWNWARD,
    ConstructionKind.GROUND_FLOOR: fabric.INSIDE_DOWNWARD,
}
_AIR_LAYER: dict[ConstructionKind, Callable[[Metres], SquareMetreKelvinPerWatt]] = {
    ConstructionKind.ROOF: fabric.air_layer_resistance_upward,
    ConstructionKind.CEILING: fabric.air_layer_resistance_upward,
    ConstructionKind.FLOOR: fabric.air_layer_resistance_downward,
    ConstructionKind.GROUND_FLOOR: fabric.air_layer_resistance_downward,
}
_AGED_AS = {ConstructionKind.CEILING: "roof"}


def construction_u_value(home: Home, construction: Construction, side: Side) -> KeyFigure:
    """The U-value of a construction towards what lies beyond it.

    Raises:
        Incomplete: it has neither U-value, layers nor a usual build, and the home no age.
    """
    name = f"heat_loss.constructions.{construction.id}.u_value"
    if side == "inside":
        name = f"{name}_inside"
    if construction.u_value is not None:
        return _as_given(construction, construction.u_value, name)
    is_on_ground = construction.kind is ConstructionKind.GROUND_FLOOR
    layers = tuple(
        _layer(construction, number) for number in range(1, len(construction.layers) + 1)
    )
    is_bare_slab = construction.ground is not None and construction.typical is None
    if is_on_ground and (layers or is_bare_slab):
        return ground_floor_u_value(home, construction, name, layers)
    if layers:
        return _from_layers(construction, name, layers, side)
    return _usual(home, construction, name)


def _as_given(construction: Construction, value: float, name: str) -> KeyFigure:
    place = f"building.constructions.{construction.id}.u_value"
    if construction.evidence_note:
        place = f"{place}; {construction.evidence_note}"
    label = f"U-value of {construction.name}"
    basis = basis_of_property(construction.evidence)
    return given(name, label, value, "W/(m²·K)", place=place, basis=basis)


def _usual(home: Home, construction: Construction, name: str) -> KeyFigure:
    label = f"U-value of {construction.name}"
    if construction.typical is not None and construction.typical != BY_AGE:
        return typical_value("construction", construction.typical, name=name, label=label)
    if home.building.built is None:
        raise Incomplete(
            f"{construction.name} has no U-value, and none can be assumed without the year the "
            "home was built. Give u_value, layers or typical in "
            f"building.constructions.{construction.id}."
        )
    kind = _AGED_AS.get(construction.kind, construction.kind.value)
    return typical_value(
        f"u_value_{kind}_by_age",
        age_band(home.building.built),
        name=name,
        label=label,
        note="nothing is known of its build; find out before ordering",
    )


def _layer(construction: Construction, number: int) -> KeyFigure:
    """Resistance of one layer's main material."""
    layer = construction.layers[number - 1]
    name = f"building.constructions.{construction.id}.layers.{number}.resistance"
    label = f"resistance of {layer.material}"
    basis = basis_of_property(construction.evidence)
    if layer.resistance is not None:
        return given(name, label, layer.resistance, "m²·K/W", place=name, basis=basis)
    if layer.thickness is None:
        raise Incomplete(
            f"layer {number} of {construction.name} ({layer.material}) has no thickness. Give its "
            "thickness and conductivity, or its resistance."
        )
    thickness = _part(construction, number, "thickness", layer.thickness, "mm")
    if layer.is_air:
        resist = _AIR_LAYER.get(construction.kind, fabric.air_layer_resistance_across)
        return calculated(
            name,
            label,
            float(resist(layer.thickness)),
            "m²·K/W",
            formula="table of unventilated air layers, by thickness and direction",
            inputs=(thickness,),
            source=f"{_STANDARD}, air layers; from memory",
        )
    return _solid(construction, number, layer.conductivity, thickness)


def _solid(
    construction: Construction, number: int, conductivity: float | None, thickness: KeyFigure
) -> KeyFigure:
    layer = construction.layers[number - 1]
    if conductivity is None:
        raise Incomplete(
            f"layer {number} of {construction.name} ({layer.material}) has no conductivity. Give "
            "it, or the layer's resistance."
        )
    return calculated(
        f"building.constructions.{construction.id}.layers.{number}.resistance",
        f"resistance of {layer.material}",
        float(fabric.layer_resistance(thickness.value, conductivity)),
        "m²·K/W",
        formula="thickness / conductivity",
        inputs=(thickness, _part(construction, number, "conductivity", conductivity, "W/(m·K)")),
        source=_STANDARD,
    )


def _part(
    construction: Construction, number: int, part: str, value: float, unit: str, of: str = ""
) -> KeyFigure:
    place = f"building.constructions.{construction.id}.layers.{number}.{part}"
    material = of or construction.layers[number - 1].material
    label = f"{part.rsplit('.', 1)[-1]} of {material}"
    is_length = unit in {"mm", "m"}
    basis = (basis_of if is_length else basis_of_property)(construction.evidence)
    return given(place, label, value, unit, place=place, basis=basis)


def _bridge_figures(
    construction: Construction, number: int, layer: Layer
) -> tuple[KeyFigure, KeyFigure] | None:
    """Resistance and share of the material that bridges a layer."""
    if layer.bridge is None:
        return None
    if layer.thickness is None:
        raise Incomplete(
            f"layer {number} of {construction.name} is bridged by {layer.bridge.material} but has "
            "no thickness. Give it, so that the bridge's resistance can be computed."
        )
    bridge = layer.bridge
    conductivity = _part(
        construction, number, "bridge.conductivity", bridge.conductivity, "W/(m·K)", bridge.material
    )
    resistance = calculated(
        f"building.constructions.{construction.id}.layers.{number}.bridge.resistance",
        f"resistance of {bridge.material}",
        float(fabric.layer_resistance(layer.thickness, bridge.conductivity)),
        "m²·K/W",
        formula="thickness / conductivity",
        inputs=(_part(construction, number, "thickness", layer.thickness, "mm"), conductivity),
        source=_STANDARD,
    )
    share = _part(construction, number, "bridge.fraction", bridge.fraction, "%", bridge.material)
    return resistance, share


def _surface(name: str, label: str, value: float) -> KeyFigure:
    working = Working(source=f"{_STANDARD}, table of surface resistances")
    return KeyFigure(name, label, value, "m²·K/W", Basis.DOCUMENTED, working)


def _surfaces(construction: Construction, side: Side) -> tuple[KeyFigure, KeyFigure]:
    """Surface resistances of the warm and the cold side."""
    kind = construction.kind
    inside = _INSIDE.get(kind, fabric.INSIDE_HORIZONTAL)
    cold = fabric.OUTSIDE if side == "outside" else inside
    name = f"assumptions.surface_resistance.{kind.value}"
    return (
        _surface(f"{name}.warm", "surface resistance, warm side", inside),
        _surface(f"{name}.{side}", f"surface resistance, side to the {side}", cold),
    )


def _from_layers(
    construction: Construction, name: str, layers: tuple[KeyFigure, ...], side: Side
) -> KeyFigure:
    warm, cold = _surfaces(construction, side)
    bridges = [
        _bridge_figures(construction, number, layer)
        for number, layer in enumerate(construction.layers, start=1)
    ]
    if any(bridges):
        resistance = _bridged(name, layers, bridges, (warm, cold))
    else:
        resistance = calculated(
            f"{name}.resistance",
            f"total resistance of {construction.name}",
            float(
                fabric.total_resistance(
                    np.array([layer.value for layer in layers]), warm.value, cold.value
                )
            ),
            "m²·K/W",
            formula="Rsi + Σ R + Rse",
            inputs=(warm, *layers, cold),
            source=f"{_STANDARD}, homogeneous layers",
        )
    return calculated(
        name,
        f"U-value of {construction.name}",
        float(fabric.u_value(resistance.value)),
        "W/(m²·K)",
        formula="1 / R",
        inputs=(resistance,),
        source=_STANDARD,
        note=resistance.working.note,
    )


def _bridged(
    name: str,
    layers: tuple[KeyFigure, ...],
    bridges: list[tuple[KeyFigure, KeyFigure] | None],
    surfaces: tuple[KeyFigure, KeyFigure],
) -> KeyFigure:
    """Total resistance by the combined method."""
    main = np.array([layer.value for layer in layers])
    other = np.array(
        [pair[0].value if pair else r.value for pair, r in zip(bridges, layers, strict=True)]
    )
    share = np.array([pair[1].value if pair else 0.0 for pair in bridges])
    inputs = (*layers, *(figure for pair in bridges if pair for figure in pair), *surfaces)
    warm, cold = surfaces
    upper = calculated(
        f"{name}.upper_resistance",
        "upper limit of the resistance",
        float(fabric.upper_resistance(main, other, share, warm.value, cold.value)),
        "m²·K/W",
        formula="1 / Σ (share of the path / R of the path)",
        inputs=inputs,
        source=f"{_STANDARD}, combined method",
    )
    lower = calculated(
        f"{name}.lower_resistance",
        "lower limit of the resistance",
        float(fabric.lower_resistance(main, other, share, warm.value, cold.value)),
        "m²·K/W",
        formula="Rsi + Σ 1 / Σ (share / R) + Rse",
        inputs=inputs,
        source=f"{_STANDARD}, combined method",
    )
    is_wide = upper.value > fabric.HIGHEST_RATIO_OF_LIMITS * lower.value
    return calculated(
        f"{name}.resistance",
        "total resistance",
        float(fabric.combined_resistance(upper.value, lower.value)),
        "m²·K/W",
        formula="(upper + lower) / 2",
        inputs=(upper, lower),
        source=f"{_STANDARD}, combined method",
        note="the limits lie further apart than the method allows; a detailed calculation is due"
        if is_wide
        else "",
    )
