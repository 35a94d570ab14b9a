from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hearthbook.design import typical_emitters
from hearthbook.design.emitter_results import Characteristic, required_flow_temperature
from hearthbook.design.emitters import emitter_schedule
from hearthbook.documents.figures import Basis, figures_in, with_inputs
from hearthbook.errors import Incomplete, NotFound, OutOfRange
from tests.design.small_home import panel, small_home, small_loss, underfloor

ONE_ROOM = small_loss({"lounge": 900.0})


def test_one_room_agrees_with_the_sum_done_by_hand() -> None:
    # by hand: 45/40/20 gives a mean excess of 22.5 K, (22.5/50)^1.3 = 0.3541, 2542 W × 0.3541
    schedule = emitter_schedule(small_home([panel("rad", "lounge", 2542)]), ONE_ROOM)
    room = schedule.room("lounge")
    assert room.output.value == pytest.approx(900.2, abs=0.5)
    assert room.coverage is not None
    assert room.coverage.value == pytest.approx(1.0, abs=0.001)
    assert room.required_flow_temperature is not None
    assert room.required_flow_temperature.value == pytest.approx(45.0, abs=0.02)
    # by hand: 900 W / (4.186 kJ × 5 K) = 0.0430 L/s = 2.58 L/min
    assert schedule.emitter("rad").design_flow_rate.shown() == "2.6\N{NO-BREAK SPACE}L/min"
    assert schedule.return_temperature.value == pytest.approx(40.0)


def test_the_closed_form_and_the_solver_agree() -> None:
    # T_f = T_i + 50·(Φ/Φ50)^(1/n) + ΔT/2
    found = required_flow_temperature([Characteristic(1500.0, 1.3, 5.0)], 700.0, 21.0)
    assert found == pytest.approx(21 + 50 * (700 / 1500) ** (1 / 1.3) + 2.5, abs=1e-4)


def test_derates_multiply_and_lower_the_output() -> None:
    whole = emitter_schedule(small_home([panel("rad", "lounge", 2542)]), ONE_ROOM)
    hindered = emitter_schedule(
        small_home([panel("rad", "lounge", 2542, covered=0.9, paint=0.9)]), ONE_ROOM
    )
    ratio = hindered.room("lounge").output.value / whole.room("lounge").output.value
    assert ratio == pytest.approx(0.81)


def test_two_emitters_share_one_flow_temperature_and_their_load_by_output() -> None:
    home = small_home([panel("big", "lounge", 2000), panel("small", "lounge", 542)])
    schedule = emitter_schedule(home, ONE_ROOM)
    one = emitter_schedule(small_home([panel("rad", "lounge", 2542)]), ONE_ROOM)
    need, alone = (s.room("lounge").required_flow_temperature for s in (schedule, one))
    assert need is not None
    assert alone is not None
    assert need.value == pytest.approx(alone.value, abs=1e-4)
    duties = [schedule.emitter(name).duty.value for name in ("big", "small")]
    assert sum(duties) == pytest.approx(900.0)
    assert duties[0] / duties[1] == pytest.approx(2000 / 542)


def test_a_large_drop_is_worked_with_the_logarithmic_mean_and_says_so() -> None:
    schedule = emitter_schedule(small_home([panel("rad", "lounge", 3000)], drop=10.0), ONE_ROOM)
    excess = schedule.emitter("rad").mean_excess
    assert excess.value == pytest.approx(10 / math.log(25 / 15))
    assert excess.working.note == "logarithmic mean: the drop is 0.40 of the flow's excess"
    small = emitter_schedule(small_home([panel("rad", "lounge", 3000)]), ONE_ROOM)
    assert "arithmetic mean" in small.emitter("rad").mean_excess.working.note


