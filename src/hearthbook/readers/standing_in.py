"""A faulty record made whole enough to be compared with itself.

So that one look finds every fault: values that were refused are left out or stood in for, and the
rest is checked for contradictions. What a stand-in may have caused is not reported.
"""

from __future__ import annotations

import copy
import difflib
from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from hearthbook.readers import model_paths
from hearthbook.readers.usual_builds import unknown_builds
from hearthbook.record.consistency import contradictions
from hearthbook.record.contradiction import Contradiction, Path
from hearthbook.record.home import Home

__all__ = ["all_contradictions", "has_enough", "other_contradictions", "path_of", "put"]

_ROUNDS = 4
"""Rounds of standing in, for a part that stands in may need parts of its own."""

_SIZES = {"height", "length", "width", "floor_area", "area"}
_SIZED = {"elements", "openings", "area", "floor_area"}
_DAYS = {"issued", "date"}
_DATED = {"at", "on", "issued", "handover_date", "next_service", "seasonal_visit"}
"""What figures beyond their own part a size or a day decides on."""


def path_of(location: Path) -> Path:
    """A location of pydantic's without the union tags and marks it adds."""
    return tuple(
        step
        for position, step in enumerate(location)
        if step != "[key]" and not model_paths.is_tag(location[: position + 1])
    )


def put(content: Any, path: Path, value: Any) -> None:
    """Set the value at a path."""
    _get(content, path[:-1])[path[-1]] = value


def _get(content: Any, path: Path) -> Any:
    for step in path:
        content = content[step]
    return content


def all_contradictions(home: Home) -> tuple[Contradiction, ...]:
    """What a home says against itself, and against the table of usual builds."""
    return (*contradictions(home), *unknown_builds(home))


def has_enough(error: ErrorDetails) -> bool:
    """Whether a list is only short of entries because some of them were refused."""
    is_short = error["type"] == "too_short"
    return is_short and len(error["input"]) >= int(error["ctx"]["min_length"])


def other_contradictions(content: Any, errors: list[ErrorDetails]) -> tuple[Contradiction, ...]:
    """The contradictions that have nothing to do with values already refused.

    Args:
        content: the record as written.
        errors: what was refused in it.
    """
    patched = copy.deepcopy(content)
    refused: list[Path] = []
    for _ in range(_ROUNDS):
        try:
            for error in (item for item in errors if not has_enough(item)):
                refused.append(path_of(error["loc"]))
                _patch(patched, error)
            home = Home.model_validate(patched)
        except ValidationError as more:
            errors = more.errors(include_url=False)
        except (KeyError, IndexError, TypeError, AttributeError):
            return ()
        else:
            return tuple(item for item in all_contradictions(home) if not _follows(item, refused))
    return ()


def _patch(content: Any, error: ErrorDetails) -> None:
    path = path_of(error["loc"])
    if error["type"].startswith("union_tag"):
        tags = model_paths.allowed_tags(error["loc"])
        given = str(_get(content, path).get("kind"))
        put(content, (*path, "kind"), difflib.get_close_matches(given, tags, n=1, cutoff=0.0)[0])
    elif _is_surplus(error):
        del _get(content, path[:-1])[path[-1]]
    else:
        put(content, path, model_paths.stand_in(error["loc"]))


def _is_surplus(error: ErrorDetails) -> bool:
    is_key = error["type"] == "extra_forbidden" or error["loc"][-1] == "[key]"
    return is_key or not model_paths.is_required(error["loc"])


def _follows(item: Contradiction, refused: list[Path]) -> bool:
    """Whether a contradiction may only come from a value that was stood in for."""
    if item.is_reference and any(path[-1] == "id" for path in refused):
        return True
    return any(_touches(path, item) for path in refused)


def _touches(refused: Path, item: Contradiction) -> bool:
    """Whether a refused value stands beside, above or below a place, or decides on it."""
    path, around = item.path, len(refused) - 1
    is_beside = around > 0 and path[:around] == refused[:-1] and len(path) <= around + 1
    is_below = path[: len(refused)] == refused or refused[: len(path)] == path
    is_figure = not item.is_reference
    is_sized = is_figure and refused[-1] in _SIZES and bool(_SIZED & set(path))
    is_dated = is_figure and refused[-1] in _DAYS and bool(_DATED & set(path))
    return is_beside or is_below or is_sized or is_dated
