"""The heating water's quality, and the sound outside, as measured."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from hearthbook.commissioning.judging import Subject, judge, judge_figure
from hearthbook.commissioning.measured import measured
from hearthbook.commissioning.verdicts import Band, Judgement
from hearthbook.design.results import Design
from hearthbook.design.sound import NeighbourSound
from hearthbook.design.water_quality import water_quality
from hearthbook.documents.figures import KeyFigure, given
from hearthbook.record.commissioning import READING_UNITS, ReadingKind

__all__ = ["judge_sound", "judge_water"]

_PRACTICE = "common practice, no source"
_GLYCOL_SPREAD = 0.02  # of the volume; common practice, no source
_SOUND_SPREAD = 2.0  # dB above the prediction; common practice, no source
_ANY_STATE = ("steady", "standstill", "warming_up", "hot_water")


def judge_water(design: Design) -> Iterator[Judgement]:
    """The judgements on the heating water; only where a limit applies."""
    limits = water_quality(design.home, design.volume)
    yield from _limited(design, ReadingKind.HARDNESS, None, limits.hardness_limit)
    yield from _limited(design, ReadingKind.CONDUCTIVITY, None, limits.conductivity_limit)
    yield from _limited(design, ReadingKind.ACIDITY, limits.acidity_low, limits.acidity_high)
    yield from _glycol(design)


def _limited(
    design: Design, kind: ReadingKind, low: KeyFigure | None, high: KeyFigure | None
) -> Iterator[Judgement]:
    if high is None:
        return
    band = Band(
        None if low is None else low.value, high.value, READING_UNITS[kind], high.working.source, 1
    )
    reading = measured(design.home.commissioning, kind)
    yield judge(Subject(str(kind), ""), reading, high, band, _ANY_STATE)


def _glycol(design: Design) -> Iterator[Judgement]:
    protection = design.home.plant.freeze_protection
    if protection is None or protection.kind != "glycol" or protection.glycol_share is None:
        return
    share = protection.glycol_share
    target = given(
        "plant.glycol_share",
        "Antifreeze wanted",
        share,
        "%",
        place="plant.freeze_protection.glycol_share",
    )
    band = Band(share - _GLYCOL_SPREAD, share + _GLYCOL_SPREAD, "%", _PRACTICE)
    reading = measured(design.home.commissioning, ReadingKind.GLYCOL_SHARE)
    yield judge(Subject("glycol_share", ""), reading, target, band, _ANY_STATE)


def _band_of_measurement(window: NeighbourSound) -> Band:
    """As predicted, give or take; never above what is allowed there."""
    high, source = window.level.value + _SOUND_SPREAD, f"prediction + 2 dB, {_PRACTICE}"
    if window.limit is not None and window.limit.value < high:
        high, source = window.limit.value, window.limit.working.source
    return Band(None, high, "dB(A)", source)


def judge_sound(design: Design) -> Iterator[Judgement]:
    """The judgements on sound: the prediction against the limit, and any measurement."""
    for window in design.sound:
        subject = Subject("sound", design.home.siting.place, window.id, window.name)
        if window.limit is not None:
            band = Band(None, window.limit.value, "dB(A)", window.limit.working.source)
            # A planning method passes or fails as reckoned: no instrument's error softens it.
            yield judge_figure(subject, replace(window.level, uncertainty=None),
                               window.limit, band)  # fmt: skip
        reading = measured(design.home.commissioning, ReadingKind.SOUND_PRESSURE, window.id)
        if reading is not None:
            band = _band_of_measurement(window)
            read = Subject("sound_measured", design.home.siting.place, window.id, window.name)
            yield judge(read, reading, window.level, band)
