"""The colder night to be tried out on the page: every depth and length, answered beforehand."""

from __future__ import annotations

from hearthbook.documents.blocks import Dial, Dials, Table
from hearthbook.documents.markdown import blocks_from
from hearthbook.handover.basis import PackBasis
from hearthbook.handover.facts.setback import (
    NIGHT,
    advised,
    change,
    coldest,
    depth_words,
    warm_again,
)
from hearthbook.handover.facts.speech import Speech
from hearthbook.year.pack_numbers import NightNumbers

__all__ = ["setback_trial"]

_START = 2.0  # K, where the dial stands at first


def setback_trial(basis: PackBasis) -> Dials | Table:
    """Two dials for a colder night, with the table of one length; the table where that is all."""
    (table,) = blocks_from(basis.facts["table_setback"])
    assert isinstance(table, Table)
    nights = basis.numbers.nights
    depths = list(dict.fromkeys(night.depth for night in nights))
    lengths = list(dict.fromkeys(night.hours for night in nights))
    if len(lengths) < 2:
        return table
    words = basis.words
    return Dials(
        anchor="trial",
        title=words("setback", "trial_title"),
        first=Dial(
            words("setback", "trial_depth"),
            tuple(depth_words(depth) if depth else words("setback", "trial_none")
                  for depth in depths),
            depths.index(_START),
        ),
        second=Dial(
            words("setback", "trial_hours"),
            tuple(words("words", "hours", value=f"{hours:.0f}") for hours in lengths),
            lengths.index(min(lengths, key=lambda hours: abs(hours - NIGHT))),
        ),
        answers=tuple(
            tuple(_answer(basis, basis.numbers.night(depth, hours)) for hours in lengths)
            for depth in depths
        ),
        table=table,
    )  # fmt: skip


def _answer(basis: PackBasis, night: NightNumbers) -> str:
    speech = Speech(basis.language)
    if not night.depth:
        return basis.words("setback", "trial_steady")
    said = basis.words(
        "setback",
        "trial_answer",
        change=change(basis.design, night, speech),
        coldest=coldest(basis.design, night, speech),
        wait=warm_again(night, speech),
    )
    if night.depth <= advised(basis.design, basis.numbers).depth:
        return said
    return f"{said} {basis.words('setback', 'trial_deeper')}"
