"""What the tests of the drawings share: the lettering read back from a picture, as boxes."""

from __future__ import annotations

import re
from dataclasses import dataclass
from html import unescape

from hearthbook.render.drawings.text_width import text_width

_TEXT = re.compile(
    r'<text x="([-\d.]+)" y="([-\d.]+)" font-size="([\d.]+)"( font-weight="600")? '
    r'fill="(#\w+)" text-anchor="(\w+)">([^<]*)</text>'
)
_VIEW = re.compile(r'viewBox="0 0 ([\d.]+) ([\d.]+)"')


@dataclass(frozen=True)
class Lettered:
    words: str
    size: float
    colour: str
    left: float
    top: float
    right: float
    bottom: float

    def overlaps(self, other: Lettered) -> bool:
        slack = 0.3  # coordinates are rounded to a hundredth
        return (
            self.left < other.right - slack
            and other.left < self.right - slack
            and self.top < other.bottom - slack
            and other.top < self.bottom - slack
        )


def view_of(svg: str) -> tuple[float, float]:
    match = _VIEW.search(svg)
    assert match is not None
    return float(match.group(1)), float(match.group(2))


def lettering_of(svg: str) -> list[Lettered]:
    found = []
    for x, y, size, bold, colour, anchor, words in _TEXT.findall(svg):
        text, points = unescape(words), float(size)
        width = text_width(text, points, bold=bool(bold))
        left = float(x) - {"start": 0.0, "middle": 0.5, "end": 1.0}[anchor] * width
        top, bottom = float(y) - 0.72 * points, float(y) + 0.2 * points
        found.append(Lettered(text, points, colour, left, top, left + width, bottom))
    assert len(found) == svg.count("<text")
    return found


def faults_in(svg: str) -> list[str]:
    """Lettering that leaves the picture, lies on other lettering or is too small to read."""
    width, height = view_of(svg)
    letters = lettering_of(svg)
    faults = [
        f"{item.words!r} leaves the picture"
        for item in letters
        if item.left < 0 or item.top < 0 or item.right > width or item.bottom > height
    ]
    faults += [f"{item.words!r} is {item.size} points" for item in letters if item.size < 10]
    for index, item in enumerate(letters):
        faults += [
            f"{item.words!r} lies on {other.words!r}"
            for other in letters[index + 1 :]
            if item.overlaps(other)
        ]
    return faults
