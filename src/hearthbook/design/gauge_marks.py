"""The marks of a home's pressure gauge, and the water behind them."""

from __future__ import annotations

from dataclasses import dataclass

from hearthbook.design.hot_pressures import HotPressures, VesselState, pressure_of
from hearthbook.design.vessel_facts import VesselFacts
from hearthbook.documents.figures import KeyFigure, assumed, calculated, given
from hearthbook.physics import vessel
from hearthbook.record.home import Home

__all__ = ["GaugeMarks", "gauge_marks"]

_PRACTICE = "common practice, no source"
_BOYLE = "Boyle's law, derived"
_TOP_UP_OVER_PRECHARGE = 0.1e5  # Pa; common practice, no source
_NEEDLE = 0.2e5  # Pa to either side of a healthy reading; common practice, no source
_CALL_BELOW_VALVE = 0.4e5  # Pa; common practice, no source
_TENTH = 0.1e5  # Pa
_FILL_FLOW = 5e-3 / 60  # m³/s through a hose, valve a quarter turn open; common practice


@dataclass(frozen=True)
class GaugeMarks:
    """Marks of the gauge, by a healthy vessel.

    Attributes: as in `Expansion`.
    """

    top_up_below: KeyFigure
    call_above: KeyFigure
    normal_cold_low: KeyFigure
    normal_cold: KeyFigure
    normal_cold_high: KeyFigure
    normal_hot_low: KeyFigure
    normal_hot: KeyFigure
    normal_hot_high: KeyFigure
    litres_per_tenth_bar: KeyFigure
    litres_per_bar: KeyFigure
    top_up_volume: KeyFigure
    fill_time: KeyFigure


def gauge_marks(
    home: Home, facts: VesselFacts, installed: KeyFigure, hot: HotPressures
) -> GaugeMarks:
    """The marks of a home's gauge.

    Args:
        home: the record.
        facts: precharge and cold fill, wanted and found.
        installed: the vessel.
        hot: predictions, for the growth of the water when hottest.
    """
    precharge = facts.precharge_healthy
    low = _mark("top_up_below", "top up below", precharge, _TOP_UP_OVER_PRECHARGE)
    cold = _healthy_cold(facts, low)
    healthy = VesselState(installed, precharge, cold, facts.safety_valve)
    cold_low = _cold_low(cold, low)
    call = _mark("call_above", "call above", facts.safety_valve, -_CALL_BELOW_VALVE)
    normal_hot = _normal_hot(healthy, hot, call)
    volume = _top_up_volume(healthy, low)
    tenth = _tenth(healthy)
    return GaugeMarks(
        top_up_below=low,
        call_above=call,
        normal_cold_low=cold_low,
        normal_cold=cold,
        normal_cold_high=_high("normal_cold_high", "highest healthy when cold", cold, call),
        normal_hot_low=_same("normal_hot_low", "lowest healthy when hot", cold_low),
        normal_hot=normal_hot,
        normal_hot_high=_high("normal_hot_high", "highest healthy when hot", normal_hot, call),
        litres_per_tenth_bar=tenth,
        litres_per_bar=_per_bar(tenth),
        top_up_volume=volume,
        fill_time=_fill_time(home, volume),
    )


def _healthy_cold(facts: VesselFacts, low: KeyFigure) -> KeyFigure:
    """The cold pressure found where it leaves the vessel some water; else the one wanted."""
    found, final = facts.cold_fill_found, vessel.final_pressure(facts.safety_valve.value)
    is_good = found is not None and low.value < found.value < final
    figure = found if found is not None and is_good else facts.cold_fill
    return _same("normal_cold", "healthy when cold", figure)


def _mark(name: str, label: str, start: KeyFigure, shift: float) -> KeyFigure:
    step = assumed(
        f"expansion.{name}_step", f"step to the mark: {label}", shift, "bar", source=_PRACTICE
    )
    return calculated(
        f"expansion.{name}", label, start.value + step.value, "bar",
        formula="p + step", inputs=(start, step), source=_PRACTICE,
    )  # fmt: skip


