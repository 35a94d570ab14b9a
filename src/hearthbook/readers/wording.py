"""What is wrong with a value, in our words: the value, what is allowed, what to do."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

from pydantic_core import ErrorDetails

from hearthbook.readers import model_paths
from hearthbook.record.contradiction import nearest

__all__ = ["PATTERN_WORDS", "spoken", "worded"]

_LONGEST = 60

PATTERN_WORDS = {
    r"^[a-z][a-z0-9_]*$": (
        "an id: small letters, digits and underscores, a letter first, such as living_room"
    ),
    r"^([01]\d|2[0-3]):[0-5]\d$": "a time from 00:00 to 23:59, such as 05:30",
    r"^(\*|[0-6](\.5)?|max|open)$": "*, a number from 0 to 6 in halves, max or open",
    r"^[A-Za-z0-9][A-Za-z0-9_/-]{0,40}$": (
        "at most 41 letters, digits, hyphens, underscores or slashes, such as J-0147"
    ),
    r"^[a-z]{2}-[A-Z]{2}$": "a language such as en-GB",
    r"^[a-z_]{2,20}$": "a country in small letters, such as england",
}


def spoken(value: Any) -> str:
    """A value as it may stand in a message.

    Example:
        >>> spoken("lounge"), spoken(2.50), spoken(None), spoken([1])
        ("'lounge'", '2.5', 'empty', 'a list')
    """
    if value is None or value == "":
        return "empty"
    if isinstance(value, dict | list):
        return "a group of keys" if isinstance(value, dict) else "a list"
    if isinstance(value, int | float):
        is_number = not isinstance(value, bool) and math.isfinite(value)
        return f"{value:.10g}" if is_number else str(value).lower()
    text = str(value)
    return f"'{text[:_LONGEST]}…'" if len(text) > _LONGEST else f"'{text}'"


def worded(error: ErrorDetails) -> str:
    """The message of one of pydantic's errors."""
    kind = error["type"]
    if kind in _SAID:
        return _SAID[kind](error)
    if kind in _WANTED:
        return _wants(error, _WANTED[kind])
    if kind.startswith("quantity_"):
        return f"{error['msg']}."
    return f"is {spoken(error['input'])}, which does not fit here; see the record's schema."


def _wants(error: ErrorDetails, wanted: str) -> str:
    given = error["input"]
    if given is None and model_paths.is_required(error["loc"]):
        return f"is empty; write {wanted}."
    if given is None:
        return f"is empty; write {wanted}, or leave the line out while it is not known."
    return f"is {spoken(given)}; it must be {wanted}."


def _limit(words: str, key: str) -> Callable[[ErrorDetails], str]:
    def said(error: ErrorDetails) -> str:
        return _wants(error, f"{words} {spoken(error['ctx'][key])}")

    return said


def _missing(error: ErrorDetails) -> str:
    return f"is missing; add it: {model_paths.what_it_says(error['loc'])}."


def _unknown_key(error: ErrorDetails) -> str:
    key = str(error["loc"][-1])
    allowed = model_paths.allowed_keys(error["loc"][:-1])
    hint = nearest(key, allowed)
    if hint:
        return f"is not a key Hearthbook knows here.{hint}"
    if error["input"] is None:
        return (
            "is read as a key of its own, perhaps because a comma stands before it; "
            "put quotes round text with commas, and a point in decimals."
        )
    return f"is not a key Hearthbook knows here; it knows {', '.join(allowed)}."


def _choice(error: ErrorDetails) -> str:
    if error["loc"][-1] == "[key]":
        allowed = model_paths.allowed_keys(error["loc"][:-2])
        hint = nearest(str(error["input"]), allowed) or f" It knows {', '.join(allowed)}."
        return f"is not a part Hearthbook knows.{hint}"
    return _one_of(error["input"], str(error["ctx"]["expected"]))


def _one_of(given: Any, expected: str) -> str:
    names = [name.strip(" '") for name in expected.replace(" or ", ", ").split(",")]
    hint = nearest(given, names) if isinstance(given, str) else ""
    allowed = f"one of {', '.join(names)}" if len(names) > 1 else names[0]
    if given is None:
        return f"is empty; write {allowed}."
    return f"is {spoken(given)}; it must be {allowed}.{hint}"


def _unknown_tag(error: ErrorDetails) -> str:
    given = error["input"].get("kind")
    return _one_of(given, str(error["ctx"]["expected_tags"]))


def _no_tag(error: ErrorDetails) -> str:
    kinds = ", ".join(model_paths.allowed_tags(error["loc"]))
    return f"is missing; write one of {kinds}."


def _pattern(error: ErrorDetails) -> str:
    return _wants(error, PATTERN_WORDS[error["ctx"]["pattern"]])


def _too_few(error: ErrorDetails) -> str:
    least, found = error["ctx"]["min_length"], error["ctx"]["actual_length"]
    return f"has {found or 'no'} {_entries(found)}; it must have at least {least}."


def _too_many(error: ErrorDetails) -> str:
    most, found = error["ctx"]["max_length"], len(error["input"])
    return f"has {found} {_entries(found)}; it must have at most {most}."


def _entries(count: int) -> str:
    return "entry" if count == 1 else "entries"


def _too_long(error: ErrorDetails) -> str:
    most, found = error["ctx"]["max_length"], len(str(error["input"]))
    return f"has {found} letters; it may have {most}."


def _no_offset(error: ErrorDetails) -> str:
    given = str(error["input"])
    if ":" not in given:
        return _wants(error, _MOMENT)
    return f"is '{given}', without its offset from UTC; write it behind, such as {given}+01:00."


_DATE = "a day such as 2026-10-14"
_MOMENT = "a moment with its offset from UTC, such as 2026-10-14T11:30:00+01:00"
_LIST = "a list, each entry behind a hyphen"
_TRUTH = "true or false"

_WANTED = {
    "string_type": "text",
    "string_too_short": "some text",
    "int_type": "a whole number",
    "int_parsing": "a whole number",
    "int_parsing_size": "a whole number",
    "int_from_float": "a whole number",
    "float_type": "a number",
    "float_parsing": "a number, with a point for decimals",
    "finite_number": "a finite number",
    "bool_type": _TRUTH,
    "bool_parsing": _TRUTH,
    "tuple_type": _LIST,
    "dict_type": "a group of keys",
    "model_type": "a group of keys",
    "model_attributes_type": "a group of keys",
    "date_type": _DATE,
    "date_parsing": _DATE,
    "date_from_datetime_parsing": _DATE,
    "date_from_datetime_inexact": _DATE,
    "datetime_type": _MOMENT,
    "datetime_parsing": _MOMENT,
    "datetime_from_date_parsing": _MOMENT,
    "datetime_object_invalid": _MOMENT,
    "timezone_offset": _MOMENT,
}


def _number(error: ErrorDetails) -> str:
    return _wants(error, f"a number in {error['ctx']['unit']}")


_SAID: dict[str, Callable[[ErrorDetails], str]] = {
    "quantity_type": _number,
    "missing": _missing,
    "extra_forbidden": _unknown_key,
    "enum": _choice,
    "literal_error": _choice,
    "union_tag_invalid": _unknown_tag,
    "union_tag_not_found": _no_tag,
    "string_pattern_mismatch": _pattern,
    "too_short": _too_few,
    "too_long": _too_many,
    "string_too_long": _too_long,
    "timezone_aware": _no_offset,
    "greater_than": _limit("more than", "gt"),
    "greater_than_equal": _limit("at least", "ge"),
    "less_than": _limit("less than", "lt"),
    "less_than_equal": _limit("at most", "le"),
}
