"""What if: a home changed, and held against itself in the same weather and the same draws."""

from __future__ import annotations

import pytest

from hearthbook.design.results import Design, design_home
from hearthbook.documents.figures import book_of, figures_in
from hearthbook.errors import Conflict, Incomplete, NotFound, OutOfRange
from hearthbook.record.controls import Window
from hearthbook.record.home import Home
from hearthbook.record.tariff import Tariff
from hearthbook.year.changes import ColderStretch
from hearthbook.year.flow_temperature_choice import FlowChoices, flow_temperature_choice
from hearthbook.year.ideas import Idea
from hearthbook.year.usual_ideas import usual_variants
from hearthbook.year.variants import Variant, as_recorded, variant
from hearthbook.year.whatif import Difference, Sampling, WhatIf, WhatIfs, whatif
from hearthbook.year.whatif_document import whatif_document
from tests.year.winter_days import winter

WEATHER = winter()
FEW = Sampling(draws=7, seed=3)


@pytest.fixture(scope="module")
def design(well_done_home: Home) -> Design:
    return design_home(well_done_home)


@pytest.fixture(scope="module")
def variants(design: Design) -> tuple[Variant, ...]:
    ideas = {
        "nothing": Idea(),
        "warmer": Idea(warmer=1.0),
        "cooler": Idea(warmer=-1.0),
        "setback": Idea(setback=ColderStretch(3.0)),
        "lower": Idea(curve=-3.0),
        "higher": Idea(curve=3.0),
        "cool_water": Idea(flow_temperature=38.0),
        "loft": Idea(insulate=(("loft_ceiling", 0.12),)),
        "walls": Idea(insulate=(("brick wall, cavity filled in 2009", 0.25),)),
        "closed": Idea(close=("small bedroom",)),
        "larger": Idea(larger=("rad_back_bedroom", "rad_dining", "rad_kitchen")),
        "water": Idea(volumiser=0.2),
        "hot_water": Idea(hot_water_windows=(Window(start="13:00", end="15:00"),)),
        "limit": Idea(thermostat_limit=0.0),
        "dear": Idea(tariff=_dearer(design)),
    }
    return tuple(variant(design, idea, name, name) for name, idea in ideas.items())


def _dearer(design: Design) -> Tariff:
    tariff = design.home.tariff
    assert tariff is not None
    bands = tuple(band.model_copy(update={"price": 2 * band.price}) for band in tariff.bands)
    return tariff.model_copy(update={"bands": bands})


@pytest.fixture(scope="module")
def found(design: Design, variants: tuple[Variant, ...]) -> WhatIfs:
    return whatif(design, (WEATHER,), variants, sampling=FEW)


@pytest.fixture(scope="module")
def by_name(found: WhatIfs) -> dict[str, WhatIf]:
    return {one.name: one for one in found.ideas}


def _differences(one: WhatIf) -> list[Difference]:
    return [part for part in vars(one).values() if isinstance(part, Difference)]


def test_nothing_changed_changes_exactly_nothing(by_name: dict[str, WhatIf]) -> None:
    for each in _differences(by_name["nothing"]):
        assert (each.change.value, each.low.value, each.high.value) == (0.0, 0.0, 0.0)


def test_every_difference_is_with_it_less_as_recorded(found: WhatIfs) -> None:
    for each in (difference for one in found.ideas for difference in _differences(one)):
        assert each.change.value == pytest.approx(each.with_it.value - each.as_recorded.value)
        assert each.low.value <= each.high.value


def test_warmer_rooms_cost_more_and_cooler_ones_less(by_name: dict[str, WhatIf]) -> None:
    warmer, cooler = by_name["warmer"], by_name["cooler"]
    assert warmer.electricity.low.value > 0.0 > cooler.electricity.high.value
    assert 0.4 < warmer.temperature.change.value < 1.2
    assert warmer.cost is not None
    assert warmer.cost.change.value > 0.0


