from __future__ import annotations

from dataclasses import replace

import pytest
import typst
import vl_convert
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from hearthbook.documents.drawings import (
    GaugeBand,
    GaugeMark,
    HouseSection,
    MeterDisplay,
    PressureGauge,
    RoomDrawn,
    StoreyDrawn,
    SystemSchematic,
    SystemWords,
)
from hearthbook.render.drawings import draw, warning_sign
from hearthbook.render.fonts import font_folder
from tests.render.drawings.invented import KINDS
from tests.render.drawings.lettering import faults_in, lettering_of, view_of

BARE_SYSTEM = SystemSchematic((), (), SystemWords("outside", "inside", "flow", "return", "open"))
BARE_HOUSE = HouseSection(
    (StoreyDrawn("Only floor", (RoomDrawn("Room", 20.0),)),), "unit", "radiator", "number"
)
METER = MeterDisplay("Meter", "kWh", "04821", "37", False, "count", "leave", "4821 kWh")
GAUGE = PressureGauge(
    4.0,
    "bar",
    (GaugeBand(1.0, 1.4, "cold", "cold"), GaugeBand(1.2, 1.8, "hot", "hot")),
    (GaugeMark(0.9, "top up", "top_up"), GaugeMark(3.0, "opens", "safety")),
)


@pytest.mark.parametrize("kind", KINDS)
@settings(max_examples=2, phases=[Phase.generate], database=None)
@given(data=st.data())
def test_the_typesetter_and_the_rasteriser_take_every_kind_of_drawing(
    kind: str, data: st.DataObject
) -> None:
    svg = draw(data.draw(KINDS[kind]))
    source = f'#image(bytes({_quoted(svg)}), format: "svg")'
    assert typeset(source).startswith(b"%PDF")
    assert vl_convert.svg_to_png(svg).startswith(b"\x89PNG")


def typeset(source: str) -> bytes:
    made = typst.compile(  # type: ignore[misc]  # the package's own types do not resolve
        source.encode(), font_paths=[str(font_folder())]
    )
    assert isinstance(made, bytes)
    return made


def _quoted(text: str) -> str:
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


@pytest.mark.parametrize("drawing", [BARE_SYSTEM, BARE_HOUSE], ids=["system", "house"])
def test_a_home_with_hardly_anything_still_makes_a_drawing(
    drawing: SystemSchematic | HouseSection,
) -> None:
    assert faults_in(draw(drawing)) == []
    assert faults_in(draw(drawing, "narrow")) == []


def test_digits_left_out_are_set_apart_without_colour() -> None:
    left_out, written = draw(METER), draw(replace(METER, writes_after=True))
    assert left_out.count("<polyline") > written.count("<polyline")  # the hatching
    sizes = {item.words: item.size for item in lettering_of(left_out)}
    assert sizes["7"] < sizes["8"]


def test_cold_and_hot_bands_differ_without_colour() -> None:
    cold = draw(replace(GAUGE, bands=GAUGE.bands[:1]))
    hot = draw(replace(GAUGE, bands=(replace(GAUGE.bands[0], tone="hot"),)))
    assert cold.count("<polyline") > hot.count("<polyline")  # across, not along


def test_every_word_of_a_drawing_is_on_it() -> None:
    found = {item.words for item in lettering_of(draw(GAUGE))}
    assert {"cold", "hot", "top up", "opens", "bar", "0", "1", "2", "3", "4"} <= found


def test_the_wide_form_is_a_page_wide_and_the_narrow_one_set_as_wide_is_large_print() -> None:
    wide, narrow = view_of(draw(GAUGE))[0], view_of(draw(GAUGE, "narrow"))[0]
    assert wide == pytest.approx(160 / 25.4 * 72, abs=0.6)  # 160 mm in points, 72 to the inch
    assert min(item.size for item in lettering_of(draw(GAUGE, "narrow"))) * wide / narrow >= 15.9


def test_words_from_a_record_cannot_break_the_picture() -> None:
    named = replace(METER, name='<b> & "quoted" \x00')
    svg = draw(named)
    assert "<b>" not in svg
    assert "\x00" not in svg
    assert faults_in(svg) == []


def test_the_warning_sign_keeps_its_form_at_any_size() -> None:
    for size in (12.0, 28.0, 80.0):
        width, height = view_of(warning_sign(size))
        assert height / width == pytest.approx(0.9, abs=0.01)
