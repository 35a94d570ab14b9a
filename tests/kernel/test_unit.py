"""What the heat pump gives and takes in a step, and the frost on its coil."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.kernel.packing import maps
from hearthbook.kernel.parameters import PERFORMANCE_FLOW, PERFORMANCE_OUTDOOR
from hearthbook.kernel.state import DEFROST, DRIP, HEATING, HOT_WATER
from hearthbook.kernel.unit_step import unit_heat
from hearthbook.physics.frost import water_per_heat
from hearthbook.physics.heat_pump import working_efficiency
from tests.kernel.plant_at_hand import plant, state, totals
from tests.kernel.synthetic_home import synthetic_home

STEP = 60.0
MAPS = maps(synthetic_home(10).performance)
DRY, DAMP = 0.0, 0.0036526  # kg/kg; the latter at 2 °C with a wet thermometer at 1 °C


def _run(
    now: Any, outdoor: float, humidity: float = DRY, *, quiet: bool = False, step: float = STEP,
    flow_rate: float = 1000.0, **fields: float,
) -> tuple[float, float, bool]:  # fmt: skip
    usual = {"start_loss": 0.0, "reference_heat": 4200.0}
    heat, electricity, is_at_most = unit_heat(
        plant(**{**usual, **fields}), now, totals(), MAPS, 45.0, outdoor, humidity, quiet,
        flow_rate, step,
    )  # fmt: skip
    return float(heat), float(electricity), bool(is_at_most)


@pytest.mark.parametrize("row", [0, 20, 32, 75])
@pytest.mark.parametrize("column", [0, 3, 7])
def test_at_a_point_of_the_map_the_unit_gives_the_map(row: int, column: int) -> None:
    outdoor, flow = float(PERFORMANCE_OUTDOOR[row]), float(PERFORMANCE_FLOW[column])
    now = state(mode=HEATING, compressor=1.0, unit=flow, back=flow - 5.0, target=flow + 40.0)
    heat, electricity, is_at_most = _run(now, outdoor)
    assert heat == pytest.approx(MAPS[0, row, column], rel=2e-5)  # the last row is read just inside
    assert is_at_most
    if outdoor < flow - 12.0:
        efficiency = MAPS[1, row, column] * float(np.sum(working_efficiency(outdoor, flow)))
        assert heat / electricity == pytest.approx(max(efficiency, 1.0), rel=2e-4)


@given(st.floats(-45.0, 60.0), st.floats(5.0, 75.0), st.floats(5.0, 75.0), st.floats(20.0, 75.0))
def test_heat_lies_between_least_and_most_and_is_worth_its_electricity(
    outdoor: float, unit: float, back: float, target: float
) -> None:
    now = state(mode=HEATING, compressor=1.0, unit=unit, back=back, target=target)
    heat, electricity, _ = _run(now, outdoor, DAMP if outdoor > 0.0 else 0.001)
    assert MAPS[2].min() - 1e-6 <= heat <= MAPS[0].max() + 1e-6
    assert 0.0 < electricity <= heat + 1e-9
    # No machine beats Carnot between the water and the air it works between.
    if unit > outdoor + 12.0:
        assert heat / electricity < (unit + 273.15) / (unit - outdoor)
    assert now.frost >= 0.0


def test_quiet_hours_leave_their_share_of_the_most() -> None:
    loud = state(mode=HEATING, compressor=1.0, unit=35.0, back=30.0, target=60.0)
    quiet = state(mode=HEATING, compressor=1.0, unit=35.0, back=30.0, target=60.0)
    full = _run(loud, 2.0)[0]
    assert _run(quiet, 2.0, quiet=True, quiet_share=0.7)[0] == pytest.approx(0.7 * full)


def test_frost_lowers_output_and_efficiency() -> None:
    outputs, efficiencies = [], []
    for frost in (0.0, 0.4, 0.8, 1.2):
        now = state(mode=HEATING, compressor=1.0, unit=35.0, back=30.0, target=60.0, frost=frost)
        heat, electricity, _ = _run(now, 2.0)
        outputs.append(heat)
        efficiencies.append(heat / electricity)
    assert outputs == sorted(outputs, reverse=True)
    assert efficiencies == sorted(efficiencies, reverse=True)
    assert outputs[-1] == pytest.approx(0.85 * outputs[0])  # frost_capacity_loss of 15 %


def test_frost_grows_by_the_heat_taken_from_the_air() -> None:
    now = state(mode=HEATING, compressor=1.0, unit=35.0, back=30.0, target=60.0)
    heat, electricity, _ = _run(now, 2.0, DAMP)
    from_air = (heat - electricity) * STEP
    coil = 2.0 - 8.0 * (heat - electricity) / 4200.0
    expected = float(np.sum(water_per_heat(2.0, 0.838, coil))) * from_air
    assert now.frost == pytest.approx(expected, rel=0.02)
    # DF-10, psychrometrics: 0.39 to 0.41 kg for each kWh from the air at A2, to 10 %
    assert now.frost / from_air * 3.6e6 == pytest.approx(0.40, rel=0.1)


def test_a_start_costs_its_loss_once() -> None:
    now = state(mode=HEATING, compressor=1.0, unit=35.0, back=30.0, target=60.0, start_debt=5e5)
    clear = state(mode=HEATING, compressor=1.0, unit=35.0, back=30.0, target=60.0)
    full = _run(clear, 7.0)[0]
    given = [_run(now, 7.0)[0] for _ in range(10)]
    assert sum(full - heat for heat in given) * STEP == pytest.approx(5e5)
    assert min(given) > 0.0
    assert now.start_debt == 0.0


@pytest.mark.parametrize("step", [60.0, 30.0, 15.0])
def test_melting_a_kilogram_takes_what_the_laboratory_found(step: float) -> None:
    # Dong and others 2012: 1 kg takes 555.7 kJ, 71.8 % of it, 399.0 kJ, from the water. Derived.
    now, sums = state(mode=DEFROST, compressor=1.0, frost=1.0), totals()
    taken, drawn = 0.0, 0.0
    while now.frost > 0.0:
        heat, electricity, _ = unit_heat(
            plant(defrost_power=4500, defrost_from_water=0.718, defrost_efficiency=0.601), now,
            sums, MAPS, 45.0, 0.0, DAMP, False, 1000.0, step,
        )  # fmt: skip
        taken -= float(heat) * step
        drawn += float(electricity) * step
        now.mode_seconds += step
    assert taken == pytest.approx(399.0e3, rel=1e-3)
    assert taken + drawn == pytest.approx(555.7e3, rel=1e-3)
    assert sums.meltwater == pytest.approx(1.0)
    assert sums.defrosts == 1.0
    assert now.frost == 0.0


def test_nothing_comes_out_while_it_drips_or_rests() -> None:
    for now in (state(mode=DRIP, compressor=1.0), state(mode=HEATING, compressor=0.0)):
        assert _run(now, 2.0)[:2] == (0.0, 0.0)


def test_hot_water_asks_for_its_excess_over_the_sensor_and_no_more_than_the_unit_makes() -> None:
    cool = state(mode=HOT_WATER, compressor=1.0, unit=30.0, coil_loop=30.0)
    assert _run(cool, 7.0)[2]  # far below 53 °C: all it has
    there = state(mode=HOT_WATER, compressor=1.0, unit=53.0, coil_loop=52.9)
    heat, _, is_at_most = _run(there, 7.0, hot_water_flow_excess=8.0)
    assert not is_at_most
    assert heat <= MAPS[2].max()