def test_more_insulation_needs_less_heat(by_name: dict[str, WhatIf]) -> None:
    assert by_name["loft"].heat.high.value < 0.0
    assert by_name["walls"].heat.high.value < 0.0


def test_a_colder_night_takes_less_heat_and_leaves_rooms_colder(
    by_name: dict[str, WhatIf],
) -> None:
    setback = by_name["setback"]
    assert setback.heat.change.value < 0.0
    assert setback.temperature.change.value < 0.0


def test_a_lower_curve_takes_less_heat_and_a_higher_one_costs_more(
    by_name: dict[str, WhatIf],
) -> None:
    assert by_name["lower"].heat.change.value < 0.0 < by_name["lower"].below.change.value
    assert by_name["higher"].electricity.change.value > 0.0
    assert by_name["higher"].efficiency.change.value < 0.0
    assert by_name["cool_water"].efficiency.change.value > 0.0


def test_larger_radiators_let_the_curve_fall(
    design: Design, variants: tuple[Variant, ...], by_name: dict[str, WhatIf]
) -> None:
    exchanged = next(one for one in variants if one.name == "larger")
    assert exchanged.changes.curve_points is not None
    set_flow = design.curve.set_flow_temperature_at
    lowered = [
        flow - (set_flow(outdoor) or 0.0)
        for outdoor, flow in exchanged.changes.curve_points
        if outdoor < 5.0
    ]
    assert max(lowered) <= 0.0
    assert (
        exchanged.design.emitters.required_flow_temperature.value
        < design.emitters.required_flow_temperature.value
    )
    assert abs(by_name["larger"].temperature.change.value) < 0.3


def test_a_closed_room_saves_heat(by_name: dict[str, WhatIf]) -> None:
    assert by_name["closed"].heat.change.value < 0.0
    assert by_name["closed"].temperature.change.value < 0.0


def test_a_thermostat_that_stops_heating_sooner_leaves_rooms_colder(
    by_name: dict[str, WhatIf],
) -> None:
    assert by_name["limit"].heat.change.value < 0.0
    assert by_name["limit"].temperature.change.value < 0.0


def test_what_hurts_comfort_is_said_beside_the_money(well_done_home: Home, found: WhatIfs) -> None:
    said = str(whatif_document(well_done_home, found).blocks)
    assert "too cold for" in said


def test_more_water_starts_the_unit_no_oftener(by_name: dict[str, WhatIf]) -> None:
    assert by_name["water"].starts.change.value <= 0.0


def test_twice_the_price_costs_twice_as_much_for_the_same_year(by_name: dict[str, WhatIf]) -> None:
    dear = by_name["dear"]
    assert dear.electricity.change.value == 0.0
    assert dear.cost is not None
    assert dear.cost.with_it.value == pytest.approx(2.0 * dear.cost.as_recorded.value)


def test_what_saves_most_money_comes_first(found: WhatIfs) -> None:
    money = [one.cost.change.value for one in found.ideas if one.cost is not None]
    assert len(money) == len(found.ideas)
    assert money == sorted(money)


def test_the_same_seed_gives_the_same_ranges_and_another_gives_others(
    design: Design, variants: tuple[Variant, ...], by_name: dict[str, WhatIf]
) -> None:
    warmer = tuple(one for one in variants if one.name == "warmer")
    again = whatif(design, (WEATHER,), warmer, sampling=FEW).ideas[0]
    other = whatif(design, (WEATHER,), warmer, sampling=Sampling(7, 4)).ideas[0]
    first = by_name["warmer"].electricity
    assert again.electricity.low.value == first.low.value
    assert again.electricity.high.value == first.high.value
    assert other.electricity.low.value != first.low.value
    assert other.electricity.change.value == first.change.value


