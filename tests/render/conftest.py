"""What the tests of the renderers share: the documents, rendered once."""

from __future__ import annotations

import pytest

from hearthbook.documents.blocks import Document
from hearthbook.render import html, pdf
from tests.render.sample import document


@pytest.fixture(scope="session")
def whole() -> Document:
    """A guide with every block in it."""
    return document()


@pytest.fixture(scope="session")
def whole_pdf(whole: Document) -> bytes:
    return pdf.render(whole)


@pytest.fixture(scope="session")
def whole_page(whole: Document) -> str:
    return html.render(whole)
