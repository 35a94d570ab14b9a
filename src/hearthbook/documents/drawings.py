"""Drawings as data: what is drawn of this home, in plain numbers and words, apart from any medium.

A drawing never holds a picture. Every word that appears in it comes in as a field, so that a
second language needs no code; every number is either a length or level that decides where a line
stands, or already part of a label. `Drawing` is a closed union: the pen in `render/drawings` is
one match over it that ends in `assert_never`.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

__all__ = [
    "ClearSpace",
    "ClearanceDrawn",
    "Drawing",
    "EmitterKind",
    "EmitterSymbol",
    "FeelPoint",
    "FillingKind",
    "GaugeBand",
    "GaugeMark",
    "HandFeelStrip",
    "HeadMark",
    "HeadScale",
    "HouseMark",
    "HouseSection",
    "MeterDisplay",
    "OutdoorSide",
    "PartKind",
    "PartSymbol",
    "PressureGauge",
    "RadiatorTag",
    "RoomDrawn",
    "StoreyDrawn",
    "StoreyOfEmitters",
    "SystemSchematic",
    "SystemWords",
    "TopUpSteps",
    "ValveKind",
    "ValvePicture",
    "ValvePosition",
    "ValvePositions",
]

PartKind = Literal[
    "outdoor_unit",
    "indoor_unit",
    "freeze_valves",
    "backup_heater",
    "pump",
    "air_vent",
    "safety_valve",
    "pressure_gauge",
    "diverter_valve",
    "cylinder",
    "buffer",
    "volumiser",
    "expansion_vessel",
    "filling_connection",
    "filter",
    "underfloor_manifold",
    "drinking_water_vessel",
    "drinking_water_safety_valve",
]
EmitterKind = Literal["panel_radiator", "fan_assisted", "towel_rail", "underfloor"]
ValveKind = Literal["thermostatic", "manual", "lockshield_only", "motorised"]
FillingKind = Literal["removable_hose", "fixed_loop_two_valves", "keyed_link"]
OutdoorSide = Literal["front", "back", "left", "right", "above"]
ValvePicture = Literal[
    "lever_open",
    "lever_closed",
    "lockshield",
    "thermostatic_head",
    "motorised",
    "filling_valves_closed",
    "filling_hose_removed",
    "filling_key_removed",
]


@dataclass(frozen=True)
class PartSymbol:
    """One part on the schematic.

    Attributes:
        kind: decides its symbol and where on the pipes it stands.
        number: the number beside it and in the key.
        name: what it is called in the key.
        place: where it is in this home; empty where nobody wrote it down.
        on: the pipe it sits in, where it could be either.
    """

    kind: PartKind
    number: int
    name: str
    place: str = ""
    on: Literal["flow", "return"] = "flow"


@dataclass(frozen=True)
class EmitterSymbol:
    """One emitter on the schematic.

    Attributes:
        tag: the number on its tag.
        kind: decides its symbol.
        valve: what can shut its flow; decides the symbol of the valve.
        is_kept_open: whether it stays open for ever.
    """

    tag: str
    kind: EmitterKind
    valve: ValveKind
    is_kept_open: bool = False


@dataclass(frozen=True)
class StoreyOfEmitters:
    """The emitters of one storey."""

    name: str
    emitters: tuple[EmitterSymbol, ...]


@dataclass(frozen=True)
class SystemWords:
    """The words on a schematic that are not names of parts.

    Attributes:
        outside: what lies on the unit's side of the wall.
        inside: what lies on the other side.
        flow: name of the pipe with warmed water.
        return_: name of the pipe with water on its way back.
        kept_open: what the mark of an emitter that stays open means.
        refrigerant: name of the pipes between the halves of a split unit; empty for a monobloc.
        hot_water: beside the pipe that leaves the cylinder; empty for no cylinder.
        cold_water: beside the pipe that supplies it; empty for no cylinder.
        valves: each kind of emitter valve drawn, with its name.
        emitters: each kind of emitter drawn, with its name.
    """

    outside: str
    inside: str
    flow: str
    return_: str
    kept_open: str
    refrigerant: str = ""
    hot_water: str = ""
    cold_water: str = ""
    valves: tuple[tuple[ValveKind, str], ...] = ()
    emitters: tuple[tuple[EmitterKind, str], ...] = ()


@dataclass(frozen=True)
class SystemSchematic:
    """How the water runs from the unit to the emitters and back.

    Attributes:
        parts: only those this home has, each with its number.
        storeys: the emitters by storey, the lowest first.
        words: the other words on it.
        shows_key: whether names and places of the parts stand under it; False where the document
            lists them itself.
    """

    parts: tuple[PartSymbol, ...]
    storeys: tuple[StoreyOfEmitters, ...]
    words: SystemWords
    shows_key: bool = True


@dataclass(frozen=True)
class GaugeBand:
    """A stretch of the gauge's scale with a meaning.

    Attributes:
        low_bar: where it begins.
        high_bar: where it ends.
        label: what it means, with its numbers.
        tone: `cold` and `hot` are hatched differently, so that grey print keeps them apart.
    """

    low_bar: float
    high_bar: float
    label: str
    tone: Literal["cold", "hot"]


@dataclass(frozen=True)
class GaugeMark:
    """A point of the gauge's scale with a meaning."""

    at_bar: float
    label: str
    kind: Literal["top_up", "call", "safety"]


