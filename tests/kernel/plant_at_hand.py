"""One home's plant as the loop sees it, for tests that call a step of the loop as plain Python."""

from __future__ import annotations

from typing import Any

import numpy as np

from hearthbook.kernel.parameters import DRIVER
from hearthbook.kernel.state import TOTALS
from hearthbook.simulate.run import start_state
from tests.kernel.synthetic_home import synthetic_home

__all__ = ["driver", "plant", "state", "totals"]


def plant(**fields: float) -> Any:
    """The invented home's plant, with some fields changed."""
    return synthetic_home(3, **fields).plant.view(np.recarray)[0]


def state(**fields: float) -> Any:
    """Its plant at rest, with some fields changed."""
    found = start_state(synthetic_home(3)).plant.view(np.recarray)[0]
    for name, value in fields.items():
        found[name] = value
    return found


def driver(**fields: float) -> Any:
    """A slot in which everything is allowed, with some fields changed."""
    slot = np.zeros(1, DRIVER)
    usual = {"curve_flow": 35.0, "heating_allowed": 1.0, "hot_water_allowed": 1.0}
    for name, value in {**usual, **fields}.items():
        slot[name] = value
    return slot.view(np.recarray)[0]


def totals() -> Any:
    """Sums at nothing."""
    return np.zeros(1, TOTALS).view(np.recarray)[0]
