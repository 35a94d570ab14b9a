"""A document with a defect a stranger would notice is found out."""

from __future__ import annotations

from datetime import date

import pytest

from hearthbook.documents import blocks as b
from hearthbook.documents.charts import Axis, Chart, Series
from hearthbook.documents.defects import defects
from hearthbook.documents.figures import given


def _document(*blocks: b.Block, kind: b.Kind = "guide") -> b.Document:
    return b.Document("Home guide", "", kind, "Fernhollow", date(2026, 3, 5), blocks)


def _table(cell: b.Cell) -> b.Table:
    columns = (b.Column("Room"), b.Column("Heat", numeric=True))
    return b.Table("Radiators", columns, (("Kitchen", cell),))


def test_a_sound_document_has_no_defects() -> None:
    sound = _document(
        b.Section("Gauge", "gauge", (b.Text("See [the gauge](#gauge): 1.2 bar."),)),
        b.Text("None of the radiators is hot; my nan's room is warm, well-kept and 20–21 °C."),
        b.Text("It falls to −5 °C; a fan of 5–10 W; “a/b” (or not)."),
        _table("1,200"),
    )

    assert defects(sound) == ()


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("Set it to None.", "a value that is None"),
        ("The water is at nan °C.", "a number that is not one"),
        ("NaN", "a number that is not one"),
        ("It costs {{ price }} a year.", "an unfilled placeholder"),
        ("It costs {price} a year.", "an unfilled placeholder"),
        ("It costs {tariff.price} a year.", "an unfilled placeholder"),
        ("TODO: ask the electrician.", "a note to the writer"),
        ("Call ???", "a note to the writer"),
        ("It holds – bar when cold.", "a dash where a number should be"),
        ("It holds - °C when cold.", "a dash where a number should be"),
        ("It is <hearthbook.record.home object at 0x7f>", "the insides of the program"),
        ("The cylinder () is full.", "an empty pair of brackets"),
        ("Open the valve .", "a space before a stop"),
        ("Turn the the valve.", "a word said twice"),
        ("Look at outside_unit first.", "a name from the record"),
    ],
)
def test_a_leftover_in_a_text_is_found(text: str, what: str) -> None:
    found = defects(_document(b.Text(text)))

    assert any(what in one for one in found)


@pytest.mark.parametrize("dash", ["-", "–", "—", "−", "?"])
def test_a_dash_for_a_number_in_a_table_is_found(dash: str) -> None:
    assert defects(_document(_table(dash))) == (
        "Table 'Radiators': a dash where a number should be, under “Heat”",
    )


def test_a_figure_that_is_not_a_number_is_found_wherever_it_stands() -> None:
    figure = given("heat_loss.total", "Heat loss", float("nan"), "W", place="rooms")

    found = defects(_document(b.Card("Loss", (b.Figures((figure,)),))))

    assert "figure heat_loss.total: is not a number" in found


def test_a_link_that_leads_nowhere_is_found() -> None:
    found = defects(_document(b.Bullets(("see [the gauge](#gauge)",))))

    assert found == ("Bullets: a link to #gauge, which is not in this document",)


def test_a_place_named_twice_is_found() -> None:
    twice = b.Section("Gauge", "gauge", (b.Text("Cold: 1.2 bar."),))

    assert defects(_document(twice, twice)) == ("the place #gauge is there 2 times",)


def test_a_heading_that_skips_a_level_is_found() -> None:
    found = defects(_document(b.Section("Gauge", "gauge", (b.Heading("Cold", 3),))))

    assert found == ("Heading 'Cold': its level skips one",)


@pytest.mark.parametrize(
    "empty",
    [
        b.Text(" "),
        b.Steps(()),
        b.Bullets(("",)),
        b.Section("Gauge", "gauge", ()),
        b.Table("Radiators", (b.Column("Room"),), ()),
        b.Figures(()),
    ],
)
def test_a_block_with_nothing_in_it_is_found(empty: b.Block) -> None:
    assert len(defects(_document(empty))) == 1


def test_a_chart_with_a_value_that_is_not_a_number_is_found() -> None:
    series = Series("Heating", (1.0, float("inf")))
    chart = Chart(
        "bar", "Year", "It rises.", Axis("Month"), Axis("Heat"), ("Jan", "Feb"), (series,)
    )

    assert defects(_document(chart)) == ("Chart 'Year': Heating has a value that is not a number",)


def test_an_engineer_may_read_the_names_of_the_record() -> None:
    assert defects(_document(b.Text("See heat_loss.total."), kind="report")) == ()
