"""The controls of a home in the year: curve limits, thermostat, backup heater."""

from __future__ import annotations

from hearthbook.design.results import Design
from hearthbook.documents.figures import KeyFigure, given
from hearthbook.year.plant_fields import Fields, reckoned, stands_in

__all__ = ["control_fields", "thermostat_room"]

_FLOW_HYSTERESIS = 3.0  # K; 2 to 5 K, common practice, no source
_ROOM_HYSTERESIS = 0.5  # K, common practice, no source
_NEVER_STOPS = 20.0  # K above wanted, which no room reaches by heating; derived
_NOT_LOCKED = 60.0  # °C outside; the record names no lock, derived
_BACKUP_AFTER, _BACKUP_SHORTFALL = 1800.0, 5.0  # s, K; common practice, no source


def control_fields(design: Design) -> Fields:
    """The plant's fields about controls."""
    controls = design.home.controls
    return {
        "curve_least": _or_advised(
            "minimum_flow_temperature", "lowest flow temperature",
            controls.minimum_flow_temperature, design.curve.minimum,
        ),
        "curve_most": _or_advised(
            "maximum_flow_temperature", "highest flow temperature for heating",
            controls.maximum_flow_temperature, design.curve.maximum,
        ),
        "heating_limit": _or_advised(
            "heating_limit", "outdoor mean above which heating rests", controls.heating_limit,
            design.curve.heating_limit,
        ),
        "flow_hysteresis": stands_in(
            "flow_hysteresis", "flow above its target that stops the unit, below that starts it",
            _FLOW_HYSTERESIS, "K", note="2 to 5 K",
        ),
        "room_influence": given(
            "controls.room_influence", "K of flow for 1 K of room", controls.room_influence, "",
            place="controls.room_influence",
        ),
        "thermostat_shift": _shift(design),
        "thermostat_hysteresis": stands_in(
            "thermostat_hysteresis", "hysteresis of the room thermostat", _ROOM_HYSTERESIS, "K"
        ),
        **_backup(design),
    }  # fmt: skip


def thermostat_room(design: Design, room_ids: tuple[str, ...]) -> int:
    """Index of the room the thermostat hangs in; -1 where there is none."""
    thermostat = design.home.controls.thermostat
    return -1 if thermostat is None else room_ids.index(thermostat.room)


def _or_advised(field: str, label: str, value: float | None, advised: KeyFigure) -> KeyFigure:
    place = f"controls.{field}"
    if value is not None:
        return given(place, label, value, "°C", place=place)
    return reckoned(
        field, label, advised.value, "°C", formula="as advised", inputs=(advised,),
        source="the design's weather curve", note=f"not answered: {place}",
    )  # fmt: skip


def _shift(design: Design) -> KeyFigure:
    """How far above the wanted temperature the thermostat stops heating."""
    label = "thermostat above the wanted temperature of its room"
    thermostat = design.home.controls.thermostat
    if thermostat is None or thermostat.acts_as == "room_influence":
        return stands_in("thermostat_shift", label, _NEVER_STOPS, "K", source="derived",
                         note="no thermostat stops heating here")  # fmt: skip
    place = "controls.thermostat.setting"
    setting = given(place, "setting of the room thermostat", thermostat.setting, "°C", place=place)
    wanted = design.emitters.room(thermostat.room).temperature
    return reckoned(
        "thermostat_shift", label, setting.value - wanted.value, "K", formula="setting - wanted",
        inputs=(setting, wanted), source="definition",
    )  # fmt: skip


def _backup(design: Design) -> Fields:
    heater = design.home.plant.backup_heater
    power = 0.0 if heater is None or not heater.is_enabled else heater.power
    lock = None if heater is None else heater.locked_above
    lock_place, lock_label = (
        "plant.backup_heater.locked_above",
        "outdoor temperature above which the backup heater is locked",
    )
    return {
        "backup_power": given("year.plant.backup_power", "power of the backup heater, as enabled",
                              power, "kW", place="plant.backup_heater"),
        "backup_locked_above": stands_in(
            "backup_locked_above", lock_label, _NOT_LOCKED, "°C", source="derived",
            note=f"not answered: {lock_place}; taken as not locked",
        ) if lock is None else given(lock_place, lock_label, lock, "°C", place=lock_place),
        "backup_after": stands_in(
            "backup_after", "time the flow must be short before the backup heater comes on",
            _BACKUP_AFTER, "min",
        ),
        "backup_shortfall": stands_in(
            "backup_shortfall", "flow below its target that counts as short for the backup heater",
            _BACKUP_SHORTFALL, "K",
        ),
    }  # fmt: skip
