"""The three reference heating seasons of EN 14825, hour counts by whole degrees outside.

Source: Commission Delegated Regulation (EU) No 811/2013, Annex VII, table 12; the design and
bivalent temperatures from its table 10. EN 14825 Annex B prints the same hours.
"""

from __future__ import annotations

__all__ = ["DESIGN_TEMPERATURE", "FIRST_BIN", "HOURS"]

FIRST_BIN = -22  # °C; each count belongs to a bin 1 K wide, the first centred here, the last at 15

DESIGN_TEMPERATURE = {"average": -10.0, "colder": -22.0, "warmer": 2.0}  # °C, 811/2013 table 10

HOURS: dict[str, tuple[int, ...]] = {
    "average": (
        *(0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1, 25, 23, 24, 27, 68, 91, 89, 165, 173),
        *(240, 280, 320, 357, 356, 303, 330, 326, 348, 335, 315, 215, 169, 151, 105, 74),
    ),
    "colder": (
        *(1, 6, 13, 17, 19, 26, 39, 41, 35, 52, 37, 41, 43, 54, 90, 125, 169, 195, 278, 306),
        *(454, 385, 490, 533, 380, 228, 261, 279, 229, 269, 233, 230, 243, 191, 146, 150, 97, 61),
    ),
    "warmer": (
        *(0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0),
        *(3, 22, 63, 63, 175, 162, 259, 360, 428, 430, 503, 444, 384, 294),
    ),
}
