"""What was set, measured and checked when the system was put to work."""

from __future__ import annotations

import datetime as dt
from enum import StrEnum
from typing import Annotated, Any, Literal

from pydantic import AwareDatetime, Field, ValidationInfo, WithJsonSchema, field_validator

from hearthbook.record.parts import Id, Part, Words
from hearthbook.record.quantities import OutdoorTemperature, Quantity
from hearthbook.units import from_trade

__all__ = [
    "READING_UNITS",
    "Check",
    "CheckKind",
    "Commissioning",
    "HandedDocument",
    "Instrument",
    "OpenItem",
    "Person",
    "Reading",
    "ReadingKind",
    "SettingChange",
]


class ReadingKind(StrEnum):
    """What a reading is of. Each has one documented unit, given in `READING_UNITS`."""

    FLOW_RATE = "flow_rate"
    FLOW_TEMPERATURE = "flow_temperature"
    RETURN_TEMPERATURE = "return_temperature"
    ZERO_OFFSET = "zero_offset"
    HEAT_OUTPUT = "heat_output"
    COLD_PRESSURE = "cold_pressure"
    HOT_PRESSURE = "hot_pressure"
    VESSEL_PRECHARGE = "vessel_precharge"
    CYLINDER_TEMPERATURE = "cylinder_temperature"
    REHEAT_TIME = "reheat_time"
    REHEAT_START_TEMPERATURE = "reheat_start_temperature"
    REHEAT_END_FLOW_TEMPERATURE = "reheat_end_flow_temperature"
    TAP_TEMPERATURE = "tap_temperature"
    ROOM_TEMPERATURE = "room_temperature"
    EMITTER_FLOW_TEMPERATURE = "emitter_flow_temperature"
    EMITTER_RETURN_TEMPERATURE = "emitter_return_temperature"
    HARDNESS = "hardness"
    CONDUCTIVITY = "conductivity"
    ACIDITY = "acidity"
    GLYCOL_SHARE = "glycol_share"
    METER = "meter"
    FILL_VOLUME = "fill_volume"
    SOUND_PRESSURE = "sound_pressure"
    PRESSURE_TEST = "pressure_test"
    PRESSURE_TEST_END = "pressure_test_end"


_NUMBER_OR_TEXT: dict[str, Any] = {
    "anyOf": [{"type": "number"}, {"type": "string", "pattern": r"^\s*[+\-−]?\d"}]
}

_READINGS: dict[ReadingKind, Quantity] = {
    ReadingKind.FLOW_RATE: Quantity("L/min", 0, 300),
    ReadingKind.FLOW_TEMPERATURE: Quantity("°C", -10, 110),
    ReadingKind.RETURN_TEMPERATURE: Quantity("°C", -10, 110),
    ReadingKind.ZERO_OFFSET: Quantity("K", -10, 10),
    ReadingKind.HEAT_OUTPUT: Quantity("kW", -100, 100),
    ReadingKind.COLD_PRESSURE: Quantity("bar", 0, 12),
    ReadingKind.HOT_PRESSURE: Quantity("bar", 0, 12),
    ReadingKind.VESSEL_PRECHARGE: Quantity("bar", 0, 12),
    ReadingKind.CYLINDER_TEMPERATURE: Quantity("°C", 0, 110),
    ReadingKind.REHEAT_TIME: Quantity("min", 0, 1440),
    ReadingKind.REHEAT_START_TEMPERATURE: Quantity("°C", 0, 110),
    ReadingKind.REHEAT_END_FLOW_TEMPERATURE: Quantity("°C", 0, 110),
    ReadingKind.TAP_TEMPERATURE: Quantity("°C", 0, 110),
    ReadingKind.ROOM_TEMPERATURE: Quantity("°C", -10, 45),
    ReadingKind.EMITTER_FLOW_TEMPERATURE: Quantity("°C", -10, 110),
    ReadingKind.EMITTER_RETURN_TEMPERATURE: Quantity("°C", -10, 110),
    ReadingKind.HARDNESS: Quantity("ppm", 0, 2000),
    ReadingKind.CONDUCTIVITY: Quantity("µS/cm", 0, 20_000),
    ReadingKind.ACIDITY: Quantity("", 0, 14),
    ReadingKind.GLYCOL_SHARE: Quantity("%", 0, 100),
    ReadingKind.METER: Quantity("kWh", 0, 1e9),
    ReadingKind.FILL_VOLUME: Quantity("L", 0, 5000),
    ReadingKind.SOUND_PRESSURE: Quantity("dB(A)", 0, 140),
    ReadingKind.PRESSURE_TEST: Quantity("bar", 0, 20),
    ReadingKind.PRESSURE_TEST_END: Quantity("bar", 0, 20),
}

READING_UNITS: dict[ReadingKind, str] = {
    kind: quantity.symbol for kind, quantity in _READINGS.items()
}


class Instrument(Part):
    """An instrument and how far it can be trusted."""

    id: Id
    """Referred to by readings."""
    name: Words
    """What it is."""
    accuracy: Annotated[float, Field(gt=0, le=1000)]
    """Largest error, in the unit of its readings, or in per cent of the reading."""
    accuracy_is_percent: bool = False
    """Whether the accuracy is a share of the reading."""
    serial_number: str = ""
    """Serial number."""
    calibrated_until: dt.date | None = None
    """Day its calibration runs out."""


