"""Charts of this home: the curve, the year by month, the loss by room and by part."""

from __future__ import annotations

from collections.abc import Sequence

from hearthbook.documents.charts import Axis, Chart, Series, Zone
from hearthbook.documents.figures import KeyFigure
from hearthbook.handover.basis import PackBasis
from hearthbook.handover.facts.speech import Speech
from hearthbook.handover.facts.told_curve import told_flow_temperature
from hearthbook.handover.wording import phrases
from hearthbook.units import shown, to_trade
from hearthbook.year.pack_numbers import Span

__all__ = [
    "curve_chart",
    "defrost_chart",
    "loss_by_element_chart",
    "loss_by_room_chart",
    "monthly_chart",
    "normal_chart",
]

_COLDEST, _MILDEST = -5, 15  # °C, the outdoor temperatures drawn
_NO_FROST = 8.0  # °C; no coil freezes in milder air
_FEWEST = 3  # points that make a line worth drawing


def curve_chart(basis: PackBasis) -> Chart:
    """How warm the water is at each outdoor temperature, with what that feels like."""
    outdoors = tuple(float(value) for value in range(_COLDEST, _MILDEST + 1))
    drawn = tuple(told_flow_temperature(basis.design, outdoor) for outdoor in outdoors)
    words = basis.words
    return Chart(
        kind="line",
        title=words("charts", "curve_title"),
        sentence=words(
            "charts",
            "curve_sentence",
            cold=shown(outdoors[0], "°C", 0),
            hot=shown(drawn[0], "°C", 0),
            mild=shown(outdoors[-1], "°C", 0),
            low=shown(drawn[-1], "°C", 0),
        ),
        x_axis=Axis(words("charts", "curve_x"), "°C"),
        y_axis=Axis(words("charts", "curve_y"), "°C"),
        x=outdoors,
        series=(Series(words("charts", "curve_series"), drawn),),
        zones=_feel_zones(basis, min(drawn), max(drawn)),
    )


def _feel_zones(basis: PackBasis, low: float, high: float) -> tuple[Zone, ...]:
    zones, start = [], 20.0
    for step in phrases(basis.language)["feel"]:
        end = min(float(step["below"]), 60.0)
        if end > low and start < high:
            zones.append(Zone(max(start, low - 2), min(end, high + 2), step["words"].split(";")[0]))
        start = end
    return tuple(zones)


def monthly_chart(basis: PackBasis) -> Chart:
    """Electricity by month with its range."""
    months = basis.numbers.months
    names = tuple(phrases(basis.language)["months"]["short"])
    low, values, high = (
        tuple(round(value, -1) for value in edge) for edge in _edges(months, "kWh")
    )  # nobody knows a month closer
    worst = values.index(max(values))
    words, told = basis.words, Speech(basis.language).two_digits
    return Chart(
        kind="band",
        title=words("charts", "monthly_title"),
        sentence=words(
            "charts",
            "monthly_sentence",
            year=basis.facts["energy"]["electricity_year"],
            month=phrases(basis.language)["months"]["names"][worst],
            value=told(months[worst].middle, "kWh"),
            low=told(months[worst].low, "kWh"),
            high=told(months[worst].high, "kWh"),
        ),
        x_axis=Axis(words("charts", "monthly_x")),
        y_axis=Axis(words("charts", "monthly_y"), "kWh"),
        x=names,
        series=(Series(words("charts", "monthly_series"), values, low, high),),
    )


def normal_chart(basis: PackBasis) -> Chart:
    """Electricity of a day by its outdoor temperature, with its range."""
    days, words = basis.numbers.days, basis.words
    low, values, high = _edges([day.electricity for day in days], "kWh")
    coldest, mildest = days[0], days[-1]
    speech = Speech(basis.language)
    return Chart(
        kind="band",
        title=words("charts", "normal_title"),
        sentence=words(
            "charts",
            "normal_sentence",
            cold=shown(coldest.outdoor, "°C", 0),
            most=speech.reach(coldest.electricity, "kWh", 0),
            mild=shown(mildest.outdoor, "°C", 0),
            least=speech.reach(mildest.electricity, "kWh", 0),
        ),
        x_axis=Axis(words("charts", "normal_x"), "°C"),
        y_axis=Axis(words("charts", "normal_y"), "kWh"),
        x=tuple(day.outdoor for day in days),
        series=(Series(words("charts", "normal_series"), values, low, high),),
    )


def defrost_chart(basis: PackBasis) -> Chart | None:
    """Defrosts of a day by its outdoor temperature, with their range; None where there are none."""
    days = [day for day in basis.numbers.days if day.outdoor <= _NO_FROST]
    if len(days) < _FEWEST or max(day.defrosts.high for day in days) < 1.0:
        return None
    words = basis.words
    often = max(days, key=lambda day: day.defrosts.high)
    return Chart(
        kind="band",
        title=words("charts", "defrosts_title"),
        sentence=words(
            "charts",
            "defrosts_sentence",
            at=shown(often.outdoor, "°C", 0),
            low=f"{often.defrosts.low:.0f}",
            high=f"{often.defrosts.high:.0f}",
        ),
        x_axis=Axis(words("charts", "normal_x"), "°C"),
        y_axis=Axis(words("charts", "defrosts_y")),
        x=tuple(day.outdoor for day in days),
        series=(
            Series(
                words("charts", "normal_series"),
                tuple(day.defrosts.middle for day in days),
                tuple(day.defrosts.low for day in days),
                tuple(day.defrosts.high for day in days),
            ),
        ),
    )


def _edges(spans: Sequence[Span], unit: str) -> tuple[tuple[float, ...], ...]:
    """Low, middle and high of each, as they are drawn."""
    return tuple(
        tuple(to_trade(value, unit) for value in values)
        for values in zip(*((span.low, span.middle, span.high) for span in spans), strict=True)
    )


def loss_by_room_chart(basis: PackBasis) -> Chart:
    """Heat each room needs on the design day."""
    loss = basis.design.heat_loss
    rooms = sorted(loss.rooms, key=lambda room: -room.total.value)
    return _bars(
        basis,
        "loss_rooms",
        [(room.room.name, room.total) for room in rooms],
        loss.total,
    )


def loss_by_element_chart(basis: PackBasis) -> Chart:
    """Heat that leaves through each kind of element on the design day."""
    loss = basis.design.heat_loss
    named = phrases(basis.language)["parts"]
    parts = [(named.get(kind, kind.replace("_", " ")), figure) for kind, figure in loss.by_element]
    return _bars(basis, "loss_elements", parts, loss.total)


def _bars(
    basis: PackBasis, name: str, parts: list[tuple[str, KeyFigure]], total: KeyFigure
) -> Chart:
    largest, value = max(parts, key=lambda part: part[1].value)
    words = basis.words
    sentence = words(
        "charts",
        f"{name}_sentence",
        room=largest,
        part=largest,
        value=value.shown(),
        total=total.shown(),
    )
    return Chart(
        kind="bar",
        title=words("charts", f"{name}_title"),
        sentence=sentence,
        x_axis=Axis(""),
        y_axis=Axis(words("charts", f"{name}_y"), "W"),
        x=tuple(part for part, _ in parts),
        series=(Series(words("charts", f"{name}_y"), tuple(f.value for _, f in parts)),),
    )
