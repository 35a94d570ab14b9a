"""The one quiet hand of all drawings: its colours, its few strokes and its lettering."""

from __future__ import annotations

from dataclasses import dataclass, replace

__all__ = [
    "COOL",
    "COOL_PALE",
    "DIMENSION",
    "EDGE",
    "FAINT",
    "FAINT_LINE",
    "FLOW",
    "HEADING",
    "INK",
    "LABEL",
    "LEADER",
    "MIST",
    "OUTLINE",
    "PAPER",
    "PLAIN",
    "QUIET",
    "RETURN",
    "SLATE",
    "SOLID",
    "SYMBOL",
    "WARM",
    "WARM_PALE",
    "Lettering",
    "Stroke",
]

INK = "#22303a"
SLATE = "#4a5a65"
FAINT = "#8a959c"
MIST = "#edf0f2"
PAPER = "#ffffff"
WARM = "#a8481f"
WARM_PALE = "#f8e9e0"
COOL = "#1d6485"
COOL_PALE = "#e2eff4"


@dataclass(frozen=True)
class Stroke:
    """How a shape is drawn.

    Attributes:
        colour: of the line; `none` for a shape without an edge.
        weight: of the line, in points.
        fill: of the shape.
        dash: lengths of line and gap; empty for an unbroken line.
    """

    colour: str = INK
    weight: float = 1.3
    fill: str = "none"
    dash: str = ""

    def filled(self, fill: str) -> Stroke:
        """The same line round a filled shape."""
        return replace(self, fill=fill)

    def coloured(self, colour: str) -> Stroke:
        """The same line in another colour."""
        return replace(self, colour=colour)

    def dashed(self, dash: str) -> Stroke:
        """The same line, broken."""
        return replace(self, dash=dash)


OUTLINE = Stroke(weight=1.3)
EDGE = Stroke(weight=2.4)
SYMBOL = Stroke(weight=1.3, fill=PAPER)
SOLID = Stroke(weight=0.8, fill=INK)
LEADER = Stroke(SLATE, 0.8)
DIMENSION = Stroke(SLATE, 0.8)
FAINT_LINE = Stroke(FAINT, 0.8)
FLOW = Stroke(WARM, 2.0)
RETURN = Stroke(COOL, 2.0, dash="6 4.2")


@dataclass(frozen=True)
class Lettering:
    """How words are set.

    Attributes:
        size: in points; 10 is the smallest, so that large print can reach 16.
        bold: semibold.
        colour: ink, or a colour that stands out enough to be read.
    """

    size: float = 10.0
    bold: bool = False
    colour: str = INK


PLAIN = Lettering()
QUIET = Lettering(colour=SLATE)
LABEL = Lettering(bold=True)
HEADING = Lettering(size=11.0, bold=True)
