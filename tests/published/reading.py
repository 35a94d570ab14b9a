"""Reading the published checks, and calling the functions they check.

Each `<source>.toml` beside this file holds one source: who printed the values, how we hold them
(`seen`, `from memory`, `derived`, `library`), which part of the work they check, and its checks.
A list among the inputs becomes an array; `result` picks an attribute (`"flow"`, `"fit.slope"`) or
an index of what the function returns.
"""

from __future__ import annotations

import importlib
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np

__all__ = ["computed", "function_of", "sources"]

FOLDER = Path(__file__).parent


def sources() -> dict[str, dict[str, Any]]:
    """Every source with its checks, by the name of its file."""
    return {
        path.stem: tomllib.loads(path.read_text(encoding="utf-8"))
        for path in sorted(FOLDER.glob("*.toml"))
    }


def function_of(check: dict[str, Any]) -> Callable[..., Any]:
    """The function a check is about."""
    module, _, name = check["function"].rpartition(".")
    found: Callable[..., Any] = getattr(importlib.import_module(module), name)
    return found


def computed(
    check: dict[str, Any], way: Callable[[Callable[..., Any]], Callable[..., Any]] | None = None
) -> Any:
    """What our own code makes of the check's inputs; `way` turns it into another form first."""
    inputs = {name: _input(value) for name, value in check["inputs"].items()}
    function = function_of(check)
    return _picked((way(function) if way else function)(**inputs), check.get("result"))


def _input(value: Any) -> Any:
    """A list of numbers as an array; anything else as it stands."""
    if isinstance(value, list) and value and all(isinstance(x, int | float) for x in value):
        return np.array(value, dtype=float)
    return value


def _picked(result: Any, pick: str | int | None) -> Any:
    if pick is None:
        return result
    if isinstance(pick, int):
        return result[pick]
    for part in pick.split("."):
        result = result[int(part)] if part.isdigit() else getattr(result, part)
    return getattr(result, "value", result)
