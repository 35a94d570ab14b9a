"""Lengths of time and ranges said as people say them, never further off than a reader would be."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.handover.facts.speech import Speech

_SAY = Speech("en-GB")


@pytest.mark.parametrize(
    ("seconds", "said"),
    [
        (40, "40 seconds"),
        (7 * 60, "7 minutes"),
        (12 * 60, "12 minutes"),
        (14 * 60, "15 minutes"),
        (30 * 60, "half an hour"),
        (66 * 60, "65 minutes"),
        (3 * 3600, "3 hours"),
        (2.4 * 3600, "2.5 hours"),
        (26 * 3600, "26 hours"),
    ],
)
def test_a_length_of_time_is_said_as_people_say_it(seconds: float, said: str) -> None:
    assert _SAY.duration(seconds) == said


@given(seconds=st.floats(60, 1e6))
def test_what_is_said_is_never_off_by_more_than_a_fifth(seconds: float) -> None:
    said = _SAY.duration(seconds)
    if said == "half an hour":
        meant = 1800.0
    else:
        size = {"seconds": 1.0, "minutes": 60.0, "hours": 3600.0, "days": 86400.0}[said.split()[-1]]
        found = re.match(r"[\d.]+", said)
        assert found is not None
        meant = float(found[0]) * size
    assert meant == pytest.approx(seconds, rel=0.2)


def test_a_range_whose_ends_read_alike_is_said_once() -> None:
    assert _SAY.span(3.6e6, 3.7e6, "kWh", 0) == "1\N{NO-BREAK SPACE}kWh"
    assert _SAY.span(3.6e6, 7.2e6, "kWh", 0) == "1 to 2\N{NO-BREAK SPACE}kWh"
