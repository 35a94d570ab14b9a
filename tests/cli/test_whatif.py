"""The what-if command as a person or a machine meets it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from hearthbook.record.home import Home
from hearthbook.simulate.weather import Weather
from tests.cli.test_commands import call
from tests.conftest import EXAMPLES
from tests.year.winter_days import winter

_HOME = str(EXAMPLES / "well_done" / "home.yaml")
_FAULTY = str(EXAMPLES / "with_faults" / "home.yaml")


def _usual(home: Home, *, seed: int) -> Weather:
    return winter()


def _years(home: Home, seed: int, count: int = 2) -> tuple[Weather, ...]:
    return winter(mean=2.0), winter(mean=6.0)


@pytest.fixture
def short(monkeypatch: pytest.MonkeyPatch) -> None:
    """Twelve days of winter in place of every generated year."""
    monkeypatch.setattr("hearthbook.actions.whatifs.weather_of_home", _usual)
    monkeypatch.setattr("hearthbook.actions.whatifs.generated_years", _years)


@pytest.mark.usefixtures("short")
def test_without_a_wish_the_usual_ideas_are_ranked(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    done = call(capsys, monkeypatch, "whatif", _FAULTY, "--draws", "3")
    assert (done.code, done.err) == (0, "")
    words = " ".join(done.out.split())
    assert "Energy and money, what saves most first" in words
    assert "3 pairs of homes" in words
    assert "advises" in words
    assert "nan" not in words.casefold()


@pytest.mark.usefixtures("short")
def test_wishes_given_together_are_tried_together(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    wishes = ("--warmer", "0.5", "--setback", "2", "--from", "23:00", "--to", "05:00", "--curve",
              "-1", "--close", "small bedroom", "--larger", "rad_back_bedroom", "--insulate",
              "loft_ceiling=0.12", "--volumiser", "60", "--hot-water-window", "13:00-15:00",
              "--heat-pump", _FAULTY, "--tariff", _FAULTY)  # fmt: skip
    done = call(capsys, monkeypatch, "whatif", _HOME, *wishes, "--draws", "2", "--json")
    assert (done.code, done.err) == (0, "")
    figures = json.loads(done.out)
    change = figures["whatif.asked.electricity"]
    assert change["formula"] == "with it − as recorded"
    assert "2 K colder from 23:00 to 05:00" in change["label"]
    assert figures["whatif.asked.cost.low"]["source"] == "paired Monte Carlo, 2 draws, seed 1"


@pytest.mark.usefixtures("short")
def test_a_closed_room_and_a_stretch_of_all_day_are_told_as_what_they_are(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    wishes = ("--close", "small bedroom", "--setback", "2", "--from", "22:00", "--to", "22:00")
    done = call(capsys, monkeypatch, "whatif", _HOME, *wishes, "--draws", "2")
    words = " ".join(done.out.split())
    assert "a cold room is a damp room: air it" in words
    assert "2 K colder all day" in words


@pytest.mark.usefixtures("short")
@pytest.mark.parametrize(("wish", "is_warned"), [("50", True), ("40", False)])
def test_water_too_hot_for_heated_floors_is_warned_of(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, wish: str, is_warned: bool
) -> None:
    words = ("whatif", _HOME, "--flow-temperature", wish, "--draws", "2")
    said = " ".join(call(capsys, monkeypatch, *words).out.split())
    assert ("is hotter than heated floors are made for" in said) is is_warned


@pytest.mark.usefixtures("short")
def test_the_same_seed_says_the_same_twice(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    words = ("whatif", _HOME, "--warmer", "1", "--draws", "2", "--seed", "7", "--json")
    first, second = (call(capsys, monkeypatch, *words).out for _ in range(2))
    assert first == second


@pytest.mark.usefixtures("short")
def test_flow_temperatures_are_a_question_of_their_own(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    flows = call(capsys, monkeypatch, "whatif", _HOME, "--flow-temperatures")
    assert (flows.code, flows.err) == (0, "")
    assert "Rated output needed at 50 K, by flow temperature" in flows.out
    both = call(capsys, monkeypatch, "whatif", _HOME, "--flow-temperatures", "--warmer", "1")
    assert both.code == 2
    assert "ask one at a time" in both.err


@pytest.mark.parametrize(
    ("wishes", "message"),
    [
        (("--close", "kitchn"), "No room is called 'kitchn'. Did you mean kitchen?"),
        (("--larger", "rad_lving_front"), "Did you mean rad_living_front?"),
        (("--insulate", "loft_ceiling"), "--insulate is 'loft_ceiling'; it must be a construction"),
        (("--insulate", "loft=thick"), "such as loft_ceiling=0.12"),
        (("--insulate", "attic=0.1"), "No construction is called 'attic'."),
        (("--from", "22:00"), "but not by how much; add --setback"),
        (("--setback", "2", "--to", "6"), "--to is '6'; it must be a time from 00:00 to 23:59"),
        (("--hot-water-window", "noon"), "it must be two times, such as 13:00-15:00"),
        (("--hot-water-window", "13:00-13:00"), "it must be two times, such as 13:00-15:00"),
        (("--warmer", "nan"), "change of the wanted temperature is nan K"),
        (("--flow-temperature", "90"), "flow temperature is 90 °C; it must lie between"),
        (("--draws", "1"), "number of draws is 1; it must lie between 2 and 2000"),
        (("--seed", "-1", "--warmer", "1"), "seed is -1"),
        (("--tariff", "nowhere.yaml"), "nowhere.yaml"),
    ],
)
def test_what_cannot_be_used_is_said_in_one_message(
    wishes: tuple[str, ...],
    message: str,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    done = call(capsys, monkeypatch, "whatif", _HOME, *wishes)
    assert (done.code, done.out) == (2, "")
    assert message in done.err


def test_a_heat_pump_is_read_from_a_file_of_its_own_with_every_fault(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "unit.yaml"
    path.write_text(
        "heat_pump:\n  description: a smaller one\n  points:\n"
        "    - {outdoor_temperature: 7, flow_temperature: 35, output: 5 kW, efficiency: none}\n"
        "  refrigerant: R290\n  refrigerant_safety_class: A9\n",
        encoding="utf-8",
    )
    done = call(capsys, monkeypatch, "whatif", _HOME, "--heat-pump", str(path))
    assert done.code == 2
    assert "has 2 faults" in done.err
    assert "heat_pump.points[0].efficiency" in done.err
    assert "line 6" in done.err


def test_a_file_without_the_section_says_so(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "empty.yaml"
    path.write_text("rooms: 3\n", encoding="utf-8")
    done = call(capsys, monkeypatch, "whatif", _HOME, "--tariff", str(path))
    assert done.code == 2
    assert "has no tariff: give a record, or a file with tariff: as its first key" in done.err
