"""Heat, electricity and money of a year or a month, part by part."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from numpy.typing import NDArray

from hearthbook.design.prices import price_figures
from hearthbook.documents.figures import KeyFigure
from hearthbook.record.tariff import Tariff
from hearthbook.year.standing import Standing

__all__ = ["Efficiency", "Electricity", "Energy", "efficiency_of", "energy_of"]


# quantity of the run, name, label
_PARTS = (
    ("electricity_rooms", "rooms", "compressor for the rooms"),
    ("electricity_cylinder", "hot_water", "compressor for hot water"),
    ("electricity_defrost", "defrost", "compressor while defrosting"),
    ("electricity_pump", "pump", "pump and fans of emitters"),
    ("electricity_standby", "standby", "standby and crankcase heat"),
    ("heat_backup", "backup", "backup heater"),
    ("heat_immersion", "immersion", "immersion heater"),
)


@dataclass(frozen=True)
class Electricity:
    """Electricity by what took it.

    Attributes:
        rooms: the compressor while heating rooms, its fan included.
        hot_water: the same while making hot water.
        defrost: the same while defrosting.
        pump: circulation pump, and fans of emitters.
        standby: standby and crankcase heat.
        backup: backup heater.
        immersion: immersion heater.
        total: their sum.
    """

    rooms: KeyFigure
    hot_water: KeyFigure
    defrost: KeyFigure
    pump: KeyFigure
    standby: KeyFigure
    backup: KeyFigure
    immersion: KeyFigure
    total: KeyFigure

    @property
    def parts(self) -> tuple[KeyFigure, ...]:
        """All but the total."""
        return (self.rooms, self.hot_water, self.defrost, self.pump, self.standby, self.backup,
                self.immersion)  # fmt: skip


@dataclass(frozen=True)
class Energy:
    """Heat, electricity and cost of a span.

    Attributes:
        heat_rooms: given to the heating water for the rooms, less what defrosts took from it.
        heat_hot_water: given to the cylinder's side.
        heat_defrost: taken from the heating water by defrosts.
        electricity: by part.
        cost: without the standing charge; None without a tariff.
    """

    heat_rooms: KeyFigure
    heat_hot_water: KeyFigure
    heat_defrost: KeyFigure
    electricity: Electricity
    cost: KeyFigure | None


@dataclass(frozen=True)
class Efficiency:
    """Seasonal efficiency within three boundaries.

    Attributes:
        heat_pump: the heat pump alone.
        with_heaters: with backup and immersion heater.
        all_counted: with pump and standby too.
    """

    heat_pump: KeyFigure
    with_heaters: KeyFigure
    all_counted: KeyFigure


def energy_of(
    standing: Standing,
    days: NDArray[Any],
    tariff: Tariff | None,
    stem: str = "",
    span: str = "",
) -> Energy:
    """Heat, electricity and cost of some days.

    Args:
        standing: of the year.
        days: records of `TOTALS`.
        tariff: that the run was priced by; None without one.
        stem: of the figures' names within `year.`, such as `months.january.`.
        span: what they are of, for the labels.
    """
    said = span or standing.span
    sums = {name: float(days[name].sum()) / standing.years for name in days.dtype.names or ()}

    def heat(name: str, label: str, value: float, formula: str) -> KeyFigure:
        return standing.figure(
            f"{stem}heat.{name}", f"{label} {said}", value, "kWh", formula=formula
        )

    parts = {
        name: standing.figure(f"{stem}electricity.{name}", f"electricity of the {label} {said}",
                        sums[quantity], "kWh", formula="sum over the minutes")
        for quantity, name, label in _PARTS
    }  # fmt: skip
    total = standing.figure(
        f"{stem}electricity.total", f"electricity {said}",
        sum(part.value for part in parts.values()), "kWh", formula="sum of the parts",
        inputs=tuple(parts.values()),
    )  # fmt: skip
    return Energy(
        heat_rooms=heat("rooms", "heat for the rooms",
                        sums["heat_rooms"] + sums["heat_backup"] - sums["heat_defrost"],
                        "unit + backup heater - what defrosts take back, over the minutes"),
        heat_hot_water=heat("hot_water", "heat for hot water",
                            sums["heat_cylinder"] + sums["heat_immersion"],
                            "unit + immersion heater, over the minutes"),
        heat_defrost=heat("defrost", "heat that defrosts take from the water",
                          sums["heat_defrost"], "sum over the minutes"),
        electricity=Electricity(**parts, total=total),
        cost=_cost(standing, sums["cost"], tariff, stem, said),
    )  # fmt: skip


def _cost(
    standing: Standing, cost: float, tariff: Tariff | None, stem: str, span: str
) -> KeyFigure | None:
    if tariff is None:
        return None
    return standing.figure(
        f"{stem}cost", f"cost of electricity {span}, without the standing charge", cost,
        tariff.currency,
        formula="sum over the minutes of electricity · price of that minute",
        inputs=(standing.run, *price_figures(tariff)),
    )  # fmt: skip


def efficiency_of(standing: Standing, whole: Energy) -> Efficiency:
    """Seasonal efficiency of the whole run, each with its boundary named.

    Source:
        Boundaries as in the SEPEMO-Build project's guideline for field measurements, 2012, H2 to
        H4, from memory; here standby is counted in the widest.
    """
    electricity, heat = whole.electricity, (whole.heat_rooms, whole.heat_hot_water)
    compressor = (electricity.rooms, electricity.hot_water, electricity.defrost)
    heaters = (electricity.backup, electricity.immersion)

    def ratio(
        name: str,
        label: str,
        note: str,
        less: tuple[KeyFigure, ...],
        taken: tuple[KeyFigure, ...],
    ) -> KeyFigure:
        given = sum(one.value for one in heat) - sum(one.value for one in less)
        used = sum(one.value for one in taken)
        return standing.figure(
            f"efficiency.{name}", f"seasonal efficiency, {label}", given / used if used else 0.0,
            "", formula="heat for rooms and hot water" + (" - heat of the heaters" if less else "")
            + ", over electricity within the boundary", inputs=(*heat, *taken, *less),
            note=f"boundary: {note}",
        )  # fmt: skip

    return Efficiency(
        heat_pump=ratio("heat_pump", "heat pump alone", "compressor and fan, defrosts in it",
                        heaters, compressor),
        with_heaters=ratio("with_heaters", "with backup and immersion heater",
                           "compressor, fan and electric heaters", (), (*compressor, *heaters)),
        all_counted=ratio("all_counted", "all counted",
                          "compressor, fan, electric heaters, pump and standby", (),
                          electricity.parts),
    )  # fmt: skip