@dataclass(frozen=True)
class PressureGauge:
    """The pressure gauge with this home's own marks.

    Attributes:
        full_scale_bar: the highest mark on the dial.
        unit: printed on the dial.
        bands: stretches with a meaning.
        marks: points with a meaning.
        needle_bar: where the needle stands; None draws the dial without one.
    """

    full_scale_bar: float
    unit: str
    bands: tuple[GaugeBand, ...]
    marks: tuple[GaugeMark, ...]
    needle_bar: float | None = None


@dataclass(frozen=True)
class ValvePosition:
    """One valve as it is to stand.

    Attributes:
        picture: which pictogram.
        label: what it is, and how it stands.
        detail: what to know of it; empty for nothing.
        number: the number a thermostatic head is set to, or the letter on a motor.
    """

    picture: ValvePicture
    label: str
    detail: str = ""
    number: str = ""


@dataclass(frozen=True)
class ValvePositions:
    """The valves of this home and their positions, side by side."""

    positions: tuple[ValvePosition, ...]


@dataclass(frozen=True)
class MeterDisplay:
    """The face of one meter, and which of its digits count.

    Attributes:
        name: what the meter is called in this home.
        unit: the unit on its face.
        before: the digits before the point, as they might stand.
        after: the digits after the point; empty where there are none.
        writes_after: whether the digits after the point are written down too.
        before_label: what is to be done with the digits before the point.
        after_label: what is to be done with those after it.
        result: the reading as it is to be written down.
    """

    name: str
    unit: str
    before: str
    after: str
    writes_after: bool
    before_label: str
    after_label: str
    result: str


@dataclass(frozen=True)
class RadiatorTag:
    """One emitter in its room.

    Attributes:
        tag: the number on its tag.
        kind: decides its symbol.
        setting: the number its valve is left at, or the words for staying open.
        is_kept_open: whether it stays open for ever.
    """

    tag: str
    kind: EmitterKind
    setting: str
    is_kept_open: bool = False


@dataclass(frozen=True)
class HouseMark:
    """A part shown where it is.

    Attributes:
        kind: decides its symbol.
        label: its name.
    """

    kind: Literal["cylinder", "thermostat"]
    label: str


@dataclass(frozen=True)
class RoomDrawn:
    """One room on the section.

    Attributes:
        name: as the household calls it.
        floor_area: in m²; decides the width of its box.
        temperature: the wanted temperature with its unit; empty to leave it out.
        radiators: its emitters.
        marks: parts that are in it.
    """

    name: str
    floor_area: float
    temperature: str = ""
    radiators: tuple[RadiatorTag, ...] = ()
    marks: tuple[HouseMark, ...] = ()


@dataclass(frozen=True)
class StoreyDrawn:
    """One storey on the section."""

    name: str
    rooms: tuple[RoomDrawn, ...]


