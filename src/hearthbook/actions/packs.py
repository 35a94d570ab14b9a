"""Make a home's handover pack: every document rendered, written whole or not at all."""

from __future__ import annotations

import hashlib
import json
import shutil
import tempfile
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path

from hearthbook import __version__
from hearthbook.actions.judging import Answer
from hearthbook.documents.blocks import Document, blocks_in
from hearthbook.documents.defects import defects
from hearthbook.errors import Conflict, Fault, Unreadable
from hearthbook.handover.pack import PackItem, pack_items

__all__ = ["MANIFEST", "STEPS", "Pack", "PackFile", "make_pack"]

MANIFEST = "manifest.json"
STEPS = 11
_AT_A_TIME = 2  # the typesetter leaves Python free while it works


@dataclass(frozen=True)
class PackFile:
    """One file of a pack.

    Attributes:
        name: its name in the folder.
        purpose: who it is for and what it does.
        sha256: its checksum.
        size: its size in bytes.
    """

    name: str
    purpose: str
    sha256: str
    size: int


@dataclass(frozen=True)
class Pack:
    """A pack as written.

    Attributes:
        folder: where it is.
        files: what it holds, the manifest excepted.
        open_safety_items: what forbids handing it over.
    """

    folder: Path
    files: tuple[PackFile, ...]
    open_safety_items: tuple[str, ...]


def make_pack(
    record: Path, folder: Path, answer: Answer, advance: Callable[[str], None] = lambda _: None
) -> Pack:
    """Make the pack of a home in a folder; an earlier pack there is replaced in one move.

    Args:
        record: the record's file, copied into the pack.
        folder: where the pack shall be.
        answer: the home's design and verdicts.
        advance: called with a file's name when it is made, for a progress bar.

    Raises:
        Conflict: the folder holds something other than an earlier pack.
        Unreadable: a document has a defect a stranger would notice; nothing is written.
    """
    _check_free(folder)
    items = pack_items(answer.design, answer.judged)
    _refuse_defects(items)
    folder.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(prefix=".pack-", dir=folder.parent) as scratch:
        fresh = Path(scratch) / "pack"
        fresh.mkdir()
        contents = _rendered_all(items, advance)
        files = [_written(fresh, i.name, i.purpose, contents[i.name]) for i in items]
        copy = record.read_bytes()
        files.append(_written(fresh, "record.yaml", "the home's record, as computed from", copy))
        _write_manifest(fresh, answer, files)
        _put_in_place(fresh, folder, Path(scratch))
    open_items = tuple(
        f"{judgement.label}: {judgement.reason}" for judgement in answer.judged.open_safety_items
    )
    return Pack(folder, tuple(files), open_items)


def _check_free(folder: Path) -> None:
    if not folder.exists():
        return
    if not folder.is_dir():
        raise Conflict(f"{folder} is a file; name a folder for the pack.")
    if any(folder.iterdir()) and not (folder / MANIFEST).is_file():
        raise Conflict(
            f"{folder} holds files that are not a pack; name an empty or a new folder. "
            "Nothing was written."
        )


def _refuse_defects(items: tuple[PackItem, ...]) -> None:
    """Refuse a pack with a defect; the same text in another size or medium is read once."""
    texts = {
        item.content.title: (item.name, item.content)
        for item in reversed(items)
        if isinstance(item.content, Document)
    }
    found = [Fault(name, defect) for name, text in texts.values() for defect in defects(text)]
    if found:
        raise Unreadable("The pack", found)


def _rendered_all(items: tuple[PackItem, ...], advance: Callable[[str], None]) -> dict[str, bytes]:
    """Every file's bytes by name; two are made at a time, the longest documents first."""

    def rendered(item: PackItem) -> tuple[str, bytes]:
        content = _rendered(item)
        advance(item.name)
        return item.name, content

    longest_first = sorted(items, key=_length, reverse=True)
    with ThreadPoolExecutor(max_workers=_AT_A_TIME) as pool:
        return dict(pool.map(rendered, longest_first))


def _length(item: PackItem) -> int:
    """How long a document is, counted in blocks, entries and rows."""
    if not isinstance(item.content, Document):
        return 0
    return sum(
        1 + len(getattr(block, "items", ())) + len(getattr(block, "rows", ()))
        for block in blocks_in(item.content.blocks)
    )


def _rendered(item: PackItem) -> bytes:
    if isinstance(item.content, bytes):
        return item.content
    match item.medium:
        case "pdf":
            from hearthbook.render.pdf import render as render_pdf

            return render_pdf(item.content)
        case "html":
            from hearthbook.render.html import render as render_html

            return render_html(item.content).encode()
        case _:
            raise TypeError(f"{item.name} is a document; it cannot be written as it is")


def _written(folder: Path, name: str, purpose: str, content: bytes) -> PackFile:
    (folder / name).write_bytes(content)
    return PackFile(name, purpose, hashlib.sha256(content).hexdigest(), len(content))


def _write_manifest(folder: Path, answer: Answer, files: list[PackFile]) -> None:
    home = answer.design.home
    manifest = {
        "made_by": f"hearthbook {__version__}",
        "reference": home.reference,
        "home": home.name,
        "issued": home.issued.isoformat(),
        "revision": home.revision,
        "files": [vars(file) for file in files],
    }
    text = json.dumps(manifest, indent=2, ensure_ascii=False) + "\n"
    (folder / MANIFEST).write_text(text, encoding="utf-8")


def _put_in_place(fresh: Path, folder: Path, scratch: Path) -> None:
    fresh.chmod(0o755)
    if folder.exists():
        folder.rename(scratch / "earlier")
    fresh.rename(folder)
    shutil.rmtree(scratch / "earlier", ignore_errors=True)
