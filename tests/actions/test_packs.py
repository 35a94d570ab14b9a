"""A pack is written whole or not at all, names all it holds, and is the same every time."""

from __future__ import annotations

import hashlib
import json
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from hearthbook.actions import packs
from hearthbook.actions.judging import Answer, commission
from hearthbook.actions.packs import MANIFEST, STEPS, make_pack
from hearthbook.documents.blocks import Document, Text
from hearthbook.errors import Conflict, Unreadable
from hearthbook.handover.pack import PackItem, pack_items
from tests.conftest import EXAMPLES

_RECORD = EXAMPLES / "well_done" / "home.yaml"


@pytest.fixture(scope="module")
def answer() -> Answer:
    return commission(_RECORD)


@pytest.fixture
def quick(monkeypatch: pytest.MonkeyPatch, answer: Answer) -> None:
    """Only the files that need no rendering: what is tried here is how they are put in place."""
    items = [
        item for item in pack_items(answer.design, answer.judged) if item.medium in ("file", "html")
    ]
    monkeypatch.setattr(packs, "pack_items", lambda *_: tuple(items))


def _checksums(folder: Path) -> dict[str, str]:
    return {path.name: hashlib.sha256(path.read_bytes()).hexdigest() for path in folder.iterdir()}


@pytest.mark.parametrize("name", ["well_done", "with_faults"])
def test_the_manifest_names_every_file_with_its_checksum(
    name: str, made_packs: dict[str, Path]
) -> None:
    folder = made_packs[name]
    manifest = json.loads((folder / MANIFEST).read_text(encoding="utf-8"))
    found = _checksums(folder)
    del found[MANIFEST]
    assert {file["name"]: file["sha256"] for file in manifest["files"]} == found
    for file in manifest["files"]:
        assert file["size"] == (folder / file["name"]).stat().st_size > 200
        assert file["purpose"]
    assert manifest["reference"] == {"well_done": "QH-0147", "with_faults": "QH-0163"}[name]


def test_the_manifest_lists_the_files_in_the_order_a_household_meets_them(
    made_packs: dict[str, Path],
) -> None:
    manifest = json.loads((made_packs["well_done"] / MANIFEST).read_text(encoding="utf-8"))
    names = [file["name"] for file in manifest["files"]]
    assert names == [
        "guide.pdf",
        "guide-large.pdf",
        "guide.html",
        "plant-card.pdf",
        "winter-card.pdf",
        "when-you-call.pdf",
        "next-owner.pdf",
        "labels.pdf",
        "visit-order.pdf",
        "engineers-report.pdf",
        "calendar.ics",
        "record.yaml",
    ]


@pytest.mark.parametrize("name", ["well_done", "with_faults"])
def test_the_record_in_the_pack_is_the_record_it_was_made_from(
    name: str, made_packs: dict[str, Path]
) -> None:
    copy = made_packs[name] / "record.yaml"
    assert copy.read_bytes() == (EXAMPLES / name / "home.yaml").read_bytes()


def test_a_pack_made_by_another_process_is_the_same_to_the_byte(
    made_packs: dict[str, Path], kept_cache: Path, tmp_path: Path
) -> None:
    command = [sys.executable, "-m", "hearthbook", "handover", str(_RECORD), "--out"]
    env = {"PYTHONHASHSEED": "7", "TZ": "Pacific/Apia", "LC_ALL": "C", "PATH": "/usr/bin:/bin"}
    env["XDG_CACHE_HOME"] = str(kept_cache)
    subprocess.run([*command, str(tmp_path / "pack")], check=True, capture_output=True, env=env)
    assert _checksums(tmp_path / "pack") == _checksums(made_packs["well_done"])


@pytest.mark.usefixtures("quick")
def test_a_pack_made_twice_in_one_place_is_the_same(answer: Answer, tmp_path: Path) -> None:
    make_pack(_RECORD, tmp_path / "pack", answer)
    before = _checksums(tmp_path / "pack")
    (tmp_path / "pack" / "left over.txt").write_text("from an earlier pack")
    make_pack(_RECORD, tmp_path / "pack", answer)
    assert _checksums(tmp_path / "pack") == before
    assert [path.name for path in tmp_path.iterdir()] == ["pack"]


@pytest.mark.usefixtures("quick")
def test_a_folder_of_other_files_is_refused_and_left_as_it_is(
    answer: Answer, tmp_path: Path
) -> None:
    folder = tmp_path / "photos"
    folder.mkdir()
    (folder / "cat.jpg").write_bytes(b"cat")
    with pytest.raises(Conflict, match=r"photos holds files that are not a pack"):
        make_pack(_RECORD, folder, answer)
    assert [path.name for path in tmp_path.rglob("*")] == ["photos", "cat.jpg"]


@pytest.mark.usefixtures("quick")
def test_a_file_in_the_pack_s_place_is_refused(answer: Answer, tmp_path: Path) -> None:
    (tmp_path / "pack").write_text("a letter")
    with pytest.raises(Conflict, match="pack is a file; name a folder"):
        make_pack(_RECORD, tmp_path / "pack", answer)
    assert (tmp_path / "pack").read_text() == "a letter"


@pytest.mark.usefixtures("quick")
def test_an_empty_folder_and_a_folder_that_is_not_there_yet_are_taken(
    answer: Answer, tmp_path: Path
) -> None:
    (tmp_path / "empty").mkdir()
    for folder in (tmp_path / "empty", tmp_path / "not" / "yet"):
        made = make_pack(_RECORD, folder, answer)
        assert made.folder == folder
        assert (folder / MANIFEST).is_file()


@pytest.mark.usefixtures("quick")
@pytest.mark.parametrize("when", ["defect", "rendering", "the record's file"])
def test_a_pack_that_fails_leaves_the_earlier_pack_as_it_was(
    when: str, answer: Answer, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "pack"
    make_pack(_RECORD, folder, answer)
    before = _checksums(folder)
    record = _RECORD
    if when == "defect":
        monkeypatch.setattr(packs, "pack_items", lambda *_: (_defective(answer),))
    elif when == "rendering":
        monkeypatch.setattr(packs, "_rendered", _broken)
    else:
        record = tmp_path / "gone.yaml"
    with pytest.raises((Unreadable, RuntimeError, FileNotFoundError), match=r"None|broken|gone"):
        make_pack(record, folder, answer)
    assert _checksums(folder) == before
    assert [path.name for path in tmp_path.iterdir()] == ["pack"]


def _defective(answer: Answer) -> PackItem:
    item = next(pack_items(answer.design, answer.judged))
    assert isinstance(item.content, Document)
    return replace(item, content=replace(item.content, blocks=(Text("The flow is None."),)))


def _broken(_item: PackItem) -> bytes:
    raise RuntimeError("the renderer is broken")


def test_the_progress_bar_has_a_step_for_every_file(answer: Answer) -> None:
    assert len(list(pack_items(answer.design, answer.judged))) == STEPS


def test_open_dangers_are_told_with_the_pack(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    record = EXAMPLES / "with_faults" / "home.yaml"
    faulty = commission(record)
    monkeypatch.setattr(packs, "pack_items", lambda *_: ())
    made = make_pack(record, tmp_path / "pack", faulty)
    assert len(made.open_safety_items) == len(faulty.judged.open_safety_items) >= 2
    assert made.open_safety_items[0].startswith("Filling connection removed and capped: ")
