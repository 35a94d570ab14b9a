"""What changes of a home would do over a year, as a document."""

from __future__ import annotations

from hearthbook.documents.blocks import (
    Block,
    Bullets,
    Cell,
    Column,
    Document,
    Figures,
    Section,
    Table,
    Text,
)
from hearthbook.documents.charts import Axis, Chart, Mark, Series
from hearthbook.documents.inline import escaped
from hearthbook.record.home import Home
from hearthbook.units import to_trade
from hearthbook.year.flow_temperature_choice import FlowChoice, FlowChoices
from hearthbook.year.whatif import METRICS, Difference, WhatIf, WhatIfs

__all__ = ["flow_section", "whatif_document"]

_NUMBER = True
_MUCH_COLDER = 50.0 * 3600.0  # s in a year that a person would notice; common practice, no source
_MUCH_COLD_WATER = 0.2  # m³ in a year, some five showers; likewise


def whatif_document(home: Home, subject: WhatIfs | FlowChoices) -> Document:
    """A document of the changes tried, or of the flow temperatures looked at."""
    blocks = flow_section(subject).blocks if isinstance(subject, FlowChoices) else _whatifs(subject)
    return Document(
        title=f"What if: {home.name}",
        subtitle=f"{home.reference}, revision {home.revision}: calculated, not measured",
        kind="report",
        home=home.name,
        issued=home.issued,
        blocks=blocks,
        revision=str(home.revision),
    )


def _whatifs(found: WhatIfs) -> tuple[Block, ...]:
    ideas = found.ideas
    if not ideas:
        return (Text("No change was tried."),)
    single = ideas[0] if len(ideas) == 1 else None
    tables = (_one(single),) if single is not None else _ranked(ideas)
    return (
        Text(_how(found)),
        *tables,
        *_notes(ideas),
        Section("What was taken as uncertain", "uncertain", (Figures(found.spreads.figures),)),
    )


def _how(found: WhatIfs) -> str:
    years = "one year" if found.weathers == 1 else f"{found.weathers} years"
    return (
        f"Each change is simulated minute by minute and held against the home as recorded, "
        f"{found.standing.span}; a minus means less than now. The range leaves out the lowest and "
        f"the highest tenth of {found.sampling.draws} pairs of homes that the record may mean, "
        f"which met {years} of weather (seed {found.sampling.seed})."
    )


def _ranked(ideas: tuple[WhatIf, ...]) -> tuple[Block, ...]:
    has_prices = ideas[0].cost is not None
    first = ("What if", *(("Cost", "Range of cost") if has_prices else ()), "Electricity",
             "Range of electricity", "Efficiency")  # fmt: skip
    energy = Table(
        "Energy and money, what saves most first",
        tuple(Column(head, numeric=number > 0, share=3 if number == 0 else 1)
              for number, head in enumerate(first)),
        tuple(_energy_row(one) for one in ideas),
    )  # fmt: skip
    comfort = Table(
        "Comfort and the unit's life, in the same order",
        (Column("What if", share=3), *(Column(head, numeric=_NUMBER) for head in
         ("Rooms on average", "Time too cold", "Starts", "Too cold at the tap"))),
        tuple(
            (escaped(one.label), one.temperature.change, one.below.change,
             one.starts.change, one.cold_draws.change)
            for one in ideas
        ),
    )  # fmt: skip
    return energy, comfort, _as_recorded(ideas[0])


def _energy_row(one: WhatIf) -> tuple[Cell, ...]:
    money = () if one.cost is None else (one.cost.change, _range(one.cost))
    return (escaped(one.label), *money, one.electricity.change, _range(one.electricity),
            one.efficiency.change)  # fmt: skip


def _range(difference: Difference) -> str:
    return f"{difference.low.shown()} to {difference.high.shown()}"


def _differences(one: WhatIf) -> list[Difference]:
    found = (getattr(one, metric.name) for metric in METRICS)
    return [each for each in found if each is not None]


def _as_recorded(one: WhatIf) -> Section:
    figures = tuple(each.as_recorded for each in _differences(one))
    return Section("The home as recorded", "as_recorded", (Figures(figures),))


def _one(one: WhatIf) -> Table:
    titles = {metric.name: metric.label for metric in METRICS}
    rows = tuple(
        (titles[each.change.name.rsplit(".", 1)[1]], each.as_recorded, each.with_it, each.change,
         _range(each))
        for each in _differences(one)
    )  # fmt: skip
    heads = ("Over the year", "As recorded", "With it", "Difference", "Range of the difference")
    columns = tuple(
        Column(head, numeric=number > 0, share=3 if number == 0 else 1)
        for number, head in enumerate(heads)
    )
    return Table(f"With {one.label}", columns, rows)


def _notes(ideas: tuple[WhatIf, ...]) -> tuple[Block, ...]:
    said = []
    for one in ideas:
        once = one.once
        parts = [one.note] if one.note else []
        parts += [f"costs {once.shown()} once"] if once is not None else []
        parts += _warnings(one)
        if parts:
            said.append(escaped(f"{one.label}: {'; '.join(parts)}."))
    said.append(
        "“Too cold” is colder by more than half a kelvin than is wanted then: a planned colder "
        "stretch is not too cold, a room that is not yet warm again after it is."
    )
    return (Bullets(tuple(said)),)


