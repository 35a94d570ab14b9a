"""The European draw-off profiles of hot water: kilowatt-hours of each draw of a day.

Source: Commission Regulation (EU) No 814/2013, Annex III, table 1; the least mixed water at 40 °C
from its Annex II 1.3.
"""

from __future__ import annotations

__all__ = ["DRAWS", "MIXED_WATER_AT_40"]


def _each(*parts: tuple[float, int]) -> tuple[float, ...]:
    return tuple(energy for energy, times in parts for _ in range(times))


# kWh of useful heat in each draw of 24 hours, cold water at 10 °C; the smallest draws first
DRAWS: dict[str, tuple[float, ...]] = {
    "S": _each((0.105, 8), (0.315, 1), (0.42, 1), (0.525, 1)),
    "M": _each((0.105, 19), (0.315, 1), (0.735, 1), (1.4, 2)),
    "L": _each((0.105, 19), (0.315, 1), (0.735, 1), (1.4, 1), (3.605, 2)),
    "XL": _each((0.105, 24), (0.735, 2), (1.82, 1), (4.42, 3)),
    "XXL": _each((0.105, 24), (0.735, 2), (1.82, 1), (6.24, 3)),
}

# L; least mixed water at 40 °C that a storage heater of the profile must give
MIXED_WATER_AT_40 = {"M": 65.0, "L": 130.0, "XL": 210.0, "XXL": 300.0}
