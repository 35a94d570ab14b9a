"""U-values of a home's constructions: given, from layers, on the ground, usual."""

from __future__ import annotations

import math
from typing import Any

import pytest

from hearthbook.design.assumed_shares import assumed_shares
from hearthbook.design.fabric import Side, construction_u_value
from hearthbook.design.heat_loss import heat_loss
from hearthbook.documents.figures import Basis, KeyFigure, with_inputs
from hearthbook.errors import Incomplete, NotFound
from hearthbook.record.building import ConstructionKind
from tests.design.buildings import EVERYTHING_GIVEN, home_with, one_room


def _u_value(
    construction: dict[str, Any], side: Side = "outside", built: int | None = 1950
) -> KeyFigure:
    made = {"id": "made", "name": "build", "kind": "wall", "evidence": "seen", **construction}
    floor = {"construction": "made", "beyond": "ground", "area": 20.0}
    room = one_room()
    if made["kind"] == "ground_floor":
        room["elements"] = [*room["elements"], floor]
    constructions = [*EVERYTHING_GIVEN["constructions"], made]
    home = home_with([room], constructions=constructions, built=built)
    return construction_u_value(home, home.construction("made"), side)


BRICK = {"material": "brick", "thickness": "102 mm", "conductivity": 0.77}
AIR = {"material": "cavity", "thickness": "100 mm", "is_air": True}


def test_a_u_value_that_is_known_is_taken_with_its_evidence() -> None:
    figure = _u_value({"u_value": 0.31, "layers": [BRICK], "evidence": "assumed"})
    assert (figure.value, figure.basis) == (0.31, Basis.ASSUMED)


def test_the_cold_side_of_a_wall_between_rooms_is_still_air() -> None:
    outside = _u_value({"layers": [BRICK]}).value
    inside = _u_value({"layers": [BRICK]}, "inside").value
    resistance = 0.102 / 0.77
    assert outside == pytest.approx(1 / (0.13 + resistance + 0.04))
    assert inside == pytest.approx(1 / (0.13 + resistance + 0.13))


@pytest.mark.parametrize(
    ("kind", "surface", "air"),
    [("wall", 0.13, 0.18), ("roof", 0.10, 0.16), ("ceiling", 0.10, 0.16), ("floor", 0.17, 0.22)],
)
def test_surfaces_and_air_layers_follow_the_direction_of_the_heat(
    kind: str, surface: float, air: float
) -> None:
    figure = _u_value({"kind": kind, "layers": [BRICK, AIR]})
    assert figure.value == pytest.approx(1 / (surface + 0.102 / 0.77 + air + 0.04))


def test_a_layer_rated_by_its_resistance_counts_as_it_is() -> None:
    figure = _u_value({"layers": [{"material": "board", "resistance": 2.0}]})
    assert figure.value == pytest.approx(1 / 2.17)


def test_limits_too_far_apart_are_said_aloud() -> None:
    steel = {"material": "steel", "conductivity": 50.0, "fraction": 0.01}
    wool = {"material": "wool", "thickness": "150 mm", "conductivity": 0.035, "bridge": steel}
    note = _u_value({"layers": [wool]}).working.note
    assert note.startswith("the limits lie further apart than the method allows")


def test_a_slab_finds_its_edge_and_area_in_the_rooms() -> None:
    figure = _u_value({"kind": "ground_floor", "layers": [{"material": "foam", "resistance": 1.0}]})
    # one outside wall of 4 m under 20 m²: B' = 10 m; 300 mm wall and soil 2.0 are assumed
    width, depth = 10.0, 0.3 + 2.0 * (0.17 + 1.0 + 0.04)
    expected = 2 * 2.0 / (math.pi * width + depth) * math.log(math.pi * width / depth + 1)
    assert figure.value == pytest.approx(expected)
    assumed = {part.name for part in with_inputs(figure) if part.basis is Basis.ASSUMED}
    assert assumed == {
        "building.constructions.made.ground.wall_thickness",
        "building.constructions.made.ground.soil_conductivity",
    }


