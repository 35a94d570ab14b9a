"""The heat carried by the water, held against sums by hand and against reference libraries."""

from __future__ import annotations

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI
from iapws import IAPWS97  # type: ignore[import-untyped] # has no types

from hearthbook.commissioning.verdicts import Verdict
from hearthbook.design.results import Design
from hearthbook.documents.figures import KeyFigure, with_inputs
from hearthbook.record.commissioning import ReadingKind
from hearthbook.record.plant import FreezeProtection
from tests.commissioning.changing import Read, judged, with_plant, with_reading

K = ReadingKind


def _carried(design: Design, flow: float, back: float, litres_a_minute: float) -> KeyFigure:
    home = with_reading(design.home, Read(K.FLOW_TEMPERATURE), value=flow)
    home = with_reading(home, Read(K.RETURN_TEMPERATURE), value=back)
    home = with_reading(home, Read(K.FLOW_RATE), value=litres_a_minute)
    figure = judged(design, home)["possible_output"].reading
    assert figure is not None
    return figure


@pytest.mark.parametrize(
    ("kilowatts", "kelvin", "litres_a_minute"),
    [(6.0, 5.0, 17.2), (5.6, 5.0, 16.1), (8.0, 7.0, 16.4)],
)
def test_the_trade_s_rule_of_thumb_holds(
    kilowatts: float, kelvin: float, litres_a_minute: float, well_done: Design
) -> None:
    """L/min = 14.3 × kW / K: water of 4.19 kJ/(kg·K) and 1 kg/L, 60 / 4.19 = 14.3 (by hand)."""
    carried = _carried(well_done, 35.0 + kelvin, 35.0, litres_a_minute)
    assert carried.value / 1000 == pytest.approx(kilowatts, rel=0.012)


@pytest.mark.parametrize("back", [25.0, 35.0, 39.8, 48.0])
def test_the_heat_is_that_of_the_steam_tables(back: float, well_done: Design) -> None:
    """Source: IAPWS-IF97, density and specific heat of water at 2 bar."""
    state = IAPWS97(T=back + 273.15, P=0.2)
    expected = state.rho * state.cp * 1000 * 15.0 / 60000 * 5.0
    carried = _carried(well_done, back + 5.0, back, 15.0)
    assert carried.value == pytest.approx(expected, rel=0.002)


def test_antifreeze_carries_less_heat_by_as_much_as_the_library_says(well_done: Design) -> None:
    """Source: CoolProp, incompressible propylene glycol 30 % by volume (fraction by volume APG)."""
    protection = FreezeProtection(kind="glycol", glycol_share=0.30)
    home = with_plant(well_done.home, freeze_protection=protection)
    home = with_reading(home, Read(K.RETURN_TEMPERATURE), value=40.0)
    home = with_reading(home, Read(K.FLOW_TEMPERATURE), value=45.0)
    thinned = judged(well_done, home)["possible_output"].reading
    assert thinned is not None
    state = (273.15 + 40.0, "P", 2e5, "INCOMP::MPG[0.31]")  # 30 % by volume is 31 % by mass
    expected = PropsSI("D", "T", *state) * PropsSI("C", "T", *state) * 16.2 / 60000 * 5.0
    assert thinned.value == pytest.approx(expected, rel=0.02)


def test_the_uncertainty_is_that_of_independent_errors(well_done: Design) -> None:
    """3 % of the flow; the pair zeroed to 0.1 K and read to 0.5 K: 0.6 K of 5.0 K (by hand)."""
    carried = judged(well_done)["possible_output"].reading
    assert carried is not None
    assert carried.uncertainty is not None
    assert carried.uncertainty / carried.value == pytest.approx(
        float(np.hypot(0.03, 0.12)), rel=1e-3
    )


def test_the_balance_is_the_ratio_of_both_heats(well_done: Design) -> None:
    """16.2 L/min × 5.0 K × 4.15 kJ/(L·K) / 60 = 5.60 kW, as the unit's 5.6 kW says (by hand)."""
    balance = judged(well_done)["heat_balance"].reading
    assert balance is not None
    assert balance.value == pytest.approx(16.2 * 5.0 * 4.147 / 60 / 5.6, rel=0.002)


def test_the_balance_rests_on_all_four_readings(well_done: Design) -> None:
    balance = judged(well_done)["heat_balance"].reading
    assert balance is not None
    names = {part.name for part in with_inputs(balance)}
    for kind in ("flow_rate", "flow_temperature", "return_temperature", "heat_output"):
        assert f"readings.{kind}" in names


def test_water_that_loses_heat_on_its_way_through_the_unit_is_a_fault(well_done: Design) -> None:
    home = with_reading(well_done.home, Read(K.RETURN_TEMPERATURE), value=46.0)
    found = judged(well_done, home)
    assert found["heat_balance"].verdict is Verdict.OUTSIDE
    assert found["possible_output"].verdict is Verdict.OUTSIDE


@pytest.mark.parametrize("unsteady", [K.FLOW_RATE, K.RETURN_TEMPERATURE, K.HEAT_OUTPUT])
def test_one_unsteady_reading_spoils_the_balance(unsteady: ReadingKind, well_done: Design) -> None:
    home = with_reading(well_done.home, Read(unsteady), state="warming_up")
    found = judged(well_done, home)["heat_balance"]
    assert found.verdict is Verdict.CANNOT_TELL
    assert "warming up" in found.reason


@pytest.mark.parametrize("missing", [K.FLOW_RATE, K.RETURN_TEMPERATURE, K.HEAT_OUTPUT])
def test_one_missing_reading_leaves_the_balance_open(
    missing: ReadingKind, well_done: Design
) -> None:
    found = judged(well_done, with_reading(well_done.home, Read(missing)))["heat_balance"]
    assert found.verdict is Verdict.CANNOT_TELL
    assert found.reason == "No reading is recorded."
