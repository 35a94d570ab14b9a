"""The unit's map for the year against the standard's season, its own tested points and frost."""

from __future__ import annotations

from typing import Literal

import numpy as np
import pytest
from hypothesis import given

from hearthbook.design.unit_map import unit_map
from hearthbook.kernel.parameters import PERFORMANCE_FLOW, PERFORMANCE_OUTDOOR, Performance
from hearthbook.physics import seasonal
from hearthbook.physics.climate import reference_bins
from hearthbook.physics.frost import DEFROST_INTERVAL, DEFROST_LENGTH
from hearthbook.physics.frost_growth import coil_surface, water_from_air
from hearthbook.physics.heat_pump import part_load_efficiency, working_efficiency
from hearthbook.record.home import Home
from hearthbook.record.plant import PerformancePoint, Plant
from hearthbook.year.frost_cycle import FrostModel, RatedPoint, cycle_mean, rating_humidity
from hearthbook.year.unit_performance import UnitPerformance, performance_of
from tests.strategies import homes

OUTDOOR, FLOW = np.meshgrid(PERFORMANCE_OUTDOOR, PERFORMANCE_FLOW, indexing="ij")
IS_LIFTED = FLOW - OUTDOOR >= 12.0  # K; below that the kernel holds the lift
_AT_35 = int(np.flatnonzero(PERFORMANCE_FLOW == 35.0)[0])


def _with_points(home: Home, points: list[PerformancePoint], **more: object) -> Plant:
    changes = {"points": tuple(points), **more}
    unit = home.plant.heat_pump.model_copy(update=changes)
    return home.plant.model_copy(update={"heat_pump": unit})


def _point(outdoor: float, output: float, efficiency: float, **more: object) -> PerformancePoint:
    return PerformancePoint(
        outdoor_temperature=outdoor, flow_temperature=35.0, output=output, efficiency=efficiency,
        **more,  # type: ignore[arg-type] # fields by name
    )  # fmt: skip


def _efficiency(share: np.ndarray) -> np.ndarray:
    air = np.minimum(OUTDOOR, FLOW - 12.0)
    return np.asarray(share * working_efficiency(air, FLOW))


def _season(performance: Performance) -> seasonal.SeasonalResult:
    """The standard's average season at a fixed flow of 35 °C and 8 kW of design load."""
    bins = reference_bins("average")
    rows = (bins.temperatures - PERFORMANCE_OUTDOOR[0]).astype(int)
    load = 8000.0 * np.asarray(seasonal.part_load_ratio(bins.temperatures, -10.0))
    return seasonal.seasonal_efficiency(
        bins.hours, load, performance.most[rows, _AT_35],
        _efficiency(performance.most_share)[rows, _AT_35],
    )  # fmt: skip


def test_a_unit_of_one_efficiency_has_it_over_the_standards_season(well_done_home: Home) -> None:
    """HP-16: with an efficiency of 3 in every bin SCOPon is 3.000; an identity."""
    points = [_point(float(t), 12e3, 3.0, includes_defrost=False) for t in range(-10, 17)]
    season = _season(performance_of(_with_points(well_done_home, points)).performance)
    assert season.efficiency == pytest.approx(3.0, abs=1e-6)


def test_the_season_of_a_published_set_of_points_comes_out(well_done_home: Home) -> None:
    """HP-17, derived on the bins of EU 811/2013 with straight lines between efficiencies.

    The map goes straight in the share of Carnot instead, which bends the efficiency.
    """
    points = [
        _point(outdoor, output, ratio, includes_defrost=False)
        for outdoor, output, ratio in (
            (-10.0, 6400.0, 2.3), (-7.0, 7080.0, 2.5), (2.0, 8000.0, 3.7), (7.0, 8000.0, 4.9),
            (12.0, 8000.0, 6.0),
        )
    ]  # fmt: skip
    season = _season(performance_of(_with_points(well_done_home, points)).performance)
    assert season.backup / 3.6e6 == pytest.approx(40.5, rel=0.01)
    assert season.efficiency == pytest.approx(3.8195, rel=0.015)
    assert season.efficiency_without_backup == pytest.approx(3.8461, rel=0.015)


def _between(values: np.ndarray, outdoor: np.ndarray, flow: np.ndarray) -> np.ndarray:
    """Straight between the four corners of a cell, as the kernel reads the map."""
    row = np.floor(outdoor - PERFORMANCE_OUTDOOR[0]).astype(int)
    column = np.floor((flow - PERFORMANCE_FLOW[0]) / 5.0).astype(int)
    down, across = outdoor - PERFORMANCE_OUTDOOR[row], (flow - PERFORMANCE_FLOW[column]) / 5.0
    upper = values[row, column] * (1 - across) + values[row, column + 1] * across
    lower = values[row + 1, column] * (1 - across) + values[row + 1, column + 1] * across
    return np.asarray(upper * (1 - down) + lower * down)


