"""Electrical facts to be shown. Work on them is for a competent electrician."""

from __future__ import annotations

from typing import Literal

from hearthbook.record.parts import Id, Part, Words
from hearthbook.record.quantities import CurrentAmperes, Power

__all__ = ["Electrical", "Isolator"]


class Isolator(Part):
    """A switch that cuts one circuit."""

    id: Id
    """Referred to by checks."""
    name: Words
    """As labelled."""
    feeds: Words
    """What it feeds."""
    place: Words
    """Where it is, in the household's words."""
    normally: Literal["on", "off"]
    """How it is left."""


class Electrical(Part):
    """The electrical chapter of the record."""

    isolators: tuple[Isolator, ...] = ()
    """Switches, and what each feeds."""
    main_fuse: CurrentAmperes | None = None
    """Rating of the supply fuse."""
    circuit_rating: CurrentAmperes | None = None
    """Rating of the heat pump's own circuit."""
    residual_current_device: str = ""
    """Type of its residual-current device."""
    maximum_demand: Power | None = None
    """Assessed maximum demand of the home."""
    network_notice: str = ""
    """Reference of the notice to the network operator."""
    certificate: str = ""
    """Number of the electrical certificate."""
