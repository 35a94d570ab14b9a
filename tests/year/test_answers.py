"""What a year says: parts make wholes, names are told apart, and nothing is left out or made up."""

from __future__ import annotations

import csv
import io
import math
from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from hearthbook.design.results import design_home
from hearthbook.documents.blocks import Document, Table, blocks_in
from hearthbook.documents.defects import defects
from hearthbook.documents.figures import KeyFigure, book_of, figures_in, with_inputs
from hearthbook.kernel.state import HEATING
from hearthbook.readers.record_file import read_home
from hearthbook.record.home import Home
from hearthbook.render.text import render as render_text
from hearthbook.simulate.run import run_year
from hearthbook.year.answers import YearAnswers, year_answers
from hearthbook.year.by_outdoor import by_outdoor
from hearthbook.year.charts import year_charts
from hearthbook.year.comfort_of_rooms import season_of
from hearthbook.year.days import dates_of, days_csv
from hearthbook.year.document import year_document
from hearthbook.year.home_year import HomeYear, home_year
from hearthbook.year.minutes import Minutes, minutes_of, stretch_of
from hearthbook.year.standing import standing_of
from hearthbook.year.stretches import extremes, usual_defrost
from hearthbook.year.weather_of_home import weather_of_home
from tests.conftest import EXAMPLES
from tests.handover.variants import VARIANTS
from tests.year.short_weather import fortnight

HOMES = ("well_done", "with_faults", "without a cylinder")


def _home(name: str) -> Home:
    if name in VARIANTS:
        return VARIANTS[name](_home("well_done"))
    return read_home(EXAMPLES / name / "home.yaml")


@cache
def _short(name: str, days: int = 14, first: int = 0) -> tuple[HomeYear, Minutes, YearAnswers]:
    home = _home(name)
    year = home_year(design_home(home), fortnight(home, days, first))
    minutes = minutes_of(year)
    return year, minutes, year_answers(year, minutes)


@cache
def _whole() -> tuple[HomeYear, Minutes, YearAnswers]:
    home = _home("well_done")
    year = home_year(design_home(home), weather_of_home(home))
    minutes = minutes_of(year)
    return year, minutes, year_answers(year, minutes)


@pytest.mark.parametrize("name", HOMES)
def test_parts_of_electricity_make_the_whole(name: str) -> None:
    _, _, answers = _short(name)
    whole = answers.whole.electricity

    assert whole.total.value == pytest.approx(sum(part.value for part in whole.parts), rel=1e-12)


def test_months_make_the_year() -> None:
    _, _, answers = _whole()
    months = [month.energy for month in answers.months]
    whole = answers.whole

    assert len(months) == 12
    for of_month, of_year in (
        ([one.heat_rooms for one in months], whole.heat_rooms),
        ([one.heat_hot_water for one in months], whole.heat_hot_water),
        ([one.electricity.total for one in months], whole.electricity.total),
        ([one.cost for one in months if one.cost], whole.cost),
    ):
        assert of_year is not None
        assert sum(one.value for one in of_month) == pytest.approx(of_year.value, rel=1e-9)


def test_degrees_outdoors_make_the_year() -> None:
    _, _, answers = _whole()
    groups = answers.by_outdoor

    hours = sum(group.hours.value for group in groups) / 3600.0
    used = sum(group.electricity.value * group.hours.value for group in groups)
    assert hours == pytest.approx(8760.0)
    assert used == pytest.approx(answers.whole.electricity.total.value, rel=1e-9)
    assert min(group.hours.value for group in groups) >= 12 * 3600.0
    assert [group.low for group in groups[1:]] == [group.high + 1 for group in groups[:-1]]


def test_colder_is_more_electricity_and_warmer_water() -> None:
    """A radiator system runs cooler in milder weather: common practice, no source."""
    _, _, answers = _whole()
    heated = [group for group in answers.by_outdoor if 0 <= group.low <= 14]

    used = [group.electricity.value for group in heated]
    flow = [group.flow.value for group in heated if group.flow]
    assert used == sorted(used, reverse=True)
    assert flow == sorted(flow, reverse=True)


