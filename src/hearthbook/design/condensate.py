"""Water under the outdoor unit: in a day, in one defrost, and the pit that takes it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from hearthbook.design.heat_loss import HeatLoss
from hearthbook.design.heat_pump_fit import HeatPumpFit
from hearthbook.documents.figures import KeyFigure, assumed, calculated, condition, given
from hearthbook.physics import frost
from hearthbook.record.home import Home
from hearthbook.record.siting import Soakaway

__all__ = ["Condensate", "DrainVerdict", "condensate"]

_OUTDOOR = 1.0  # °C; damp days at 0 to 2 °C give most
_HUMIDITY = 0.95  # of a damp winter's day; from memory
_LEAST_SHARE = 0.4  # of that, in air of 75 % and with air passing the coil by; derived
_LEAST_PIT = 0.3  # m³; 0.3 to 0.6 m³ of gravel, common practice, no source


class DrainVerdict(StrEnum):
    """How the recorded drain meets the water."""

    ENOUGH = "enough"
    SMALL = "small"
    NOT_MEASURED = "not_measured"
    NOT_A_SOAKAWAY = "not_a_soakaway"


@dataclass(frozen=True)
class Condensate:
    """Water under the outdoor unit.

    Attributes:
        per_day: on a damp day at 0 to 2 °C, most.
        per_day_least: on a drier day of that temperature.
        per_hour: most, as a flow.
        in_one_defrost: most.
        drained_per_day: that sinks away through the recorded pit in a day; None if not measured.
        soakaway_needed: pit of gravel for a day's water, less what sinks away meanwhile.
        soakaway_found: pit as recorded; None where there is none.
        crosses_path: whether water can reach a path, where ice would be slippery.
        verdict: how the drain meets it.
    """

    per_day: KeyFigure
    per_day_least: KeyFigure
    per_hour: KeyFigure
    in_one_defrost: KeyFigure
    drained_per_day: KeyFigure | None
    soakaway_needed: KeyFigure
    soakaway_found: KeyFigure | None
    crosses_path: bool
    verdict: DrainVerdict


def condensate(home: Home, loss: HeatLoss, fit: HeatPumpFit) -> Condensate:
    """The water under the home's outdoor unit."""
    rate = _rate(loss, fit)
    drain = home.siting.drain
    pit = drain.soakaway if drain else None
    day = _volume("per_day", "water in a damp day at 0 to 2 °C", rate.value * 86_400.0, rate)
    least = _volume(
        "per_day_least",
        "water in a drier day at 0 to 2 °C",
        rate.value * 86_400.0 * _LEAST_SHARE,
        rate,
    )
    drained = _drained(pit)
    needed, found = _needed(day, drained), _found(pit)
    return Condensate(
        per_day=day,
        per_day_least=least,
        per_hour=rate,
        in_one_defrost=_in_one_defrost(rate),
        drained_per_day=drained,
        soakaway_needed=needed,
        soakaway_found=found,
        crosses_path=drain is not None and drain.crosses_path,
        verdict=_verdict(drain.kind if drain else "", needed, found),
    )


def _rate(loss: HeatLoss, fit: HeatPumpFit) -> KeyFigure:
    """Litres in an hour: heat taken from the air, by what damp air gives for it."""
    outdoor, damp, below = _damp_weather()
    day = fit.day_at(0.0)
    efficiency = day.efficiency if day else fit.energy.efficiency_space
    need = loss.coefficient.value * (loss.base_temperature.value - _OUTDOOR)
    share = 1.0 / (1.0 - min(fit.hot_water_share.value, 0.4))
    from_air = float(frost.evaporator_heat(need * share, max(efficiency.value, 1.05)))
    coil = float(frost.coil_temperature(_OUTDOOR, 1.0, below.value))
    per_heat = float(np.sum(frost.water_per_heat(_OUTDOOR, damp.value, coil)))
    return calculated(
        "condensate.per_hour",
        "water in an hour of damp weather, most",
        from_air * per_heat * 1e-3,
        "L/h",
        formula="heat from the air · (water entering - leaving) / (heat entering - leaving)",
        inputs=(
            loss.coefficient,
            loss.base_temperature,
            fit.hot_water_share,
            efficiency,
            outdoor,
            damp,
            below,
        ),
        source="heat and water balance of air leaving the coil saturated; derived",
        note="some air passes a real coil by: less is usual, more is not possible",
    )


