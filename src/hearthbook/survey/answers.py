"""The home as found: each answer as a figure, given in the record or assumed with its source."""

from __future__ import annotations

from hearthbook.documents.figures import Basis, KeyFigure, calculated, given
from hearthbook.errors import Incomplete
from hearthbook.record.building import Room, UnheatedSpace
from hearthbook.record.home import Home
from hearthbook.record.parts import Evidence
from hearthbook.survey.typical import answered, typical_value

__all__ = [
    "BY_AGE",
    "age_band",
    "altitude_lapse",
    "annual_mean_temperature",
    "annual_variation",
    "basis_of",
    "basis_of_property",
    "design_outdoor_temperature",
    "floor_area",
    "indoor_temperature",
    "internal_gains",
    "neighbour_temperature",
    "reheat_power_per_area",
    "room_height",
    "room_temperature",
    "room_volume",
    "soil_conductivity",
    "thermal_bridge_supplement",
    "unheated_factor",
]

BY_AGE = "by_age"
"""What a construction's `typical` says where only the age of the home tells its U-value."""

_AGE_BANDS = (1929, 1975, 1982, 1995, 2002, 2011)  # last years, typical_values.toml


def basis_of(evidence: Evidence) -> Basis:
    """How a figure stands that rests on this evidence.

    Example:
        >>> basis_of(Evidence.SEEN).value
        'measured'
    """
    return {
        Evidence.SEEN: Basis.MEASURED,
        Evidence.DOCUMENTED: Basis.DOCUMENTED,
        Evidence.ASSUMED: Basis.ASSUMED,
    }[evidence]


def basis_of_property(evidence: Evidence) -> Basis:
    """How a property stands that no eye can see, such as a conductivity or an air change.

    Where somebody saw the thing, its property was still looked up: it counts as written down.

    Example:
        >>> basis_of_property(Evidence.SEEN).value
        'documented'
    """
    return Basis.DOCUMENTED if evidence is Evidence.SEEN else basis_of(evidence)


def age_band(built: int) -> str:
    """The age band of a home in the tables of usual U-values.

    Example:
        >>> age_band(1974), age_band(2020)
        ('until_1975', 'later')
    """
    return next((f"until_{last}" for last in _AGE_BANDS if built <= last), "later")


def room_temperature(room: Room) -> KeyFigure:
    """The temperature a room is designed for: as agreed, or usual for its use."""
    return answered(
        room.wanted_temperature,
        "room_temperature",
        room.use.value,
        name=f"building.rooms.{room.id}.wanted_temperature",
        label=f"temperature of the {room.name}",
    )


def floor_area(room: Room) -> KeyFigure:
    """A room's floor area.

    Raises:
        Incomplete: neither the area nor length and width are given.
    """
    name = f"building.rooms.{room.id}.floor_area"
    label = f"floor area of the {room.name}"
    if room.floor_area is not None:
        return given(name, label, room.floor_area, "m²", place=name, basis=Basis.MEASURED)
    if room.length is None or room.width is None:
        raise Incomplete(
            f"{room.name} has no floor area. Give floor_area, or length and width, of the room."
        )
    sides = tuple(
        given(
            f"building.rooms.{room.id}.{side}",
            f"{side} of the {room.name}",
            value,
            "m",
            place=f"building.rooms.{room.id}.{side}",
            basis=Basis.MEASURED,
        )
        for side, value in (("length", room.length), ("width", room.width))
    )
    return calculated(
        name,
        label,
        room.length * room.width,
        "m²",
        formula="length × width",
        inputs=sides,
        source="geometry",
    )


def room_height(home: Home, room: Room) -> KeyFigure:
    """A room's inside height: its own, or its storey's."""
    if room.height is not None:
        name, value = f"building.rooms.{room.id}.height", room.height
    else:
        name, value = f"building.storeys.{room.storey}.height", home.storey(room.storey).height
    label = f"height of the {room.name}"
    return given(name, label, value, "m", place=name, basis=Basis.MEASURED)


def room_volume(home: Home, room: Room) -> KeyFigure:
    """A room's inside volume."""
    area, height = floor_area(room), room_height(home, room)
    return calculated(
        f"building.rooms.{room.id}.volume",
        f"volume of the {room.name}",
        area.value * height.value,
        "m³",
        formula="floor area × height",
        inputs=(area, height),
        source="geometry",
    )


def altitude_lapse() -> KeyFigure:
    """How much colder it is 100 m higher."""
    return typical_value(
        "altitude_lapse", name="assumptions.altitude_lapse", label="colder for each 100 m of height"
    )


