"""Usual values from the table: each an assumption with its source, wherever it is used."""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

from hearthbook.documents.figures import Basis, KeyFigure, assumed, given
from hearthbook.errors import NotFound
from hearthbook.units import from_trade

__all__ = ["answered", "typical_cases", "typical_value"]

_TABLE = Path(__file__).with_name("typical_values.toml")
_ABOUT = {"unit", "source"}


@cache
def _table() -> dict[str, dict[str, Any]]:
    return tomllib.loads(_TABLE.read_text(encoding="utf-8"))


def typical_cases(subject: str) -> tuple[str, ...]:
    """The cases the table knows of a subject.

    Raises:
        NotFound: the table has no such subject.

    Example:
        >>> "solid_brick_wall" in typical_cases("construction")
        True
    """
    entries = _table().get(subject)
    if entries is None:
        raise NotFound(f"the table of typical values has no subject '{subject}'.")
    return tuple(case for case in entries if case not in _ABOUT)


def typical_value(
    subject: str, case: str = "any", *, name: str, label: str, note: str = ""
) -> KeyFigure:
    r"""A usual value as a recorded assumption.

    Args:
        subject: a table of `typical_values.toml`.
        case: a key of it; `any` where there is one value for all.
        name: the figure's dotted name.
        label: what it is, in the trade's words.
        note: why it stood in, or what would change it.

    Raises:
        NotFound: the table has no such subject or case.

    Example:
        >>> typical_value("room_temperature", "bathroom", name="t", label="bathroom").shown()
        '22.0\xa0°C'
    """
    cases = typical_cases(subject)
    if case not in cases:
        raise NotFound(
            f"{label}: '{case}' is not among the typical values of {subject}. "
            f"Take one of: {', '.join(cases)}."
        )
    entry = _table()[subject]
    value = from_trade(float(entry[case]), entry["unit"])
    return assumed(name, label, value, entry["unit"], source=entry["source"], note=note)


def answered(
    value: float | None,
    subject: str,
    case: str = "any",
    *,
    name: str,
    label: str,
    basis: Basis = Basis.DOCUMENTED,
) -> KeyFigure:
    """What the record says, or the usual value where it says nothing.

    Args:
        value: the answer in SI; None where nobody gave one.
        subject: a table of `typical_values.toml`; it also knows the unit.
        case: a key of it.
        name: the figure's name, which is the answer's place in the record.
        label: what it is, in the trade's words.
        basis: standing of an answer that was given.

    Example:
        >>> answered(19.0, "room_temperature", "kitchen", name="k", label="kitchen").basis
        <Basis.DOCUMENTED: 'documented'>
    """
    if value is None:
        return typical_value(subject, case, name=name, label=label, note=f"not answered: {name}")
    typical_cases(subject)
    return given(name, label, value, _table()[subject]["unit"], place=name, basis=basis)
