"""Pictures of a year: its hours at a glance, a cold and a mild week, a defrost minute by minute."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

import numpy as np
from numpy.typing import NDArray

from hearthbook.design.energy_by_month import MONTHS
from hearthbook.documents.charts import Axis, Chart, Series
from hearthbook.kernel.state import DEFROST, HEATING, TRACE
from hearthbook.simulate.run import Trace
from hearthbook.units import shown
from hearthbook.year.days import calendar_of, dates_of
from hearthbook.year.home_year import HomeYear
from hearthbook.year.minutes import Minutes, stretch_of
from hearthbook.year.stretches import WEEK, cold_week, extremes, mild_week, usual_defrost

__all__ = ["YearCharts", "year_charts"]

_Array = NDArray[np.float64]

_MOST_DAYS = 366  # of the map; of several years the first is shown
_BUCKET = 30  # minutes that become two points
_DAY_MINUTES, _SLOT_MINUTES = 1440, 15
_PARTS = ("Night, 0 to 6", "Morning, 6 to 12", "Afternoon, 12 to 18", "Evening, 18 to 24")
_LEAD, _WINDOW = 10, 40  # minutes before a defrost, and drawn in all
_BACK = 1.0  # K from where it had been, within which the flow counts as back
_KILO = 1e3
_UNIT_POWER = "Compressor and backup heater"


@dataclass(frozen=True)
class YearCharts:
    """Pictures of a year, each by the name of its file.

    Attributes:
        hours: electricity hour by hour.
        weeks: temperatures and electricity of a cold and a mild week.
        defrost: temperatures and power of one; none where the year had none amid heating.
    """

    hours: Chart
    weeks: tuple[tuple[str, Chart], ...]
    defrost: tuple[tuple[str, Chart], ...]

    @property
    def named(self) -> tuple[tuple[str, Chart], ...]:
        """All of them."""
        return (("hours", self.hours), *self.weeks, *self.defrost)


def year_charts(year: HomeYear, minutes: Minutes) -> YearCharts:
    """The pictures of a year.

    Args:
        year: as it was run.
        minutes: of the same year.
    """
    cold, mild = cold_week(year), mild_week(year)
    weeks = [("cold_week", "A cold week", cold)]
    if abs(mild - cold) >= WEEK:
        weeks.append(("mild_week", "A mild week", mild))
    began = usual_defrost(year, minutes)
    return YearCharts(
        hours=_hours(year, minutes),
        weeks=tuple(
            (f"{name}_{part}", chart)
            for name, title, first in weeks
            for part, chart in _week(year, minutes, title, first)
        ),
        defrost=_defrost(year, minutes, began) if began is not None else (),
    )


def _hours(year: HomeYear, minutes: Minutes) -> Chart:
    """Days along, hours of the day up, electricity as colour."""
    calendar, dates = calendar_of(year), dates_of(year)[:_MOST_DAYS]
    cells = np.full((len(dates), 24), np.nan)
    sums, counts = np.zeros_like(cells), np.zeros_like(cells)
    shown_slots = calendar.day < len(dates)
    at = (calendar.day[shown_slots], calendar.minute[shown_slots] // 60)
    np.add.at(sums, at, minutes.electricity[shown_slots] / _KILO)
    np.add.at(counts, at, 1.0)
    np.divide(sums, counts, out=cells, where=counts > 0.0)
    firsts = tuple(
        (float(day), f"{one:%b}") for day, one in enumerate(dates) if one.day == 1 or day == 0
    )
    hours = tuple((float(hour), f"{hour}:00") for hour in range(0, 25, 6))
    first_of_several = " The first year is shown." if calendar.day_count > len(dates) + 1 else ""
    return Chart(
        kind="heat",
        title="Electricity hour by hour",
        sentence=_hours_said(cells, dates) + first_of_several,
        x_axis=Axis("", places=firsts if len(firsts) > 2 else _days_named(dates)),
        y_axis=Axis("Hour of the day", places=hours),
        x=tuple(float(day) for day in range(len(dates))),
        series=tuple(Series(f"{hour}:00", _values(cells[:, hour], 3)) for hour in range(24)),
        colour=Axis(_UNIT_POWER, "kW", 2),
        coarse=_by_part_of_day(cells, dates),
    )


def _days_named(dates: tuple[date, ...]) -> tuple[tuple[float, str], ...]:
    """Every day of a short run named, or every so many of a longer one."""
    every = max(1, len(dates) // WEEK)
    return tuple((float(day), _day(dates[day])) for day in range(0, len(dates), every))


def _by_part_of_day(cells: _Array, dates: tuple[date, ...]) -> Chart:
    """The table behind the map: months down, quarters of the day across."""
    months = np.array([one.month - 1 for one in dates])
    named = sorted(set(months.tolist()))
    series = tuple(
        Series(name, tuple(
            _mean(cells[months == month, 6 * part : 6 * part + 6]) for month in named
        ))
        for part, name in enumerate(_PARTS)
    )  # fmt: skip
    return Chart(
        "bar", "Mean electricity by month and part of the day", "", Axis("Month"),
        Axis(_UNIT_POWER, "kW", 2), tuple(MONTHS[month] for month in named), series,
    )  # fmt: skip


def _mean(cells: _Array) -> float | None:
    """The mean of what is known; None where nothing is, as at the edge of a run."""
    known = cells[np.isfinite(cells)]
    return round(float(known.mean()), 3) if known.size else None


def _hours_said(cells: _Array, dates: tuple[date, ...]) -> str:
    months = np.array([one.month - 1 for one in dates])
    means = {month: float(np.nanmean(cells[months == month])) for month in set(months.tolist())}
    most, least = max(means, key=means.__getitem__), min(means, key=means.__getitem__)
    day, hour = np.unravel_index(int(np.nanargmax(cells)), cells.shape)
    said = (
        f"Each column is a day and each cell an hour. Compressor and backup heater take "
        f"{_power(means[most])} on average in {MONTHS[most]}"
    )
    if least != most:
        said += f" and {_power(means[least])} in {MONTHS[least]}"
    said += f"; the hungriest hour is {_day(dates[int(day)])} from {int(hour)}:00, with"
    return f"{said} {_power(float(np.nanmax(cells)))}. Its table has means of parts of the day."


def _week(
    year: HomeYear, minutes: Minutes, title: str, first: int
) -> tuple[tuple[str, Chart], tuple[str, Chart]]:
    """Temperatures and electricity of some days from one on."""
    calendar, dates = calendar_of(year), dates_of(year)
    count = min(WEEK, len(dates) - first)
    in_week = (calendar.day >= first) & (calendar.day < first + count)
    start = int(np.argmax(in_week)) * _SLOT_MINUTES
    trace = stretch_of(year, minutes, start, int(in_week.sum()) * _SLOT_MINUTES)
    days = np.repeat(calendar.day[in_week] - first, _SLOT_MINUTES)
    names = tuple(_day(dates[first + day]) for day in range(count))
    seen = _Seen(trace, days, names)
    return (
        ("temperatures", seen.temperatures(title)),
        ("electricity", seen.electricity(title)),
    )


@dataclass(frozen=True)
class _Seen:
    """Some days of a year, minute by minute.

    Attributes:
        trace: of those minutes.
        days: the day of each minute, 0 first.
        names: of the days.
    """

    trace: Trace
    days: NDArray[np.int64]
    names: tuple[str, ...]

    @property
    def _x(self) -> tuple[float, ...]:
        points = 2 * -(-self.days.size // _BUCKET)
        ends = np.linspace(0.0, self.days.size / _DAY_MINUTES, points)
        return tuple(round(float(one), 4) for one in ends)

    def _axis(self) -> Axis:
        return Axis("", places=tuple((float(day), name) for day, name in enumerate(self.names)))

    def _by_day(self, title: str, axis: Axis, series: tuple[tuple[str, _Array], ...]) -> Chart:
        return Chart(
            "bar", f"{title}: mean of each day", "", Axis("Day"), axis, self.names,
            tuple(
                Series(name, tuple(
                    round(float(values[self.days == day].mean()), 3)
                    for day in range(len(self.names))
                ))
                for name, values in series
            ),
        )  # fmt: skip

    def temperatures(self, title: str) -> Chart:
        outdoor, flow = self.trace.column("outdoor"), self.trace.column("flow")
        rooms = self.trace.values[:, len(TRACE) :]
        mean, low, high = rooms.mean(axis=1), rooms.min(axis=1), rooms.max(axis=1)
        axis = Axis("Temperature", "°C", 1)
        title = f"{title}: temperatures"
        every = slice(None, None, _BUCKET // 2)
        return Chart(
            kind="line",
            title=title,
            sentence=(
                f"From {self.names[0]} on, {_degrees(outdoor.mean())} outdoors on average and "
                f"{_degrees(outdoor.min())} at the coldest. The unit's water was up to "
                f"{_degrees(flow.max())} warm; rooms stayed between {_degrees(low.min())} and "
                f"{_degrees(high.max())}. Sharp peaks are hot water, sharp dips defrosts and "
                "stops; the band spans the coldest and the warmest room. Its table has each day's "
                "means."
            ),
            x_axis=self._axis(),
            y_axis=axis,
            x=self._x,
            series=(
                Series("Flow", _values(extremes(flow, _BUCKET), 2)),
                Series("Outdoor", _values(extremes(outdoor, _BUCKET), 2)),
                Series("Rooms, mean", *(_values(one[every], 2) for one in (mean, low, high))),
            ),
            coarse=self._by_day(
                title, axis, (("Flow", flow), ("Outdoor", outdoor), ("Rooms, mean", mean),
                              ("Coldest room", low), ("Warmest room", high))),
        )  # fmt: skip

    def electricity(self, title: str) -> Chart:
        power = (self.trace.column("electricity") + self.trace.column("backup")) / _KILO
        axis = Axis(_UNIT_POWER, "kW", 2)
        title = f"{title}: electricity"
        used = shown(float(power.sum()) * _KILO * self.trace.step, "kWh")
        is_on = power > 0.0
        return Chart(
            kind="line",
            title=title,
            sentence=(
                f"Compressor and backup heater took {used} in these {len(self.names)} days, "
                f"{_power(float(power.max()))} at most, and ran {shown(float(is_on.mean()), '%')} "
                "of the time. Its table has each day's means."
            ),
            x_axis=self._axis(),
            y_axis=axis,
            x=self._x,
            series=(Series(_UNIT_POWER, _values(extremes(power, _BUCKET), 3)),),
            coarse=self._by_day(title, axis, ((_UNIT_POWER, power),)),
        )


def _defrost(
    year: HomeYear, minutes: Minutes, began: int
) -> tuple[tuple[str, Chart], tuple[str, Chart]]:
    """A defrost from some minutes before it until the water is warm again."""
    first = max(began - _LEAD, 0)
    trace = stretch_of(year, minutes, first, _WINDOW)
    at = np.arange(first - began, first - began + trace.values.shape[0])
    axis = Axis("Minutes from its beginning")
    x = tuple(float(minute) for minute in at)
    flow, back = trace.column("flow"), trace.column("back")
    heat, power = (trace.column(name) / _KILO for name in ("heat", "electricity"))
    said = _defrost_said(trace, began - first)
    temperatures = Chart(
        "line", "A defrost, minute by minute: water", said[0], axis, Axis("Water", "°C", 1), x,
        (Series("Flow", _values(flow, 2)), Series("Return", _values(back, 2))),
    )  # fmt: skip
    powers = Chart(
        "line", "A defrost, minute by minute: power", said[1], axis, Axis("Power", "kW", 1), x,
        (Series("Heat into the water", _values(heat, 3)),
         Series("Electricity of the compressor", _values(power, 3))),
    )  # fmt: skip
    return ("defrost_water", temperatures), ("defrost_power", powers)


def _defrost_said(trace: Trace, start: int) -> tuple[str, str]:
    flow, frost, mode = (trace.column(name) for name in ("flow", "frost", "mode"))
    heat, power = trace.column("heat"), trace.column("electricity")
    during = np.flatnonzero(mode == DEFROST)
    during = during[during >= start]
    length = int(np.argmax(np.diff(np.append(during, -1)) != 1)) + 1
    end = start + length
    before, least = float(flow[start - 1]), float(flow[start : end + 3].min())
    after = np.flatnonzero((flow[end:] >= before - _BACK) & (mode[end:] == HEATING))
    back = f" and was back {int(after[0])} minutes after its end" if after.size else ""
    water = (
        f"At {_degrees(float(trace.column('outdoor')[start]))} outdoors the unit turned round for "
        f"{length} minutes and melted {shown(float(frost[start - 1] - frost[end - 1]), 'kg', 1)} "
        f"of frost. The flow fell from {_degrees(before)} to {_degrees(least)}{back}."
    )
    taken = -float(heat[start:end].sum()) * trace.step
    return water, (
        f"While it defrosted it took {shown(taken, 'kWh', 2)} out of the heating water and "
        f"{shown(float(power[start:end].sum()) * trace.step, 'kWh', 2)} of electricity; before it "
        f"gave {shown(float(heat[start - 1]), 'kW', 1)}."
    )


def _values(values: _Array, digits: int) -> tuple[float | None, ...]:
    return tuple(None if np.isnan(one) else round(float(one), digits) for one in values)


def _degrees(value: float) -> str:
    return shown(float(value), "°C")


def _power(value: float) -> str:
    return shown(value * _KILO, "kW", 2)


def _day(one: date) -> str:
    return f"{one.day} {one:%b}"
