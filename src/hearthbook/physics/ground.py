"""Floors on the ground to ISO 13370."""

from __future__ import annotations

import numpy as np

from hearthbook.errors import check_between
from hearthbook.units import (
    Metres,
    MetresPerSecond,
    Ratio,
    SquareMetreKelvinPerWatt,
    SquareMetres,
    WattsPerMetreKelvin,
    WattsPerSquareMetreKelvin,
)

__all__ = [
    "characteristic_dimension",
    "equivalent_thickness",
    "slab_u_value",
    "suspended_floor_u_value",
]

_INSIDE_DOWNWARD = 0.17  # m²·K/W, ISO 6946, heat flowing down
_OUTSIDE = 0.04  # m²·K/W, ISO 6946


def characteristic_dimension(area: SquareMetres, exposed_perimeter: Metres) -> Metres:
    """The floor's area over half its exposed edge: a wide floor loses less for each square metre.

    Args:
        area: of the floor on the ground.
        exposed_perimeter: edge to outside or to unheated space; above 0.

    Raises:
        OutOfRange: there is no exposed edge.

    Source:
        ISO 13370:2017, characteristic dimension of floor.

    Example:
        >>> round(characteristic_dimension(58.89, 33.8), 3)
        3.485
    """
    check_between("exposed perimeter", exposed_perimeter, 1e-6, 10_000.0, "m")
    return area / (exposed_perimeter / 2)


def equivalent_thickness(
    wall_thickness: Metres,
    soil_conductivity: WattsPerMetreKelvin,
    floor_resistance: SquareMetreKelvinPerWatt = 0.0,
) -> Metres:
    """Thickness of soil that resists as the wall's foot, the floor and its surfaces do.

    Args:
        wall_thickness: of the outside walls.
        soil_conductivity: clay 1.5, sand or gravel 2.0, rock 3.5 W/(m·K).
        floor_resistance: of the floor's layers; a plain concrete slab counts as soil, so 0.

    Source:
        ISO 13370:2017, equivalent thickness.

    Example:
        >>> round(equivalent_thickness(0.3, 1.5), 3)
        0.615
    """
    return wall_thickness + soil_conductivity * (_INSIDE_DOWNWARD + floor_resistance + _OUTSIDE)


def slab_u_value(
    area: SquareMetres,
    exposed_perimeter: Metres,
    wall_thickness: Metres,
    soil_conductivity: WattsPerMetreKelvin,
    floor_resistance: SquareMetreKelvinPerWatt = 0.0,
) -> WattsPerSquareMetreKelvin:
    """U-value of a slab on the ground, the soil included.

    Args:
        area: of the whole floor.
        exposed_perimeter: edge to outside or to unheated space.
        wall_thickness: of the outside walls.
        soil_conductivity: clay 1.5, sand or gravel 2.0, rock 3.5 W/(m·K).
        floor_resistance: of the floor's layers.

    Raises:
        OutOfRange: there is no exposed edge.

    Assumes:
        No edge insulation. A well-insulated floor is one whose equivalent thickness is not below
        the characteristic dimension.

    Source:
        ISO 13370:2017, slab-on-ground floors.

    Example:
        >>> round(slab_u_value(58.89, 33.8, 0.3, 1.5), 3)
        0.761
    """
    width = np.asarray(characteristic_dimension(area, exposed_perimeter), dtype=float)
    depth = np.asarray(
        equivalent_thickness(wall_thickness, soil_conductivity, floor_resistance), dtype=float
    )
    thin = 2 * soil_conductivity / (np.pi * width + depth) * np.log(np.pi * width / depth + 1)
    thick = soil_conductivity / (0.457 * width + depth)
    found = np.where(depth < width, thin, thick)
    return found if found.ndim else float(found)


def suspended_floor_u_value(
    floor_u_value: WattsPerSquareMetreKelvin,
    area: SquareMetres,
    exposed_perimeter: Metres,
    wall_thickness: Metres,
    soil_conductivity: WattsPerMetreKelvin,
    height: Metres,
    wall_u_value: WattsPerSquareMetreKelvin,
    vent_area: Metres,
    wind_speed: MetresPerSecond,
    wind_shielding: Ratio,
) -> WattsPerSquareMetreKelvin:
    """U-value of a floor over a vented space, that space and the soil included.

    Args:
        floor_u_value: between the room and the space below, surfaces of both sides included.
        area: of the whole floor.
        exposed_perimeter: edge to outside or to unheated space.
        wall_thickness: of the outside walls.
        soil_conductivity: clay 1.5, sand or gravel 2.0, rock 3.5 W/(m·K).
        height: of the floor above the ground outside.
        wall_u_value: of the walls of the space.
        vent_area: area of ventilation openings over the length of the edge, m²/m.
        wind_speed: mean of the year at 10 m.
        wind_shielding: 0.02 sheltered, 0.05 average, 0.10 exposed.

    Raises:
        OutOfRange: there is no exposed edge.

    Source:
        ISO 13370:2017, suspended floors; 1450 J/(m³·K) stands in the standard's equation, from
        memory.

    Example:
        >>> round(suspended_floor_u_value(1.7, 40.0, 20.0, 0.3, 1.5, 0.3, 1.5, 0.003, 5.0, 0.05), 2)
        0.7
    """
    width = characteristic_dimension(area, exposed_perimeter)
    depth = equivalent_thickness(wall_thickness, soil_conductivity)
    soil = 2 * soil_conductivity / (np.pi * width + depth) * np.log(np.pi * width / depth + 1)
    walls = 2 * height * wall_u_value / width
    wind = 1450 * vent_area * wind_speed * wind_shielding / width
    found = np.asarray(1 / (1 / floor_u_value + 1 / (soil + walls + wind)), dtype=float)
    return found if found.ndim else float(found)
