"""The words a document prints of itself, by language."""

from __future__ import annotations

import tomllib
from datetime import date
from functools import cache
from importlib import resources
from typing import Any

from hearthbook.errors import NotFound

__all__ = ["Wording", "long_date", "wording"]

Wording = dict[str, Any]


@cache
def wording(language: str) -> Wording:
    """The words for a language.

    Args:
        language: a language tag that names a file of `render/words`.

    Raises:
        NotFound: there is no such file.

    Example:
        >>> wording("en-GB")["contents"]
        'Contents'
    """
    folder = resources.files("hearthbook.render") / "words"
    file = folder / f"{language}.toml"
    if not file.is_file():
        known = sorted(entry.name[:-5] for entry in folder.iterdir() if entry.name[-5:] == ".toml")
        raise NotFound(f"no words for the language {language!r}; there are {', '.join(known)}")
    return tomllib.loads(file.read_text(encoding="utf-8"))


def long_date(day: date, words: Wording) -> str:
    """A date as it is read aloud.

    Example:
        >>> long_date(date(2026, 3, 5), wording("en-GB"))
        '5 March 2026'
    """
    months: list[str] = words["months"].split()
    return f"{day.day} {months[day.month - 1]} {day.year}"
