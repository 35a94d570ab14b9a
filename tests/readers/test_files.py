from __future__ import annotations

from pathlib import Path

import pytest

from hearthbook.errors import NotFound
from hearthbook.readers.files import write_whole


def test_a_file_is_written_whole(tmp_path: Path) -> None:
    path = tmp_path / "a.txt"
    write_whole(path, b"one")
    write_whole(path, b"two")
    assert path.read_bytes() == b"two"
    assert list(tmp_path.iterdir()) == [path]


def test_a_failed_write_leaves_the_old_file_and_nothing_else(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "a.txt"
    write_whole(path, b"one")

    def full(_: int) -> None:
        raise OSError("no space left")

    monkeypatch.setattr("os.fsync", full)
    with pytest.raises(OSError, match="no space left"):
        write_whole(path, b"two")
    assert path.read_bytes() == b"one"
    assert list(tmp_path.iterdir()) == [path]


def test_a_missing_folder_is_named(tmp_path: Path) -> None:
    with pytest.raises(NotFound, match=r"The folder .*nowhere does not exist; make it first"):
        write_whole(tmp_path / "nowhere" / "a.txt", b"")


def test_the_rights_of_an_existing_file_are_kept(tmp_path: Path) -> None:
    path = tmp_path / "a.txt"
    write_whole(path, b"one")
    path.chmod(0o600)
    write_whole(path, b"two")
    assert path.stat().st_mode & 0o777 == 0o600
