"""The project's own papers: locks that hold hashes and no addresses, pages that are up to date."""

from __future__ import annotations

import re
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
LOCKS = sorted(ROOT.glob("requirements*.lock"))
PINNED = re.compile(r"^(?P<name>[a-z0-9][a-z0-9-]*)==(?P<version>\S+)", re.MULTILINE)
KINDS_OF_CHANGE = {"breaking", "deprecated", "feature", "fix", "physics"}


def _pinned(lock: Path) -> set[tuple[str, str]]:
    found = PINNED.finditer(lock.read_text(encoding="utf-8"))
    return {(match["name"], match["version"]) for match in found}


@pytest.mark.parametrize("lock", LOCKS, ids=lambda lock: lock.name)
def test_a_lock_names_no_address(lock: Path) -> None:
    text = lock.read_text(encoding="utf-8")
    assert "//" not in text
    assert "--index" not in text
    assert "--find-links" not in text


@pytest.mark.parametrize("lock", LOCKS, ids=lambda lock: lock.name)
def test_every_pin_of_a_lock_has_a_hash(lock: Path) -> None:
    entries = re.split(r"^(?=[a-z0-9])", lock.read_text(encoding="utf-8"), flags=re.MULTILINE)
    assert [entry for entry in entries if entry.strip() and "--hash=sha256:" not in entry] == []


def test_what_is_tested_is_what_is_used() -> None:
    used = _pinned(ROOT / "requirements.lock")
    assert used
    assert used - _pinned(ROOT / "requirements-dev.lock") == set()


def test_every_dependency_is_locked() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    groups = project["dependency-groups"]
    locked = {name for name, _ in _pinned(ROOT / "requirements-dev.lock")}
    asked = [*project["project"]["dependencies"], *groups["test"], *groups["dev"]]
    names = {re.split(r"[\[<>=!~ ;]", line)[0].lower().replace(".", "-") for line in asked}
    assert names - locked == set()


def test_the_script_lists_its_tasks() -> None:
    listed = subprocess.run([ROOT / "run"], capture_output=True, text=True, check=True).stdout
    for task in ("demo", "test", "check", "fix", "docs", "bench", "all", "setup"):
        assert f"./run {task} " in listed


def test_the_script_refuses_a_task_it_does_not_know() -> None:
    refused = subprocess.run([ROOT / "run", "tset"], capture_output=True, text=True, check=False)
    assert refused.returncode == 2
    assert "There is no task called tset" in refused.stderr


def test_generated_pages_are_up_to_date() -> None:
    command = [sys.executable, str(ROOT / "docs" / "generate.py"), "--check"]
    answer = subprocess.run(command, capture_output=True, text=True, check=False)
    assert answer.returncode == 0, answer.stderr


def test_every_change_fragment_says_its_kind_and_something() -> None:
    for fragment in (ROOT / "changes").glob("*.md"):
        if fragment.name != "README.md":
            number, kind = fragment.stem.split(".")
            assert number.isdigit(), fragment.name
            assert kind in KINDS_OF_CHANGE, fragment.name
            assert fragment.read_text(encoding="utf-8").strip(), fragment.name


def test_every_link_between_pages_leads_somewhere() -> None:
    pages = [ROOT / "README.md", ROOT / "CONTRIBUTING.md", *sorted((ROOT / "docs").rglob("*.md"))]
    lost = [
        f"{page.relative_to(ROOT)} -> {target}"
        for page in pages
        for target in re.findall(r"\]\(([^)#:]+)(?:#[^)]*)?\)", page.read_text(encoding="utf-8"))
        if not (page.parent / target).exists()
    ]
    assert lost == []


def test_no_page_of_ours_leads_into_one_persons_machine() -> None:
    home = re.compile(r"(?<![\w./<-])/(?:home|root|Users|work|mnt)/\w")
    folders = ("src", "tests", "docs", "bench", "examples", "changes")
    files = [path for folder in folders for path in (ROOT / folder).rglob("*") if path.is_file()]
    texts = [path for path in files if path.suffix in {".py", ".md", ".toml", ".yaml", ".csv"}]
    assert [str(path) for path in texts if home.search(path.read_text(encoding="utf-8"))] == []
