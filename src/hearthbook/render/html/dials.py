"""Two dials and the answer to what they are turned to; of use only with script."""

from __future__ import annotations

import json

from hearthbook.documents import blocks as b
from hearthbook.render.html.tags import Html, joined, tag

__all__ = ["dials_markup"]


def dials_markup(block: b.Dials) -> Html:
    """The dials with the answer they stand at; hidden until the page's script works them."""
    first, second = f"{block.anchor}-first", f"{block.anchor}-second"
    answer = block.answers[block.first.start][block.second.start]
    return tag(
        "div",
        tag("p", block.title, class_="card-title"),
        joined(_dial(block.first, first), _dial(block.second, second)),
        tag("output", answer, for_=f"{first} {second}", aria_live="polite"),
        class_="dials",
        role="group",
        aria_label=block.title,
        hidden=True,
        data_answers=json.dumps(block.answers, ensure_ascii=False),
    )


def _dial(dial: b.Dial, name: str) -> Html:
    """One dial, with the choice it stands at in words."""
    chosen = dial.choices[dial.start]
    return tag(
        "p",
        tag("label", dial.label, for_=name),
        " ",
        tag("strong", chosen, aria_hidden="true", data_shows=name),
        tag(
            "input",
            type="range",
            id=name,
            min="0",
            max=str(len(dial.choices) - 1),
            step="1",
            value=str(dial.start),
            aria_valuetext=chosen,
            data_choices=json.dumps(dial.choices, ensure_ascii=False),
        ),
    )
