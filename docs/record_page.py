"""The reference of the record's fields, made from the models that read it."""

from __future__ import annotations

import datetime as dt
import inspect
import types
from collections.abc import Iterable, Iterator
from enum import Enum
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo
from typing_extensions import TypeAliasType

from hearthbook.record.home import Home
from hearthbook.record.quantities import Quantity

__all__ = ["record_page"]

PLAIN = {
    str: "text",
    bool: "true or false",
    int: "whole number",
    float: "number",
    dt.date: "date, such as 2026-11-25",
    dt.datetime: "time with its offset from UTC, such as 2026-11-25T14:30:00+00:00",
    dt.time: "time of day in quotes, such as '05:30'",
    type(None): "nothing",
}


def record_page() -> str:
    """Every part of a record with its fields, in the order in which a reader meets them."""
    lines = [
        "# The record\n",
        "One YAML file for each home. A bare number is in the unit named here; another unit of the "
        "same kind may stand behind the number (`1.5 bar`, `900 mm`). Unknown names are refused. "
        "`hearthbook new` writes a starter, `hearthbook check` reports every fault at once, and "
        "[record.schema.json](record.schema.json) lets an editor complete and check while you "
        "type.\n",
    ]
    for part in _parts(Home, []):
        lines += [f"## {_title(part)}\n", f"{inspect.cleandoc(part.__doc__ or '')}\n"]
        lines += ["| field | what | write | needed |", "| --- | --- | --- | --- |"]
        lines += [_row(name, field) for name, field in part.model_fields.items()]
        lines.append("")
    return "\n".join(lines)


def _parts(part: type[BaseModel], met: list[type[BaseModel]]) -> list[type[BaseModel]]:
    """The part, then every part its fields lead to, each once."""
    if part not in met:
        met.append(part)
        for field in part.model_fields.values():
            for inner in _models_in(field.annotation):
                _parts(inner, met)
    return met


def _models_in(annotation: Any) -> Iterator[type[BaseModel]]:
    annotation = _unfolded(annotation)
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for inner in get_args(annotation):
        yield from _models_in(inner)


def _unfolded(annotation: Any) -> Any:
    return annotation.__value__ if isinstance(annotation, TypeAliasType) else annotation


def _title(part: type[BaseModel]) -> str:
    letters = "".join(f" {one.lower()}" if one.isupper() else one for one in part.__name__)
    return letters.strip().capitalize()


def _row(name: str, field: FieldInfo) -> str:
    needed = "yes" if field.is_required() else ""
    cells = (f"`{name}`", field.description or "", _written(field.annotation, field.metadata))
    return (
        "| " + " | ".join(" ".join(x.split()).replace("|", "\\|") for x in (*cells, needed)) + " |"
    )


def _written(annotation: Any, notes: Iterable[Any] = ()) -> str:
    """How a value of this kind is written in the file."""
    numbers = [_number(note) for note in notes if isinstance(note, Quantity)]
    if numbers:
        return numbers[0]
    annotation = _unfolded(annotation)
    if get_origin(annotation) is Annotated:
        return _written(get_args(annotation)[0], annotation.__metadata__)
    return _many(annotation) if get_args(annotation) else _one(annotation)


def _many(annotation: Any) -> str:
    """A choice, a list or a mapping."""
    origin, inside = get_origin(annotation), get_args(annotation)
    if origin is Literal:
        return ", ".join(f"`{choice}`" for choice in inside)
    kinds = dict.fromkeys(_written(x) for x in inside if x not in {type(None), Ellipsis})
    if origin in {Union, types.UnionType}:
        return " or ".join(kinds)
    return f"names: {' with '.join(kinds)}" if origin is dict else f"list: {', '.join(kinds)}"


def _one(annotation: Any) -> str:
    if annotation in PLAIN:
        return PLAIN[annotation]
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        title = _title(annotation)
        return f"[{title.lower()}](#{title.lower().replace(' ', '-')})"
    if isinstance(annotation, type) and issubclass(annotation, Enum):
        return ", ".join(f"`{choice.value}`" for choice in annotation)
    return str(getattr(annotation, "__name__", annotation))


def _number(quantity: Quantity) -> str:
    bounds = f"{quantity.low:g} to {quantity.high:g}".replace("-", "−")
    return f"{bounds} {quantity.symbol}".strip()
