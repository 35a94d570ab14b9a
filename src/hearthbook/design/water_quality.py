"""What the heating water may hold, and how sour it may be."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hearthbook.design.water_volume import WaterVolume
from hearthbook.documents.figures import Basis, KeyFigure, Working, calculated, given
from hearthbook.physics import water_quality as physics
from hearthbook.record.home import Home

__all__ = ["WaterQuality", "water_quality"]

_VDI = "VDI 2035, as printed alike in three makers' manuals"
_PRACTICE = "common practice, no source"
_RATED_OUTDOOR, _RATED_FLOW = 7.0, 35.0  # °C; EN 14511 standard rating point
_CONDUCTIVITY = {"untreated": 800.0, "low_salt": 100.0}  # µS/cm at 25 °C; VDI 2035
_ACIDITY = (8.2, 10.0)  # pH without aluminium; VDI 2035 as quoted by a maker's manual
_ACIDITY_INHIBITED = (6.5, 8.5)  # pH; common practice, no source
_LATER = (
    "The water settles to this in its first weeks: read again after 6 to 8 weeks, then yearly. "
    "With aluminium in the system no more than 9.0; the makers of the parts decide."
)
_PRODUCT = "The sheet of the product dosed decides; this is only a working limit."


@dataclass(frozen=True)
class WaterQuality:
    """Limits for the heating water.

    Attributes:
        hardness_limit: most hardness of the filling water; None where there is no limit.
        conductivity_limit: most conductivity; None where a product dosed decides.
        acidity_low: least pH; None with glycol, where the product decides.
        acidity_high: most pH; None with glycol, where the product decides.
    """

    hardness_limit: KeyFigure | None
    conductivity_limit: KeyFigure | None
    acidity_low: KeyFigure | None
    acidity_high: KeyFigure | None


def water_quality(home: Home, volume: WaterVolume) -> WaterQuality:
    """The limits for a home's heating water.

    Args:
        home: the record.
        volume: its water.
    """
    treatment = "untreated" if home.plant.water is None else home.plant.water.treatment
    protection = home.plant.freeze_protection
    if protection is not None and protection.kind == "glycol":
        treatment = "glycol"
    low, high = _acidity(treatment)
    return WaterQuality(_hardness(home, volume), _conductivity(treatment), low, high)


def _hardness(home: Home, volume: WaterVolume) -> KeyFigure | None:
    points = home.plant.heat_pump.points
    rated = min(
        points,
        key=lambda p: (
            p.load != "maximum",
            abs(p.outdoor_temperature - _RATED_OUTDOOR),
            abs(p.flow_temperature - _RATED_FLOW),
        ),
    )
    power = given(
        "water_quality.heating_power", "unit's heat output, mild and low flow", rated.output, "kW",
        place=f"plant.heat_pump.points[{points.index(rated)}].output",
    )  # fmt: skip
    unit = next(part.volume for part in volume.parts if part.name == "heat pump")
    limit = float(physics.hardness_limit(power.value, volume.total.value, unit.value))
    if not math.isfinite(limit):
        return None
    return calculated(
        "water_quality.hardness_limit", "most hardness of the filling water, as CaCO₃",
        limit * physics.CARBONATE_PER_MOLE, "ppm",
        formula="by litres in the system per kW; 1 mol/m³ = 100 ppm = 5.6 °dH",
        inputs=(power, volume.total, unit), source=_VDI,
    )  # fmt: skip


def _conductivity(treatment: str) -> KeyFigure | None:
    value = _CONDUCTIVITY.get(treatment)
    if value is None:
        return None
    label = "most conductivity of the heating water, at 25 °C"
    return _limit("conductivity_limit", label, value, "µS/cm", Working(source=_VDI))


def _acidity(treatment: str) -> tuple[KeyFigure | None, KeyFigure | None]:
    if treatment == "glycol":
        return None, None
    is_dosed = treatment == "inhibitor"
    low, high = _ACIDITY_INHIBITED if is_dosed else _ACIDITY
    source, note = (_PRACTICE, _PRODUCT) if is_dosed else (_VDI, _LATER)
    working = Working(source=source, note=note)
    return (
        _limit("acidity_low", "least pH", low, "", working),
        _limit("acidity_high", "most pH", high, "", working),
    )


def _limit(name: str, label: str, value: float, unit: str, working: Working) -> KeyFigure:
    decimals = 1 if unit == "" else None
    return KeyFigure(
        f"water_quality.{name}", label, value, unit, Basis.DOCUMENTED, working, decimals=decimals
    )
