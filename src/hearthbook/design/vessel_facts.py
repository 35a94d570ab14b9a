"""The expansion vessel as built and as left: what the record holds, and what stands in."""

from __future__ import annotations

from dataclasses import dataclass

from hearthbook.documents.figures import Basis, KeyFigure, Working, assumed, calculated, given
from hearthbook.errors import OutOfRange
from hearthbook.physics import vessel
from hearthbook.record.commissioning import Reading, ReadingKind
from hearthbook.record.home import Home
from hearthbook.record.plant import ExpansionVessel

__all__ = ["VesselFacts", "reading_figure", "standard_size", "vessel_facts"]

_PRACTICE = "common practice, no source"
_LEAST_PRECHARGE = 0.7e5  # Pa; makers usually ask 0.7 to 1.0 bar, common practice, no source
_COLD_MARGIN = 0.3e5  # Pa of cold fill over the precharge; common practice, no source
_MENDED_BEYOND = 0.3e5  # Pa off the precharge wanted; common practice, no source
_USUAL_VALVE = 3e5  # Pa; United Kingdom domestic sealed systems, sizing table to BS 7074
_STANDARD_SIZES = (8e-3, 12e-3, 18e-3, 24e-3, 35e-3, 50e-3, 80e-3, 100e-3, 140e-3, 200e-3)  # m³


@dataclass(frozen=True)
class VesselFacts:
    """What is known of the heating circuit's vessel.

    Attributes:
        installed: the vessels together; None where none is recorded.
        safety_valve: pressure at which the heating safety valve opens.
        precharge_wanted: gas pressure the home asks for, or a higher one chosen for its vessel.
        precharge_found: as measured, else as recorded; None where neither is known.
        precharge_healthy: the one found, unless it is so far from the one wanted that it must be
            mended: then the one wanted.
        cold_fill: cold pressure that goes with the healthy precharge.
        cold_fill_found: the last cold pressure read; None where none was.
    """

    installed: KeyFigure | None
    safety_valve: KeyFigure
    precharge_wanted: KeyFigure
    precharge_found: KeyFigure | None
    precharge_healthy: KeyFigure
    cold_fill: KeyFigure
    cold_fill_found: KeyFigure | None


def vessel_facts(home: Home) -> VesselFacts:
    """What the record holds of the heating circuit's vessel, and what the home asks of it.

    Raises:
        OutOfRange: the safety valve opens before the system is filled.
    """
    vessels = [v for v in home.plant.expansion_vessels if v.circuit == "heating" and v.volume > 0]
    volumes = [_volume(v) for v in vessels]
    wanted = _precharge_wanted(home, vessels)
    found = _precharge_found(home, vessels)
    healthy = _healthy(found, wanted)
    cold_fill, safety_valve = _cold_fill(healthy), _safety_valve(home)
    _check_room(cold_fill, safety_valve)
    cold = _last(home, ReadingKind.COLD_PRESSURE)
    return VesselFacts(
        installed=_together(volumes) if volumes else None,
        safety_valve=safety_valve,
        precharge_wanted=wanted,
        precharge_found=found,
        precharge_healthy=healthy,
        cold_fill=cold_fill,
        cold_fill_found=None if cold is None else reading_figure(cold, "cold pressure as left"),
    )


def standard_size(needed: KeyFigure) -> KeyFigure:
    """The next vessel of a usual size, assumed where the record names none."""
    value = next((size for size in _STANDARD_SIZES if size >= needed.value), needed.value)
    return assumed(
        "expansion.vessel_installed", "expansion vessel", value, "L", source=_PRACTICE,
        note="No vessel is recorded; the next usual size above the need stands in.",
    )  # fmt: skip


def reading_figure(reading: Reading, label: str) -> KeyFigure:
    """A reading of the commissioning as a measured figure."""
    name = ".".join(part for part in ("readings", str(reading.kind), reading.of or "") if part)
    working = Working(source="record: commissioning.readings", note=reading.note)
    return KeyFigure(name, label, reading.in_si, reading.unit, Basis.MEASURED, working)


def _last(home: Home, kind: ReadingKind, of: tuple[str | None, ...] = ()) -> Reading | None:
    readings = home.commissioning.readings if home.commissioning is not None else ()
    found = [r for r in readings if r.kind is kind and (not of or r.of in of)]
    return found[-1] if found else None


def _volume(item: ExpansionVessel) -> KeyFigure:
    name = f"plant.expansion_vessels.{item.id}.volume"
    label = "expansion vessel, nominal volume"
    return given(name, label, item.volume, "L", place="plant.expansion_vessels")


def _together(volumes: list[KeyFigure]) -> KeyFigure:
    return calculated(
        "expansion.vessel_installed", "expansion vessel fitted", sum(v.value for v in volumes), "L",
        formula="ΣVn", inputs=tuple(volumes), source="sum of the vessels",
    )  # fmt: skip


