"""The plant's results of a home, and homes with something changed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from hearthbook.design.emitters import emitter_schedule
from hearthbook.design.heat_loss import HeatLoss, heat_loss
from hearthbook.design.heat_pump_fit import HeatPumpFit, heat_pump_fit
from hearthbook.design.weather_curve import WeatherCurve, weather_curve
from hearthbook.documents.figures import Basis, KeyFigure, book_of
from hearthbook.record.home import Home

__all__ = ["PlantOfAHome", "changed", "plant_of", "unfounded"]


@dataclass(frozen=True)
class PlantOfAHome:
    home: Home
    loss: HeatLoss
    curve: WeatherCurve
    fit: HeatPumpFit


def plant_of(home: Home) -> PlantOfAHome:
    loss = heat_loss(home)
    curve = weather_curve(home, loss, emitter_schedule(home, loss))
    return PlantOfAHome(home, loss, curve, heat_pump_fit(home, loss, curve))


def changed(home: Home, path: str, **values: Any) -> Home:
    """The home with values replaced in the part at a dotted path, such as `plant.heat_pump`."""
    new: Home = _changed(home, path.split(".") if path else [], values)
    return new


def _changed(part: Any, path: list[str], values: Mapping[str, Any]) -> Any:
    if not path:
        return part.model_copy(update=dict(values))
    inner = _changed(getattr(part, path[0]), path[1:], values)
    return part.model_copy(update={path[0]: inner})


def unfounded(thing: object) -> list[str]:
    """Figures that were calculated from nothing."""
    return [name for name, figure in book_of(thing).items() if _is_unfounded(figure)]


def _is_unfounded(figure: KeyFigure) -> bool:
    return figure.basis is Basis.CALCULATED and not (
        figure.working.inputs and figure.working.formula and figure.working.source
    )
