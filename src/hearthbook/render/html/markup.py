"""Each block of a document as HTML."""

from __future__ import annotations

from typing import assert_never

from hearthbook.documents import blocks as b
from hearthbook.documents.charts import Chart
from hearthbook.documents.figures import KeyFigure
from hearthbook.documents.inline import capitalised, plain
from hearthbook.documents.tables import table_of
from hearthbook.render.chart_look import ORDINARY, ROOMY
from hearthbook.render.charts import chart_svg
from hearthbook.render.codes import code_svg
from hearthbook.render.html.context import Context
from hearthbook.render.html.dials import dials_markup
from hearthbook.render.html.tags import Html, image, joined, tag
from hearthbook.render.html.workings import working_markup
from hearthbook.render.pictures import drawn, sign_on_tint, with_held_widths

__all__ = ["markup"]

_TELEPHONE = "(max-width: 34rem)"
_ENLARGED = 1.4  # drawings are made for paper, and are seen on a screen from further away


def markup(blocks: tuple[b.Block, ...], level: int, context: Context) -> Html:
    """Blocks as HTML.

    Args:
        blocks: what is to be shown.
        level: of a heading of theirs; 1 is a chapter, which the page writes as `h2`.
        context: the document they belong to.
    """
    return joined(*(_block(block, level, context) for block in blocks))


def _block(block: b.Block, level: int, context: Context) -> Html:  # noqa: C901, PLR0911, PLR0912 - one case for each block, closed by assert_never
    match block:
        case b.Heading():
            text = context.spoken(block.text)
            return tag(f"h{min(block.level + 1, 6)}", text, id=block.anchor or None)
        case b.Text():
            return tag("p", context.spoken(block.text))
        case b.Steps():
            return tag("ol", *_items(block.items, context), class_="steps")
        case b.Bullets():
            return tag("ul", *_items(block.items, context))
        case b.Definitions():
            return _definitions(block, context)
        case b.Table():
            return _table(block, context)
        case b.Dials():
            return joined(dials_markup(block), _table(block.table, context))
        case b.Caution():
            return _caution(block, context)
        case b.Figures():
            return _figures(block, context)
        case b.WorkingTree():
            return working_markup(block.figure, context)
        case b.Picture():
            return _picture(block, context)
        case Chart():
            return _chart(block, context)
        case b.Checklist():
            return _checklist(block, context)
        case b.WriteIn():
            return _write_in(block, context)
        case b.Question():
            return _question(block, level, context)
        case b.Section():
            return _section(block, level, context)
        case b.PageBreak():
            return tag("div", class_="page-break")
        case b.Columns():
            columns = (tag("div", markup(part, level, context)) for part in block.columns)
            return tag("div", *columns, class_="columns")
        case b.Card():
            title = tag(f"h{min(level, 6)}", block.title, class_="card-title")
            inner = markup(block.blocks, level + 1, context)
            return tag("div", title, inner, class_=f"card tone-{block.tone}")
        case b.SignOff():
            return _sign_off(block, context)
        case b.Code():
            return _code(block)
        case b.Labels():
            return tag("div", *(_label(item, context) for item in block.items), class_="labels")
        case _:
            assert_never(block)


def _items(items: tuple[str, ...], context: Context) -> list[Html]:
    return [tag("li", context.spoken(item)) for item in items]


def _definitions(block: b.Definitions, context: Context) -> Html:
    pairs = (
        tag("div", tag("dt", context.spoken(item.term)), tag("dd", context.spoken(item.meaning)))
        for item in block.items
    )
    return tag("dl", *pairs)


def _table(block: b.Table, context: Context) -> Html:
    """A table that scrolls by itself where the screen is narrow."""
    heads = (
        tag("th", context.spoken(one.title), scope="col", class_="number" if one.numeric else None)
        for one in block.columns
    )
    rows = [_row(block, row, context) for row in block.rows]
    foot = tag("tfoot", rows.pop()) if block.last_is_total and rows else Html("")
    caption = tag("caption", context.spoken(block.caption)) if block.caption else Html("")
    table = tag("table", caption, tag("thead", tag("tr", *heads)), tag("tbody", *rows), foot)
    name = plain(block.caption) or context.words["figure"]
    return tag("div", table, class_="scroll", tabindex="0", role="group", aria_label=name)


def _row(table: b.Table, row: tuple[b.Cell, ...], context: Context) -> Html:
    cells = []
    for index, (column, cell) in enumerate(zip(table.columns, row, strict=True)):
        heads = table.row_headers and index == 0
        style = "number" if column.numeric else None
        named = capitalised(cell) if heads and isinstance(cell, str) else cell
        content = _cell(named, context)
        cells.append(
            tag("th", content, scope="row", class_=style)
            if heads
            else tag("td", content, class_=style)
        )
    return tag("tr", *cells)


def _cell(cell: b.Cell, context: Context) -> Html:
    if isinstance(cell, KeyFigure):
        return joined(cell.shown())
    if isinstance(cell, b.Tag):
        return tag("span", cell.text, class_=f"tag tone-{cell.tone}")
    return context.spoken(cell)


