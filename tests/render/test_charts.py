"""Charts are sound descriptions, drawn in one family, and say the same in their tables."""

from __future__ import annotations

import base64
import re
import struct
import zlib
from dataclasses import replace
from typing import Literal

import altair
import numpy as np
import pytest

from hearthbook.documents.charts import Axis, Chart, Series
from hearthbook.documents.tables import table_of, turned
from hearthbook.render.chart_look import ORDINARY, ROOMY, SMALL, ChartSize
from hearthbook.render.charts import chart_specification, chart_svg
from hearthbook.render.pictures import with_held_widths
from tests.render.sample import BAND, CURVE, ROOMS, YEAR

HEAT = Chart(
    "heat",
    "A week by the hour",
    "Each column is a day and each cell an hour; it takes most in the evening.",
    Axis("Day", places=((0.0, "Monday"), (4.0, "Friday"))),
    Axis("Hour", places=((0.0, "0:00"), (12.0, "12:00"), (24.0, "24:00"))),
    tuple(float(day) for day in range(7)),
    tuple(
        Series(f"{hour}:00", tuple(None if day == hour else hour / 10 for day in range(7)))
        for hour in range(24)
    ),
    colour=Axis("Electricity", "kW", 1),
    coarse=Chart("bar", "Mean by day", "", Axis("Day"), Axis("Electricity", "kW", 1),
                 ("Monday", "Friday"), (Series("Mean", (1.2, 1.3)),)),
)  # fmt: skip
CHARTS = {"curve": CURVE, "year": YEAR, "rooms": ROOMS, "band": BAND, "heat": HEAT}
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


@pytest.mark.parametrize("kind", ["line", "bar"])
def test_a_gap_is_never_read_out_as_a_number(kind: Literal["line", "bar"]) -> None:
    """Neither a value that is missing nor the range of a series that has none."""
    first = Series("Flow", (None, 31.0, 32.0), low=(None, 30.0, 31.0), high=(None, 33.0, 34.0))
    second = Series("Outdoor", (None, 4.0, 5.0))
    x = ("a", "b", "c") if kind == "bar" else (0.0, 1.0, 2.0)
    chart = replace(CURVE, kind=kind, x=x, series=(first, second), zones=(), marks=())

    assert "nan" not in chart_svg(chart, ORDINARY).casefold()


@pytest.mark.parametrize("chart", CHARTS.values(), ids=CHARTS)
def test_names_of_series_zones_and_points_are_written_on_it(chart: Chart) -> None:
    svg = chart_svg(chart, ORDINARY)

    is_told_apart = len(chart.series) > 1 and chart.kind != "heat"
    names = [one.name for one in chart.series] if is_told_apart else []
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


def test_a_heat_map_is_a_picture_of_its_cells_under_named_axes() -> None:
    svg = chart_svg(HEAT, ORDINARY)
    coded = re.search(r"data:image/png;base64,([^\"]+)", svg)

    assert coded is not None
    png = base64.b64decode(coded[1])
    width, height = struct.unpack(">II", png[16:24])
    assert (width % 7, height % 24) == (0, 0)
    dots = np.frombuffer(zlib.decompress(png[png.index(b"IDAT") + 4 :]), np.uint8)
    shades = dots.reshape(height, width + 1)[:: height // 24, 1 :: width // 7]
    assert np.array_equal(shades == 0, np.eye(24, 7, dtype=bool)), "white where nothing is known"
    assert np.all(np.diff(shades[8:, 0].astype(int)) > 0), "darker for more"
    for words in ("Monday", "Friday", "12:00", "Electricity (kW)"):
        assert f">{words}</text>" in svg


def test_a_chart_of_too_many_numbers_has_a_coarse_table() -> None:
    assert table_of(HEAT, low="low", high="high").rows == (("Monday", "1.2"), ("Friday", "1.3"))


def test_a_heat_map_without_colours_is_refused() -> None:
    with pytest.raises(ValueError, match="A week by the hour: a heat map needs numbers along x"):
        replace(HEAT, colour=None)


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
