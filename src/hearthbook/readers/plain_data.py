"""Frozen dataclasses of plain values made again from data as JSON has it."""

from __future__ import annotations

import math
from dataclasses import fields, is_dataclass
from types import NoneType, UnionType
from typing import Any, TypeVar, get_args, get_origin, get_type_hints

from hearthbook.errors import Incomplete

__all__ = ["made_from"]

_T = TypeVar("_T")


def made_from(data: Any, wanted: type[_T]) -> _T:
    """A dataclass from plain data; its fields hold numbers, words, dataclasses, tuples or None.

    Args:
        data: what `json` read.
        wanted: the dataclass.

    Raises:
        Incomplete: the data is of something else.
    """
    made: _T = _made(data, wanted)
    return made


def _made(data: Any, wanted: Any) -> Any:
    if is_dataclass(wanted):
        return _dataclass(data, wanted)
    if get_origin(wanted) is UnionType:
        return _of_union(data, wanted)
    if get_origin(wanted) is tuple:
        if not isinstance(data, list):
            raise Incomplete(f"{data!r} is not a list")
        return tuple(_made(one, get_args(wanted)[0]) for one in data)
    return _plain(data, wanted)


def _of_union(data: Any, wanted: Any) -> Any:
    """None, or a value of the one other type."""
    (other,) = (one for one in get_args(wanted) if one is not NoneType)
    return None if data is None else _made(data, other)


def _dataclass(data: Any, wanted: Any) -> Any:
    hints, names = get_type_hints(wanted), [field.name for field in fields(wanted)]
    if not isinstance(data, dict) or set(data) != set(names):
        raise Incomplete(f"the data is not that of {wanted.__name__}")
    return wanted(**{name: _made(data[name], hints[name]) for name in names})


def _plain(data: Any, wanted: Any) -> Any:
    is_number = isinstance(data, int | float) and not isinstance(data, bool)
    if wanted is float and is_number and math.isfinite(data):
        return float(data)
    if wanted in (int, str, bool) and type(data) is wanted:
        return data
    raise Incomplete(f"{data!r} is not of the type {wanted}")
