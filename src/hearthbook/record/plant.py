"""The plant: unit, cylinder and everything on the water between them."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from hearthbook.record.parts import Id, Part, Words
from hearthbook.record.quantities import (
    Area,
    CurrentAmperes,
    DailyEnergy,
    Days,
    Diameter,
    Duration,
    Efficiency,
    FlowRate,
    OutdoorTemperature,
    Power,
    Pressure,
    PressureDrop,
    Ratio01,
    RefrigerantMass,
    SoundLevel,
    TemperatureDifference,
    Volume,
    WaterTemperature,
)

__all__ = [
    "AddedVolume",
    "AirVent",
    "BackupHeater",
    "CirculationPump",
    "Cylinder",
    "DiverterValve",
    "ExpansionVessel",
    "FillingConnection",
    "FreezeProtection",
    "HeatPump",
    "HeatingWater",
    "HygieneRegime",
    "PerformancePoint",
    "Plant",
    "SafetyValve",
    "WaterFilter",
]


class PerformancePoint(Part):
    """One tested point of the heat pump."""

    outdoor_temperature: OutdoorTemperature
    """Outdoor air, dry bulb."""
    flow_temperature: WaterTemperature
    """Water leaving the unit."""
    output: Power
    """Heat output."""
    efficiency: Efficiency
    """Coefficient of performance at this point."""
    load: Literal["maximum", "minimum", "part"] = "maximum"
    """Whether the compressor runs at its most, its least, or between."""
    includes_defrost: bool = True
    """Whether the output is averaged over defrosts, as EN 14511 asks."""


class HeatPump(Part):
    """The heat pump."""

    description: Words
    """Type and size in plain words; no brand is needed."""
    arrangement: Literal["monobloc", "split"] = "monobloc"
    """Whether water or refrigerant runs between outside and inside."""
    serial_number: str = ""
    """Serial number."""
    points: Annotated[tuple[PerformancePoint, ...], Field(min_length=1)]
    """Tested points from the maker's data; at least one."""
    points_source: str = ""
    """Document and edition they come from."""
    nominal_flow: FlowRate | None = None
    """Water flow the maker names as nominal."""
    minimum_flow: FlowRate | None = None
    """Water flow below which the unit stops."""
    minimum_volume: Volume | None = None
    """Water the maker asks to circulate at all times."""
    water_content: Volume | None = None
    """Water in the unit."""
    pressure_drop: PressureDrop | None = None
    """Pressure drop of its exchanger at nominal flow."""
    maximum_flow_temperature: WaterTemperature | None = None
    """Hottest water it can make."""
    lowest_outdoor_temperature: OutdoorTemperature | None = None
    """Coldest air it runs in."""
    refrigerant: Words
    """Refrigerant by its standard designation, such as R290."""
    refrigerant_safety_class: Literal["A1", "A2L", "A2", "A3"]
    """Safety class to ISO 817."""
    refrigerant_charge: RefrigerantMass | None = None
    """Charge."""
    sound_power: SoundLevel | None = None
    """Sound power level at heating load."""
    sound_power_quiet: SoundLevel | None = None
    """Sound power level in quiet operation."""
    maximum_current: CurrentAmperes | None = None
    """Largest running current."""
    standby_power: Power | None = None
    """What it draws when neither heating nor defrosting."""
    fan_and_control_included: bool = True
    """Whether the efficiencies count fan and control electricity."""
    defrost_length: Duration | None = None
    """Usual length of a defrost."""
    lowest_flow_in_defrost: WaterTemperature | None = None
    """Flow temperature below which the unit gives up a defrost."""
    anti_seize_runs: bool = True
    """Whether it turns its pump now and then in summer."""

    @property
    def refrigerant_burns(self) -> bool:
        """Whether gas that leaks out can catch fire: every class of ISO 817 but A1 here."""
        return self.refrigerant_safety_class != "A1"


class BackupHeater(Part):
    """An electric heater in the flow."""

    power: Power
    """Its power."""
    is_enabled: bool
    """Whether it may come on by itself."""
    locked_above: OutdoorTemperature | None = None
    """Outdoor temperature above which it stays off."""


class HygieneRegime(Part):
    """The recorded decision on hot-water hygiene."""

    temperature: WaterTemperature
    """Temperature of the hygiene run."""
    every: Days
    """Days between runs."""
    weekday: Literal[
        "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"
    ] = "sunday"
    """Day it runs on."""
    start: Annotated[str, Field(pattern=r"^([01]\d|2[0-3]):[0-5]\d$")] = "02:00"
    """Time it starts."""
    hold: Duration
    """Time the whole cylinder is held at the temperature."""
    heat_source: Literal["immersion_heater", "heat_pump", "both"]
    """What heats the last degrees."""
    decided_by: Words
    """Who decided, by role."""
    reason: Words
    """Why this regime fits this household."""


