"""Every published check value, run through the function it checks (see `reading.py`)."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np
import pytest

from tests.published.reading import computed, sources

BASES = {"seen", "from memory", "derived", "library"}
FILE_KEYS = {"source", "basis", "item", "check"}
CHECK_KEYS = {"id", "function", "inputs", "expected", "tolerance", "why"}
SOURCES = sources()


def _checks() -> Iterator[Any]:
    for stem, content in SOURCES.items():
        for check in content["check"]:
            yield pytest.param(check, id=f"{stem}:{check['id']}")


@pytest.mark.parametrize("check", list(_checks()))
def test_published_value_comes_out_again(check: dict[str, Any]) -> None:
    result = computed(check)
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
