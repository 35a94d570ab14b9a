"""What a home's simulated year says: figures by month, by outdoor temperature and by room."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from hearthbook.documents.figures import KeyFigure
from hearthbook.year.by_month import Month, by_month
from hearthbook.year.by_outdoor import OutdoorGroup, by_outdoor
from hearthbook.year.comfort_of_rooms import RoomYear, rooms_of_year
from hearthbook.year.energy import Efficiency, Energy, efficiency_of, energy_of
from hearthbook.year.home_year import HomeYear
from hearthbook.year.minutes import Minutes, minutes_of
from hearthbook.year.standing import Standing, standing_of
from hearthbook.year.unit_life import UnitLife, unit_life

__all__ = ["Ranges", "YearAnswers", "year_answers"]

Ranges = Mapping[str, tuple[float, float, float]]
"""By a figure's name: values in SI that one in ten, five in ten and nine in ten lie below."""


@dataclass(frozen=True)
class YearAnswers:
    """What a year says.

    Attributes:
        standing: what every figure rests on: the run, its weather, its balance.
        whole: heat, electricity and cost of a year.
        efficiency: seasonal, within three boundaries.
        months: the same as the whole, by month.
        by_outdoor: what is normal at each outdoor temperature.
        rooms: how warm each was.
        life: of the unit.
        ranges: of figures by name, where they were reckoned.
    """

    standing: Standing
    whole: Energy
    efficiency: Efficiency
    months: tuple[Month, ...]
    by_outdoor: tuple[OutdoorGroup, ...]
    rooms: tuple[RoomYear, ...]
    life: UnitLife
    ranges: Ranges = field(default_factory=dict)

    def range_of(self, figure: KeyFigure) -> tuple[float, float, float] | None:
        """The range of a figure; None where there is none."""
        return self.ranges.get(figure.name)


def year_answers(
    year: HomeYear, minutes: Minutes | None = None, ranges: Ranges | None = None
) -> YearAnswers:
    """What a year says.

    Args:
        year: as it was run.
        minutes: of the same year; gone through here where they are not given.
        ranges: of its figures, by name.
    """
    minutes = minutes or minutes_of(year)
    standing = standing_of(year)
    whole = energy_of(standing, year.run.days, year.model.design.home.tariff)
    groups = by_outdoor(standing, year)
    return YearAnswers(
        standing=standing,
        whole=whole,
        efficiency=efficiency_of(standing, whole),
        months=by_month(standing, year),
        by_outdoor=groups,
        rooms=rooms_of_year(standing, year, minutes),
        life=unit_life(standing, year, minutes, groups),
        ranges=ranges or {},
    )