def test_the_room_that_needs_the_hottest_water_decides() -> None:
    home = small_home([panel("a", "lounge", 2542), panel("b", "study", 1800)])
    schedule = emitter_schedule(home, small_loss({"lounge": 900.0, "study": 900.0}))
    assert schedule.limiting_rooms == ("study",)
    assert schedule.room("study").is_limiting
    assert not schedule.room("lounge").is_limiting
    # by hand: 20 + 50·(900/1800)^(1/1.3) + 2.5
    assert schedule.required_flow_temperature.value == pytest.approx(51.84, abs=0.01)


def test_the_order_of_rooms_and_emitters_changes_nothing() -> None:
    emitters = [panel("a", "lounge", 2542), panel("b", "study", 1800), panel("c", "study", 300)]
    loads = {"lounge": 900.0, "study": 900.0}
    there = emitter_schedule(small_home(emitters), small_loss(loads))
    back = emitter_schedule(
        small_home(emitters[::-1]), small_loss(dict(reversed(list(loads.items()))))
    )
    assert there.limiting_rooms == back.limiting_rooms
    assert there.required_flow_temperature.value == back.required_flow_temperature.value
    assert there.output.value == back.output.value
    assert [u.emitter_id for u in there.next_larger] == [u.emitter_id for u in back.next_larger]


def test_without_a_chosen_flow_temperature_the_lowest_that_covers_all_is_taken() -> None:
    schedule = emitter_schedule(small_home([panel("rad", "lounge", 2000)], flow=None), ONE_ROOM)
    assert schedule.flow_temperature.value == schedule.required_flow_temperature.value
    coverage = schedule.room("lounge").coverage
    assert coverage is not None
    assert coverage.value == pytest.approx(1.0, abs=1e-4)


def test_a_room_without_emitter_is_listed_and_does_not_decide() -> None:
    schedule = emitter_schedule(
        small_home([panel("rad", "lounge", 2542)]), small_loss({"lounge": 900.0, "hall": 200.0})
    )
    assert schedule.uncovered_rooms == ("hall",)
    assert schedule.room("hall").required_flow_temperature is None
    assert schedule.room("hall").output.value == 0.0
    assert schedule.limiting_rooms == ("lounge",)


def test_a_room_that_gains_more_than_it_loses_needs_nothing() -> None:
    schedule = emitter_schedule(
        small_home([panel("rad", "lounge", 2542), panel("b", "store", 500)]),
        small_loss({"lounge": 900.0, "store": -50.0}),
    )
    assert schedule.room("store").coverage is None
    assert schedule.emitter("b").duty.value == 0.0
    assert "store" not in schedule.uncovered_rooms


def test_a_missing_rated_output_becomes_a_marked_assumption() -> None:
    schedule = emitter_schedule(small_home([panel("rad", "lounge", None, exponent=None)]), ONE_ROOM)
    rated = schedule.emitter("rad").rated_output
    assert rated.basis is Basis.ASSUMED
    assert rated.value == pytest.approx(1725.0)
    assert rated.uncertainty == pytest.approx(0.15 * 1725.0)
    assert "from memory" in rated.working.source
    assert schedule.emitter("rad").exponent.basis is Basis.ASSUMED
    assert schedule.emitter("rad").output.uncertainty is not None


def test_a_fan_assisted_emitter_without_rating_is_asked_for() -> None:
    fan = {
        "id": "fan", "number": 3, "name": "the fan convector", "room": "lounge",
        "kind": "fan_assisted", "valve": "manual",
    }  # fmt: skip
    with pytest.raises(Incomplete, match=r"the fan convector \(fan\) has no rated output"):
        emitter_schedule(small_home([fan]), ONE_ROOM)


def test_no_chosen_flow_and_no_room_that_can_be_met_is_refused() -> None:
    with pytest.raises(Incomplete, match=r"Enter plant.design_flow_temperature"):
        emitter_schedule(small_home([panel("rad", "lounge", 100)], flow=None), ONE_ROOM)


def test_an_unknown_name_is_refused() -> None:
    schedule = emitter_schedule(small_home([panel("rad", "lounge", 2542)]), ONE_ROOM)
    with pytest.raises(NotFound, match=r"there is no room 'attic'"):
        schedule.room("attic")
    with pytest.raises(NotFound, match=r"there is no emitter 'rad_9'"):
        schedule.emitter("rad_9")


