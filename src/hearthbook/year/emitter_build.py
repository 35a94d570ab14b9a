"""What the year must know of an emitter's build beside its rating: metal, radiant share, fan."""

from __future__ import annotations

from dataclasses import dataclass

from hearthbook.design.emitters import EmitterResult
from hearthbook.documents.figures import KeyFigure, given
from hearthbook.record.emitters import (
    Emitter,
    FanAssisted,
    PanelRadiator,
    PanelType,
    TowelRail,
    Underfloor,
)
from hearthbook.year.plant_fields import stands_in

__all__ = ["STEEL_HEAT", "fan_power", "metal_mass", "radiant_share"]

STEEL_HEAT = 480.0  # J/(kg·K); carbon steel, handbooks of engineering, from memory


@dataclass(frozen=True)
class _Kind:
    """Usual figures of a kind of emitter.

    Attributes:
        metal: kg of steel for each kW of output rated at 50 K; from memory of makers' tables.
        radiant: share of its output that is radiant; from memory.
    """

    metal: float
    radiant: float


_PANELS = {
    PanelType.P10: _Kind(19.0, 0.50),
    PanelType.K1: _Kind(19.0, 0.45),
    PanelType.P20: _Kind(22.0, 0.40),
    PanelType.P_PLUS: _Kind(20.0, 0.35),
    PanelType.K2: _Kind(20.0, 0.30),
    PanelType.K3: _Kind(20.0, 0.20),
}
_TOWEL_RAIL = _Kind(25.0, 0.40)
_FAN_ASSISTED = _Kind(8.0, 0.0)
_FLOOR = _Kind(0.0, 0.0)  # its mass is the floor's, which also does the radiating
_FAN_POWER = 10.0  # W, common practice, no source


def metal_mass(result: EmitterResult) -> KeyFigure:
    """Steel of an emitter, by its rating."""
    emitter = result.emitter
    rated = 0.0 if isinstance(emitter, Underfloor) else result.rated_output.value
    return stands_in(
        f"emitters.{emitter.id}.metal_mass", f"steel of the {emitter.name}",
        _kind(emitter).metal * rated / 1000.0, "kg", source="from memory",
        note=f"{_kind(emitter).metal:g} kg for each kW rated at 50 K, give or take 15 %",
    )  # fmt: skip


def radiant_share(emitter: Emitter) -> KeyFigure:
    """Share of its output that is radiant."""
    return stands_in(
        f"emitters.{emitter.id}.radiant", f"radiant share of the {emitter.name}",
        _kind(emitter).radiant, "%", source="from memory",
        note="a plain panel gives half by radiation, each row of fins leaves less",
    )  # fmt: skip


def fan_power(emitter: Emitter) -> KeyFigure | None:
    """What its fan draws; None without a fan."""
    if not isinstance(emitter, FanAssisted):
        return None
    place = f"emitters.{emitter.id}.electric_power"
    label = f"what the fan of the {emitter.name} draws"
    if emitter.electric_power is not None:
        return given(place, label, emitter.electric_power, "W", place=place)
    return stands_in(
        f"emitters.{emitter.id}.fan_power", label, _FAN_POWER, "W", note=f"not answered: {place}"
    )


def _kind(emitter: Emitter) -> _Kind:
    match emitter:
        case PanelRadiator():
            return _PANELS[emitter.panel_type]
        case TowelRail():
            return _TOWEL_RAIL
        case FanAssisted():
            return _FAN_ASSISTED
        case Underfloor():
            return _FLOOR
