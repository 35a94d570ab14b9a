"""Drawings as SVG with their natural size."""

from __future__ import annotations

import re
from functools import lru_cache

from hearthbook.documents.drawings import Drawing

__all__ = ["picture_svg"]

_VIEW = re.compile(r'viewBox="\s*[-\d.]+[ ,]+[-\d.]+[ ,]+([\d.]+)[ ,]+([\d.]+)\s*"')


@lru_cache(maxsize=256)
def picture_svg(drawing: Drawing) -> tuple[str, float, float]:
    """A drawing as SVG, with the width and height of its view.

    Raises:
        ValueError: the drawing has no view box, so nobody can tell how large it is.
    """
    from hearthbook.render.drawings import draw

    svg = draw(drawing)
    found = _VIEW.search(svg)
    if found is None:
        raise ValueError(f"the drawing {type(drawing).__name__} has no viewBox")
    return svg, float(found[1]), float(found[2])
