"""What gives the heat to the rooms."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated, Literal

from pydantic import Field

from hearthbook.record.parts import Evidence, Id, Part, Words
from hearthbook.record.quantities import (
    Area,
    BoreLength,
    Diameter,
    ExponentRatio,
    Money,
    Power,
    PressureDrop,
    Ratio01,
    Resistance,
    SmallLength,
    TemperatureDifference,
    ThermalConductivity,
    Volume,
)

__all__ = [
    "Emitter",
    "EmitterBase",
    "EmitterValve",
    "FanAssisted",
    "LargerEmitter",
    "PanelRadiator",
    "PanelType",
    "Tail",
    "TowelRail",
    "Underfloor",
]


class EmitterValve(StrEnum):
    """What can shut the flow through an emitter."""

    THERMOSTATIC = "thermostatic"
    MANUAL = "manual"
    LOCKSHIELD_ONLY = "lockshield_only"
    MOTORISED = "motorised"


class PanelType(StrEnum):
    """Panels and fins of a steel panel radiator: panels, then rows of fins."""

    P10 = "10"
    K1 = "11"
    P20 = "20"
    P_PLUS = "21"
    K2 = "22"
    K3 = "33"


class LargerEmitter(Part):
    """A larger emitter that would fit in the same place."""

    description: Words
    """Type and size."""
    rated_output: Power
    """Output at 50 K between mean water and room."""
    extra_cost: Money | None = None
    """What the exchange costs."""


class Tail(Part):
    """The pipe pair that serves one emitter alone."""

    outside_diameter: Diameter
    """Outside diameter of the tube."""
    wall_thickness: SmallLength | None = None
    """Wall of the tube; the usual one for the diameter where absent."""
    length: BoreLength
    """Length of flow and return together."""
    material: Literal["copper", "plastic", "steel"] = "copper"
    """What it is made of."""


class EmitterBase(Part):
    """What every emitter has."""

    id: Id
    """Referred to by controls, pipework and readings."""
    name: Words
    """As the household would point to it."""
    room: Id
    """The room it heats."""
    number: Annotated[int, Field(ge=1, le=99)]
    """The number on its tag."""
    rated_output: Power | None = None
    """Output at 50 K between mean water and room (EN 442), from the maker's sheet."""
    exponent: ExponentRatio | None = None
    """Exponent of the characteristic equation, from the maker's test report."""
    water_content: Volume | None = None
    """Water in it."""
    valve: EmitterValve
    """What can shut its flow."""
    is_kept_open: bool = False
    """Agreed to stay open for ever, so that the unit always has its water."""
    tail: Tail | None = None
    """Its own pipes."""
    covered: Ratio01 = 1.0
    """Share of output left where a shelf, cover or curtain hinders it: 0.85 to 0.95 is usual."""
    connection: Ratio01 = 1.0
    """Share of output left by the way it is connected."""
    paint: Ratio01 = 1.0
    """Share of output left by its paint; metallic paint about 0.90."""
    larger: LargerEmitter | None = None
    """The next larger one that would fit."""
    evidence: Evidence = Evidence.SEEN
    """How its data are known."""


class PanelRadiator(EmitterBase):
    """A steel panel radiator."""

    kind: Literal["panel_radiator"]
    """Which kind of emitter this is."""
    panel_type: PanelType
    """Panels and fins, such as 22 for two panels with two rows of fins."""
    height: SmallLength
    """Height."""
    length: SmallLength
    """Length."""


class FanAssisted(EmitterBase):
    """A radiator or convector with a fan."""

    kind: Literal["fan_assisted"]
    """Which kind of emitter this is."""
    electric_power: Power | None = None
    """What the fan draws."""


class TowelRail(EmitterBase):
    """A towel rail."""

    kind: Literal["towel_rail"]
    """Which kind of emitter this is."""
    element_power: Power | None = None
    """Power of an electric element in it."""


class Underfloor(EmitterBase):
    """Pipes in the floor."""

    kind: Literal["underfloor"]
    """Which kind of emitter this is."""
    area: Area
    """Floor area with pipes."""
    spacing: SmallLength
    """Distance between pipes."""
    pipe_diameter: Diameter
    """Outside diameter of the pipe."""
    covering_resistance: Resistance
    """Resistance of the floor covering."""
    screed_thickness: SmallLength
    """Screed above the pipes."""
    screed_conductivity: ThermalConductivity
    """Conductivity of the screed."""
    loops: Annotated[int, Field(ge=1, le=20)] = 1
    """Number of loops."""
    is_edge_zone: bool = False
    """A strip along outside walls where a warmer surface is allowed."""
    pressure_drop: PressureDrop | None = None
    """Pressure drop of the longest loop at design flow."""
    own_drop: TemperatureDifference | None = None
    """Flow-return difference of the loops where it differs from the system's."""


Emitter = Annotated[
    PanelRadiator | FanAssisted | TowelRail | Underfloor, Field(discriminator="kind")
]
