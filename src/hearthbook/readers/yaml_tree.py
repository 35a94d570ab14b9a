"""YAML text as plain values that still know the line they stand on.

Only what a record needs is read: mappings, lists, and scalars of YAML 1.2's core schema. Anchors,
aliases, tags and a second document are refused, so a small file cannot swell in memory.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from ruamel.yaml import YAML
from ruamel.yaml import events as yaml_events
from ruamel.yaml.error import MarkedYAMLError, YAMLError

from hearthbook.errors import Fault, Unreadable
from hearthbook.record.contradiction import Path

__all__ = ["DEEPEST", "Tree", "read_tree"]

DEEPEST = 30
"""Levels of nesting; a record has eight."""

_WORDS: dict[str, Any] = (
    dict.fromkeys(("", "~", "null", "Null", "NULL"))
    | dict.fromkeys(("true", "True", "TRUE"), True)
    | dict.fromkeys(("false", "False", "FALSE"), False)
    | dict.fromkeys((".nan", ".NaN", ".NAN"), float("nan"))
    | {
        f"{sign}{word}": float(f"{sign}inf")
        for sign in ("", "+", "-")
        for word in (".inf", ".Inf", ".INF")
    }
)
_WHOLE = re.compile(r"[-+]?[0-9]+|0o[0-7]+|0x[0-9a-fA-F]+")
_DECIMAL = re.compile(r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?")
_LONGEST_NUMBER = 60
# Control characters but tab, line feed and next line, and the marks that reorder text.
_UNPRINTABLE = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x84\x86-\x9f\u2028-\u202e\u2066-\u2069]")

_UNCLOSED = r"found unexpected end of stream"

_ADVICE = {
    r"character '\\t'": "holds a tab; indent with spaces only.",
    r"character '.' that cannot start": "has a text that begins with a sign; put quotes round it.",
    r"mapping values are not allowed": (
        "has a colon that begins nothing; put quotes round the text, or check the indentation."
    ),
    r"could not find expected ':'": "lacks a colon after a key; check this line and the one above.",
    _UNCLOSED: "opens a quote that is not closed where it should be.",
    r"expected <block end>": (
        "is indented unlike the lines above; bring the keys of one part into one column."
    ),
    r"expected ',' or '[]}]'": (
        "lacks a comma or a closing bracket; check this line and those above."
    ),
    r"special characters|control characters": "holds a character that no text has; delete it.",
}


@dataclass
class Tree:
    """A file's content.

    Attributes:
        value: mappings, lists and scalars.
        lines: the line of each path, counted from 1.
        written: the text of each scalar that was read as a number, a truth or nothing.
        faults: what is wrong in form although it could be read, as path, message and line.
    """

    value: Any = None
    lines: dict[Path, int] = field(default_factory=dict)
    written: dict[Path, str] = field(default_factory=dict)
    faults: list[tuple[Path, str, int]] = field(default_factory=list)

    def line(self, path: Path) -> int | None:
        """The line of a path, or of the nearest part around it that has one."""
        for length in range(len(path), -1, -1):
            if path[:length] in self.lines:
                return self.lines[path[:length]]
        return None


def read_tree(text: str, source: str) -> Tree:
    """The content of YAML text.

    Args:
        text: the file's text.
        source: its name, for the error.

    Raises:
        Unreadable: the text is not YAML, or has more than one document.
    """
    builder = _Builder(source, _events(text))
    try:
        return builder.tree()
    except MarkedYAMLError as wrong:
        in_quotes = "quoted scalar" in str(wrong.context)
        mark = wrong.context_mark if in_quotes else wrong.problem_mark or wrong.context_mark
        line = None if mark is None else mark.line + 1
        message = _advice(str(wrong.problem))
        if builder.long_quote is not None:
            line, message = builder.long_quote, _ADVICE[_UNCLOSED]
        raise Unreadable(source, [Fault("the file", message, line)]) from wrong
    except YAMLError as wrong:
        character = getattr(wrong, "position", None)
        line = None if character is None else text.count("\n", 0, character) + 1
        raise Unreadable(source, [Fault("the file", _advice(str(wrong)), line)]) from wrong


def _events(text: str) -> Iterator[Any]:
    return iter(YAML(typ="safe", pure=True).parse(text))


def _advice(problem: str) -> str:
    for pattern, advice in _ADVICE.items():
        if re.search(pattern, problem):
            return advice
    return "cannot be read from here on; check colons, quotes and indentation of this line."


class _Builder:
    """Walks the parser's events once, without recursion of the parser's own."""

    def __init__(self, source: str, stream: Iterator[Any]) -> None:
        self._source = source
        self._stream = stream
        self._tree = Tree()
        self.long_quote: int | None = None
        """Line of the last quoted text that ran over several lines: a likely unclosed quote."""

    def tree(self) -> Tree:
        """The one document of the stream."""
        for event in self._stream:
            if isinstance(event, yaml_events.DocumentStartEvent):
                if (0,) in self._tree.lines or () in self._tree.lines:
                    self._refuse("begins a second document; keep one home in one file.", event)
                first = next(self._stream)
                self._tree.lines[()] = first.start_mark.line + 1
                self._tree.value = self._value(first, ())
        return self._tree

    def _refuse(self, message: str, event: Any) -> None:
        fault = Fault("the file", message, event.start_mark.line + 1)
        raise Unreadable(self._source, [fault])

    def _value(self, event: Any, path: Path) -> Any:
        if len(path) > DEEPEST:
            self._refuse(f"is nested deeper than {DEEPEST} levels; a record is not.", event)
        self._check_plain(event, path)
        if isinstance(event, yaml_events.MappingStartEvent):
            return self._mapping(path)
        if isinstance(event, yaml_events.SequenceStartEvent):
            return self._list(path)
        if isinstance(event, yaml_events.ScalarEvent):
            return self._scalar(event, path)
        return None

    def _check_plain(self, event: Any, path: Path) -> None:
        if isinstance(event, yaml_events.AliasEvent) or getattr(event, "anchor", None):
            sign = "*" if isinstance(event, yaml_events.AliasEvent) else "&"
            message = f"uses the shorthand {sign}{event.anchor}; write the values out instead."
            self._tree.faults.append((path, message, event.start_mark.line + 1))
        elif getattr(event, "tag", None) not in {None, "!"}:
            tag = str(event.tag).replace("tag:yaml.org,2002:", "!!")
            message = f"carries the tag {tag}; leave it out."
            self._tree.faults.append((path, message, event.start_mark.line + 1))

    def _mapping(self, path: Path) -> dict[str, Any]:
        content: dict[str, Any] = {}
        for event in self._stream:
            if isinstance(event, yaml_events.MappingEndEvent):
                break
            key = self._key(event, path)
            here = (*path, key)
            line = event.start_mark.line + 1
            if key in content:
                message = f"is written twice, first on line {self._tree.lines[here]}; keep one."
                self._tree.faults.append((here, message, line))
                self._skip(next(self._stream), here)
                continue
            self._tree.lines[here] = line
            content[key] = self._value(next(self._stream), here)
        return content

    def _key(self, event: Any, path: Path) -> str:
        if not isinstance(event, yaml_events.ScalarEvent):
            self._refuse("has a list or a group where a key must stand.", event)
        self._check_plain(event, path)
        return str(event.value)

    def _skip(self, event: Any, path: Path) -> None:
        """Read a value whose key was written before, leaving no trace but its faults."""
        before = self._tree.lines, self._tree.written
        self._tree.lines, self._tree.written = {path: event.start_mark.line + 1}, {}
        self._value(event, path)
        self._tree.lines, self._tree.written = before

    def _list(self, path: Path) -> list[Any]:
        content: list[Any] = []
        for event in self._stream:
            if isinstance(event, yaml_events.SequenceEndEvent):
                break
            here = (*path, len(content))
            self._tree.lines[here] = event.start_mark.line + 1
            content.append(self._value(event, here))
        return content

    def _scalar(self, event: Any, path: Path) -> Any:
        text = str(event.value)
        if _UNPRINTABLE.search(text):
            line = event.start_mark.line + 1
            self._tree.faults.append((path, "holds a character nobody can read; delete it.", line))
            text = _UNPRINTABLE.sub("", text)
        if not event.implicit[0]:
            if event.style in {"'", '"'} and event.end_mark.line > event.start_mark.line:
                self.long_quote = event.start_mark.line + 1
            return text
        value = _plain(text)
        if not isinstance(value, str):
            self._tree.written[path] = text
        return value


def _plain(text: str) -> Any:
    """A plain scalar by the core schema of YAML 1.2.2, section 10.3.2."""
    if text in _WORDS or len(text) > _LONGEST_NUMBER:
        return _WORDS.get(text, text)
    if _WHOLE.fullmatch(text):
        return int(text, {"0o": 8, "0x": 16}.get(text[:2], 10))
    return float(text) if _DECIMAL.fullmatch(text) else text
