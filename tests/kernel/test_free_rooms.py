"""Rooms alone: step responses that mathematics knows, steady states, and balances."""

from __future__ import annotations

from itertools import permutations

import numpy as np
import pytest
from numpy.typing import NDArray

from hearthbook.kernel.free_rooms import Holding, Surroundings, free_rooms, never_held
from hearthbook.kernel.parameters import Links, Rooms

Array = NDArray[np.float64]
HOUR, STEP = 3600.0, 60.0


def rooms_of(count: int = 1, **values: float | list[float]) -> Rooms:
    """Rooms with these values; every other conductance 0, every other capacity 1 kJ/K."""
    columns = {
        name: np.full(count, 1e3) if name.endswith("capacity") else np.zeros(count)
        for name in Rooms._fields
    }
    for name, value in values.items():
        columns[name] = np.broadcast_to(np.asarray(value, dtype=float), count).copy()
    return Rooms(**columns)


def links_of(*pairs: tuple[int, int, float, float]) -> Links:
    first, second, wall, air = np.array(pairs).reshape(-1, 4).T
    return Links(first.astype(np.int64), second.astype(np.int64), wall.copy(), air.copy())


def surroundings(slots: int, count: int = 1, **values: float) -> Surroundings:
    fields: dict[str, Array] = {
        name: np.full((slots, count), values.get(name, 0.0)) for name in Surroundings._fields
    }
    fields["wind"] = np.full(slots, values.get("wind", 0.0))
    return Surroundings(**fields)


def held_at(slots: int, wanted: Array) -> Holding:
    free = never_held(slots, wanted.size)
    most = np.full(wanted.size, 1e6)
    held = np.tile(wanted, (slots, 1))
    return Holding(held, held, most, most, free.heating_shares, free.cooling_shares)


def run(
    rooms: Rooms, links: Links, told: Surroundings, holding: Holding | None, state: Array
) -> tuple[Array, Array, Array]:
    holding = holding or never_held(*told.outdoor.shape)
    return free_rooms(rooms, links, told, holding, state, (0.0, 1.0), HOUR, STEP)


def test_a_room_of_one_mass_cools_by_the_exponential() -> None:
    """Time constant 50 h, 10 h after a step: 1 - exp(-0.2) = 18.127 %; derived."""
    conductance = 100.0
    rooms = rooms_of(air_capacity=50 * HOUR * conductance, air_outside=conductance)
    state = np.zeros((4, 1))
    free_rooms(rooms, links_of(), surroundings(10, outdoor=1.0), never_held(10, 1), state,
               (0.0, 0.0), HOUR, 1.0)  # fmt: skip
    assert state[0, 0] == pytest.approx(0.18127, abs=1e-5)


def test_the_minute_step_errs_by_less_than_half_a_thousandth() -> None:
    rooms = rooms_of(air_capacity=50 * HOUR * 100.0, air_outside=100.0)
    state = np.zeros((4, 1))
    run(rooms, links_of(), surroundings(10, outdoor=1.0), None, state)
    assert state[0, 0] == pytest.approx(0.18127, abs=1e-4)


def test_two_masses_follow_the_two_exponentials() -> None:
    """Air and inner mass after a step outside: eigenvalues of the 2 by 2 system; derived."""
    air, inner, between, outside = 2e6, 2e7, 200.0, 100.0
    rooms = rooms_of(air_capacity=air, inner_capacity=inner, air_inner=between, air_outside=outside)
    state = np.zeros((4, 1))
    free_rooms(rooms, links_of(), surroundings(24, outdoor=10.0), never_held(24, 1), state,
               (0.0, 0.0), HOUR, 5.0)  # fmt: skip
    system = np.array([[-(between + outside) / air, between / air],
                       [between / inner, -between / inner]])  # fmt: skip
    values, vectors = np.linalg.eig(system)
    weights = np.linalg.solve(vectors, np.full(2, -10.0))
    expected = 10.0 + vectors @ (weights * np.exp(values * 24 * HOUR))
    assert state[:2, 0] == pytest.approx(expected, abs=2e-3)


def test_a_steady_room_needs_its_conductance_times_the_difference() -> None:
    rooms = rooms_of(
        air_capacity=2e5, inner_capacity=2e6, outer_capacity=2e6, air_inner=150.0,
        inner_outer=12.0, outer_outside=60.0, air_outside=20.0, infiltration=10.0,
    )  # fmt: skip
    told = surroundings(24 * 40, outdoor=-3.0, outer_beyond=-3.0, wind=1.0)
    _, power, lost = run(rooms, links_of(), told, held_at(24 * 40, np.array([20.0])),
                         np.full((4, 1), 20.0))  # fmt: skip
    through_wall = 1 / (1 / 150.0 + 1 / 12.0 + 1 / 60.0)
    assert power[-1, 0] == pytest.approx((through_wall + 30.0) * 23.0, rel=1e-6)
    assert lost[-1, 0] == pytest.approx(power[-1, 0], rel=1e-6)


