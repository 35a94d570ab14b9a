"""What a four-pipe buffer costs where the flows on its two sides do not match."""

from __future__ import annotations

from hearthbook.design.emitters import EmitterSchedule
from hearthbook.documents.figures import KeyFigure, calculated
from hearthbook.physics import water_volume as physics
from hearthbook.record.home import Home

__all__ = ["flow_temperature_behind_buffer"]


def flow_temperature_behind_buffer(
    home: Home, emitters: EmitterSchedule, system: KeyFigure, nominal: KeyFigure | None
) -> KeyFigure | None:
    """The flow temperature the rooms get; None without a buffer or the unit's own flow.

    Args:
        home: the record.
        emitters: design temperatures.
        system: flow the emitters need.
        nominal: flow the unit moves on its side.
    """
    added = home.plant.added_volume
    if added is None or added.kind != "buffer" or nominal is None or nominal.value <= 0:
        return None
    flow, back = emitters.flow_temperature, emitters.return_temperature
    value = flow.value
    if system.value > nominal.value:
        value = float(
            physics.separator_flow_temperature(nominal.value, system.value, flow.value, back.value)
        )
    is_cooler = value < flow.value
    return calculated(
        "hydraulics.flow_temperature_behind_buffer", "flow temperature behind the buffer", value,
        "°C", formula="Tf' = (qp·Tf + (qs − qp)·Tr)/qs where qs > qp, else Tf",
        inputs=(nominal, system, flow, back), source="mixing of two streams, derived",
        note="Cooler than the unit makes it: match the flows." if is_cooler else "",
    )  # fmt: skip
