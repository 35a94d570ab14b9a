from __future__ import annotations

import json
from pathlib import Path

import pytest
import typst
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.render.drawings.text_width import text_width, wrapped
from hearthbook.render.fonts import font_folder
from tests.render.drawings.invented import words

SAID = (
    "Normal when the heating has stood for two hours: 1.0 to 1.4 bar",
    "WARM Ground floor, kitchen & dining-room; 18 °C",
    "Évier, Küche, façade, Straße, łazienka, pokój dzienny",
    "illicit fluffy jill “quoted” (bracketed) 100 %",
)


@pytest.mark.parametrize("bold", [False, True], ids=["regular", "semibold"])
@pytest.mark.parametrize("said", SAID)
def test_words_are_never_wider_than_planned_and_hardly_narrower(
    said: str, bold: bool, tmp_path: Path
) -> None:
    # against the typesetter that sets the page, with the typeface itself
    weight = 600 if bold else 400
    source = (
        f'#set text(font: "Source Sans Pro", size: 10pt, weight: {weight})\n'
        f"#context [#metadata(measure({json.dumps(said, ensure_ascii=False)}).width.pt()) <width>]"
    )
    page = tmp_path / "page.typ"
    page.write_text(source, encoding="utf-8")
    answer = typst.query(  # type: ignore[misc]  # the package's own types do not resolve
        page, "<width>", field="value", one=True, font_paths=[str(font_folder())]
    )
    found = json.loads(answer)
    assert found <= text_width(said, 10.0, bold=bold) <= found * 1.09


@given(words, st.floats(5.0, 300.0))
def test_no_line_is_wider_than_asked_unless_it_is_one_letter(text: str, width: float) -> None:
    for line in wrapped(text, width, 10.0):
        assert text_width(line, 10.0) <= width or len(line.rstrip("-")) == 1


@given(words, st.floats(20.0, 300.0))
def test_nothing_is_lost_when_words_break_into_lines(text: str, width: float) -> None:
    def letters(said: str) -> str:
        return said.replace("-", "").replace(" ", "")

    assert letters("".join(wrapped(text, width, 10.0))) == letters(text)


def test_a_no_break_space_keeps_a_number_with_its_unit() -> None:
    assert wrapped("stop at 1.3\N{NO-BREAK SPACE}bar", 42.0, 10.0) == (
        "stop at",
        "1.3\N{NO-BREAK SPACE}bar",
    )


def test_no_words_take_no_lines() -> None:
    assert wrapped("", 100.0, 10.0) == ()
    assert wrapped("  \n ", 100.0, 10.0) == ()
