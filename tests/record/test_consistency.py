from __future__ import annotations

from hypothesis import given

from hearthbook.record.commissioning import READING_UNITS, ReadingKind
from hearthbook.record.consistency import contradictions
from hearthbook.record.home import Home
from hearthbook.units import TRADE_UNITS
from tests.strategies import homes


def test_the_demo_homes_agree_with_themselves(well_done_home: Home, faulty_home: Home) -> None:
    assert contradictions(well_done_home) == ()
    assert contradictions(faulty_home) == ()


@given(homes())
def test_random_homes_agree_with_themselves(home: Home) -> None:
    assert contradictions(home) == ()


def test_every_kind_of_reading_has_a_known_unit() -> None:
    assert set(READING_UNITS) == set(ReadingKind)
    assert set(READING_UNITS.values()) <= TRADE_UNITS.keys()


def test_the_well_done_home_is_complete(well_done_home: Home) -> None:
    empty = [name for name in Home.model_fields if not getattr(well_done_home, name)]
    assert empty == []
    done = well_done_home.commissioning
    assert done is not None
    assert len(done.readings) >= 40
    assert {reading.of for reading in done.readings} >= {
        room.id for room in well_done_home.building.rooms
    }