def test_wider_boundaries_never_give_a_better_efficiency() -> None:
    for name in HOMES:
        efficiency = _short(name)[2].efficiency
        assert (
            1.0
            < efficiency.all_counted.value
            <= efficiency.with_heaters.value
            <= efficiency.heat_pump.value
            < 7.0
        )


def test_several_years_are_told_as_a_mean_one() -> None:
    home = _home("well_done")
    year = home_year(design_home(home), weather_of_home(home, years=2))
    answers = year_answers(year)

    assert answers.standing.years == 2.0
    assert answers.whole.electricity.total.value == pytest.approx(
        _whole()[2].whole.electricity.total.value, rel=0.15
    )
    assert sum(group.hours.value for group in answers.by_outdoor) / 3600.0 == pytest.approx(8760.0)


def test_days_short_of_a_year_are_not_told_as_one() -> None:
    _, _, answers = _short("well_done")

    assert answers.whole.electricity.total.label == "electricity in the 14 days run"
    assert [month.name for month in answers.months] == ["January"]


@pytest.mark.parametrize("name", HOMES)
def test_a_name_stands_for_one_figure(name: str) -> None:
    _, _, answers = _short(name)
    own = list(figures_in(answers))
    values: dict[str, set[float]] = {}
    for figure in own:
        for one in with_inputs_once(figure):
            values.setdefault(one.name, set()).add(one.value)

    assert len({figure.name for figure in own}) == len(own)
    assert {name: found for name, found in values.items() if len(found) > 1} == {}
    assert all(figure.name.startswith("year.") for figure in own)
    assert all(math.isfinite(figure.value) for figure in book_of(answers).values())


def with_inputs_once(figure: KeyFigure) -> list[KeyFigure]:
    """A figure and what it rests on, each once."""
    found: dict[int, KeyFigure] = {}
    left = [figure]
    while left:
        one = left.pop()
        if id(one) not in found:
            found[id(one)] = one
            left += one.working.inputs
    return list(found.values())


@pytest.mark.parametrize("name", HOMES)
def test_every_figure_is_calculated_and_rests_on_the_run(name: str) -> None:
    _, _, answers = _short(name)

    for figure in figures_in((answers.whole, answers.months, answers.by_outdoor, answers.life)):
        assert str(figure.basis) == "calculated"
        names = {one.name for one in with_inputs_once(figure)}
        assert names & {"year.run", "year.weather"}, figure.name
        assert figure.working.source.startswith("simulated minute by minute; balance closes to 1")


def test_the_balance_is_a_figure() -> None:
    _, _, answers = _short("well_done")

    balance = next(one for one in with_inputs(answers.standing.run) if one.name == "year.balance")
    assert balance.value >= 1e6


@pytest.mark.parametrize("name", HOMES)
@pytest.mark.parametrize("days", [1, 3, 14])
def test_the_document_can_be_given_away(name: str, days: int) -> None:
    year, minutes, answers = _short(name, days)
    document = year_document(year, answers, year_charts(year, minutes))

    assert defects(document) == ()
    assert "Heat and water balance to 1 part in 1,000" in render_text(document)


def test_days_that_begin_amid_the_night_are_told_of_too() -> None:
    """A file in UTC begins and ends amid a local day, here with two hours of a February."""
    weather = replace(fortnight(_home("well_done"), 31), utc_offset=2.0)
    year = home_year(design_home(_home("well_done")), weather)
    minutes = minutes_of(year)
    answers = year_answers(year, minutes)
    document = year_document(year, answers, year_charts(year, minutes))

    assert [month.name for month in answers.months] == ["January", "February"]
    assert len(dates_of(year)) == 32
    assert defects(document) == ()


def test_a_home_without_a_cylinder_is_told_of_no_hot_water() -> None:
    _, _, answers = _short("without a cylinder")

    assert answers.life.taps is None
    assert answers.whole.heat_hot_water.value == 0.0


def test_summer_days_have_no_season_and_no_defrost() -> None:
    year, minutes, answers = _short("with_faults", 3, 205)
    document = year_document(year, answers, year_charts(year, minutes))

    assert answers.life.frost.length is None
    assert defects(document) == ()