def _same(name: str, label: str, figure: KeyFigure) -> KeyFigure:
    return calculated(
        f"expansion.{name}", label, figure.value, "bar", formula="the same pressure",
        inputs=(figure,), source=_PRACTICE,
    )  # fmt: skip


def _cold_low(cold: KeyFigure, low: KeyFigure) -> KeyFigure:
    return calculated(
        "expansion.normal_cold_low", "lowest healthy when cold",
        max(cold.value - _NEEDLE, low.value), "bar", formula="max(pc − 0.2 bar, top-up mark)",
        inputs=(cold, low), source=_PRACTICE,
    )  # fmt: skip


def _normal_hot(state: VesselState, hot: HotPressures, call: KeyFigure) -> KeyFigure:
    """The hottest pressure of a healthy vessel; of one too small, no more than the call mark."""
    reached = pressure_of(
        "expansion.healthy_hot_pressure", "pressure when hottest, vessel healthy", state,
        hot.expansion,
    )  # fmt: skip
    is_too_small = reached.value > call.value
    return calculated(
        "expansion.normal_hot", "healthy when hottest", min(reached.value, call.value), "bar",
        formula="min(ph, call mark)", inputs=(reached, call), source=_PRACTICE,
        note="The vessel is too small for this home." if is_too_small else "",
    )  # fmt: skip


def _high(name: str, label: str, mark: KeyFigure, call: KeyFigure) -> KeyFigure:
    return calculated(
        f"expansion.{name}", label, min(mark.value + _NEEDLE, call.value), "bar",
        formula="min(p + 0.2 bar, call mark)", inputs=(mark, call), source=_PRACTICE,
    )  # fmt: skip


def _tenth(state: VesselState) -> KeyFigure:
    value = vessel.water_between(
        state.installed.value, state.precharge.value, state.cold.value, state.cold.value - _TENTH
    )
    return calculated(
        "expansion.litres_per_tenth_bar", "water behind a tenth of a bar", float(value), "L",
        formula="V = Vn·(p0 + 1)/(pc + 0.9) − Vn·(p0 + 1)/(pc + 1)",
        inputs=(state.installed, state.precharge, state.cold), source=_BOYLE, decimals=2,
    )  # fmt: skip


def _per_bar(tenth: KeyFigure) -> KeyFigure:
    return calculated(
        "expansion.litres_per_bar", "water behind a bar, at the rate near the cold mark",
        tenth.value * 10, "L", formula="10 · V(0.1 bar)", inputs=(tenth,), source=_BOYLE,
    )  # fmt: skip


def _top_up_volume(state: VesselState, low: KeyFigure) -> KeyFigure:
    value = vessel.water_between(
        state.installed.value, state.precharge.value, state.cold.value, low.value
    )
    return calculated(
        "expansion.top_up_volume", "water from the top-up mark to the cold mark", float(value), "L",
        formula="V = Vn·(p0 + 1)·(1/(plow + 1) − 1/(pc + 1))",
        inputs=(state.installed, state.precharge, state.cold, low), source=_BOYLE,
    )  # fmt: skip


def _fill_time(home: Home, volume: KeyFigure) -> KeyFigure:
    filling = home.plant.filling
    name, label = "plant.filling.flow", "flow at the filling connection"
    if filling is not None and filling.flow is not None:
        flow = given(name, label, filling.flow, "L/min", place=name)
    else:
        flow = assumed(name, label, _FILL_FLOW, "L/min", source=_PRACTICE)
    return calculated(
        "expansion.fill_time", "time to fill from the top-up mark to the cold mark",
        volume.value / max(flow.value, 1e-6), "s", formula="t = V/q", inputs=(volume, flow),
        source="definition",
    )  # fmt: skip
