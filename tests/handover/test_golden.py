"""The wording as a reader meets it, held against the text last approved.

A change of wording or of a number shows here as a change of text, for whoever reviews it. After
reading the difference, renew the texts with `HEARTHBOOK_RENEW_GOLDEN=1 ./run test -k golden` and
commit them with the change. They are never the only test of a number.
"""

from __future__ import annotations

import difflib
import os
from pathlib import Path

import pytest

from hearthbook.render.text import render
from tests.handover.conftest import Items, document_of

_FOLDER = Path(__file__).parent / "golden"
_PAPERS = {
    "guide": "guide.pdf",
    "plant-card": "plant-card.pdf",
    "winter-card": "winter-card.pdf",
    "when-you-call": "when-you-call.pdf",
    "next-owner": "next-owner.pdf",
    "labels": "labels.pdf",
    "visit-order": "visit-order.pdf",
}
_SHOWN = 40  # lines of a difference that are printed


@pytest.mark.parametrize("name", _PAPERS)
def test_a_paper_reads_as_its_golden_text(name: str, packs: dict[str, Items]) -> None:
    written = render(document_of(packs["as it is"], _PAPERS[name]))
    path = _FOLDER / f"{name}.txt"
    if os.environ.get("HEARTHBOOK_RENEW_GOLDEN"):
        _FOLDER.mkdir(exist_ok=True)
        path.write_text(written, encoding="utf-8")
    approved = path.read_text(encoding="utf-8") if path.is_file() else ""
    changes = difflib.unified_diff(
        approved.splitlines(), written.splitlines(), "approved", "now", lineterm="", n=1
    )
    told = "\n".join(list(changes)[:_SHOWN])
    assert written == approved, (
        f"{name} reads differently. If it should, renew it: "
        f"HEARTHBOOK_RENEW_GOLDEN=1 ./run test -k golden\n{told}"
    )


def test_no_golden_text_is_left_over() -> None:
    assert {path.stem for path in _FOLDER.iterdir()} == set(_PAPERS)