def test_ranges_are_shown_where_there_are_some() -> None:
    year, minutes, answers = _short("well_done")
    total = answers.whole.electricity.total
    with_ranges = year_answers(year, minutes, {total.name: (3.6e8, 7.2e8, 10.8e8)})

    def tables(document: Document) -> list[Table]:
        return [block for block in blocks_in(document.blocks) if isinstance(block, Table)]

    found = [
        one for one in tables(year_document(year, with_ranges)) if one.caption == "With a range"
    ]
    row = next(row for row in found[0].rows if row[1] == total)
    assert row[2:] == ("100\xa0kWh", "200\xa0kWh", "300\xa0kWh")
    assert not [
        one for one in tables(year_document(year, answers)) if one.caption == "With a range"
    ]


def test_going_through_the_minutes_again_finds_the_same_year() -> None:
    year, minutes, _ = _whole()
    run = year.run

    assert minutes.runs.sum() == run.total("run_seconds")
    assert minutes.defrosts.size == run.total("defrosts")
    # a run that was going when the year began had its start before it
    assert minutes.runs.size - run.total("starts") in (0.0, 1.0)
    electricity = minutes.electricity.sum() * 900.0
    compressor = run.total(
        "electricity_rooms", "electricity_cylinder", "electricity_defrost", "heat_backup"
    )
    fan = float(year.model.home.plant["fan_power"][0]) * run.total("run_seconds")
    assert electricity + fan == pytest.approx(compressor, rel=1e-9)


def test_rooms_below_wanted_are_those_the_loop_counted() -> None:
    year, _, answers = _whole()
    season = season_of(year).sum() * 900.0

    shares = [room.share_below.value for room in answers.rooms]
    assert shares == pytest.approx((year.run.rooms["below_seconds"] / season).tolist(), abs=1e-12)


def test_a_stretch_is_the_same_as_in_a_traced_run() -> None:
    year, minutes, _ = _whole()
    first = 33 * 1440  # in the second piece
    traced = run_year(year.model.home, year.drivers, trace_days=(33, 2)).trace

    assert traced is not None
    stretch = stretch_of(year, minutes, first, 2 * 1440)
    assert np.array_equal(stretch.values, traced.values)
    over_an_edge = stretch_of(year, minutes, 30 * 1440 - 10, 20)
    assert over_an_edge.values.shape[0] == 20


def test_the_defrost_shown_stands_amid_heating() -> None:
    year, minutes, _ = _whole()
    began = usual_defrost(year, minutes)

    assert began is not None
    before = stretch_of(year, minutes, began - 10, 10)
    assert set(before.column("mode")) == {HEATING}
    assert before.column("frost")[-1] > 0.9 * float(year.model.home.plant["frost_to_defrost"][0])


def test_extremes_keep_the_least_and_the_most() -> None:
    values = np.sin(np.arange(1440) / 7.0)
    found = extremes(values, 30)

    assert found.size == 2 * 48
    assert (found.min(), found.max()) == (values.min(), values.max())


def test_charts_say_what_they_show_and_stay_small() -> None:
    year, minutes, _ = _whole()
    charts = year_charts(year, minutes)

    assert {name for name, _ in charts.named} >= {
        "hours", "cold_week_temperatures", "mild_week_temperatures", "defrost_water",
    }  # fmt: skip
    for name, chart in charts.named:
        assert chart.sentence.endswith("."), name
        assert len(chart.x) <= 1000, name


def test_a_line_for_each_day_adds_up() -> None:
    year, _, answers = _whole()
    rows = list(csv.DictReader(io.StringIO(days_csv(year))))
    parts = [name for name in rows[0] if name.startswith("electricity_")]

    assert [row["date"] for row in rows] == [day.isoformat() for day in dates_of(year)]
    total = sum(float(row[part]) for row in rows for part in parts)
    assert total * 3.6e6 == pytest.approx(answers.whole.electricity.total.value, rel=1e-3)


def test_groups_of_few_hours_join_their_neighbours() -> None:
    year, _, _ = _short("well_done", 3)
    groups = by_outdoor(standing_of(year), year)

    assert sum(group.hours.value for group in groups) == pytest.approx(3 * 86_400.0)
    assert all(group.hours.value >= 12 * 3600.0 for group in groups)
