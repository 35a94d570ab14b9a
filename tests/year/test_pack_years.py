"""The pack's numbers from a home's years: ranges in order, sums that agree, nights that make sense.

Few years are run here; what they give is held against itself and against the numbers kept for the
other tests, never against a fixed figure.
"""

from __future__ import annotations

import itertools
from dataclasses import replace

import numpy as np
import pytest

from hearthbook.actions.kept_years import PackYears
from hearthbook.design.results import Design, design_home
from hearthbook.documents.figures import Basis, figures_in, with_inputs
from hearthbook.errors import Incomplete
from hearthbook.record.home import Home
from hearthbook.simulate.run import Run
from hearthbook.simulate.weather import HOURLY_RANGES
from hearthbook.year.bin_numbers import numbers_by_hours
from hearthbook.year.changed_drivers import coldest_days, stretch_of
from hearthbook.year.outcomes import ELECTRICITY
from hearthbook.year.outdoor_days import outdoor_days, steady_below
from hearthbook.year.pack_figures import year_facts
from hearthbook.year.pack_numbers import Span, YearNumbers
from hearthbook.year.pack_years import year_numbers
from hearthbook.year.ranges import year_ranges
from hearthbook.year.weather_years import generated_years
from tests.year.demo_years import ready, year_of

_DRAWS = 6


@pytest.fixture(scope="module")
def designed(well_done_home: Home) -> Design:
    return design_home(well_done_home)


@pytest.fixture(scope="module")
def counted() -> list[tuple[int, int]]:
    return []


@pytest.fixture(scope="module")
def numbers(designed: Design, counted: list[tuple[int, int]]) -> YearNumbers:
    weathers = generated_years(designed.home, 1, 2)
    return year_numbers(
        designed, weathers, draws=_DRAWS, progress=lambda *step: counted.append(step)
    )


@pytest.fixture(scope="module")
def kept(demo_years: dict[str, PackYears]) -> YearNumbers:
    found = demo_years["well_done"].numbers
    assert found is not None
    return found


def _spans(numbers: YearNumbers) -> list[Span]:
    found: list[Span] = [*numbers.months]
    for one in (numbers.totals, *numbers.days, *numbers.nights):
        found += [value for value in vars(one).values() if isinstance(value, Span)]
    return found


def test_every_range_runs_from_low_to_high(numbers: YearNumbers, kept: YearNumbers) -> None:
    for span in (*_spans(numbers), *_spans(kept)):
        assert span.low <= span.middle <= span.high
        assert np.isfinite([span.low, span.high]).all()


def test_the_year_is_the_same_as_the_ranges_tell(designed: Design, numbers: YearNumbers) -> None:
    """Both draw the same homes and meet the same weather, so one pack cannot tell two years."""
    found = year_ranges(designed, generated_years(designed.home, 1, 2), draws=_DRAWS, seed=1)
    band, span = found.electricity, numbers.totals.electricity
    assert (band.low.value, band.middle.value, band.high.value) == pytest.approx(
        (span.low, span.middle, span.high), rel=1e-6
    )


def test_the_months_add_up_to_about_the_year(numbers: YearNumbers, kept: YearNumbers) -> None:
    for one in (numbers, kept):
        months = sum(month.middle for month in one.months)
        assert months == pytest.approx(one.totals.electricity.middle, rel=0.06)


def test_heat_is_electricity_times_efficiency(numbers: YearNumbers, kept: YearNumbers) -> None:
    for one in (numbers, kept):
        totals = one.totals
        made = totals.electricity.middle * totals.efficiency.middle
        assert made == pytest.approx(totals.heat.middle, rel=0.08)


def test_a_few_years_lie_within_what_many_say(numbers: YearNumbers, kept: YearNumbers) -> None:
    """Guards the kept numbers: should the model move far from them, they are to be renewed."""
    many = kept.totals.electricity
    assert 0.75 * many.low < numbers.totals.electricity.middle < 1.25 * many.high


def test_colder_days_take_more(kept: YearNumbers) -> None:
    middles = [day.electricity.middle for day in kept.days]
    assert middles == sorted(middles, reverse=True)


def test_frost_comes_only_where_a_coil_can_freeze(kept: YearNumbers) -> None:
    for day in kept.days:
        if day.outdoor >= 10.0:
            assert day.defrosts.high == 0.0
            assert day.defrost_seconds is None
        elif day.defrost_seconds is not None:  # 2 to 5 minutes: common practice, no source
            assert 120.0 <= day.defrost_seconds.middle <= 300.0


