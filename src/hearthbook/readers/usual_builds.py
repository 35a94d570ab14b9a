"""Whether the usual builds a record names are in the table of usual values."""

from __future__ import annotations

from collections.abc import Iterator

from hearthbook.record.contradiction import Contradiction, nearest
from hearthbook.record.home import Home
from hearthbook.survey.answers import BY_AGE
from hearthbook.survey.typical import typical_cases

__all__ = ["unknown_builds"]


def unknown_builds(home: Home) -> Iterator[Contradiction]:
    """The constructions whose `typical` names no usual build."""
    known = (BY_AGE, *typical_cases("construction"))
    for position, construction in enumerate(home.building.constructions):
        name = construction.typical
        if name is not None and name not in known:
            hint = nearest(name, known) or f" Known are {', '.join(known)}."
            path = ("building", "constructions", position, "typical")
            yield Contradiction(path, f"no usual build is called '{name}'.{hint}", True)
