"""The words of commissioning, read from the text file of a language."""

from __future__ import annotations

import tomllib
from functools import lru_cache
from importlib.resources import files

from hearthbook.errors import NotFound

__all__ = ["has_words", "is_safety", "words"]


@lru_cache(maxsize=4)
def _table(language: str) -> dict[str, dict[str, str | bool]]:
    path = files("hearthbook.commissioning").joinpath("words", f"{language}.toml")
    if not path.is_file():
        raise NotFound(f"There are no commissioning words for the language {language!r}.")
    return tomllib.loads(path.read_text(encoding="utf-8"))


def has_words(key: str, name: str, language: str = "en-GB") -> bool:
    """Whether a thing judged has its own text of this name."""
    return name in _table(language).get(key, {})


def words(
    key: str, name: str, values: dict[str, str] | None = None, language: str = "en-GB"
) -> str:
    """A text for a thing judged, its own or the general one, with this home's figures in it.

    Raises:
        NotFound: neither the thing nor the general table holds the text.
    """
    table = _table(language)
    text = table.get(key, {}).get(name, table["general"].get(name))
    if not isinstance(text, str):
        raise NotFound(f"The commissioning words hold no text {name!r} for {key!r}.")
    return text.format_map(values or {}).strip()


def is_safety(key: str, language: str = "en-GB") -> bool:
    """Whether an open fault in this check forbids the handover."""
    return bool(_table(language).get(key, {}).get("safety", False))
