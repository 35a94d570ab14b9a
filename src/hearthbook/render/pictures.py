"""Drawings as SVG with their size, and lettering that keeps its width in any typeface."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache, lru_cache
from html import unescape

from hearthbook.documents.drawings import Drawing
from hearthbook.render.drawings import draw, warning_sign
from hearthbook.render.drawings.sheet import Layout
from hearthbook.render.drawings.text_width import text_width

__all__ = ["Drawn", "drawn", "sign_on_tint", "with_held_widths"]

_VIEW = re.compile(r'viewBox="\s*[-\d.]+[ ,]+[-\d.]+[ ,]+([\d.]+)[ ,]+([\d.]+)\s*"')
_SHEET = re.compile(r"<rect\b[^>]*/>")
_TEXT = re.compile(r"<text\b([^>]*)>([^<]+)</text>")
_SIZE = re.compile(r'font-size="([\d.]+)(?:px)?"')
_BOLD = re.compile(r'font-weight="(?:bold|[6-9]00)"')


@dataclass(frozen=True)
class Drawn:
    """A drawing as SVG, with the width and height of its view in points."""

    svg: str
    width: float
    height: float


@lru_cache(maxsize=256)
def drawn(drawing: Drawing, layout: Layout) -> Drawn:
    """A drawing made.

    Args:
        drawing: what it shows.
        layout: `wide` for a page, `narrow` for a telephone and for large print.

    Raises:
        ValueError: the drawing has no view box, so nobody can tell how large it is.
    """
    svg = draw(drawing, layout)
    found = _VIEW.search(svg)
    if found is None:
        raise ValueError(f"the drawing {type(drawing).__name__} has no viewBox")
    return Drawn(svg, float(found[1]), float(found[2]))


@cache
def sign_on_tint() -> str:
    """The warning sign without the white sheet behind it, for a box that is tinted."""
    return _SHEET.sub("", warning_sign(), count=1)


def with_held_widths(svg: str) -> str:
    """A picture whose words are as wide as they were planned, whatever typeface a screen has.

    Args:
        svg: with words set in our family; each text that says its size is held to its width.
    """
    return _TEXT.sub(_held, svg)


def _held(found: re.Match[str]) -> str:
    """One text with its width written down."""
    attributes, text = found[1], found[2]
    size = _SIZE.search(attributes)
    if size is None or "textLength" in attributes:
        return found[0]
    words = unescape(text).strip()
    width = text_width(words, float(size[1]), bold=_BOLD.search(attributes) is not None)
    held = f' textLength="{width:.1f}" lengthAdjust="spacingAndGlyphs"'
    return f"<text{attributes}{held}>{text}</text>"
