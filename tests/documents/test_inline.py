"""Text keeps its marks apart from its characters."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.documents.inline import Emphasis, Link, Strong, Words, escaped, links, parsed, plain


@given(st.text(st.characters(exclude_characters="\N{NO-BREAK SPACE}")))
def test_escaped_text_comes_out_as_it_was_but_for_its_spaces(text: str) -> None:
    assert plain(escaped(text)) == " ".join(text.split())
    assert all(isinstance(part, Words) for part in parsed(escaped(text)))


def test_a_hard_space_stays_so_that_a_number_keeps_its_unit() -> None:
    assert escaped("at 16\N{NO-BREAK SPACE}°C\n outside") == "at 16\N{NO-BREAK SPACE}°C outside"


@given(st.text(alphabet="*[]()#\\ ab"))
def test_no_text_is_refused(text: str) -> None:
    assert isinstance(plain(text), str)


def test_marks_may_stand_within_each_other() -> None:
    assert parsed("[**now**, *softly*](#gauge)") == (
        Link((Strong((Words("now"),)), Words(", "), Emphasis((Words("softly"),))), "#gauge"),
    )


@pytest.mark.parametrize("target", ["javascript:alert(1)", "http://example.org", "file:///x", "x"])
def test_only_safe_targets_make_a_link(target: str) -> None:
    assert links(f"[here]({target})") == ()


@pytest.mark.parametrize("target", ["#gauge", "https://example.org/a?b=1", "tel:00000000000"])
def test_safe_targets_make_a_link(target: str) -> None:
    assert links(f"See [here]({target}).") == (target,)


@pytest.mark.parametrize("text", ["2 * 3 * 4", "a*", "**", "[a](", "5*6", "* * *"])
def test_marks_that_do_not_close_are_characters(text: str) -> None:
    assert plain(text) == text
