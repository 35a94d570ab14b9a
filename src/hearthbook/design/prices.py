"""What electricity costs on average, by the hours it is used in."""

from __future__ import annotations

from hearthbook.documents.figures import KeyFigure, calculated, given
from hearthbook.record.controls import Window
from hearthbook.record.tariff import RateBand, Tariff

__all__ = ["band_by_hour", "mean_price", "price_figures", "price_unit"]

_SLOTS = 48  # half-hours of a day


def price_unit(tariff: Tariff) -> str:
    """The unit of a price in the tariff's currency."""
    return "p/kWh" if tariff.currency == "£" else "c/kWh"


def price_figures(tariff: Tariff) -> tuple[KeyFigure, ...]:
    """Each band's price as a figure."""
    return tuple(
        given(f"tariff.bands.{number}.price", f"price of a unit, {band.name}", band.price,
              price_unit(tariff), place=f"tariff.bands[{number}].price")
        for number, band in enumerate(tariff.bands, start=1)
    )  # fmt: skip


def band_by_hour(tariff: Tariff) -> tuple[RateBand, ...]:
    """The band that holds in each half-hour of a day, from midnight.

    A band without hours holds whenever no other does; where every band has hours and some are left
    over, the first band is taken for them.
    """
    rest = next((band for band in tariff.bands if not band.windows), tariff.bands[0])
    return tuple(
        next((band for band in tariff.bands if _holds(band.windows, slot)), rest)
        for slot in range(_SLOTS)
    )


def mean_price(
    tariff: Tariff, name: str, label: str, windows: tuple[Window, ...] = ()
) -> KeyFigure:
    """The mean price of electricity used evenly in some hours; of the whole day without any."""
    slots = [slot for slot in range(_SLOTS) if not windows or _holds(windows, slot)]
    bands = band_by_hour(tariff)
    value = sum(bands[slot].price for slot in slots) / len(slots)
    return calculated(
        name,
        label,
        value,
        price_unit(tariff),
        formula="Σ price · hours / Σ hours",
        inputs=price_figures(tariff),
        source="the bands' hours; use is taken as even over the hours it falls in",
    )


def _holds(windows: tuple[Window, ...], slot: int) -> bool:
    middle = (slot + 0.5) * 30.0
    return any(_contains(window, middle) for window in windows)


def _contains(window: Window, minute: float) -> bool:
    start, end = _minutes(window.start), _minutes(window.end)
    if start == end:
        return True
    inside = start <= minute < end
    return inside if start < end else minute >= start or minute < end


def _minutes(clock: str) -> int:
    hours, minutes = clock.split(":")
    return int(hours) * 60 + int(minutes)