def test_a_slab_whose_rooms_have_no_outside_wall_asks_for_its_edge() -> None:
    floor = {"construction": "made", "beyond": "ground", "area": 20.0}
    layers = [{"material": "foam", "resistance": 1.0}]
    made = {"id": "made", "name": "slab", "kind": "ground_floor", "layers": layers}
    constructions = [*EVERYTHING_GIVEN["constructions"], {**made, "evidence": "seen"}]
    home = home_with([one_room(elements=[floor])], constructions=constructions)
    with pytest.raises(Incomplete, match=r"slab has no exposed edge. Give ground.exposed_perimet"):
        construction_u_value(home, home.construction("made"), "outside")


def test_a_suspended_floor_goes_through_the_space_below() -> None:
    ground = {"area": 40.0, "exposed_perimeter": 20.0, "wall_thickness": "300 mm"}
    figure = _u_value(
        {
            "kind": "ground_floor",
            "layers": [{"material": "boards", "resistance": 0.25}],
            "ground": {**ground, "soil_conductivity": 1.5, "is_suspended": True},
        }
    )
    # soil 0.6976, walls 2 · 0.3 · 1.5 / 4, wind 1450 · 0.003 · 5 · 0.05 / 4
    below = 0.6976 + 0.225 + 0.2719
    assert figure.value == pytest.approx(1 / (0.25 + 0.34 + 1 / below), abs=0.0005)


def test_a_slab_with_layers_goes_by_them_whatever_usual_build_is_named() -> None:
    slab = {"kind": "ground_floor", "layers": [{"material": "foam", "resistance": 1.0}]}
    assert _u_value({**slab, "typical": "by_age"}).value == _u_value(slab).value


def test_a_usual_build_is_an_assumption() -> None:
    figure = _u_value({"typical": "solid_brick_wall"})
    assert (figure.value, figure.basis) == (1.9, Basis.ASSUMED)


def test_an_unknown_usual_build_names_those_there_are() -> None:
    with pytest.raises(NotFound, match="'igloo' is not among the typical values of construction"):
        _u_value({"typical": "igloo"})


@pytest.mark.parametrize("kind", list(ConstructionKind))
def test_every_kind_has_a_u_value_by_age_that_never_rises_with_the_year(
    kind: ConstructionKind,
) -> None:
    years = (1900, 1960, 1980, 1990, 2000, 2010, 2020)
    values = [_u_value({"kind": kind.value, "typical": "by_age"}, built=y).value for y in years]
    assert values == sorted(values, reverse=True)


def test_without_an_age_nothing_is_assumed() -> None:
    with pytest.raises(Incomplete, match=r"build has no U-value, and none can be assumed without"):
        _u_value({"typical": "by_age"}, built=None)


@pytest.mark.parametrize(
    ("layer", "message"),
    [
        ({"material": "mud", "conductivity": 0.9}, r"layer 1 of build \(mud\) has no thickness"),
        ({"material": "mud", "thickness": 100}, r"layer 1 of build \(mud\) has no conductivity"),
        (
            {
                "material": "mud",
                "resistance": 0.5,
                "bridge": {"material": "oak", "conductivity": 0.2, "fraction": 0.1},
            },
            "layer 1 of build is bridged by oak but has no thickness",
        ),
    ],
)
def test_a_layer_that_says_too_little_is_refused(layer: dict[str, Any], message: str) -> None:
    with pytest.raises(Incomplete, match=message):
        _u_value({"layers": [layer]})


def test_what_rests_on_assumed_u_values_is_told_the_heaviest_first() -> None:
    walls = [{**c, "evidence": "assumed"} for c in EVERYTHING_GIVEN["constructions"]]
    loss = heat_loss(home_with([one_room()], constructions=walls))
    shares = assumed_shares(loss)
    losses = {e.u_value.name: e.loss.value for e in loss.room("parlour").elements}
    assert [s.share.value for s in shares] == pytest.approx(
        sorted((value / loss.total.value for value in losses.values()), reverse=True)
    )
    assert [s.is_heavy for s in shares] == [s.share.value > 0.15 for s in shares]
    assert assumed_shares(heat_loss(home_with([one_room()]))) == ()
