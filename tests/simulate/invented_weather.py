"""Weather invented for tests: plain days, with what a test names put in its place."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

import numpy as np

from hearthbook.simulate.weather import Weather

__all__ = ["invented"]


def invented(*, days: int, **instead: Any) -> Weather:
    """Mild, damp, dull days from 1 January 2001 at 52° north on the meridian."""
    hours = np.arange(24 * days)
    level = np.maximum(np.cos(2 * np.pi * (hours % 24 - 11.5) / 24), 0.0) * 100.0
    values: dict[str, Any] = {
        "source": "invented for a test",
        "is_generated": True,
        "latitude": 52.0,
        "longitude": 0.0,
        "altitude": 80.0,
        "utc_offset": 0.0,
        "start": datetime(2001, 1, 1, tzinfo=UTC),
        "outdoor_temperature": np.full(len(hours), 6.0),
        "relative_humidity": np.full(len(hours), 0.85),
        "wind_speed": np.full(len(hours), 4.0),
        "global_horizontal": level,
        "diffuse_horizontal": level,
        "direct_normal": np.zeros(len(hours)),
    }
    return Weather(**(values | instead))
