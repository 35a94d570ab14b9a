"""The packs of the demo homes and of their variants, as documents, made once."""

from __future__ import annotations

from typing import Any

import pytest

from hearthbook.actions.kept_years import PackYears
from hearthbook.actions.packs import NO_YEARS
from hearthbook.commissioning.judgements import judge_home
from hearthbook.design.results import design_home
from hearthbook.documents.blocks import Document
from hearthbook.handover import wording
from hearthbook.handover.pack import PackItem, pack_items
from hearthbook.record.home import Home
from tests.handover.variants import VARIANTS

Items = dict[str, PackItem]
_LANGUAGE = "en-GB"


class _Noting(dict[str, Any]):
    """A table of words that notes which of them are asked for."""

    def __init__(self, table: dict[str, Any], asked: set[str], prefix: str) -> None:
        super().__init__(table)
        self.asked, self.prefix = asked, prefix

    def __getitem__(self, name: str) -> Any:
        self.asked.add(f"{self.prefix}.{name}")
        return super().__getitem__(name)

    def get(self, name: str, default: Any = None) -> Any:
        self.asked.add(f"{self.prefix}.{name}")
        return super().get(name, default)


@pytest.fixture(scope="session")
def asked() -> set[str]:
    """Which pieces and phrases the packs below asked for, as `file.md.key` and `group.name`."""
    return set()


@pytest.fixture(scope="session")
def packs(
    asked: set[str], well_done_home: Home, faulty_home: Home, demo_years: dict[str, PackYears]
) -> dict[str, Items]:
    """Every variant's pack, with the words noted that went into it.

    The demo homes have their simulated years, the variants the design's own estimate.
    """
    with pytest.MonkeyPatch.context() as patch:
        table = wording.phrases(_LANGUAGE)
        for group in [name for name in table if isinstance(table[name], dict)]:
            patch.setitem(table, group, _Noting(table[group], asked, group))
        pieces = wording._pieces
        patch.setattr(
            wording, "_pieces", lambda language, name: _Noting(pieces(language, name), asked, name)
        )
        homes = {name: change(well_done_home) for name, change in VARIANTS.items()}
        made = {name: items_of(home) for name, home in homes.items() if name != "as it is"}
        made["as it is"] = items_of(well_done_home, demo_years["well_done"])
        made["with faults"] = items_of(faulty_home, demo_years["with_faults"])
    return made


def items_of(home: Home, years: PackYears = NO_YEARS) -> Items:
    design = design_home(home)
    made = pack_items(design, judge_home(design), years.numbers, years.why_not)
    return {item.name: item for item in made}


def document_of(items: Items, name: str) -> Document:
    content = items[name].content
    assert isinstance(content, Document)
    return content
