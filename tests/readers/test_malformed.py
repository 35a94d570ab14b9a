"""Each malformed record of the table gives exactly the faults it should, with their lines."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from hearthbook.errors import Unreadable
from hearthbook.readers.record_file import home_from_text

HERE = Path(__file__).parent
SMALL = (HERE / "small.yaml").read_text(encoding="utf-8")
CASES: list[dict[str, Any]] = tomllib.loads((HERE / "malformed.toml").read_text("utf-8"))["case"]


def _text(case: dict[str, Any]) -> str:
    text = str(case.get("content", SMALL))
    for old, new in case.get("change", []):
        assert old in text, f"{case['name']}: the small record has no {old!r}"
        text = text.replace(old, new, 1)
    return text


@pytest.mark.parametrize("case", CASES, ids=[case["name"] for case in CASES])
def test_a_malformed_record_is_refused_in_exactly_these_words(case: dict[str, Any]) -> None:
    with pytest.raises(Unreadable, match=r"small\.yaml has \d+ fault") as refused:
        home_from_text(_text(case), "small.yaml")
    assert [str(fault) for fault in refused.value.faults] == case["faults"]


def test_the_small_record_itself_is_accepted() -> None:
    assert home_from_text(SMALL).name == "a small home"


def test_the_table_has_no_case_twice() -> None:
    names = [case["name"] for case in CASES]
    assert len(names) == len(set(names)) >= 60
