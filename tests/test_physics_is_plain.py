"""What every public function of physics owes its reader: units, a source, an example that runs."""

from __future__ import annotations

import ast
import importlib
import inspect
import pkgutil
from collections.abc import Callable, Iterator
from dataclasses import is_dataclass
from enum import Enum
from typing import Annotated, Any, Literal, get_args, get_origin, get_type_hints

import pytest
from typing_extensions import TypeAliasType

import hearthbook.physics
from hearthbook.units import Number, Unit

ALLOWED_IMPORTS = {
    "__future__",
    "collections",
    "dataclasses",
    "enum",
    "functools",
    "math",
    "numpy",
    "typing",
    "typing_extensions",
}
MODULES = [
    importlib.import_module(f"hearthbook.physics.{found.name}")
    for found in pkgutil.iter_modules(hearthbook.physics.__path__)
]


def _public_functions() -> Iterator[Any]:
    for module in MODULES:
        for name in module.__all__:
            thing = getattr(module, name)
            if inspect.isfunction(thing):
                yield pytest.param(thing, id=f"{module.__name__.rpartition('.')[2]}.{name}")


FUNCTIONS = list(_public_functions())


def _says_its_unit(annotation: Any) -> bool:
    """Whether an annotation is a unit's alias, a closed choice, or made of such."""
    if isinstance(annotation, TypeAliasType):
        return annotation is not Number and _says_its_unit(annotation.__value__)
    if get_origin(annotation) is Annotated:
        return any(isinstance(note, Unit) for note in annotation.__metadata__)
    if isinstance(annotation, type):
        return _is_closed_choice(annotation) or _fields_say_their_unit(annotation)
    return annotation is Ellipsis or get_origin(annotation) is Literal or _parts_say(annotation)


def _is_closed_choice(kind: type) -> bool:
    return kind in {bool, int, type(None)} or issubclass(kind, Enum)


def _fields_say_their_unit(kind: type) -> bool:
    has_fields = is_dataclass(kind) or hasattr(kind, "_fields")  # the latter: a named tuple
    fields = get_type_hints(kind, include_extras=True).values() if has_fields else ()
    return bool(fields) and all(_says_its_unit(field) for field in fields)


def _parts_say(annotation: Any) -> bool:
    parts = [x for part in get_args(annotation) for x in (part if type(part) is list else [part])]
    return bool(parts) and all(_says_its_unit(part) for part in parts)


@pytest.mark.parametrize("function", FUNCTIONS)
def test_every_argument_and_result_says_its_unit(function: Callable[..., Any]) -> None:
    hints = get_type_hints(function, include_extras=True)
    assert set(inspect.signature(function).parameters) | {"return"} == set(hints)
    assert {name: hint for name, hint in hints.items() if not _says_its_unit(hint)} == {}


@pytest.mark.parametrize("function", FUNCTIONS)
def test_every_function_names_its_source_and_shows_an_example(
    function: Callable[..., Any],
) -> None:
    text = inspect.getdoc(function) or ""
    assert "\nSource:" in text
    assert "\nExample:" in text
    assert ">>> " in text


@pytest.mark.parametrize("function", FUNCTIONS)
def test_no_argument_is_keyword_only_for_a_compiled_call_could_not_pass_it(
    function: Callable[..., Any],
) -> None:
    kinds = {p.name: p.kind for p in inspect.signature(function).parameters.values()}
    assert inspect.Parameter.KEYWORD_ONLY not in kinds.values(), kinds


@pytest.mark.parametrize("module", MODULES, ids=lambda module: module.__name__)
def test_physics_imports_only_arithmetic(module: Any) -> None:
    tree = ast.parse(inspect.getsource(module))
    names = [node.module or "" for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)]
    names += [a.name for node in ast.walk(tree) if isinstance(node, ast.Import) for a in node.names]
    outside = [name for name in names if name.partition(".")[0] != "hearthbook"]
    assert [name for name in outside if name.partition(".")[0] not in ALLOWED_IMPORTS] == []
