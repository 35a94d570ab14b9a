"""Every published check value, run through the function it checks (see `reading.py`).

What the compiled loops call is run both ways: as Python and as the machine code of the loops.
"""

from __future__ import annotations

import functools
import inspect
from collections.abc import Callable, Iterator
from typing import Any

import numba
import numpy as np
import pytest

from hearthbook.kernel.compiled import FORMULAS
from tests.published.reading import computed, function_of, sources

BASES = {"seen", "from memory", "derived", "library"}
FILE_KEYS = {"source", "basis", "item", "check"}
CHECK_KEYS = {"id", "function", "inputs", "expected", "tolerance", "why"}
SOURCES = sources()
# Held in tests/physics instead: what they do stands in the array
CHANGE_LAYERS_AND_RETURN_NOTHING = {"heat_layers", "mix_layers"}


@functools.cache
def _compiled(function: Callable[..., Any]) -> Callable[..., Any]:
    """The function as a loop runs it, so that nothing but the way of running differs."""
    run = numba.njit(error_model="numpy")(function)
    names = list(inspect.signature(function).parameters)
    return lambda **inputs: run(*(inputs[name] for name in names))


def _checks() -> Iterator[Any]:
    for stem, content in SOURCES.items():
        for check in content["check"]:
            yield pytest.param(check, "python", id=f"{stem}:{check['id']}")
            if function_of(check) in FORMULAS:
                yield pytest.param(check, "compiled", id=f"{stem}:{check['id']}:compiled")


@pytest.mark.parametrize(("check", "way"), list(_checks()))
def test_published_value_comes_out_again(check: dict[str, Any], way: str) -> None:
    result = computed(check, _compiled if way == "compiled" else None)
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


def test_every_formula_of_the_loops_is_checked_from_outside() -> None:
    checked = {function_of(check) for content in SOURCES.values() for check in content["check"]}
    unchecked = {formula.__name__ for formula in FORMULAS if formula not in checked}
    assert unchecked == CHANGE_LAYERS_AND_RETURN_NOTHING
