"""A figure that knows its working: the only form in which a number reaches a person."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, fields, is_dataclass
from enum import StrEnum

from hearthbook import units

__all__ = [
    "Basis",
    "KeyFigure",
    "Working",
    "assumed",
    "assumptions_in",
    "book_of",
    "calculated",
    "condition",
    "figures_in",
    "given",
    "with_inputs",
]


class Basis(StrEnum):
    """Where a figure comes from."""

    MEASURED = "measured"
    DOCUMENTED = "documented"
    CALCULATED = "calculated"
    ASSUMED = "assumed"


@dataclass(frozen=True)
class Working:
    """How a figure was come by.

    Attributes:
        formula: the equation in the trade's symbols; empty for a figure that was given.
        inputs: the figures that went in, each with its own working.
        source: standard, handbook, record place, or the mark `common practice, no source`.
        note: anything a reader must know to follow it.
    """

    formula: str = ""
    inputs: tuple[KeyFigure, ...] = field(default=(), repr=False)  # a tree of them has no end
    source: str = ""
    note: str = ""


@dataclass(frozen=True)
class KeyFigure:
    """A number with its unit, its standing and its working.

    Attributes:
        name: a stable dotted path by which `explain` finds it, such as `heat_loss.total`.
        label: what it is, in the trade's words.
        value: in SI (°C for temperatures); money in the tariff's major unit.
        unit: the trade unit it is shown in, a key of `units.TRADE_UNITS`.
        basis: measured, documented, calculated or assumed.
        working: formula, inputs and source.
        uncertainty: half-width of the range that holds it 19 times in 20, in SI; None if not given.
        decimals: digits after the point when shown; None takes the unit's own.
    """

    name: str
    label: str
    value: float
    unit: str
    basis: Basis
    working: Working
    uncertainty: float | None = None
    decimals: int | None = None

    def __post_init__(self) -> None:
        """Refuse a unit nobody can show."""
        if self.unit not in units.TRADE_UNITS:
            raise ValueError(f"{self.name} has the unknown unit {self.unit!r}")

    def shown(self) -> str:
        """The figure as a reader sees it, with its unit."""
        return units.shown(self.value, self.unit, self.decimals)

    def shown_with_range(self) -> str:
        """The figure with its uncertainty, where it has one."""
        if self.uncertainty is None:
            return self.shown()
        spread = units.shown(self.uncertainty, self.unit, self.decimals)
        return f"{self.shown()} ± {spread}"


def given(
    name: str,
    label: str,
    value: float,
    unit: str,
    *,
    place: str,
    basis: Basis = Basis.DOCUMENTED,
) -> KeyFigure:
    """A figure read from the record at `place`."""
    return KeyFigure(name, label, value, unit, basis, Working(source=f"record: {place}"))


def condition(name: str, label: str, value: float, unit: str, *, why: str) -> KeyFigure:
    """A figure chosen as the condition another is stated for, such as an outdoor temperature."""
    return KeyFigure(name, label, value, unit, Basis.DOCUMENTED, Working(source=why))


def assumed(
    name: str, label: str, value: float, unit: str, *, source: str, note: str = ""
) -> KeyFigure:
    """A figure that stands in for an answer the record does not hold."""
    return KeyFigure(name, label, value, unit, Basis.ASSUMED, Working(source=source, note=note))


def calculated(  # noqa: PLR0913 - a working has these parts and each is passed by name
    name: str,
    label: str,
    value: float,
    unit: str,
    *,
    formula: str,
    inputs: tuple[KeyFigure, ...],
    source: str,
    uncertainty: float | None = None,
    note: str = "",
    decimals: int | None = None,
) -> KeyFigure:
    """A figure computed from others."""
    working = Working(formula=formula, inputs=inputs, source=source, note=note)
    return KeyFigure(
        name, label, float(value), unit, Basis.CALCULATED, working, uncertainty, decimals
    )


def with_inputs(figure: KeyFigure) -> Iterator[KeyFigure]:
    """The figure, then every figure its working rests on, depth first."""
    yield figure
    for part in figure.working.inputs:
        yield from with_inputs(part)


def figures_in(thing: object) -> Iterator[KeyFigure]:
    """Every figure held by a result, found through its dataclasses, tuples and mappings."""
    if isinstance(thing, KeyFigure):
        yield thing
    elif isinstance(thing, tuple | list):
        for item in thing:
            yield from figures_in(item)
    elif isinstance(thing, dict):
        for item in thing.values():
            yield from figures_in(item)
    elif is_dataclass(thing) and not isinstance(thing, type):
        for part in fields(thing):
            yield from figures_in(getattr(thing, part.name))


def book_of(thing: object) -> dict[str, KeyFigure]:
    """Every figure a result rests on, by name, inputs included."""
    book: dict[str, KeyFigure] = {}
    entered: set[int] = set()
    for figure in figures_in(thing):
        _enter(figure, book, entered)
    return book


def _enter(figure: KeyFigure, book: dict[str, KeyFigure], entered: set[int]) -> None:
    """Enter a figure and what it rests on; figures are shared, so each is walked only once."""
    if id(figure) in entered:
        return
    entered.add(id(figure))
    book.setdefault(figure.name, figure)
    for part in figure.working.inputs:
        _enter(part, book, entered)


def assumptions_in(thing: object) -> tuple[KeyFigure, ...]:
    """The figures that stand in for answers the record does not hold, by name."""
    found = (figure for figure in book_of(thing).values() if figure.basis is Basis.ASSUMED)
    return tuple(sorted(found, key=lambda figure: figure.name))
