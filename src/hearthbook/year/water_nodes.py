"""Where a home's heating water is in the year, what its pipes weigh and what they lose."""

from __future__ import annotations

import math

from hearthbook.design.pipe_sizes import pipe_bore
from hearthbook.design.results import Design
from hearthbook.documents.figures import KeyFigure, given
from hearthbook.record.pipework import PipeRun
from hearthbook.year.circulating_water import water_density, water_heat
from hearthbook.year.plant_fields import Fields, reckoned, stands_in

__all__ = ["loss_of_pipe", "water_nodes"]

_UNIT_METAL = 5000.0  # J/K; plate exchanger and fittings of some 10 kg, common practice, no source
_METAL_HEAT = {  # J/(m³·K): density times heat capacity, handbooks of engineering, from memory
    "copper": 8930.0 * 385.0,
    "steel": 7850.0 * 480.0,
    "plastic": 930.0 * 2100.0,
}
_INSULATION = 0.037  # W/(m·K) of foam at 40 °C, common practice, no source
_SURFACE = 10.0  # W/(m²·K) from a pipe to a room, from memory of heat-transfer handbooks
_SURFACE_OUTDOORS = 25.0  # W/(m²·K); ISO 6946, 1/0.04 m²·K/W


def water_nodes(design: Design) -> Fields:
    """The plant's fields about water, pipes and what they lose.

    The pipes of single emitters stand with their emitters; the water in the expansion vessel does
    not circulate and is left out. What branches behind the primary lose reaches the rooms they
    serve on a shorter way; it is left out, as in the design.
    """
    heat, density = water_heat(design), water_density(design)
    parts = {
        "unit": _water(design, "plant.heat_pump.water_content"),
        "coil": _coil(design),
        "pipes": _runs(design, serves_cylinder=False),
        "added": _water(design, "plant.added_volume.volume"),
    }
    metal = _pipe_metal(design)
    unit_metal = stands_in("unit_metal", "heat capacity of the unit's exchanger", _UNIT_METAL,
                           "J/K", note="some 10 kg of steel")  # fmt: skip
    added = design.home.plant.added_volume
    on = "" if added is None else added.on
    return {
        "heat_capacity": heat,
        "unit_capacity": _capacity("unit_capacity", "unit", parts["unit"], 1.0, unit_metal, heat,
                                   density),
        "coil_loop_capacity": _capacity("coil_loop_capacity", "pipes and coil of the cylinder",
                                        parts["coil"], 1.0, metal["coil"], heat, density),
        **{
            f"{side}_capacity": _capacity(
                f"{side}_capacity", f"{side} pipes", parts["pipes"], 0.5, metal["pipes"], heat,
                density, parts["added"] if on == side else (),
            )
            for side in ("flow", "return")
        },
        **_losses(design),
    }  # fmt: skip


def loss_of_pipe(outside_diameter: float, insulation: float, *, surface: float = _SURFACE) -> float:
    """Heat a metre of warm pipe loses for each kelvin, in W/(m·K).

    Args:
        outside_diameter: of the tube, in m.
        insulation: thickness round it, in m; 0 for a bare tube.
        surface: W/(m²·K) from the outermost surface.

    Source:
        Resistances of a cylindrical layer and its surface in series, as ISO 12241.

    Example:
        >>> round(loss_of_pipe(0.022, 0.0), 2), round(loss_of_pipe(0.022, 0.020), 2)
        (0.69, 0.2)
    """
    outermost = outside_diameter + 2.0 * insulation
    layer = math.log(outermost / outside_diameter) / (2.0 * math.pi * _INSULATION)
    return 1.0 / (layer + 1.0 / (math.pi * outermost * surface))


def _water(design: Design, name: str) -> tuple[KeyFigure, ...]:
    return tuple(part.volume for part in design.volume.parts if part.volume.name == name)


def _runs(design: Design, *, serves_cylinder: bool) -> tuple[KeyFigure, ...]:
    return tuple(
        volume
        for run in design.home.pipework.runs
        if run.serves_cylinder is serves_cylinder
        for volume in _water(design, f"pipework.runs.{run.id}.volume")
    )


def _coil(design: Design) -> tuple[KeyFigure, ...]:
    return (*_water(design, "plant.cylinder.coil_content"), *_runs(design, serves_cylinder=True))


