"""One home's arrays for the compiled year, with everything that was assumed on the way."""

from __future__ import annotations

from dataclasses import dataclass

from hearthbook.design.results import Design
from hearthbook.documents.figures import KeyFigure
from hearthbook.errors import Incomplete
from hearthbook.simulate.home_model import HomeModel
from hearthbook.year.emitter_arrays import emitter_arrays, on_floors
from hearthbook.year.plant_record import plant_record
from hearthbook.year.room_network import room_network
from hearthbook.year.unit_performance import unit_performance

__all__ = ["YearModel", "year_model"]


@dataclass(frozen=True)
class YearModel:
    """A home ready to be run through weather.

    Attributes:
        design: that it was made from.
        home: the arrays.
        assumptions: what stood in for what the record does not say.
    """

    design: Design
    home: HomeModel
    assumptions: tuple[KeyFigure, ...]


def year_model(design: Design) -> YearModel:
    """The model of a home.

    Args:
        design: of the home.

    Raises:
        Incomplete: a fact the year rests on is missing and nobody may assume it.
        OutOfRange: a room, emitter or unit that no loop can run.
    """
    if not design.emitters.emitters:
        raise Incomplete(
            "the home has no emitter, so nothing warms its rooms. Record what heats them under "
            "emitters."
        )
    network = room_network(design)
    fitted = on_floors(emitter_arrays(design, network.room_ids), network.rooms)
    unit = unit_performance(design)
    plant = plant_record(design, network.room_ids)
    return YearModel(
        design=design,
        home=HomeModel(
            rooms=fitted.rooms,
            links=network.links,
            emitters=fitted.arrays.emitters,
            performance=unit.performance,
            plant=plant.plant,
            glazing=network.glazing,
            room_ids=network.room_ids,
            room_names=network.room_names,
            emitter_ids=fitted.arrays.emitter_ids,
        ),
        assumptions=(*network.assumptions, *fitted.arrays.assumptions, *plant.figures),
    )
