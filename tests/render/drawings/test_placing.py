from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.render.drawings.gauge import dial_angle
from hearthbook.render.drawings.placing import columns, spread

blocks = st.lists(st.tuples(st.floats(0.0, 400.0), st.floats(5.0, 40.0)), max_size=8)


@given(blocks)
def test_blocks_never_lie_on_each_other(found: list[tuple[float, float]]) -> None:
    wanted = sorted(top for top, _ in found)
    heights = [height for _, height in found]
    tops = spread(wanted, heights, 4.0, (0.0, 200.0))
    for (above, height), (below, _) in pairwise(zip(tops, heights, strict=True)):
        assert above + height + 4.0 <= below + 1e-9


@given(blocks)
def test_blocks_stay_in_their_room_where_it_is_large_enough(
    found: list[tuple[float, float]],
) -> None:
    wanted = sorted(top for top, _ in found)
    heights = [height for _, height in found]
    room = sum(heights) + 4.0 * len(heights) + 10.0
    for top, height in zip(spread(wanted, heights, 4.0, (0.0, room)), heights, strict=True):
        assert -1e-9 <= top <= room - height + 1e-9


@given(st.integers(1, 20), st.floats(40.0, 500.0), st.floats(20.0, 120.0))
def test_columns_fill_the_width(count: int, width: float, least: float) -> None:
    lefts, each = columns(count, width, least, 8.0)
    assert 1 <= len(lefts) <= count
    assert lefts[-1] + each == pytest.approx(width)


@pytest.mark.parametrize(
    ("at_bar", "angle"),
    # three quarters of a circle from lower left to lower right, as on most round gauges:
    # common practice, no source
    [(0.0, -135.0), (1.0, -67.5), (2.0, 0.0), (4.0, 135.0), (9.0, 135.0)],
)
def test_the_needle_sweeps_three_quarters_of_the_dial(at_bar: float, angle: float) -> None:
    assert dial_angle(at_bar, 4.0) == angle
