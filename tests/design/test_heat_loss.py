"""The heat loss of a home: balances, directions, assumptions, and what is refused."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearthbook.design.heat_loss import BillVerdict, heat_loss, outdoor_temperature
from hearthbook.design.heating_season import monthly_means
from hearthbook.design.sun import sun_through_windows
from hearthbook.documents.figures import Basis, KeyFigure, figures_in, with_inputs
from hearthbook.errors import Conflict, Incomplete, NotFound, OutOfRange
from tests.design.buildings import EVERYTHING_GIVEN, home_with, one_room

TEMPERATURES = st.floats(15.0, 24.0)
U_VALUES = st.floats(0.1, 3.0)


def _pair(warm: float = 21.0, cool: float = 18.0, *, both: bool = True) -> list[dict[str, Any]]:
    """Two rooms with a wall between them, listed from both sides or from the first alone."""
    first, second = one_room("parlour", wanted_temperature=warm), one_room("den")
    between = {"construction": "inner", "area": 10.0}
    second["wanted_temperature"] = cool
    first["elements"] = [*first["elements"], {**between, "beyond": "den"}]
    if both:
        second["elements"] = [*second["elements"], {**between, "beyond": "parlour"}]
    return [first, second]


def _changed(construction_id: str, **values: Any) -> list[dict[str, Any]]:
    """The constructions with one of them changed; a value of None takes the key away."""
    return [
        {k: v for k, v in {**each, **values}.items() if v is not None}
        if each["id"] == construction_id
        else each
        for each in EVERYTHING_GIVEN["constructions"]
    ]


# ---- the room of EN 12831 in its simplified form, by independent arithmetic


def _standard_room(reheat: float) -> tuple[list[dict[str, Any]], dict[str, Any]]:
    room = {
        "id": "room",
        "name": "room",
        "use": "living",
        "storey": "ground",
        "floor_area": 20.0,
        "height": 2.4,
        "wanted_temperature": 21.0,
        "air_changes": 0.5,
        "elements": [
            {
                "construction": "wall",
                "beyond": "outside",
                "area": 21.6,
                "openings": [{"construction": "glass", "width": 2.0, "height": 1.5}],
            },
            {"construction": "floor", "beyond": "ground", "area": 20.0},
            {"construction": "inner", "beyond": "above", "area": 20.0},
        ],
    }
    above = one_room("above", wanted_temperature=18.0)
    values = {"wall": 0.28, "glass": 1.4, "inner": 1.5}
    constructions = [{**c, "u_value": values[c["id"]]} for c in EVERYTHING_GIVEN["constructions"]]
    floor = {"id": "floor", "name": "floor", "kind": "ground_floor", "u_value": 0.2}
    return [room, above], {
        "constructions": [*constructions, {**floor, "evidence": "seen"}],
        "climate": {
            "design_outdoor_temperature": -3.4,
            "annual_mean_temperature": 10.2,
            "correct_for_altitude": False,
        },
        "reheat_power_per_area": reheat,
    }


@pytest.mark.parametrize(("reheat", "expected"), [(0.0, 623.3), (11.0, 843.3)])
def test_a_room_in_the_standard_s_simplified_form(reheat: float, expected: float) -> None:
    rooms, changes = _standard_room(reheat)
    loss = heat_loss(home_with(rooms, **changes)).room("room")
    by_kind = {element.kind: element.coefficient.value for element in loss.elements}
    assert by_kind == pytest.approx(
        {"wall": 6.138, "window": 4.350, "ground_floor": 3.209, "between_rooms": 3.689}, abs=0.001
    )
    assert loss.total.value == pytest.approx(expected, abs=0.1)


# ---- balances


@given(TEMPERATURES, TEMPERATURES, st.booleans())
def test_heat_between_rooms_cancels_in_the_dwelling(warm: float, cool: float, both: bool) -> None:
    loss = heat_loss(home_with(_pair(warm, cool, both=both)))
    rooms = sum(room.transmission.value for room in loss.rooms)
    assert rooms == pytest.approx(loss.transmission.value, abs=1e-6)


def test_a_wall_listed_from_one_side_only_counts_in_both_rooms() -> None:
    den = heat_loss(home_with(_pair(both=False))).room("den")
    mirrored = den.elements[-1]
    assert mirrored.loss.value == pytest.approx(-10.0 * 2.0 * 3.0)
    assert mirrored.coefficient.working.note == "listed under the parlour only"


def test_the_dwelling_s_sums_close() -> None:
    loss = heat_loss(home_with(_pair(), reheat_power_per_area=5.0))
    by_element = sum(figure.value for _, figure in loss.by_element)
    assert by_element == pytest.approx(loss.transmission.value + loss.ventilation.value)
    reheat = sum(room.reheat.value for room in loss.rooms)
    assert loss.total.value == pytest.approx(by_element + reheat)
    assert loss.by_element[-1][0] == "ventilation"
    difference = loss.indoor_temperature.value - loss.outdoor_temperature.value
    assert loss.coefficient.value * difference == pytest.approx(by_element)


def test_the_halves_of_a_house_add_up_to_the_house() -> None:
    whole = heat_loss(home_with([one_room("west"), one_room("east")]))
    halves = [heat_loss(home_with([one_room(side)])) for side in ("west", "east")]
    assert whole.total.value == pytest.approx(sum(half.total.value for half in halves))
    assert whole.coefficient.value == pytest.approx(sum(h.coefficient.value for h in halves))
    assert whole.specific_loss.value == pytest.approx(halves[0].specific_loss.value)


# ---- directions


@given(U_VALUES, st.floats(0.05, 1.0))
def test_more_insulation_never_loses_more(u_value: float, less: float) -> None:
    before, after = (
        heat_loss(home_with([one_room()], constructions=_changed("wall", u_value=value)))
        for value in (u_value, max(0.05, u_value * less))
    )
    assert after.total.value <= before.total.value + 1e-9
    assert after.base_temperature.value <= before.base_temperature.value + 1e-9


@given(st.floats(-20.0, 5.0), st.floats(0.1, 10.0))
def test_a_colder_outside_never_loses_less(outside: float, colder: float) -> None:
    def total(temperature: float) -> float:
        climate = {**EVERYTHING_GIVEN["climate"], "design_outdoor_temperature": temperature}
        return heat_loss(home_with([one_room()], climate=climate)).total.value

    assert total(outside - colder) > total(outside)


def test_supplement_and_listed_bridges_are_alternatives() -> None:
    bridge = {"name": "lintel", "length": 10.0, "transmittance": 0.3}
    without = heat_loss(home_with([one_room()], thermal_bridge_supplement=0.0))
    listed = heat_loss(
        home_with([one_room()], thermal_bridges=[bridge], thermal_bridge_supplement=None)
    )
    assert listed.total.value - without.total.value == pytest.approx(10.0 * 0.3 * 24.0)
    assert dict(listed.by_element)["thermal_bridges"].value == pytest.approx(72.0)


def test_listed_bridges_are_shared_out_by_outside_surfaces() -> None:
    bridge = {"name": "lintel", "length": 10.0, "transmittance": 0.3}
    rooms = _pair(20.0, 20.0)
    rooms[1]["elements"][0] = {"construction": "wall", "beyond": "outside", "area": 30.0}
    loss = heat_loss(home_with(rooms, thermal_bridges=[bridge]))
    shares = [
        sum(e.loss.value for e in room.elements if e.kind == "thermal_bridges")
        for room in loss.rooms
    ]
    assert sum(shares) == pytest.approx(10.0 * 0.3 * 23.0)
    assert shares[1] / shares[0] == pytest.approx(3.0)


# ---- what lies beyond


def _beyond(beyond: str, **changes: Any) -> KeyFigure:
    room = one_room(elements=[{"construction": "wall", "beyond": beyond, "area": 10.0}])
    return heat_loss(home_with([room], **changes)).room("parlour").elements[0].loss


def test_a_neighbour_s_wall_loses_by_the_neighbour_s_temperature_without_supplement() -> None:
    assert _beyond("neighbour").value == pytest.approx(10.0 * 0.5 * 3.0)


def test_an_unheated_space_acts_by_its_factor_or_its_temperature() -> None:
    by_factor = {"id": "garage", "name": "the garage", "temperature_factor": 0.5}
    by_temperature = {"id": "garage", "name": "the garage", "temperature": 9.0}
    expected = 10.0 * 0.55 * 12.0
    for space in (by_factor, by_temperature):
        assert _beyond("garage", unheated_spaces=[space]).value == pytest.approx(expected)


def test_an_unheated_space_nobody_described_takes_the_usual_factor() -> None:
    loss = _beyond("garage", unheated_spaces=[{"id": "garage", "name": "the garage"}])
    assert loss.value == pytest.approx(10.0 * 0.55 * 24.0 * 0.8)
    assert Basis.ASSUMED in {figure.basis for figure in with_inputs(loss)}


def test_a_room_that_borders_on_nothing_known_is_refused() -> None:
    with pytest.raises(NotFound, match="the parlour borders on 'attic', which is not in the rec"):
        _beyond("attic")


# ---- the outdoor temperature


@pytest.mark.parametrize(
    ("altitude", "reference", "expected"),
    [(200.0, 50.0, -3.9), (50.0, 200.0, -2.1), (None, 50.0, -3.0), (200.0, None, -3.0)],
)
def test_the_outdoor_temperature_follows_the_altitude_where_both_are_known(
    altitude: float | None, reference: float | None, expected: float
) -> None:
    climate = {"design_outdoor_temperature": -3.0, "reference_altitude": reference}
    home = home_with([one_room()], climate=climate, altitude=altitude)
    assert outdoor_temperature(home).value == pytest.approx(expected)


def test_no_outdoor_temperature_is_ever_assumed() -> None:
    with pytest.raises(Incomplete, match=r"design_outdoor_temperature is missing, and nobody may"):
        heat_loss(home_with([one_room()], climate={}))


def test_a_room_colder_than_outside_is_refused() -> None:
    climate = {**EVERYTHING_GIVEN["climate"], "design_outdoor_temperature": 22.0}
    with pytest.raises(OutOfRange, match="parlour above the design temperature outside is -1 K"):
        heat_loss(home_with([one_room()], climate=climate))


# ---- what is refused


def test_openings_larger_than_their_wall_are_refused() -> None:
    room = one_room()
    room["elements"][0]["openings"][0].update(width=5.0, height=2.4)
    with pytest.raises(Conflict, match=r"parlour is 10\.00 m², but its openings take 12\.00 m²"):
        heat_loss(home_with([room]))


def test_a_surface_without_area_is_refused() -> None:
    room = one_room(elements=[{"construction": "wall", "beyond": "outside"}])
    with pytest.raises(Incomplete, match="surface 1 of the parlour has no area"):
        heat_loss(home_with([room]))


def test_a_room_without_floor_area_is_refused() -> None:
    with pytest.raises(Incomplete, match="parlour has no floor area"):
        heat_loss(home_with([one_room(length=None)]))


def test_a_room_nobody_has_is_not_found() -> None:
    with pytest.raises(NotFound, match="no room is called 'ballroom'"):
        heat_loss(home_with([one_room()])).room("ballroom")


# ---- every number has its working


def test_every_figure_leads_down_to_answers_and_marked_assumptions() -> None:
    bill = {"fuel": "gas", "energy": 9000.0, "efficiency": 0.8, "heating_share": 0.8}
    loss = heat_loss(home_with(_pair(), fuel_bill={**bill, "degree_days": 2200.0}))
    for figure in figures_in(loss):
        for part in with_inputs(figure):
            assert part.working.source, part.name
            if part.basis is Basis.CALCULATED:
                assert part.working.formula, part.name


def test_one_name_never_stands_for_two_numbers() -> None:
    values: dict[str, float] = {}
    loss = heat_loss(home_with(_pair()))
    for figure in figures_in(loss):
        for part in with_inputs(figure):
            assert values.setdefault(part.name, part.value) == pytest.approx(part.value), part.name


# ---- the fuel bill


@pytest.mark.parametrize(
    ("share", "verdict"),
    [
        (0.70, BillVerdict.BILL_LOWER),
        (0.85, BillVerdict.WITHIN),
        (1.15, BillVerdict.WITHIN),
        (1.30, BillVerdict.BILL_HIGHER),
    ],
)
def test_the_fuel_bill_is_judged_within_a_fifth(share: float, verdict: BillVerdict) -> None:
    # the home's own base: gains and the sun off the indoor temperature; its degree days by
    # Hitchin's monthly formula, month by month, against those to 15.5 °C of the same months
    home = home_with([one_room()])
    loss = heat_loss(home)
    computed = loss.coefficient.value
    sun = sun_through_windows(home).heating_season.value
    own = min(max(loss.base_temperature.value - sun / computed, 8.0), 20.0)
    means = [mean.value for mean in monthly_means(home.building.climate)]
    usual, there = (_degree_days(means, base) for base in (15.5, own))
    kilowatt_hours = share * computed * 24 * 2000 * there / usual / 1000 / (0.8 * 0.9)
    bill = {"fuel": "gas", "energy": kilowatt_hours, "efficiency": 0.8, "heating_share": 0.9}
    check = heat_loss(home_with([one_room()], fuel_bill={**bill, "degree_days": 2000})).bill_check
    assert check is not None
    assert check.ratio.value == pytest.approx(share, rel=1e-3)
    assert check.verdict is verdict


def _degree_days(means: list[float], base: float) -> float:
    days = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
    return sum(
        day * (base - mean) / (1 - math.exp(-0.71 * (base - mean)))
        for day, mean in zip(days, means, strict=True)
    )


def test_a_tight_home_is_held_against_fewer_degree_days() -> None:
    bill = {"fuel": "gas", "energy": 100.0, "efficiency": 0.8, "heating_share": 0.9}
    bill = {**bill, "degree_days": 2000}
    counted = []
    for u_value in (0.15, 1.5):
        walls = _changed("wall", u_value=u_value)
        home = home_with([one_room()], fuel_bill=bill, constructions=walls, internal_gains=60.0)
        check = heat_loss(home).bill_check
        assert check is not None
        counted.append(
            {f.name: f.value for f in check.coefficient.working.inputs}[
                "heat_loss.bill_check.degree_days"
            ]
        )
    assert counted[0] < counted[1]


def test_rooms_kept_cooler_are_said_to_make_the_bill_lower() -> None:
    bill = {"fuel": "gas", "energy": 100.0, "efficiency": 0.8, "heating_share": 0.9}
    bill = {**bill, "degree_days": 2000, "rooms_as_warm_as_wanted": False}
    check = heat_loss(home_with([one_room()], fuel_bill=bill)).bill_check
    assert check is not None
    assert "kept cooler than now wanted" in check.advice


def test_a_measured_coefficient_is_held_against_the_computed_one() -> None:
    computed = heat_loss(home_with([one_room()]))
    assert computed.measured_ratio is None
    measured = 1.1 * computed.coefficient.value
    loss = heat_loss(home_with([one_room()], heat_loss_measured=measured))
    assert loss.measured_ratio is not None
    assert loss.measured_ratio.value == pytest.approx(1.1)


def test_a_surface_s_own_height_goes_before_the_room_s() -> None:
    wall = {"construction": "wall", "beyond": "outside", "width": 4.0, "height": 2.0}
    loss = heat_loss(home_with([one_room(elements=[wall])])).room("parlour")
    assert loss.elements[0].area.value == pytest.approx(8.0)
