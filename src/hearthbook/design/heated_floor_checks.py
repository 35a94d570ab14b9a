"""Whether heated floors lose too much downward, or would be fed too hot."""

from __future__ import annotations

from collections.abc import Iterator

from hearthbook.design.results import Design
from hearthbook.design.room_elements import ElementLoss
from hearthbook.design.shortfall import Shortfall, falling_short
from hearthbook.documents.figures import KeyFigure, with_inputs
from hearthbook.physics.fabric import INSIDE_DOWNWARD
from hearthbook.record.emitters import Underfloor
from hearthbook.units import shown

__all__ = ["HOTTEST_AT_MANIFOLD", "heated_floor_shortfalls"]

_LEAKY = 0.5  # W/(m²·K) of the floor below the pipes; common practice, no source
HOTTEST_AT_MANIFOLD = 45.0  # °C without a mixing valve; makers' usual limit, from memory


def heated_floor_shortfalls(design: Design) -> Iterator[Shortfall]:
    """Where a heated floor warms the ground, or gets water hotter than floors are made for."""
    for room in design.emitters.rooms:
        for emitter in (one.emitter for one in room.emitters):
            if isinstance(emitter, Underfloor):
                yield from _downward(design, emitter)
                yield from _flow(design, emitter)


def _downward(design: Design, emitter: Underfloor) -> Iterator[Shortfall]:
    elements = (
        element
        for room in design.heat_loss.rooms
        if room.room.id == emitter.room
        for element in room.elements
        if element.kind == "ground_floor" and element.adjacent == "ground"
    )
    for element in elements:
        layers = _layers_of(element)
        leak = element.u_value.value if layers is None else 1 / (INSIDE_DOWNWARD + layers.value)
        if leak > _LEAKY:
            yield falling_short(
                f"Heat into the ground under the {emitter.name}",
                f"The floor lets about {shown(leak, 'W/(m²·K)')} through downward; about "
                f"{shown(_LEAKY, 'W/(m²·K)')} or less is usual under heated floors.",
                "Insulate below the pipes, or heat this room otherwise: what goes down is paid for "
                "and warms nobody, and the loss reckoned here does not count the floor's own heat.",
                layers,
                element.u_value,
            )


def _layers_of(element: ElementLoss) -> KeyFigure | None:
    """What the floor's own layers resist; the soil below hides how little that is."""
    wanted = f"{element.u_value.name}.resistance"
    return next((one for one in with_inputs(element.u_value) if one.name == wanted), None)


def _flow(design: Design, emitter: Underfloor) -> Iterator[Shortfall]:
    flow = design.emitters.flow_temperature
    if flow.value > HOTTEST_AT_MANIFOLD + 0.05:
        yield falling_short(
            f"Water too hot for the {emitter.name}",
            f"{flow.shown()} by design; {shown(HOTTEST_AT_MANIFOLD, '°C')} at the manifold is the "
            "most that is usual without a mixing valve.",
            "Design for cooler water, or fit a mixing valve with a limiter at the manifold and see "
            "that the floor still carries its room at the mixed temperature. The maker's own limit "
            "holds.",
            flow,
        )
