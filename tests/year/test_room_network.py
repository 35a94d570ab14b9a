"""A home's rooms as a network: it loses what the heat-loss calculation says, and can be run."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from numpy.typing import NDArray

from hearthbook.design.heat_loss import HeatLoss, heat_loss
from hearthbook.documents.figures import Basis
from hearthbook.errors import HearthbookError, Incomplete, OutOfRange
from hearthbook.kernel.free_rooms import Holding, Surroundings, free_rooms
from hearthbook.kernel.parameters import Rooms
from hearthbook.physics.fabric_reduction import layer_admittance
from hearthbook.readers.record_file import read_home
from hearthbook.record.building import Building
from hearthbook.record.home import Home
from hearthbook.survey.answers import thermal_bridge_supplement
from hearthbook.year.builds import carried_by_soil
from hearthbook.year.leakage import leak_drives
from hearthbook.year.network_checks import check_network
from hearthbook.year.room_masses import RADIANT_HEAT, RoomSurface
from hearthbook.year.room_network import RoomNetwork, network_of
from hearthbook.year.room_surfaces import fabric_of_rooms
from tests.design.buildings import home_with, one_room
from tests.strategies import homes

Array = NDArray[np.float64]
EXAMPLES = Path(__file__).parents[2] / "examples"
DAY = 86_400.0


def example(name: str) -> Home:
    return read_home(EXAMPLES / name / "home.yaml")


def ground_of_design(home: Home, loss: HeatLoss) -> float:
    """°C below the floor at which the ground takes what the heat-loss calculation says."""
    supplement = thermal_bridge_supplement(home).value
    found = [
        (one.area.value * (one.u_value.value + supplement), room.temperature.value, one.loss.value)
        for room in loss.rooms
        for one in room.elements
        if one.adjacent == "ground"
    ]
    if not found:
        return 10.0
    through = sum(each[0] for each in found)
    return sum(each[0] * each[1] - each[2] for each in found) / through


def steady(home: Home, loss: HeatLoss, network: RoomNetwork) -> tuple[float, Array]:
    """Heat the network loses at design in the steady state, and the heaters' power by room."""
    count, days = len(loss.rooms), 250
    wanted = np.array([room.temperature.value for room in loss.rooms])
    held = np.tile(wanted, (days, 1))

    def all_over(value: float) -> Array:
        return np.full((days, count), value)

    outdoor, nothing = all_over(loss.outdoor_temperature.value), all_over(0.0)
    told = Surroundings(outdoor, outdoor, all_over(ground_of_design(home, loss)), np.ones(days),
                        nothing, nothing, nothing)  # fmt: skip
    most, rooms = np.full(count, 1e7), network.rooms
    shares = RADIANT_HEAT * np.array(
        [rooms.radiant_air, rooms.radiant_inner, rooms.radiant_outer, rooms.radiant_floor]
    )
    shares[0] += 1.0 - RADIANT_HEAT
    holding = Holding(held, held, most, most, shares, shares)
    _, power, lost = free_rooms(network.rooms, network.links, told, holding,
                                np.tile(wanted, (4, 1)), (0.0, 1.0), DAY, 60.0)  # fmt: skip
    return float(lost[-1].sum()), power[-1]


@pytest.mark.parametrize("name", ["well_done", "with_faults"])
def test_heated_as_by_radiators_the_network_loses_what_the_heat_loss_calculation_says(
    name: str,
) -> None:
    home = example(name)
    loss = heat_loss(home)
    lost, power = steady(home, loss, network_of(home, loss))
    said = loss.transmission.value + loss.ventilation.value
    assert lost == pytest.approx(said, rel=0.002)
    assert power.sum() == pytest.approx(said, rel=0.002)


def test_without_doors_each_room_takes_what_its_surfaces_pass_and_its_air() -> None:
    home = example("well_done")
    loss = heat_loss(home)
    network = network_of(home, loss)
    shut = network.links._replace(air=np.zeros(network.links.air.size))
    walled = replace(network, links=shut)
    _, power = steady(home, loss, walled)
    share = loss.ventilation.value / sum(room.ventilation.value for room in loss.rooms)
    said = [room.transmission.value + share * room.ventilation.value for room in loss.rooms]
    # walls join masses, which settle a little below the air; one ground serves all floors
    assert power == pytest.approx(np.array(said), abs=20.0)


