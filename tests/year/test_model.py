"""A home's model for the year: what it refuses before any minute is run."""

from __future__ import annotations

from dataclasses import replace

import pytest

from hearthbook.errors import Incomplete
from hearthbook.year.model import year_model
from tests.year.demo_years import ready


def test_a_home_that_nothing_heats_is_refused_in_words() -> None:
    design = ready("well_done").design
    rooms = tuple(replace(room, emitters=()) for room in design.emitters.rooms)
    bare = replace(design, emitters=replace(design.emitters, rooms=rooms))
    with pytest.raises(Incomplete, match="Record what heats them under emitters"):
        year_model(bare)