def _caution(block: b.Caution, context: Context) -> Html:
    hazard = context.words["hazard"].get(block.hazard, block.hazard)
    head = tag("p", f"{context.words[block.level]}: {hazard}", class_="caution-title")
    text = tag("p", context.spoken(block.text))
    sign = tag("img", src=image(sign_on_tint()), alt="", width="40", height="36")
    said = tag("div", head, text)
    return tag("div", sign, said, class_=f"caution tone-{block.level}", role="note")


def _figures(block: b.Figures, context: Context) -> Html:
    basis = context.words["basis"]
    items = (
        tag(
            "div",
            tag("dt", capitalised(figure.label)),
            tag(
                "dd",
                tag("span", figure.shown_with_range(), class_="value"),
                " ",
                tag("span", basis[figure.basis.value], class_="standing"),
            ),
        )
        for figure in block.figures
    )
    return tag("dl", *items, class_="figures")


def _picture(block: b.Picture, context: Context) -> Html:
    wide, narrow = drawn(block.drawing, "wide"), drawn(block.drawing, "narrow")
    picture = tag(
        "picture",
        tag("source", media=_TELEPHONE, srcset=_address(narrow.svg)),
        tag(
            "img",
            src=_address(wide.svg),
            alt=block.alt,
            width=str(round(wide.width * _ENLARGED)),
            height=str(round(wide.height * _ENLARGED)),
        ),
    )
    said = context.spoken(capitalised(block.caption))
    caption = tag("figcaption", said) if block.caption else Html("")
    return tag("figure", tag("div", picture, class_="drawn"), caption)


def _address(svg: str) -> str:
    """A picture as the address of an image."""
    return image(with_held_widths(svg))


def _chart(chart: Chart, context: Context) -> Html:
    """A chart for both widths of screen, with its sentence, and its numbers to fold out."""
    words = context.words
    narrow = tag("source", media=_TELEPHONE, srcset=_address(chart_svg(chart, ROOMY)))
    said = f"{chart.title}. {chart.sentence}"
    wide = tag("img", src=_address(chart_svg(chart, ORDINARY)), alt=said)
    framed = tag("div", tag("picture", narrow, wide), class_="drawn")
    caption = tag("figcaption", tag("strong", chart.title), tag("br"), chart.sentence)
    table = _table(table_of(chart, low=words["low"], high=words["high"]), context)
    numbers = tag("details", tag("summary", words["table"]), table, class_="numbers")
    return joined(tag("figure", caption, framed, class_="chart"), numbers)


def _checklist(block: b.Checklist, context: Context) -> Html:
    items = []
    for item in block.items:
        space = [" ", _blank("short", context), " ", item.write_in] if item.write_in else []
        items.append(tag("li", context.spoken(item.text), *space))
    return tag("ul", *items, class_="checklist")


def _blank(width: str, context: Context) -> Html:
    """A line to write on."""
    return tag(
        "span", tag("span", context.words["blank"], class_="unseen"), class_=f"blank {width}"
    )


def _write_in(block: b.WriteIn, context: Context) -> Html:
    lines = [tag("span", class_="blank full") for _ in range(block.lines - 1)]
    label = tag("strong", block.label)
    return tag(
        "p", label, " ", _blank(block.width, context), " ", block.unit, *lines, class_="write-in"
    )


def _question(block: b.Question, level: int, context: Context) -> Html:
    """A question that folds; open until the page's script has closed it."""
    notes = [capitalised(note) for note in (block.place, *block.seasons) if note]
    note = tag("p", " · ".join(notes), class_="where") if notes else Html("")
    heading = tag(f"h{min(level + 1, 6)}", block.question)
    return tag(
        "details",
        tag("summary", heading),
        tag("div", note, markup(block.blocks, level + 1, context), class_="answer"),
        id=block.anchor,
        class_="question",
        open=True,
        data_place=block.place,
        data_seasons="|".join(block.seasons),
        data_keywords=", ".join(block.keywords),
    )


def _section(block: b.Section, level: int, context: Context) -> Html:
    heading = tag(f"h{min(level + 1, 6)}", block.title, id=block.anchor)
    return tag(
        "section", heading, markup(block.blocks, level + 1, context), aria_labelledby=block.anchor
    )


def _sign_off(block: b.SignOff, context: Context) -> Html:
    words = context.words
    heads = (tag("th", words[key], scope="col") for key in ("role", "name", "signature", "date"))
    rows = (
        tag("tr", tag("th", role, scope="row"), *(tag("td", Html("&nbsp;")) for _ in range(3)))
        for role in block.roles
    )
    table = tag("table", tag("thead", tag("tr", *heads)), tag("tbody", *rows), class_="sign-off")
    statement = tag("p", context.spoken(block.statement))
    name = words["signature"]
    return joined(
        statement,
        tag("div", table, class_="scroll", tabindex="0", role="group", aria_label=name),
    )


def _code(block: b.Code) -> Html:
    drawn = tag("img", src=image(code_svg(block.target)), alt="", width="132", height="132")
    leads = block.target.startswith(("https://", "#"))
    label = tag("a", block.label, href=block.target) if leads else tag("span", block.label)
    return tag("p", drawn, " ", label, class_="code")


def _label(item: b.Label, context: Context) -> Html:
    title = tag("p", item.title, class_="card-title")
    code = _code(item.code) if item.code else Html("")
    return tag("div", title, tag("p", context.spoken(item.text)), code, class_="label")
