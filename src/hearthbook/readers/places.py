"""Where in a record something stands, as the person who wrote it knows it."""

from __future__ import annotations

from typing import Any

from hearthbook.record.contradiction import Path

__all__ = ["place"]

_NAMES = ("id", "name", "construction", "emitter", "side", "what", "material", "circuit")
_LONGEST = 40


def place(value: Any, path: Path) -> str:
    """The path of a value, with the name of each numbered part behind its number.

    Args:
        value: the whole record, as written.
        path: keys and positions from the top.

    Example:
        >>> place({"rooms": [{"id": "hall", "height": 2.4}]}, ("rooms", 0, "height"))
        'rooms[0] (hall).height'
    """
    words = ""
    for step in path:
        value = _inside(value, step)
        if isinstance(step, int):
            name = _name(value)
            words += f"[{step}] ({name})" if name else f"[{step}]"
        else:
            words += f".{step}" if words else step
    return words or "the file"


def _inside(value: Any, step: str | int) -> Any:
    if isinstance(value, dict):
        return value.get(step)
    if isinstance(value, list) and isinstance(step, int) and 0 <= step < len(value):
        return value[step]
    return None


def _name(part: Any) -> str:
    if not isinstance(part, dict):
        return ""
    for key in _NAMES:
        if isinstance(part.get(key), str):
            return str(part[key])[:_LONGEST]
    words = [part[key] for key in ("kind", "of") if isinstance(part.get(key), str)]
    return " of ".join(words)[:_LONGEST]