class Cylinder(Part):
    """The hot-water cylinder."""

    volume: Volume
    """Water it stores."""
    coil_area: Area | None = None
    """Surface of the heat-pump coil."""
    coil_content: Volume | None = None
    """Heating water in the coil."""
    set_temperature: WaterTemperature
    """Temperature it is heated to."""
    hysteresis: TemperatureDifference | None = None
    """Fall below the set temperature that starts a reheat."""
    standing_loss: DailyEnergy | None = None
    """Heat lost in a day, from its label (EN 12897)."""
    sensor_height_share: Ratio01 | None = None
    """Height of the sensor as a share of the cylinder's."""
    immersion_power: Power | None = None
    """Power of its immersion heater; absent where it has none."""
    is_unvented: bool
    """Whether it is an unvented, mains-pressure cylinder."""
    mixing_valve_temperature: WaterTemperature | None = None
    """Setting of a thermostatic mixing valve at its outlet."""
    cold_supply_temperature: WaterTemperature | None = None
    """Temperature of the incoming cold water in winter."""
    hygiene: HygieneRegime | None = None
    """The recorded decision on hygiene."""
    relief_discharge: str = ""
    """Where the relief valves' discharge can be seen, in the household's words."""
    has_internal_expansion: bool | None = None
    """Whether an air space inside takes up the growing water in place of a vessel."""


class DiverterValve(Part):
    """The valve that sends heat to the cylinder or to the rooms."""

    normal_position: Literal["heating", "hot_water"] = "heating"
    """Where it rests without power."""


class AddedVolume(Part):
    """A vessel that adds water to the system."""

    kind: Literal["volumiser", "buffer"]
    """volumiser: two pipes, in series; buffer: four pipes, separating two circuits."""
    volume: Volume
    """Its water."""
    on: Literal["flow", "return"] = "return"
    """Which pipe it sits in."""


class ExpansionVessel(Part):
    """An expansion vessel."""

    id: Id
    """Referred to by readings."""
    circuit: Literal["heating", "drinking_water"] = "heating"
    """Which water it serves."""
    volume: Volume
    """Its nominal volume."""
    precharge: Pressure | None = None
    """Gas pressure it was set to, water side empty."""


class SafetyValve(Part):
    """A pressure safety valve."""

    circuit: Literal["heating", "drinking_water"] = "heating"
    """Which water it guards."""
    setting: Pressure
    """Pressure at which it opens."""


class AirVent(Part):
    """An air vent."""

    id: Id
    """Referred to by checks."""
    kind: Literal["automatic", "manual"]
    """Whether it works by itself."""
    place: Words
    """Where it is."""


class WaterFilter(Part):
    """The filter on the return to the unit."""

    kind: Literal["magnetic_and_mesh", "magnetic", "mesh"]
    """How it holds dirt."""
    has_two_valves: bool = True
    """Whether it can be cleaned without draining."""


class FreezeProtection(Part):
    """How water outdoors is kept from freezing the exchanger."""

    kind: Literal["freeze_valves", "glycol", "none_needed"]
    """Valves that open, an antifreeze, or none because no water is outdoors."""
    glycol_share: Ratio01 | None = None
    """Share of propylene glycol by volume."""
    opens_at: WaterTemperature | None = None
    """Water temperature at which freeze valves open."""


class FillingConnection(Part):
    """How water is added."""

    kind: Literal["removable_hose", "fixed_loop_two_valves", "keyed_link", "none"]
    """The fitting."""
    householder_may_use: bool = True
    """Whether the household was shown how and may do it."""
    hose_diameter: Diameter | None = None
    """Size of the hose."""
    flow: FlowRate | None = None
    """Flow with the valve a quarter turn open, as measured."""


class CirculationPump(Part):
    """The pump that moves the heating water."""

    is_in_unit: bool = True
    """Whether it sits inside the heat pump."""
    available_head: PressureDrop | None = None
    """Head it gives at design flow, outside the unit."""
    setting: str = ""
    """The setting it was left at."""


class HeatingWater(Part):
    """What the heating system is filled with."""

    treatment: Literal["inhibitor", "low_salt", "glycol", "untreated"]
    """How it is treated."""
    product_note: str = ""
    """Dose and date, without a brand."""


class Plant(Part):
    """The plant's chapter of the record."""

    heat_pump: HeatPump
    """The heat pump."""
    backup_heater: BackupHeater | None = None
    """An electric heater in the flow."""
    cylinder: Cylinder | None = None
    """The hot-water cylinder."""
    diverter_valve: DiverterValve | None = None
    """The valve between heating and hot water."""
    added_volume: AddedVolume | None = None
    """A volumiser or a buffer."""
    expansion_vessels: tuple[ExpansionVessel, ...] = ()
    """Vessels on heating water and drinking water."""
    safety_valves: tuple[SafetyValve, ...] = ()
    """Safety valves."""
    filter: WaterFilter | None = None
    """The filter."""
    air_vents: tuple[AirVent, ...] = ()
    """Air vents."""
    freeze_protection: FreezeProtection | None = None
    """How outdoor water is kept from freezing."""
    filling: FillingConnection | None = None
    """How water is added."""
    pump: CirculationPump = CirculationPump()
    """The pump."""
    water: HeatingWater | None = None
    """What the system is filled with."""
    design_flow_temperature: WaterTemperature | None = None
    """Flow temperature chosen for the design outdoor temperature."""
    design_drop: TemperatureDifference | None = None
    """Flow-return difference chosen for the design."""
    gauge_full_scale: Pressure | None = None
    """The highest mark of the pressure gauge."""
