"""A tall drawing is cut into strips that lose nothing and cut through no word."""

from __future__ import annotations

import re

import pytest

from hearthbook.render.drawings.sheet import Sheet
from hearthbook.render.pictures import Drawn
from hearthbook.render.strips import strips


def _ladder(rungs: int) -> Drawn:
    """A drawing of numbered boxes along one long pipe."""
    sheet = Sheet(284.0)
    sheet.line((20.0, 5.0), (20.0, rungs * 30.0))
    for number in range(rungs):
        sheet.rect((40.0, number * 30.0 + 4.0), (60.0, 18.0))
        sheet.text((44.0, number * 30.0 + 17.0), f"part {number}")
    return Drawn(sheet.svg(rungs * 30.0), 284.0, rungs * 30.0)


def test_a_drawing_that_fits_is_left_alone() -> None:
    drawing = _ladder(5)

    assert strips(drawing, 150.0) == (drawing,)


@pytest.mark.parametrize("most", [100.0, 170.0, 299.0])
def test_strips_are_no_higher_than_asked_and_make_up_the_whole(most: float) -> None:
    parts = strips(_ladder(20), most)

    assert max(part.height for part in parts) <= most
    assert sum(part.height for part in parts) == pytest.approx(600.0)


@pytest.mark.parametrize("most", [100.0, 170.0, 299.0])
def test_every_word_stands_whole_in_one_strip(most: float) -> None:
    parts = strips(_ladder(20), most)

    found = [word for part in parts for word in re.findall(r">(part \d+)<", part.svg)]
    assert found == [f"part {number}" for number in range(20)]


def test_a_long_pipe_goes_on_in_every_strip() -> None:
    parts = strips(_ladder(20), 170.0)

    assert len(parts) > 3
    assert all("<polyline" in part.svg for part in parts)
