"""What walls, roofs and floors are made of, layer by layer, so far as heat they store goes.

The record holds thickness and conductivity, never density: density and specific heat follow from
the words of a material, else from its conductivity. A construction known by its U-value alone
takes the leaves usual for how heavily the home is built, and as much insulation as the U-value
leaves room for.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hearthbook.record.building import Construction, ConstructionKind, Layer, ThermalMass

__all__ = ["Build", "carried_by_soil", "half_of", "layered_build", "partition_build", "usual_build"]

_Array = NDArray[np.float64]
_Stuff = tuple[float, float, float, float]
"""Thickness m, conductivity W/(m·K), density kg/m³, specific heat J/(kg·K) of one layer."""

# density and specific heat by word; ISO 10456:2007 and its older handbooks, rounded, from memory
_BY_WORD: tuple[tuple[tuple[str, ...], float, float], ...] = (
    (("mineral", "wool", "fibreglass", "glass fibre"), 25.0, 1000.0),
    (("wood fibre", "wood-fibre", "cellulose"), 55.0, 2000.0),
    (("foam", "polystyrene", "pir", "pur ", "phenolic", "rigid insulation"), 32.0, 1400.0),
    (("plasterboard", "gypsum board"), 800.0, 1000.0),
    (("aerated", "lightweight block"), 600.0, 1000.0),  # before the concrete that is dense
    (("concrete", "screed", "slab"), 2100.0, 1000.0),
    (("block",), 1300.0, 1000.0),
    (("brick",), 1750.0, 1000.0),
    (("stone", "granite", "limestone", "slate", "tile"), 2300.0, 1000.0),
    (("render", "mortar", "plaster"), 1500.0, 1000.0),
    (("oak", "softwood", "timber", "board", "wood", "plywood", "joist"), 520.0, 1600.0),
    (("carpet", "underlay", "membrane", "felt"), 200.0, 1300.0),
)
# the same by conductivity where no word is known: up to W/(m·K), kg/m³, J/(kg·K)
_BY_CONDUCTIVITY = (
    (0.06, 30.0, 1200.0),
    (0.18, 520.0, 1600.0),
    (0.30, 800.0, 1000.0),
    (0.60, 1300.0, 1000.0),
    (0.90, 1750.0, 1000.0),
    (np.inf, 2200.0, 1000.0),
)
_AIR_RESISTANCE = 0.18  # m²·K/W, unventilated layer, heat flowing across; ISO 6946:2017
_PLASTER: _Stuff = (0.013, 0.57, 1500.0, 1000.0)
_BOARD: _Stuff = (0.0125, 0.21, 800.0, 1000.0)
_BLOCK: _Stuff = (0.1, 0.5, 1300.0, 1000.0)
_BRICK: _Stuff = (0.102, 0.77, 1750.0, 1000.0)
_CONCRETE: _Stuff = (0.1, 1.7, 2100.0, 1000.0)
_SCREED: _Stuff = (0.05, 1.2, 2100.0, 1000.0)
_TIMBER: _Stuff = (0.02, 0.13, 520.0, 1600.0)
_CARPET: _Stuff = (0.1, 1.0, 0.0, 0.0)  # 0.1 m²·K/W, storing nothing
_SOIL: _Stuff = (0.5, 2.0, 1000.0, 2000.0)  # ISO 52016-1:2017, half a metre, 2 MJ/(m³·K)
_INSULATION = (0.035, 30.0, 1200.0)

# leaves inside and outside the insulation; common practice, no source
_WALL = {
    ThermalMass.LIGHT: ((_BOARD,), (_TIMBER,)),
    ThermalMass.MEDIUM: ((_PLASTER, _BLOCK), (_BRICK,)),
    ThermalMass.HEAVY: ((_PLASTER, _BRICK), (_BRICK,)),
}
_PARTITION: dict[ThermalMass, tuple[_Stuff, ...]] = {
    ThermalMass.LIGHT: (_BOARD,),
    ThermalMass.MEDIUM: (_PLASTER, (0.05, 0.5, 1000.0, 1000.0)),
    ThermalMass.HEAVY: (_PLASTER, (0.05, 0.77, 1750.0, 1000.0)),
}


@dataclass(frozen=True)
class Build:
    """Layers from inside to outside.

    Attributes:
        layers: rows thickness, conductivity, density, specific heat; a column for each layer.
        is_usual: its leaves were assumed, not recorded.
    """

    layers: _Array
    is_usual: bool

    @property
    def resistance(self) -> float:
        """m²·K/W of all layers."""
        return float(np.sum(self.layers[0] / self.layers[1]))

    @property
    def capacity(self) -> float:
        """J/(m²·K) of all layers."""
        return float(np.sum(self.layers[0] * self.layers[2] * self.layers[3]))


def layered_build(construction: Construction) -> Build | None:
    """The build as recorded layer by layer; None where no layers that store heat are recorded."""
    if not construction.layers:
        return None
    build = Build(np.array([_stuff(layer) for layer in construction.layers]).T, is_usual=False)
    return build if build.capacity > 0 else None


def _stuff(layer: Layer) -> _Stuff:
    if layer.is_air:
        return (_AIR_RESISTANCE, 1.0, 0.0, 0.0)
    if layer.thickness is None or (layer.conductivity is None and layer.resistance is not None):
        return (layer.resistance or 1e-6, 1.0, 0.0, 0.0)
    conductivity = layer.conductivity or 1.0
    density, specific_heat = _stored(layer.material, conductivity)
    if layer.bridge is not None:
        share = layer.bridge.fraction
        other, heat = _stored(layer.bridge.material, layer.bridge.conductivity)
        conductivity = (1 - share) * conductivity + share * layer.bridge.conductivity
        specific_heat = (1 - share) * density * specific_heat + share * other * heat
        density = (1 - share) * density + share * other
        specific_heat /= density
    return (layer.thickness, conductivity, density, specific_heat)


def _stored(material: str, conductivity: float) -> tuple[float, float]:
    """Density and specific heat of a material."""
    for words, density, specific_heat in _BY_WORD:
        if any(word in material.casefold() for word in words):
            return density, specific_heat
    return next(
        (density, heat) for up_to, density, heat in _BY_CONDUCTIVITY if conductivity <= up_to
    )


def usual_build(kind: ConstructionKind, mass: ThermalMass, u_value: float) -> Build:
    """A build with this U-value as homes of this weight have it.

    Args:
        kind: wall, roof, ceiling, floor or ground floor.
        mass: how heavily the home is built.
        u_value: surfaces included; for a ground floor the soil too.
    """
    inner, outer = _leaves(kind, mass)
    leaves = np.array([*inner, *outer]).T
    films = 0.17 if kind is not ConstructionKind.GROUND_FLOOR else 0.21
    left = max(1.0 / u_value - films, 0.02)
    own = float(np.sum(leaves[0] / leaves[1]))
    if own >= left:
        leaves[1] *= own / left
        return Build(leaves, is_usual=True)
    conductivity, density, specific_heat = _INSULATION
    filling = ((left - own) * conductivity, conductivity, density, specific_heat)
    return Build(np.array([*inner, filling, *outer]).T, is_usual=True)


def _leaves(
    kind: ConstructionKind, mass: ThermalMass
) -> tuple[tuple[_Stuff, ...], tuple[_Stuff, ...]]:
    match kind:
        case ConstructionKind.WALL:
            return _WALL[mass]
        case ConstructionKind.GROUND_FLOOR:
            return ((_TIMBER,), ()) if mass is ThermalMass.LIGHT else ((_SCREED,), (_CONCRETE,))
        case ConstructionKind.FLOOR:
            return (_TIMBER,), (_BOARD,)
        case _:
            return (_BOARD,), (_TIMBER,)


def partition_build(
    mass: ThermalMass, *, is_floor: bool = False, is_ceiling: bool = False
) -> Build:
    """From a room's surface to the middle of what parts it from the next, as is usual.

    Args:
        mass: how heavily the home is built.
        is_floor: the upper half of a floor between storeys.
        is_ceiling: its lower half.
    """
    if is_floor:
        deck = _CONCRETE if mass is ThermalMass.HEAVY else _TIMBER
        return Build(np.array([_CARPET, deck]).T, is_usual=True)
    if is_ceiling:
        deck = (0.05, 1.7, 2100.0, 1000.0) if mass is ThermalMass.HEAVY else _BOARD
        return Build(np.array([deck]).T, is_usual=True)
    return Build(np.array(_PARTITION[mass]).T, is_usual=True)


def half_of(build: Build) -> Build:
    """The half of a symmetric build that belongs to one of the two rooms it parts."""
    layers = build.layers.copy()
    begins = np.cumsum(layers[0]) - layers[0]
    layers[0] = np.clip(layers[0].sum() / 2 - begins, 0.0, layers[0])
    return Build(layers[:, layers[0] > 0], build.is_usual)


def carried_by_soil(build: Build) -> Build:
    """A floor with the half metre of ground below it that follows the room's days and weeks."""
    return Build(np.column_stack([build.layers, np.array(_SOIL)]), build.is_usual)