def _safety_valve(home: Home) -> KeyFigure:
    name, label = "expansion.safety_valve", "safety valve opens at"
    settings = [
        (valve.setting, place)
        for place, valve in enumerate(home.plant.safety_valves)
        if valve.circuit == "heating"
    ]
    if not settings:
        return assumed(
            name, label, _USUAL_VALVE, "bar",
            source="3 bar, United Kingdom domestic sealed systems, sizing table to BS 7074",
        )  # fmt: skip
    setting, place = min(settings)
    return given(name, label, setting, "bar", place=f"plant.safety_valves[{place}].setting")


def _precharge_wanted(home: Home, vessels: list[ExpansionVessel]) -> KeyFigure:
    margin = assumed(
        "expansion.precharge_margin", "precharge over the water above", vessel.PRECHARGE_MARGIN,
        "bar", source="EN 12828, from memory",
    )  # fmt: skip
    least = assumed(
        "expansion.least_precharge", "least precharge makers usually ask", _LEAST_PRECHARGE, "bar",
        source=_PRACTICE,
    )  # fmt: skip
    above = _height_above(home)
    own = float(vessel.precharge(vessel.static_pressure(above.value), margin.value))
    chosen = tuple(figure for item in vessels if (figure := _chosen_precharge(item)) is not None)
    return calculated(
        "expansion.precharge_wanted", "precharge wanted",
        max(own, least.value, *(one.value for one in chosen)), "bar",
        formula="max(h/10.2 + margin, least, chosen)", inputs=(above, margin, least, *chosen),
        source="EN 12828 annex D, from memory",
    )  # fmt: skip


def _height_above(home: Home) -> KeyFigure:
    name, label = "expansion.height_above_vessel", "height of the highest emitter above the vessel"
    height = home.pipework.height_above_vessel
    if height is not None:
        return given(name, label, height, "m", place="pipework.height_above_vessel")
    return assumed(
        name, label, sum(storey.height for storey in home.building.storeys), "m", source=_PRACTICE,
        note="All storeys together: the vessel is taken to stand at the lowest floor.",
    )  # fmt: skip


def _chosen_precharge(item: ExpansionVessel) -> KeyFigure | None:
    if item.precharge is None:
        return None
    name = f"plant.expansion_vessels.{item.id}.precharge"
    return given(name, "precharge set", item.precharge, "bar", place="plant.expansion_vessels")


def _precharge_found(home: Home, vessels: list[ExpansionVessel]) -> KeyFigure | None:
    """One precharge for all vessels: by Boyle, their gas together in their volume together."""
    found = [(v, _one_precharge(home, v, len(vessels) == 1)) for v in vessels]
    known = [(v, figure) for v, figure in found if figure is not None]
    if not known:
        return None
    if len(known) == 1:
        return known[0][1]
    volume = sum(v.volume for v, _ in known)
    value = sum(v.volume * figure.value for v, figure in known) / volume
    return calculated(
        "expansion.precharge_found", "precharge found, all vessels", value, "bar",
        formula="Σ(p0·Vn) / ΣVn", inputs=tuple(figure for _, figure in known),
        source="Boyle's law, derived",
    )  # fmt: skip


def _one_precharge(home: Home, item: ExpansionVessel, is_only: bool) -> KeyFigure | None:
    of = (item.id, None) if is_only else (item.id,)
    reading = _last(home, ReadingKind.VESSEL_PRECHARGE, of)
    if reading is not None:
        return reading_figure(reading, "precharge measured")
    return _chosen_precharge(item)


def _healthy(found: KeyFigure | None, wanted: KeyFigure) -> KeyFigure:
    """The precharge a healthy vessel of this home has; never below the one wanted."""
    if found is None or abs(found.value - wanted.value) > _MENDED_BEYOND:
        return wanted
    return max(found, wanted, key=lambda figure: figure.value)


def _check_room(cold: KeyFigure, valve: KeyFigure) -> None:
    """Refuse a valve that opens before the system is filled."""
    if cold.value > float(vessel.final_pressure(valve.value)):
        raise OutOfRange(
            f"the heating system must be filled to {cold.shown()}, but its safety valve opens at "
            f"{valve.shown()}, which leaves the water no room to grow. Check "
            "pipework.height_above_vessel, the vessel's precharge and plant.safety_valves."
        )


def _cold_fill(precharge: KeyFigure) -> KeyFigure:
    margin = assumed(
        "expansion.cold_margin", "cold fill over the precharge", _COLD_MARGIN, "bar",
        source=_PRACTICE,
    )  # fmt: skip
    return calculated(
        "expansion.cold_fill", "cold fill wanted", precharge.value + margin.value, "bar",
        formula="pc = p0 + 0.3 bar", inputs=(precharge, margin), source=_PRACTICE,
    )  # fmt: skip
