"""The year by calendar month."""

from __future__ import annotations

from dataclasses import dataclass

from hearthbook.design.energy_by_month import MONTHS
from hearthbook.documents.figures import KeyFigure
from hearthbook.year.days import months_of_days
from hearthbook.year.energy import Energy, energy_of
from hearthbook.year.home_year import HomeYear
from hearthbook.year.standing import Standing

__all__ = ["Month", "by_month"]


@dataclass(frozen=True)
class Month:
    """One calendar month; where several years were run, the mean of theirs.

    Attributes:
        name: of the month.
        outdoor: mean outdoor temperature.
        energy: heat, electricity and cost.
    """

    name: str
    outdoor: KeyFigure
    energy: Energy


def by_month(standing: Standing, year: HomeYear) -> tuple[Month, ...]:
    """The months that were run, January first."""
    months, tariff = months_of_days(year), year.model.design.home.tariff
    found = []
    for number in sorted(set(months.tolist())):
        days, name = year.run.days[months == number], MONTHS[number]
        stem = f"months.{name.lower()}."
        span = f"in {name}"
        outdoor = standing.figure(
            f"{stem}outdoor", f"mean outdoor temperature {span}",
            float(days["outdoor"].sum() / days["seconds"].sum()), "°C",
            formula="mean over the month's quarter-hours", inputs=(standing.weather,),
        )  # fmt: skip
        found.append(Month(name, outdoor, energy_of(standing, days, tariff, stem, span)))
    return tuple(found)