def test_a_heated_floor_agrees_with_the_standard_done_by_hand() -> None:
    # by hand at 35/30/20: mean excess 5/ln(15/10) = 12.33 K; for bare 150 mm spacing, 20 mm pipe,
    # 45 mm of screed of 1 W/(m·K): K = 6.7/1.23 = 5.447 W/(m²·K); 15 m² give 1007 W
    floor = underfloor(
        "floor", "lounge", 15, pipe_diameter=20, covering_resistance=0, screed_conductivity=1.0
    )
    schedule = emitter_schedule(small_home([floor], flow=35.0), ONE_ROOM)
    assert schedule.room("lounge").output.value == pytest.approx(1007.5, abs=1.0)
    surface, limit = (
        schedule.emitter("floor").surface_temperature,
        schedule.emitter("floor").surface_limit,
    )
    assert surface is not None
    assert limit is not None
    # by hand: 67.2 W/m², (67.2/8.92)^(1/1.1) = 6.27 K
    assert surface.value == pytest.approx(26.3, abs=0.1)
    assert limit.value == 29.0


def test_hotter_water_never_drives_a_floor_over_its_limit() -> None:
    floor = underfloor("floor", "lounge", 15)
    hot = emitter_schedule(small_home([floor], flow=60.0), small_loss({"lounge": 3000.0}))
    result = hot.emitter("floor")
    assert result.surface_temperature is not None
    assert result.surface_temperature.value <= 29.0
    assert hot.room("lounge").required_flow_temperature is None
    assert hot.limiting_rooms == ("lounge",)


def test_a_floor_with_a_recorded_rating_is_held_to_the_same_limit() -> None:
    floor = underfloor("floor", "lounge", 15, rated_output=9000, exponent=1.1)
    hot = emitter_schedule(small_home([floor], flow=60.0), small_loss({"lounge": 3000.0}))
    # by hand: 8.92 × 9^1.1 = 100 W/m² on 15 m²
    assert hot.emitter("floor").output.value == pytest.approx(1500, rel=0.01)
    assert hot.emitter("floor").surface_temperature is not None


@pytest.mark.parametrize(("use", "edge", "limit"), [
    ("living", False, 29.0), ("bathroom", False, 33.0), ("living", True, 35.0),
])  # fmt: skip
def test_floors_are_held_to_the_limit_of_their_place(use: str, edge: bool, limit: float) -> None:
    schedule = emitter_schedule(
        small_home([underfloor("floor", "lounge", 10, is_edge_zone=edge)]),
        small_loss({"lounge": 500.0}, use=use),
    )
    found = schedule.emitter("floor").surface_limit
    assert found is not None
    assert found.value == limit


def test_every_figure_chains_down_to_record_or_marked_assumption() -> None:
    schedule = emitter_schedule(
        small_home([panel("rad", "lounge", None), underfloor("floor", "study", 12)]),
        small_loss({"lounge": 900.0, "study": 500.0}),
    )
    for shown in figures_in(schedule):
        for part in with_inputs(shown):
            assert part.working.source, part.name
            if not part.working.inputs and part.basis is Basis.CALCULATED:
                assert part.name.endswith(".output"), part.name  # a room without emitters


# --------------------------------------------------------------------------- larger emitters


