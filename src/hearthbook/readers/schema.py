"""The published JSON Schema of the record, made from its models."""

from __future__ import annotations

from typing import Any

from hearthbook.record.home import FORMAT_VERSION, Home

__all__ = ["record_schema"]


def record_schema() -> dict[str, Any]:
    """The schema by which an editor completes and checks a record.

    A number with a unit carries it as `x-unit`; text such as `45 °C` is allowed in its place.
    """
    made = Home.model_json_schema(mode="validation")
    head = {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": f"urn:hearthbook:record:{FORMAT_VERSION}",
        "title": "Hearthbook record of one home",
        "description": "One home with a heat pump: survey, design choices and commissioning.",
    }
    return head | {key: value for key, value in made.items() if key not in head}
