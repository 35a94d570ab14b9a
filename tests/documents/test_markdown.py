"""Wording files become blocks."""

from __future__ import annotations

import pytest

from hearthbook.documents import blocks as b
from hearthbook.documents.markdown import blocks_from

_EVERYTHING = """
## The gauge {#gauge}

A paragraph
over two lines.

- one
- two that
  goes on

1. first
2. second

- [ ] Filter clean
- [ ] Pressure :: bar

Isolator :: a switch on the wall
Filter :: catches grit

> warning scalding: Water may be **hot**.
> Run the cold tap first.

Table: Radiators
| Room | Heat (W) |
|------|---------:|
| Hall \\| stairs | 520 |

---
"""


def test_every_notation_becomes_its_block() -> None:
    assert blocks_from(_EVERYTHING) == (
        b.Heading("The gauge", 2, "gauge"),
        b.Text("A paragraph over two lines."),
        b.Bullets(("one", "two that goes on")),
        b.Steps(("first", "second")),
        b.Checklist((b.ChecklistItem("Filter clean"), b.ChecklistItem("Pressure", "bar"))),
        b.Definitions(
            (
                b.Definition("Isolator", "a switch on the wall"),
                b.Definition("Filter", "catches grit"),
            )
        ),
        b.Caution("warning", "Water may be **hot**. Run the cold tap first.", "scalding"),
        b.Table(
            "Radiators",
            (b.Column("Room"), b.Column("Heat (W)", numeric=True)),
            (("Hall \\| stairs", "520"),),
        ),
        b.PageBreak(),
    )


def test_a_list_may_follow_its_paragraph_at_once() -> None:
    assert blocks_from("Keep clear:\n- the front\n- the back") == (
        b.Text("Keep clear:"),
        b.Bullets(("the front", "the back")),
    )


def test_no_text_makes_no_blocks() -> None:
    assert blocks_from(" \n\n ") == ()


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("> scalding: hot", "not a caution: '> scalding: hot'"),
        ("#No space", "not a heading: '#No space'"),
        ("| a | b |\n| 1 | 2 |", "has no line of dashes"),
    ],
)
def test_a_slip_in_the_notation_is_said(text: str, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        blocks_from(text)
