"""One home: everything known about it, in chapters."""

from __future__ import annotations

import datetime as dt
from typing import Annotated, Literal

from pydantic import Field

from hearthbook.record.building import Building, Construction, Room, Storey
from hearthbook.record.commissioning import Commissioning
from hearthbook.record.controls import Controls
from hearthbook.record.electrical import Electrical
from hearthbook.record.emitters import Emitter
from hearthbook.record.firm import Firm
from hearthbook.record.household import Household
from hearthbook.record.metering import Meter
from hearthbook.record.parts import Part, Words
from hearthbook.record.pipework import Pipework
from hearthbook.record.plant import Plant
from hearthbook.record.siting import Siting
from hearthbook.record.tariff import Tariff

__all__ = ["FORMAT_VERSION", "Home", "PartName"]

FORMAT_VERSION = 1

PartName = Literal[
    "outdoor_unit",
    "heat_pump_controller",
    "cylinder",
    "diverter_valve",
    "volumiser",
    "buffer",
    "backup_heater",
    "expansion_vessel",
    "drinking_water_vessel",
    "safety_valve",
    "relief_discharge",
    "pressure_gauge",
    "filling_connection",
    "filling_hose",
    "filter",
    "pump",
    "underfloor_manifold",
    "air_vents",
    "freeze_valves",
    "thermostat",
    "immersion_switch",
    "consumer_unit",
    "outdoor_sensor",
    "water_stop_tap",
    "documents",
    "condensate_drain",
]


class Home(Part):
    """The record of one home."""

    hearthbook: Literal[1]
    """Version of this file's format."""
    reference: Annotated[str, Field(pattern=r"^[A-Za-z0-9][A-Za-z0-9_/-]{0,40}$")]
    """The firm's reference of the job."""
    name: Words
    """What the home is called."""
    issued: dt.date
    """Date printed on everything made from this record."""
    revision: Annotated[int, Field(ge=1, le=999)] = 1
    """Number of the issue, 1 for the first."""
    household: Household
    """The people."""
    building: Building
    """The property."""
    emitters: tuple[Emitter, ...]
    """What heats the rooms."""
    pipework: Pipework
    """The pipes."""
    plant: Plant
    """The plant."""
    controls: Controls
    """The controls."""
    meters: tuple[Meter, ...] = ()
    """The meters."""
    siting: Siting
    """Where the outdoor unit stands."""
    electrical: Electrical = Electrical()
    """Electrical facts to be shown."""
    tariff: Tariff | None = None
    """What energy costs."""
    places: dict[PartName, Words] = Field(default_factory=dict)
    """Where each part is in this home, in words the household uses."""
    commissioning: Commissioning | None = None
    """What was set, measured and checked."""
    firm: Firm
    """Whom to call."""

    def room(self, room_id: str) -> Room:
        """The room with this id."""
        return next(room for room in self.building.rooms if room.id == room_id)

    def emitter(self, emitter_id: str) -> Emitter:
        """The emitter with this id."""
        return next(emitter for emitter in self.emitters if emitter.id == emitter_id)

    def construction(self, construction_id: str) -> Construction:
        """The construction with this id."""
        return next(item for item in self.building.constructions if item.id == construction_id)

    def storey(self, storey_id: str) -> Storey:
        """The storey with this id."""
        return next(storey for storey in self.building.storeys if storey.id == storey_id)

    def emitters_of(self, room_id: str) -> tuple[Emitter, ...]:
        """The emitters that heat a room."""
        return tuple(emitter for emitter in self.emitters if emitter.room == room_id)

    def place(self, part: PartName) -> str | None:
        """Where a part is, in the household's words; None where nobody wrote it down."""
        return self.places.get(part)
