"""The European draw-off profiles of hot water: when each draw of a day begins, its heat, its flow.

Source: Commission Regulation (EU) No 814/2013, Annex III, table 1; the least mixed water at 40 °C
from its Annex II 1.3.
"""

from __future__ import annotations

__all__ = ["DRAWS", "MIXED_WATER_AT_40", "TIMED_DRAWS"]

_Draw = tuple[int, float, float]  # minute of the day, kWh, L/min

_SMALL = 0.105  # kWh
_SMALL_FLOW = 3.0  # L/min


def _minute(clock: str) -> int:
    hours, minutes = clock.split(":")
    return int(hours) * 60 + int(minutes)


def _day(small: str, *larger: tuple[str, float, float]) -> tuple[_Draw, ...]:
    draws = [(_minute(clock), _SMALL, _SMALL_FLOW) for clock in small.split()]
    draws += [(_minute(clock), energy, flow) for clock, energy, flow in larger]
    return tuple(sorted(draws))


_SMALL_XL = (
    "7:00 7:26 8:01 8:15 8:30 8:45 9:00 9:30 10:00 10:30 11:00 11:30 11:45 14:30 15:00 15:30 16:00 "
    "16:30 17:00 18:00 18:15 18:30 19:00 21:15"
)

# Minute of the day, kWh of useful heat with cold water at 10 °C, least flow in L/min
TIMED_DRAWS: dict[str, tuple[_Draw, ...]] = {
    "S": _day(
        "7:00 7:30 8:30 9:30 11:30 11:45 18:00 18:15",
        ("12:45", 0.315, 4.0), ("20:30", 0.42, 4.0), ("21:30", 0.525, 5.0),
    ),
    "M": _day(
        "7:00 7:30 8:01 8:15 8:30 8:45 9:00 9:30 10:30 11:30 11:45 14:30 15:30 16:30 18:00 18:15 "
        "18:30 19:00 21:15",
        ("7:05", 1.4, 6.0), ("12:45", 0.315, 4.0), ("20:30", 0.735, 4.0), ("21:30", 1.4, 6.0),
    ),
    "L": _day(
        "7:00 7:30 7:45 8:25 8:30 8:45 9:00 9:30 10:30 11:30 11:45 14:30 15:30 16:30 18:00 18:15 "
        "18:30 19:00 21:30",
        ("7:05", 1.4, 6.0), ("8:05", 3.605, 10.0), ("12:45", 0.315, 4.0), ("20:30", 0.735, 4.0),
        ("21:00", 3.605, 10.0),
    ),
    "XL": _day(
        _SMALL_XL,
        ("7:15", 1.82, 6.0), ("7:45", 4.42, 10.0), ("12:45", 0.735, 4.0), ("20:30", 0.735, 4.0),
        ("20:46", 4.42, 10.0), ("21:30", 4.42, 10.0),
    ),
    "XXL": _day(
        _SMALL_XL,
        ("7:15", 1.82, 6.0), ("7:45", 6.24, 16.0), ("12:45", 0.735, 4.0), ("20:30", 0.735, 4.0),
        ("20:46", 6.24, 16.0), ("21:30", 6.24, 16.0),
    ),
}  # fmt: skip

# kWh of useful heat in each draw of 24 hours; the smallest draws first
DRAWS: dict[str, tuple[float, ...]] = {
    name: tuple(sorted(energy for _, energy, _ in draws)) for name, draws in TIMED_DRAWS.items()
}

# L; least mixed water at 40 °C that a storage heater of the profile must give
MIXED_WATER_AT_40 = {"M": 65.0, "L": 130.0, "XL": 210.0, "XXL": 300.0}
