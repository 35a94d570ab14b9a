"""Make a home's handover pack: every document rendered, written whole or not at all."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path

from hearthbook import __version__
from hearthbook.actions.judging import Answer
from hearthbook.actions.kept_years import PackYears
from hearthbook.actions.whole_folder import check_free, write_folder
from hearthbook.documents.blocks import Document
from hearthbook.documents.defects import defects
from hearthbook.errors import Fault, HearthbookError, Unreadable
from hearthbook.handover.pack import READING_ORDER, PackItem, pack_items
from hearthbook.handover.wording import phrases

__all__ = ["MANIFEST", "NO_YEARS", "STEPS", "Pack", "PackFile", "check_ready", "make_pack"]

MANIFEST = "manifest.json"
_WHAT = "a pack"
STEPS = 11
NO_YEARS = PackYears(None)
"""No year was simulated; the design's own estimate stands in."""

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
    record: Path,
    folder: Path,
    answer: Answer,
    advance: Callable[[str], None] = lambda _: None,
    years: PackYears = NO_YEARS,
) -> Pack:
    """Make the pack of a home in a folder; an earlier pack there is replaced in one move.

    Args:
        record: the record's file, copied into the pack.
        folder: where the pack shall be.
        answer: the home's design and verdicts.
        advance: called with a file's name when it is made, for a progress bar.
        years: numbers of its simulated years, or why there are none.

    Raises:
        Conflict: the folder holds something other than an earlier pack.
        Unreadable: a document has a defect a stranger would notice; nothing is written.
    """
    check_free(folder, MANIFEST, _WHAT)
    made = _made(answer, years, advance)
    contents = {one.item.name: one.content for one in made} | {"record.yaml": record.read_bytes()}
    purposes = {one.item.name: one.item.purpose for one in made}
    purposes["record.yaml"] = "the home's record, as computed from"
    files = [_file(name, purposes[name], content) for name, content in contents.items()]
    contents[MANIFEST] = _manifest(answer, files)
    write_folder(folder, contents, MANIFEST, _WHAT)
    open_items = tuple(
        f"{judgement.label}: {judgement.reason}" for judgement in answer.judged.open_safety_items
    )
    return Pack(folder, tuple(files), open_items)


def check_ready(folder: Path, answer: Answer) -> None:
    """Refuse what can be refused before anybody waits for a year or a document.

    Raises:
        Conflict: the folder holds something other than an earlier pack.
        NotFound: there are no words in the household's language.
    """
    check_free(folder, MANIFEST, _WHAT)
    phrases(answer.design.home.household.language)


@dataclass(frozen=True)
class _Made:
    """A file before it is written.

    Attributes:
        item: what it is.
        content: its bytes; empty where its defects kept it from being set.
        defects: what a stranger would notice in it.
    """

    item: PackItem
    content: bytes
    defects: tuple[str, ...]


def _made(answer: Answer, years: PackYears, advance: Callable[[str], None]) -> list[_Made]:
    """Every file in reading order; two are set at a time while the next is put into words.

    Raises:
        Unreadable: with every defect of every document.
    """

    def make(item: PackItem) -> _Made:
        content, found = _set_and_read(item)
        advance(item.name)
        return _Made(item, content, found)

    with ThreadPoolExecutor(max_workers=_AT_A_TIME) as pool:
        items = pack_items(answer.design, answer.judged, years.numbers, years.why_not)
        jobs = [pool.submit(make, item) for item in items]
    made = sorted((job.result() for job in jobs), key=_place)
    faults = [Fault(one.item.name, defect) for one in made for defect in one.defects]
    if faults:
        raise Unreadable("The pack", faults)
    return made


def _set_and_read(item: PackItem) -> tuple[bytes, tuple[str, ...]]:
    """A file's bytes and its defects; set first, so that the typesetter has no wait for reading."""
    try:
        content = _rendered(item)
    except HearthbookError:
        found = _defects(item)
        if not found:
            raise
        return b"", found
    return content, _defects(item)


def _place(made: _Made) -> int:
    name = made.item.name
    return READING_ORDER.index(name) if name in READING_ORDER else len(READING_ORDER)


def _defects(item: PackItem) -> tuple[str, ...]:
    """The defects of a document; its large print and its page say the same, and are not read."""
    if not isinstance(item.content, Document) or item.medium == "html":
        return ()
    if item.content.print_size == "large":
        return ()
    return defects(item.content)


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


def _file(name: str, purpose: str, content: bytes) -> PackFile:
    return PackFile(name, purpose, hashlib.sha256(content).hexdigest(), len(content))


def _manifest(answer: Answer, files: list[PackFile]) -> bytes:
    home = answer.design.home
    manifest = {
        "made_by": f"hearthbook {__version__}",
        "reference": home.reference,
        "home": home.name,
        "issued": home.issued.isoformat(),
        "revision": home.revision,
        "files": [vars(file) for file in files],
    }
    return f"{json.dumps(manifest, indent=2, ensure_ascii=False)}\n".encode()
