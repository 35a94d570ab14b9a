"""Arrays by field, as people build them, laid out as the loops read them."""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from hearthbook.kernel.parameters import Emitters, Links, Performance, Rooms

__all__ = ["EMITTER", "LINK", "ROOM", "maps", "records"]


def _layout(fields: type[NamedTuple], whole: frozenset[str]) -> np.dtype[Any]:
    names = fields._fields
    return np.dtype([(name, "i8" if name in whole else "f8") for name in names], align=True)


ROOM = _layout(Rooms, frozenset())
EMITTER = _layout(Emitters, frozenset({"room"}))
LINK = _layout(Links, frozenset({"first", "second"}))


def records(fields: Rooms | Emitters | Links) -> NDArray[Any]:
    """One record for each room, emitter or link, so that what is used together lies together."""
    layout = {Rooms: ROOM, Emitters: EMITTER, Links: LINK}[type(fields)]
    packed = np.zeros(fields[0].shape, layout)
    for name, values in zip(fields._fields, fields, strict=True):
        packed[name] = values
    return packed


def maps(performance: Performance) -> NDArray[np.float64]:
    """The four maps of a unit as one array: most, its share of Carnot, least, its share."""
    return np.ascontiguousarray(np.stack(performance))
