"""Air through the leaks and the fans of a home, shared out over its rooms."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hearthbook.design.heat_loss import HeatLoss
from hearthbook.design.ventilation import dwelling_air, room_air
from hearthbook.documents.figures import KeyFigure, assumed, calculated
from hearthbook.errors import check_between
from hearthbook.physics.heat_loss import ventilation_coefficient
from hearthbook.record.building import VentilationSystem
from hearthbook.record.home import Home
from hearthbook.survey import air

__all__ = ["RoomAir", "leak_drives", "room_leakage"]

_INDOOR, _OUTDOOR, _WIND = 20.0, 5.0, 4.0  # °C, °C, m/s: the weather of the stated leakage
# (L/s)²/(cm⁴·K) and (L/s)²/(cm⁴·(m/s)²) for one, two and three storeys, sheltered as houses of a
# suburb are; ASHRAE Fundamentals, ch. 16, basic model, from memory. Only their ratio counts here.
_STACK = (0.000145, 0.000290, 0.000435)
_WIND_DRIVE = (0.000174, 0.000231, 0.000272)
_FANS = {VentilationSystem.CONTINUOUS_EXTRACT, VentilationSystem.BALANCED_HEAT_RECOVERY}
_SYSTEM_SHARE = 0.6  # of air changes given as one number; as in the design


@dataclass(frozen=True)
class RoomAir:
    """Outside air of the rooms.

    Attributes:
        leakage: W/K of each room in the reference weather.
        fans: W/K of each room moved by fans, less what is recovered.
        figures: what they rest on.
    """

    leakage: NDArray[np.float64]
    fans: NDArray[np.float64]
    figures: tuple[KeyFigure, ...]


def leak_drives(storeys: int) -> tuple[float, float]:
    """Stack and wind coefficient of a home, with a driving force of 1 in the reference weather.

    The reference weather is 20 °C inside, 5 °C outside and 4 m/s at the station.

    Args:
        storeys: levels of the home; more than three count as three.

    Example:
        >>> stack, wind = leak_drives(2)
        >>> round((stack * 15 + wind * 16) ** 0.5, 9)
        1.0
    """
    level = min(max(storeys, 1), 3) - 1
    stack, wind = _STACK[level], _WIND_DRIVE[level]
    force = stack * (_INDOOR - _OUTDOOR) + wind * _WIND**2
    return stack / force, wind / force


def room_leakage(home: Home, loss: HeatLoss) -> RoomAir:
    """The dwelling's outside air in the reference weather, shared out as the rooms' own air is.

    The sum is the dwelling's, which is less than the rooms' sum: with every room at its wanted
    temperature it costs what the heat-loss calculation says.

    Raises:
        OutOfRange: no air at all comes from outside.
    """
    outdoor = loss.outdoor_temperature.value
    own = np.array([room.ventilation.value for room in loss.rooms])
    check_between("outside air of all rooms at design", float(own.sum()), 1.0, 1e6, "W")
    excess = np.array([room.temperature.value - outdoor for room in loss.rooms])
    coefficients = own / excess * (loss.ventilation.value / own.sum())
    share = _leaking_share(home, loss)
    leakage = coefficients * share
    reference = assumed(
        "year.rooms.leak_reference", "leaks blow as stated where it is this cold outside", _OUTDOOR,
        "°C", source="common practice, no source: a mild winter's day",
        note=f"and {_WIND:g} m/s of wind at the station, {_INDOOR:g} °C inside; in other weather "
        "the leaks follow wind and warmth",
    )  # fmt: skip
    figure = calculated(
        "year.rooms.leakage", "heat leaks take up for each kelvin, in their reference weather",
        float(leakage.sum()), "W/K", formula="ventilation / (inside − outside) − the fans' part",
        inputs=(loss.ventilation, loss.indoor_temperature, loss.outdoor_temperature, reference),
        source="Sherman and Grimsrud 1980; from memory",
    )  # fmt: skip
    return RoomAir(leakage, coefficients - leakage, (figure, reference))


def _leaking_share(home: Home, loss: HeatLoss) -> float:
    """The part of what outside air costs that wind and warmth drive, not a fan."""
    if home.building.ventilation.system not in _FANS:
        return 1.0
    airs = tuple(room_air(home, room) for room in home.building.rooms)
    dwelling = dwelling_air(home, airs, loss.volume, loss.floor_area)
    rate, costing = dwelling.rate.value, dwelling.effective.value
    if costing <= 0:
        return 1.0
    recorded = home.building.ventilation
    if recorded.air_changes is not None and recorded.supply_air_changes is None:
        moved = _SYSTEM_SHARE * rate
    else:
        moved = min(air.supply_air_changes(home).value, rate)
    leaks = float(ventilation_coefficient(loss.volume.value, rate - moved))
    whole = float(ventilation_coefficient(loss.volume.value, costing))
    return min(leaks / whole, 1.0)
