"""What a simulated year comes to in a few numbers, the same for every home and every variant."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from hearthbook.simulate.run import Run

__all__ = ["ELECTRICITY", "Outcome", "outcome"]

# What is metered: the unit in all it does, pump and standby, electric heaters
ELECTRICITY = (
    "electricity_rooms",
    "electricity_cylinder",
    "electricity_defrost",
    "electricity_pump",
    "electricity_standby",
    "heat_backup",
    "heat_immersion",
)
_WATER = 1000.0  # kg/m³
_HEAT = ("heat_rooms", "heat_cylinder", "heat_backup", "heat_immersion")


@dataclass(frozen=True)
class Outcome:
    """A simulated year in numbers.

    Attributes:
        heat: J into heating water and hot water, less what defrosts took back.
        electricity: J of everything on the heat pump's meter, electric heaters included.
        cost: money, without the standing charge; None without a tariff.
        efficiency: heat over electricity.
        starts: of the compressor.
        defrosts: of the outdoor unit.
        below: s colder than wanted by more than half a kelvin, mean of the rooms.
        temperature: °C of the rooms' air, mean of rooms and year.
        cold_draws: m³ of hot water more than 2 K too cold at the tap.
    """

    heat: float
    electricity: float
    cost: float | None
    efficiency: float
    starts: float
    defrosts: float
    below: float
    temperature: float
    cold_draws: float

    def number(self, name: str) -> float:
        """One of them by its name; a cost that nobody knows is no number."""
        value = getattr(self, name)
        return float("nan") if value is None else float(value)


def outcome(run: Run, *, has_prices: bool) -> Outcome:
    """What a run comes to.

    Args:
        run: of a home through a weather.
        has_prices: whether a tariff was known to it.
    """
    heat = run.total(*_HEAT) - run.total("heat_defrost")
    electricity = run.total(*ELECTRICITY)
    rooms = run.rooms
    return Outcome(
        heat=heat,
        electricity=electricity,
        cost=run.total("cost") if has_prices else None,
        efficiency=heat / electricity if electricity > 0 else 0.0,
        starts=run.total("starts"),
        defrosts=run.total("defrosts"),
        below=float(np.mean(rooms["below_seconds"])),
        temperature=float(np.mean(rooms["temperature"] / rooms["seconds"])),
        cold_draws=run.total("short_water") / _WATER,
    )
