"""Where the letters come from: a package of fonts, found through the entry points it declares."""

from __future__ import annotations

from functools import cache
from importlib.metadata import entry_points
from pathlib import Path

from hearthbook.errors import NotFound

__all__ = ["font_folder"]


@cache
def font_folder() -> Path:
    """The folder with the one family that everything is set in.

    Raises:
        NotFound: the package of fonts is not installed.
    """
    for point in entry_points(group="fonts_ttf"):
        if point.name == "sourcesansttf":
            files: dict[str, str] = point.load()
            return Path(next(iter(files.values()))).parent
    raise NotFound("the fonts are missing; install the package font-source-sans-pro")