def test_a_house_cut_in_halves_is_the_house() -> None:
    whole = {"air_capacity": 4e5, "inner_capacity": 8e6, "air_inner": 300.0, "air_outside": 40.0}
    halves = rooms_of(2, **{name: value / 2 for name, value in whole.items()})
    told = [surroundings(48, count, outdoor=2.0, convective=1000.0 / count) for count in (1, 2)]
    one, two = np.full((4, 1), 15.0), np.full((4, 2), 15.0)
    air, _, _ = run(rooms_of(1, **whole), links_of(), told[0], None, one)
    airs, _, _ = run(halves, links_of((0, 1, 20.0, 50.0)), told[1], None, two)
    assert airs[:, 0] == pytest.approx(air[:, 0], abs=1e-9)
    assert airs[:, 1] == pytest.approx(air[:, 0], abs=1e-9)


def _three_rooms(order: tuple[int, ...]) -> Array:
    """Air of three linked rooms, each given back at its own place."""
    values = {
        "air_capacity": np.array([2e5, 1e5, 3e5]), "inner_capacity": np.array([5e6, 3e6, 9e6]),
        "air_inner": np.array([200.0, 90.0, 300.0]), "air_outside": np.array([15.0, 5.0, 30.0]),
    }  # fmt: skip
    rooms = rooms_of(3, **{name: list(value[list(order)]) for name, value in values.items()})
    place = {room: position for position, room in enumerate(order)}
    links = links_of(
        (place[0], place[1], 15.0, 30.0),
        (place[2], place[1], 8.0, 30.0),
        (place[0], place[2], 4.0, 0.0),
    )  # fmt: skip
    told = surroundings(48, 3, outdoor=0.0)
    told.convective[:, place[2]] = 1500.0
    air, _, _ = run(rooms, links, told, None, np.full((4, 3), 18.0))
    return air[:, [place[room] for room in range(3)]]


def test_the_order_of_rooms_does_not_matter() -> None:
    first, *others = (_three_rooms(order) for order in permutations(range(3)))
    for other in others:
        assert other == pytest.approx(first, abs=1e-10)


def test_heat_put_in_is_heat_stored_and_lost() -> None:
    rooms = rooms_of(
        2, air_capacity=2e5, inner_capacity=5e6, outer_capacity=3e6, floor_capacity=4e6,
        air_inner=200.0, air_floor=40.0, inner_floor=30.0, inner_outer=10.0, outer_outside=60.0,
        air_outside=20.0, infiltration=8.0, inner_neighbour=5.0, neighbour_temperature=18.0,
        floor_ground=9.0, radiant_air=0.1, radiant_inner=0.6, radiant_floor=0.3, solar_air=0.2,
        solar_inner=0.5, solar_floor=0.3,
    )  # fmt: skip
    told = surroundings(24, 2, outdoor=1.0, outer_beyond=6.0, ground=9.0, solar=300.0,
                        radiant=200.0, convective=100.0, wind=2.0)  # fmt: skip
    state = np.full((4, 2), 17.0)
    before = state.copy()
    _, power, lost = run(rooms, links_of((0, 1, 9.0, 28.0)), told,
                         held_at(24, np.array([21.0, 18.0])), state)  # fmt: skip
    capacities = np.array([rooms.air_capacity, rooms.inner_capacity, rooms.outer_capacity,
                           rooms.floor_capacity])  # fmt: skip
    stored = np.sum(capacities * (state - before))
    given = (power.sum() + 2 * 24 * 600.0) * HOUR
    assert stored + lost.sum() * HOUR == pytest.approx(given, rel=1e-9)


def test_a_limited_heater_falls_short_and_never_gives_more() -> None:
    rooms = rooms_of(air_capacity=2e5, air_outside=100.0)
    holding = held_at(24, np.array([20.0]))._replace(heating_most=np.array([1000.0]))
    air, power, _ = run(rooms, links_of(), surroundings(24), holding, np.zeros((4, 1)))
    assert power.max() == pytest.approx(1000.0)
    assert air[-1, 0] == pytest.approx(10.0, abs=0.01)


def test_a_run_cut_in_two_and_joined_is_the_whole() -> None:
    rooms = rooms_of(air_capacity=2e5, inner_capacity=5e6, air_inner=150.0, air_outside=30.0)
    whole, parts = np.full((4, 1), 20.0), np.full((4, 1), 20.0)
    air, _, _ = run(rooms, links_of(), surroundings(48), None, whole)
    first, _, _ = run(rooms, links_of(), surroundings(20), None, parts)
    second, _, _ = run(rooms, links_of(), surroundings(28), None, parts)
    assert np.concatenate([first, second]) == pytest.approx(air, abs=1e-12)
