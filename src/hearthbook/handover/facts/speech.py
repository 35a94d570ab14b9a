"""How this pack says numbers, times, dates and places in its language."""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import dataclass

from hearthbook.documents.figures import KeyFigure
from hearthbook.handover.wording import phrase, phrases
from hearthbook.units import from_trade, shown, to_trade
from hearthbook.year.pack_numbers import Span

__all__ = ["Speech"]

_HOURS_COUNTED = 42.0  # beyond it people count days
_MINUTES_COUNTED = 12.5  # below it people count single minutes, above it in fives


@dataclass(frozen=True)
class Speech:
    """The way of speaking of one language."""

    language: str

    def words(self, group: str, name: str, /, **values: object) -> str:
        """A short phrase."""
        return phrase(self.language, group, name, **values)

    def date(self, day: dt.date | None) -> str | None:
        """A date in full; None stays None."""
        if day is None:
            return None
        return f"{day.day} {phrases(self.language)['months']['names'][day.month - 1]} {day.year}"

    def months(self) -> tuple[str, ...]:
        """The short names of the months, January first."""
        return tuple(phrases(self.language)["months"]["short"])

    def figure(self, figure: KeyFigure | None, decimals: int | None = None) -> str | None:
        """A figure as said to a householder, with fewer digits where wanted."""
        if figure is None:
            return None
        return shown(figure.value, figure.unit, figure.decimals if decimals is None else decimals)

    def span(self, low: float, high: float, unit: str, decimals: int | None = None) -> str:
        """A range in a unit, said once where both ends read the same."""
        first, last = shown(low, unit, decimals), shown(high, unit, decimals)
        if first == last:
            return first
        number = first.removesuffix(unit).rstrip("\N{NO-BREAK SPACE}")
        return self.words("words", "from_to", low=number, high=last)

    def reach(self, span: Span, unit: str, decimals: int | None = None) -> str:
        """A simulated number's range, from low to high; never below nothing."""
        return self.span(max(span.low, 0.0), max(span.high, 0.0), unit, decimals)

    def two_digits(self, value: float, unit: str) -> str:
        r"""A number to two digits that mean something: nobody knows a year closer.

        Example:
            >>> Speech("en-GB").two_digits(4596 * 3.6e6, "kWh")
            '4,600\xa0kWh'
        """
        traded = to_trade(value, unit)
        digits = 1 - math.floor(math.log10(abs(traded))) if abs(traded) >= 1.0 else 0
        return shown(from_trade(round(traded, digits), unit), unit, 0)

    def ranged(self, figure: KeyFigure, decimals: int | None = None) -> str:
        """A figure's range from its uncertainty, never below nothing."""
        spread = figure.uncertainty or 0.0
        return self.span(
            max(figure.value - spread, 0.0), figure.value + spread, figure.unit, decimals
        )

    def change(self, low: float, high: float) -> str:
        """A relative change from low to high, as less or more.

        Example:
            >>> Speech("en-GB").change(-0.05, 0.02)
            '5% less to 2% more'
        """
        ends = [self._less_or_more(value) for value in (low, high)]
        return (
            ends[0]
            if ends[0] == ends[1]
            else self.words("words", "from_to", low=ends[0], high=ends[1])
        )

    def _less_or_more(self, value: float) -> str:
        if abs(value) < 0.005:
            return self.words("words", "no_change")
        name = "less" if value < 0 else "more"
        return self.words("words", name, share=shown(abs(value), "%", 0))

    def duration(self, seconds: float) -> str:
        """A length of time as people say it.

        Example:
            >>> Speech("en-GB").duration(1800.0), Speech("en-GB").duration(90000.0)
            ('half an hour', '25 hours')
            >>> Speech("en-GB").duration(0.0), Speech("en-GB").duration(200000.0)
            ('no wait', '2 days')
        """
        if seconds <= 0:
            return self.words("words", "no_time")
        if seconds < 100:
            return self.words("words", "seconds", value=round(seconds / 5) * 5 or 5)
        minutes = seconds / 60
        if 25 <= minutes <= 35:
            return self.words("words", "half_hour")
        return self._minutes(minutes) if minutes < 100 else self._hours(seconds / 3600)

    def _minutes(self, minutes: float) -> str:
        exact = minutes < _MINUTES_COUNTED
        return self.words(
            "words", "minutes_about", value=round(minutes) if exact else round(minutes / 5) * 5
        )

    def _hours(self, hours: float) -> str:
        if hours > _HOURS_COUNTED:
            return self.words("words", "days", value=round(hours / 24))
        value = f"{hours:.0f}" if hours >= 5 else f"{round(hours * 2) / 2:g}"
        return self.words("words", "hours", value=value)

    def feel(self, water_temperature: float) -> str:
        """How a radiator feels with water of this mean temperature."""
        steps = phrases(self.language)["feel"]
        return str(next(step["words"] for step in steps if water_temperature < step["below"]))
