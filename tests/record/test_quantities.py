from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic_core import PydanticCustomError

from hearthbook.record.quantities import Quantity
from hearthbook.units import TRADE_UNITS
from tests.strategies import decimals

FLOW = Quantity("L/min", 0, 300)
WALL = Quantity("mm", 0.1, 10_000)


@pytest.mark.parametrize(
    ("written", "litres_per_minute"),
    [
        (15, 15.0),
        ("15", 15.0),
        ("15 L/min", 15.0),
        ("15 l/min", 15.0),
        ("0.25 L/s", 15.0),
        ("0.9 m³/h", 15.0),
        ("0.9 m3/h", 15.0),
        ("900 L/h", 15.0),
        ("+15.0", 15.0),
        (" 1.5e1 L/min ", 15.0),
    ],
)
def test_one_flow_written_in_many_ways(written: object, litres_per_minute: float) -> None:
    # 1 m³/h = 1000 L / 60 min, by definition of the units
    assert FLOW.number(written) == litres_per_minute
    assert FLOW.read(written) == pytest.approx(0.015 / 60)


@pytest.mark.parametrize(
    ("written", "kind", "message"),
    [
        ("1,5", "quantity_text", "is '1,5'; write a number in mm or cm or m, with a point"),
        ("1.5 inch", "quantity_text", "is '1.5 inch'; write a number in mm or cm or m"),
        ("", "quantity_text", "is ''; write a number"),
        ("1.5.2", "quantity_text", "is '1.5.2'"),
        (True, "quantity_type", "is True; it must be a number in mm"),
        (None, "quantity_type", "is None; it must be a number in mm"),
        (float("inf"), "quantity_finite", "is inf; it must be a finite number in mm"),
        (-3, "quantity_range", "is -3 mm; it must lie between 0.1 and 10000 mm"),
        ("20 m", "quantity_range", "is 20000 mm; it must lie between 0.1 and 10000 mm"),
    ],
)
def test_what_is_no_length_is_refused(written: object, kind: str, message: str) -> None:
    with pytest.raises(PydanticCustomError, match=message) as refused:
        WALL.read(written)
    assert refused.value.type == kind


def test_a_minus_sign_of_print_is_a_minus_sign() -> None:
    assert Quantity("°C", -45, 45).number("−3.2 °C") == -3.2


@given(st.sampled_from(sorted(TRADE_UNITS)), decimals(-1000, 1000, 3))
def test_what_is_read_is_written_as_it_was(symbol: str, number: float) -> None:
    quantity = Quantity(symbol, -1e6, 1e6)
    assert quantity.write(quantity.read(number)) == number
