"""The one hand in which everything is drawn: colours, lines and letters of every medium."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["FAMILY", "NIGHT", "PALETTE", "SERIES", "Palette"]

FAMILY = "Source Sans Pro"


@dataclass(frozen=True)
class Palette:
    """The colours; all text colours have a contrast of 4.5 and more on `paper` and `wash`."""

    ink: str = "#1c2b2d"
    quiet: str = "#566567"
    rule: str = "#c9d1d0"
    wash: str = "#f3f6f5"
    paper: str = "#ffffff"
    accent: str = "#17595f"
    accent_wash: str = "#e6f0ef"
    good: str = "#2c6a3a"
    good_wash: str = "#e9f3ea"
    look: str = "#8a4b00"
    look_wash: str = "#fcf2e0"
    bad: str = "#9b1f24"
    bad_wash: str = "#fbeceb"


PALETTE = Palette()

# Told apart in grey and with the usual kinds of colour blindness by their lightness.
SERIES = ("#17595f", "#c9752b", "#7d6fae", "#98ab3c", "#a3465c", "#5f9fb8")

NIGHT = Palette(
    ink="#e4eaea",
    quiet="#a3b1b2",
    rule="#3b4a4c",
    wash="#1c2628",
    paper="#131b1d",
    accent="#7cc7c8",
    accent_wash="#1a3335",
    good="#8fd19b",
    good_wash="#1a2f20",
    look="#f0b866",
    look_wash="#35280f",
    bad="#f39a94",
    bad_wash="#3a1a1b",
)
