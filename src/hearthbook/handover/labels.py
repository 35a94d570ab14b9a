"""Labels to print and fix to the parts of this home, each with a code into the guide."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hearthbook.documents.blocks import Document, Label, Labels, Text
from hearthbook.handover.basis import PackBasis
from hearthbook.handover.wording import Facts, holds, piece

__all__ = ["labels"]

# Key of the label, the guide's section it opens, and the homes it is for.
_PARTS: tuple[tuple[str, str, str], ...] = (
    ("outdoor_unit", "outdoor", ""),
    ("gauge", "pressure", ""),
    ("filling", "topping-up", "pressure.fill_kind != 'none'"),
    ("vessel", "pressure", "pressure.precharge"),
    ("cylinder", "cylinder", "cylinder"),
    ("relief", "q-tundish", "cylinder and cylinder.unvented"),
    ("filter", "service", "plant.filter"),
    ("diverter", "open-valves", "plant.diverter"),
    ("freeze_valves", "q-freeze_valves_drip", "unit.freeze == 'freeze_valves'"),
    ("glycol", "q-glycol", "unit.freeze == 'glycol'"),
    ("controller", "controls", ""),
    ("stop_tap", "q-call_same_day", "places.water_stop_tap"),
)


def labels(basis: PackBasis) -> Document:
    """The sheet of labels of this home."""
    return basis.document("labels", "labels", (Labels(tuple(_labels(basis))),))


def _labels(basis: PackBasis) -> Iterator[Label]:
    facts = basis.facts
    for key, anchor, when in _PARTS:
        if holds(when, facts):
            yield _label(basis, key, anchor, {})
    for name in facts["kept_open_names"]:
        yield _label(basis, "kept_open", "q-kept_open", {"emitter_name": name})
    for isolator in facts["isolators"]:
        more = {f"isolator_{field}": isolator[field] for field in ("name", "feeds", "left")}
        yield _label(basis, "isolator", "board", more)
    for meter in facts["meters"]:
        yield _label(
            basis, "meter", "meters", {"meter_name": meter["name"], "meter_how": meter["how"]}
        )


def _label(basis: PackBasis, key: str, anchor: str, more: dict[str, Any]) -> Label:
    facts: Facts = {**basis.facts, **more}
    text = piece(basis.language, "labels.md", key, facts)
    words = " ".join(block.text for block in text.blocks if isinstance(block, Text))
    return Label(text.title, words, basis.code(anchor, basis.words("labels", "code")))
