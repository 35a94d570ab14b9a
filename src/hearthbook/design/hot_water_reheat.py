"""How long the cylinder takes to be hot again: from its own start, from cold, after showers."""

from __future__ import annotations

from dataclasses import dataclass

from hearthbook.design.hot_water_peak import PeakDemand
from hearthbook.documents.figures import KeyFigure, assumed, calculated, given
from hearthbook.physics import hot_water as physics
from hearthbook.record.plant import Cylinder

__all__ = ["Reheats", "reheats"]

_REHEAT_FROM_FALL = 6.0  # K; usual fall that starts a reheat, common practice, no source
_TIME_SHARE = 0.15  # of a time; how far a reheat strays, common practice, no source
_TIME_NOTE = "the output falls as the water warms, and a defrost may fall into it"


@dataclass(frozen=True)
class Reheats:
    """Heat and time of the reheats a household asks about, on one usual day.

    Attributes:
        energy: from the fall that starts a reheat by itself.
        time: for that.
        cold_energy: from cold.
        cold_time: for that.
        shower_time: until the heat of one shower is back.
        two_showers_time: until the heat of two is.
    """

    energy: KeyFigure
    time: KeyFigure
    cold_energy: KeyFigure
    cold_time: KeyFigure
    shower_time: KeyFigure
    two_showers_time: KeyFigure


@dataclass(frozen=True)
class _Store:
    """What is heated, from what, and by how much."""

    volume: KeyFigure
    set_to: KeyFigure
    cold: KeyFigure
    output: KeyFigure


def reheats(
    cylinder: Cylinder, figures: tuple[KeyFigure, KeyFigure, KeyFigure, KeyFigure], peak: PeakDemand
) -> Reheats:
    """The reheats of a cylinder.

    Args:
        cylinder: as recorded.
        figures: its volume, the temperature it is heated to, the cold water, the output into it.
        peak: of the household, for the water of one shower.
    """
    store = _Store(*figures)
    energy = _energy(store, "reheat", _start(cylinder, store.set_to), "from where it starts by "
                     "itself")  # fmt: skip
    cold = _energy(store, "cold_reheat", store.cold, "from cold")
    return Reheats(
        energy=energy,
        time=_time(store, "reheat", energy, "of a reheat from where it starts by itself"),
        cold_energy=cold,
        cold_time=_time(store, "cold_reheat", cold, "of a reheat from cold"),
        shower_time=_after_showers(store, peak.shower_litres, cold, 1),
        two_showers_time=_after_showers(store, peak.shower_litres, cold, 2),
    )


def _start(cylinder: Cylinder, set_to: KeyFigure) -> KeyFigure:
    place, label = "plant.cylinder.hysteresis", "fall below the set temperature that starts it"
    if cylinder.hysteresis is not None:
        fall = given(place, label, cylinder.hysteresis, "K", place=place)
    else:
        fall = assumed(place, label, _REHEAT_FROM_FALL, "K", source="common practice, no source",
                       note=f"not answered: {place}")  # fmt: skip
    return calculated(
        "hot_water.reheat_start", "temperature at which a reheat starts",
        set_to.value - fall.value, "°C", formula="set temperature - fall", inputs=(set_to, fall),
        source="control of the cylinder; its lower part may be colder",
    )  # fmt: skip


def _energy(store: _Store, stem: str, start: KeyFigure, what: str) -> KeyFigure:
    end = store.set_to.value
    value = physics.reheat_energy(store.volume.value, min(start.value, end), end)
    return calculated(
        f"hot_water.{stem}_energy", f"heat of a reheat {what}", float(value), "kWh",
        formula="volume · 1.163 Wh/(L·K) · rise", inputs=(store.volume, start, store.set_to),
        source="heat balance of the cylinder", decimals=1,
    )  # fmt: skip


def _time(store: _Store, stem: str, energy: KeyFigure, what: str) -> KeyFigure:
    time = float(physics.reheat_time(energy.value, max(store.output.value, 1.0)))
    return calculated(
        f"hot_water.{stem}_time", f"time {what}", time, "min", formula="heat / output",
        inputs=(energy, store.output), source="energy over power",
        uncertainty=_TIME_SHARE * time, note=_TIME_NOTE,
    )  # fmt: skip


def _after_showers(store: _Store, litres: KeyFigure, whole: KeyFigure, showers: int) -> KeyFigure:
    """The time until what showers took is back; they cannot take more than a full cylinder."""
    stem = "shower_reheat" if showers == 1 else "two_showers_reheat"
    what = "one shower" if showers == 1 else "two showers"
    drawn = physics.draw_energy(
        showers * litres.value, physics.MIXED_TEMPERATURE, store.cold.value
    )  # fmt: skip
    energy = calculated(
        f"hot_water.{stem}_energy", f"heat taken by {what}", min(float(drawn), whole.value), "kWh",
        formula=f"{'' if showers == 1 else '2 · '}litres · 1.163 Wh/(L·K) · (40 - cold), "
        "at most a cylinder from cold",
        inputs=(litres, store.cold, whole), source="heat balance of the water drawn at 40 °C",
        decimals=1,
    )  # fmt: skip
    return _time(store, stem, energy, f"of a reheat after {what}")
