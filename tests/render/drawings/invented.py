"""Invented drawings of every kind, by chance and by hand."""

from __future__ import annotations

from typing import get_args

from hypothesis import strategies as st

from hearthbook.documents.drawings import (
    ClearanceDrawn,
    ClearSpace,
    Drawing,
    EmitterKind,
    EmitterSymbol,
    FeelPoint,
    FillingKind,
    GaugeBand,
    GaugeMark,
    HandFeelStrip,
    HeadMark,
    HeadScale,
    HouseMark,
    HouseSection,
    MeterDisplay,
    OutdoorSide,
    PartKind,
    PartSymbol,
    PressureGauge,
    RadiatorTag,
    RoomDrawn,
    StoreyDrawn,
    StoreyOfEmitters,
    SystemSchematic,
    SystemWords,
    TopUpSteps,
    ValveKind,
    ValvePicture,
    ValvePosition,
    ValvePositions,
)

_LETTERS = "abcdefghijklmnoprstuwWMm'-éüöß"
word = st.text(_LETTERS, min_size=1, max_size=22)
words = st.lists(word, min_size=1, max_size=7).map(" ".join)
name = st.lists(word, min_size=1, max_size=3).map(" ".join)
short = st.text(_LETTERS, min_size=1, max_size=9)
maybe = st.one_of(st.just(""), words)
temperature = st.integers(-20, 70).map(lambda value: f"{value}\N{NO-BREAK SPACE}°C")

emitter_kinds = st.sampled_from(get_args(EmitterKind))
valve_kinds = st.sampled_from(get_args(ValveKind))
tags = st.integers(1, 99).map(str)

emitters = st.builds(EmitterSymbol, tags, emitter_kinds, valve_kinds, st.booleans())
storeys_of_emitters = st.lists(
    st.builds(StoreyOfEmitters, name, st.lists(emitters, max_size=12).map(tuple)),
    min_size=1,
    max_size=3,
).map(tuple)
system_words = st.builds(
    SystemWords,
    outside=name,
    inside=name,
    flow=words,
    return_=words,
    kept_open=words,
    refrigerant=maybe,
    hot_water=st.one_of(st.just(""), name),
    cold_water=st.one_of(st.just(""), name),
    valves=st.just(tuple((kind, f"valve {kind}") for kind in get_args(ValveKind))),
    emitters=st.just(tuple((kind, f"emitter {kind}") for kind in get_args(EmitterKind))),
)


@st.composite
def _parts(draw: st.DrawFn) -> tuple[PartSymbol, ...]:
    kinds: list[PartKind] = draw(st.lists(st.sampled_from(get_args(PartKind)), unique=True))
    on = st.sampled_from(("flow", "return"))
    return tuple(
        PartSymbol(kind, index + 1, draw(name), draw(maybe), draw(on))  # type: ignore[arg-type]
        for index, kind in enumerate(kinds)
    )


schematics = st.builds(SystemSchematic, _parts(), storeys_of_emitters, system_words, st.booleans())


@st.composite
def _gauges(draw: st.DrawFn) -> PressureGauge:
    cold, hot, psv = draw(st.tuples(*[st.floats(0.5, 3.0)] * 3).map(sorted))
    bands = (
        GaugeBand(max(cold - 0.2, 0.0), cold + 0.2, draw(words), "cold"),
        GaugeBand(hot, hot + 0.2, draw(words), "hot"),
    )
    marks = (
        GaugeMark(max(cold - 0.3, 0.0), draw(words), "top_up"),
        GaugeMark(psv - 0.4, draw(words), "call"),
        GaugeMark(psv, draw(words), "safety"),
    )
    full = draw(st.sampled_from((3.0, 4.0, 6.0)))
    return PressureGauge(full, "bar", bands, marks, draw(st.none() | st.floats(0.0, 4.0)))


settings_ = st.one_of(st.sampled_from(("*", "2", "2.5", "max")), name)
radiators = st.builds(RadiatorTag, tags, emitter_kinds, settings_, st.booleans())
marks_ = st.builds(HouseMark, st.sampled_from(("cylinder", "thermostat")), name)
rooms = st.builds(
    RoomDrawn,
    name,
    st.floats(1.0, 60.0),
    st.one_of(st.just(""), temperature),
    st.lists(radiators, max_size=4).map(tuple),
    st.lists(marks_, max_size=2).map(tuple),
)


@st.composite
def _houses(draw: st.DrawFn) -> HouseSection:
    """A house of one to three storeys with up to fourteen rooms."""
    count = draw(st.integers(1, 3))
    most = {1: 14, 2: 7, 3: 5}[count]
    found = draw(
        st.lists(st.lists(rooms, min_size=1, max_size=most), min_size=count, max_size=count)
    )
    storeys = tuple(StoreyDrawn(draw(name), tuple(row)) for row in found)
    notes = tuple(draw(st.lists(words, max_size=2)))
    return HouseSection(storeys, draw(name), draw(words), draw(words), draw(maybe), notes)


@st.composite
def _clearances(draw: st.DrawFn) -> tuple[ClearanceDrawn, ...]:
    sides: list[OutdoorSide] = draw(st.lists(st.sampled_from(get_args(OutdoorSide)), unique=True))
    metres = st.floats(0.0, 3.0)
    return tuple(ClearanceDrawn(side, draw(metres), draw(metres), draw(words)) for side in sides)


clear_spaces = st.builds(
    ClearSpace, name, name, maybe, _clearances(), name, name, maybe, maybe, maybe, maybe, maybe
)
meters = st.builds(
    MeterDisplay,
    words,
    st.sampled_from(("kWh", "MWh", "GJ", "m³")),
    st.text("0123456789", min_size=1, max_size=9),
    st.text("0123456789", max_size=4),
    st.booleans(),
    words,
    words,
    words,
)
scales = st.builds(
    HeadScale,
    st.lists(st.builds(HeadMark, short, st.one_of(temperature, short)), max_size=9).map(tuple),
    words,
    words,
    maybe,
)
strips = st.builds(
    HandFeelStrip,
    st.lists(
        st.builds(FeelPoint, temperature, temperature, st.floats(15.0, 75.0), words), max_size=7
    ).map(tuple),
    words,
    words,
    words,
)
valves = st.builds(
    ValvePositions,
    st.lists(
        st.builds(
            ValvePosition,
            st.sampled_from(get_args(ValvePicture)),
            words,
            maybe,
            st.sampled_from(("", "3", "2.5", "max", "M")),
        ),
        max_size=9,
    ).map(tuple),
)
top_ups = st.builds(
    TopUpSteps,
    st.sampled_from(get_args(FillingKind)),
    st.tuples(words, words, words, words),
    st.floats(0.3, 3.0),
    st.floats(0.3, 3.0).map(lambda value: f"{value:.1f}\N{NO-BREAK SPACE}bar"),
)

KINDS: dict[str, st.SearchStrategy[Drawing]] = {
    "schematic": schematics,
    "gauge": _gauges(),
    "house": _houses(),
    "clear space": clear_spaces,
    "meter": meters,
    "head scale": scales,
    "hand feel": strips,
    "valves": valves,
    "top-up": top_ups,
}
