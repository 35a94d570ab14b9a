"""The property: where it stands, its rooms, what they are made of and what lies beyond them."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import Field

from hearthbook.record.parts import Evidence, Id, Orientation, Part, Words
from hearthbook.record.quantities import (
    AirChanges,
    Altitude,
    Area,
    DegreeDays,
    Efficiency,
    EnergyMeterReading,
    HeatLossCoefficient,
    Irradiance,
    Latitude,
    Length,
    LinearTransmittance,
    Longitude,
    OutdoorTemperature,
    Power,
    Ratio01,
    RelativeHumidity,
    Resistance,
    RoomTemperature,
    SmallLength,
    TemperatureDifference,
    ThermalConductivity,
    Transmittance,
    TransmittanceSupplement,
    VolumeOfHouse,
    WindSpeed,
)

__all__ = [
    "Bridge",
    "Building",
    "Climate",
    "Construction",
    "ConstructionKind",
    "Element",
    "FuelBill",
    "GroundFloor",
    "Layer",
    "LinearBridge",
    "Opening",
    "Room",
    "RoomUse",
    "Storey",
    "ThermalMass",
    "UnheatedSpace",
    "Ventilation",
    "VentilationSystem",
]


class RoomUse(StrEnum):
    """What a room is used for; it decides the usual temperature and air change."""

    LIVING = "living"
    DINING = "dining"
    KITCHEN = "kitchen"
    BEDROOM = "bedroom"
    BATHROOM = "bathroom"
    HALL = "hall"
    LANDING = "landing"
    STUDY = "study"
    WC = "wc"
    UTILITY = "utility"


class ConstructionKind(StrEnum):
    """What a construction is part of."""

    WALL = "wall"
    ROOF = "roof"
    CEILING = "ceiling"
    FLOOR = "floor"
    GROUND_FLOOR = "ground_floor"
    WINDOW = "window"
    DOOR = "door"


class ThermalMass(StrEnum):
    """How much heat the structure stores."""

    LIGHT = "light"
    MEDIUM = "medium"
    HEAVY = "heavy"


class VentilationSystem(StrEnum):
    """How fresh air comes in."""

    NATURAL = "natural"
    INTERMITTENT_EXTRACT = "intermittent_extract"
    CONTINUOUS_EXTRACT = "continuous_extract"
    BALANCED_HEAT_RECOVERY = "balanced_heat_recovery"


class Bridge(Part):
    """A second material that runs through a layer, such as studs through insulation."""

    material: Words
    """What it is."""
    conductivity: ThermalConductivity
    """Its thermal conductivity."""
    fraction: Ratio01
    """Its share of the layer's area."""


class Layer(Part):
    """One layer of a construction, named from inside to outside."""

    material: Words
    """What it is."""
    thickness: SmallLength | None = None
    """Its thickness; not needed where the resistance is given."""
    conductivity: ThermalConductivity | None = None
    """Its thermal conductivity; with the thickness it gives the resistance."""
    resistance: Resistance | None = None
    """Its thermal resistance, for layers rated so."""
    is_air: bool = False
    """An unventilated air layer; the resistance comes from ISO 6946 by its thickness."""
    bridge: Bridge | None = None
    """A material that bridges the layer."""


class GroundFloor(Part):
    """What ISO 13370 needs of a floor on the ground."""

    area: Area | None = None
    """The whole dwelling's floor on the ground; the rooms' sum where absent."""
    exposed_perimeter: Length
    """Length of the floor's edge to outside or to unheated space."""
    wall_thickness: SmallLength
    """Thickness of the outside walls."""
    soil_conductivity: ThermalConductivity | None = None
    """Conductivity of the soil: clay 1.5, sand or gravel 2.0, rock 3.5."""
    is_suspended: bool = False
    """A suspended floor over a ventilated space instead of a slab."""


class Construction(Part):
    """A wall, roof, floor, window or door: its U-value, its layers, or its usual build."""

    id: Id
    """Referred to by elements and openings."""
    name: Words
    """In plain words."""
    kind: ConstructionKind
    """What it is part of."""
    u_value: Transmittance | None = None
    """The U-value where it is known."""
    layers: tuple[Layer, ...] = ()
    """The layers from inside to outside, where the U-value is to be computed."""
    typical: Id | None = None
    """A usual build from the table of typical values, or by_age, where neither is known."""
    ground: GroundFloor | None = None
    """For a floor on the ground: the figures ISO 13370 needs."""
    evidence: Evidence
    """How it is known."""
    evidence_note: str = ""
    """What was seen, or which paper says so."""