@pytest.mark.parametrize("name", ["well_done_home", "faulty_home"])
@pytest.mark.parametrize("application", [35, 55])
def test_the_season_by_the_map_is_the_season_by_the_points(
    name: str, application: Literal[35, 55], request: pytest.FixtureRequest
) -> None:
    """EN 14825's average season with its flow temperatures, loads throttled and cycled.

    Points taken as they stand: once by the design's map of points, once by the grid.
    """
    plant = request.getfixturevalue(name).plant
    clear = [p.model_copy(update={"includes_defrost": False}) for p in plant.heat_pump.points]
    made = performance_of(_with_points(request.getfixturevalue(name), clear)).performance
    points = unit_map(plant)
    bins = reference_bins("average")
    air = bins.temperatures
    flow = np.asarray(seasonal.flow_temperature_of_application(air, application))
    load = 6000.0 * np.asarray(seasonal.part_load_ratio(air, -10.0))
    most, least = _between(made.most, air, flow), _between(made.least, air, flow)
    carnot = np.asarray(working_efficiency(np.minimum(air, flow - 12.0), flow))
    ratio = part_load_efficiency(
        np.minimum(load, most), least, most, carnot * _between(made.least_share, air, flow),
        carnot * _between(made.most_share, air, flow),
    )  # fmt: skip
    by_map = seasonal.seasonal_efficiency(bins.hours, load, most, ratio)
    own = np.minimum(load, points.most(air, flow))
    by_points = seasonal.seasonal_efficiency(
        bins.hours, load, points.most(air, flow), points.efficiency(own, air, flow)
    )
    assert by_map.efficiency == pytest.approx(by_points.efficiency, rel=0.01)
    assert by_map.backup == pytest.approx(by_points.backup, rel=0.02)


@pytest.mark.parametrize("name", ["well_done_home", "faulty_home"])
def test_the_map_is_monotone(name: str, request: pytest.FixtureRequest) -> None:
    performance = performance_of(request.getfixturevalue(name).plant).performance
    tested = PERFORMANCE_OUTDOOR >= -7.0
    assert np.all(np.diff(performance.most, axis=0) >= -1e-9)
    assert np.all(np.diff(performance.most[tested], axis=1) <= 1e-9)
    for share in (performance.most_share, performance.least_share):
        efficiency = _efficiency(share)
        both = IS_LIFTED[:, 1:] & IS_LIFTED[:, :-1]
        assert np.all(np.diff(efficiency, axis=0) >= -1e-9)
        assert np.all(np.diff(efficiency, axis=1)[both] < 0.0)


@given(home=homes())
def test_the_map_of_any_unit_is_finite_and_above_nothing(home: Home) -> None:
    performance = performance_of(home.plant).performance
    for values in performance:
        assert values.shape == (PERFORMANCE_OUTDOOR.size, PERFORMANCE_FLOW.size)
        assert np.all(np.isfinite(values))
        assert np.all(values > 0.0)
    assert np.all(performance.least <= performance.most)
    assert np.all(performance.most_share < 1.0)


def test_points_without_defrosts_are_taken_as_they_stand(well_done_home: Home) -> None:
    points = [_point(2.0, 6000.0, 4.0, includes_defrost=False), _point(7.0, 7000.0, 4.8)]
    performance = performance_of(_with_points(well_done_home, points)).performance
    row = int(2.0 - PERFORMANCE_OUTDOOR[0])
    assert performance.most[row, _AT_35] == pytest.approx(6000.0)
    assert _efficiency(performance.most_share)[row, _AT_35] == pytest.approx(4.0)


@pytest.mark.parametrize("name", ["well_done_home", "faulty_home"])
def test_the_test_in_mild_air_stays_clear_of_frost(
    name: str, request: pytest.FixtureRequest
) -> None:
    plant = request.getfixturevalue(name).plant
    made = performance_of(plant)
    mild = next(
        p for p in plant.heat_pump.points if (p.outdoor_temperature, p.flow_temperature) == (7, 35)
    )
    row = int(7.0 - PERFORMANCE_OUTDOOR[0])
    assert made.performance.most[row, _AT_35] == pytest.approx(mild.output)


def _running(made: UnitPerformance, outdoor: float, frost: float) -> tuple[float, float, float]:
    """Heat, electricity and frost of one second at full run at 35 °C."""
    model = made.frost.model
    row = int(outdoor - PERFORMANCE_OUTDOOR[0])
    part = frost / model.frost_to_defrost
    output = made.performance.most[row, _AT_35] * (1.0 - model.frost_capacity_loss * part)
    carnot = float(np.sum(working_efficiency(outdoor - model.frost_lift * part, 35.0)))
    ratio = made.performance.most_share[row, _AT_35] * carnot
    air_heat = output * (1.0 - 1.0 / ratio)
    coil = coil_surface(
        outdoor, air_heat, model.reference_heat, model.coil_below_air, part, model.frost_lift
    )
    water = water_from_air(outdoor, rating_humidity(outdoor), coil)
    return output, output / ratio, float(np.sum(water)) * air_heat


