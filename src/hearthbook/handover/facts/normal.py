"""Facts about what is normal in each weather: electricity, cost, water, defrosts."""

from __future__ import annotations

from hearthbook.design.results import Design
from hearthbook.handover.facts.speech import Speech
from hearthbook.handover.facts.tables import table
from hearthbook.handover.facts.told_curve import told_flow_temperature
from hearthbook.handover.facts.unit import counted
from hearthbook.handover.wording import Facts, Ready
from hearthbook.units import shown
from hearthbook.year.pack_numbers import OutdoorNumbers, Span, YearNumbers

__all__ = ["normal_facts"]

_DAYS = (-3.0, 5.0, 10.0)  # °C, the days people ask about


def normal_facts(design: Design, numbers: YearNumbers, speech: Speech) -> Facts:
    """Facts about normal days; `year` says how the numbers were come by."""
    nearest = {numbers.day_near(outdoor).outdoor for outdoor in _DAYS}
    asked = [day for day in numbers.days if day.outdoor in nearest]
    return {
        "year": {
            "is_simulated": numbers.is_simulated,
            "draws": f"{numbers.draws}",
            "is_generated": numbers.is_generated,
        },
        "table_day_cost": _costs(design, asked, speech),
        "table_normal": _normal(design, numbers, speech),
    }


def _costs(design: Design, days: list[OutdoorNumbers], speech: Speech) -> Ready:
    rows = [
        [shown(day.outdoor, "°C", 0), speech.reach(day.electricity, "kWh", 0)]
        + ([] if day.cost is None else [_money(design, day.cost, speech)])
        for day in days
    ]
    names = ("outdoor", "energy", "cost")[: len(rows[0])]
    heads = [speech.words("tables", f"day_cost_{name}") for name in names]
    return table(speech.words("tables", "day_cost_caption"), heads, rows)


def _money(design: Design, cost: Span, speech: Speech) -> str:
    """A day's cost to the ten pence, as nobody knows it closer."""
    assert design.home.tariff is not None  # it is what the cost is reckoned with
    ends = [
        shown(round(value, 1), design.home.tariff.currency, 2) for value in (cost.low, cost.high)
    ]
    return ends[0] if ends[0] == ends[1] else speech.words(
        "words", "from_to", low=ends[0], high=ends[1]
    )  # fmt: skip


def _normal(design: Design, numbers: YearNumbers, speech: Speech) -> Ready:
    rows = []
    for day in numbers.days:
        flow = told_flow_temperature(design, day.outdoor)
        drop = design.curve.flow_temperature_at(day.outdoor)
        drop -= design.curve.return_temperature_at(day.outdoor)
        limit = design.home.controls.heating_limit or design.curve.heating_limit.value
        rests = speech.words("words", "rests") if day.outdoor >= limit else ""
        rows.append(
            [
                shown(day.outdoor, "°C", 0),
                speech.reach(day.electricity, "kWh", 0).removesuffix("kWh").rstrip(),
                rests or shown(flow, "°C", 0),
                rests or speech.feel(flow - drop / 2).partition(";")[0],
                counted(day.defrosts, speech) or speech.words("words", "none"),
            ]
        )
    names = ("outdoor", "energy", "flow", "feel", "defrosts")
    heads = [speech.words("tables", f"normal_{name}") for name in names]
    return table(speech.words("tables", "normal_caption"), heads, rows)
