"""Charts are sound descriptions, drawn in one family, and say the same in their tables."""

from __future__ import annotations

import re

import altair
import pytest

from hearthbook.documents.charts import Axis, Chart, Series
from hearthbook.documents.tables import table_of, turned
from hearthbook.render.chart_look import ORDINARY, ROOMY, SMALL, ChartSize
from hearthbook.render.charts import chart_specification, chart_svg
from hearthbook.render.pictures import with_held_widths
from tests.render.sample import BAND, CURVE, ROOMS, YEAR

CHARTS = {"curve": CURVE, "year": YEAR, "rooms": ROOMS, "band": BAND}
SIZES = {"ordinary": ORDINARY, "roomy": ROOMY, "small": SMALL}


@pytest.mark.parametrize("chart", CHARTS.values(), ids=CHARTS)
def test_every_description_is_valid_vega_lite(chart: Chart) -> None:
    """Source: the schema of Vega-Lite 6 as it comes with Altair."""
    altair.LayerChart.from_dict(chart_specification(chart, ORDINARY))


@pytest.mark.parametrize("size", SIZES.values(), ids=SIZES)
@pytest.mark.parametrize("chart", CHARTS.values(), ids=CHARTS)
def test_letters_are_of_our_family_and_of_the_size_asked_for(chart: Chart, size: ChartSize) -> None:
    svg = chart_svg(chart, size)

    assert set(re.findall(r'font-family="([^"]+)"', svg)) == {"Source Sans Pro"}
    assert {float(one) for one in re.findall(r'font-size="([\d.]+)px"', svg)} == {size.letters}


@pytest.mark.parametrize("chart", CHARTS.values(), ids=CHARTS)
def test_a_chart_is_as_wide_as_it_was_asked_to_be(chart: Chart) -> None:
    width = re.search(r'<svg [^>]*width="([\d.]+)"', chart_svg(chart, ORDINARY))

    assert width is not None
    assert float(width[1]) <= ORDINARY.width


@pytest.mark.parametrize("chart", CHARTS.values(), ids=CHARTS)
def test_names_of_series_zones_and_points_are_written_on_it(chart: Chart) -> None:
    svg = chart_svg(chart, ORDINARY)

    names = [one.name for one in chart.series] if len(chart.series) > 1 else []
    names += [zone.label for zone in chart.zones] + [mark.label for mark in chart.marks]
    assert [name for name in names if f">{name}</text>" not in svg] == []


def test_words_keep_their_width_in_any_typeface() -> None:
    svg = with_held_widths(chart_svg(ROOMS, ORDINARY))

    assert svg.count("<text") == svg.count("textLength=")


def test_the_table_of_a_long_axis_is_thinned_and_keeps_its_ends() -> None:
    table = table_of(CURVE, low="low", high="high", most=7)

    assert [row[0] for row in table.rows] == ["−6", "−2", "2", "6", "10", "14", "18"]
    assert table.rows[0][1:] == ("48", "47")


def test_the_table_of_a_range_holds_its_edges() -> None:
    table = table_of(ROOMS, low="low", high="high")

    titles = [column.title for column in table.columns]
    assert titles == ["Room", "Heat loss (W)", "Heat loss, low (W)", "Heat loss, high (W)"]
    assert table.rows[1] == ("Living room", "1,050", "950", "1,150")


def test_a_turned_table_holds_the_same_numbers() -> None:
    table = table_of(YEAR, low="low", high="high")
    across = turned(table)

    assert [column.title for column in across.columns] == ["Month", *(row[0] for row in table.rows)]
    assert across.rows[1] == ("Hot water (kWh)", *(row[2] for row in table.rows))


def test_a_value_that_is_missing_leaves_its_cell_empty() -> None:
    series = (Series("a", (None, 2.0)),)
    gap = Chart("line", "Flow", "It rises.", Axis("Hour"), Axis("Flow"), (0.0, 1.0), series)

    assert [row[1] for row in table_of(gap, low="low", high="high").rows] == ["", "2"]
    assert chart_svg(gap, ORDINARY).startswith("<svg")


@pytest.mark.parametrize(
    ("kind", "series", "message"),
    [
        ("line", (Series("a", (1.0,)),), "a is not as long as the x axis"),
        ("band", (Series("a", (1.0, 2.0)),), "a has no range to draw as a band"),
        ("bar", (), "needs at least one series"),
    ],
)
def test_data_that_does_not_fit_together_is_refused(
    kind: str, series: tuple[Series, ...], message: str
) -> None:
    with pytest.raises(ValueError, match=message):
        Chart(kind, "Flow", "It rises.", Axis("Hour"), Axis("Flow"), (0.0, 1.0), series)  # type: ignore[arg-type] # the kind is one of ours


def test_a_meaning_stands_where_no_line_crosses_it() -> None:
    svg = chart_svg(CURVE, ORDINARY)
    sides = {
        label: re.search(rf'text-anchor="(\w+)"[^>]*>{label}', svg)
        for label in ("barely warm to the hand", "hot, but you can hold on")
    }
    assert {label: found[1] for label, found in sides.items() if found} == {
        "barely warm to the hand": "start",
        "hot, but you can hold on": "end",
    }