def _capacity(  # noqa: PLR0913, PLR0917 - one sum with its parts
    field: str,
    what: str,
    volumes: tuple[KeyFigure, ...],
    share: float,
    metal: KeyFigure,
    heat: KeyFigure,
    density: KeyFigure,
    added: tuple[KeyFigure, ...] = (),
) -> KeyFigure:
    litres = share * sum(volume.value for volume in volumes) + sum(one.value for one in added)
    value = litres * density.value * heat.value + share * metal.value
    return reckoned(
        field, f"heat capacity of water and metal, {what}", max(value, 1.0), "J/K",
        formula=f"{share:g} · (V·ρ·c + metal) + added volume · ρ·c",
        inputs=(*volumes, *added, metal, heat, density), source="sum of the parts",
        note="half of a run is flow, half return" if share < 1.0 else "",
    )  # fmt: skip


def _pipe_metal(design: Design) -> dict[str, KeyFigure]:
    runs = design.home.pipework.runs
    return {
        key: _metal_of(key, tuple(run for run in runs if run.serves_cylinder is is_coil))
        for key, is_coil in (("pipes", False), ("coil", True))
    }


def _metal_of(key: str, runs: tuple[PipeRun, ...]) -> KeyFigure:
    value = 0.0
    inputs: list[KeyFigure] = []
    for run in runs:
        sizes = pipe_bore(run, f"pipework.runs.{run.id}", run.name)
        section = math.pi / 4.0 * (run.outside_diameter**2 - sizes.bore.value**2)
        value += section * run.length * _METAL_HEAT[run.material]
        inputs += [sizes.bore, sizes.length]
    if not inputs:
        return stands_in(f"{key}_metal", "heat capacity of the tubes", 0.0, "J/K",
                         note="no such pipe is recorded")  # fmt: skip
    return reckoned(
        f"{key}_metal", "heat capacity of the tubes", value, "J/K",
        formula="Σ π/4·(D² - d²)·L·ρ·c", inputs=tuple(inputs),
        source="copper 3.44, steel 3.77, plastic 1.95 MJ/(m³·K), from memory",
    )  # fmt: skip


def _losses(design: Design) -> Fields:
    runs = [run for run in design.home.pipework.runs if not run.serves_cylinder and not run.serves]
    inside = tuple(run for run in runs if not run.is_outdoors)
    outside = tuple(run for run in runs if run.is_outdoors)
    return {
        "flow_loss": _loss("flow_loss", "the primary's flow pipe loses to the home", inside, 0.5),
        "return_loss": _loss(
            "return_loss", "the primary's return pipe loses to the home", inside, 0.5
        ),
        "outdoor_loss": _loss("outdoor_loss", "pipes lose out of doors", outside, 1.0),
    }


def _loss(field: str, label: str, runs: tuple[PipeRun, ...], share: float) -> KeyFigure:
    if not runs:
        return stands_in(field, label, 0.0, "W/K", note="no such pipe is recorded")
    value = 0.0
    inputs: list[KeyFigure] = [
        stands_in("pipe_insulation", "conductivity of pipe insulation", _INSULATION, "W/(m·K)"),
        stands_in("pipe_surface", "heat transfer at a pipe's surface indoors", _SURFACE,
                  "W/(m²·K)", source="from memory"),
    ]  # fmt: skip
    for run in runs:
        around = _insulation(run)
        surface = _SURFACE_OUTDOORS if run.is_outdoors else _SURFACE
        each = loss_of_pipe(run.outside_diameter, around.value, surface=surface)
        value += share * each * run.length
        inputs.append(around)
    return reckoned(
        field, label, value, "W/K", formula=f"Σ {share:g} · L / (ln(Di/D)/(2π·λ) + 1/(π·Di·α))",
        inputs=tuple(inputs), source="ISO 12241, cylindrical layer with its surface",
    )  # fmt: skip


def _insulation(run: PipeRun) -> KeyFigure:
    place = f"pipework.runs.{run.id}.insulation_thickness"
    label = f"insulation, {run.name}"
    if run.insulation_thickness is not None:
        return given(place, label, run.insulation_thickness, "mm", place=place)
    return stands_in(f"pipes.{run.id}.insulation", label, 0.0, "mm",
                     note=f"not answered: {place}; taken as a bare tube")  # fmt: skip
