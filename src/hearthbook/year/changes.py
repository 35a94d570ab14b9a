"""What a variant of a home changes against its record, for a question such as "what if"."""

from __future__ import annotations

from dataclasses import dataclass

from hearthbook.record.tariff import RateBand

__all__ = ["Changes", "ColderStretch"]


@dataclass(frozen=True)
class ColderStretch:
    """A stretch of each day in which the rooms may become colder.

    Attributes:
        by: K below the wanted temperature; 0 for none.
        start: by the clock, such as 22:00.
        end: by the clock; equal to the start for all day.
    """

    by: float
    start: str = "22:00"
    end: str = "06:00"


@dataclass(frozen=True)
class Changes:
    """What a variant changes; nothing as it stands.

    Attributes:
        wanted_shift: K added to every room's wanted temperature; the curve follows it.
        setback: in place of the recorded one; None leaves that.
        curve_shift: K added to the curve as set.
        curve_points: °C outdoors and of flow, in place of the curve as set; None leaves that.
        closed_rooms: ids of rooms let go cold, whose valves thereby shut.
        closed_temperature: °C wanted in those.
        gains_factor: multiplies the warmth of people and appliances.
        draws_factor: multiplies the hot water drawn.
        bands: prices in place of the recorded tariff's; None leaves those.
    """

    wanted_shift: float = 0.0
    setback: ColderStretch | None = None
    curve_shift: float = 0.0
    curve_points: tuple[tuple[float, float], ...] | None = None
    closed_rooms: tuple[str, ...] = ()
    closed_temperature: float = 15.0
    gains_factor: float = 1.0
    draws_factor: float = 1.0
    bands: tuple[RateBand, ...] | None = None