def _damp_weather() -> tuple[KeyFigure, KeyFigure, KeyFigure]:
    """Outdoor temperature, humidity, and how far the coil lies below the air."""
    outdoor = condition(
        "condensate.outdoor",
        "outdoor temperature",
        _OUTDOOR,
        "°C",
        why="damp days at 0 to 2 °C give most",
    )
    damp = assumed(
        "condensate.humidity",
        "relative humidity of a damp winter's day",
        _HUMIDITY,
        "%",
        source="from memory",
    )
    below = assumed(
        "condensate.coil_below_air",
        "coil below the air",
        frost.COIL_BELOW_AIR,
        "K",
        source="common practice, no source: 5 to 10 K",
    )
    return outdoor, damp, below


def _volume(part: str, label: str, value: float, rate: KeyFigure) -> KeyFigure:
    share = "" if part == "per_day" else f" · {_LEAST_SHARE:g}"
    return calculated(
        f"condensate.{part}",
        label,
        value,
        "L",
        formula=f"water in an hour · 24{share}",
        inputs=(rate,),
        source="derived",
        decimals=0,
    )


def _in_one_defrost(rate: KeyFigure) -> KeyFigure:
    interval = assumed(
        "condensate.defrost_interval",
        "longest rest between defrosts",
        frost.DEFROST_INTERVAL[1],
        "min",
        source="common practice, no source",
    )
    return calculated(
        "condensate.in_one_defrost",
        "water in one defrost, most",
        rate.value * interval.value,
        "L",
        formula="water in an hour · time between defrosts",
        inputs=(rate, interval),
        source="derived",
    )


def _drained(pit: Soakaway | None) -> KeyFigure | None:
    if pit is None or not pit.percolation_time:
        return None
    time = given(
        "siting.drain.soakaway.percolation_time",
        "time for 100 mm of water to sink away",
        pit.percolation_time,
        "min",
        place="siting.drain.soakaway.percolation_time",
    )
    area = _base(pit)
    value = _two_digits(float(frost.infiltration(area.value, time.value)) * 86_400.0)
    return calculated(
        "condensate.drained_per_day",
        "water that sinks away through the pit in a day",
        value,
        "L",
        formula="base · 100 mm / time / 2, to two digits",
        inputs=(area, time),
        source="percolation test; halved for silt and frost, common practice, no source",
        decimals=0,
    )


def _two_digits(volume: float) -> float:
    """A volume to two digits: a percolation test is no better than that."""
    return float(f"{volume:.2g}")


def _side(side: str, value: float) -> KeyFigure:
    place = f"siting.drain.soakaway.{side}"
    return given(place, f"{side} of the pit", value, "m", place=place)


def _base(pit: Soakaway) -> KeyFigure:
    sides = (_side("length", pit.length), _side("width", pit.width))
    return calculated(
        "condensate.pit_base",
        "base of the pit",
        pit.length * pit.width,
        "m²",
        formula="length · width",
        inputs=sides,
        source="geometry",
    )


def _needed(day: KeyFigure, drained: KeyFigure | None) -> KeyFigure:
    porosity = assumed(
        "condensate.porosity",
        "share of the gravel that is void",
        frost.GRAVEL_POROSITY,
        "%",
        source="common practice, no source",
    )
    least = assumed(
        "condensate.least_pit",
        "smallest pit worth digging",
        _LEAST_PIT,
        "m³",
        source="common practice, no source: 0.3 to 0.6 m³",
    )
    gone = drained.value if drained else 0.0
    pit = float(frost.soakaway_volume(max(0.0, day.value - gone), porosity.value))
    return calculated(
        "condensate.soakaway_needed",
        "pit of gravel needed",
        max(pit, least.value),
        "m³",
        formula="(a day's water - what sinks away) / voids, at least the smallest pit",
        inputs=(day, *((drained,) if drained else ()), porosity, least),
        source="derived",
    )


def _found(pit: Soakaway | None) -> KeyFigure | None:
    if pit is None:
        return None
    value = float(frost.pit_volume(pit.length, pit.width, pit.depth))
    sides = (
        _side("length", pit.length),
        _side("width", pit.width),
        _side("depth", pit.depth),
    )
    return calculated(
        "condensate.soakaway_found",
        "pit of gravel as recorded",
        value,
        "m³",
        formula="length · width · depth",
        inputs=sides,
        source="geometry",
    )


def _verdict(kind: str, needed: KeyFigure, found: KeyFigure | None) -> DrainVerdict:
    if kind != "soakaway":
        return DrainVerdict.NOT_A_SOAKAWAY
    if found is None:
        return DrainVerdict.NOT_MEASURED
    return DrainVerdict.ENOUGH if found.value >= needed.value else DrainVerdict.SMALL
