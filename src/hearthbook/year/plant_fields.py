"""The fields of a home's plant as figures, and the record they fill."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import numpy as np
from numpy.typing import NDArray

from hearthbook.documents.figures import KeyFigure, assumed, calculated
from hearthbook.errors import Incomplete
from hearthbook.kernel.parameters import PLANT

__all__ = ["PRACTICE", "Fields", "filled", "reckoned", "stands_in"]

PRACTICE = "common practice, no source"

Fields = dict[str, KeyFigure]
"""Figures by the name of the field of `PLANT` they fill."""


def stands_in(
    field: str, label: str, value: float, unit: str, *, source: str = PRACTICE, note: str = ""
) -> KeyFigure:
    """A figure that the record does not hold and the year needs."""
    return assumed(f"year.assumed.{field}", label, float(value), unit, source=source, note=note)


def reckoned(  # noqa: PLR0913 - a working has these parts and each is passed by name
    field: str,
    label: str,
    value: float,
    unit: str,
    *,
    formula: str,
    inputs: tuple[KeyFigure, ...],
    source: str,
    note: str = "",
    decimals: int | None = None,
) -> KeyFigure:
    """A figure computed for the year."""
    return calculated(
        f"year.plant.{field}", label, value, unit, formula=formula, inputs=inputs, source=source,
        note=note, decimals=decimals,
    )  # fmt: skip


def filled(fields: Fields, numbers: Mapping[str, float]) -> NDArray[Any]:
    """One record of `PLANT`, every field from a figure or a plain index.

    Raises:
        Incomplete: a field was left out, or its value is no number.
    """
    plant = np.zeros(1, dtype=PLANT)
    values = {name: figure.value for name, figure in fields.items()} | dict(numbers)
    for name in PLANT.names or ():
        value = values.get(name, float("nan"))
        if not np.isfinite(value):
            message = f"the year needs a value for the plant's {name}, and none was found. "
            raise Incomplete(message + "Check the plant's chapter of the record.")
        plant[name] = value
    return plant
