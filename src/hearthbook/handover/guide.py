"""The home guide: this home at a glance, then the walk round it, only the parts it has."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from hearthbook.commissioning.verdicts import Judgement, Verdict
from hearthbook.documents.blocks import (
    Block,
    Bullets,
    Card,
    Definition,
    Definitions,
    Document,
    PageBreak,
    Picture,
    Question,
    Section,
    blocks_in,
)
from hearthbook.documents.figures import KeyFigure, assumptions_in
from hearthbook.documents.inline import escaped
from hearthbook.handover import charts, pictures_of_home
from hearthbook.handover.basis import PackBasis
from hearthbook.handover.questions import questions_of
from hearthbook.handover.trial import setback_trial
from hearthbook.handover.wording import keys, phrases, piece, sentence

__all__ = ["guide"]

_GUIDE = "guide.md"
_SEASONS = ("autumn", "winter", "spring", "summer")


def guide(basis: PackBasis, print_size: Literal["normal", "large"] = "normal") -> Document:
    """The home guide of this home."""
    chapters = tuple(_chapters(basis))
    blocks = (*chapters, _by_season(basis, chapters), *_back_matter(basis))
    document = basis.document("guide", "guide", blocks, print_size=print_size)
    groups = phrases(basis.language).get("synonyms", {}).get("groups", [])
    synonyms = tuple(tuple(group) for group in groups)
    return Document(**{**vars(document), "synonyms": synonyms})


def _chapters(basis: PackBasis) -> Iterator[Section]:
    yield _glance(basis)
    yield _outdoor(basis)
    if basis.facts["cylinder"]:
        yield _cylinder(basis)
    yield _pressure(basis)
    yield _rooms(basis)
    yield _controls(basis)
    yield _meters(basis)
    yield _board(basis)
    yield _care(basis)
    yield _when_to_call(basis)


def _sub(basis: PackBasis, key: str, *more: Block) -> Section:
    return basis.section(_GUIDE, key, *more)


def _picture(basis: PackBasis, name: pictures_of_home.Name) -> tuple[Picture, ...]:
    picture = pictures_of_home.picture(basis, name)
    return () if picture is None else (picture,)


def _questions(basis: PackBasis, place: str) -> tuple[Question, ...]:
    return questions_of(place, basis.facts, basis.language)


def _glance(basis: PackBasis) -> Section:
    return _sub(
        basis,
        "glance",
        *_unfinished(basis),
        _call_card(basis, "call_now"),
        _sub(basis, "glance_numbers"),
    )


def _unfinished(basis: PackBasis) -> tuple[Card, ...]:
    """What the commissioning found wrong, so that nobody takes the guide for the whole truth."""
    wrong = basis.judged.of(Verdict.OUTSIDE)
    if not wrong:
        return ()
    text = piece(basis.language, _GUIDE, "unfinished", basis.facts)
    items = Bullets(tuple(dict.fromkeys(escaped(_finding(judgement)) for judgement in wrong)))
    return (Card(text.title, (*text.blocks, items), "never"),)


def _finding(judgement: Judgement) -> str:
    """What was found: by its name where it was measured, in words where it was looked at."""
    if judgement.reading is not None:
        return judgement.label
    return f"{judgement.label}: {judgement.reason}"


def _call_card(basis: PackBasis, key: str) -> Card:
    text = piece(basis.language, _GUIDE, key, basis.facts)
    return Card(text.title, text.blocks, "call")


def _outdoor(basis: PackBasis) -> Section:
    return _sub(
        basis,
        "outdoor",
        _sub(basis, "outdoor_space", *_picture(basis, "clear_space")),
        _sub(basis, "outdoor_defrost"),
        *_questions(basis, "outdoor_unit"),
    )


def _defrosts(basis: PackBasis) -> tuple[Block, ...]:
    chart = charts.defrost_chart(basis)
    return () if chart is None else (chart,)


def _cylinder(basis: PackBasis) -> Section:
    return _sub(
        basis,
        "cylinder",
        _sub(basis, "hot_water_times"),
        *_questions(basis, "hot_water"),
    )


def _pressure(basis: PackBasis) -> Section:
    return _sub(
        basis,
        "pressure",
        *_picture(basis, "pressure_gauge"),
        _topping_up(basis),
        _sub(basis, "plant_room", *_picture(basis, "system_schematic")),
        *_questions(basis, "pressure"),
    )


def _topping_up(basis: PackBasis) -> Section:
    pressure = basis.facts["pressure"]
    may = pressure["householder_may"]
    key = pressure["fill_kind"] if may else "not_allowed"
    steps = basis.blocks("topping_up.md", key)
    drawn = _picture(basis, "top_up_steps") if may else ()
    return basis.section(_GUIDE, "topping_up", *drawn, *steps)


def _rooms(basis: PackBasis) -> Section:
    return _sub(
        basis,
        "rooms",
        *_picture(basis, "house_section"),
        _sub(basis, "rooms_numbers", *_picture(basis, "head_scale")),
        _sub(basis, "rooms_feel", *_picture(basis, "hand_feel_strip")),
        *_questions(basis, "rooms"),
    )


def _controls(basis: PackBasis) -> Section:
    parts: list[Block] = []
    if basis.facts["curve"]["words"]:
        parts.append(_sub(basis, "controls_curve", charts.curve_chart(basis)))
    parts += [
        _sub(basis, "controls_thermostat"),
        _sub(basis, "controls_setback", setback_trial(basis)),
        *_questions(basis, "controls"),
    ]
    return _sub(basis, "controls", *parts)


def _meters(basis: PackBasis) -> Section:
    displays = pictures_of_home.meter_pictures(basis)
    return _sub(
        basis,
        "meters",
        *displays,
        _sub(basis, "normal_year", charts.monthly_chart(basis)),
        _sub(basis, "normal_day", charts.normal_chart(basis), *_defrosts(basis)),
        *_questions(basis, "meters"),
    )


def _board(basis: PackBasis) -> Section:
    return _sub(
        basis,
        "board",
        _sub(basis, "open_valves", *_picture(basis, "valve_positions")),
        *_questions(basis, "board"),
    )


def _care(basis: PackBasis) -> Section:
    return _sub(basis, "care", _sub(basis, "service"), *_questions(basis, "life"))


def _when_to_call(basis: PackBasis) -> Section:
    cards = tuple(_call_card(basis, key) for key in ("call_now", "call_two_days", "call_week"))
    return _sub(basis, "when_to_call", *cards, _never(basis), *_questions(basis, "calling"))


def _never(basis: PackBasis) -> Card:
    text = piece(basis.language, _GUIDE, "never", basis.facts)
    return Card(text.title, text.blocks, "never")


def _by_season(basis: PackBasis, chapters: tuple[Section, ...]) -> Section:
    asked = [block for block in blocks_in(chapters) if isinstance(block, Question)]
    seasons = []
    for season in _SEASONS:
        name = basis.words("seasons", season)
        links = tuple(
            f"[{escaped(question.question)}](#{question.anchor})"
            for question in asked
            if name in question.seasons
        )
        if links:
            seasons.append(_sub(basis, f"season_{season}", Bullets(links)))
    return _sub(basis, "seasons", *seasons)


def _back_matter(basis: PackBasis) -> Iterator[Block]:
    yield _sub(basis, "papers")
    open_items = basis.facts["open_items"]
    if open_items:
        items = tuple(
            escaped(f"{sentence(item['what'])} ({item['owner']}{item['due']})")
            for item in open_items
        )
        yield _sub(basis, "still_open", Bullets(items))
    yield from _unknown_and_assumed(basis)
    yield _sub(basis, "how_to_read_numbers")
    yield PageBreak()
    yield _sub(basis, "cautions", *basis.blocks("cautions.md", ""))
    yield _sub(basis, "glossary", *_glossary(basis))


def _unknown_and_assumed(basis: PackBasis) -> Iterator[Block]:
    unknowns = basis.facts["unknowns"]
    if unknowns:
        yield _sub(basis, "not_yet_known", Bullets(tuple(unknowns)))
    assumed = _told_to_householder(basis)
    if assumed:
        yield _sub(basis, "assumed", Bullets(tuple(_assumption(figure) for figure in assumed)))


def _told_to_householder(basis: PackBasis) -> tuple[KeyFigure, ...]:
    """Assumptions about the people and what they like, which they know better themselves."""
    return tuple(
        figure
        for figure in assumptions_in(basis.design)
        if figure.name.startswith(("household.", "tariff."))
        or figure.name.endswith(".wanted_temperature")
    )


def _assumption(figure: KeyFigure) -> str:
    return escaped(f"{sentence(figure.label)}: {figure.shown().replace('.0', '')}")


def _glossary(basis: PackBasis) -> tuple[Block, ...]:
    blocks = basis.blocks("glossary.md", keys(basis.language, "glossary.md")[0])
    items: list[Definition] = []
    for block in blocks:
        if isinstance(block, Definitions):
            items.extend(block.items)
    return (Definitions(tuple(items)),)
