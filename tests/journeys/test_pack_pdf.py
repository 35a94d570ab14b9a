"""Every PDF of both demo packs, read back: its structure, its claims, and this home's numbers."""

from __future__ import annotations

import subprocess
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pikepdf
import pytest

from hearthbook.design.results import Design, design_home
from hearthbook.documents.figures import KeyFigure
from hearthbook.record.home import Home
from hearthbook.units import shown

_PAPERS = (
    "guide.pdf",
    "guide-large.pdf",
    "plant-card.pdf",
    "winter-card.pdf",
    "when-you-call.pdf",
    "next-owner.pdf",
    "labels.pdf",
    "visit-order.pdf",
    "engineers-report.pdf",
)
_SINGLE = ("plant-card.pdf", "winter-card.pdf", "when-you-call.pdf", "next-owner.pdf")
_BOTH = pytest.mark.parametrize("home", ["well_done", "with_faults"])
_EVERY = pytest.mark.parametrize("paper", _PAPERS)


@pytest.fixture(scope="module")
def designs(well_done_home: Home, faulty_home: Home) -> dict[str, Design]:
    return {"well_done": design_home(well_done_home), "with_faults": design_home(faulty_home)}


@cache
def text_of(path: Path) -> str:
    """The words of a PDF, with every space alike."""
    command = ["pdftotext", "-q", str(path), "-"]
    done = subprocess.run(command, capture_output=True, check=True)
    return " ".join(done.stdout.decode().split())


def _elements(node: pikepdf.Object) -> Iterator[pikepdf.Dictionary]:
    """Every structure element, in reading order."""
    if isinstance(node, pikepdf.Array):
        for kid in node:
            yield from _elements(kid)
    elif isinstance(node, pikepdf.Dictionary):
        if "/S" in node:
            yield node
        if "/K" in node:
            yield from _elements(node.K)


@_BOTH
@_EVERY
def test_a_paper_can_be_kept_and_read_aloud(
    home: str, paper: str, made_packs: dict[str, Path]
) -> None:
    with pikepdf.open(made_packs[home] / paper) as file:
        assert bool(file.Root.MarkInfo.Marked)
        assert str(file.Root.Lang) == "en-GB"
        with file.open_metadata() as metadata:
            assert metadata["pdfaid:part"] == "2"
            assert metadata["pdfaid:conformance"] == "A"
            assert metadata["pdfuaid:part"] == "1"
            assert metadata["dc:title"]
        elements = list(_elements(file.Root.StructTreeRoot.K))
        figures = [one for one in elements if str(one.S) == "/Figure"]
        assert all(str(one.get("/Alt", "")).strip() for one in figures)
        if paper.startswith(("guide", "plant", "engineers")):
            assert figures
        assert any(str(one.S) in ("/Title", "/H1") for one in elements)
        pages = len(file.pages)
    assert pages == 1 if paper in _SINGLE else pages >= 1


@_BOTH
@_EVERY
def test_a_paper_says_nothing_a_stranger_would_stop_at(
    home: str, paper: str, made_packs: dict[str, Path]
) -> None:
    text = text_of(made_packs[home] / paper)
    for leftover in ("{{", "}}", "{%", " nan ", "NaN", "object at 0x", "\N{REPLACEMENT CHARACTER}"):
        assert leftover not in text
    assert "None " not in text.replace("None of", "").replace("None is", "")
    assert len(text) > 400


def _plain(figure: KeyFigure, decimals: int) -> str:
    return shown(figure.value, figure.unit, decimals).replace("\N{NO-BREAK SPACE}", " ")


@_BOTH
def test_the_papers_hold_this_home_s_own_numbers(
    home: str, made_packs: dict[str, Path], designs: dict[str, Design]
) -> None:
    design, folder = designs[home], made_packs[home]
    cold = _plain(design.expansion.normal_cold, 1)
    flow = _plain(design.curve.design_flow, 0)
    firm, record = design.home.firm, design.home
    wanted = {
        "guide.pdf": (cold, flow, firm.phone, record.name, record.household.name),
        "guide-large.pdf": (cold, flow, firm.phone),
        "plant-card.pdf": (cold, firm.phone, record.reference),
        "winter-card.pdf": (cold, firm.phone),
        "when-you-call.pdf": (firm.phone,),
        "next-owner.pdf": (cold, flow, firm.phone, record.reference),
        "labels.pdf": (cold,),
        "visit-order.pdf": (cold, record.household.name),
        "engineers-report.pdf": (flow, _plain(design.heat_loss.total, 0)),
    }
    for paper, words in wanted.items():
        text = text_of(folder / paper).lower()
        assert [word for word in words if word.lower() not in text] == [], paper


def test_the_two_homes_do_not_share_their_numbers(
    made_packs: dict[str, Path], designs: dict[str, Design]
) -> None:
    for home, other in (("well_done", "with_faults"), ("with_faults", "well_done")):
        text = text_of(made_packs[home] / "guide.pdf")
        stranger = designs[other].home
        assert stranger.name not in text
        assert stranger.household.name not in text
        for meter in stranger.meters:
            place = meter.place
            if place not in {own.place for own in designs[home].home.meters}:
                assert place not in text


@_BOTH
def test_the_page_and_the_paper_give_the_same_answers(
    home: str, made_packs: dict[str, Path], designs: dict[str, Design]
) -> None:
    page = (made_packs[home] / "guide.html").read_text(encoding="utf-8")
    page = page.replace("\N{NO-BREAK SPACE}", " ").replace("&nbsp;", " ")
    design = designs[home]
    for words in (_plain(design.expansion.normal_cold, 1), design.home.firm.phone):
        assert words in page


def test_the_papers_of_the_home_with_open_dangers_are_marked_as_a_draft(
    made_packs: dict[str, Path],
) -> None:
    for paper in set(_PAPERS) - {"labels.pdf"}:  # cut into pieces, it has no place to say so
        assert "Draft:" in text_of(made_packs["with_faults"] / paper)
        assert "Draft: open" not in text_of(made_packs["well_done"] / paper)
