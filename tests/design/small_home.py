"""A home as small as a sum needs: rooms with a given load, emitters with a given rating."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import Any

from hearthbook.design.heat_loss import HeatLoss, RoomLoss
from hearthbook.documents.figures import KeyFigure, given
from hearthbook.readers.record_file import read_home
from hearthbook.record.building import Room
from hearthbook.record.controls import Controls
from hearthbook.record.home import Home

__all__ = ["figure", "panel", "small_home", "small_loss", "underfloor"]

_RECORD = Path(__file__).parents[2] / "examples" / "well_done" / "home.yaml"


@cache
def _whole_home() -> Home:
    return read_home(_RECORD)


def figure(name: str, value: float, unit: str) -> KeyFigure:
    return given(name, name, value, unit, place="a test")


def panel(name: str, room: str, rated_output: float | None, **more: Any) -> dict[str, Any]:
    """A panel radiator of type 22, 600 by 1000 mm, unless told otherwise."""
    return {
        "id": name, "number": 1, "name": name, "room": room, "kind": "panel_radiator",
        "panel_type": "22", "height": 600, "length": 1000, "valve": "thermostatic",
        "rated_output": rated_output, "exponent": 1.3, **more,
    }  # fmt: skip


def underfloor(name: str, room: str, area: float, **more: Any) -> dict[str, Any]:
    """Pipes of 16 mm every 150 mm under 45 mm of screed and tiles."""
    return {
        "id": name, "number": 2, "name": name, "room": room, "kind": "underfloor",
        "area": area, "spacing": 150, "pipe_diameter": 16, "covering_resistance": 0.01,
        "screed_thickness": 45, "screed_conductivity": 1.2, "valve": "motorised", **more,
    }  # fmt: skip


def small_home(
    emitters: Sequence[Mapping[str, Any]],
    *,
    flow: float | None = 45.0,
    drop: float | None = 5.0,
    controls: Mapping[str, Any] | None = None,
) -> Home:
    """The example home with other emitters, design temperatures and controls."""
    whole = _whole_home()
    plant = whole.plant.model_copy(update={"design_flow_temperature": flow, "design_drop": drop})
    written = Home.model_validate(
        {**whole.model_dump(mode="json", by_alias=True), "emitters": [dict(e) for e in emitters]}
    ).emitters
    update: dict[str, Any] = {"plant": plant, "emitters": written}
    if controls is not None:
        update["controls"] = Controls.model_validate({"description": "a panel", **controls})
    return whole.model_copy(update=update)


def small_loss(
    loads: Mapping[str, float],
    *,
    room_temperature: float = 20.0,
    outdoor: float = -3.0,
    base: float = 20.0,
    coefficient: float = 200.0,
    use: str = "living",
) -> HeatLoss:
    """A heat loss with these rooms and loads, all at one temperature."""
    none = figure("none", 0.0, "W")
    rooms = tuple(
        RoomLoss(
            room=Room.model_validate(
                {"id": name, "name": name, "use": use, "storey": "ground", "floor_area": 15,
                 "elements": []}
            ),
            temperature=figure(f"{name}.temperature", room_temperature, "°C"),
            floor_area=figure(f"{name}.area", 15.0, "m²"),
            volume=figure(f"{name}.volume", 36.0, "m³"),
            elements=(),
            transmission=none,
            ventilation=none,
            reheat=none,
            total=figure(f"{name}.total", load, "W"),
        )
        for name, load in loads.items()
    )  # fmt: skip
    return HeatLoss(
        outdoor_temperature=figure("outdoor", outdoor, "°C"),
        annual_mean_temperature=figure("mean", 10.0, "°C"),
        rooms=rooms,
        transmission=none,
        ventilation=none,
        total=figure("total", sum(loads.values()), "W"),
        coefficient=figure("coefficient", coefficient, "W/K"),
        base_temperature=figure("base", base, "°C"),
        indoor_temperature=figure("indoor", room_temperature, "°C"),
        floor_area=figure("area", 15.0 * len(loads), "m²"),
        volume=figure("volume", 36.0 * len(loads), "m³"),
        specific_loss=figure("specific", 50.0, "W/m²"),
        by_element=(),
        bill_check=None,
    )
