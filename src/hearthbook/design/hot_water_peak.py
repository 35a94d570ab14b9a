"""Hot water in the busiest hour of a usual day."""

from __future__ import annotations

from dataclasses import dataclass

from hearthbook.documents.figures import KeyFigure, assumed, calculated, condition, given
from hearthbook.record.home import Home

__all__ = ["PeakDemand", "peak_demand"]

_SHOWER_FLOW = 8e-3 / 60  # m³/s; 6 to 10 L/min is usual, common practice, no source
_SHOWER_LENGTH = 480.0  # s; 8 min, common practice, no source
_BATH_VOLUME = 0.120  # m³; 100 to 150 L is usual, common practice, no source
_HOUR = 3600.0  # s


@dataclass(frozen=True)
class PeakDemand:
    """What the busiest hour asks, as water at 40 °C.

    Attributes:
        total: of showers and baths.
        shower_flow: of one shower.
        shower_length: of one shower.
        shower_litres: of one shower.
        bath_litres: of one bath.
        duration: one hour.
    """

    total: KeyFigure
    shower_flow: KeyFigure
    shower_length: KeyFigure
    shower_litres: KeyFigure
    bath_litres: KeyFigure
    duration: KeyFigure


def peak_demand(home: Home) -> PeakDemand:
    """The busiest hour as the household told it, or as is usual for its size."""
    habits = home.household.hot_water
    flow = _told(habits.shower_flow, "shower_flow", "flow of the shower", _SHOWER_FLOW, "L/min")
    length = _told(habits.shower_length, "shower_length", "length of a shower", _SHOWER_LENGTH,
                   "min")  # fmt: skip
    bath = _told(habits.bath_volume, "bath_volume", "water in a bath", _BATH_VOLUME, "L")
    shower = calculated(
        "hot_water.shower_litres", "water of one shower", flow.value * length.value, "L",
        formula="flow · length", inputs=(flow, length), source="arithmetic", decimals=0,
    )  # fmt: skip
    showers, baths = _counts(home)
    total = calculated(
        "hot_water.peak_demand", "water at 40 °C asked in the busiest hour",
        showers.value * shower.value + baths.value * bath.value, "L",
        formula="showers · shower + baths · bath", inputs=(showers, shower, baths, bath),
        source="habits of the household", decimals=0,
    )  # fmt: skip
    hour = condition("hot_water.peak_duration", "length of the busiest hour", _HOUR, "min",
                     why="definition")  # fmt: skip
    return PeakDemand(total, flow, length, shower, bath, hour)


def _told(value: float | None, field: str, label: str, usual: float, unit: str) -> KeyFigure:
    place = f"household.hot_water.{field}"
    if value is not None:
        return given(place, label, value, unit, place=place)
    return assumed(place, label, usual, unit, source="common practice, no source",
                   note=f"not answered: {place}")  # fmt: skip


def _counts(home: Home) -> tuple[KeyFigure, KeyFigure]:
    """Showers and baths in the busiest hour; where neither was told, half of the people shower."""
    habits = home.household.hot_water
    stem = "household.hot_water"
    baths = given(
        f"{stem}.baths_in_peak_hour",
        "baths in the busiest hour",
        float(habits.baths_in_peak_hour),
        "",
        place=f"{stem}.baths_in_peak_hour",
    )
    name, label = f"{stem}.showers_in_peak_hour", "showers in the busiest hour"
    if habits.showers_in_peak_hour or habits.baths_in_peak_hour:
        return given(name, label, float(habits.showers_in_peak_hour), "", place=name), baths
    usual = float(max(1, -(-home.household.people // 2)))
    note = f"not answered: {name}; one shower for every two people"
    return assumed(name, label, usual, "", source="common practice, no source", note=note), baths