def test_every_figure_has_a_name_of_its_own_and_a_working(found: WhatIfs) -> None:
    warmer = next(one for one in found.ideas if one.name == "warmer")
    names = [figure.name for figure in figures_in(warmer)]
    assert len(names) == len(set(names))
    book = book_of(warmer)
    assert "whatif.warmer.electricity" in book
    assert "whatif.as_recorded.electricity" in book
    assert "year.run" in book
    assert "seed 3" in book["whatif.warmer.electricity.low"].working.source
    assert "year.range.assumed.ventilation" in book


def test_a_document_of_one_and_of_many_has_every_difference(
    well_done_home: Home, design: Design, found: WhatIfs
) -> None:
    many = whatif_document(well_done_home, found)
    one = WhatIfs(found.ideas[:1], found.spreads, found.sampling, found.standing, 1)
    for document, ideas in ((many, found.ideas), (whatif_document(well_done_home, one), one.ideas)):
        told = {figure.name for figure in figures_in(document)}
        for idea in ideas:
            assert idea.electricity.change.name in told


# -- the usual ideas -----------------------------------------------------------------------------


def test_the_usual_ideas_are_those_that_apply(design: Design, faulty_home: Home) -> None:
    good = {one.name for one in usual_variants(design)}
    faulty = {one.name for one in usual_variants(design_home(faulty_home))}
    assert {"warmer", "cooler", "setback_2", "more_water", "insulate_loft_ceiling"} <= good
    assert "no_setback" not in good
    assert {"no_setback", "advised_curve"} <= faulty
    assert "thermostat_limits" not in faulty  # it stands 2 K above its room already
    assert "setback_4" not in faulty  # it is what the record has
    assert "hot_water_cheap" not in faulty  # it has one price


def test_a_thermostat_that_switches_at_the_wanted_temperature_is_asked_about(
    faulty_home: Home,
) -> None:
    thermostat = faulty_home.controls.thermostat
    assert thermostat is not None
    low = thermostat.model_copy(update={"setting": 18.0})
    controls = faulty_home.controls.model_copy(update={"thermostat": low})
    home = faulty_home.model_copy(update={"controls": controls})
    tried = {one.name: one for one in usual_variants(design_home(home))}
    limiter = tried["thermostat_limits"].design.home.controls.thermostat
    assert limiter is not None
    assert (limiter.acts_as, limiter.setting) == ("limiter", 20.0)
    assert "advised_controls" in tried


def test_a_home_without_a_cylinder_is_not_asked_about_hot_water(well_done_home: Home) -> None:
    plant = well_done_home.plant.model_copy(update={"cylinder": None})
    home = well_done_home.model_copy(update={"plant": plant})
    names = {one.name for one in usual_variants(design_home(home))}
    assert not any(name.startswith("hot_water") for name in names)


# -- what cannot be asked ------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("idea", "error", "message"),
    [
        (Idea(close=("kichen",)), NotFound, "No room is called 'kichen'. Did you mean kitchen?"),
        (Idea(larger=("rad_kichen",)), NotFound, "Did you mean rad_kitchen"),
        (Idea(insulate=(("loft_celing", 0.1),)), NotFound, "Did you mean loft_ceiling"),
        (Idea(larger=("rad_hall",)), Incomplete, "No larger emitter is known for hall radiator"),
        (Idea(warmer=9.0), OutOfRange, "9 K; it must lie between -5 and 5 K"),
        (Idea(curve=-40.0), OutOfRange, "change of the curve is -40 K"),
        (Idea(flow_temperature=80.0), OutOfRange, "flow temperature is 80 °C; it must lie between"),
        (Idea(insulate=(("loft_ceiling", 0.0),)), OutOfRange, "U-value of loft_ceiling is 0"),
        (Idea(volumiser=-0.01), OutOfRange, "added volume is -10 L"),
        (Idea(setback=ColderStretch(20.0)), OutOfRange, "colder stretch is 20 K"),
        (Idea(thermostat_limit=-1.0), OutOfRange, "thermostat above the wanted temperature is -1"),
        (Idea(curve=1.0, flow_temperature=40.0), OutOfRange, "give one"),
        (Idea(warmer=float("nan")), OutOfRange, "nan K"),
    ],
)
def test_what_no_home_has_is_refused(
    design: Design, idea: Idea, error: type[Exception], message: str
) -> None:
    with pytest.raises(error, match=message):
        variant(design, idea, "asked", "asked")