class Opening(Part):
    """A window or an outside door in an element; its area is taken out of the element."""

    construction: Id
    """The window's or door's construction."""
    width: Length
    """Width of the opening."""
    height: Length
    """Height of the opening."""
    count: Annotated[int, Field(ge=1, le=40)] = 1
    """How many alike."""
    orientation: Orientation | None = None
    """Which way it looks; the element's where absent."""
    frame_fraction: Ratio01 | None = None
    """Share of the opening taken by the frame."""
    solar_transmittance: Ratio01 | None = None
    """Total solar energy transmittance of the glass."""
    shading: Ratio01 | None = None
    """Share of the sun that reaches it past trees, reveals and neighbours."""


class Element(Part):
    """A surface of a room, and what lies on its other side.

    `beyond` is `outside`, `ground`, `neighbour`, or the id of a room or an unheated space.
    """

    construction: Id
    """What it is made of."""
    beyond: Id
    """outside, ground, neighbour, or the id of a room or an unheated space."""
    area: Area | None = None
    """Gross area, openings included; or give width and height."""
    width: Length | None = None
    """Width, where the area is not given."""
    height: Length | None = None
    """Height, where the area is not given; the room's height where absent."""
    orientation: Orientation | None = None
    """Which way it looks."""
    openings: tuple[Opening, ...] = ()
    """Windows and doors in it."""


class Room(Part):
    """A heated room."""

    id: Id
    """Referred to by emitters, controls and readings."""
    name: Words
    """As the household calls it."""
    use: RoomUse
    """What it is used for."""
    storey: Id
    """The storey it is on."""
    length: Length | None = None
    """Inside length, where the floor area is not given."""
    width: Length | None = None
    """Inside width, where the floor area is not given."""
    floor_area: Area | None = None
    """Inside floor area."""
    height: Length | None = None
    """Inside height; the storey's where absent."""
    wanted_temperature: RoomTemperature | None = None
    """The temperature agreed with the household; the usual one for the use where absent."""
    air_changes: AirChanges | None = None
    """Air changes per hour at design; the usual ones for the use where absent."""
    has_open_flue: bool = False
    """An open fire or flue, which draws air while the room is heated."""
    elements: tuple[Element, ...]
    """Its surfaces to outside, ground, neighbours, unheated spaces and colder or warmer rooms."""


class Storey(Part):
    """One level of the home, named from the lowest up."""

    id: Id
    """Referred to by rooms."""
    name: Words
    """As the household calls it."""
    height: Length
    """Inside height of its rooms."""


class UnheatedSpace(Part):
    """A garage, a loft or a porch beside the heated rooms."""

    id: Id
    """Referred to by elements."""
    name: Words
    """As the household calls it."""
    temperature_factor: Ratio01 | None = None
    """Share of the full inside-outside difference that acts across the wall to it."""
    temperature: OutdoorTemperature | None = None
    """Its temperature at design, where it was estimated directly."""


class LinearBridge(Part):
    """A thermal bridge with its length."""

    name: Words
    """Which junction."""
    length: Length
    """Its length."""
    transmittance: LinearTransmittance
    """Its linear thermal transmittance."""


class Ventilation(Part):
    """How the dwelling as a whole is aired."""

    system: VentilationSystem
    """Where fresh air comes from."""
    air_changes: AirChanges | None = None
    """Air changes of the whole dwelling at design, where known."""
    air_changes_at_50_pascals: AirChanges | None = None
    """Result of a pressure test."""
    heat_recovery: Ratio01 | None = None
    """Share of heat a balanced system gives back."""
    supply_air_changes: AirChanges | None = None
    """Air changes moved by a balanced or continuous system."""
    sheltering: Ratio01 | None = None
    """Share of the pressure-test rate that leaks at usual wind; 0.05 to 0.07 is usual."""
    evidence: Evidence = Evidence.ASSUMED
    """How it is known."""