def exact_answer(surfaces: tuple[RoomSurface, ...], period: float) -> complex:
    """Heat air gives to the layers themselves in a swing of a kelvin, W/K: no masses anywhere."""
    faces = 0j
    for one in surfaces:
        build = carried_by_soil(one.build) if one.part == "ground" else one.build
        film = 0.17 if one.part in {"ground", "suspended"} else 0.13
        far = max(one.area / one.loss - build.resistance - film, 0.04) if one.loss else np.inf
        thickness, conductivity, density, specific_heat = build.layers
        answer = layer_admittance(
            thickness, conductivity, density, specific_heat, period, 1 / 9.1, far
        )
        faces += one.area * complex(*answer)
    return 1 / (1 / (3.45 * sum(one.area for one in surfaces)) + 1 / faces)


def masses_answer(rooms: Rooms, room: int, period: float) -> complex:
    """The same of the room's masses."""
    one = {name: float(values[room]) for name, values in rooms._asdict().items()}
    turn, balance = 2j * np.pi / period, np.zeros((3, 3), dtype=complex)
    balance[0, 1] = balance[1, 0] = -one["inner_outer"]
    balance[0, 2] = balance[2, 0] = -one["inner_floor"]
    to_air = np.array([one["air_inner"], one["air_outer"], one["air_floor"]])
    beyond = np.array([one["inner_neighbour"], one["outer_outside"], one["floor_ground"]])
    stored = turn * np.array([one["inner_capacity"], one["outer_capacity"], one["floor_capacity"]])
    balance -= np.diag(balance.sum(axis=1) - to_air - beyond - stored)
    return complex(to_air.sum() - to_air @ np.linalg.solve(balance, to_air))


@pytest.mark.parametrize("name", ["well_done", "with_faults"])
@pytest.mark.parametrize(("period", "bound"), [(DAY, 0.10), (7 * DAY, 0.20)])
def test_a_room_of_masses_answers_a_day_and_a_week_as_its_layers_do(
    name: str, period: float, bound: float
) -> None:
    home = example(name)
    loss = heat_loss(home)
    rooms = network_of(home, loss).rooms
    for number, fabric in enumerate(fabric_of_rooms(home, loss.rooms)):
        exact = exact_answer(fabric.surfaces, period)
        off = abs(masses_answer(rooms, number, period) - exact) / abs(exact)
        assert off < bound, loss.rooms[number].room.name


@settings(max_examples=15, deadline=None)
@given(homes())
def test_any_home_makes_a_network_or_says_why_not(home: Home) -> None:
    try:
        loss = heat_loss(home)
        network = network_of(home, loss)
    except HearthbookError:
        return
    rooms = network.rooms._asdict()
    assert all(np.all(np.isfinite(values)) for values in rooms.values())
    for kind in ("solar", "radiant"):
        shares = sum(rooms[f"{kind}_{part}"] for part in ("air", "inner", "outer", "floor"))
        assert shares == pytest.approx(1.0)


def test_heavier_homes_store_more() -> None:
    stored = []
    for mass in ("light", "medium", "heavy"):
        home = home_with([one_room()], thermal_mass=mass)
        rooms = network_of(home, heat_loss(home)).rooms
        stored.append(float(rooms.inner_capacity[0] + rooms.floor_capacity[0]))
    assert stored == sorted(stored)
    assert stored[0] < stored[2] / 2


def test_doors_join_every_room_to_its_passage_and_the_passages_to_each_other() -> None:
    network = network_of(example("well_done"), heat_loss(example("well_done")))
    links = network.links
    ids = network.room_ids
    doors = {
        frozenset((ids[one], ids[other])): air
        for one, other, air in zip(links.first, links.second, links.air, strict=True)
        if air > 0
    }
    assert doors[frozenset(("hall", "living_room"))] == doors[frozenset(("hall", "kitchen"))]
    assert doors[frozenset(("hall", "landing"))] > doors[frozenset(("hall", "kitchen"))]
    assert frozenset(("kitchen", "landing")) not in doors


def test_a_wall_listed_from_both_sides_counts_once() -> None:
    home = example("well_done")
    links = network_of(home, heat_loss(home)).links
    pairs = list(zip(links.first.tolist(), links.second.tolist(), strict=True))
    assert len(set(pairs)) == len(pairs)
    wall = links.wall[pairs.index((0, 4))]  # living room and hall: 9.84 m² of 1.7 W/(m²·K)
    assert 9.84 * 1.7 < wall < 2 * 9.84 * 1.7


