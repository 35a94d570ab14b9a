"""The drawings of a home with their captions and what a person who cannot see them must know."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

from hearthbook.documents.blocks import Picture
from hearthbook.documents.drawings import Drawing
from hearthbook.documents.inline import escaped
from hearthbook.handover.basis import PackBasis
from hearthbook.handover.facts.metering import metering_facts
from hearthbook.handover.facts.speech import Speech
from hearthbook.handover.pictures.numbers import (
    hand_feel_strip,
    meter_display,
    thermostatic_scale,
)
from hearthbook.handover.pictures.place import clear_space, house_section
from hearthbook.handover.pictures.system import system_schematic
from hearthbook.handover.pictures.water import pressure_gauge, top_up_steps, valve_positions

__all__ = ["Name", "meter_pictures", "picture"]

Name = Literal[
    "clear_space",
    "hand_feel_strip",
    "head_scale",
    "house_section",
    "pressure_gauge",
    "system_schematic",
    "top_up_steps",
    "valve_positions",
]

_DRAWN: dict[Name, Callable[[PackBasis], Drawing | None]] = {
    "clear_space": clear_space,
    "hand_feel_strip": hand_feel_strip,
    "head_scale": thermostatic_scale,
    "house_section": house_section,
    "pressure_gauge": pressure_gauge,
    "system_schematic": system_schematic,
    "top_up_steps": top_up_steps,
    "valve_positions": valve_positions,
}


def picture(basis: PackBasis, name: Name) -> Picture | None:
    """A drawing of this home; None where the home has nothing to draw there."""
    drawing = _DRAWN[name](basis)
    if drawing is None:
        return None
    pressure = basis.facts["pressure"]
    values = {
        "home": basis.facts["home"]["name"],
        "cold": pressure["cold"],
        "hot": pressure["hot"],
        "top_up_below": pressure["top_up_below"],
        "call_above": pressure["call_above"],
        "clearances": basis.facts["unit"]["clearances"] or "",
        "feel": basis.facts["feel_line"],
    }
    alt = basis.words("pictures", f"{name}_alt", **values)
    caption = basis.words("pictures", f"{name}_caption", **values)
    return Picture(drawing, alt, escaped(caption))


def meter_pictures(basis: PackBasis) -> tuple[Picture, ...]:
    """The face of each meter, with the digits that count."""
    facts = metering_facts(basis.design, Speech(basis.language))["meters"]
    return tuple(
        Picture(
            meter_display(basis, meter),
            basis.words("pictures", "meter_alt", name=meter.name, how=fact["how"]),
            escaped(basis.words("pictures", "meter_caption", name=meter.name, place=meter.place)),
        )
        for meter, fact in zip(basis.design.home.meters, facts, strict=True)
    )