@dataclass(frozen=True)
class HouseSection:
    """The house cut open: each room with its emitters and the numbers of their valves.

    Attributes:
        storeys: the lowest first.
        outdoor_unit: its name.
        key_radiator: what the box with a number means.
        key_setting: what the number beside it means.
        key_kept_open: what the mark of an emitter that stays open means; empty when none does.
        notes: where parts are that are in none of the rooms, a line each.
    """

    storeys: tuple[StoreyDrawn, ...]
    outdoor_unit: str
    key_radiator: str
    key_setting: str
    key_kept_open: str = ""
    notes: tuple[str, ...] = ()


@dataclass(frozen=True)
class ClearanceDrawn:
    """Free space on one side of the outdoor unit.

    Attributes:
        side: seen from in front of the fan.
        required: in m.
        found: in m.
        label: both, in words with their unit.
    """

    side: OutdoorSide
    required: float
    found: float
    label: str


@dataclass(frozen=True)
class ClearSpace:
    """The outdoor unit from above and from the side, and what must stay free round it.

    Attributes:
        unit: its name.
        plan_title: over the view from above.
        side_title: over the view from the side; empty to leave that view out.
        clearances: free space by side.
        air_in: words beside the arrow of the air it draws.
        air_out: words beside the arrow of the air it blows.
        zone: what the protective zone's outline means, with its distance; empty for none.
        drain: where the meltwater goes; empty for nothing known.
        drains_into_gravel: whether it sinks away under the unit; otherwise a pipe carries it off.
        height: the height of its base, with its unit; empty for nothing known.
        ground: the word at the ground line.
        snow: what the snow line means; empty for none.
    """

    unit: str
    plan_title: str
    side_title: str
    clearances: tuple[ClearanceDrawn, ...]
    air_in: str
    air_out: str
    zone: str = ""
    drain: str = ""
    height: str = ""
    ground: str = ""
    snow: str = ""
    drains_into_gravel: bool = True


@dataclass(frozen=True)
class HeadMark:
    """One number on a thermostatic head, and the room temperature it stands for."""

    number: str
    temperature: str


@dataclass(frozen=True)
class HeadScale:
    """What the numbers on the thermostatic heads mean.

    Attributes:
        marks: from cool to warm.
        title_number: what the upper row is.
        title_temperature: what the lower row is.
        note: where the figures come from, or that they are assumed.
    """

    marks: tuple[HeadMark, ...]
    title_number: str
    title_temperature: str
    note: str = ""


@dataclass(frozen=True)
class FeelPoint:
    """What the radiators are like at one outdoor temperature.

    Attributes:
        outdoor: the outdoor temperature with its unit.
        flow: the flow temperature with its unit.
        flow_celsius: decides the height of its column.
        feel: how the radiator feels to the hand, in words.
    """

    outdoor: str
    flow: str
    flow_celsius: float
    feel: str


@dataclass(frozen=True)
class HandFeelStrip:
    """How warm the radiators feel at each outdoor temperature.

    Attributes:
        points: from mild to cold.
        title_outdoor: what the lower row is.
        title_flow: what the columns are.
        title_feel: what the words say.
    """

    points: tuple[FeelPoint, ...]
    title_outdoor: str
    title_flow: str
    title_feel: str


@dataclass(frozen=True)
class TopUpSteps:
    """Adding water, in four pictures.

    Attributes:
        filling: the fitting of this home.
        captions: one for each picture: fit, open, watch the gauge, close and take off.
        stop_at_bar: where the filling stops.
        stop_label: that pressure with its unit.
        full_scale_bar: the highest mark on the gauge.
    """

    filling: FillingKind
    captions: tuple[str, str, str, str]
    stop_at_bar: float
    stop_label: str
    full_scale_bar: float = 4.0


Drawing = (
    SystemSchematic
    | PressureGauge
    | ValvePositions
    | MeterDisplay
    | HouseSection
    | ClearSpace
    | HeadScale
    | HandFeelStrip
    | TopUpSteps
)
