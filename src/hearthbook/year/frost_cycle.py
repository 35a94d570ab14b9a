"""A heat pump in frost from one defrost to the next, as the compiled year runs it.

The record's points are means over whole cycles, defrosts counted. The compiled year takes frost
and defrosts itself, so it needs each point as it would be clear of frost: `clear_of_frost` finds
what gives the tested mean again.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from hearthbook.physics.frost_growth import coil_surface, water_from_air
from hearthbook.physics.heat_pump import working_efficiency
from hearthbook.physics.moist_air import humidity_ratio, relative_humidity_from_wet_bulb

__all__ = [
    "FROST_OUTDOOR",
    "CycleMean",
    "FrostModel",
    "RatedPoint",
    "clear_of_frost",
    "cycle_mean",
    "frost_model",
    "rating_humidity",
]

FROST_OUTDOOR = 2.0  # °C; EN 14511, the point in frost, at a wet thermometer of 1 °C
_MILD_OUTDOOR = 7.0  # °C; EN 14511, the standard point
_REFERENCE_FLOW = 35.0  # °C; EN 14511, low temperature
_WET_BELOW_DRY = 1.0  # K; EN 14511, points at -15, -7, 2, 7 and 12 °C
_MELTING_HEAT = 334e3  # J/kg; Song and others, Defrosting for Air Source Heat Pump, ch. 9
_STILL_CLEAR = 0.99  # of the difference at which the coil would just freeze at 7 °C; derived
_LEAST_BELOW, _MOST_BELOW = 5.0, 8.0  # K; 5 to 10 K is usual, common practice, no source
_STAGES = 24  # of frost growing from none to full; finer changes the mean by less than 0.05 %
_CLOSE = 1e-9  # of the output; a round that moves it less ends the search
_ROUNDS = 30  # of the search for the clear point; each one leaves about a tenth of the error


class RatedPoint(NamedTuple):
    """A tested point in plain numbers: °C, °C, W, and heat over electricity."""

    outdoor: float
    flow: float
    output: float
    efficiency: float


class FrostModel(NamedTuple):
    """What frost and defrosts do to a unit; fields as in `kernel.parameters.PLANT`."""

    coil_below_air: float
    reference_heat: float
    frost_to_defrost: float
    frost_lift: float
    frost_capacity_loss: float
    defrost_power: float
    defrost_from_water: float
    defrost_efficiency: float
    drip_time: float


class CycleMean(NamedTuple):
    """Means from the end of one defrost to the end of the next.

    Attributes:
        heat: W into the water, defrosts taken off.
        electricity: W, defrosts counted.
        run: s from one defrost to the next; infinite where no frost grows.
    """

    heat: float
    electricity: float
    run: float


def rating_humidity(outdoor: float) -> float:
    """Vapour in kg per kg of dry air at a test point.

    Source:
        EN 14511-2, wet thermometer 1 K below the dry one from -15 to 12 °C.
    """
    humid = relative_humidity_from_wet_bulb(outdoor, outdoor - _WET_BELOW_DRY)
    return float(np.sum(humidity_ratio(outdoor, humid)))


def cycle_mean(model: FrostModel, clear: RatedPoint, humidity: float) -> CycleMean:
    """What a unit gives and takes over whole cycles of frost and defrost at full run.

    Args:
        model: of its frost.
        clear: what it does clear of frost.
        humidity: vapour in kg per kg of dry air.

    Source:
        Sums over the stages of frost with the compiled year's own formulas. Derived.
    """
    stage = (np.arange(_STAGES) + 0.5) / _STAGES
    output = clear.output * (1.0 - model.frost_capacity_loss * stage)
    share = clear.efficiency / float(np.sum(working_efficiency(clear.outdoor, clear.flow)))
    lowered = clear.outdoor - model.frost_lift * stage
    efficiency = np.maximum(share * np.asarray(working_efficiency(lowered, clear.flow)), 1.0)
    air_heat = output * (1.0 - 1.0 / efficiency)
    coil = np.asarray(
        coil_surface(
            clear.outdoor, air_heat, model.reference_heat, model.coil_below_air, stage,
            model.frost_lift,
        )
    )  # fmt: skip
    growth = air_heat * np.asarray(water_from_air(clear.outdoor, humidity, coil))
    if _is_clear(model, clear, growth[0]):
        return CycleMean(clear.output, clear.output / clear.efficiency, float("inf"))
    lasts = model.frost_to_defrost / _STAGES / growth
    run = float(lasts.sum())
    defrost = model.frost_to_defrost * _MELTING_HEAT / model.defrost_efficiency
    whole = run + defrost / model.defrost_power + model.drip_time
    heat = float((output * lasts).sum()) - defrost * model.defrost_from_water
    electricity = float((output / efficiency * lasts).sum())
    electricity += defrost * (1.0 - model.defrost_from_water)
    return CycleMean(heat / whole, electricity / whole, run)


def _is_clear(model: FrostModel, clear: RatedPoint, growth: float) -> bool:
    """Whether no frost begins: the coil lies above freezing, or the air is too dry."""
    air_heat = clear.output * (1.0 - 1.0 / clear.efficiency)
    coil = clear.outdoor - model.coil_below_air * air_heat / model.reference_heat
    return coil >= 0.0 or growth <= 1e-9


def clear_of_frost(model: FrostModel, tested: RatedPoint, at_most: RatedPoint) -> RatedPoint:
    """A tested mean put back to what the unit does clear of frost.

    Args:
        model: of its frost.
        tested: mean over cycles, defrosts counted.
        at_most: output and efficiency that the clear point may not pass, unless the tested one
            does: those of the next milder point.

    Source:
        Search for the point whose `cycle_mean` is the tested one. Derived.
    """
    humidity = rating_humidity(tested.outdoor)
    clear = tested
    for _ in range(_ROUNDS):
        before, clear = clear, _nearer(clear, tested, cycle_mean(model, clear, humidity))
        if abs(clear.output - before.output) < _CLOSE * before.output:
            break
    return _held(clear, tested, at_most)


def _nearer(clear: RatedPoint, tested: RatedPoint, mean: CycleMean) -> RatedPoint:
    return clear._replace(
        output=clear.output * tested.output / mean.heat,
        efficiency=clear.efficiency * tested.efficiency * mean.electricity / mean.heat,
    )


def _held(clear: RatedPoint, tested: RatedPoint, at_most: RatedPoint) -> RatedPoint:
    return clear._replace(
        output=min(clear.output, max(tested.output, at_most.output)),
        efficiency=min(clear.efficiency, max(tested.efficiency, at_most.efficiency)),
    )


def frost_model(
    frosty: RatedPoint, mild: RatedPoint, start: FrostModel, interval: float, melting: float
) -> FrostModel:
    """The frost model of a unit from two of its tested points.

    Args:
        frosty: at 2 °C, at most output.
        mild: at 7 °C, at most output.
        start: a model whose lift, loss, shares and drip time are kept.
        interval: s between defrosts at full run in the air of the test at 2 °C.
        melting: s a full frost takes to melt.

    Assumes:
        The coil lies as far below the air as leaves it just clear of frost in the test at 7 °C,
        where units are rated without defrosts, within 5 to 8 K.

    Source:
        Derived; interval and melting time are given by the caller with their sources.
    """
    model, clear = start, frosty
    humidity = rating_humidity(FROST_OUTDOOR)
    for _ in range(_ROUNDS):
        reference = clear.output * (1.0 - 1.0 / clear.efficiency)
        in_mild = mild.output * (1.0 - 1.0 / mild.efficiency)
        below = float(
            np.clip(_STILL_CLEAR * mild.outdoor * reference / in_mild, _LEAST_BELOW, _MOST_BELOW)
        )
        model = model._replace(coil_below_air=below, reference_heat=reference)
        run = cycle_mean(model, clear, humidity).run
        frost = model.frost_to_defrost * interval / run
        model = model._replace(
            frost_to_defrost=frost,
            defrost_power=frost * _MELTING_HEAT / model.defrost_efficiency / melting,
        )
        mean = cycle_mean(model, clear, humidity)
        clear = _held(_nearer(clear, frosty, mean), frosty, mild)
    return model
