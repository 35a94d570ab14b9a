"""A colder night is advised only where rooms stay fit to live and sleep in."""

from __future__ import annotations

import pytest

from hearthbook.actions.kept_years import PackYears
from hearthbook.design.results import design_home
from hearthbook.handover.facts.setback import advised
from hearthbook.record.building import RoomUse
from hearthbook.record.home import Home
from hearthbook.render.text import render
from tests.handover.conftest import Items, document_of

_DAMP = 16.0  # °C a room to live or sleep in keeps at least; common practice, no source
# Rooms of older people at night: World Health Organization, Housing and health guidelines, 2018;
# from memory.
_HEALTHY = "18 °C"


def _bedrooms_at(home: Home, temperature: float) -> Home:
    rooms = tuple(
        room.model_copy(update={"wanted_temperature": temperature})
        if room.use is RoomUse.BEDROOM
        else room
        for room in home.building.rooms
    )
    building = home.building.model_copy(update={"rooms": rooms})
    return home.model_copy(update={"building": building})


@pytest.mark.parametrize("bedrooms", [16.0, 17.0, 18.0, 21.0])
def test_no_bedroom_is_advised_into_the_damp(
    bedrooms: float, well_done_home: Home, demo_years: dict[str, PackYears]
) -> None:
    numbers = demo_years["well_done"].numbers
    assert numbers is not None
    night = advised(design_home(_bedrooms_at(well_done_home, bedrooms)), numbers)
    assert bedrooms - night.depth >= _DAMP


def test_warmer_bedrooms_allow_the_deeper_night(
    well_done_home: Home, demo_years: dict[str, PackYears]
) -> None:
    numbers = demo_years["well_done"].numbers
    assert numbers is not None
    depths = [
        advised(design_home(_bedrooms_at(well_done_home, agreed)), numbers).depth
        for agreed in (16.0, 17.0, 18.0, 21.0)
    ]
    assert depths == sorted(depths)
    assert depths[0] == 0.0 < depths[-1]


def test_every_guide_puts_warmth_before_saving(packs: dict[str, Items]) -> None:
    for items in packs.values():
        said = " ".join(render(document_of(items, "guide.pdf")).split())
        assert f"the room should be {_HEALTHY} or warmer all night" in said.replace("\xa0", " ")
