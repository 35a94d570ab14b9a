"""PDF: tagged, archivable, and the same bytes for the same document."""

from __future__ import annotations

import json
import threading
from datetime import UTC, datetime, time
from pathlib import Path
from typing import TYPE_CHECKING

from hearthbook.documents.blocks import Document
from hearthbook.errors import HearthbookError
from hearthbook.render.fonts import font_folder
from hearthbook.render.pdf.encode import encoded

if TYPE_CHECKING:
    import typst

__all__ = ["Unprintable", "render"]

_TEMPLATES = Path(__file__).parent / "templates"
_STANDARDS: list[typst.PDFStandard] = ["a-2a", "ua-1"]


class Unprintable(HearthbookError):
    """The document cannot be set as it is; the message is the typesetter's own."""


def render(document: Document) -> bytes:
    """The document as a PDF that satisfies PDF/A-2a and PDF/UA-1.

    Raises:
        Unprintable: the typesetter refuses it or has anything to warn of; a card that does not
            fit its one page is refused too.
    """
    import typst

    data = json.dumps(encoded(document), ensure_ascii=False)
    noon = datetime.combine(document.issued, time(12), tzinfo=UTC)
    try:
        pdf, warnings = _compiler().compile_with_warnings(
            format="pdf", sys_inputs={"data": data}, pdf_standards=_STANDARDS, timestamp=noon
        )
    except typst.TypstError as error:
        raise Unprintable(_said(document, [error])) from error
    if warnings:
        raise Unprintable(_said(document, warnings))
    if not isinstance(pdf, bytes):
        raise Unprintable(f"{document.title}: the typesetter gave no pages")
    return pdf


class _OfThread(threading.local):
    """One typesetter for each thread: it serves one document at a time."""

    compiler: typst.Compiler | None = None


_OF_THREAD = _OfThread()


def _compiler() -> typst.Compiler:
    """This thread's typesetter."""
    if _OF_THREAD.compiler is None:
        _OF_THREAD.compiler = _new_compiler()
    return _OF_THREAD.compiler


def _new_compiler() -> typst.Compiler:
    """A typesetter with our templates and our one family of letters."""
    import typst

    fonts = typst.Fonts(include_system_fonts=False, font_paths=[str(font_folder())])
    return typst.Compiler(str(_TEMPLATES / "document.typ"), root=str(_TEMPLATES), font_paths=fonts)


def _said(document: Document, complaints: list[typst.TypstError] | list[typst.TypstWarning]) -> str:
    """What the typesetter said, each once."""
    said = [" ".join((one.message, one.diagnostic, *one.hints)).strip() for one in complaints]
    return f"{document.title} cannot be printed:\n" + "\n".join(dict.fromkeys(said))
