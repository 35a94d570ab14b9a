"""Emitters and rooms as measured, and whether each room can be heated."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from hearthbook.commissioning.judging import Subject, judge, judge_figure, judge_together
from hearthbook.commissioning.measured import Measured, measured
from hearthbook.commissioning.verdicts import Band, Judgement
from hearthbook.design.results import Design
from hearthbook.documents.figures import KeyFigure, calculated
from hearthbook.record.commissioning import ReadingKind
from hearthbook.record.emitters import Emitter

__all__ = ["judge_rooms"]

_PRACTICE = "common practice, no source"
_DROP_SPREAD = 2.0  # K about the design difference at an emitter; common practice, no source
_ROOM_SPREAD = 1.0  # K about the wanted temperature after a day; common practice, no source
_COVERAGE = 0.95  # of the room's load; common practice, no source


def judge_rooms(design: Design) -> Iterator[Judgement]:
    """The judgements on emitters and rooms."""
    for room in design.emitters.rooms:
        if room.coverage is not None:
            subject = Subject("room_coverage", room.room.name, room.room.id, room.room.name)
            band = Band(_COVERAGE, None, "%", _PRACTICE)
            yield judge_figure(subject, room.coverage, None, band)
    yield from _drops(design)
    yield from _temperatures(design)


def _drops(design: Design) -> Iterator[Judgement]:
    commissioning = design.home.commissioning
    for emitter in design.home.emitters:
        flow = measured(commissioning, ReadingKind.EMITTER_FLOW_TEMPERATURE, emitter.id)
        back = measured(commissioning, ReadingKind.EMITTER_RETURN_TEMPERATURE, emitter.id)
        if flow is None and back is None:
            continue
        target = design.emitters.emitter(emitter.id).characteristic.drop
        band = Band(target - _DROP_SPREAD, target + _DROP_SPREAD, "K", _PRACTICE)
        place = design.home.room(emitter.room).name
        subject = Subject("emitter_drop", place, emitter.id, emitter.name)
        yield judge_together(subject, (flow, back), partial(_drop, emitter), None, band)


def _drop(emitter: Emitter, known: tuple[Measured, ...]) -> KeyFigure:
    flow, back = known
    return calculated(
        f"readings.emitter_drop.{emitter.id}",
        f"Flow–return difference, {emitter.name}",
        flow.value - back.value,
        "K",
        formula="ΔT = θ_flow − θ_return",
        inputs=(flow.figure, back.figure),
        source="definition",
        uncertainty=max(flow.error, back.error),
        note="one pair of clamps: the larger single error stands for the pair",
    )


def _temperatures(design: Design) -> Iterator[Judgement]:
    for room in design.heat_loss.rooms:
        reading = measured(design.home.commissioning, ReadingKind.ROOM_TEMPERATURE, room.room.id)
        if reading is None:
            continue
        wanted = room.temperature
        band = Band(wanted.value - _ROOM_SPREAD, wanted.value + _ROOM_SPREAD, "°C", _PRACTICE)
        subject = Subject("room_temperature", room.room.name, room.room.id, room.room.name)
        yield judge(subject, reading, wanted, band)
