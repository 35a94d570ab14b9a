"""Whether the design is good enough, and if not why and what to do."""

from __future__ import annotations

from collections.abc import Iterator

from hearthbook.design.condensate import DrainVerdict
from hearthbook.design.heat_pump_fit import CapacityFit
from hearthbook.design.heated_floor_checks import heated_floor_shortfalls
from hearthbook.design.results import Design
from hearthbook.design.room_checks import room_shortfalls
from hearthbook.design.shortfall import Shortfall, falling_short
from hearthbook.design.water_checks import water_shortfalls
from hearthbook.units import shown

__all__ = ["shortfalls"]


def shortfalls(design: Design) -> tuple[Shortfall, ...]:
    """Everything in which the design falls short, in the order of the job."""
    parts = (room_shortfalls, heated_floor_shortfalls, water_shortfalls, _unit, _cold_air, _sound,
             _drain)  # fmt: skip
    return tuple(found for part in parts for found in part(design))


def _unit(design: Design) -> Iterator[Shortfall]:
    fit = design.fit
    if fit.capacity_fit is not CapacityFit.RIGHT:
        is_short = fit.capacity_fit is CapacityFit.SHORT
        yield falling_short(
            "Size of the heat pump",
            f"It gives {fit.capacity_at_design.shown()} at the design temperature, "
            f"{fit.capacity_ratio.shown()} of what is needed with hot water counted.",
            "A larger unit, less loss, or backup with its cost told."
            if is_short
            else "Check the heat loss for stacked margins before ordering; it will stop and start.",
            fit.capacity_at_design,
            fit.capacity_ratio,
        )


def _cold_air(design: Design) -> Iterator[Shortfall]:
    lowest = design.home.plant.heat_pump.lowest_outdoor_temperature
    outdoor = design.heat_loss.outdoor_temperature
    if lowest is not None and outdoor.value < lowest:
        yield falling_short(
            "Air colder than the unit runs in",
            f"The unit stops below {shown(lowest, '°C')}; the design temperature is "
            f"{outdoor.shown()}.",
            "Another unit, or backup for the whole loss, with its cost told.",
            outdoor,
        )


def _sound(design: Design) -> Iterator[Shortfall]:
    for window in design.sound:
        if window.limit is not None and window.level.value > window.limit.value:
            yield falling_short(
                f"Sound at {window.name}",
                f"{window.level.shown()} predicted, {window.limit.shown()} allowed.",
                "Move the unit, hide it by a solid barrier, or a quieter unit.",
                window.level,
            )


def _drain(design: Design) -> Iterator[Shortfall]:
    drain = design.condensate
    if drain.verdict is DrainVerdict.SMALL and drain.soakaway_found is not None:
        yield falling_short(
            "Soakaway for the meltwater",
            f"{drain.soakaway_found.shown()} of gravel, {drain.soakaway_needed.shown()} needed.",
            "Enlarge the pit, or lead the water to a drain with a frost-safe trap.",
            drain.soakaway_needed,
            drain.soakaway_found,
        )
    if drain.crosses_path:
        yield falling_short(
            "Meltwater reaches a path",
            f"Up to {drain.per_day.shown()} on a damp day can freeze where people walk.",
            "Lead it away under the path.",
            drain.per_day,
        )
