"""The PDF's structure, read back from the file by another library."""

from __future__ import annotations

import io
import re
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pikepdf
import pytest

from hearthbook.documents import blocks as b
from hearthbook.render import pdf
from tests.render.sample import HEAT_LOSS, document

Element = pikepdf.Dictionary


@pytest.fixture(scope="module")
def opened(whole_pdf: bytes) -> Iterator[pikepdf.Pdf]:
    with pikepdf.open(io.BytesIO(whole_pdf)) as file:
        yield file


def _elements(node: pikepdf.Object) -> Iterator[Element]:
    """Every structure element, in reading order."""
    if isinstance(node, pikepdf.Array):
        for kid in node:
            yield from _elements(kid)
    elif isinstance(node, pikepdf.Dictionary):
        if "/S" in node:
            yield node
        if "/K" in node:
            yield from _elements(node.K)


def _named(file: pikepdf.Pdf, *names: str) -> list[Element]:
    root = file.Root.StructTreeRoot
    roles = {str(key): str(value) for key, value in dict(root.get("/RoleMap", {})).items()}
    return [
        one for one in _elements(root.K) if {str(one.S), roles.get(str(one.S), "")} & set(names)
    ]


def _scopes(element: Element) -> set[str]:
    """What a table's head says it heads."""
    found = element.get("/A", pikepdf.Array())
    attributes = list(found) if isinstance(found, pikepdf.Array) else [found]
    return {str(one.get("/Scope", "")) for one in attributes}


def test_the_file_is_tagged_and_says_its_language_and_title(opened: pikepdf.Pdf) -> None:
    assert bool(opened.Root.MarkInfo.Marked)
    assert str(opened.Root.Lang) == "en-GB"
    assert bool(opened.Root.ViewerPreferences.DisplayDocTitle)


def test_the_file_claims_pdf_a_2a_and_pdf_ua_1(opened: pikepdf.Pdf) -> None:
    with opened.open_metadata() as metadata:
        assert metadata["pdfaid:part"] == "2"
        assert metadata["pdfaid:conformance"] == "A"
        assert metadata["pdfuaid:part"] == "1"
        assert metadata["dc:title"] == "Home guide"


def test_headings_are_headings_of_their_level(opened: pikepdf.Pdf) -> None:
    assert len(_named(opened, "/H1")) >= 2
    assert len(_named(opened, "/H2")) >= 2


def test_every_picture_has_words_in_its_place(opened: pikepdf.Pdf) -> None:
    pictures = _named(opened, "/Figure")
    assert len(pictures) >= 6
    assert all(str(one.get("/Alt", "")).strip() for one in pictures)


def test_every_table_head_says_what_it_heads(opened: pikepdf.Pdf) -> None:
    heads = _named(opened, "/TH")
    assert heads
    for head in heads:
        assert _scopes(head) & {"/Column", "/Row"}


def test_lists_and_contents_are_tagged_as_what_they_are(opened: pikepdf.Pdf) -> None:
    for name in ("/L", "/LI", "/Table", "/Caption", "/TOC", "/TOCI"):
        assert _named(opened, name), name


def test_every_link_has_its_place_in_the_structure(opened: pikepdf.Pdf) -> None:
    found = [
        mark
        for page in opened.pages
        for mark in page.get("/Annots", [])
        if str(mark.Subtype) == "/Link"
    ]
    assert len(found) >= 4
    assert all("/StructParent" in mark and str(mark.get("/Contents", "")) for mark in found)
    assert all(str(page.get("/Tabs", "")) == "/S" for page in opened.pages)


def test_every_typeface_is_in_the_file_and_is_ours(whole_pdf: bytes) -> None:
    done = subprocess.run(["pdffonts", "-"], input=whole_pdf, capture_output=True, check=True)
    rows = done.stdout.decode().splitlines()[2:]
    assert rows
    for row in rows:
        assert re.match(r"[A-Z]{6}\+(SourceSansPro|NewCM)", row), row
        assert re.search(r" yes +yes +yes ", row), row


def _pages(file: bytes) -> int:
    with pikepdf.open(io.BytesIO(file)) as opened:
        return len(opened.pages)


def _card(lines: int) -> b.Document:
    rows = tuple(
        f"Look at part number {n} and write down what you see there." for n in range(lines)
    )
    blocks: tuple[b.Block, ...] = (b.Figures((HEAT_LOSS,)), b.Bullets(rows))
    return document(kind="card", paper="a5", blocks=blocks)


