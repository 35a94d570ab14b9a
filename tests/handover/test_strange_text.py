"""What people write in a record is printed as they wrote it: no mark of it does anything."""

from __future__ import annotations

from typing import Any

import pytest

from hearthbook.documents.blocks import Document
from hearthbook.documents.defects import defects
from hearthbook.record.home import Home
from hearthbook.render import html
from hearthbook.render.text import render
from tests.handover.conftest import Items, document_of, items_of

_STRANGE = "Ann's **bold** [x](https://y.example) a|b <script>alert(1)</script> `c` \\*d* # e"
# As a template or as text with figures in it, this would be filled or refused.
_TEMPLATE = "{{ home.name }} {% if x %} {0} {phone}"


def _renamed(part: Any, name: str) -> Any:
    return part.model_copy(update={"name": name})


def _strange(home: Home, words: str) -> Home:
    """The home with these words wherever a person may write what they like."""
    done = home.commissioning
    assert done is not None
    settings = tuple(s.model_copy(update={"name": words, "after": words}) for s in done.settings)
    documents = tuple(d.model_copy(update={"name": words, "where": words}) for d in done.documents)
    done = done.model_copy(update={"settings": settings, "documents": documents})
    electrical = home.electrical.model_copy(
        update={
            "isolators": tuple(
                item.model_copy(update={"name": words, "feeds": words, "place": words})
                for item in home.electrical.isolators
            )
        }
    )
    building = home.building.model_copy(
        update={"rooms": tuple(_renamed(room, words) for room in home.building.rooms)}
    )
    siting = home.siting.model_copy(
        update={
            "place": words,
            "neighbours": tuple(_renamed(window, words) for window in home.siting.neighbours),
        }
    )
    return home.model_copy(
        update={
            "name": words,
            "household": _renamed(home.household, words),
            "firm": home.firm.model_copy(update={"name": words, "hours": words}),
            "places": dict.fromkeys(home.places, words),
            "building": building,
            "siting": siting,
            "electrical": electrical,
            "commissioning": done,
            "emitters": tuple(_renamed(emitter, words) for emitter in home.emitters),
            "meters": tuple(
                meter.model_copy(update={"name": words, "place": words}) for meter in home.meters
            ),
            "controls": home.controls.model_copy(update={"description": words}),
        }
    )


@pytest.fixture(scope="module")
def strange(well_done_home: Home) -> Items:
    return items_of(_strange(well_done_home, _STRANGE))


def test_marks_in_a_record_come_out_as_they_were_written(strange: Items) -> None:
    for name, item in strange.items():
        if not isinstance(item.content, Document):
            continue
        text = " ".join(render(item.content).replace("\n| ", " ").split())
        assert "**bold**" in text, name
        assert "[x](https://y.example)" in text, name
        assert "<script>alert(1)</script>" in text, name
        assert "Ann's bold" not in text, name


def test_marks_in_a_record_are_no_tags_on_the_page(strange: Items) -> None:
    page = html.render(document_of(strange, "guide.html"))
    assert "<script>alert" not in page
    assert "&lt;script&gt;alert(1)" in page
    assert "<strong>bold" not in page
    assert 'href="https://y.example' not in page


def test_marks_in_a_record_make_no_defect(strange: Items) -> None:
    for item in strange.values():
        if isinstance(item.content, Document):
            assert defects(item.content) == ()


def test_a_record_is_never_taken_for_a_template(well_done_home: Home) -> None:
    """The words stay as they are; that a stranger would take them for a leftover is told."""
    items = items_of(_strange(well_done_home, _TEMPLATE))
    card = document_of(items, "plant-card.pdf")
    text = " ".join(render(card).replace("\n| ", " ").split())
    assert _TEMPLATE in text
    assert any("unfilled placeholder" in found for found in defects(card))
