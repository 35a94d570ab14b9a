"""Which design flow temperature to choose: what emitters it asks for against what it saves."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from hearthbook.design.results import Design, design_home
from hearthbook.documents.figures import KeyFigure, calculated, condition
from hearthbook.errors import check_between
from hearthbook.simulate.weather import Weather
from hearthbook.year.changes import Changes
from hearthbook.year.emitters_for_flow import (
    Exchange,
    Exchanges,
    exchanged_home,
    exchanges_for,
)
from hearthbook.year.home_year import HomeYear
from hearthbook.year.model import year_model
from hearthbook.year.outcomes import Outcome, outcome
from hearthbook.year.schedules import build_drivers
from hearthbook.year.side_by_side import Told, runs_of
from hearthbook.year.standing import Standing, standing_of

__all__ = ["STEPS", "FlowChoice", "FlowChoices", "flow_temperature_choice"]

STEPS = (35.0, 40.0, 42.5, 45.0, 47.5, 50.0, 55.0)
"""°C of flow at the design outdoor temperature that are looked at."""

_UNIT_MAKES = 75.0  # °C; where the record does not say how hot, none makes more


@dataclass(frozen=True)
class FlowChoice:
    """A design flow temperature, what it asks for and what it leads to.

    Attributes:
        flow: at the design outdoor temperature.
        exchanges: emitters that must become larger.
        rooms_beyond: names of rooms that no exchange lets this water heat.
        exchange_cost: of the exchanges whose cost is recorded; None where none is.
        electricity: everything counted, with those emitters and the curve that fits.
        cost: of it; None without a tariff.
        efficiency: seasonal, all counted.
        below: time colder than wanted, mean of the rooms.
        is_recorded: whether it is the one the design has.
    """

    flow: KeyFigure
    exchanges: tuple[Exchange, ...]
    rooms_beyond: tuple[str, ...]
    exchange_cost: KeyFigure | None
    electricity: KeyFigure
    cost: KeyFigure | None
    efficiency: KeyFigure
    below: KeyFigure
    is_recorded: bool


@dataclass(frozen=True)
class FlowChoices:
    """The flow temperatures looked at.

    Attributes:
        choices: the coolest first.
        limiting_rooms: names of the rooms that decide today, the one that needs the hottest first.
        needed: flow temperature the home needs with the emitters it has.
    """

    choices: tuple[FlowChoice, ...]
    limiting_rooms: tuple[str, ...]
    needed: KeyFigure


def flow_temperature_choice(
    design: Design,
    weather: Weather,
    *,
    steps: Sequence[float] = STEPS,
    advance: Callable[[str], None] = lambda _: None,
) -> FlowChoices:
    """The design flow temperatures that may be chosen for a home.

    At each, every room whose emitters are too small has one exchanged for one that carries what is
    missing; then the year is run with the curve that fits.

    Args:
        design: of the home.
        weather: a year of it.
        steps: °C of flow at the design outdoor temperature; those hotter than the unit makes are
            left out, and the design's own is added.
        advance: told which flow temperature is made ready.

    Raises:
        OutOfRange: a flow temperature no such home has, or what no loop can run on.
    """
    for step in steps:
        check_between("design flow temperature", step, 25.0, _UNIT_MAKES, "°C")
    hottest = design.home.plant.heat_pump.maximum_flow_temperature or _UNIT_MAKES
    recorded = round(design.emitters.flow_temperature.value, 1)
    homes: list[_Tried] = []
    for flow in sorted({*(step for step in steps if step <= hottest), recorded}):
        advance(f"flow of {flow:g} °C at the design temperature")
        homes.append(_tried(design, weather, flow))
    runs = runs_of([one.told for one in homes])
    first = next(place for place, one in enumerate(homes) if one.flow == recorded)
    standing = standing_of(
        HomeYear(year_model(design), weather, homes[first].told.drivers, runs[first])
    )
    rooms = {room.room.id: room.room.name for room in design.emitters.rooms}
    return FlowChoices(
        tuple(
            _choice(design, one, standing,
                    outcome(run, has_prices=one.told.drivers.has_prices), one.flow == recorded)
            for one, run in zip(homes, runs, strict=True)
        ),
        tuple(rooms[one] for one in design.emitters.limiting_rooms),
        design.emitters.required_flow_temperature,
    )  # fmt: skip


@dataclass(frozen=True)
class _Tried:
    """A home ready to be run at one flow temperature."""

    flow: float
    exchanges: Exchanges
    told: Told


def _stem(flow: float) -> str:
    return "whatif.flow_" + f"{flow:g}".replace(".", "_")


def _tried(design: Design, weather: Weather, flow: float) -> _Tried:
    exchanges = exchanges_for(design, flow, _stem(flow))
    changed = design_home(exchanged_home(design, exchanges.emitters, flow))
    points = tuple((one.outdoor.value, one.flow.value) for one in changed.curve.fit.points)
    model = year_model(changed).home
    drivers = build_drivers(changed, weather, model.glazing, changes=Changes(curve_points=points))
    return _Tried(flow, exchanges, Told(model, drivers))


def _choice(
    design: Design, tried: _Tried, standing: Standing, found: Outcome, is_recorded: bool
) -> FlowChoice:
    stem = _stem(tried.flow)
    flow = condition(f"{stem}.flow", "flow temperature at the design outdoor temperature",
                     tried.flow, "°C", why="one of those looked at")  # fmt: skip
    exchanges = tried.exchanges.emitters

    def of(
        name: str, label: str, value: float, unit: str, decimals: int | None = None
    ) -> KeyFigure:
        return calculated(
            f"{stem}.{name}", f"{label} {standing.span}, designed for {flow.shown()} of flow",
            value, unit, formula="sum or mean over the minutes, with larger emitters where needed "
            "and the curve that fits", source=standing.source, decimals=decimals,
            inputs=(standing.run, flow, *(one.needed for one in exchanges)),
        )  # fmt: skip

    tariff = design.home.tariff
    return FlowChoice(
        flow=flow,
        exchanges=exchanges,
        rooms_beyond=tried.exchanges.rooms_beyond,
        exchange_cost=_exchange_cost(stem, exchanges),
        electricity=of("electricity", "electricity, everything counted", found.electricity, "kWh"),
        cost=of("cost", "cost of electricity", found.cost, tariff.currency)
        if tariff is not None and found.cost is not None else None,
        efficiency=of("efficiency", "seasonal efficiency, all counted", found.efficiency, ""),
        below=of("below", "time colder than wanted, mean of the rooms", found.below, "h", 0),
        is_recorded=is_recorded,
    )  # fmt: skip


def _exchange_cost(stem: str, exchanges: tuple[Exchange, ...]) -> KeyFigure | None:
    known = tuple(one.cost for one in exchanges if one.cost is not None)
    if not known:
        return None
    return calculated(
        f"{stem}.exchange_cost", "cost of the exchanges that is recorded",
        sum(one.value for one in known), known[0].unit, formula="sum", inputs=known,
        source=f"recorded for {len(known)} of {len(exchanges)} exchanges",
    )  # fmt: skip