def design_outdoor_temperature(home: Home) -> KeyFigure:
    """The table's design temperature outside, before any correction for altitude.

    Raises:
        Incomplete: none is given; no default would be defensible.
    """
    climate = home.building.climate
    place = "building.climate.design_outdoor_temperature"
    if climate.design_outdoor_temperature is None:
        raise Incomplete(
            f"{place} is missing, and nobody may assume it: two kelvin either way change the heat "
            "pump. Take it for this place from the table your rules name, with its percentile."
        )
    return given(
        place,
        "design temperature outside, as in the table",
        climate.design_outdoor_temperature,
        "°C",
        place=f"{place}; {climate.design_basis}" if climate.design_basis else place,
    )


def annual_mean_temperature(home: Home) -> KeyFigure:
    """The year's mean outdoor temperature: given, from the monthly means, or usual."""
    climate = home.building.climate
    name = "building.climate.annual_mean_temperature"
    label = "mean temperature of the year outside"
    if climate.annual_mean_temperature is None and climate.monthly_mean_temperatures:
        months = tuple(
            given(
                f"building.climate.monthly_mean_temperatures.{month}",
                f"mean temperature of month {month}",
                value,
                "°C",
                place=f"building.climate.monthly_mean_temperatures[{month}]",
            )
            for month, value in enumerate(climate.monthly_mean_temperatures, start=1)
        )
        mean = sum(month.value for month in months) / len(months)
        return calculated(
            name,
            label,
            mean,
            "°C",
            formula="Σ monthly means / 12",
            inputs=months,
            source="arithmetic",
        )
    return answered(
        climate.annual_mean_temperature, "annual_mean_temperature", name=name, label=label
    )


def annual_variation() -> KeyFigure:
    """How far heat into the ground in the coldest weeks exceeds the year's mean."""
    return typical_value(
        "annual_variation",
        name="assumptions.annual_variation",
        label="annual variation of heat into the ground, f_g1",
    )


def neighbour_temperature(home: Home) -> KeyFigure:
    """The temperature on the neighbour's side of a shared wall."""
    return answered(
        home.building.neighbour_temperature,
        "neighbour_temperature",
        name="building.neighbour_temperature",
        label="temperature at the neighbour's",
    )


def unheated_factor(space: UnheatedSpace) -> KeyFigure:
    """The share of the full difference that acts towards an unheated space."""
    return answered(
        space.temperature_factor,
        "unheated_factor",
        name=f"building.unheated_spaces.{space.id}.temperature_factor",
        label=f"temperature factor of {space.name}, b",
    )


def thermal_bridge_supplement(home: Home) -> KeyFigure:
    """What is added to every outside U-value for thermal bridges: 0 where they are listed."""
    building = home.building
    name = "building.thermal_bridge_supplement"
    label = "supplement for thermal bridges, ΔU"
    if building.thermal_bridges and building.thermal_bridge_supplement is None:
        return given(
            name, label, 0.0, "W/(m²·K)", place="building.thermal_bridges, listed one by one"
        )
    return answered(
        building.thermal_bridge_supplement, "thermal_bridge_supplement", name=name, label=label
    )


def soil_conductivity(home: Home, construction_id: str) -> KeyFigure:
    """The conductivity of the soil under a floor."""
    ground = home.construction(construction_id).ground
    return answered(
        ground.soil_conductivity if ground else None,
        "soil_conductivity",
        name=f"building.constructions.{construction_id}.ground.soil_conductivity",
        label="conductivity of the soil",
    )


def reheat_power_per_area(home: Home) -> KeyFigure:
    """Extra heat for warming up after a setback, for each square metre."""
    place = "building.reheat_power_per_area"
    return given(
        place,
        "reheat power for each square metre",
        home.building.reheat_power_per_area,
        "W/m²",
        place=place,
    )


def indoor_temperature(home: Home) -> KeyFigure:
    """The mean temperature of the rooms, weighted by floor area."""
    rooms = [(room_temperature(room), floor_area(room)) for room in home.building.rooms]
    total = sum(area.value for _, area in rooms)
    return calculated(
        "heat_loss.indoor_temperature",
        "mean temperature of the rooms",
        sum(temperature.value * area.value for temperature, area in rooms) / total,
        "°C",
        formula="Σ (temperature × floor area) / Σ floor area",
        inputs=tuple(figure for pair in rooms for figure in pair),
        source="EN 12831-1:2017, mean internal temperature",
    )


def internal_gains(home: Home, dwelling_area: KeyFigure) -> KeyFigure:
    """Mean heat from people, lights and appliances."""
    place = "building.internal_gains"
    label = "heat from people, lights and appliances"
    if home.building.internal_gains is not None:
        return given(place, label, home.building.internal_gains, "W", place=place)
    per_area = typical_value(
        "internal_gains_per_area",
        name="assumptions.internal_gains_per_area",
        label="heat from people and appliances for each square metre",
        note=f"not answered: {place}",
    )
    return calculated(
        place,
        label,
        per_area.value * dwelling_area.value,
        "W",
        formula="gains for each m² × floor area",
        inputs=(per_area, dwelling_area),
        source="ISO 13790 and ISO 52016-1, internal gains of dwellings; from memory",
    )