def test_windows_stand_the_way_they_look_and_unknown_ones_all_round() -> None:
    network = network_of(example("well_done"), heat_loss(example("well_done")))
    assert {glass.azimuth for glass in network.glazing} == {0.0, 90.0, 180.0}
    south = next(glass for glass in network.glazing if glass.azimuth == 180.0)
    living = 2.4 * 1.35 * 0.75 * 0.63 * 0.8
    assert south.areas[0] == pytest.approx(living)
    unknown = network_of(home_with([one_room()]), heat_loss(home_with([one_room()])))
    areas = [glass.areas[0] for glass in unknown.glazing]
    assert len(areas) == 4
    assert np.ptp(areas) == pytest.approx(0.0)


def test_fans_that_give_heat_back_leave_less_to_wind() -> None:
    rooms = [one_room()]
    natural = home_with(rooms)
    fans = home_with(rooms, ventilation={
        "system": "balanced_heat_recovery", "air_changes": 0.5, "supply_air_changes": 0.4,
        "heat_recovery": 0.75, "evidence": "seen"})  # fmt: skip
    by_wind = network_of(natural, heat_loss(natural)).rooms
    by_fan = network_of(fans, heat_loss(fans)).rooms
    assert by_wind.ventilation[0] == 0.0
    assert by_fan.infiltration[0] == pytest.approx(0.2 * by_wind.infiltration[0])
    assert by_fan.ventilation[0] == pytest.approx(0.2 * by_wind.infiltration[0])


def test_leaks_blow_as_stated_in_their_reference_weather() -> None:
    for storeys in (1, 2, 3, 5):
        stack, wind = leak_drives(storeys)
        assert stack * 15.0 + wind * 16.0 == pytest.approx(1.0)
    assert leak_drives(1)[0] < leak_drives(2)[0] < leak_drives(3)[0]


def test_assumptions_are_figures_and_say_what_was_not_recorded() -> None:
    home = home_with([one_room()])
    figures = {one.name: one for one in network_of(home, heat_loss(home)).assumptions}
    assert figures["year.rooms.weight"].basis is Basis.ASSUMED
    assert "building.thermal_mass" in figures["year.rooms.weight"].working.note
    assert "wall" in figures["year.rooms.stored_inside"].working.note
    assert figures["year.rooms.door"].working.source == "common practice, no source"


def test_order_of_rooms_does_not_change_a_room() -> None:
    home = example("well_done")
    turned = home.building.model_copy(update={"rooms": home.building.rooms[::-1]})
    other = home.model_copy(update={"building": Building.model_validate(turned)})
    first = network_of(home, heat_loss(home)).rooms
    second = network_of(other, heat_loss(other)).rooms
    for name, values in first._asdict().items():
        assert getattr(second, name)[::-1] == pytest.approx(values), name


def test_a_mass_too_light_for_a_minute_is_refused_by_name() -> None:
    home = home_with([one_room()])
    network = network_of(home, heat_loss(home))
    thin = network.rooms._replace(inner_capacity=np.array([1e4]))
    with pytest.raises(OutOfRange, match=r"inner walls of the parlour: a minute is \d"):
        check_network(thin, network.links, network.room_names)


def test_a_negative_conductance_is_refused_by_name() -> None:
    home = home_with([one_room()])
    network = network_of(home, heat_loss(home))
    wrong = network.rooms._replace(air_outside=np.array([-1.0]))
    with pytest.raises(OutOfRange, match="air outside of the parlour is -1"):
        check_network(wrong, network.links, network.room_names)


def test_a_room_with_no_way_to_lose_heat_is_refused_by_name() -> None:
    inside = [{"construction": "inner", "beyond": "store", "area": 10.0}]
    home = home_with(
        [one_room(), one_room("box_room", air_changes=0.0, elements=inside, use="hall")],
        unheated_spaces=[{"id": "store", "name": "store", "temperature_factor": 0.0}],
        storeys=[{"id": "ground", "name": "downstairs", "height": 2.5}],
    )
    network = network_of(home, heat_loss(home))  # its door still lets heat out
    assert network.rooms.air_outside[1] == 0.0
    alone = home_with(
        [one_room(air_changes=0.0, elements=inside)],
        unheated_spaces=[{"id": "store", "name": "store", "temperature_factor": 0.0}],
    )
    with pytest.raises((OutOfRange, Incomplete), match=r"outside air|no way to lose heat"):
        network_of(alone, heat_loss(alone))
