"""One section out of a record file, or out of a file that holds nothing else."""

from __future__ import annotations

from pathlib import Path
from typing import Any, TypeVar

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from hearthbook.errors import Fault, Unreadable
from hearthbook.readers.files import read_text
from hearthbook.readers.places import place
from hearthbook.readers.standing_in import has_enough, path_of
from hearthbook.readers.wording import worded
from hearthbook.readers.yaml_tree import Tree, read_tree
from hearthbook.record.parts import Part
from hearthbook.record.plant import HeatPump
from hearthbook.record.tariff import Tariff

__all__ = ["read_heat_pump", "read_tariff"]

_Section = TypeVar("_Section", bound=Part)


def read_heat_pump(path: Path) -> HeatPump:
    """The heat pump in a record, or in a file of `heat_pump:` alone.

    Raises:
        NotFound: there is no such file.
        Unreadable: with every fault of the section, or that the file has none.
    """
    return _read(path, HeatPump, ("plant", "heat_pump"))


def read_tariff(path: Path) -> Tariff:
    """The tariff in a record, or in a file of `tariff:` alone.

    Raises:
        NotFound: there is no such file.
        Unreadable: with every fault of the section, or that the file has none.
    """
    return _read(path, Tariff, ("tariff",))


def _read(path: Path, kind: type[_Section], steps: tuple[str, ...]) -> _Section:
    tree = read_tree(read_text(path), str(path))
    found = _found(tree.value, steps)
    if found is None:
        said = f"has no {steps[-1]}: give a record, or a file with {steps[-1]}: as its first key."
        raise Unreadable(str(path), [Fault("the file", said)])
    try:
        return kind.model_validate(_inside(tree.value, found))
    except ValidationError as refused:
        errors = (error for error in refused.errors(include_url=False) if not has_enough(error))
        faults = [_fault(tree, found, error, steps) for error in errors]
        raise Unreadable(str(path), faults) from refused


def _found(content: Any, steps: tuple[str, ...]) -> tuple[str, ...] | None:
    """Where the section stands: as in a record, else at the top."""
    for way in (steps, steps[-1:]):
        if isinstance(_inside(content, way), dict):
            return way
    return None


def _inside(content: Any, way: tuple[str, ...]) -> Any:
    for step in way:
        content = content.get(step) if isinstance(content, dict) else None
    return content


def _fault(
    tree: Tree, found: tuple[str, ...], error: ErrorDetails, steps: tuple[str, ...]
) -> Fault:
    inside = path_of(error["loc"])
    as_in_record = error.copy()
    as_in_record["loc"] = (*steps, *error["loc"])
    said = worded(as_in_record)
    path = (*found, *inside)
    return Fault(place(tree.value, path), said, tree.line(path))
