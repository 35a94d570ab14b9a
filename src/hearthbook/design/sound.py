"""Sound of the outdoor unit at each neighbour's window."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from hearthbook.documents.figures import KeyFigure, assumed, calculated, given
from hearthbook.physics import sound as physics
from hearthbook.record.home import Home
from hearthbook.record.plant import HeatPump
from hearthbook.record.siting import NeighbourWindow

__all__ = ["NeighbourSound", "SoundVerdict", "sound"]

_UNCERTAINTY = 3.0  # dB; declared powers, reflections and weather, common practice, no source

# dB(A) at night where the record names no limit, with where it comes from; to be checked against
# the text that applies before anybody relies on it
_LIMITS: dict[str, tuple[float, str]] = {
    "england": (
        37.0,
        "planning method of 2025, as summarised in the trade; check the current text",
    ),
    "germany": (40.0, "night limit of a general residential area; from memory"),
    "netherlands": (40.0, "night limit at the plot boundary, as summarised in the trade"),
    "sweden": (40.0, "night guide value at the façade; from memory"),
}


class SoundVerdict(StrEnum):
    """How the level stands to the limit."""

    WITHIN = "within"
    CLOSE = "close"
    ABOVE = "above"
    NO_LIMIT_KNOWN = "no_limit_known"


@dataclass(frozen=True)
class NeighbourSound:
    """Sound at one window.

    Attributes:
        id: of the window in the record.
        name: which window.
        level: at full heating load.
        quiet_level: in quiet operation; None where its sound power is not recorded.
        limit: that applies; None where none is known.
        spare: limit less level; None without a limit.
        distance_needed: at which the level meets the limit; None without a limit.
        verdict: how it stands.
    """

    id: str
    name: str
    level: KeyFigure
    quiet_level: KeyFigure | None
    limit: KeyFigure | None
    spare: KeyFigure | None
    distance_needed: KeyFigure | None
    verdict: SoundVerdict


def sound(home: Home) -> tuple[NeighbourSound, ...]:
    """The level at each recorded window; nothing where the sound power is not recorded."""
    unit = home.plant.heat_pump
    if unit.sound_power is None:
        return ()
    power = _power(unit.sound_power, "sound_power", "sound power at heating load")
    return tuple(_at_window(home, power, window) for window in home.siting.neighbours)


def _at_window(home: Home, power: KeyFigure, window: NeighbourWindow) -> NeighbourSound:
    stem = f"sound.{window.id}"
    inputs = _surroundings(window)
    level = _level(f"{stem}.level", window, power, inputs)
    limit = _limit(home, window)
    spare = None if limit is None else calculated(
        f"{stem}.spare", f"below the limit at {window.name}", limit.value - level.value, "dB",
        formula="limit - level", inputs=(limit, level), source="arithmetic",
    )  # fmt: skip
    return NeighbourSound(
        id=window.id,
        name=window.name,
        level=level,
        quiet_level=_quiet_level(home.plant.heat_pump, window, inputs),
        limit=limit,
        spare=spare,
        distance_needed=_distance(stem, window, power, limit, inputs),
        verdict=_verdict(spare),
    )


def _power(value: float, field: str, label: str) -> KeyFigure:
    place = f"plant.heat_pump.{field}"
    return given(place, label, value, "dB(A)", place=place)


def _quiet_level(
    unit: HeatPump, window: NeighbourWindow, inputs: tuple[KeyFigure, KeyFigure, KeyFigure]
) -> KeyFigure | None:
    if unit.sound_power_quiet is None:
        return None
    power = _power(unit.sound_power_quiet, "sound_power_quiet", "sound power in quiet operation")
    return _level(f"sound.{window.id}.quiet_level", window, power, inputs)


def _surroundings(window: NeighbourWindow) -> tuple[KeyFigure, KeyFigure, KeyFigure]:
    place = f"siting.neighbours.{window.id}"
    return (
        given(f"{place}.distance", f"distance to {window.name}", window.distance, "m",
              place=f"{place}.distance"),
        given(f"{place}.reflecting_surfaces", "surfaces that throw the sound back",
              float(window.reflecting_surfaces), "", place=f"{place}.reflecting_surfaces"),
        assumed(f"{place}.barrier_allowance", f"taken off for a barrier ({window.barrier})",
                physics.BARRIER_ALLOWANCE[window.barrier], "dB",
                source="usual allowance of planning methods; from memory"),
    )  # fmt: skip


def _level(
    name: str,
    window: NeighbourWindow,
    power: KeyFigure,
    inputs: tuple[KeyFigure, KeyFigure, KeyFigure],
) -> KeyFigure:
    value = physics.sound_pressure_level(
        power.value,
        window.distance,
        physics.directivity(window.reflecting_surfaces),
        inputs[2].value,
    )
    return calculated(
        name,
        f"sound at {window.name}",
        float(value),
        "dB(A)",
        formula="L_w + 10 lg(Q / (4 π r²)) - barrier; Q 2 ground, 4 wall, 8 corner",
        inputs=(power, *inputs),
        source="sound of a small source near reflecting surfaces, any handbook of acoustics",
        uncertainty=_UNCERTAINTY,
        note="no tones, no other sources; the method that applies may ask for more",
    )


def _limit(home: Home, window: NeighbourWindow) -> KeyFigure | None:
    name, label = f"siting.neighbours.{window.id}.limit", f"limit at {window.name}"
    if window.limit is not None:
        place = f"{name}; {window.limit_source}" if window.limit_source else name
        return given(name, label, window.limit, "dB(A)", place=place)
    found = _LIMITS.get(home.building.country)
    if found is None:
        return None
    return assumed(name, label, found[0], "dB(A)", source=found[1], note=f"not answered: {name}")


def _distance(
    stem: str,
    window: NeighbourWindow,
    power: KeyFigure,
    limit: KeyFigure | None,
    inputs: tuple[KeyFigure, KeyFigure, KeyFigure],
) -> KeyFigure | None:
    if limit is None:
        return None
    value = physics.distance_for_level(
        power.value,
        limit.value,
        physics.directivity(window.reflecting_surfaces),
        inputs[2].value,
    )
    return calculated(
        f"{stem}.distance_needed",
        f"distance at which {window.name} meets the limit",
        float(value),
        "m",
        formula="√(Q / (4 π) · 10^((L_w - barrier - limit) / 10))",
        inputs=(power, limit, *inputs[1:]),
        source="the same relation solved for the distance",
        decimals=1,
    )


def _verdict(spare: KeyFigure | None) -> SoundVerdict:
    if spare is None:
        return SoundVerdict.NO_LIMIT_KNOWN
    if spare.value < 0.0:
        return SoundVerdict.ABOVE
    return SoundVerdict.CLOSE if spare.value < _UNCERTAINTY else SoundVerdict.WITHIN
