"""The controls, as they are meant to stand."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from hearthbook.record.parts import Id, Part, Words
from hearthbook.record.quantities import (
    Hours,
    OutdoorTemperature,
    RoomTemperature,
    TemperatureDifference,
    WaterTemperature,
)

__all__ = [
    "Clock",
    "Controls",
    "CurvePoint",
    "CurveSetting",
    "EmitterSetting",
    "PointsCurve",
    "Setback",
    "SlopeLevelCurve",
    "Thermostat",
    "Window",
]

Clock = Annotated[str, Field(pattern=r"^([01]\d|2[0-3]):[0-5]\d$")]


class Window(Part):
    """A stretch of the day."""

    start: Clock
    """When it begins, such as 05:30."""
    end: Clock
    """When it ends."""


class Thermostat(Part):
    """The room thermostat."""

    room: Id
    """The room it hangs in."""
    setting: RoomTemperature
    """What it is set to."""
    acts_as: Literal["limiter", "controller", "room_influence"] = "limiter"
    """A ceiling above the wanted temperature, the control itself, or a correction of the curve."""


class CurvePoint(Part):
    """One point of a weather curve."""

    outdoor: OutdoorTemperature
    """Outdoor temperature."""
    flow: WaterTemperature
    """Flow temperature."""


class PointsCurve(Part):
    """A curve the controller holds as points with straight lines between."""

    kind: Literal["points"]
    """How the controller holds the curve."""
    points: Annotated[tuple[CurvePoint, ...], Field(min_length=2, max_length=10)]
    """From cold to mild."""


class SlopeLevelCurve(Part):
    """A curve the controller holds as slope and level, straight in outdoor temperature."""

    kind: Literal["slope_level"]
    """How the controller holds the curve."""
    slope: Annotated[float, Field(ge=0.1, le=4)]
    """K of flow per K of outdoor temperature."""
    level: TemperatureDifference = 0.0
    """Parallel shift of the whole curve."""
    pivot: RoomTemperature = 20.0
    """Outdoor and flow temperature at which the curve without level begins."""


CurveSetting = Annotated[PointsCurve | SlopeLevelCurve, Field(discriminator="kind")]


class Setback(Part):
    """A planned colder stretch."""

    by: TemperatureDifference
    """K below the wanted temperature."""
    window: Window
    """When."""


class EmitterSetting(Part):
    """The number an emitter's valve is left at."""

    emitter: Id
    """Which emitter."""
    number: Annotated[str, Field(pattern=r"^(\*|[0-6](\.5)?|max|open)$")]
    """The number on the thermostatic head, or `open`."""
    lockshield_turns: Annotated[float, Field(ge=0, le=12)] | None = None
    """Turns open of the balancing valve on the return."""


class Controls(Part):
    """The controls' chapter of the record."""

    description: Words
    """What the household operates, in its own words."""
    thermostat: Thermostat | None = None
    """The room thermostat."""
    curve: CurveSetting | None = None
    """The weather curve as set."""
    curve_accepts: Literal["two_points", "slope_level", "several_points"] = "two_points"
    """What the controller can hold."""
    minimum_flow_temperature: WaterTemperature | None = None
    """Lowest flow temperature it makes."""
    maximum_flow_temperature: WaterTemperature | None = None
    """Highest flow temperature it makes."""
    heating_limit: OutdoorTemperature | None = None
    """Outdoor mean above which heating rests."""
    averaging_time: Hours | None = None
    """Time over which the outdoor temperature is averaged."""
    room_influence: Annotated[float, Field(ge=0, le=10)] = 0.0
    """K of flow per K of room deviation; 0 for none."""
    emitter_settings: tuple[EmitterSetting, ...] = ()
    """The number each valve is left at."""
    head_scale: dict[str, RoomTemperature] = Field(default_factory=dict)
    """What the numbers on the thermostatic heads mean, from their maker's sheet."""
    setback: Setback | None = None
    """A planned colder stretch."""
    hot_water_windows: tuple[Window, ...] = ()
    """When hot water may be made; empty means at any time."""
    quiet_window: Window | None = None
    """When the unit runs quietly."""
    has_remote_access: bool = False
    """Whether the firm can read it from a distance, with the household's consent."""
