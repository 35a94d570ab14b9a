"""What every figure of a simulated year rests on, and the form it takes."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hearthbook.design.heating_season import monthly_means
from hearthbook.documents.figures import KeyFigure, calculated, condition
from hearthbook.kernel.parameters import SLOT_SECONDS
from hearthbook.year.home_year import HomeYear
from hearthbook.year.weather_of_home import weather_figures

__all__ = ["Standing", "standing_of"]

_YEAR_DAYS = 365.25
_NEARLY = 4.0  # days by which a year may be short of that, or long
_FINEST = 1e12  # beyond this, a balance says nothing but how the machine rounds
_DAY = 86_400.0  # s


@dataclass(frozen=True)
class Standing:
    """What a year's figures share.

    Attributes:
        run: what was run: every figure of the year rests on it.
        balance: how well heat and water balance.
        weather: that was run through.
        years: whole years in it, over which sums are shared out; 1 where it is none.
        days: of weather.
        is_whole: whether it has whole years.
    """

    run: KeyFigure
    balance: KeyFigure
    weather: KeyFigure
    years: float
    days: float
    is_whole: bool

    @property
    def span(self) -> str:
        """What a sum is over, such as `in a year`."""
        return "in a year" if self.is_whole else f"in the {self.days:.0f} days run"

    @property
    def source(self) -> str:
        """How every figure of the year was come by."""
        return f"simulated minute by minute; balance closes to 1 part in {self.balance.shown()}"

    def figure(  # noqa: PLR0913 - a figure has these parts and each is passed by name
        self,
        name: str,
        label: str,
        value: float,
        unit: str,
        *,
        formula: str,
        inputs: tuple[KeyFigure, ...] = (),
        note: str = "",
        decimals: int | None = None,
    ) -> KeyFigure:
        """A figure of the year; without inputs of its own it rests on the run itself."""
        return calculated(
            f"year.{name}", label, value, unit, formula=formula, inputs=inputs or (self.run,),
            source=self.source, note=note, decimals=decimals,
        )  # fmt: skip


def standing_of(year: HomeYear) -> Standing:
    """What the figures of a year share."""
    days = (year.drivers.slots.size - 1) * SLOT_SECONDS / _DAY
    years = round(days / _YEAR_DAYS)
    is_whole = years >= 1 and abs(days - years * _YEAR_DAYS) <= _NEARLY
    weather, balance = _weather(year, days), _balance(year)
    design = year.model.design
    run = calculated(
        "year.run", "days simulated", days * _DAY, "days",
        formula="rooms, emitters, heating water, frost, cylinder and controls, stepped each minute",
        inputs=(weather, balance, design.heat_loss.coefficient, design.curve.design_flow,
                *year.model.assumptions),
        source="own model: docs/the_year.md",
    )  # fmt: skip
    return Standing(run, balance, weather, float(years) if is_whole else 1.0, days, is_whole)


def _weather(year: HomeYear, days: float) -> KeyFigure:
    name, label, home = "year.weather", "days of weather", year.model.design.home
    if not year.weather.is_generated:
        return condition(name, label, days * _DAY, "days", why=year.weather.source)
    return calculated(
        name, label, days * _DAY, "days",
        formula="hours drawn from twelve monthly normals; the same seed draws the same hours",
        inputs=(*monthly_means(home.building.climate), *weather_figures(home)),
        source=f"{year.weather.source}: not measured",
    )  # fmt: skip


def _balance(year: HomeYear) -> KeyFigure:
    worst = max(year.run.balance.worst, 1.0 / _FINEST)
    parts = 10.0 ** math.floor(-math.log10(worst) + 1e-9)
    return calculated(
        "year.balance", "parts of heat or water that went through, of which one at most is missing",
        parts, "", formula="what went in - what went out - what is stored more, over what went "
        "through; the worst of rooms, heating water, cylinder and frost; rounded down to a power "
        "of ten", inputs=(), source="sums of the run", decimals=0,
    )  # fmt: skip
