"""What every document of a pack is made from: the home's design, its verdicts and its facts."""

from __future__ import annotations

from dataclasses import dataclass

from hearthbook.commissioning.judgements import Judged
from hearthbook.commissioning.verdicts import Verdict
from hearthbook.design.results import Design
from hearthbook.documents.blocks import Block, Code, Document, Kind, Paper, PrintSize, Section
from hearthbook.handover.wording import Facts, phrase, piece, sentence
from hearthbook.year.pack_figures import PackYear
from hearthbook.year.pack_numbers import YearNumbers

__all__ = ["PackBasis"]


@dataclass(frozen=True)
class PackBasis:
    """What the documents of a pack are made from.

    Attributes:
        design: the home's design.
        judged: the verdicts on it.
        numbers: of the home's years.
        year: the same as figures with their workings.
        facts: the home's facts in the householder's words.
        language: the language of the pack.
        why_not: why no year could be simulated; empty where it was, or nobody asked.
    """

    design: Design
    judged: Judged
    numbers: YearNumbers
    year: PackYear
    facts: Facts
    language: str
    why_not: str = ""

    def words(self, group: str, name: str, /, **values: object) -> str:
        """A short phrase."""
        return phrase(self.language, group, name, **values)

    def blocks(self, name: str, key: str) -> tuple[Block, ...]:
        """The blocks of a piece of wording."""
        return piece(self.language, name, key, self.facts).blocks

    def section(
        self, name: str, key: str, *more: Block, anchor: str = "", before: tuple[Block, ...] = ()
    ) -> Section:
        """A piece of wording as a section, with further blocks before and after its text."""
        text = piece(self.language, name, key, self.facts)
        return Section(text.title, anchor or key.replace("_", "-"), (*before, *text.blocks, *more))

    def code(self, anchor: str, label: str) -> Code | None:
        """A code that opens a part of the guide; None where the firm keeps no page for the home."""
        site = self.design.home.firm.website
        return Code(f"{site}#{anchor}", label) if site else None

    def _state_note(self) -> str:
        """What a reader must know first of a home that is not finished."""
        if self.judged.open_safety_items:
            return self.words("titles", "draft_note")
        if self.judged.of(Verdict.OUTSIDE):
            return self.words("titles", "unfinished_note")
        return ""

    def document(
        self,
        kind: Kind,
        name: str,
        blocks: tuple[Block, ...],
        paper: Paper = "a4",
        print_size: PrintSize = "normal",
    ) -> Document:
        """A document of this home with the title of that name."""
        home = self.design.home
        said = self.words("titles", f"{name}_subtitle", household=home.household.name)
        note = self._state_note()
        subtitle = f"{note} {sentence(said)}".strip()
        return Document(
            title=self.words("titles", name),
            subtitle=subtitle,
            kind=kind,
            home=home.name,
            issued=home.issued,
            blocks=blocks,
            revision=str(home.revision),
            footer=f"{home.firm.name}, {home.firm.phone}",
            language=self.language,
            print_size=print_size,
            paper=paper,
        )
