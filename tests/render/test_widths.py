"""Columns are as wide as their words need, and no wider than the page together."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.documents import blocks as b
from hearthbook.render.drawings.text_width import text_width
from hearthbook.render.pdf.inline import breakable
from hearthbook.render.pdf.widths import column_widths

_WORDS = st.lists(st.text(alphabet="abcdefgh", min_size=1, max_size=12), min_size=1, max_size=6)
_CELL = _WORDS.map(" ".join)


def _table(rows: Sequence[tuple[str, ...]], numeric: tuple[bool, ...]) -> b.Table:
    columns = tuple(b.Column("Head", numeric=one) for one in numeric)
    return b.Table("", columns, tuple(rows))


@given(
    rows=st.lists(st.tuples(_CELL, _CELL, _CELL), min_size=1, max_size=4),
    room=st.floats(80.0, 600.0),
)
def test_columns_fill_the_room_and_hold_their_longest_word(
    rows: list[tuple[str, ...]], room: float
) -> None:
    widths = column_widths(_table(rows, (False, True, False)), room, 9.0)

    if widths is None:
        return
    assert sum(widths) == pytest.approx(room)
    for place, width in enumerate(widths):
        longest = max(
            text_width(word, 9.0, bold=True) for row in rows for word in row[place].split(" ")
        )
        assert width >= longest - 1e-6


def test_a_table_that_cannot_fit_has_no_widths() -> None:
    rows = [("unbreakable" * 2, "unbreakable" * 2)]

    assert column_widths(_table(rows, (False, False)), 100.0, 9.0) is None


def test_numbers_keep_their_width_and_words_take_what_is_left() -> None:
    narrow = column_widths(_table([("room", "1,050")], (False, True)), 200.0, 9.0)
    wide = column_widths(_table([("room", "1,050")], (False, True)), 400.0, 9.0)

    assert narrow is not None
    assert wide is not None
    assert wide[1] == pytest.approx(narrow[1])
    assert wide[0] == pytest.approx(narrow[0] + 200.0)


def test_shares_are_kept_where_the_words_allow_it() -> None:
    columns = (b.Column("Room", share=3.0), b.Column("Note", share=1.0))
    widths = column_widths(b.Table("", columns, (("hall", "open"),)), 409.0, 9.0)

    assert widths == pytest.approx([300.0 + 4.5, 100.0 + 4.5])


@pytest.mark.parametrize(
    ("word", "broken"),
    [
        ("short_name.of_a_thing", "short_name.of_a_thing"),
        ("emitters.rad_small_bedroom.tail", "emitters.|rad_|small_|bedroom.|tail"),
        ("a" * 30, f"{'a' * 16}|{'a' * 14}"),
    ],
)
def test_only_a_long_word_may_break(word: str, broken: str) -> None:
    assert breakable(word).replace("\u200b", "|") == broken
