"""The single sheets of a pack: plant card, winter card, when-you-call card, next owner's page."""

from __future__ import annotations

from hearthbook.documents.blocks import (
    Block,
    Card,
    CardTone,
    Column,
    Columns,
    Document,
    Table,
)
from hearthbook.documents.inline import escaped
from hearthbook.handover.basis import PackBasis
from hearthbook.handover.pictures_of_home import picture
from hearthbook.handover.wording import piece

__all__ = ["call_card", "next_owner", "plant_card", "winter_card"]

_CARDS = "cards.md"


def _card(basis: PackBasis, key: str, tone: CardTone = "plain") -> Card:
    text = piece(basis.language, _CARDS, key, basis.facts)
    return Card(text.title, text.blocks, tone)


def plant_card(basis: PackBasis) -> Document:
    """One sheet to hang by the plant: what is normal, how it was left, what is never done."""
    gauge = picture(basis, "pressure_gauge")
    drawn: tuple[Block, ...] = () if gauge is None else (gauge,)
    blocks: tuple[Block, ...] = (
        *drawn,
        _card(basis, "plant_normal", "normal"),
        _card(basis, "plant_settings"),
        Columns(((_card(basis, "plant_never", "never"),), (_card(basis, "plant_call", "call"),))),
    )
    return basis.document("card", "plant_card", blocks)


def winter_card(basis: PackBasis) -> Document:
    """What is normal in frost, and what to do in a power cut."""
    blocks: tuple[Block, ...] = (
        _card(basis, "winter_normal", "normal"),
        Columns(((_card(basis, "winter_do"),), (_card(basis, "winter_do_not", "never"),))),
        _card(basis, "winter_power_cut"),
        _card(basis, "winter_call", "call"),
    )
    return basis.document("card", "winter_card", blocks)


def call_card(basis: PackBasis) -> Document:
    """The readings to have ready when calling, and where each is found in this home."""
    words = basis.words
    columns = (
        Column(words("call", "reading"), share=3),
        Column(words("call", "place"), share=3),
        Column(words("call", "write"), numeric=True, share=3),
    )
    rows = tuple(
        (escaped(reading["name"]), escaped(reading["place"]), reading["unit"])
        for reading in basis.facts["call_readings"]
    )
    table = Table(words("call", "caption"), columns, rows, to_fill=True)
    blocks = (*basis.blocks(_CARDS, "call_intro"), table, _card(basis, "call_photo"))
    return basis.document("card", "call_card", blocks)


def next_owner(basis: PackBasis) -> Document:
    """What a buyer or tenant must know, and the papers that exist."""
    blocks = tuple(
        basis.section(_CARDS, key)
        for key in ("next_intro", "next_must_know", "next_first", "next_papers")
    )
    return basis.document("card", "next_owner", blocks)
