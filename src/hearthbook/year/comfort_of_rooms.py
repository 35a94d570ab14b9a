"""How warm each room was in the heating season."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hearthbook.documents.figures import KeyFigure, condition
from hearthbook.year.home_year import HomeYear
from hearthbook.year.minutes import Minutes
from hearthbook.year.standing import Standing

__all__ = ["RoomYear", "rooms_of_year", "season_of"]

_BELOW, _ABOVE = 0.5, 2.0  # K from wanted that nobody minds; common practice, no source


@dataclass(frozen=True)
class RoomYear:
    """One room in the heating season.

    Attributes:
        id: of the record.
        name: as the household calls it.
        wanted: mean of what was wanted, colder stretches in it.
        mean: temperature.
        coldest: quarter of an hour.
        share_below: of the season in which it was more than 0.5 K below wanted.
        share_above: of the season in which it was more than 2 K above wanted.
    """

    id: str
    name: str
    wanted: KeyFigure
    mean: KeyFigure
    coldest: KeyFigure
    share_below: KeyFigure
    share_above: KeyFigure


def season_of(year: HomeYear) -> NDArray[np.bool_]:
    """The slots of the heating season: the outdoor mean is below the heating limit."""
    outdoor: NDArray[np.float64] = year.drivers.slots["outdoor_mean"][:-1]
    return outdoor < float(year.model.home.plant["heating_limit"][0])


def rooms_of_year(standing: Standing, year: HomeYear, minutes: Minutes) -> tuple[RoomYear, ...]:
    """Each room in the heating season; none where no slot of the run belongs to it."""
    season = season_of(year)
    if not season.any():
        return ()
    home = year.model.home
    wanted = year.drivers.wanted[season] + home.rooms.wanted_shift
    air = minutes.rooms[season]
    return tuple(
        _room(standing, home.room_ids[at], home.room_names[at], air[:, at], wanted[:, at])
        for at in range(len(home.room_ids))
    )


def _room(
    standing: Standing,
    room_id: str,
    name: str,
    air: NDArray[np.float64],
    wanted: NDArray[np.float64],
) -> RoomYear:
    def of(part: str, label: str, value: float, unit: str, formula: str, *inputs: KeyFigure
           ) -> KeyFigure:  # fmt: skip
        return standing.figure(
            f"rooms.{room_id}.{part}", f"{label}, {name}", value, unit, formula=formula,
            inputs=(standing.run, *inputs), note="in the heating season, by the quarter-hour",
        )  # fmt: skip

    why = "common practice, no source"
    below = condition("year.comfort.below", "below wanted that nobody minds", _BELOW, "K", why=why)
    above = condition("year.comfort.above", "above wanted that nobody minds", _ABOVE, "K", why=why)
    return RoomYear(
        id=room_id,
        name=name,
        wanted=of("wanted", "mean wanted temperature", float(wanted.mean()), "°C",
                  "mean of the record's and the clock's"),
        mean=of("mean", "mean temperature", float(air.mean()), "°C", "mean"),
        coldest=of("coldest", "coldest quarter-hour", float(air.min()), "°C", "least"),
        share_below=of("share_below", "share of time below wanted",
                       float(np.mean(air < wanted - _BELOW)), "%",
                       "time colder than wanted - 0.5 K, over the season", below),
        share_above=of("share_above", "share of time above wanted",
                       float(np.mean(air > wanted + _ABOVE)), "%",
                       "time warmer than wanted + 2 K, over the season", above),
    )  # fmt: skip
