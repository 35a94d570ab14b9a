"""Which of the uncertain things spreads a result most."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hearthbook.documents.figures import KeyFigure, calculated
from hearthbook.year.uncertainties import LABELS, Draw, Spreads

__all__ = ["Source", "spread_sources"]

_Array = NDArray[np.float64]

_FEWEST = 8  # draws, below which ranks say nothing


@dataclass(frozen=True)
class Source:
    """One uncertain thing.

    Attributes:
        name: as in `uncertainties.LABELS`.
        label: in words.
        share: of the result's spread that goes with it; what is left goes with several together.
        is_more_with_more: whether the result grows with it.
    """

    name: str
    label: str
    share: KeyFigure
    is_more_with_more: bool


def spread_sources(draws: Sequence[Draw], results: _Array, spreads: Spreads) -> tuple[Source, ...]:
    """The uncertain things by their share of a result's spread, the largest first.

    Args:
        draws: what was drawn.
        results: one for each draw.
        spreads: what they were drawn from.

    Returns:
        Empty where there are too few draws to tell.

    Assumes:
        Things drawn independently, and a result that only rises or only falls with each: the
        square of the rank correlation is then the share of the spread of ranks that goes with it.
        The weather has no order; its share is the variance between years of weather.

    Source:
        Spearman 1904, rank correlation; correlation ratio for the weather. What chance alone would
        give, one part in as many draws, is taken off. Derived.
    """
    if len(draws) < _FEWEST or np.ptp(results) == 0.0:
        return ()
    ranks = _ranks(results)
    found = []
    for name, label in LABELS.items():
        values = np.array([getattr(draw, name) for draw in draws], dtype=float)
        if np.ptp(values) == 0.0:
            continue
        if name == "weather":
            share, rises = _between(values, ranks), True
        else:
            correlation = float(np.corrcoef(_ranks(values), ranks)[0, 1])
            share, rises = _without_chance(correlation**2, 1, len(draws)), correlation > 0
        found.append(Source(name, label, _figure(name, label, share, spreads, len(draws)), rises))
    return tuple(sorted(found, key=lambda one: -one.share.value))


def _ranks(values: _Array) -> _Array:
    """Ranks from 0; equal values share the mean of theirs."""
    _, inverse, counts = np.unique(values, return_inverse=True, return_counts=True)
    first = np.cumsum(counts) - counts
    return np.asarray((first + (counts - 1) / 2.0)[inverse], dtype=float)


def _between(groups: _Array, ranks: _Array) -> float:
    """Share of the variance of ranks that lies between groups."""
    kinds = np.unique(groups)
    mean, whole = ranks.mean(), ((ranks - ranks.mean()) ** 2).sum()
    between = sum(
        (groups == kind).sum() * (ranks[groups == kind].mean() - mean) ** 2 for kind in kinds
    )
    return _without_chance(float(between / whole), kinds.size - 1, ranks.size)


def _without_chance(share: float, freedoms: int, count: int) -> float:
    """A share of variance less what chance alone would give with as many freedoms."""
    left = count - 1 - freedoms
    return max(0.0, share - (1.0 - share) * freedoms / left) if left > 0 else 0.0


def _figure(name: str, label: str, share: float, spreads: Spreads, draws: int) -> KeyFigure:
    rests_on = tuple(one for one in spreads.figures if one.name.endswith(f".{name}"))
    return calculated(
        f"year.range.sources.{name}", f"share of the spread of electricity: {label}", share, "%",
        formula="square of the rank correlation with the year's electricity, less chance",
        inputs=rests_on, source=f"Spearman's rank correlation over {draws} draws",
    )  # fmt: skip
