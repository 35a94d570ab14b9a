from __future__ import annotations

import xml.etree.ElementTree as ET
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.render.drawings import draw, warning_sign
from hearthbook.render.drawings.hand import COOL_PALE, MIST, PAPER, WARM_PALE
from hearthbook.render.drawings.sheet import Layout
from tests.render.drawings.invented import KINDS
from tests.render.drawings.lettering import faults_in, lettering_of, view_of

LAYOUTS: tuple[Layout, ...] = ("wide", "narrow")
KNOWN_TO_EVERY_RENDERER = {"svg", "rect", "line", "polyline", "polygon", "circle", "path", "text"}


@pytest.mark.parametrize("layout", LAYOUTS)
@pytest.mark.parametrize("kind", KINDS)
@given(data=st.data())
def test_no_lettering_leaves_the_picture_or_lies_on_other_lettering(
    kind: str, layout: Layout, data: st.DataObject
) -> None:
    assert faults_in(draw(data.draw(KINDS[kind]), layout)) == []


@pytest.mark.parametrize("kind", KINDS)
@given(data=st.data())
def test_a_drawing_is_plain_svg_and_the_same_every_time(kind: str, data: st.DataObject) -> None:
    drawing = data.draw(KINDS[kind])
    svg = draw(drawing)
    root = ET.fromstring(svg)
    assert {element.tag.split("}")[1] for element in root.iter()} <= KNOWN_TO_EVERY_RENDERER
    assert not any("id" in element.attrib or "href" in element.attrib for element in root.iter())
    assert svg == draw(drawing)


@pytest.mark.parametrize("layout", LAYOUTS)
@pytest.mark.parametrize("kind", KINDS)
@given(data=st.data())
def test_no_shape_leaves_the_picture(kind: str, layout: Layout, data: st.DataObject) -> None:
    svg = draw(data.draw(KINDS[kind]), layout)
    width, height = view_of(svg)
    for element in ET.fromstring(svg).iter():
        for x, y in corners_of(element):
            assert -0.5 <= x <= width + 0.5, f"{element.attrib} leaves the picture"
            assert -0.5 <= y <= height + 0.5, f"{element.attrib} leaves the picture"


def corners_of(element: ET.Element) -> list[tuple[float, float]]:
    """The outermost points of a line, a box or a circle."""
    found = element.attrib
    if "points" in found:
        points = (point.split(",") for point in found["points"].split())
        return [(float(x), float(y)) for x, y in points]
    if "cx" in found:
        x, y, r = (float(found[name]) for name in ("cx", "cy", "r"))
        return [(x - r, y - r), (x + r, y + r)]
    if element.tag.endswith("rect"):
        x, y, width, height = (float(found[name]) for name in ("x", "y", "width", "height"))
        return [(x, y), (x + width, y + height)]
    return []


@pytest.mark.parametrize("kind", KINDS)
@given(data=st.data())
def test_lettering_stands_out_from_every_ground_it_may_lie_on(
    kind: str, data: st.DataObject
) -> None:
    # WCAG 2.2, success criterion 1.4.3: at least 4.5 to 1
    for colour in {item.colour for item in lettering_of(draw(data.draw(KINDS[kind])))} - {PAPER}:
        for ground in (PAPER, MIST, COOL_PALE, WARM_PALE):
            assert contrast(colour, ground) >= 4.5, f"{colour} on {ground}"


def test_contrast_of_black_on_white_is_as_the_guidelines_say() -> None:
    # WCAG 2.2, definition of contrast ratio: from 1 to 21; #767676 on white is the known 4.54
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.01)


def test_the_warning_sign_is_a_triangle_with_a_mark() -> None:
    # ISO 7010, W001: black on yellow, triangle
    root = ET.fromstring(warning_sign())
    triangle = next(e for e in root.iter() if e.tag.endswith("polygon"))
    corners = [tuple(map(float, p.split(","))) for p in triangle.attrib["points"].split()]
    sides = [
        ((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5
        for a, b in pairwise([*corners, corners[0]])
    ]
    assert len(sides) == 3
    assert max(sides) / min(sides) < 1.1


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours, as WCAG 2.2 defines it."""
    darker, lighter = sorted((_luminance(one), _luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def _luminance(colour: str) -> float:
    shares = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [s / 12.92 if s <= 0.04045 else ((s + 0.055) / 1.055) ** 2.4 for s in shares]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