def test_deeper_and_longer_nights_save_no_less_energy(kept: YearNumbers) -> None:
    by = {(night.depth, night.hours): night.electricity.middle for night in kept.nights}
    lengths = sorted({hours for _, hours in by})
    for depth in (1.0, 2.0, 3.0, 4.0):
        for hours in lengths:
            assert by[depth, hours] <= by[depth - 1.0, hours]
    for shorter, longer in itertools.pairwise(lengths):
        assert by[4.0, longer] <= by[4.0, shorter]


def test_a_steady_night_changes_nothing(numbers: YearNumbers) -> None:
    for night in numbers.nights:
        if night.depth == 0.0:
            assert night.electricity == night.share == night.recovery == Span(0.0, 0.0, 0.0)


def test_deeper_nights_are_colder_in_the_morning_and_longer_to_warm(kept: YearNumbers) -> None:
    eight = [night for night in kept.nights if night.hours == 8.0]
    assert [n.recovery.high for n in eight] == sorted(n.recovery.high for n in eight)
    assert eight[-1].coldest < eight[0].coldest


def test_a_home_cools_more_in_more_hours_and_in_colder_weather(kept: YearNumbers) -> None:
    for out in kept.outages:
        assert 0.0 < out.lost_in_two_hours < out.lost_in_four_hours < out.lost_in_eight_hours
    frost, mild = kept.outage(0.0), kept.outage(5.0)
    assert frost.lost_in_eight_hours > mild.lost_in_eight_hours


def test_the_colder_it_was_kept_the_longer_a_home_takes_to_come_back(kept: YearNumbers) -> None:
    for outdoor in (0.0, 5.0):
        waits = [kept.coming_back(rise, outdoor).seconds for rise in (1.0, 2.0, 3.0)]
        assert waits == sorted(waits)


def test_who_waits_is_told_how_far_it_is(
    numbers: YearNumbers, counted: list[tuple[int, int]]
) -> None:
    assert numbers.draws == _DRAWS
    done = [step[0] for step in counted]
    assert done == sorted(done)
    assert counted[-1][0] == counted[-1][1]


def test_the_coldest_days_are_cut_out_whole() -> None:
    drivers = ready("well_done").drivers
    first = coldest_days(drivers, 10)
    cut = stretch_of(drivers, first, 10)
    mean = cut.slots["outdoor"][:-1].mean()
    assert cut.solar.shape[0] == 960
    assert (cut.slots["day"][0], cut.slots["day"][-2]) == (0.0, 9.0)
    for other in (0, 100, 200, 300):
        assert mean <= stretch_of(drivers, other, 10).slots["outdoor"][:-1].mean()


def test_days_of_a_run_are_told_by_their_weather() -> None:
    run: Run = year_of("well_done")
    found = outdoor_days([run], has_prices=True)
    assert [day.outdoor for day in found] == sorted(day.outdoor for day in found)
    total = run.total(*ELECTRICITY) / 365.0
    assert found[0].electricity.middle > total > found[-1].electricity.middle


def test_a_unit_runs_steadily_below_the_mildest_day_on_which_it_and_all_colder_do(
    kept: YearNumbers,
) -> None:
    day = kept.days[0]
    shares = [(-5.0, 0.99), (0.0, 0.97), (5.0, 0.6), (7.0, 0.99)]
    days = [replace(day, outdoor=outdoor, run_share=share) for outdoor, share in shares]
    assert steady_below(days) == 0.0
    assert steady_below(days[2:]) is None


def test_the_estimate_by_hours_is_told_where_no_year_is_run(designed: Design) -> None:
    by_hours = numbers_by_hours(designed)
    assert not by_hours.is_simulated
    energy = designed.fit.energy.electricity_per_year.value
    assert by_hours.totals.electricity.middle == energy
    assert sum(month.middle for month in by_hours.months) == pytest.approx(energy)
    assert by_hours.night(2.0, 8.0).depth == 2.0


@pytest.mark.parametrize("which", ["kept", "by hours"])
def test_every_figure_of_the_pack_s_year_rests_on_the_record(
    which: str, designed: Design, kept: YearNumbers
) -> None:
    numbers = kept if which == "kept" else numbers_by_hours(designed)
    figures = list(figures_in(year_facts(designed, numbers)))
    names = [figure.name for figure in figures]
    assert len(names) == len(set(names)) > 60
    for figure in figures:
        assert figure.name.startswith("year.pack.")
        bases = {part.basis for part in with_inputs(figure)}
        assert bases & {Basis.DOCUMENTED, Basis.MEASURED}
        assert np.isfinite(figure.value)


def test_weather_that_leaves_out_months_is_refused(designed: Design) -> None:
    whole = ready("well_done").weather
    part = replace(whole, **{field: getattr(whole, field)[: 24 * 90] for field in HOURLY_RANGES})
    with pytest.raises(Incomplete, match="has 90 days; the pack tells of every month"):
        year_numbers(designed, [part], draws=2)
