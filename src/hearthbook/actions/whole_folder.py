"""A folder written whole or not at all; an earlier one of ours is replaced in one move."""

from __future__ import annotations

import tempfile
from collections.abc import Mapping
from pathlib import Path

from hearthbook.errors import Conflict

__all__ = ["check_free", "write_folder"]


def check_free(folder: Path, mark: str, what: str) -> None:
    """Refuse a folder that holds something other than what is to be replaced.

    Args:
        folder: to be written.
        mark: name of the file by which an earlier one of ours is known.
        what: is to be written, for the message, such as `a pack`.

    Raises:
        Conflict: it is a file, or holds something else.
    """
    if not folder.exists():
        return
    if not folder.is_dir():
        raise Conflict(f"{folder} is a file; name a folder for {what}.")
    if any(folder.iterdir()) and not (folder / mark).is_file():
        raise Conflict(
            f"{folder} holds files that are not {what}; name an empty or a new folder. "
            "Nothing was written."
        )


def write_folder(folder: Path, files: Mapping[str, bytes], mark: str, what: str) -> None:
    """Write files into a folder, all of them or none.

    Args:
        folder: to be written.
        files: contents by name; one of them is the mark.
        mark: see `check_free`.
        what: see `check_free`.

    Raises:
        Conflict: see `check_free`.
    """
    check_free(folder, mark, what)
    folder.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(prefix=".fresh-", dir=folder.parent) as scratch:
        fresh = Path(scratch) / "fresh"
        fresh.mkdir()
        for name, content in files.items():
            (fresh / name).write_bytes(content)
        fresh.chmod(0o755)
        if folder.exists():
            folder.rename(Path(scratch) / "earlier")
        fresh.rename(folder)