def test_the_larger_one_wins_the_home_as_much_as_the_next_room_allows() -> None:
    home = small_home([
        panel("a", "lounge", 2542),
        panel("b", "study", 1800, larger={
            "description": "type 33", "rated_output": 2800, "extra_cost": 240}),
    ])  # fmt: skip
    schedule = emitter_schedule(home, small_loss({"lounge": 900.0, "study": 900.0}))
    first = schedule.next_larger[0]
    assert (first.room_id, first.emitter_id, first.description) == ("study", "b", "type 33")
    assert first.room_flow_temperature.value == pytest.approx(
        20 + 50 * (900 / 2800) ** (1 / 1.3) + 2.5, abs=1e-3
    )
    assert first.home_flow_temperature.value == pytest.approx(45.0, abs=0.02)
    assert first.won.value == pytest.approx(51.84 - 45.0, abs=0.02)
    assert 0 < first.won_over_season.value < first.won.value
    low, high = 0.015 * first.won_over_season.value, 0.03 * first.won_over_season.value
    assert first.saving.uncertainty is not None
    assert first.saving.value - first.saving.uncertainty == pytest.approx(low)
    assert first.saving.value + first.saving.uncertainty == pytest.approx(high)
    assert first.extra_cost is not None
    assert first.extra_cost.value == 240.0


def test_without_a_recorded_larger_one_the_next_type_is_assumed() -> None:
    home = small_home([panel("a", "lounge", 900, panel_type="11")])
    first = emitter_schedule(home, ONE_ROOM).next_larger[0]
    assert first.description == "type 21, 600 by 1000 mm"
    assert first.rated_output.value == pytest.approx(900 * 1340 / 1000)
    assert first.extra_cost is None
    deepest = small_home([panel("a", "lounge", 2000, panel_type="33")])
    assert emitter_schedule(deepest, ONE_ROOM).next_larger[0].description == (
        "type 33, 600 by 1250 mm"
    )


def test_two_rooms_that_need_the_same_water_win_together() -> None:
    emitters = [panel("a", "lounge", 900), panel("b", "study", 899), panel("c", "den", 2000)]
    loads = {"lounge": 500.0, "study": 500.0, "den": 500.0}
    first, second, *_ = emitter_schedule(small_home(emitters), small_loss(loads)).next_larger
    assert first.won.value < 0.1
    assert second.won.value > 5.0


def test_exchanges_that_win_next_to_nothing_are_left_off_after_the_first() -> None:
    ratings = {"a": 900, "b": 895, "c": 890, "d": 885, "e": 880}
    emitters = [panel(name, f"room_{name}", rated) for name, rated in ratings.items()]
    loads = {f"room_{name}": 400.0 for name in ratings}
    assert len(emitter_schedule(small_home(emitters), small_loss(loads)).next_larger) == 1


def test_a_room_of_heated_floors_alone_has_no_larger_one() -> None:
    schedule = emitter_schedule(small_home([underfloor("floor", "lounge", 20)]), ONE_ROOM)
    assert schedule.next_larger == ()


# ------------------------------------------------------------------------------- properties


@settings(deadline=None, max_examples=40)
@given(flow=st.floats(35.0, 60.0), step=st.floats(0.5, 8.0), rated=st.floats(500.0, 4000.0))
def test_output_rises_with_the_design_flow_temperature(
    flow: float, step: float, rated: float
) -> None:
    emitters = [panel("rad", "lounge", rated)]
    low = emitter_schedule(small_home(emitters, flow=flow), ONE_ROOM)
    high = emitter_schedule(small_home(emitters, flow=flow + step), ONE_ROOM)
    assert high.output.value > low.output.value


@settings(max_examples=60)
@given(
    load=st.floats(100.0, 1500.0), room=st.floats(16.0, 23.0),
    ratings=st.lists(st.floats(400.0, 4000.0), min_size=1, max_size=4),
)  # fmt: skip
def test_at_the_required_flow_temperature_the_room_gets_its_load(
    load: float, room: float, ratings: list[float]
) -> None:
    emitters = [Characteristic(rated, 1.3, 5.0) for rated in ratings]
    flow = required_flow_temperature(emitters, load, room)
    if flow is None:
        assert sum(one.output(90.0, room) for one in emitters) < load
    else:
        supplied = sum(one.output(flow, room) for one in emitters)
        assert supplied == pytest.approx(load, rel=0.011)  # the means differ by just under 1 %


