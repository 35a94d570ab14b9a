"""Charts of this home: the curve, the year by month, the loss by room and by part."""

from __future__ import annotations

from hearthbook.documents.charts import Axis, Chart, Series, Zone
from hearthbook.documents.figures import KeyFigure
from hearthbook.handover.basis import PackBasis
from hearthbook.handover.facts.told_curve import told_flow_temperature
from hearthbook.handover.wording import phrases
from hearthbook.units import shown, to_trade

__all__ = ["curve_chart", "loss_by_element_chart", "loss_by_room_chart", "monthly_chart"]

_COLDEST, _MILDEST = -5, 15  # °C, the outdoor temperatures drawn


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
    months = basis.design.fit.monthly
    names = tuple(phrases(basis.language)["months"]["short"])
    values = tuple(to_trade(month.electricity.value, "kWh") for month in months)
    low = tuple(to_trade(month.low.value, "kWh") for month in months)
    high = tuple(to_trade(month.high.value, "kWh") for month in months)
    worst = values.index(max(values))
    words = basis.words
    return Chart(
        kind="band",
        title=words("charts", "monthly_title"),
        sentence=words(
            "charts",
            "monthly_sentence",
            year=basis.facts["energy"]["electricity_year"],
            month=phrases(basis.language)["months"]["names"][worst],
            value=months[worst].electricity.shown(),
            low=months[worst].low.shown(),
            high=months[worst].high.shown(),
        ),
        x_axis=Axis(words("charts", "monthly_x")),
        y_axis=Axis(words("charts", "monthly_y"), "kWh"),
        x=names,
        series=(Series(words("charts", "monthly_series"), values, low, high),),
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