@pytest.mark.parametrize("lines", [1, 10, 22])
def test_a_card_fills_one_page(lines: int) -> None:
    assert _pages(pdf.render(_card(lines))) == 1


def test_a_card_that_does_not_fit_is_refused() -> None:
    with pytest.raises(pdf.Unprintable, match="the card does not fit one page"):
        pdf.render(_card(80))


def test_a_letter_that_no_typeface_has_is_refused_by_name() -> None:
    with pytest.raises(pdf.Unprintable, match="could not be displayed"):
        pdf.render(document(blocks=(b.Text("Warm \N{THUMBS UP SIGN}"),)))


def _letter_sizes(file: Path) -> list[int]:
    """The sizes of all letters that are set as text, in points."""
    command = ["pdftohtml", "-xml", "-i", "-zoom", "1", "-stdout", str(file)]
    done = subprocess.run(command, capture_output=True, check=True)
    return [int(size) for size in re.findall(r'<fontspec [^>]*size="(\d+)"', done.stdout.decode())]


def test_large_print_is_large_everywhere(tmp_path: Path) -> None:
    blocks = tuple(one for one in document().blocks if not isinstance(one, b.WorkingTree))
    file = tmp_path / "large.pdf"
    file.write_bytes(pdf.render(document(print_size="large", blocks=blocks)))

    assert min(_letter_sizes(file)) >= 14


def test_every_page_says_whose_it_is_of_when_and_which(whole_pdf: bytes) -> None:
    done = subprocess.run(
        ["pdftotext", "-layout", "-", "-"], input=whole_pdf, capture_output=True, check=True
    )
    pages = done.stdout.decode().split("\f")[:-1]
    for number, page in enumerate(pages, start=1):
        assert "Fernhollow · Home guide · Issued 5 March 2026" in page
        assert f"Page {number} of {len(pages)}" in page


_CROWDED: tuple[b.Block, ...] = (
    b.Table(
        "A crowded table",
        (
            b.Column("Radiator or convector"),
            b.Column("Output at the design temperature", numeric=True),
            b.Column("Thermostatic"),
            b.Column("What to do next"),
            b.Column("Uncertainty", numeric=True),
            b.Column("Documented", numeric=True),
        ),
        (
            (
                "Underfloor heating of the conservatory",
                "1,234.5\u00a0W/(m²·K)",
                "Thermostatically-controlled",
                "Look again at the lockshield valve of the bedroom radiator",
                "0.12",
                "98,765",
            ),
        ),
    ),
    b.Text("building.constructions.brick_wall_cavity_filled_in_2009.layers.outside.conductivity"),
    b.Text("Longwordswithoutanybreaks" * 8),
    b.Columns(((b.Figures((HEAT_LOSS,)),), (b.Card("Call us", (b.Figures((HEAT_LOSS,)),)),))),
)


@pytest.mark.parametrize("size", ["normal", "large"])
@pytest.mark.parametrize("paper", ["a4", "a5"])
def test_no_word_leaves_the_page_or_lies_on_another(tmp_path: Path, paper: str, size: str) -> None:
    file = tmp_path / "crowded.pdf"
    file.write_bytes(pdf.render(document(blocks=_CROWDED, paper=paper, print_size=size)))

    for width, words in _words_by_page(file):
        assert all(left >= 28 and right <= width - 28 for left, right, _, _ in words)
        assert _overlapping(words) == []


Box = tuple[float, float, float, float]


def _words_by_page(file: Path) -> list[tuple[float, list[Box]]]:
    """The width of each page, and left, right, top and bottom of each of its words."""
    command = ["pdftotext", "-bbox", str(file), "-"]
    said = subprocess.run(command, capture_output=True, check=True).stdout.decode()
    pages = []
    for page in said.split("<page ")[1:]:
        width = re.search(r'width="([\d.]+)"', page)
        boxes = re.findall(
            r'<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)"', page
        )
        words = [(float(x0), float(x1), float(y0), float(y1)) for x0, y0, x1, y1 in boxes]
        pages.append((float(width[1]) if width else 0.0, words))
    return pages


def _overlapping(words: list[Box]) -> list[tuple[Box, Box]]:
    """Words of one line of which one begins before the other ends."""
    return [
        (one, other)
        for place, one in enumerate(words)
        for other in words[place + 1 :]
        if abs((one[2] + one[3]) - (other[2] + other[3])) < 4
        and min(one[1], other[1]) - max(one[0], other[0]) > 0.5
    ]
