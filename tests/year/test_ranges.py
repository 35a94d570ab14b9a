"""The year with its ranges: draws, homes perturbed by them, and what they come to."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from hearthbook.design.results import Design, design_home
from hearthbook.documents.figures import figures_in
from hearthbook.errors import OutOfRange
from hearthbook.kernel.parameters import Rooms
from hearthbook.record.home import Home
from hearthbook.record.parts import Evidence
from hearthbook.simulate.home_model import HomeModel
from hearthbook.year.bands import Band
from hearthbook.year.model import year_model
from hearthbook.year.network_checks import check_network
from hearthbook.year.perturbed_home import Grounds, grounds_of, perturbed
from hearthbook.year.ranges import YearRanges, year_ranges
from hearthbook.year.ranges_document import ranges_section
from hearthbook.year.spread_sources import spread_sources
from hearthbook.year.uncertainties import AS_RECORDED, LABELS, Draw, draws_of, spreads_of
from hearthbook.year.weather_years import generated_years, single_years
from tests.year.winter_days import winter

DRAWS = 24


@pytest.fixture(scope="module")
def design(well_done_home: Home) -> Design:
    return design_home(well_done_home)


@pytest.fixture(scope="module")
def model(design: Design) -> HomeModel:
    return year_model(design).home


@pytest.fixture(scope="module")
def grounds(design: Design) -> Grounds:
    return grounds_of(design)


@pytest.fixture(scope="module")
def ranges(design: Design) -> YearRanges:
    return year_ranges(design, (winter(), winter(mean=1.0)), draws=DRAWS, seed=2)


def _bands(ranges: YearRanges) -> list[Band]:
    whole = [part for part in vars(ranges).values() if isinstance(part, Band)]
    return [
        *whole,
        *(one.electricity for one in ranges.months),
        *(one.electricity for one in ranges.by_outdoor),
    ]


# -- draws -----------------------------------------------------------------------------------------


def test_draws_have_the_mean_and_the_spread_they_are_drawn_from(design: Design) -> None:
    spreads = spreads_of(design)
    draws = draws_of(spreads, 2000, seed=1, weathers=4)
    for name, spread in spreads.values().items():
        values = np.array([getattr(draw, name) for draw in draws])
        if name == "wanted":
            assert values.mean() == pytest.approx(0.0, abs=0.01)
            assert values.std() == pytest.approx(spread, rel=0.03)
        else:
            assert values.min() > 0.0
            assert values.mean() == pytest.approx(1.0, abs=0.01)
            assert np.log(values).std() == pytest.approx(spread, rel=0.03)
    weathers = np.bincount([draw.weather for draw in draws])
    assert weathers.tolist() == [500] * 4


def test_things_are_drawn_independently(design: Design) -> None:
    draws = draws_of(spreads_of(design), 1000, seed=5)
    names = [name for name in LABELS if name != "weather"]
    values = np.array([[getattr(draw, name) for name in names] for draw in draws]).T
    together = np.corrcoef(values) - np.eye(len(names))
    assert np.abs(together).max() < 0.12  # about four times what chance gives; derived


def test_the_same_seed_draws_the_same(design: Design) -> None:
    spreads = spreads_of(design)
    assert draws_of(spreads, 9, 1) == draws_of(spreads, 9, 1)
    assert draws_of(spreads, 9, 1) != draws_of(spreads, 9, 2)


def test_what_is_only_assumed_is_less_sure(design: Design, well_done_home: Home) -> None:
    building = well_done_home.building
    air = building.ventilation.model_copy(update={"evidence": Evidence.ASSUMED})
    changed = building.model_copy(update={"ventilation": air})
    guessed = replace(design, home=well_done_home.model_copy(update={"building": changed}))
    known, unknown = spreads_of(design).values(), spreads_of(guessed).values()
    assert unknown["ventilation"] > known["ventilation"]
    assert known["assumed_fabric"] > known["known_fabric"]


# -- a home perturbed ------------------------------------------------------------------------------


def test_the_draw_in_which_nothing_differs_leaves_every_array(
    model: HomeModel, grounds: Grounds
) -> None:
    same = perturbed(model, AS_RECORDED, grounds)
    for before, after in zip(model.rooms, same.rooms, strict=True):
        assert np.array_equal(before, after)
    assert same.plant.tobytes() == model.plant.tobytes()


@pytest.mark.parametrize("factor", [0.7, 0.9, 1.15, 1.4])
def test_u_values_multiply_what_the_fabric_loses(
    model: HomeModel, grounds: Grounds, factor: float
) -> None:
    draw = Draw(known_fabric=factor, assumed_fabric=factor)
    before, after = model.rooms, perturbed(model, draw, grounds).rooms
    assert after.air_outside == pytest.approx(before.air_outside * factor)
    assert _steady_loss(after) == pytest.approx(_steady_loss(before) * factor, rel=1e-5)


def _steady_loss(rooms: Rooms) -> NDArray[np.float64]:
    """W/K of each room through its masses, solved as one reads the network: air at 1, out at 0."""
    found = []
    fields = rooms._asdict()
    for number in range(fields["air_inner"].size):
        at = {name: float(values[number]) for name, values in fields.items()}
        ways = np.array(
            [
                [at["air_inner"] + at["inner_outer"] + at["inner_floor"],
                 -at["inner_outer"], -at["inner_floor"]],
                [-at["inner_outer"],
                 at["air_outer"] + at["inner_outer"] + at["outer_outside"], 0.0],
                [-at["inner_floor"], 0.0,
                 at["air_floor"] + at["inner_floor"] + at["floor_ground"]],
            ]
        )  # fmt: skip
        air = np.array([at["air_inner"], at["air_outer"], at["air_floor"]])
        inner, outer, floor = np.linalg.lstsq(ways, air, rcond=None)[0]
        taken = (at["air_inner"] * (1 - inner) + at["air_outer"] * (1 - outer)
                 + at["air_floor"] * (1 - floor))  # fmt: skip
        found.append(taken)
    return np.array(found)


@given(
    st.builds(
        Draw,
        ventilation=st.floats(0.3, 2.5),
        known_fabric=st.floats(0.6, 1.5),
        assumed_fabric=st.floats(0.5, 1.8),
        gains=st.floats(0.3, 2.0),
        wanted=st.floats(-1.5, 1.5),
        efficiency=st.floats(0.8, 1.2),
        mass=st.floats(0.3, 2.5),
    )
)
def test_any_draw_gives_a_home_the_loop_can_run(
    model: HomeModel, grounds: Grounds, draw: Draw
) -> None:
    drawn = perturbed(model, draw, grounds)
    shifted = drawn.rooms._replace(wanted_shift=np.zeros(len(model.room_ids)))  # may be negative
    check_network(shifted, drawn.links, drawn.room_names)


# -- the ranges ------------------------------------------------------------------------------------


def test_the_low_end_lies_below_the_middle_and_that_below_the_high_end(ranges: YearRanges) -> None:
    for band in _bands(ranges):
        assert band.low.value <= band.middle.value <= band.high.value
    assert ranges.electricity.low.value < ranges.electricity.high.value


def test_colder_days_take_more(ranges: YearRanges) -> None:
    found = ranges.by_outdoor
    assert len(found) > 3
    assert found[0].electricity.middle.value > found[-1].electricity.middle.value


def test_the_only_month_run_takes_all_of_it(ranges: YearRanges) -> None:
    assert [one.month for one in ranges.months] == [1]
    assert ranges.months[0].electricity.middle.value == pytest.approx(
        ranges.electricity.middle.value
    )


def test_ranges_are_the_same_for_the_same_seed(design: Design, ranges: YearRanges) -> None:
    again = year_ranges(design, (winter(), winter(mean=1.0)), draws=DRAWS, seed=2)
    assert [band.high.value for band in _bands(again)] == [
        band.high.value for band in _bands(ranges)
    ]


def test_the_weather_is_a_source_of_the_spread_where_it_differs(ranges: YearRanges) -> None:
    shares = {one.name: one.share.value for one in ranges.sources}
    assert shares["weather"] > 0.2
    assert all(0.0 <= share <= 1.0 for share in shares.values())
    assert [one.share.value for one in ranges.sources] == sorted(shares.values(), reverse=True)


def test_every_figure_of_the_ranges_has_a_name_of_its_own(
    ranges: YearRanges,
) -> None:
    names = [figure.name for figure in figures_in(ranges)]
    assert len(names) == len(set(names))
    assert "year.range.electricity.p90" in names
    told = {figure.name for figure in figures_in(ranges_section(ranges))}
    assert {"year.range.electricity.p50", "year.range.assumed.mass"} <= told


def test_no_weather_and_no_draws_are_refused(design: Design) -> None:
    with pytest.raises(OutOfRange, match="no weather to run the year through"):
        year_ranges(design, ())
    with pytest.raises(OutOfRange, match="number of draws is 0"):
        year_ranges(design, (winter(),), draws=0)


# -- what spreads them -----------------------------------------------------------------------------


def test_shares_of_a_sum_are_those_of_its_variances(design: Design) -> None:
    # y = 3·gains + 4·mass with equal spreads: 9/25 and 16/25 of the variance; derived
    spreads = spreads_of(design)
    draws = draws_of(spreads, 1500, seed=8)
    sizes = spreads.values()
    results = np.array(
        [3 * np.log(one.gains) / sizes["gains"] + 4 * np.log(one.mass) / sizes["mass"]
         for one in draws]
    )  # fmt: skip
    found = {one.name: one for one in spread_sources(draws, results, spreads)}
    assert found["mass"].share.value == pytest.approx(0.64, abs=0.04)
    assert found["gains"].share.value == pytest.approx(0.36, abs=0.04)
    assert sum(one.share.value for one in found.values()) < 1.05
    assert found["mass"].is_more_with_more


def test_what_falls_is_said_to_fall(design: Design) -> None:
    spreads = spreads_of(design)
    draws = draws_of(spreads, 50, seed=8)
    found = spread_sources(draws, np.array([-one.efficiency for one in draws]), spreads)
    assert found[0].name == "efficiency"
    assert found[0].share.value == pytest.approx(1.0)
    assert not found[0].is_more_with_more


def test_too_few_draws_name_no_source(design: Design) -> None:
    spreads = spreads_of(design)
    assert spread_sources(draws_of(spreads, 4, 1), np.arange(4.0), spreads) == ()
    assert spread_sources(draws_of(spreads, 40, 1), np.ones(40), spreads) == ()


# -- years of weather ------------------------------------------------------------------------------


def test_several_years_are_parted_and_together_are_the_whole(well_done_home: Home) -> None:
    years = generated_years(well_done_home, seed=1, count=3)
    assert [year.hours for year in years] == [8760] * 3
    means = [float(year.outdoor_temperature.mean()) for year in years]
    assert len(set(means)) == 3
    normals = np.mean(well_done_home.building.climate.monthly_mean_temperatures or ())
    assert np.mean(means) == pytest.approx(normals, abs=0.15)


def test_a_short_weather_is_left_whole() -> None:
    weather = winter()
    assert single_years(weather) == (weather,)
