"""Limits for the heating water of a home."""

from __future__ import annotations

from typing import Any

import pytest

from hearthbook.design.emitters import emitter_schedule
from hearthbook.design.heat_loss import heat_loss
from hearthbook.design.water_quality import WaterQuality, water_quality
from hearthbook.design.water_volume import water_volume
from hearthbook.record.home import Home


def _quality(home: Home, **plant: Any) -> WaterQuality:
    changed = home.model_copy(update={"plant": home.plant.model_copy(update=plant)})
    emitters = emitter_schedule(changed, heat_loss(changed))
    return water_quality(changed, water_volume(changed, emitters))


def _treated(home: Home, treatment: str) -> WaterQuality:
    assert home.plant.water is not None
    return _quality(home, water=home.plant.water.model_copy(update={"treatment": treatment}))


def test_hardness_follows_the_litres_per_kilowatt(well_done_home: Home) -> None:
    limit = _quality(well_done_home).hardness_limit
    assert limit is not None
    assert limit.value == pytest.approx(200.0)  # 148 L at 7.0 kW: 21 L/kW, 2.0 mol/m³, 11.2 °dH


def test_little_water_and_a_unit_not_small_in_water_has_no_limit(well_done_home: Home) -> None:
    assert _quality(well_done_home, added_volume=None).hardness_limit is None


def test_untreated_and_low_salt_water_have_the_published_conductivity(well_done_home: Home) -> None:
    for treatment, expected in (("untreated", 800.0), ("low_salt", 100.0)):
        limit = _treated(well_done_home, treatment).conductivity_limit
        assert limit is not None
        assert limit.value == expected


def test_untreated_water_has_the_published_acidity(well_done_home: Home) -> None:
    quality = _treated(well_done_home, "untreated")
    assert quality.acidity_low is not None
    assert quality.acidity_high is not None
    assert (quality.acidity_low.value, quality.acidity_high.value) == (8.2, 10.0)


def test_what_a_product_decides_has_no_limit_of_ours(well_done_home: Home) -> None:
    assert _treated(well_done_home, "inhibitor").conductivity_limit is None
    glycol = _treated(well_done_home, "glycol")
    assert glycol.conductivity_limit is None
    assert glycol.acidity_low is None
    assert glycol.acidity_high is None
