"""What frost and defrosts do to a home's unit, each number with its source."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from hearthbook.documents.figures import KeyFigure, given
from hearthbook.physics import heat_pump as physics
from hearthbook.physics.frost import DEFROST_INTERVAL
from hearthbook.record.plant import HeatPump, PerformancePoint
from hearthbook.year.frost_cycle import FROST_OUTDOOR, FrostModel, RatedPoint, frost_model
from hearthbook.year.plant_fields import Fields, reckoned, stands_in

__all__ = ["Frost", "frost_of", "point_at", "points_at_most"]

_MILD_OUTDOOR, _FLOW = 7.0, 35.0  # °C; EN 14511, standard point
_LIFT = 3.0  # K, from memory: 2 to 5 K when demand control calls
_CAPACITY_LOSS = 0.07  # share, from memory: 5 to 15 % when demand control calls
_FROM_WATER, _EFFICIENCY = 0.718, 0.601  # Dong and others, Appl. Thermal Eng. 37 (2012) 380-387
_DRIP = 30.0  # s, common practice, no source
_MELTING = 210.0  # s, common practice, no source: 2 to 5 min
_SHORTEST_MELTING = 60.0  # s; a shorter recorded defrost is taken as that, derived
_LONGEST = 600.0  # s, common practice, no source: controls give up after 8 to 12 min
_LOWEST_FLOW = 15.0  # °C, common practice, no source
_DONG = "Dong and others, Applied Thermal Engineering 37 (2012) 380-387"


@dataclass(frozen=True)
class Frost:
    """The frost of a unit.

    Attributes:
        model: its plain numbers.
        fields: the plant's fields about frost.
    """

    model: FrostModel
    fields: Fields


def frost_of(unit: HeatPump, points: tuple[KeyFigure, ...]) -> Frost:
    """The frost of a recorded unit.

    Args:
        unit: as recorded.
        points: its tested points as figures.
    """
    taken = _taken()
    melting = _melting(unit)
    interval = stands_in(
        "defrost_interval", "time between defrosts at full run in damp air of 2 °C",
        math.sqrt(DEFROST_INTERVAL[0] * DEFROST_INTERVAL[1]), "min",
        note="the middle in proportion of 40 to 120 min",
    )  # fmt: skip
    start = FrostModel(
        8.0, 1e3, 1.0, taken["frost_lift"].value, taken["frost_capacity_loss"].value, 1e3,
        taken["defrost_from_water"].value, taken["defrost_efficiency"].value,
        taken["drip_time"].value,
    )  # fmt: skip
    tested = [point_at(unit, outdoor, _FLOW) for outdoor in (FROST_OUTDOOR, _MILD_OUTDOOR)]
    model = frost_model(tested[0], tested[1], start, interval.value, melting.value)
    inputs = (interval, melting, *taken.values(), *points)
    return Frost(model, taken | _fitted(model, inputs) | _limits(unit))


def points_at_most(unit: HeatPump) -> tuple[PerformancePoint, ...]:
    """The points that count as the unit's most, as the design's map takes them."""
    return (
        tuple(point for point in unit.points if point.load == "maximum")
        or tuple(point for point in unit.points if point.load != "minimum")
        or unit.points
    )


def point_at(unit: HeatPump, outdoor: float, flow: float) -> RatedPoint:
    """What the tested points say of full run, between them and as they stand."""
    most = points_at_most(unit)
    airs = np.array([point.outdoor_temperature for point in most])
    flows = np.array([point.flow_temperature for point in most])
    output = physics.capacity(outdoor, flow, airs, flows, np.array([p.output for p in most]))
    ratio = physics.efficiency(outdoor, flow, airs, flows, np.array([p.efficiency for p in most]))
    return RatedPoint(outdoor, flow, max(float(np.sum(output)), 1.0), float(np.sum(ratio)))


def _taken() -> Fields:
    return {
        "frost_lift": stands_in(
            "frost_lift", "coil falls further when a defrost is due", _LIFT, "K",
            source="from memory", note="2 to 5 K when demand control calls",
        ),
        "frost_capacity_loss": stands_in(
            "frost_capacity_loss", "output lost to frost when a defrost is due", _CAPACITY_LOSS,
            "%", source="from memory", note="5 to 15 % when demand control calls",
        ),
        "defrost_from_water": stands_in(
            "defrost_from_water", "share of a defrost's heat taken from the water", _FROM_WATER,
            "%", source=_DONG, note="measured on an air-to-air unit",
        ),
        "defrost_efficiency": stands_in(
            "defrost_efficiency", "share of a defrost's heat that melts frost", _EFFICIENCY, "%",
            source=_DONG,
        ),
        "drip_time": stands_in("drip_time", "rest while meltwater drains", _DRIP, "s"),
    }  # fmt: skip


def _melting(unit: HeatPump) -> KeyFigure:
    label = "time a full frost takes to melt"
    place = "plant.heat_pump.defrost_length"
    if unit.defrost_length is None:
        return stands_in(
            "melting_time", label, _MELTING, "min", note=f"2 to 5 min; not answered: {place}"
        )
    whole = given(place, "usual length of a defrost", unit.defrost_length, "min", place=place)
    return reckoned(
        "melting_time", label, max(unit.defrost_length - _DRIP, _SHORTEST_MELTING), "min",
        formula="length - rest while meltwater drains, at least 1 min", inputs=(whole,),
        source="derived",
    )  # fmt: skip


def _fitted(model: FrostModel, inputs: tuple[KeyFigure, ...]) -> Fields:
    source = "frost cycle at the test point of 2 °C, with the year's own formulas; derived"
    return {
        "coil_below_air": reckoned(
            "coil_below_air", "coil below the air at full run at 2 °C, clear of frost",
            model.coil_below_air, "K", inputs=inputs, source=source,
            formula="just clear of frost in the test at 7 °C, within 5 to 8 K",
        ),
        "reference_heat": reckoned(
            "reference_heat", "heat from the air at full run at 2 °C, clear of frost",
            model.reference_heat, "kW", inputs=inputs, source=source, formula="Φ · (1 - 1/COP)",
        ),
        "frost_to_defrost": reckoned(
            "frost_to_defrost", "frost that calls for a defrost", model.frost_to_defrost, "kg",
            inputs=inputs, source=source, formula="frost grown in the time between defrosts",
        ),
        "defrost_power": reckoned(
            "defrost_power", "heat brought to the coil in a defrost", model.defrost_power, "kW",
            inputs=inputs, source=source, formula="frost · 334 kJ/kg / share / time to melt",
        ),
    }  # fmt: skip


def _limits(unit: HeatPump) -> Fields:
    place = "plant.heat_pump.lowest_flow_in_defrost"
    label = "water below which a defrost is given up"
    lowest = unit.lowest_flow_in_defrost
    return {
        "defrost_longest": stands_in(
            "defrost_longest", "longest defrost", _LONGEST, "min", note="8 to 12 min"
        ),
        "defrost_lowest_flow": stands_in("defrost_lowest_flow", label, _LOWEST_FLOW, "°C",
                                         note=f"not answered: {place}")
        if lowest is None
        else given(place, label, lowest, "°C", place=place),
    }  # fmt: skip
