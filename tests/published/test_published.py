"""Every published check value, run through the function it checks.

Each `tests/published/<source>.toml` holds one source: who printed the values, how we hold them
(`seen`, `from memory`, `derived`, `library`), which part of the work they check, and its checks.
A list among the inputs becomes an array; `result` picks an attribute (`"flow"`, `"fit.slope"`) or
an index of what the function returns.
"""

from __future__ import annotations

import importlib
import tomllib
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import numpy as np
import pytest

FOLDER = Path(__file__).parent
BASES = {"seen", "from memory", "derived", "library"}
FILE_KEYS = {"source", "basis", "item", "check"}
CHECK_KEYS = {"id", "function", "inputs", "expected", "tolerance", "why"}


def _sources() -> dict[str, dict[str, Any]]:
    return {
        path.stem: tomllib.loads(path.read_text(encoding="utf-8"))
        for path in sorted(FOLDER.glob("*.toml"))
    }


SOURCES = _sources()


def _checks() -> Iterator[Any]:
    for stem, content in SOURCES.items():
        for check in content["check"]:
            yield pytest.param(check, id=f"{stem}:{check['id']}")


def _function(path: str) -> Callable[..., Any]:
    module, _, name = path.rpartition(".")
    found: Callable[..., Any] = getattr(importlib.import_module(module), name)
    return found


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


@pytest.mark.parametrize("check", list(_checks()))
def test_published_value_comes_out_again(check: dict[str, Any]) -> None:
    inputs = {name: _input(value) for name, value in check["inputs"].items()}
    result = _picked(_function(check["function"])(**inputs), check.get("result"))
    if isinstance(check["expected"], str | bool):
        assert result == check["expected"], check["why"]
        return
    np.testing.assert_allclose(
        np.asarray(result, dtype=float),
        np.asarray(check["expected"], dtype=float),
        rtol=0.0,
        atol=check["tolerance"],
        err_msg=f"{check['id']}: {check['why']}",
    )


@pytest.mark.parametrize("stem", list(SOURCES))
def test_each_source_says_what_it_is_and_how_we_hold_it(stem: str) -> None:
    content = SOURCES[stem]
    assert set(content) - {"note"} == FILE_KEYS
    assert content["basis"] in BASES
    assert content["source"].strip()
    assert content["item"].strip()


@pytest.mark.parametrize("stem", list(SOURCES))
def test_each_check_is_complete_and_named_once(stem: str) -> None:
    checks = SOURCES[stem]["check"]
    for check in checks:
        assert set(check) - {"result", "note"} == CHECK_KEYS, check.get("id")
        assert check["why"].strip(), check["id"]
    names = [check["id"] for check in checks]
    assert len(names) == len(set(names))
