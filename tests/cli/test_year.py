"""The year's command as a person or a machine meets it: what it prints, writes and refuses."""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from typing import Any

import pytest

from hearthbook.actions import whatifs, years
from hearthbook.record.home import Home
from hearthbook.simulate.weather import Weather
from tests.cli.test_commands import Done, call
from tests.conftest import EXAMPLES
from tests.readers.weather_made import as_plain
from tests.year.short_weather import fortnight

_GOOD = str(EXAMPLES / "well_done" / "home.yaml")
_BAD = str(EXAMPLES / "with_faults" / "home.yaml")
_FILES = {
    "year.html",
    "year.pdf",
    "year.json",
    "days.csv",
    "hours.svg",
    "cold_week_temperatures.svg",
    "cold_week_electricity.svg",
}


class Command:
    """The command in this process, with a fortnight where a year would be generated."""

    def __init__(self, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
        self._capsys, self._monkeypatch = capsys, monkeypatch
        self.asked: list[tuple[int, int]] = []
        monkeypatch.setattr(years, "weather_of_home", self._fortnight)

    def _fortnight(self, home: Home, *, seed: int, years: int) -> Weather:
        self.asked.append((seed, years))
        return fortnight(home)

    def __call__(self, *words: str) -> Done:
        return call(self._capsys, self._monkeypatch, *words)


@pytest.fixture
def command(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Command:
    return Command(capsys, monkeypatch)


def _in_one_line(done: Done) -> str:
    """What was printed, however its lines were broken."""
    return " ".join(done.out.split())


@pytest.mark.parametrize("record", [_GOOD, _BAD], ids=["well done", "with faults"])
def test_a_person_is_told_of_the_year(record: str, command: Command) -> None:
    done = command("year", record)

    assert (done.code, done.err) == (0, "")
    said = _in_one_line(done)
    for words in (
        "It is no whole year",
        "It was not measured.",
        "Heat and water balance to 1 part in 1,000",
        "Seasonal efficiency, all counted (calculated)",
        "What is normal at each outdoor temperature",
        "Defrosts in the 14 days run (calculated)",
        "Electricity by month and part",
    ):
        assert words in said
    assert command.asked == [(1, 1)]


def test_a_machine_is_given_the_figures_by_name(command: Command) -> None:
    done = command("year", _GOOD, "--json", "--seed", "7")
    given = json.loads(done.out, parse_constant=pytest.fail)

    assert given["weather"] == {
        "source": given["weather"]["source"],
        "is_generated": True,
        "days": 14.0,
        "years_shared_out_over": 1.0,
    }
    figures = given["figures"]
    parts = [
        figures[f"year.electricity.{part}"]["value_si"]
        for part in ("rooms", "hot_water", "defrost", "pump", "standby", "backup", "immersion")
    ]
    assert figures["year.electricity.total"]["value_si"] == pytest.approx(sum(parts))
    assert {figure["basis"] for figure in figures.values()} == {"calculated"}
    assert command.asked == [(7, 1)]


def test_ranges_are_told_where_they_are_asked_for(
    command: Command, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(whatifs, "RANGE_DRAWS", 6)
    monkeypatch.setattr(whatifs, "generated_years", lambda home, _: (fortnight(home),))
    done = command("year", _GOOD, "--ranges", "--json")
    given = json.loads(done.out)

    low, middle, high = given["ranges_si"]["year.electricity.total"]
    assert low < middle < high
    assert set(given["ranges_si"]) <= set(given["figures"])
    january = given["ranges_si"]["year.months.january.electricity.total"]
    assert january == pytest.approx([low, middle, high])
    said = _in_one_line(command("year", _GOOD, "--ranges"))
    assert "6 homes that the record may mean were run through one year of weather" in said
    assert "With a range" in said


def test_the_same_seed_gives_the_same_words(command: Command) -> None:
    first, again = (command("year", _GOOD, "--json") for _ in range(2))

    assert first.out == again.out


def test_a_folder_holds_page_print_pictures_and_days(tmp_path: Path, command: Command) -> None:
    out = tmp_path / "made" / "year"
    done = command("year", _GOOD, "--out", str(out))

    assert (done.code, done.err) == (0, "")
    names = {path.name for path in out.iterdir()}
    assert names >= _FILES
    assert all(name in done.out for name in names)
    assert (out / "year.pdf").read_bytes().startswith(b"%PDF")
    assert "data:image/png;base64," in (out / "hours.svg").read_text(encoding="utf-8")
    lines = (out / "days.csv").read_text(encoding="utf-8").splitlines()
    assert len(lines) == 15
    assert [path.name for path in out.parent.iterdir()] == ["year"]

    again = command("year", _GOOD, "--out", str(out), "--json")
    assert set(json.loads(again.out)["files"]) == names


def test_a_folder_of_something_else_is_left_alone(tmp_path: Path, command: Command) -> None:
    (tmp_path / "letter.txt").write_text("dear", encoding="utf-8")
    done = command("year", _GOOD, "--out", str(tmp_path))

    assert done.code == 2
    assert done.err == (
        f"{tmp_path} holds files that are not a simulated year; name an empty or a new folder. "
        "Nothing was written.\n"
    )
    assert [path.name for path in tmp_path.iterdir()] == ["letter.txt"]


def test_nothing_is_left_where_a_document_has_a_defect(
    tmp_path: Path, command: Command, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(years, "defects", lambda _: ("a number that is not one",))
    done = command("year", _GOOD, "--out", str(tmp_path / "year"))

    assert done.code == 2
    assert "a number that is not one" in done.err
    assert list(tmp_path.iterdir()) == []


def test_a_weather_file_takes_the_place_of_generated_weather(
    tmp_path: Path, command: Command
) -> None:
    path = tmp_path / "weather.csv"
    path.write_text("\n".join(as_plain()) + "\n", encoding="utf-8")
    done = command("year", _GOOD, "--weather", str(path), "--json")
    given: dict[str, Any] = json.loads(done.out)

    assert given["weather"]["source"] == "weather file weather.csv"
    assert (given["weather"]["is_generated"], given["weather"]["days"]) == (False, 365.0)
    assert command.asked == []


def test_the_weather_file_of_the_record_is_taken_from_beside_it(
    tmp_path: Path, command: Command
) -> None:
    record = _with_weather_file(tmp_path)
    missing = command("year", str(record))
    assert missing.code == 2
    assert "There is no weather file" in missing.err

    shutil.copy(_written(tmp_path / "elsewhere.csv"), tmp_path / "weather.csv")
    assert "Weather: weather file weather.csv." in _in_one_line(command("year", str(record)))


def _written(path: Path) -> Path:
    path.write_text("\n".join(as_plain()) + "\n", encoding="utf-8")
    return path


def _with_weather_file(folder: Path) -> Path:
    text = Path(_GOOD).read_text(encoding="utf-8")
    head = "  climate:\n"
    assert text.count(head) == 1
    record = folder / "home.yaml"
    record.write_text(text.replace(head, f"{head}    weather_file: weather.csv\n"), "utf-8")
    return record


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (["--years", "0"], "years of weather is 0 years; it must lie between 1 and 30 years"),
        (["--years", "31"], "years of weather is 31 years; it must lie between 1 and 30 years"),
        (["--seed", "-1"], "seed is -1"),
        (["--weather", "nowhere.csv"], "There is no weather file nowhere.csv"),
        (["--weather", ".", "--years", "2"], "Leave --years out."),
        (["--weather", "."], "is a folder; name the file in it."),
    ],
)
def test_what_cannot_be_used_is_said_in_one_message(
    words: list[str], message: str, command: Command
) -> None:
    done = command("year", _GOOD, *words)

    assert (done.code, done.out) == (2, "")
    assert message in done.err
    assert "Traceback" not in done.err


def test_a_figure_of_the_year_is_explained_down_to_the_record(command: Command) -> None:
    done = command("explain", _GOOD, "year.efficiency.heat_pump")
    said = _in_one_line(done)

    assert (done.code, done.err) == (0, "")
    for words in (
        "boundary: compressor and fan, defrosts in it",
        "simulated minute by minute; balance closes to 1 part in",
        "record: building.climate.monthly_mean_temperatures[1]",
        "(assumed)",
    ):
        assert words in said


def test_all_figures_below_a_name_are_explained(command: Command) -> None:
    done = command("explain", _GOOD, "year.unit", "--json")

    assert {"year.unit.starts", "year.unit.run_longest"} <= set(json.loads(done.out))


def test_a_name_that_is_not_there_is_answered_with_near_ones(command: Command) -> None:
    done = command("explain", _GOOD, "year.unit.start")

    assert done.code == 2
    assert "Did you mean year.unit.starts" in done.err


def test_a_first_run_says_that_it_prepares(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(years, "weather_of_home", lambda home, **_: fortnight(home, 2))
    for is_prepared, words in (
        (False, "Preparing the simulation for this machine, once"),
        (True, "The year, minute by minute"),
    ):
        monkeypatch.setattr(years, "is_prepared", lambda known=is_prepared: known)
        said: list[str] = []
        years.run_home_year(Path(_GOOD), advance=said.append)
        assert words in said
        assert len(said) <= years.STEPS
