"""One thing in which a design falls short: what was found and what to do."""

from __future__ import annotations

from dataclasses import dataclass

from hearthbook.documents.figures import KeyFigure

__all__ = ["Shortfall", "falling_short"]


@dataclass(frozen=True)
class Shortfall:
    """One thing in which the design falls short.

    Attributes:
        subject: what it is about.
        finding: what was found, with the numbers.
        advice: what to do.
        figures: names of the figures behind it, for `explain`.
    """

    subject: str
    finding: str
    advice: str
    figures: tuple[str, ...]


def falling_short(subject: str, finding: str, advice: str, *figures: KeyFigure | None) -> Shortfall:
    """A shortfall resting on these figures; None among them is left out."""
    names = tuple(figure.name for figure in figures if figure is not None)
    return Shortfall(subject, finding, advice, names)
