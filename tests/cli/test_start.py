"""The command line starts at once: nothing heavy is imported before a command needs it."""

from __future__ import annotations

import subprocess
import sys

HEAVY = {"altair", "duckdb", "jinja2", "numpy", "pydantic", "rich", "ruamel.yaml", "typst"}


def _python(*arguments: str) -> str:
    command = [sys.executable, *arguments]
    return subprocess.run(command, capture_output=True, text=True, check=True).stdout


def test_help_imports_nothing_heavy() -> None:
    loaded = _python("-c", "import sys, hearthbook.cli.main; print(*sys.modules)").split()
    assert HEAVY & set(loaded) == set()


def test_the_package_can_be_started_as_a_module() -> None:
    shown = _python("-m", "hearthbook", "--help")
    assert shown.startswith("Usage: hearthbook ")
    for command in ("demo", "new", "check", "design", "commission", "handover", "explain"):
        assert f"\n  {command} " in shown


def test_the_version_is_told() -> None:
    assert _python("-m", "hearthbook", "--version").startswith("hearthbook, version ")