def _warnings(one: WhatIf) -> list[str]:
    """What it costs in comfort where that is much, for a table is read for its money."""
    said = []
    if one.below.change.value > _MUCH_COLDER:
        said.append(f"the rooms are too cold for {one.below.change.shown()} more on average")
    if one.cold_draws.change.value > _MUCH_COLD_WATER:
        said.append(f"hot water runs short: {one.cold_draws.change.shown()} more at the tap too "
                    "cold")  # fmt: skip
    if not one.electricity.low.value <= one.electricity.change.value <= one.electricity.high.value:
        said.append("the difference of the home as recorded lies outside the range of the pairs, "
                    "whose weather differs")  # fmt: skip
    return said


def flow_section(found: FlowChoices) -> Section:
    """The chapter on the choice of the design flow temperature."""
    needed = (
        f"With the emitters it has, the home needs {found.needed.shown()} of flow at the design "
        f"temperature; the {_listed(found.limiting_rooms)} "
        f"{'decides' if len(found.limiting_rooms) == 1 else 'decide'}."
        if found.limiting_rooms
        else f"The home needs {found.needed.shown()} of flow at the design temperature."
    )
    return Section(
        "Flow temperature: emitters against running cost",
        "flow_temperatures",
        (
            Text(
                f"{needed} Cooler water costs less to make and asks for larger emitters. Each row "
                "is a year run with emitters exchanged where they are too small, and the curve "
                "that fits."
            ),
            _choices(found),
            _chart(found),
            *_exchanges(found),
        ),
    )


def _listed(names: tuple[str, ...]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def _choices(found: FlowChoices) -> Table:
    has_cost = any(one.cost is not None for one in found.choices)
    heads = ("Flow", "To exchange", "For", "Electricity",
             *(("Its cost",) if has_cost else ()), "Efficiency", "Too cold")  # fmt: skip
    return Table(
        "Flow temperature at the design outdoor temperature",
        tuple(Column(head, numeric=_NUMBER) for head in heads),
        tuple(_choice_row(one, has_cost=has_cost) for one in found.choices),
    )


def _choice_row(one: FlowChoice, *, has_cost: bool) -> tuple[Cell, ...]:
    cost: tuple[Cell, ...] = ("not known" if one.cost is None else one.cost,) if has_cost else ()
    flow: Cell = f"{one.flow.shown()}, chosen" if one.is_recorded else one.flow
    return (flow, str(len(one.exchanges)), _exchange_cost(one), one.electricity, *cost,
            one.efficiency, one.below)  # fmt: skip


def _exchange_cost(one: FlowChoice) -> str:
    known = sum(1 for each in one.exchanges if each.cost is not None)
    if not one.exchanges:
        return "none needed"
    if one.exchange_cost is None:
        return "not recorded"
    said, open_ = one.exchange_cost.shown(), len(one.exchanges) - known
    return f"{said} and {open_} not recorded" if open_ else said


def _chart(found: FlowChoices) -> Chart:
    choices = found.choices
    flows = tuple(one.flow.value for one in choices)
    energy = tuple(to_trade(one.electricity.value, "kWh") for one in choices)
    now = next((one for one in choices if one.is_recorded), choices[-1])
    coolest = choices[0]
    sentence = (
        f"Designed for {coolest.flow.shown()} the year takes {coolest.electricity.shown()} with "
        f"{len(coolest.exchanges)} emitters exchanged; at {now.flow.shown()} it takes "
        f"{now.electricity.shown()} with {len(now.exchanges)}."
    )
    return Chart(
        kind="line",
        title="Electricity by flow temperature",
        sentence=sentence,
        x_axis=Axis("flow temperature at the design outdoor temperature", "°C"),
        y_axis=Axis("electricity", "kWh"),
        x=flows,
        series=(Series("electricity, everything counted", energy),),
        marks=(Mark(now.flow.value, to_trade(now.electricity.value, "kWh"), "chosen"),),
    )


def _exchanges(found: FlowChoices) -> tuple[Block, ...]:
    beyond = tuple(
        f"{escaped(_listed(one.rooms_beyond))}: no exchange lets water of {one.flow.shown()} "
        "carry the load; it stays colder in the coldest weather."
        for one in found.choices
        if one.rooms_beyond
    )
    too_large = tuple(
        f"{escaped(_listed(names))}: at {one.flow.shown()} more is needed than fits one place; "
        "think of a second emitter."
        for one in found.choices
        if (names := tuple(each.name for each in one.exchanges if not each.fits))
    )
    small = {each.emitter_id: each.name for one in found.choices for each in one.exchanges}
    if not small:
        return ()
    said = (*beyond, *too_large)
    return (_needs(found, small), *((Bullets(said),) if said else ()))


def _needs(found: FlowChoices, names: dict[str, str]) -> Table:
    columns = [{each.emitter_id: each.needed for each in one.exchanges} for one in found.choices]
    heads = (Column("Emitter", share=3),
             *(Column(one.flow.shown(), numeric=_NUMBER) for one in found.choices))  # fmt: skip
    rows = tuple(
        (escaped(name), *(column.get(emitter, "stays") for column in columns))
        for emitter, name in names.items()
    )
    return Table("Rated output needed at 50 K, by flow temperature", heads, rows)
