"""The pipes between the unit and the emitters."""

from __future__ import annotations

from typing import Literal

from hearthbook.record.parts import Evidence, Id, Part, Words
from hearthbook.record.quantities import BoreLength, Diameter, Length, PressureDrop, SmallLength

__all__ = ["PipeRun", "Pipework"]


class PipeRun(Part):
    """A stretch of pipe of one size, flow and return taken together."""

    id: Id
    """Referred to by readings."""
    name: Words
    """From where to where."""
    outside_diameter: Diameter
    """Outside diameter of the tube."""
    wall_thickness: SmallLength | None = None
    """Wall of the tube; the usual one for the diameter where absent."""
    material: Literal["copper", "plastic", "steel"] = "copper"
    """What it is made of."""
    length: BoreLength
    """Length of flow and return together."""
    serves: tuple[Id, ...] = ()
    """The emitters whose water runs through it; empty for the primary, which carries all."""
    serves_cylinder: bool = False
    """Whether it carries the cylinder coil's water alone."""
    is_shut_by_valve: bool = False
    """Whether an automatic valve can stop all flow in it."""
    is_outdoors: bool = False
    """Whether it runs outside."""
    insulation_thickness: SmallLength | None = None
    """Insulation round it."""
    elbows: int = 0
    """Number of elbows."""
    tees: int = 0
    """Number of tees."""
    valves: int = 0
    """Number of valves it passes through."""


class Pipework(Part):
    """The pipework's chapter of the record."""

    runs: tuple[PipeRun, ...]
    """The runs; the tails of single emitters stand with the emitters."""
    height_above_gauge: Length | None = None
    """Height of the highest emitter above the pressure gauge."""
    height_above_vessel: Length | None = None
    """Height of the highest emitter above the expansion vessel."""
    filter_pressure_drop: PressureDrop | None = None
    """Pressure drop of the clean filter at design flow."""
    valve_pressure_drop: PressureDrop | None = None
    """Pressure drop of the diverter valve at design flow."""
    evidence: Evidence = Evidence.SEEN
    """How the pipes are known."""