@pytest.mark.parametrize("panel_type", ["10", "11", "20", "21", "22", "33"])
def test_usual_outputs_grow_with_height_and_length(panel_type: str) -> None:
    outputs = [typical_emitters.panel_output(panel_type, h / 10, 1.0) for h in range(2, 20)]
    assert outputs == sorted(outputs)
    assert typical_emitters.panel_output(panel_type, 0.6, 2.0) == pytest.approx(
        2 * float(typical_emitters.panel_output(panel_type, 0.6, 1.0))
    )


@pytest.mark.parametrize("height", [0.3, 0.45, 0.6, 0.9])
@pytest.mark.parametrize(("panel_type", "k"), [
    ("10", 3.1), ("11", 4.1), ("21", 5.8), ("22", 7.0), ("33", 8.8),
])  # fmt: skip
def test_usual_outputs_lie_within_their_range_of_an_engineering_formula(
    panel_type: str, k: float, height: float
) -> None:
    # engineering reference site, heat emission of radiators: P = 41 k L (1 + 8 H) at 80/60/20 °C
    formula = 41 * k * (1 + 8 * height)
    assert typical_emitters.panel_output(panel_type, height, 1.0) == pytest.approx(
        formula, rel=typical_emitters.OUTPUT_SPREAD
    )


# ------------------------------------------------------------------------- odd but possible


def test_a_towel_rail_without_rating_gets_a_wide_one() -> None:
    rail = {
        "id": "rail", "number": 4, "name": "the rail", "room": "lounge", "kind": "towel_rail",
        "valve": "manual",
    }  # fmt: skip
    result = emitter_schedule(small_home([rail]), ONE_ROOM).emitter("rail")
    assert result.rated_output.basis is Basis.ASSUMED
    assert result.rated_output.uncertainty == pytest.approx(0.4 * result.rated_output.value)
    assert result.water_content.basis is Basis.ASSUMED


def test_a_recorded_water_content_is_taken_as_it_is() -> None:
    result = emitter_schedule(
        small_home([panel("rad", "lounge", 2542, water_content=5.4)]), ONE_ROOM
    ).emitter("rad")
    assert result.water_content.value == pytest.approx(0.0054)
    assert result.water_content.basis is not Basis.ASSUMED


def test_a_floor_may_have_a_drop_of_its_own() -> None:
    floors = [underfloor("floor", "lounge", 15), underfloor("floor", "lounge", 15, own_drop=8)]
    own, shared = (
        emitter_schedule(small_home([floor]), ONE_ROOM).emitter("floor") for floor in floors[::-1]
    )
    assert own.mean_excess.value < shared.mean_excess.value
    assert own.characteristic.drop == 8.0


def test_a_missing_drop_becomes_a_marked_assumption() -> None:
    schedule = emitter_schedule(small_home([panel("rad", "lounge", 2542)], drop=None), ONE_ROOM)
    assert schedule.drop.basis is Basis.ASSUMED
    assert schedule.drop.value == 5.0


def test_water_that_would_return_colder_than_the_room_gives_no_heat() -> None:
    schedule = emitter_schedule(small_home([panel("rad", "lounge", 2542)], flow=24.0), ONE_ROOM)
    assert schedule.room("lounge").output.value == 0.0
    assert "no heat is counted" in schedule.emitter("rad").mean_excess.working.note
    assert schedule.emitter("rad").design_flow_rate.value == 0.0


def test_a_floor_nobody_could_build_is_refused_by_its_name() -> None:
    home = small_home([underfloor("loops", "lounge", 20.0, spacing=5000)])
    with pytest.raises(OutOfRange, match="loops: pipe spacing is 5 m"):
        emitter_schedule(home, ONE_ROOM)


def test_a_screed_that_carries_no_heat_is_refused_by_name() -> None:
    home = small_home([underfloor("loops", "lounge", 20.0)])
    nothing = home.emitters[0].model_copy(update={"screed_conductivity": 0.0})
    with pytest.raises(OutOfRange, match="loops: its sizes give no output"):
        emitter_schedule(home.model_copy(update={"emitters": (nothing,)}), ONE_ROOM)
