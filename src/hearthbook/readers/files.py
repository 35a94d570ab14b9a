"""Files in and out: bounded when read, whole or not at all when written."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from hearthbook.errors import Fault, NotFound, Unreadable

__all__ = ["LARGEST_RECORD", "read_text", "write_whole"]

LARGEST_RECORD = 1_000_000
"""Bytes; thirty times a full record, and still read in seconds."""


def read_text(path: Path, largest: int = LARGEST_RECORD) -> str:
    """The text of a file.

    Args:
        path: the file.
        largest: the most bytes it may have.

    Raises:
        NotFound: there is no such file.
        Unreadable: it is a folder, too large, or not UTF-8 text.
    """
    if path.is_dir():
        raise Unreadable(str(path), [_whole("is a folder; name the record file in it.")])
    try:
        with path.open("rb") as file:
            content = file.read(largest + 1)
    except FileNotFoundError as missing:
        raise NotFound(f"There is no file {path}; check its name and folder.") from missing
    except OSError as refused:
        reason = (refused.strerror or "an error").lower()
        message = f"cannot be opened: {reason}. Check who may read it."
        raise Unreadable(str(path), [_whole(message)]) from refused
    if len(content) > largest:
        message = (
            f"has more than {largest:,} bytes; a record is far smaller. "
            "Keep photos and reading files beside it, not in it."
        )
        raise Unreadable(str(path), [_whole(message)])
    return _decoded(str(path), content)


def _whole(message: str, line: int | None = None) -> Fault:
    return Fault("the file", message, line)


def _decoded(source: str, content: bytes) -> str:
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as wrong:
        if content[:2] in {b"\xff\xfe", b"\xfe\xff"}:
            fault = _whole("is UTF-16 text; save it as UTF-8.")
        else:
            line = content.count(b"\n", 0, wrong.start) + 1
            fault = _whole("is not UTF-8 text from here on; save it as UTF-8.", line)
        raise Unreadable(source, [fault]) from wrong


def write_whole(path: Path, content: bytes) -> None:
    """Write a file so that a reader finds the old one or the new one, never half of it.

    Raises:
        NotFound: the folder does not exist.
    """
    if not path.parent.is_dir():
        raise NotFound(f"The folder {path.parent} does not exist; make it first.")
    handle, name = tempfile.mkstemp(prefix=f".{path.name}-", dir=path.parent)
    fresh = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        fresh.chmod(path.stat().st_mode & 0o777 if path.exists() else 0o644)
        fresh.replace(path)
    except BaseException:
        fresh.unlink(missing_ok=True)
        raise
