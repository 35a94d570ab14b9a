"""The meters of the home, and how to read them."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from hearthbook.record.parts import Id, Part, Words

__all__ = ["Measurand", "Meter"]

Measurand = Literal[
    "electricity_import",
    "electricity_export",
    "heat_pump_electricity",
    "backup_electricity",
    "immersion_electricity",
    "heat",
    "heat_to_rooms",
    "heat_to_hot_water",
    "water",
    "gas",
]


class Meter(Part):
    """One meter."""

    id: Id
    """Referred to by readings."""
    name: Words
    """As the household would call it."""
    measures: Measurand
    """What it counts."""
    unit: Literal["kWh", "MWh", "GJ", "m³"]
    """The unit on its face."""
    digits_before_point: Annotated[int, Field(ge=1, le=9)]
    """Digits before the point."""
    digits_after_point: Annotated[int, Field(ge=0, le=4)]
    """Digits after the point, often smaller or in a frame."""
    write_down_decimals: bool = False
    """Whether the digits after the point are to be written down."""
    accuracy_class: Annotated[str, Field(max_length=20)] = ""
    """Class of accuracy on its plate."""
    place: Words
    """Where it hangs, in the household's words."""
    second_rate: Words | None = None
    """What a second register counts, such as night units."""
