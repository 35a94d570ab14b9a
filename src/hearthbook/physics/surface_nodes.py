"""Surfaces without mass taken out of a room's network, exactly."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from hearthbook.units import Ratio, WattsPerKelvin

__all__ = ["Condensed", "without_surfaces"]


@dataclass(frozen=True)
class Condensed:
    """A network after its surfaces were taken out.

    Attributes:
        conductances: between the nodes that are left, row by column.
        shares: where heat put on each surface goes at once: a row for each surface, a column for
            each node that is left; each row adds up to 1.
    """

    conductances: WattsPerKelvin
    shares: Ratio


def without_surfaces(conductances: WattsPerKelvin, surfaces: int) -> Condensed:
    """The same network without its surfaces, which store nothing.

    Args:
        conductances: between all nodes, a symmetric square of values; what stands on the diagonal
            does not count. The surfaces come last.
        surfaces: how many there are; each joined, through others if need be, to a node that is
            left.

    Returns:
        Conductances between the other nodes, and where heat put on a surface goes. With one
        surface this is the exchange of a star for a mesh.

    Source:
        Gauss elimination of nodes without capacity; for one node the star-mesh transformation.
        Derived.

    Example:
        >>> star = np.array([[0.0, 0.0, 2.0], [0.0, 0.0, 6.0], [2.0, 6.0, 0.0]])
        >>> without_surfaces(star, 1).conductances.tolist()
        [[0.0, 1.5], [1.5, 0.0]]
        >>> without_surfaces(star, 1).shares.tolist()
        [[0.25, 0.75]]
    """
    between = np.array(conductances, dtype=float)
    np.fill_diagonal(between, 0.0)
    balance = np.diag(between.sum(axis=1)) - between
    kept = between.shape[0] - surfaces
    across, own = balance[:kept, kept:], balance[kept:, kept:]
    shares = -np.linalg.solve(own, across.T)
    left = -(balance[:kept, :kept] + across @ shares)
    np.fill_diagonal(left, 0.0)
    return Condensed(left, shares)
