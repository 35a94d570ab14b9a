"""A home's record from its YAML file, with every fault of the file found in one go."""

from __future__ import annotations

import difflib
from pathlib import Path
from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from hearthbook.errors import Fault, Unreadable
from hearthbook.readers import model_paths
from hearthbook.readers.files import read_text
from hearthbook.readers.places import place
from hearthbook.readers.standing_in import (
    all_contradictions,
    has_enough,
    other_contradictions,
    path_of,
    put,
)
from hearthbook.readers.wording import spoken, worded
from hearthbook.readers.yaml_tree import Tree, read_tree
from hearthbook.record.contradiction import Path as Steps
from hearthbook.record.home import FORMAT_VERSION, Home

__all__ = ["home_from_text", "read_home"]

_ABOUT_TEXT = {"string_type", "enum", "literal_error"}


def read_home(path: Path | str) -> Home:
    """The home a record file describes.

    Raises:
        NotFound: there is no such file.
        Unreadable: with every fault of the file, in the order of its lines.
    """
    return home_from_text(read_text(Path(path)), str(path))


def home_from_text(text: str, source: str = "the record") -> Home:
    """The home a record's text describes.

    Args:
        text: YAML text.
        source: the file's name, for messages.

    Raises:
        Unreadable: with every fault of the text, in the order of its lines.
    """
    tree = read_tree(text, source)
    _check_version(tree, source)
    home, errors = _validated(tree)
    found = all_contradictions(home) if home else other_contradictions(tree.value, errors)
    said = [(item.path, item.message) for item in found]
    said += [_worded(error) for error in _first_causes(errors)]
    in_form = {path for path, _, _ in tree.faults}
    faults = [(path, words, tree.line(path)) for path, words in said if path not in in_form]
    placed = [
        Fault(place(tree.value, path), words, line) for path, words, line in (*tree.faults, *faults)
    ]
    if placed or home is None:
        raise Unreadable(source, placed)
    return home


def _check_version(tree: Tree, source: str) -> None:
    content = tree.value
    if content is None:
        message = "is empty; begin with the starter record that `hearthbook new` writes."
    elif not isinstance(content, dict):
        message = f"holds {spoken(content)}; a record is keys with values, hearthbook: 1 first."
    elif "hearthbook" not in content:
        message = f"does not say its version; write hearthbook: {FORMAT_VERSION} as its first key."
    elif repr(content["hearthbook"]) != repr(FORMAT_VERSION):
        message = (
            f"has version {spoken(content['hearthbook'])}; this program reads version "
            f"{FORMAT_VERSION}. Use the Hearthbook that wrote it, or a newer one."
        )
    else:
        return
    raise Unreadable(source, [Fault("the file", message, tree.lines.get(("hearthbook",)))])


def _validated(tree: Tree) -> tuple[Home | None, list[ErrorDetails]]:
    """The home, or what pydantic refuses in it.

    Text that looks like a number, such as a serial number, is taken as it was written wherever
    the record wants text.
    """
    home, errors = _tried(tree.value)
    if _restored(tree, errors):
        home, errors = _tried(tree.value)
    return home, errors


def _tried(content: Any) -> tuple[Home | None, list[ErrorDetails]]:
    try:
        return Home.model_validate(content), []
    except ValidationError as refused:
        return None, refused.errors(include_url=False)


def _restored(tree: Tree, errors: list[ErrorDetails]) -> bool:
    """Put the written text of numbers where text is wanted; whether there was any."""
    restored = False
    for error in errors:
        text = tree.written.get(path_of(error["loc"]))
        if error["type"] in _ABOUT_TEXT and text and error["input"] is not None:
            put(tree.value, path_of(error["loc"]), text)
            restored = True
    return restored


def _first_causes(errors: list[ErrorDetails]) -> list[ErrorDetails]:
    """The errors without those that only follow from another one."""
    misspelt = {
        (*error["loc"][:-1], meant)
        for error in errors
        if error["type"] == "extra_forbidden"
        for meant in difflib.get_close_matches(
            str(error["loc"][-1]), model_paths.allowed_keys(error["loc"][:-1]), n=1
        )
    }
    return [
        error
        for error in errors
        if not (error["type"] == "missing" and error["loc"] in misspelt) and not has_enough(error)
    ]


def _worded(error: ErrorDetails) -> tuple[Steps, str]:
    path = path_of(error["loc"])
    if error["type"].startswith("union_tag"):
        path = (*path, "kind")
    return path, worded(error)
