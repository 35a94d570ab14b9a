"""The running order of the handover visit: stops by place, readings, questions back, sign-off."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files
from typing import Any

from hearthbook.documents.blocks import (
    Block,
    Checklist,
    ChecklistItem,
    Column,
    Columns,
    Document,
    Section,
    SignOff,
    Table,
    Text,
    WriteIn,
)
from hearthbook.documents.inline import escaped, plain
from hearthbook.handover.basis import PackBasis
from hearthbook.handover.wording import holds, piece, sentence

__all__ = ["visit_order"]

_WORDS = "visit.md"
_MANY = 5


@cache
def _stops() -> tuple[dict[str, Any], ...]:
    text = files("hearthbook.handover").joinpath("visit_order.toml").read_text(encoding="utf-8")
    return tuple(tomllib.loads(text)["stop"])


def visit_order(basis: PackBasis) -> Document:
    """The visit order of this home, only with the stops it has."""
    stops = tuple(stop for stop in _stops() if holds(stop.get("when", ""), basis.facts))
    blocks: tuple[Block, ...] = (
        basis.section(_WORDS, "before"),
        _overview(basis, stops),
        *(_stop(basis, number, stop) for number, stop in enumerate(stops, start=1)),
        _open_points(basis),
        _sign_off(basis),
    )
    return basis.document("order", "visit_order", blocks)


def _overview(basis: PackBasis, stops: tuple[dict[str, Any], ...]) -> Table:
    rows = tuple(
        (
            str(number),
            piece(basis.language, _WORDS, stop["key"], basis.facts).title,
            str(stop["minutes"]),
        )
        for number, stop in enumerate(stops, start=1)
    )
    total = str(sum(stop["minutes"] for stop in stops))
    words = basis.words
    return Table(
        words("visit", "overview_caption"),
        (
            Column(words("visit", "number"), numeric=True),
            Column(words("visit", "stop"), share=4),
            Column(words("visit", "minutes"), numeric=True),
        ),
        (*rows, ("", words("visit", "total"), total)),
        row_headers=False,
        last_is_total=True,
    )


def _stop(basis: PackBasis, number: int, stop: dict[str, Any]) -> Section:
    key = stop["key"]
    text = piece(basis.language, _WORDS, key, basis.facts)
    blocks: list[Block] = [*text.blocks]
    for name in stop.get("readings", []):
        blocks.extend(_side_by_side(_readings(basis, name)))
    if stop.get("asks"):
        asked = piece(basis.language, _WORDS, f"{key}_ask", basis.facts).blocks
        question = " ".join(plain(block.text) for block in asked if isinstance(block, Text))
        label = basis.words("visit", "ask", question=escaped(question))
        blocks.append(Checklist((ChecklistItem(label, basis.words("visit", "answer")),)))
    minutes = basis.words(
        "visit", "stop_title", number=number, title=text.title, minutes=stop["minutes"]
    )
    return Section(minutes, f"stop-{key}", tuple(blocks))


def _side_by_side(readings: tuple[WriteIn, ...]) -> tuple[Block, ...]:
    """Many readings stand in two columns."""
    if len(readings) < _MANY:
        return readings
    half = (len(readings) + 1) // 2
    return (Columns((readings[:half], readings[half:])),)


def _readings(basis: PackBasis, name: str) -> tuple[WriteIn, ...]:
    words = basis.words
    match name:
        case "rooms":
            asked = [(sentence(room["name"]), "°C") for room in basis.facts["rooms"]]
        case "meters":
            asked = [(sentence(meter["name"]), meter["unit"]) for meter in basis.facts["meters"]]
        case "taps":
            asked = [(words("visit", f"tap_{which}"), "°C") for which in ("nearest", "farthest")]
        case "pressure" | "pressure_after":
            asked = [(words("visit", name), "bar")]
        case _:
            asked = [(words("visit", name), "°C")]
    return tuple(WriteIn(escaped(label), "short", unit) for label, unit in asked)


def _open_points(basis: PackBasis) -> Section:
    items = basis.facts["open_items"]
    listed = tuple(
        ChecklistItem(escaped(f"{sentence(item['what'])} ({item['owner']}{item['due']})"))
        for item in items
    )
    blocks: tuple[Block, ...] = (
        Checklist(listed) if listed else Text(basis.words("visit", "no_open_points")),
        WriteIn(basis.words("visit", "new_points"), "full", lines=3),
        WriteIn(basis.words("visit", "second_visit"), "long"),
    )
    return Section(basis.words("visit", "open_points"), "open-points", blocks)


def _sign_off(basis: PackBasis) -> Section:
    statement = basis.blocks(_WORDS, "sign_off")
    text = " ".join(block.text for block in statement if isinstance(block, Text))
    papers = tuple(
        ChecklistItem(escaped(f"{paper['name']}: {paper['state']}"))
        for paper in basis.facts["papers"]
    )
    roles = (basis.words("visit", "householder"), basis.words("visit", "firm"))
    blocks: tuple[Block, ...] = (SignOff(text, roles),)
    return Section(
        basis.words("visit", "sign_off"),
        "sign-off",
        (Checklist(papers), *blocks) if papers else blocks,
    )