class Reading(Part):
    """One reading, in the unit documented for its kind."""

    kind: ReadingKind
    """What was read."""
    value: Annotated[float, WithJsonSchema(_NUMBER_OR_TEXT)]
    """As read: L/min, °C, K, kW, bar, min, ppm, µS/cm, kWh, L, dB(A), % by kind.

    Another unit may be written behind the number, such as `0.9 m³/h` or `0.236 MWh`.
    """
    of: Id | None = None
    """The emitter, room, meter, vessel or window it belongs to."""
    instrument: Id | None = None
    """Which instrument."""
    outdoor_temperature: OutdoorTemperature | None = None
    """Outdoor temperature at the time."""
    state: Literal["steady", "warming_up", "defrost", "hot_water", "standstill"] = "steady"
    """What the system was doing."""
    at: AwareDatetime | None = None
    """When, with the offset from UTC."""
    photo: str = ""
    """File name of a photo beside the record."""
    note: str = ""
    """Anything worth knowing."""

    @field_validator("value", mode="before")
    @classmethod
    def _in_the_unit_of_its_kind(cls, written: Any, info: ValidationInfo) -> Any:
        kind = info.data.get("kind")
        return written if kind is None else _READINGS[kind].number(written)

    @property
    def unit(self) -> str:
        """The unit documented for its kind."""
        return READING_UNITS[self.kind]

    @property
    def in_si(self) -> float:
        """The value in SI (°C for temperatures)."""
        return from_trade(self.value, self.unit)


class CheckKind(StrEnum):
    """Things that are looked at, not measured."""

    AS_BUILT_MATCHES_DESIGN = "as_built_matches_design"
    CLEARANCES_FREE = "clearances_free"
    CONDENSATE_DRAINS = "condensate_drains"
    SYSTEM_FLUSHED = "system_flushed"
    AUTOMATIC_VENTS_CLOSED = "automatic_vents_closed"
    FILTER_CLEAN = "filter_clean"
    INSULATION_COMPLETE = "insulation_complete"
    VALVES_OPEN = "valves_open"
    KEPT_OPEN_EMITTERS_OPEN = "kept_open_emitters_open"
    FILLING_DISCONNECTED = "filling_disconnected"
    SAFETY_VALVE_LIFTED = "safety_valve_lifted"
    RELIEF_DISCHARGE_SAFE = "relief_discharge_safe"
    CUT_OUT_INTACT = "cut_out_intact"
    FREEZE_PROTECTION_FITTED = "freeze_protection_fitted"
    LABELS_FITTED = "labels_fitted"
    ELECTRICAL_CERTIFICATE = "electrical_certificate"
    BACKUP_LIMITS_SET = "backup_limits_set"
    RESTARTS_AFTER_POWER_CUT = "restarts_after_power_cut"
    CYLINDER_SENSOR_SECURE = "cylinder_sensor_secure"
    BALANCED = "balanced"


class Check(Part):
    """One thing looked at."""

    kind: CheckKind
    """What."""
    result: Literal["yes", "no", "not_done", "not_applicable"]
    """What was found."""
    note: str = ""
    """Anything worth knowing."""


class SettingChange(Part):
    """A setting as found and as left."""

    name: Words
    """Which setting, as the controller or the part calls it."""
    before: str = ""
    """Value before."""
    after: Words
    """Value left."""
    unit: str = ""
    """Unit of both."""
    why: str = ""
    """Why it was changed."""
    by: Id | None = None
    """Who, by id of a person below."""
    on: dt.date | None = None
    """When."""


class Person(Part):
    """Who worked here, by role."""

    id: Id
    """Referred to by settings."""
    name: Words
    """Name."""
    role: Words
    """Role."""


class HandedDocument(Part):
    """A paper that belongs to the home."""

    name: Words
    """What it is; the word "unvented" in it marks the cylinder's commissioning record."""
    where: Words
    """Where it is kept in the home, or who holds it."""
    reference: str = ""
    """Number on it."""
    status: Literal["handed_over", "to_follow", "held_by_firm"] = "handed_over"
    """Whether the household has it."""
    due: dt.date | None = None
    """When it will come."""


class OpenItem(Part):
    """Something still to be done."""

    what: Words
    """What."""
    owner: Words
    """Who sees to it."""
    due: dt.date | None = None
    """By when."""
    is_safety: bool = False
    """Whether the system may not be handed over before."""


class Commissioning(Part):
    """The commissioning chapter of the record."""

    date: dt.date
    """Day of commissioning."""
    handover_date: dt.date | None = None
    """Day of the handover visit."""
    people: tuple[Person, ...] = ()
    """Who worked here."""
    instruments: tuple[Instrument, ...] = ()
    """Instruments used."""
    settings: tuple[SettingChange, ...] = ()
    """Settings as found and as left."""
    readings: tuple[Reading, ...] = ()
    """Readings."""
    checks: tuple[Check, ...] = ()
    """Things looked at."""
    documents: tuple[HandedDocument, ...] = ()
    """Papers of the home."""
    open_items: tuple[OpenItem, ...] = ()
    """What is still to be done."""
    next_service: dt.date | None = None
    """When the next service is due."""
    seasonal_visit: dt.date | None = None
    """When the firm will look at the curve in the first winter."""
