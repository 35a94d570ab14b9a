"""HTML: one file that holds everything, works without a network, and reads well without script."""

from __future__ import annotations

import base64
import hashlib
import json
from dataclasses import asdict
from functools import cache
from importlib import resources
from typing import Any

from hearthbook.documents import blocks as b
from hearthbook.documents.inline import capitalised
from hearthbook.render.html.context import Context
from hearthbook.render.html.markup import markup
from hearthbook.render.html.tags import Html, joined, tag
from hearthbook.render.styles import NIGHT, PALETTE, Palette
from hearthbook.render.wording import long_date, wording

__all__ = ["render"]

_FEW = 3  # questions below this number need no search


def render(document: b.Document) -> str:
    """The document as one HTML file."""
    anchors = frozenset(
        block.anchor
        for block in b.blocks_in(document.blocks)
        if isinstance(block, b.Heading | b.Section | b.Question) and block.anchor
    )
    context = Context(document, wording(document.language), anchors)
    content = markup(document.blocks, 1, context)
    page = tag("html", _head(document), _body(context, content), lang=document.language)
    return f"<!doctype html>\n{page}\n"


def _head(document: b.Document) -> Html:
    """The file's properties, its style, and what it may load: nothing."""
    style = _style()
    policy = "; ".join(
        (
            "default-src 'none'",
            "img-src data:",
            f"style-src '{_checksum(style)}'",
            f"script-src '{_checksum(_script())}'",
            "base-uri 'none'",
            "form-action 'none'",
        )
    )
    return tag(
        "head",
        tag("meta", charset="utf-8"),
        tag("meta", http_equiv="Content-Security-Policy", content=policy),
        tag("meta", name="viewport", content="width=device-width, initial-scale=1"),
        tag("meta", name="color-scheme", content="light dark"),
        tag("meta", name="referrer", content="no-referrer"),
        tag("title", f"{document.title} · {document.home}"),
        tag("style", Html(style)),
    )


def _body(context: Context, content: Html) -> Html:
    """The page: head, finder, contents, text, foot."""
    document, page = context.document, context.words["page_words"]
    questions = [one for one in b.blocks_in(document.blocks) if isinstance(one, b.Question)]
    finder = _finder(questions, page) if len(questions) >= _FEW else Html("")
    return tag(
        "body",
        tag("a", page["skip"], href="#text", class_="skip"),
        tag("header", _title(context), _sizes(page)),
        tag("div", finder, _contents(context), class_="side"),
        tag("main", content, id="text", tabindex="-1"),
        _foot(context),
        tag("script", _data(context), type="application/json", id="page-data"),
        tag("script", Html(_script())),
        class_=f"kind-{document.kind}",
        id="top",
    )


def _title(context: Context) -> Html:
    """Whose home, what this is, and of when."""
    document, words = context.document, context.words
    issued = f"{words['issued']} {long_date(document.issued, words)}"
    subtitle = (
        tag("p", capitalised(document.subtitle), class_="subtitle")
        if document.subtitle
        else Html("")
    )
    return joined(
        tag("p", document.home, class_="home"),
        tag("h1", document.title),
        subtitle,
        tag("p", f"{issued}, {words['revision']} {document.revision}", class_="issued"),
    )


def _sizes(page: dict[str, str]) -> Html:
    """Buttons that change the size of the letters; of use only with script."""
    smaller = tag("button", "A−", type="button", id="smaller", aria_label=page["smaller"])
    larger = tag("button", "A+", type="button", id="larger", aria_label=page["larger"])
    name = page["size"]
    return tag("div", smaller, larger, class_="sizes", role="group", aria_label=name, hidden=True)


def _finder(questions: list[b.Question], page: dict[str, str]) -> Html:
    """The search and its filters; of use only with script."""
    places = dict.fromkeys(one.place for one in questions if one.place)
    seasons = dict.fromkeys(season for one in questions for season in one.seasons)
    box = tag("input", type="search", id="asked", autocomplete="off", aria_describedby="hint")
    return tag(
        "search",
        tag("h2", page["find"]),
        tag("p", tag("label", page["search"], for_="asked"), box),
        tag("p", page["search_hint"], id="hint", class_="hint"),
        tag(
            "div",
            _choice("place", page["place"], page["every_place"], list(places)),
            _choice("season", page["season"], page["every_season"], list(seasons)),
            class_="choices",
        ),
        tag("p", id="count", role="status"),
        tag("ol", id="answers", class_="answers"),
        tag(
            "p",
            tag("button", page["clear"], type="button", id="clear"),
            " ",
            tag("button", page["open_all"], type="button", id="open-all"),
        ),
        id="finder",
        aria_label=page["find"],
        hidden=True,
    )


def _choice(name: str, label: str, every: str, options: list[str]) -> Html:
    """One filter."""
    if not options:
        return Html("")
    choices = (tag("option", capitalised(option), value=option) for option in options)
    select = tag("select", tag("option", every, value=""), *choices, id=name)
    return tag("p", tag("label", label, for_=name), select)


def _contents(context: Context) -> Html:
    """The chapters, as links."""
    items = [
        tag("li", tag("a", context.spoken(one[1]), href=f"#{one[0]}"))
        for one in _chapters(context.document)
    ]
    if len(items) < 2:
        return Html("")
    name = context.words["contents"]
    inner = tag("details", tag("summary", name), tag("ol", *items), open=True)
    return tag("nav", inner, aria_label=name)


def _chapters(document: b.Document) -> list[tuple[str, str]]:
    """The anchor and title of each chapter."""
    chapters = []
    for block in document.blocks:
        if isinstance(block, b.Section):
            chapters.append((block.anchor, block.title))
        elif isinstance(block, b.Heading) and block.level == 1 and block.anchor:
            chapters.append((block.anchor, block.text))
    return chapters


def _foot(context: Context) -> Html:
    """Whom to call, and the way back up."""
    footer = tag("p", context.document.footer) if context.document.footer else Html("")
    top = tag("p", tag("a", context.words["page_words"]["top"], href="#top"))
    return tag("footer", footer, top)


def _data(context: Context) -> Html:
    """What the script needs to know, with nothing in it that could end its element."""
    data: dict[str, Any] = {
        "words": context.words["page_words"],
        "stop": context.words["page_words"]["stop"].split(),
        "synonyms": context.document.synonyms,
        "language": context.document.language,
    }
    return Html(json.dumps(data, ensure_ascii=False).replace("<", "\\u003c"))


def _checksum(text: str) -> str:
    """The checksum by which the policy knows our own style and script."""
    digest = hashlib.sha256(text.encode("utf-8")).digest()
    return "sha256-" + base64.b64encode(digest).decode("ascii")


@cache
def _asset(name: str) -> str:
    """A file of ours."""
    folder = resources.files("hearthbook.render.html") / "assets"
    return (folder / name).read_text(encoding="utf-8")


def _script() -> str:
    """The page's script."""
    return _asset("page.js")


@cache
def _style() -> str:
    """The page's style, with the colours of day and night."""
    night = f"@media (prefers-color-scheme: dark) {{ :root {{ {_colours(NIGHT)} }} }}"
    return f":root {{ {_colours(PALETTE)} }}\n{_asset('page.css')}\n@media screen {{ {night} }}\n"


def _colours(palette: Palette) -> str:
    """A palette as named colours of the style."""
    named = asdict(palette).items()
    return " ".join(f"--{name.replace('_', '-')}: {value};" for name, value in named)
