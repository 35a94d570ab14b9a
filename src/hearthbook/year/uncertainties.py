"""What nobody knows exactly of a home's year, and draws of what it may be.

Each uncertain thing has a spread: the standard deviation of a factor (of its logarithm, so that no
factor is negative) or of a shift. Draws share out each spread evenly over its whole width, in an
order of their own for each thing, so that a few dozen already stand for all.
"""

from __future__ import annotations

from dataclasses import dataclass
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

from hearthbook.design.results import Design
from hearthbook.documents.figures import KeyFigure, assumed
from hearthbook.record.parts import Evidence

__all__ = ["AS_RECORDED", "LABELS", "Draw", "Spreads", "draws_of", "spreads_of"]

_Array = NDArray[np.float64]

_WIDEST = 2.5  # standard deviations, beyond which nothing is drawn
_MEMORY = "from memory"
_PRACTICE = "common practice, no source"

# Standard deviation of the outside air's rate by how it is known: a blower test leaves how windows
# are used, a usual value leaves the leaks open too. From memory.
_VENTILATION = {Evidence.SEEN: 0.25, Evidence.DOCUMENTED: 0.27, Evidence.ASSUMED: 0.35}

LABELS: dict[str, str] = {
    "ventilation": "outside air that leaks in and is let in",
    "known_fabric": "U-values seen or documented",
    "assumed_fabric": "U-values assumed",
    "gains": "warmth of people and appliances",
    "solar": "sun through the windows, curtains and trees",
    "hot_water": "hot water drawn",
    "wanted": "how warm the household keeps the rooms",
    "efficiency": "the unit's efficiency against its tested points",
    "mass": "heat the fabric stores",
    "weather": "the weather of the year",
}
"""Every uncertain thing, as a person would call it; the weather is drawn as whole years."""


@dataclass(frozen=True)
class Spreads:
    """Standard deviations of what is uncertain; the wanted temperature's in K, others as shares.

    Attributes:
        figures: one for each of `LABELS` but the weather, in that order.
    """

    figures: tuple[KeyFigure, ...]

    def values(self) -> dict[str, float]:
        """By name."""
        return {figure.name.rsplit(".", 1)[1]: figure.value for figure in self.figures}


@dataclass(frozen=True)
class Draw:
    """One home that the record may mean.

    Attributes:
        ventilation: factor of outside air.
        known_fabric: factor of U-values seen or documented.
        assumed_fabric: factor of U-values assumed.
        gains: factor of people's and appliances' warmth.
        solar: factor of sun through windows.
        hot_water: factor of hot water drawn.
        wanted: K by which all rooms are kept warmer.
        efficiency: factor of the unit's efficiency.
        mass: factor of the fabric's heat capacity.
        weather: number of the weather it meets, 0 first.
    """

    ventilation: float = 1.0
    known_fabric: float = 1.0
    assumed_fabric: float = 1.0
    gains: float = 1.0
    solar: float = 1.0
    hot_water: float = 1.0
    wanted: float = 0.0
    efficiency: float = 1.0
    mass: float = 1.0
    weather: int = 0


AS_RECORDED = Draw()


def spreads_of(design: Design) -> Spreads:
    """How uncertain each thing is in a home, by how the record knows it."""
    air = design.home.building.ventilation.evidence
    return Spreads(
        (
            _spread("ventilation", _VENTILATION[air], f"outside air is {air}; {_MEMORY}"),
            _spread("known_fabric", 0.08, _MEMORY),
            _spread("assumed_fabric", 0.20, _MEMORY),
            _spread("gains", 0.25, _PRACTICE),
            _spread("solar", 0.20, _PRACTICE),
            _spread("hot_water", 0.30, f"{_PRACTICE}: households differ more than homes"),
            _spread("wanted", 0.5, _PRACTICE, "K"),
            _spread(
                "efficiency", 0.06, f"{_PRACTICE}: what installed units reach of tested points"
            ),
            _spread("mass", 0.30, f"{_PRACTICE}: furniture and layers nobody opened"),
        )
    )


def _spread(name: str, value: float, source: str, unit: str = "%") -> KeyFigure:
    return assumed(
        f"year.range.assumed.{name}", f"spread taken for: {LABELS[name]}", value, unit,
        source=source, note="one standard deviation",
    )  # fmt: skip


def draws_of(spreads: Spreads, count: int, seed: int, weathers: int = 1) -> tuple[Draw, ...]:
    """Draws of everything uncertain, spread evenly.

    Args:
        spreads: of the home.
        count: how many.
        seed: the same seed gives the same draws.
        weathers: from which each draw takes one, each as often as the others.

    Source:
        McKay, Beckman and Conover 1979, sampling by Latin hypercubes; from memory.
    """
    random = np.random.default_rng(seed)
    values: dict[str, _Array] = {}
    for name, spread in spreads.values().items():
        shift = _even(random, count) * spread
        values[name] = shift if name == "wanted" else np.exp(shift - spread**2 / 2)
    years = random.permutation(np.arange(count) % max(weathers, 1))
    return tuple(
        Draw(
            **{name: float(column[number]) for name, column in values.items()},
            weather=int(years[number]),
        )
        for number in range(count)
    )


def _even(random: np.random.Generator, count: int) -> _Array:
    """Standard normal numbers, one from each of as many equally likely stretches, shuffled."""
    shares = (random.permutation(count) + random.random(count)) / count
    normal = NormalDist()
    within = np.clip(shares, normal.cdf(-_WIDEST), normal.cdf(_WIDEST))
    return np.array([normal.inv_cdf(float(share)) for share in within])