class Climate(Part):
    """The weather of the place."""

    design_outdoor_temperature: OutdoorTemperature | None = None
    """Outdoor temperature the heating must still cope with, before the altitude correction."""
    design_basis: str = ""
    """Which table and percentile it comes from."""
    reference_altitude: Altitude | None = None
    """Altitude of the weather station it belongs to."""
    correct_for_altitude: bool = True
    """Whether the difference in altitude is taken off."""
    annual_mean_temperature: OutdoorTemperature | None = None
    """Mean outdoor temperature of the year."""
    monthly_mean_temperatures: (
        Annotated[tuple[OutdoorTemperature, ...], Field(min_length=12, max_length=12)] | None
    ) = None
    """Twelve monthly means, January first."""
    hourly_spread: TemperatureDifference | None = None
    """Standard deviation of hourly temperatures about the monthly mean."""
    degree_days: DegreeDays | None = None
    """Heating degree days of a usual year to base 15.5 °C."""
    monthly_relative_humidity: (
        Annotated[tuple[RelativeHumidity, ...], Field(min_length=12, max_length=12)] | None
    ) = None
    """Twelve monthly means of relative humidity, January first."""
    monthly_global_radiation: (
        Annotated[tuple[Irradiance, ...], Field(min_length=12, max_length=12)] | None
    ) = None
    """Twelve monthly means of sun on the level, night counted, January first."""
    monthly_wind_speed: (
        Annotated[tuple[WindSpeed, ...], Field(min_length=12, max_length=12)] | None
    ) = None
    """Twelve monthly means of wind speed, January first."""
    weather_file: Annotated[str, Field(min_length=1, max_length=200)] | None = None
    """Hourly weather in a file in the record's folder, named from there; see weather_files.md."""


class FuelBill(Part):
    """A year's fuel before the heat pump, to hold the calculation against."""

    fuel: Words
    """Which fuel."""
    energy: EnergyMeterReading
    """Fuel used in the year."""
    efficiency: Efficiency
    """Seasonal efficiency of the old heating."""
    heating_share: Ratio01
    """Share of it that heated rooms, not water or food."""
    degree_days: DegreeDays
    """Degree days of that year, base 15.5 °C."""
    rooms_as_warm_as_wanted: bool = True
    """Whether the rooms were kept as warm as now wanted."""


class Building(Part):
    """The property's chapter of the record."""

    address: tuple[Words, ...]
    """Address lines."""
    country: Annotated[str, Field(pattern=r"^[a-z_]{2,20}$")] = "england"
    """Whose rules apply."""
    latitude: Latitude | None = None
    """Degrees north."""
    longitude: Longitude | None = None
    """Degrees east; west is negative."""
    altitude: Altitude | None = None
    """Height above the sea."""
    built: Annotated[int, Field(ge=1000, le=2100)] | None = None
    """Year it was built."""
    thermal_mass: ThermalMass | None = None
    """How much heat the structure stores."""
    climate: Climate = Climate()
    """The weather of the place."""
    storeys: Annotated[tuple[Storey, ...], Field(min_length=1)]
    """The levels, the lowest first."""
    constructions: Annotated[tuple[Construction, ...], Field(min_length=1)]
    """What walls, floors, roofs, windows and doors are made of."""
    rooms: Annotated[tuple[Room, ...], Field(min_length=1)]
    """The heated rooms."""
    unheated_spaces: tuple[UnheatedSpace, ...] = ()
    """Garage, loft, porch and the like."""
    neighbour_temperature: RoomTemperature | None = None
    """Temperature taken for the neighbour's side of a shared wall."""
    thermal_bridge_supplement: TransmittanceSupplement | None = None
    """Added to every outside element's U-value, where bridges are not listed."""
    thermal_bridges: tuple[LinearBridge, ...] = ()
    """Bridges listed one by one, instead of the supplement."""
    ventilation: Ventilation
    """How it is aired."""
    internal_gains: Power | None = None
    """Mean heat from people, lights and appliances."""
    reheat_power_per_area: Annotated[float, Field(ge=0, le=50)] = 0.0
    """Extra W/m² for warming up after a setback; 0 for steady weather-compensated heating."""
    fuel_bill: FuelBill | None = None
    """A year's fuel before the change."""
    heat_loss_measured: HeatLossCoefficient | None = None
    """Heat-transfer coefficient measured by a co-heating test or in use."""
    heated_volume: VolumeOfHouse | None = None
    """Volume of the dwelling where it differs from the sum of the rooms."""