def _through_cycles(made: UnitPerformance, outdoor: float, cycles: int) -> tuple[float, float]:
    """Mean heat and electricity, second by second through some defrosts."""
    model = made.frost.model
    melts = model.defrost_power * model.defrost_efficiency / 334e3
    heat = electricity = seconds = 0.0
    for _ in range(cycles):
        frost = 0.0
        while frost < model.frost_to_defrost:
            output, drawn, grown = _running(made, outdoor, frost)
            heat, electricity, frost = heat + output, electricity + drawn, frost + grown
            seconds += 1.0
        melting = frost / melts
        heat -= model.defrost_power * model.defrost_from_water * melting
        electricity += model.defrost_power * (1.0 - model.defrost_from_water) * melting
        seconds += melting + model.drip_time
    return heat / seconds, electricity / seconds


@pytest.mark.parametrize("name", ["well_done_home", "faulty_home"])
@pytest.mark.parametrize("outdoor", [-7.0, 2.0])
def test_running_through_defrosts_gives_the_tested_mean(
    name: str, outdoor: float, request: pytest.FixtureRequest
) -> None:
    """The tested output within 3 %: no point may be better than the next milder one, which binds.

    Tested conditions to EN 14511-2: wet thermometer 1 K below the dry one.
    """
    plant = request.getfixturevalue(name).plant
    tested = next(
        p
        for p in plant.heat_pump.points
        if (p.outdoor_temperature, p.flow_temperature, p.load) == (outdoor, 35, "maximum")
    )
    heat, electricity = _through_cycles(performance_of(plant), outdoor, 1)
    assert heat == pytest.approx(tested.output, rel=0.03)
    assert heat / electricity == pytest.approx(tested.efficiency, rel=0.01)


def test_defrosts_are_as_the_trade_knows_them(well_done_home: Home, faulty_home: Home) -> None:
    """40 to 120 min apart in damp air of 2 °C, 3 to 8 min long: common practice, no source.

    Frost for each kWh from the air at A2/W1 lies at 0.39 to 0.41 kg: psychrometrics, DF-10.
    """
    for home in (well_done_home, faulty_home):
        model = performance_of(home.plant).frost.model
        clear = RatedPoint(2.0, 35.0, model.reference_heat * 4 / 3, 4.0)
        run = cycle_mean(model, clear, rating_humidity(2.0)).run
        assert DEFROST_INTERVAL[0] < run < DEFROST_INTERVAL[1]
        melting = model.frost_to_defrost * 334e3 / model.defrost_efficiency / model.defrost_power
        assert DEFROST_LENGTH[0] <= melting + model.drip_time <= DEFROST_LENGTH[1]
        per_kwh = model.frost_to_defrost / (model.reference_heat * run) * 3.6e6
        assert per_kwh == pytest.approx(0.39, rel=0.1)


def test_the_loss_by_frost_is_within_what_the_trade_allows(well_done_home: Home) -> None:
    """5 to 15 % of output between -3 and 4 °C in damp air: common practice, no source."""
    model = performance_of(well_done_home.plant).frost.model
    clear = RatedPoint(2.0, 35.0, 7000.0, 4.5)
    left = cycle_mean(model, clear, rating_humidity(2.0)).heat / clear.output
    assert 0.85 <= left <= 0.95


def test_dry_air_grows_no_frost() -> None:
    model = FrostModel(8.0, 5000.0, 2.0, 3.0, 0.07, 6000.0, 0.718, 0.601, 30.0)
    clear = RatedPoint(2.0, 35.0, 6600.0, 4.0)
    mean = cycle_mean(model, clear, 0.0005)
    assert mean.run == float("inf")
    assert mean.heat == clear.output


def test_damper_air_defrosts_more_often() -> None:
    model = FrostModel(8.0, 5000.0, 2.0, 3.0, 0.07, 6000.0, 0.718, 0.601, 30.0)
    clear = RatedPoint(2.0, 35.0, 6600.0, 4.0)
    assert cycle_mean(model, clear, 0.0042).run < cycle_mean(model, clear, 0.0036).run


def test_a_recorded_defrost_length_decides_the_time_to_melt(well_done_home: Home) -> None:
    home = well_done_home
    quick, slow = (
        performance_of(
            _with_points(home, list(home.plant.heat_pump.points), defrost_length=length)
        ).frost.model
        for length in (180.0, 360.0)
    )
    assert quick.defrost_power > slow.defrost_power


def test_glycol_lowers_output_and_efficiency(well_done_home: Home) -> None:
    protection = well_done_home.plant.freeze_protection
    assert protection is not None
    plant = well_done_home.plant
    mixed = plant.model_copy(
        update={
            "freeze_protection": protection.model_copy(
                update={"kind": "glycol", "glycol_share": 0.3}
            )
        }
    )
    water, glycol = performance_of(plant).performance, performance_of(mixed).performance
    assert np.all(glycol.most < water.most)
    assert np.all(glycol.most_share < water.most_share)
