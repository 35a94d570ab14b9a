"""What pipes of the record measure inside, and what their fittings cost in metres of tube."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from hearthbook.documents.figures import KeyFigure, assumed, calculated, given
from hearthbook.physics import pipes
from hearthbook.record.emitters import Tail
from hearthbook.record.pipework import PipeRun
from hearthbook.units import Metres

__all__ = [
    "ROUGHNESS",
    "PipeBore",
    "fittings_length",
    "pipe_bore",
    "usual_wall",
]

# Walls in mm by outside diameter in mm, from memory. Copper: EN 1057 half-hard tube. Plastic:
# barrier pipe of polybutylene (10, 15, 22, 28) and of cross-linked polyethylene (the rest).
# Steel: EN 10255 medium tube.
_WALLS: dict[str, dict[float, float]] = {
    "copper": {
        6.0: 0.6, 8.0: 0.6, 10.0: 0.6, 12.0: 0.6, 15.0: 0.7, 18.0: 0.8, 22.0: 0.9, 28.0: 0.9,
        35.0: 1.2, 42.0: 1.2, 54.0: 1.2, 66.7: 1.2, 76.1: 1.5, 108.0: 1.5,
    },
    "plastic": {
        10.0: 1.5, 12.0: 2.0, 14.0: 2.0, 15.0: 1.7, 16.0: 2.0, 17.0: 2.0, 18.0: 2.0, 20.0: 2.0,
        22.0: 2.2, 25.0: 2.3, 26.0: 3.0, 28.0: 2.8, 32.0: 2.9, 40.0: 3.7, 50.0: 4.6, 63.0: 5.8,
    },
    "steel": {
        13.5: 2.3, 17.2: 2.3, 21.3: 2.6, 26.9: 2.6, 33.7: 3.2, 42.4: 3.2, 48.3: 3.2, 60.3: 3.6,
    },
}  # fmt: skip
_WALL_SOURCE = {
    "copper": "EN 1057 half-hard tube, usual wall, from memory",
    "plastic": "barrier pipe of polybutylene or cross-linked polyethylene, usual wall, from memory",
    "steel": "EN 10255 medium tube, from memory",
}

ROUGHNESS: dict[str, float] = {
    "copper": pipes.COPPER_ROUGHNESS,
    "plastic": pipes.PLASTIC_ROUGHNESS,
    "steel": pipes.STEEL_ROUGHNESS,
}

# Metres of tube that cost the pressure of one fitting, by outside diameter in mm: a soldered
# elbow, a square tee, a straight valve. Larger tubes go on along the line of 22 and 28 mm.
_FITTING_DIAMETERS = (15.0, 22.0, 28.0, 54.0)
_FITTING_LENGTHS = {
    "elbow": (0.37, 0.60, 0.83, 1.83),
    "tee": (1.00, 1.60, 2.00, 3.73),
    "valve": (0.30, 0.40, 0.60, 1.47),
}
_FITTINGS_SOURCE = (
    "equivalent lengths of a trade association for copper tube, table 1 (15, 22 and 28 mm)"
)


@dataclass(frozen=True)
class PipeBore:
    """The inside of a pipe.

    Attributes:
        bore: inside diameter.
        length: flow and return together.
        roughness: of its wall, in m.
    """

    bore: KeyFigure
    length: KeyFigure
    roughness: float


def usual_wall(material: str, outside_diameter: Metres) -> Metres:
    """The usual wall of a tube; of an unusual size, that of the nearest in proportion.

    Args:
        material: copper, plastic or steel.
        outside_diameter: of the tube.

    Source:
        EN 1057, EN 10255 and usual barrier pipe, from memory.

    Example:
        >>> round(usual_wall("copper", 0.022) * 1000, 1)
        0.9
    """
    walls = _WALLS[material]
    wanted = float(outside_diameter) * 1000
    nearest = min(walls, key=lambda size: abs(size - wanted))
    return walls[nearest] / nearest * outside_diameter


def pipe_bore(pipe: PipeRun | Tail, name: str, label: str) -> PipeBore:
    """The inside of a recorded pipe, its wall assumed where it is not recorded.

    Args:
        pipe: a run, or the tail of an emitter.
        name: its place in the record, such as `pipework.runs.primary`.
        label: what it is called.
    """
    outside = _fine(given(
        f"{name}.outside_diameter", f"outside diameter, {label}", pipe.outside_diameter, "mm",
        place=f"{name}.outside_diameter",
    ))  # fmt: skip
    wall_name, wall_label = f"{name}.wall_thickness", f"wall of the tube, {label}"
    if pipe.wall_thickness is not None:
        wall = given(wall_name, wall_label, pipe.wall_thickness, "mm", place=wall_name)
    else:
        usual = float(usual_wall(pipe.material, pipe.outside_diameter))
        source = _WALL_SOURCE[pipe.material]
        wall = assumed(wall_name, wall_label, usual, "mm", source=source)
    wall = _fine(wall)
    bore = calculated(
        f"{name}.bore", f"bore, {label}", float(pipes.bore(outside.value, wall.value)), "mm",
        formula="d = D − 2·s", inputs=(outside, wall), source="geometry", decimals=1,
    )  # fmt: skip
    length = given(
        f"{name}.length", f"length, flow and return, {label}", pipe.length, "m",
        place=f"{name}.length",
    )  # fmt: skip
    return PipeBore(bore, replace(length, decimals=1), ROUGHNESS[pipe.material])


def fittings_length(run: PipeRun) -> KeyFigure:
    """Metres of straight tube that cost as much pressure as a run's fittings."""
    place = f"pipework.runs.{run.id}"
    counts = [
        (kind, given(f"{place}.{field}", f"{field}, {run.name}", count, "", place=place))
        for kind, field, count in (
            ("elbow", "elbows", run.elbows),
            ("tee", "tees", run.tees),
            ("valve", "valves", run.valves),
        )
    ]
    size = run.outside_diameter * 1000
    value = sum(
        count.value * float(np.interp(size, _FITTING_DIAMETERS, _FITTING_LENGTHS[kind]))
        for kind, count in counts
    )
    return calculated(
        f"hydraulics.runs.{run.id}.fittings", f"fittings as metres of tube, {run.name}", value,
        "m", formula="Σ n·Lequivalent",
        inputs=tuple(replace(count, decimals=0) for _, count in counts), source=_FITTINGS_SOURCE,
        decimals=1,
    )  # fmt: skip


def _fine(figure: KeyFigure) -> KeyFigure:
    """The figure shown to a tenth of a millimetre."""
    return replace(figure, decimals=1)
