"""What walls and floors are made of, so far as heat they store goes."""

from __future__ import annotations

import pytest

from hearthbook.record.building import Construction, ConstructionKind, ThermalMass
from hearthbook.year.builds import half_of, layered_build, partition_build, usual_build


def construction(*layers: dict[str, object]) -> Construction:
    return Construction.model_validate(
        {"id": "one", "name": "one", "kind": "wall", "layers": layers, "evidence": "seen"}
    )


def test_a_material_is_known_by_its_words_else_by_its_conductivity() -> None:
    build = layered_build(
        construction(
            {"material": "dense concrete", "thickness": 100, "conductivity": 1.7},
            {"material": "something unheard of", "thickness": 100, "conductivity": 0.035},
        )
    )
    assert build is not None
    assert build.layers[2].tolist() == [2100.0, 30.0]
    assert not build.is_usual


def test_aerated_concrete_is_not_taken_for_dense() -> None:
    build = layered_build(
        construction({"material": "aerated concrete block", "thickness": 100, "conductivity": 0.15})
    )
    assert build is not None
    assert build.layers[2].tolist() == [600.0]


def test_a_bridge_shares_conductivity_and_heat_by_area() -> None:
    layer = {
        "material": "mineral wool", "thickness": 100, "conductivity": 0.04,
        "bridge": {"material": "softwood", "conductivity": 0.13, "fraction": 0.1},
    }  # fmt: skip
    build = layered_build(construction(layer))
    assert build is not None
    assert build.layers[1, 0] == pytest.approx(0.9 * 0.04 + 0.1 * 0.13)
    assert build.capacity == pytest.approx(0.1 * (0.9 * 25.0 * 1000.0 + 0.1 * 520.0 * 1600.0))


def test_air_and_layers_rated_by_resistance_store_nothing() -> None:
    build = layered_build(
        construction(
            {"material": "brick", "thickness": 100, "conductivity": 0.77},
            {"material": "cavity", "thickness": 50, "is_air": True},
            {"material": "carpet", "resistance": 0.15},
        )
    )
    assert build is not None
    assert build.capacity == pytest.approx(0.1 * 1750.0 * 1000.0)
    assert build.resistance == pytest.approx(0.1 / 0.77 + 0.18 + 0.15)
    assert layered_build(construction({"material": "carpet", "resistance": 0.15})) is None


KINDS = (
    ConstructionKind.WALL,
    ConstructionKind.ROOF,
    ConstructionKind.FLOOR,
    ConstructionKind.GROUND_FLOOR,
)


@pytest.mark.parametrize("mass", list(ThermalMass))
@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("u_value", [0.12, 0.5, 2.0])
def test_a_usual_build_has_the_u_value(
    kind: ConstructionKind, mass: ThermalMass, u_value: float
) -> None:
    films = 0.21 if kind is ConstructionKind.GROUND_FLOOR else 0.17
    build = usual_build(kind, mass, u_value)
    assert 1 / (build.resistance + films) == pytest.approx(u_value, rel=1e-6)
    assert build.is_usual


def test_heavier_partitions_and_floors_store_more() -> None:
    for part in ({}, {"is_floor": True}, {"is_ceiling": True}):
        stored = [partition_build(mass, **part).capacity for mass in ThermalMass]
        assert stored == sorted(stored)


def test_two_halves_hold_what_the_whole_holds() -> None:
    whole = usual_build(ConstructionKind.WALL, ThermalMass.HEAVY, 1.0)
    turned = type(whole)(whole.layers[:, ::-1], is_usual=True)
    assert half_of(whole).capacity + half_of(turned).capacity == pytest.approx(whole.capacity)
