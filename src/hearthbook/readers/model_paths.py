"""What the models say of a place in a record: its field, its allowed keys, a stand-in value."""

from __future__ import annotations

import datetime as dt
from enum import Enum
from functools import reduce
from operator import or_
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from hearthbook.record.contradiction import Path
from hearthbook.record.home import Home
from hearthbook.record.quantities import Quantity

__all__ = [
    "allowed_keys",
    "allowed_tags",
    "is_required",
    "is_tag",
    "stand_in",
    "what_it_says",
]


def allowed_keys(location: Path) -> tuple[str, ...]:
    """The keys that may stand in the part at a location."""
    kind = _type_at(location)
    if _is_model(kind):
        return tuple(kind.model_fields)
    if get_origin(kind) is dict:
        return tuple(str(name) for name in get_args(_bare(get_args(kind)[0])))
    return ()


def allowed_tags(location: Path) -> tuple[str, ...]:
    """The values that `kind` may have in the part at a location."""
    return tuple(_models(_type_at(location)))


def what_it_says(location: Path) -> str:
    """What to write at a location: its unit and the field's own description, for a sentence."""
    field = _field(location)
    if field is None:
        return ""
    words = (field.description or "").split("\n")[0].rstrip(".")
    if words[1:2].islower():
        words = words[0].lower() + words[1:]
    units = [note.symbol for note in field.metadata if isinstance(note, Quantity) and note.symbol]
    return f"in {units[0]}, {words}" if units else words


def is_required(location: Path) -> bool:
    """Whether the field at a location must be given."""
    field = _field(location)
    return field is None or field.is_required()


def is_tag(location: Path) -> bool:
    """Whether the last step of a location picks one of several models and is no key."""
    return len(_models(_type_at(location[:-1]))) > 1


def stand_in(location: Path) -> Any:
    """A value that the field at a location accepts, so that the rest can be looked at; or None."""
    field = _field(location)
    if field is None:
        return None
    for note in field.metadata:
        if isinstance(note, Quantity):
            return min(max(1.0, note.low), note.high)
    return _example(_bare(field.annotation))


def _field(location: Path) -> FieldInfo | None:
    if not location or not isinstance(location[-1], str):
        return None
    model = _type_at(location[:-1])
    return model.model_fields.get(location[-1]) if _is_model(model) else None


def _example(kind: Any) -> Any:
    if get_origin(kind) is Literal:
        return get_args(kind)[0]
    if isinstance(kind, type) and issubclass(kind, Enum):
        return next(iter(kind)).value
    if isinstance(kind, type) and issubclass(kind, dt.date):
        return dt.date(2000, 1, 1)
    return {str: "stand_in", int: 1, float: 1.0, bool: False, tuple: []}.get(
        get_origin(kind) or kind
    )


def _is_model(kind: Any) -> bool:
    return isinstance(kind, type) and issubclass(kind, BaseModel)


def _bare(kind: Any) -> Any:
    """A type without its annotations and without None."""
    if get_origin(kind) is Annotated:
        return _bare(get_args(kind)[0])
    if get_origin(kind) in {Union, UnionType}:
        members = [item for item in get_args(kind) if item is not NoneType]
        return _bare(members[0]) if len(members) == 1 else reduce(or_, members)
    return kind


def _models(kind: Any) -> dict[str, Any]:
    """The models of a tagged union by their tag."""
    if get_origin(kind) not in {Union, UnionType}:
        return {}
    members = [_bare(item) for item in get_args(kind)]
    return {get_args(item.model_fields["kind"].annotation)[0]: item for item in members}


def _type_at(location: Path) -> Any:
    kind: Any = Home
    for step in location:
        kind = _step(kind, step)
        if kind is None:
            return None
    return kind


def _step(kind: Any, step: str | int) -> Any:
    if _is_model(kind):
        field = kind.model_fields.get(step)
        return None if field is None else _bare(field.annotation)
    if get_origin(kind) in {Union, UnionType}:
        return _models(kind).get(str(step))
    arguments = get_args(kind)
    if get_origin(kind) is tuple and isinstance(step, int):
        return _bare(arguments[0])
    return _bare(arguments[1]) if get_origin(kind) is dict else None
