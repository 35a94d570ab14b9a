"""The one hand in which everything is drawn: colours, lines and letters of every medium."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["FAMILY", "NIGHT", "PALETTE", "SERIES", "Palette"]

FAMILY = "Source Sans Pro"


@dataclass(frozen=True)
class Palette:
    """The colours; all text colours have a contrast of 4.5 and more on `paper` and `wash`."""

    ink: str = "#22303a"
    quiet: str = "#4a5a65"
    rule: str = "#c8d0d5"
    wash: str = "#f2f5f6"
    paper: str = "#ffffff"
    accent: str = "#1b5a77"
    accent_wash: str = "#e4eff4"
    good: str = "#2c6a3a"
    good_wash: str = "#e9f3ea"
    look: str = "#8a4b00"
    look_wash: str = "#fcf2e0"
    bad: str = "#9b1f24"
    bad_wash: str = "#fbeceb"


PALETTE = Palette()

# Told apart in grey and with the usual kinds of colour blindness by their lightness.
SERIES = ("#1d6485", "#c4692f", "#7d6fae", "#98ab3c", "#a3465c", "#6fa8c0")

NIGHT = Palette(
    ink="#e3e9ec",
    quiet="#a5b2ba",
    rule="#3a4750",
    wash="#1b252b",
    paper="#12191e",
    accent="#82c3e0",
    accent_wash="#18303c",
    good="#8fd19b",
    good_wash="#1a2f20",
    look="#f0b866",
    look_wash="#35280f",
    bad="#f39a94",
    bad_wash="#3a1a1b",
)
