"""A short stretch of winter for tests that run a home."""

from __future__ import annotations

from datetime import UTC, datetime

import numpy as np

from hearthbook.simulate.weather import Weather

__all__ = ["winter"]


def winter(days: int = 12, *, mean: float = 4.0) -> Weather:
    """Days of January, colder by night, damp, with a little sun at noon."""
    hours = np.arange(days * 24)
    noon = np.maximum(0.0, np.cos(2 * np.pi * (hours % 24 - 12) / 24))
    return Weather(
        source="made up for a test",
        is_generated=True,
        latitude=52.0,
        longitude=0.0,
        altitude=50.0,
        utc_offset=0.0,
        start=datetime(2025, 1, 6, tzinfo=UTC),
        outdoor_temperature=mean
        - 3.0 * np.cos(2 * np.pi * (hours % 24 - 4) / 24)
        + 2.0 * np.sin(2 * np.pi * hours / (24 * 5)),
        relative_humidity=np.full(hours.size, 0.85),
        wind_speed=np.full(hours.size, 3.0),
        global_horizontal=120.0 * noon,
        diffuse_horizontal=120.0 * noon,
        direct_normal=np.zeros(hours.size),
    )
