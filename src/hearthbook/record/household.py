"""The people who live in the home, as little about them as the job needs."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import Field

from hearthbook.record.parts import Part, Words
from hearthbook.record.quantities import Duration, FlowRate, Volume

__all__ = ["HotWaterHabits", "Household", "Occupancy", "PrintSize", "Tenure", "Vulnerability"]


class Occupancy(StrEnum):
    """When somebody is at home."""

    ALL_DAY = "all_day"
    OUT_BY_DAY = "out_by_day"
    IRREGULAR = "irregular"


class Tenure(StrEnum):
    """Who owns the home; it decides duties on hot-water hygiene."""

    OWNER = "owner"
    TENANT = "tenant"
    LANDLORD = "landlord"


class Vulnerability(StrEnum):
    """What changes temperatures, scald protection or the form of the pack. Nothing else is kept."""

    OLDER_PERSON = "older_person"
    INFANT = "infant"
    LONG_ILLNESS = "long_illness"
    REDUCED_IMMUNITY = "reduced_immunity"
    SIGHT = "sight"
    HEARING = "hearing"
    MEMORY = "memory"
    MOBILITY = "mobility"


class PrintSize(StrEnum):
    """The size of print the household wants."""

    NORMAL = "normal"
    LARGE = "large"


class HotWaterHabits(Part):
    """Hot water in the busiest hour of a usual day."""

    showers_in_peak_hour: Annotated[int, Field(ge=0, le=12)] = 0
    """Showers taken within the busiest hour."""
    shower_flow: FlowRate | None = None
    """Mixed flow of the shower, measured."""
    shower_length: Duration | None = None
    """Length of one shower."""
    baths_in_peak_hour: Annotated[int, Field(ge=0, le=6)] = 0
    """Baths run within the busiest hour."""
    bath_volume: Volume | None = None
    """Mixed water in one bath."""
    litres_per_person_day: Volume | None = None
    """Hot water a person uses in a day, at 60 °C equivalent, where it was measured."""


class Household(Part):
    """The household's chapter of the record."""

    name: Words
    """How the pack addresses the household."""
    people: Annotated[int, Field(ge=1, le=20)]
    """People who live here."""
    occupancy: Occupancy = Occupancy.ALL_DAY
    """When somebody is at home."""
    tenure: Tenure = Tenure.OWNER
    """Whether the household owns or rents."""
    hot_water: HotWaterHabits = HotWaterHabits()
    """Hot-water habits."""
    vulnerabilities: tuple[Vulnerability, ...] = ()
    """Only what changes the design or the pack."""
    language: Annotated[str, Field(pattern=r"^[a-z]{2}-[A-Z]{2}$")] = "en-GB"
    """The language of the pack, such as en-GB."""
    print_size: PrintSize = PrintSize.NORMAL
    """The print size of the paper guide."""
