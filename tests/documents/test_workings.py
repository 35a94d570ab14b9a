"""Workings are laid out once each, and formulas keep what stands below the line."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from hearthbook.documents.figures import calculated
from hearthbook.documents.figures import given as recorded
from hearthbook.documents.formulas import pieces
from hearthbook.documents.workings import working_lines

_OUTSIDE = recorded("outside", "Outside", -3.0, "°C", place="climate")
_DIFFERENCE = calculated(
    "difference", "Difference", 23.0, "K", formula="a", inputs=(_OUTSIDE,), source="derived"
)
_LOSS = calculated(
    "loss", "Loss", 1.0, "W", formula="b", inputs=(_DIFFERENCE, _OUTSIDE), source="derived"
)
_TOTAL = calculated(
    "total", "Total", 2.0, "W", formula="c", inputs=(_LOSS, _DIFFERENCE), source="derived"
)


def test_a_working_goes_down_to_what_was_given() -> None:
    found = [(line.depth, line.figure.name, line.is_repeated) for line in working_lines(_TOTAL)]

    assert found == [
        (0, "total", False),
        (1, "loss", False),
        (2, "difference", False),
        (3, "outside", False),
        (2, "outside", False),
        (1, "difference", True),
    ]


def test_what_was_worked_out_before_is_only_named() -> None:
    seen: set[str] = set()
    list(working_lines(_LOSS, seen))

    assert [line.is_repeated for line in working_lines(_TOTAL, seen)] == [False, True, True]


@given(st.text(alphabet="abθ_, "))
def test_a_formula_loses_none_of_its_letters(formula: str) -> None:
    kept = "".join(piece.text for piece in pieces(formula))

    assert kept.replace("_", "") == formula.replace("_", "")


def test_several_words_may_stand_below_the_line() -> None:
    assert [(one.text, one.sub) for one in pieces("H_{T,ie} · f_1")] == [
        ("H", False),
        ("T,ie", True),
        (" · f", False),
        ("1", True),
    ]
