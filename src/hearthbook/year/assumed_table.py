"""What a simulated year assumed, as a table: for the year's own page and the engineer's report."""

from __future__ import annotations

from itertools import takewhile

from hearthbook.documents.blocks import Cell, Column, Table
from hearthbook.documents.figures import KeyFigure
from hearthbook.documents.inline import escaped

__all__ = ["assumptions_table"]

_OF_EMITTERS = "year.assumed.emitters."


def assumptions_table(figures: tuple[KeyFigure, ...]) -> Table:
    """What the year assumed, what each emitter has one of told together.

    Args:
        figures: assumptions; those of the design are left out.
    """
    groups: dict[str, list[KeyFigure]] = {}
    for one in figures:
        if one.name.startswith("year."):
            groups.setdefault(_kind(one), []).append(one)
    columns = (Column("Assumed", share=4), Column("Value", numeric=True), Column("Source", share=3))
    return Table(
        "What the year needs and the record does not say",
        columns,
        tuple(_assumed_row(group) for group in groups.values()),
    )


def _kind(figure: KeyFigure) -> str:
    """What each emitter has one of goes under one name; everything else under its own."""
    if not figure.name.startswith(_OF_EMITTERS):
        return figure.name
    return _OF_EMITTERS + figure.name.rsplit(".", maxsplit=1)[-1]


def _assumed_row(group: list[KeyFigure]) -> tuple[Cell, ...]:
    first, source = group[0], escaped(group[0].working.source)
    if len(group) == 1:
        return (escaped(first.label), first, source)
    alike = takewhile(
        lambda letters: len(set(letters)) == 1, zip(*(one.label for one in group), strict=False)
    )
    label = "".join(letters[0] for letters in alike).strip().removesuffix(",")
    for word in (" the", " of"):
        label = label.removesuffix(word)
    low, high = (pick(group, key=lambda one: one.value).shown() for pick in (min, max))
    value = low if low == high else f"{low} to {high}"
    return (escaped(f"{label}, {len(group)} emitters"), value, source)
