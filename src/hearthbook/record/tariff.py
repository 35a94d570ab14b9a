"""What energy costs here."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from hearthbook.record.controls import Window
from hearthbook.record.parts import Part, Words
from hearthbook.record.quantities import Efficiency, RatePerDay, RatePerEnergy

__all__ = ["PreviousFuel", "RateBand", "Tariff"]


class RateBand(Part):
    """A price for stated hours."""

    name: Words
    """As the bill calls it."""
    price: RatePerEnergy
    """Price of a unit."""
    windows: tuple[Window, ...] = ()
    """When it holds; empty means all other hours."""


class PreviousFuel(Part):
    """The fuel used before."""

    name: Words
    """Which fuel."""
    price: RatePerEnergy
    """Price of a unit of it."""
    efficiency: Efficiency
    """Seasonal efficiency of the old heating."""


class Tariff(Part):
    """The tariff's chapter of the record."""

    currency: Literal["£", "€"] = "£"
    """Currency; prices are in its hundredth part."""
    bands: Annotated[tuple[RateBand, ...], Field(min_length=1)]
    """Prices of electricity."""
    standing_charge: RatePerDay | None = None
    """Charge per day."""
    as_of: str = ""
    """When the household gave these prices."""
    previous_fuel: PreviousFuel | None = None
    """The fuel used before."""