def test_closing_every_room_is_refused(design: Design) -> None:
    every = tuple(room.id for room in design.home.building.rooms)
    with pytest.raises(OutOfRange, match="leave at least one of them heated"):
        variant(design, Idea(close=every), "asked", "asked")


def test_another_currency_is_refused(design: Design) -> None:
    other = _dearer(design).model_copy(update={"currency": "€"})
    with pytest.raises(Conflict, match="The other tariff is in €, the record's in £"):
        variant(design, Idea(tariff=other), "asked", "asked")


def test_a_home_without_a_tariff_is_ranked_by_electricity(well_done_home: Home) -> None:
    without = design_home(well_done_home.model_copy(update={"tariff": None}))
    tried = [
        variant(without, Idea(warmer=by), f"by_{by:+g}", f"{by:+g} K") for by in (1.0, -1.0, 0.0)
    ]
    found = whatif(without, (WEATHER,), tried, sampling=Sampling(2, 1))
    assert [one.name for one in found.ideas] == ["by_-1", "by_+0", "by_+1"]
    assert all(one.cost is None for one in found.ideas)
    said = str(whatif_document(well_done_home, found).blocks)
    assert "Range of cost" not in said


def test_too_few_draws_are_refused() -> None:
    with pytest.raises(OutOfRange, match="number of draws is 1; it must lie between 2 and 2000"):
        Sampling(draws=1)


def test_the_record_itself_is_a_variant(design: Design) -> None:
    recorded = as_recorded(design)
    assert recorded.design is design


# -- flow temperatures ---------------------------------------------------------------------------


@pytest.fixture(scope="module")
def flows(design: Design) -> FlowChoices:
    return flow_temperature_choice(design, WEATHER, steps=(38.0, 43.0, 50.0))


def test_cooler_water_asks_for_more_emitters_and_takes_less_electricity(flows: FlowChoices) -> None:
    choices = flows.choices
    counts = [len(one.exchanges) for one in choices]
    energy = [one.electricity.value for one in choices]
    efficiency = [one.efficiency.value for one in choices]
    assert counts == sorted(counts, reverse=True)
    assert energy == sorted(energy)
    assert efficiency == sorted(efficiency, reverse=True)
    assert [one.flow.value for one in choices if one.is_recorded] == [45.0]


def test_an_exchange_is_larger_than_what_there_is_and_its_cost_is_the_recorded_one(
    design: Design, flows: FlowChoices
) -> None:
    at_43 = next(one for one in flows.choices if one.flow.value == 43.0)
    for each in at_43.exchanges:
        assert each.needed.value > design.emitters.emitter(each.emitter_id).rated_output.value
    costs = {one.emitter_id: one.cost.value for one in at_43.exchanges if one.cost is not None}
    assert costs["rad_back_bedroom"] == 175.0
    assert at_43.exchange_cost is not None
    assert at_43.exchange_cost.value == pytest.approx(sum(costs.values()))


def test_a_room_with_a_heated_floor_alone_is_beyond_very_cool_water(flows: FlowChoices) -> None:
    assert "garden room" in flows.choices[0].rooms_beyond


def test_the_choice_is_told_with_its_limiting_rooms(
    well_done_home: Home, flows: FlowChoices
) -> None:
    document = whatif_document(well_done_home, flows)
    assert "back bedroom" in str(document.blocks[0])
    assert {one.electricity.name for one in flows.choices} <= {
        figure.name for figure in figures_in(document)
    }
