"""The range of a number over many simulated years."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from hearthbook.year.pack_numbers import Span

__all__ = ["span_of"]

_SHARES = (10.0, 50.0, 90.0)  # %


def span_of(values: Sequence[float] | NDArray[np.float64]) -> Span:
    """What one in ten, five in ten and nine in ten of some numbers lie below.

    Example:
        >>> span_of([float(number) for number in range(11)])
        Span(low=1.0, middle=5.0, high=9.0)
    """
    low, middle, high = np.percentile(np.asarray(values, dtype=float), _SHARES)
    return Span(float(low), float(middle), float(high))
