"""The house rules a tool can read: sizes, names, public faces, clocks, and what physics may be.

Import directions are checked by import-linter, everything a linter knows by ruff; here stand the
rules that are ours. Each test prints every place that breaks its rule.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
SOURCE = ROOT / "src" / "hearthbook"
MOST_LINES_IN_A_FILE = 500
MOST_LINES_IN_A_FUNCTION = 40
NAMES_OF_NO_SUBJECT = {"base", "common", "core", "helper", "helpers", "misc", "util", "utils"}
MAY_READ_THE_CLOCK = {"actions", "cli"}

Function = ast.FunctionDef | ast.AsyncFunctionDef


def _python_files() -> list[Path]:
    folders = ("src", "tests", "bench", "docs")
    return sorted(path for folder in folders for path in (ROOT / folder).rglob("*.py"))


FILES = _python_files()
SOURCES = [path for path in FILES if path.is_relative_to(SOURCE)]
TREES = {path: ast.parse(path.read_text(encoding="utf-8")) for path in FILES}


def _place(path: Path, node: ast.AST | None = None) -> str:
    line = f":{getattr(node, 'lineno', '')}" if node is not None else ""
    return f"{path.relative_to(ROOT)}{line}"


def _functions(path: Path) -> Iterator[Function]:
    return (node for node in ast.walk(TREES[path]) if isinstance(node, Function))


def _lines_of_code(function: Function) -> int:
    """The lines of its body, without the docstring; arguments one on a line do not count.

    A function that is one `match` over a closed set of kinds counts as its longest case, and one
    that only returns something written out is data.
    """
    has_text = ast.get_docstring(function, clean=False) is not None
    body = function.body[1:] if has_text else function.body
    if len(body) == 1 and isinstance(body[0], ast.Match):
        return max(_span(case.body) for case in body[0].cases)
    if len(body) == 1 and isinstance(body[0], ast.Return):
        return 1
    return _span(body)


def _span(body: list[ast.stmt]) -> int:
    return (body[-1].end_lineno or 0) - body[0].lineno + 1 if body else 0


def _public_names(tree: ast.Module) -> set[str]:
    """What a module defines at its top, without a leading underscore; imports are not its own."""
    names: set[str] = set()
    for node in tree.body:
        if isinstance(node, Function | ast.ClassDef):
            names |= {node.name} if not _is_command(node) else set()
        elif isinstance(node, ast.Assign):
            names |= {target.id for target in node.targets if isinstance(target, ast.Name)}
        elif isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name):
            names.add(node.target.id)
    return {name for name in names if not name.startswith("_")}


def _is_command(node: Function | ast.ClassDef) -> bool:
    """Whether the command line has taken it up: nobody imports it by name."""
    return any(ast.unparse(decorator) == "cli.command()" for decorator in node.decorator_list)


def _declared_names(tree: ast.Module) -> set[str] | None:
    for node in tree.body:
        targets = node.targets if isinstance(node, ast.Assign) else [getattr(node, "target", None)]
        if any(isinstance(target, ast.Name) and target.id == "__all__" for target in targets):
            value = getattr(node, "value", None)
            return set(ast.literal_eval(value)) if value is not None else None
    return None


def test_no_file_is_longer_than_a_reader_can_hold() -> None:
    counts = {_place(path): len(path.read_text(encoding="utf-8").splitlines()) for path in FILES}
    assert {place: n for place, n in counts.items() if n > MOST_LINES_IN_A_FILE} == {}


def test_no_function_is_longer_than_one_screen() -> None:
    counts = {
        f"{_place(path, function)} {function.name}": _lines_of_code(function)
        for path in FILES
        for function in _functions(path)
    }
    assert {place: n for place, n in counts.items() if n > MOST_LINES_IN_A_FUNCTION} == {}


def test_every_module_is_named_for_its_subject() -> None:
    names = {_place(path): {path.stem, path.parent.name} for path in SOURCES}
    assert [place for place, parts in names.items() if parts & NAMES_OF_NO_SUBJECT] == []


@pytest.mark.parametrize("path", SOURCES, ids=_place)
def test_public_names_stand_in_all(path: Path) -> None:
    tree = TREES[path]
    public, declared = _public_names(tree), _declared_names(tree)
    if declared is None:
        assert public == set(), "the module has public names and no __all__"
        return
    assert public - declared == set(), "public, but not in __all__"
    known = public | _imported_names(tree)
    assert declared - known == set(), "in __all__, but nowhere in the module"


def _imported_names(tree: ast.Module) -> set[str]:
    return {
        alias.asname or alias.name
        for node in tree.body
        if isinstance(node, ast.ImportFrom)
        for alias in node.names
    }


def _reads_the_clock(node: ast.AST) -> bool:
    if not isinstance(node, ast.Attribute) or not isinstance(node.value, ast.Name | ast.Attribute):
        return False
    owner = node.value.id if isinstance(node.value, ast.Name) else node.value.attr
    return (owner, node.attr) in {
        ("datetime", "now"),
        ("datetime", "today"),
        ("datetime", "utcnow"),
        ("date", "today"),
        ("time", "time"),
        ("time", "time_ns"),
    }


def test_only_an_action_or_a_command_reads_the_clock() -> None:
    places = [
        _place(path, node)
        for path in SOURCES
        if path.relative_to(SOURCE).parts[0] not in MAY_READ_THE_CLOCK
        for node in ast.walk(TREES[path])
        if _reads_the_clock(node)
    ]
    assert places == []


def test_every_expected_error_is_known_by_its_message() -> None:
    places = [
        _place(path, node)
        for path in FILES
        for node in ast.walk(TREES[path])
        if isinstance(node, ast.Call)
        and ast.unparse(node.func) == "pytest.raises"
        and "match" not in {keyword.arg for keyword in node.keywords}
    ]
    assert places == []


def test_every_silenced_warning_names_its_code() -> None:
    bare = re.compile(r"#\s*(type:\s*ignore(?!\[)|noqa(?!: ))")
    places = [
        f"{_place(path)}:{number}"
        for path in FILES
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1)
        if bare.search(line)
    ]
    assert places == []
