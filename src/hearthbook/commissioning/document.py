"""The verdicts as a document: what needs doing first, then everything judged."""

from __future__ import annotations

from hearthbook.commissioning.judgements import Judged
from hearthbook.commissioning.verdicts import Judgement, Verdict
from hearthbook.design.results import Design
from hearthbook.documents.blocks import (
    Block,
    Card,
    Cell,
    Column,
    Document,
    Section,
    Steps,
    Table,
    Tag,
    Text,
)
from hearthbook.documents.inline import escaped

__all__ = ["commissioning_document", "verdict_sections"]

_TAGS = {
    Verdict.WITHIN: Tag("within", "good"),
    Verdict.LOOK_AGAIN: Tag("look again", "look"),
    Verdict.OUTSIDE: Tag("outside", "bad"),
    Verdict.CANNOT_TELL: Tag("cannot tell", "unknown"),
}
_FIRST = (Verdict.OUTSIDE, Verdict.LOOK_AGAIN, Verdict.CANNOT_TELL)


def commissioning_document(design: Design, judged: Judged) -> Document:
    """The verdicts on a home."""
    home = design.home
    return Document(
        title=f"Verdicts on {home.name}",
        subtitle=f"{home.reference}, revision {home.revision}",
        kind="report",
        home=home.name,
        issued=home.issued,
        blocks=tuple(verdict_sections(design, judged)),
        revision=str(home.revision),
    )


def verdict_sections(design: Design, judged: Judged) -> tuple[Section, ...]:
    """What to do, then everything judged."""
    return (_to_do(judged), _all(design, judged))


def _to_do(judged: Judged) -> Section:
    counts = ", ".join(f"{count} {_TAGS[verdict].text}" for verdict, count in judged.counts())
    blocks: list[Block] = [Text(f"{len(judged.judgements)} things judged: {counts}.")]
    safety = judged.open_safety_items
    if safety:
        steps = Steps(tuple(_step(judgement) for judgement in safety))
        blocks.append(Card("Before anything else: do not hand over like this", (steps,), "never"))
    for verdict in _FIRST:
        found = tuple(j for j in judged.of(verdict) if not j.is_safety)
        if found:
            title = _TAGS[verdict].text.capitalize()
            blocks.append(Section(title, f"verdict-{verdict}", (Steps(tuple(map(_step, found))),)))
    if len(blocks) == 1:
        blocks.append(Text("Everything judged is within its band."))
    return Section("What to do now", "to-do", tuple(blocks))


def _step(judgement: Judgement) -> str:
    place = f" ({judgement.place})" if judgement.place else ""
    return (
        f"**{escaped(judgement.label + place)}.** {escaped(judgement.reason)} "
        f"{escaped(judgement.next_step)}".strip()
    )


def _all(design: Design, judged: Judged) -> Section:
    columns = (
        Column("What", share=4),
        Column("Reading", numeric=True, share=1.3),
        Column("Target", numeric=True, share=1.3),
        Column("Accepted", share=2),
        Column("Verdict", share=1.3),
    )
    rows = tuple(_row(judgement) for judgement in judged.judgements)
    return Section(
        "Everything judged",
        "judged",
        (Table(f"Verdicts on {escaped(design.home.name)}", columns, rows),),
    )


def _row(judgement: Judgement) -> tuple[Cell, ...]:
    reading: Cell = "" if judgement.reading is None else judgement.reading.shown()
    target: Cell = "" if judgement.target is None else judgement.target.shown()
    band = "" if judgement.band is None else judgement.band.shown()
    return (escaped(judgement.label), reading, target, band, _TAGS[judgement.verdict])
