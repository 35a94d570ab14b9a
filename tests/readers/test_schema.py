from __future__ import annotations

import json
import re
from collections.abc import Iterator
from typing import Any

import jsonschema
import pytest

from hearthbook.readers.schema import record_schema
from hearthbook.readers.wording import PATTERN_WORDS
from hearthbook.readers.yaml_tree import read_tree
from hearthbook.units import TRADE_UNITS
from tests.conftest import EXAMPLES

SCHEMA = record_schema()


def _parts(part: Any) -> Iterator[dict[str, Any]]:
    if isinstance(part, dict):
        yield part
    for inner in (
        part.values() if isinstance(part, dict) else part if isinstance(part, list) else ()
    ):
        yield from _parts(inner)


def test_the_schema_is_a_valid_schema_without_a_host() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    assert SCHEMA["$id"].startswith("urn:hearthbook:")


@pytest.mark.parametrize("name", ["well_done", "with_faults"])
def test_the_schema_accepts_the_demo_homes(name: str) -> None:
    text = (EXAMPLES / name / "home.yaml").read_text(encoding="utf-8")
    jsonschema.Draft202012Validator(SCHEMA).validate(read_tree(text, name).value)


def test_the_schema_refuses_an_unknown_key() -> None:
    text = (EXAMPLES / "well_done" / "home.yaml").read_text(encoding="utf-8")
    content = read_tree(text, "x").value | {"garden": {}}
    with pytest.raises(jsonschema.ValidationError, match="'garden' was unexpected"):
        jsonschema.Draft202012Validator(SCHEMA).validate(content)


def test_every_field_is_described() -> None:
    fields = [
        (name, field)
        for part in (SCHEMA, *SCHEMA["$defs"].values())
        for name, field in part.get("properties", {}).items()
    ]
    assert len(fields) > 300
    described = ("description", "$ref")  # a part's own description serves where the two agree
    assert [name for name, field in fields if not any(key in field for key in described)] == []


def test_every_unit_is_one_hearthbook_knows() -> None:
    units = {part["x-unit"] for part in _parts(SCHEMA) if "x-unit" in part}
    assert len(units) > 20
    assert units <= TRADE_UNITS.keys()


def test_every_pattern_of_a_field_has_words_for_people() -> None:
    patterns = set(re.findall(r'"pattern": ("(?:[^"\\]|\\.)*")', json.dumps(SCHEMA)))
    spoken = {json.loads(pattern) for pattern in patterns} - {r"^\s*[+\-−]?\d"}
    assert spoken <= PATTERN_WORDS.keys()
