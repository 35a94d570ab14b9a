"""The commands as a person or a machine meets them: what they print and how they end."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from tests.conftest import EXAMPLES

_GOOD = str(EXAMPLES / "well_done" / "home.yaml")
_BAD = str(EXAMPLES / "with_faults" / "home.yaml")


class Done:
    """What a command printed, and the code it ended with."""

    def __init__(self, code: int, out: str, err: str) -> None:
        self.code, self.out, self.err = code, out, err


def call(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, *words: str) -> Done:
    """The command in this process, as `main` runs it."""
    from hearthbook.cli.main import main

    monkeypatch.setattr(sys, "argv", ["hearthbook", *words])
    code: Any = 0
    try:
        main()
    except SystemExit as ended:
        code = ended.code or 0
    printed = capsys.readouterr()
    return Done(code, printed.out, printed.err)


@pytest.mark.parametrize(
    ("arguments", "code"),
    [
        (["check", _GOOD], 0),
        (["check", _BAD], 0),
        (["design", _GOOD], 0),
        (["design", _BAD], 1),
        (["commission", _GOOD], 0),
        (["commission", _BAD], 1),
        (["explain", _GOOD], 0),
        (["explain", _BAD, "heat_loss.total"], 0),
        (["schema"], 0),
    ],
)
def test_a_command_ends_with_the_code_of_what_it_found(
    arguments: list[str],
    code: int,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    done = call(capsys, monkeypatch, *arguments)
    assert (done.code, done.err) == (code, "")
    assert done.out
    assert "None" not in done.out.replace("None of", "")


@pytest.mark.parametrize(
    "arguments",
    [
        ["check", _GOOD],
        ["check", _BAD],
        ["design", _GOOD],
        ["design", _BAD],
        ["commission", _GOOD],
        ["commission", _BAD],
        ["explain", _GOOD],
        ["explain", _GOOD, "emitters.rad_kitchen"],
    ],
)
def test_machines_are_given_json_without_what_json_has_not(
    arguments: list[str], capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    done = call(capsys, monkeypatch, *arguments, "--json")
    found = json.loads(done.out, parse_constant=_refuse)
    assert found
    assert done.err == ""


def _refuse(word: str) -> None:
    raise AssertionError(f"{word} is not JSON")


def test_the_verdicts_for_machines_hold_what_a_person_reads(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    found = json.loads(call(capsys, monkeypatch, "commission", _BAD, "--json").out)
    by_key = {one["key"]: one for one in found}
    flat = by_key["vessel_precharge"]
    assert flat["verdict"] == "outside"
    assert "0.20" in flat["reason"]
    assert flat["next_step"]
    assert flat["band"].count("bar") == 2
    assert by_key["filling_disconnected"]["is_safety"] is True


@pytest.mark.parametrize(
    ("figure", "wanted"),
    [
        ("heat_loss.total", ("W", "=", "EN 12831")),
        ("expansion.cold_fill", ("bar", "=", "precharge")),
        ("water_volume.total", ("L", "=", "record: ")),
        ("emitters.rad_kitchen.output", ("W", "=", "EN 442")),
        ("weather_curve.as_set.mean", ("K", "=", "record: ")),
        ("readings.heat_balance", ("%", "ratio", "flow")),
    ],
)
def test_a_figure_is_explained_down_to_the_record_and_its_sources(
    figure: str,
    wanted: tuple[str, ...],
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    done = call(capsys, monkeypatch, "explain", _GOOD, figure)
    assert done.code == 0, done.err
    for words in wanted:
        assert words in done.out
    assert len(done.out.splitlines()) > 6


def test_a_figure_s_working_for_machines_names_figures_that_are_there(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    book = json.loads(call(capsys, monkeypatch, "explain", _GOOD, "--json").out)
    assert len(book) > 500
    for name, figure in book.items():
        assert figure["name"] == name
        assert set(figure["inputs"]) <= set(book), name
        assert figure["source"] or figure["formula"], name


@pytest.mark.parametrize(
    ("asked", "near"),
    [
        ("heat_loss.totl", "heat_loss.total"),
        ("expansion.coldfill", "expansion.cold_fill"),
        ("weather_curve.mean_flw", "weather_curve.mean_flow"),
    ],
)
def test_a_name_that_is_not_there_brings_near_ones(
    asked: str, near: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    done = call(capsys, monkeypatch, "explain", _GOOD, asked)
    assert done.code == 2
    assert f"No figure is called '{asked}'" in done.err
    assert near in done.err
    assert done.out == ""


def test_a_chapter_s_name_explains_every_figure_of_it(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    done = call(capsys, monkeypatch, "explain", _GOOD, "emitters.rad_kitchen", "--json")
    assert len(json.loads(done.out)) > 1


def _damaged(tmp_path: Path) -> Path:
    text = Path(_GOOD).read_text(encoding="utf-8")
    for wrong in (
        ("people: 3", "people: many"),
        ("latitude: 53.2", "latitude: 530"),
        ("  altitude: 125 m", "  altitud: 125 m"),
    ):
        assert wrong[0] in text
        text = text.replace(*wrong, 1)
    path = tmp_path / "home.yaml"
    path.write_text(text, encoding="utf-8")
    return path


@pytest.mark.parametrize("command", ["check", "design", "commission", "handover", "explain"])
def test_every_fault_of_a_record_is_told_at_once_with_its_line(
    command: str,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    path = _damaged(tmp_path)
    monkeypatch.chdir(tmp_path)
    done = call(capsys, monkeypatch, command, str(path))
    assert done.code == (1 if command == "check" else 2)
    assert done.out == ""
    assert "has 3 faults" in done.err
    lines = path.read_text(encoding="utf-8").splitlines()
    for wrong in ("people: many", "latitude: 530", "altitud: 125 m"):
        number = next(at for at, line in enumerate(lines, start=1) if wrong in line)
        assert f"line {number}, " in done.err
    assert list(tmp_path.iterdir()) == [path]


def test_faults_are_told_to_machines_with_place_line_and_message(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    done = call(capsys, monkeypatch, "check", str(_damaged(tmp_path)), "--json")
    found = json.loads(done.out)
    assert done.code == 1
    assert [set(fault) for fault in found["faults"]] == [{"place", "line", "message"}] * 3


@pytest.mark.parametrize("command", ["check", "design", "commission", "handover", "explain"])
@pytest.mark.parametrize("what", ["missing", "folder", "binary", "empty"])
def test_what_cannot_be_used_gets_one_clear_message_and_no_traceback(
    command: str,
    what: str,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    path = tmp_path / "home.yaml"
    if what == "folder":
        path.mkdir()
    elif what == "binary":
        path.write_bytes(bytes(range(256)))
    elif what == "empty":
        path.write_bytes(b"")
    monkeypatch.chdir(tmp_path)
    done = call(capsys, monkeypatch, command, str(path))
    assert done.code == 2
    assert done.out == ""
    said = {"missing": "no file", "folder": "is a folder", "binary": "UTF-8", "empty": "is empty"}
    assert said[what] in done.err
    assert str(path) in done.err
    assert len(done.err.strip().splitlines()) <= 2
    assert "Traceback" not in done.err


def test_a_new_record_is_accepted_once_filled_in_and_never_overwritten(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "home.yaml"
    done = call(capsys, monkeypatch, "new", str(path))
    assert done.code == 0
    assert f"hearthbook check {path}" in done.out
    before = path.read_bytes()
    again = call(capsys, monkeypatch, "new", str(path))
    assert again.code == 2
    assert "exists already" in again.err
    assert path.read_bytes() == before
    nowhere = call(capsys, monkeypatch, "new", str(tmp_path / "no" / "home.yaml"))
    assert (nowhere.code, "does not exist" in nowhere.err) == (2, True)


def test_a_folder_with_other_files_is_refused_by_the_command(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "letter.txt").write_text("dear all")
    done = call(capsys, monkeypatch, "handover", _GOOD, "--out", str(tmp_path))
    assert done.code == 2
    assert "holds files that are not a pack" in done.err
    assert [path.name for path in tmp_path.iterdir()] == ["letter.txt"]


def test_the_schema_is_written_as_it_is_printed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    printed = call(capsys, monkeypatch, "schema").out
    call(capsys, monkeypatch, "schema", "--out", str(tmp_path / "schema.json"))
    assert (tmp_path / "schema.json").read_text(encoding="utf-8") == printed
    assert json.loads(printed)["$schema"].startswith("https://json-schema.org/")


def test_nothing_is_coloured_where_nobody_looks(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    assert "\x1b" not in call(capsys, monkeypatch, "commission", _BAD).out


def test_a_pack_made_by_the_command_says_where_it_is_and_what_forbids_giving_it(
    tmp_path: Path, kept_cache: Path
) -> None:
    """In a process of its own, with the folder named after the home."""
    command = [sys.executable, "-m", "hearthbook", "handover", _BAD, "--json"]
    env = {**os.environ, "XDG_CACHE_HOME": str(kept_cache)}
    done = subprocess.run(
        command, capture_output=True, text=True, check=False, cwd=tmp_path, env=env
    )
    assert done.stderr == ""
    found = json.loads(done.stdout)
    assert done.returncode == 1
    assert found["folder"] == "packs/QH-0163"
    assert any("Filling connection" in item for item in found["open_safety_items"])
    for file in found["files"]:
        assert (tmp_path / "packs" / "QH-0163" / file["name"]).stat().st_size == file["size"]


def test_a_reader_that_stops_reading_is_no_error() -> None:
    command = f"{sys.executable} -m hearthbook explain {_GOOD} | head -1"
    done = subprocess.run(command, shell=True, capture_output=True, text=True, check=False)
    assert done.stderr == ""
    assert len(done.stdout.splitlines()) == 1


def test_a_command_that_is_not_there_is_told(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    done = call(capsys, monkeypatch, "sell")
    assert done.code == 2
    assert "No such command" in done.err


def test_the_demo_does_the_whole_job_on_both_homes_and_says_where_it_is(
    tmp_path: Path,
    kept_cache: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Without its papers, which have their own tests: they take their time."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(kept_cache))
    monkeypatch.setattr("hearthbook.actions.packs.pack_items", lambda *_: ())
    done = call(capsys, monkeypatch, "demo", "--out", str(tmp_path / "packs"))
    assert (done.code, done.err) == (0, "")
    for name in ("well_done", "with_faults"):
        folder = tmp_path / "packs" / name
        assert f"The pack is in {folder}:" in done.out
        assert (folder / "manifest.json").is_file()
    assert done.out.count("Do not hand over before this is mended") >= 2
    advised = [line.split()[1:] for line in done.out.splitlines() if line.startswith("  hearthb")]
    assert len(advised) >= 2
    monkeypatch.chdir(EXAMPLES.parent)
    for arguments in advised:  # what a newcomer is told to try next works as it is printed
        tried = call(capsys, monkeypatch, *arguments)
        assert (tried.code in (0, 1), tried.err) == (True, ""), arguments
        assert tried.out


def test_a_pack_in_a_language_without_words_is_refused_in_one_line(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    text = Path(_GOOD).read_text(encoding="utf-8")
    path = tmp_path / "home.yaml"
    path.write_text(text.replace("language: en-GB", "language: cy-GB"), encoding="utf-8")
    done = call(capsys, monkeypatch, "handover", str(path), "--out", str(tmp_path / "pack"))
    assert done.code == 2
    assert "cy-GB" in done.err
    assert len(done.err.strip().splitlines()) == 1
    assert list(tmp_path.iterdir()) == [path]


def test_text_that_is_no_record_at_all_cannot_be_used(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "home.yaml"
    path.write_text("Dear all, the heating is on.\n", encoding="utf-8")
    done = call(capsys, monkeypatch, "check", str(path))
    assert (done.code, done.out) == (2, "")
    assert "a record is keys with values" in done.err


def test_a_figure_of_the_pack_s_year_is_explained_down_to_the_record(
    kept_cache: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(kept_cache))
    done = call(capsys, monkeypatch, "explain", _GOOD, "year.pack.degree.middle")
    assert (done.code, done.err) == (0, "")
    for words in ("rooms wanted 1 K warmer", "Years simulated", "record:"):
        assert words in " ".join(done.out.split())
