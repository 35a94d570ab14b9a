"""Every block comes out of every renderer, with every figure in it."""

from __future__ import annotations

import re
import subprocess
from collections.abc import Callable
from html import unescape
from typing import get_args

import pytest

from hearthbook.documents import blocks as b
from hearthbook.documents.defects import defects
from hearthbook.documents.figures import figures_in
from hearthbook.errors import NotFound
from hearthbook.render import html, pdf, text
from hearthbook.render.wording import wording
from tests.render.sample import HEAT_LOSS, document, every_block

Reader = Callable[[b.Document], str]
Renderer = Callable[[b.Document], str | bytes]


def _read_text(given: b.Document) -> str:
    return text.render(given)


def _read_html(given: b.Document) -> str:
    page = re.sub(r"<(script|style).*?</\1>", " ", html.render(given), flags=re.DOTALL)
    return unescape(re.sub(r"<[^>]+>", " ", page))


def _read_pdf(given: b.Document) -> str:
    done = subprocess.run(
        ["pdftotext", "-layout", "-", "-"], input=pdf.render(given), capture_output=True, check=True
    )
    return done.stdout.decode("utf-8")


READERS = {"text": _read_text, "html": _read_html, "pdf": _read_pdf}
BLOCKS = {f"{index}-{type(one).__name__}": one for index, one in enumerate(every_block())}
MARKER = "What stands after it."


def _squeezed(given: str) -> str:
    return re.sub(r"\s+", "", given)


def test_the_sample_holds_every_kind_of_block() -> None:
    held = {type(one) for one in b.blocks_in(every_block())}
    assert held == set(get_args(b.Block))


def test_the_sample_has_no_defects(whole: b.Document) -> None:
    assert defects(whole) == ()


@pytest.mark.parametrize("reader", READERS.values(), ids=READERS)
@pytest.mark.parametrize("block", BLOCKS.values(), ids=BLOCKS)
def test_every_block_comes_out_of_every_renderer(block: b.Block, reader: Reader) -> None:
    said = reader(document(blocks=(block, b.Text(MARKER))))

    assert MARKER in said
    assert "Fernhollow" in said


@pytest.mark.parametrize("reader", READERS.values(), ids=READERS)
def test_every_figure_comes_out_of_every_renderer(whole: b.Document, reader: Reader) -> None:
    said = _squeezed(reader(whole))

    missing = [one.name for one in figures_in(whole.blocks) if _squeezed(one.shown()) not in said]
    assert missing == []


@pytest.mark.parametrize("reader", READERS.values(), ids=READERS)
def test_a_figure_carries_its_standing_and_its_range(reader: Reader) -> None:
    said = _squeezed(reader(document(blocks=(b.Figures((HEAT_LOSS,)),))))

    assert "619W±60W" in said
    assert "calculated" in said


@pytest.mark.parametrize("reader", READERS.values(), ids=READERS)
def test_a_working_goes_down_to_the_record_and_the_sources(reader: Reader) -> None:
    said = _squeezed(reader(document(blocks=(b.WorkingTree(HEAT_LOSS),))))

    for part in ("record:rooms[0]", "EN12831-1:2017,6.3", "Insidelessoutside", "nosource"):
        assert part in said


@pytest.mark.parametrize("reader", READERS.values(), ids=READERS)
def test_a_figure_worked_out_once_is_not_worked_out_again(reader: Reader) -> None:
    twice = document(blocks=(b.WorkingTree(HEAT_LOSS), b.WorkingTree(HEAT_LOSS)))

    said = _squeezed(reader(twice))

    assert said.count("EN12831-1:2017") == 1
    assert "workedoutabove" in said


@pytest.mark.parametrize("reader", READERS.values(), ids=READERS)
def test_what_a_householder_wrote_comes_out_as_it_was_written(reader: Reader) -> None:
    said = reader(document()).replace("’", "'")

    assert '<script>alert("1")</script> & Sam\'s *room* #panic("x")' in said


@pytest.mark.parametrize("render", [html.render, pdf.render, text.render])
def test_the_same_document_gives_the_same_bytes(
    render: Callable[[b.Document], str | bytes],
) -> None:
    assert render(document()) == render(document())


def test_a_language_without_words_is_refused() -> None:
    with pytest.raises(NotFound, match="no words for the language 'xx'; there are en-GB"):
        wording("xx")


def test_plain_text_is_eighty_characters_wide(whole: b.Document) -> None:
    assert max(len(line) for line in text.render(whole).splitlines()) <= 80
