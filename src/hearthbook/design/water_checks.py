"""Whether water, vessels, pipes and hot water are good enough."""

from __future__ import annotations

from collections.abc import Iterator

from hearthbook.design.hot_water import CoilFit, HygieneNeed
from hearthbook.design.pipe_flows import PipeResult
from hearthbook.design.results import Design
from hearthbook.design.shortfall import Shortfall, falling_short
from hearthbook.units import shown

__all__ = ["water_shortfalls"]


def water_shortfalls(design: Design) -> Iterator[Shortfall]:
    """Where the heating water, its vessel and pipes, or hot water fall short."""
    for part in (_volume, _vessel, _pipes, _hot_water, _hygiene_run):
        yield from part(design)


def _volume(design: Design) -> Iterator[Shortfall]:
    volume = design.volume
    if volume.spare.value < 0:
        yield falling_short(
            "Water that always circulates",
            f"{volume.open.shown()} stay open, {volume.needed.shown()} are needed.",
            "Keep more emitters open for ever and label them, or fit a volumiser of "
            f"{volume.added_volume_needed.shown()}.",
            volume.open,
            volume.needed,
            volume.spare,
        )


def _vessel(design: Design) -> Iterator[Shortfall]:
    expansion = design.expansion
    if expansion.vessel_spare.value < 0:
        yield falling_short(
            "Expansion vessel",
            f"{expansion.vessel_installed.shown()} fitted, "
            f"{expansion.nominal_vessel_needed.shown()} needed.",
            "Fit a larger or a second vessel.",
            expansion.nominal_vessel_needed,
            expansion.vessel_spare,
        )
    if expansion.margin.value < 0:
        yield falling_short(
            "Safety valve in reach",
            f"Hot, the pressure comes within {expansion.margin.shown()} of what is allowed.",
            "Set the vessel's gas charge and the cold fill to the targets, then look again.",
            expansion.margin,
        )
    drinking = expansion.drinking_water
    if drinking is not None and drinking.spare.value < 0:
        yield falling_short(
            "Drinking-water expansion vessel",
            f"{drinking.installed.shown()} fitted, {drinking.nominal_needed.shown()} needed.",
            "Work for a person qualified for unvented hot water: fit a larger vessel.",
            drinking.spare,
        )


def _pipes(design: Design) -> Iterator[Shortfall]:
    hydraulics = design.hydraulics
    for pipe in hydraulics.pipes:
        yield from _pipe(pipe)
    if hydraulics.pump_spare is not None and hydraulics.pump_spare.value < 0:
        yield falling_short(
            "Pump",
            f"The index circuit costs {hydraulics.index_loss.shown()}; the pump lacks "
            f"{-hydraulics.pump_spare.value / 1e3:.1f} kPa.",
            "Larger pipes on the index circuit, or a second look at filter and valves.",
            hydraulics.index_loss,
            hydraulics.pump_spare,
        )
    margin = hydraulics.minimum_flow_margin
    if margin is not None and margin.value < 0:
        yield falling_short(
            "Flow below the unit's minimum",
            f"{hydraulics.system_flow.shown()} by design.",
            "Design for a smaller flow–return difference.",
            hydraulics.system_flow,
            margin,
        )


def _pipe(pipe: PipeResult) -> Iterator[Shortfall]:
    if pipe.verdict in ("fast", "steep"):
        yield falling_short(
            f"Pipe: {pipe.name}",
            f"{pipe.flow.shown()} run at {pipe.velocity.shown()} and cost {pipe.gradient.shown()}.",
            "A larger tube here, or a larger flow–return difference.",
            pipe.velocity,
            pipe.gradient,
        )


def _hot_water(design: Design) -> Iterator[Shortfall]:
    water = design.hot_water
    if water is None:
        return
    if water.spare.value < 0:
        yield falling_short(
            "Hot water in the busiest hour",
            f"{water.peak.total.shown()} wanted, {water.peak_supply.shown()} there.",
            "Spread the draws, start an extra run before, or a larger cylinder.",
            water.peak.total,
            water.spare,
        )
    if water.flow_spare is not None and water.flow_spare.value < 0:
        yield falling_short(
            "Hot water hotter than the unit makes",
            f"A reheat to {water.set_temperature.shown()} ends "
            f"{-water.flow_spare.value:.1f} K above the hottest water the unit makes.",
            "Set the cylinder cooler with a hygiene decision to match, or choose another unit.",
            water.flow_spare,
        )
    if water.coil_fit is CoilFit.SMALL:
        yield falling_short(
            "Coil of the cylinder",
            "Its surface is small for the unit's output.",
            "Expect hotter flow and longer reheats, or a cylinder with a larger coil.",
            water.coil_approach,
        )
    if water.hygiene_need in (HygieneNeed.NOT_DECIDED, HygieneNeed.BELOW_SIXTY):
        undecided = water.hygiene_need is HygieneNeed.NOT_DECIDED
        yield falling_short(
            "Hot-water hygiene",
            "No regime is recorded." if undecided else "The regime never reaches 60 °C.",
            "Decide it with the household or the landlord's risk assessment, and record it.",
            water.hygiene_run,
        )


def _hygiene_run(design: Design) -> Iterator[Shortfall]:
    """A run left to the unit alone must be within what the unit makes."""
    cylinder, unit = design.home.plant.cylinder, design.home.plant.heat_pump
    regime = None if cylinder is None else cylinder.hygiene
    most, water = unit.maximum_flow_temperature, design.hot_water
    if regime is None or water is None or most is None or regime.heat_source != "heat_pump":
        return
    if water.demand.hygiene_flow > most:
        yield falling_short(
            "Hygiene run hotter than the unit makes",
            f"{shown(water.demand.hygiene_flow, '°C')} of heating water are needed for "
            f"{shown(regime.temperature, '°C')} in the cylinder; the unit makes at most "
            f"{shown(most, '°C')}.",
            "Let an immersion heater make the last degrees, or choose another regime with whoever "
            "assesses the risk.",
            water.hygiene_run,
        )
