"""How far a year's reality may lie from its estimate, and what each part of that rests on."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from hearthbook.documents.figures import KeyFigure, assumed

__all__ = ["EnergyRanges", "together", "usual_ranges"]

_HEAT_SHARE = 0.20  # common practice: calculated losses against bills
_EFFICIENCY_SHARE = 0.15  # common practice: units in homes against their test points
_HOT_WATER_EFFICIENCY_SHARE = 0.15  # common practice: the flow temperature climbs in a reheat
_YEAR_WEATHER = 1.0  # K; from memory: means of heating seasons, two standard deviations
_MONTH_WEATHER = 2.5  # K; from memory: monthly means, two standard deviations


@dataclass(frozen=True)
class EnergyRanges:
    """Half-widths that hold the truth 19 times in 20, as far as anybody can say.

    Attributes:
        heat_share: of the computed heat, from build, airing and habits.
        efficiency_share: of the unit's efficiency for rooms.
        hot_water_efficiency_share: of its efficiency for hot water.
        year_weather: of a heating season's mean temperature.
        month_weather: of a month's.
    """

    heat_share: KeyFigure
    efficiency_share: KeyFigure
    hot_water_efficiency_share: KeyFigure
    year_weather: KeyFigure
    month_weather: KeyFigure


def usual_ranges() -> EnergyRanges:
    """The usual ranges, each an assumption that readings over a winter will replace."""
    practice, memory = "common practice, no source", "from memory"
    return EnergyRanges(
        assumed("energy.heat_share", "how far real heat lies from computed heat", _HEAT_SHARE,
                "%", source=practice, note="build, airing and habits"),
        assumed("energy.efficiency_share", "how far efficiency in a home lies from tested points",
                _EFFICIENCY_SHARE, "%", source=practice,
                note="field trials find more homes below the tested points than above"),
        assumed("energy.hot_water_efficiency_share", "the same for hot water",
                _HOT_WATER_EFFICIENCY_SHARE, "%", source=practice),
        assumed("energy.year_weather", "how far a winter's mean lies from the usual one",
                _YEAR_WEATHER, "K", source=memory),
        assumed("energy.month_weather", "how far a month's mean lies from the usual one",
                _MONTH_WEATHER, "K", source=memory),
    )  # fmt: skip


def together(*parts: float) -> float:
    """Half-width of a sum whose parts err independently: root of the sum of squares.

    Example:
        >>> together(3.0, 4.0)
        5.0
    """
    return float(np.sqrt(np.sum(np.square(parts))))
