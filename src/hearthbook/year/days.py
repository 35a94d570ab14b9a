"""The year day by day: dates, months, and a table of days for whoever counts on with them."""

from __future__ import annotations

import csv
import io
from datetime import date, timedelta

import numpy as np
from numpy.typing import NDArray

from hearthbook.simulate.calendar_time import CivilTime
from hearthbook.units import to_trade
from hearthbook.year.home_year import HomeYear

__all__ = ["calendar_of", "dates_of", "days_csv", "months_of_days"]

# quantity, head of the column with its unit, the unit, digits
_COLUMNS = (
    ("heat_rooms", "heat_unit_rooms_kwh", "kWh", 3),
    ("heat_cylinder", "heat_unit_hot_water_kwh", "kWh", 3),
    ("heat_defrost", "heat_taken_by_defrosts_kwh", "kWh", 3),
    ("electricity_rooms", "electricity_rooms_kwh", "kWh", 3),
    ("electricity_cylinder", "electricity_hot_water_kwh", "kWh", 3),
    ("electricity_defrost", "electricity_defrost_kwh", "kWh", 3),
    ("electricity_pump", "electricity_pump_kwh", "kWh", 3),
    ("electricity_standby", "electricity_standby_kwh", "kWh", 3),
    ("heat_backup", "electricity_backup_kwh", "kWh", 3),
    ("heat_immersion", "electricity_immersion_kwh", "kWh", 3),
    ("cost", "cost", "", 3),
    ("starts", "starts", "", 0),
    ("run_seconds", "running_h", "h", 2),
    ("defrosts", "defrosts", "", 0),
    ("meltwater", "meltwater_kg", "kg", 2),
    ("low_flow_seconds", "stopped_for_low_flow_h", "h", 2),
)


def calendar_of(year: HomeYear) -> CivilTime:
    """The local clock a year was run by."""
    calendar = year.drivers.calendar
    if calendar is None:
        raise AssertionError("a home's year has a calendar")
    return calendar


def months_of_days(year: HomeYear) -> NDArray[np.int64]:
    """The month of each day by the local calendar, 0 for January."""
    calendar = calendar_of(year)
    return calendar.month[calendar.first_slots()]


def dates_of(year: HomeYear) -> tuple[date, ...]:
    """The local date of each day; of a generated year only day and month mean anything."""
    calendar = calendar_of(year)
    first = (calendar.start + timedelta(minutes=int(calendar.offset[0]))).date()
    return tuple(first + timedelta(days=day) for day in range(calendar.day_count))


def days_csv(year: HomeYear) -> str:
    """A line for each day: mean outdoor temperature, energy by part, starts, defrosts."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(["date", "outdoor_mean_c", *(head for _, head, _, _ in _COLUMNS)])
    for day, sums in zip(dates_of(year), year.run.days, strict=True):
        mean = float(sums["outdoor"] / sums["seconds"])
        cells = [
            f"{to_trade(float(sums[quantity]), unit) + 0.0:.{digits}f}"
            for quantity, _, unit, digits in _COLUMNS
        ]
        writer.writerow([day.isoformat(), f"{mean:.2f}", *cells])
    return text.getvalue()
